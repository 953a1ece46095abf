walking-begin = Walking { $zone }. Stand on the first corner, wait a few seconds, and share your location. Go around in one direction. Say done after the last corner.
walking-begin_unnamed = Which zone will you walk? For example: walk front
walking-first = First corner of { $zone }. Go to the next one and share it.
walking-next = Corner { $count }, { $step } from the last one. Go on, or say done.
walking-same = That is the same spot as the last corner, so I skipped it. Go to the next one.
walking-too_far = That spot is { $distance } from { $yard }, so I skipped it. Is it another yard? Say cancel first, then share it again.
walking-dropped = Last corner dropped; { $count } left. Share the next one.
walking-none_left = No corner yet. Stand on the first and share your location.
walking-too_few = I need three corners or more. I have { $count }. Share the next one, or cancel.
walking-kept = { $line }
    Likely off by about { $error } ({ $percent }%). Phones are good to about { $phone } under open sky.{ $tape }
    Total { $yard }: { $total }
walking-tape = { " " }Under { $limit } a tape is better: { $zone } 60x40 ft
walking-echo = walked, { $count } corners
walking-button_walk = Walk a zone
walking-button_done = Done
walking-button_drop = Drop the last
walking-button_stop = Stop
walking-stopped = Stopped walking { $zone }. Nothing was saved.
walking-pace = Your pace: { $pace }. Now paces work: front 20 x 15 paces
