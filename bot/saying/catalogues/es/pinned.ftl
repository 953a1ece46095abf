pinned-head = { $yard }, { $day }
pinned-soil = Suelo: { $soil }.
pinned-gone = { $yard } ya no se atiende aquí.
