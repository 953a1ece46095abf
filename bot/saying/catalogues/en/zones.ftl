zones-kept =
    { $lines }
    Total { $yard }: { $total }
    { $hint }
zones-line = { $name }: { $echo } = { $area }
zones-line_area = { $name }: { $area }
zones-line_area_again = { $name }: { $area } (was { $was })
zones-line_again = { $name }: { $echo } = { $area } (was { $was })
zones-hint_right = Right? Grass only: no house, driveway or beds. Going on keeps it; cancel drops it.
zones-within = Are the others part of { $whole }? Then one counts twice. Say: remove { $whole }
zones-another_yard = Is that another yard? I changed nothing of { $yard }. Add it with its place, then send its sizes: new yard in Wahoo, Nebraska
zones-hint_others = All zones of { $yard }: { $names }
zones-unread_more = I have the rest.
zones-list = Zones of { $yard }, { $total } in all:
    { $lines }
    To change one, send it again: { $name } 60x40 ft. To remove one: remove { $name }
zones-none = List each part you treat:
    front 60x40 ft, strip 5 by 80 ft, south side 40x30 minus 10x12
    Or areas: back 2,400 sq ft, or 0.25 acre. Grass only.
zones-ask_fix = Send the zone again with the right size:
    { $example }
    Or remove one: remove { $name }
zones-left_out = Left out, as I was not sure of it: { $said }. Send it again with its area.
zones-kept_by_going_on = Saved { $names }: { $total } in all.
zones-kept_nothing_new = No sizes wait to be saved. { $yard } has { $total }.
zones-kept_all = Saved, { $total } in all.
zones-kept_all_product = Saved, { $total } in all. /amounts shows what each needs.
zones-removed = Removed: { $names }. { $yard } has { $total } now.
zones-remove_unknown = { $yard } has no zone called { $said }. Its zones: { $names }
zones-stranger = Which zone is "{ $said }"? { $yard } has: { $names }. I recorded nothing for it.
    If it is new, measure it first: { $new } 30x20
zones-remove_which = Which zone do I remove? Say: remove { $name }. { $yard } has: { $names }
zones-remove_part = Only part of { $name }? I took out nothing. Send it again without that part: { $name } 60x40 minus 20x15, or its area: { $name } 2,100 sq ft
zones-remove_all = Remove all { $count } zones of { $yard }: { $names }?
zones-remove_kept = Nothing was removed. { $yard } has { $total }.
zones-button_remove = Yes, remove them
zones-button_forget = Remove { $zones } from the yard
zones-button_remove_not = No, keep them
zones-button_fix = Fix
zones-button_keep = Keep
zones-button_yes_all = Yes, all of them
zones-button_yes_zone = Yes, { $area }
zones-button_no_zone = No, skip it
zones-button_another_zone = No, another zone
zones-doubt_dropped = Skipped: { $said }. Send it again any time: { $example }
zones-dropped = OK, stopped. Of those sizes nothing is kept.
zones-stepped_back = OK, the last one is taken back. Still to be saved: { $names }. Total: { $total }
zones-doubt_kept = { $line }. Noted. Total { $yard }: { $total }
zones-renamed = { $was } is now called { $name }. Its record goes with it.
zones-split = { $zone }, { $area }, is now: { $parts }. What you applied on it counts for each.
zones-split_ask =
    Nothing is split yet: how large is each part of { $zone }? It has { $area }. For example:
    split { $zone } into upper 20x30 and lower the rest
    Or halves: split { $zone } in half
zones-merged = { $zones } are now one zone: { $name }, { $area }. What you applied stays on record.
zones-name_taken = { $yard } already has a zone called { $name }. Nothing was changed. Its zones: { $names }
zones-parts_differ = The parts come to { $parts }, the zone has { $area }. Nothing was changed. One part may be the rest: upper 20x30 and lower the rest
zones-removed_record = What you applied on { $zones } stays on record.
zones-same_gone = Is { $zone } where { $was } was? Something was applied there { $on }. Until you answer I count it as the same.
zones-same_smaller = Is { $zone } on part of what { $was } had? Something was applied there { $on }. Until you answer I count it as the same.
zones-button_same = Same ground
zones-button_other = Other ground
zones-is_same = Noted: { $zone } has what was applied on { $was }.
zones-is_other = Noted: { $zone } is other ground. What was applied on { $was } does not count there.
zones-default_name = zone { $number }
