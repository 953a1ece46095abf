zones-kept =
    { $lines }
    Total { $yard }: { $total }
    { $hint }
zones-line = { $name }: { $echo } = { $area }
zones-line_area = { $name }: { $area }
zones-line_again = { $name }: { $echo } = { $area } (was { $was })
zones-hint_right = Right? Turf only: leave out house, drive and beds. Going on keeps it; cancel drops it.
zones-hint_others = All zones of { $yard }: { $names }
zones-question = { $question }
zones-unread_more = The rest is kept.
zones-list =
    Zones of { $yard }, { $total } in all:
    { $lines }
    Change one by saying it again: { $name } 60x40 ft. Take one out: remove { $name }
zones-none =
    Tell me each part that gets treated, like:
    front 60x40 ft, strip 5 by 80 ft, south bed 12 m x 9 m minus 3x4
    Or areas: back 2,400 sq ft, or 0.25 acre. Turf only.
zones-ask_fix =
    Say the zone again with the right size, like:
    { $example }
    Or take one out: remove { $name }
zones-kept_all = Kept, { $total } in all.
zones-kept_all_product = Kept, { $total } in all. /amounts shows what each takes.
zones-removed = Taken out: { $names }. { $yard } has { $total } now.
zones-remove_unknown = I know no zone of { $yard } by that name: { $said }. Its zones: { $names }
zones-stranger =
    Which zone is "{ $said }"? { $yard } has: { $names }. Nothing was recorded for it.
    If it is new, measure it first: { $new } 30x20
zones-nothing_read = { $questions }
zones-remove_all = Take all { $count } zones of { $yard } out: { $names }?
zones-remove_kept = Nothing was taken out. { $yard } has { $total }.
zones-button_remove = Yes, take them out
zones-button_remove_not = No, keep them
zones-button_fix = Fix
zones-button_keep = Keep
zones-button_yes_zone = Yes, { $area }
zones-button_no_zone = No, leave it out
zones-button_another_zone = No, another zone
zones-doubt_dropped = Left out: { $said }. Say it again any time: { $example }
zones-dropped = Left it. Of those sizes nothing is kept.
zones-doubt_kept = Kept: { $name }, { $echo } = { $area }. Total { $yard }: { $total }
zones-renamed = { $was } is now called { $name }. Its record goes with it.
zones-split = { $zone }, { $area }, is now: { $parts }. What went down on it counts for each.
zones-split_ask =
    Nothing is split yet: how large is each part of { $zone }? It has { $area }. For example:
    split { $zone } into upper 20x30 and lower the rest
    Or halves: split { $zone } in half
zones-merged = { $zones } are now one zone: { $name }, { $area }. What went down stays on record.
zones-name_taken = { $yard } has a zone called { $name } already. Nothing was changed. Its zones: { $names }
zones-parts_differ = The parts come to { $parts }, the zone has { $area }. Nothing was changed. One part may be the rest, like: upper 20x30 and lower the rest
zones-removed_record = What was put down on { $zones } stays on record.
zones-same_gone = Is { $zone } where { $was } was? Something went down there { $on }. Until you say, I count it as the same.
zones-same_smaller = Is { $zone } on what { $was } had before? Something went down there { $on }. Until you say, I count it as the same.
zones-button_same = Same ground
zones-button_other = Other ground
zones-is_same = Noted: { $zone } has what went down on { $was }.
zones-is_other = Noted: { $zone } is other ground. What went down on { $was } does not count there.
