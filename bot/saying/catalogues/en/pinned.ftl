# What the message of a yard says that stands pinned: its day, and how things stand on it.
pinned-head = { $yard }, { $day }
pinned-soil = Soil: { $soil }.
pinned-gone = { $yard } is no longer looked after here.
