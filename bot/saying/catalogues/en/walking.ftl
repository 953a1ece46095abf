walking-begin = Walking { $zone }. Stand on its first corner, wait a few seconds, and share your place. Then the next corner, one way round. Say done at the last.
walking-begin_unnamed = Which zone will you walk? Like: walk front
walking-first = First corner of { $zone }. Go on to the next and share it.
walking-next = Corner { $count }, { $step } from the last. Next one, or done.
walking-same = That is the same spot as the last corner; not taken twice. Go on to the next.
walking-too_far = That place is { $distance } from { $yard }, so I left it out. Is it another yard? Say cancel first, then share it again.
walking-dropped = Last corner dropped; { $count } left. Share the next one.
walking-none_left = No corner yet. Stand on the first and share your place.
walking-too_few = Three corners or more, please; I have { $count }. Share the next one, or cancel.
walking-kept =
    { $line }
    Likely error about { $error }, { $percent } %: phones are good to some { $phone } under open sky.{ $tape }
    Total { $yard }: { $total }
walking-tape = { " " }Under { $limit } a tape is better: { $zone } 60x40 ft
walking-echo = walked, { $count } corners
walking-button_walk = Walk a zone
walking-button_done = Done
walking-button_drop = Drop the last
walking-button_stop = Stop
walking-stopped = Stopped walking { $zone }; nothing was kept.
walking-pace = Your pace: { $pace }. Now paces work: front 20 x 15 paces
