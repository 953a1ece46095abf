rounds_of_work-head = { $day }: { $left } of { $all ->
        [one] { $all } yard
       *[other] { $all } yards
    } still to do today, { $done } done.
rounds_of_work-head_all_done = { $day }: all done ({ $done }).
rounds_of_work-head_none = { $day }: nothing to do.
rounds_of_work-begin = At { $count ->
        [one] { $count } yard
       *[other] { $count } yards
    } a day, start by { $by } to finish all { $all } in time. Rain days are included.
rounds_of_work-late = You need more than { $count } a day. Or treat first with long-lasting products. Otherwise the last yards are late.
rounds_of_work-takes = All of it takes about { SPAN($days) } at { $count } a day, rain days included.
rounds_of_work-load = Load for today: { $amounts }.
rounds_of_work-load_one = { $amount } of { $product }
rounds_of_work-line = { $number }. { $yard }: { LIST($what, style: "comma") }
rounds_of_work-line_town = { $number }. { $yard } ({ $town }): { LIST($what, style: "comma") }
rounds_of_work-tanks = { $product }: { $loads } tanks of { $tank }; { $amount } into { $water } of each.
rounds_of_work-drive = In driving order, some { $far } mi as the crow flies.
rounds_of_work-drive_metric = In driving order, some { $far } km as the crow flies.
rounds_of_work-start_hint = Say where you start: we start from Wahoo, NE
rounds_of_work-start_set = Your route starts from { $place }; the day's list goes to the nearest next.
rounds_of_work-start_unknown = I don't know that place: { $said }. Write town and state, a ZIP code or coordinates: we start from Wahoo, NE
rounds_of_work-line_done = { $number }. { $yard }: done { $at }{ $by }
rounds_of_work-by_whom = { " " }by { $name }
rounds_of_work-due_by = by { $by } ({ SPAN($days) } left)
rounds_of_work-due_late = late, do it now; it helps up to { $by }
rounds_of_work-due_today = deadline today
rounds_of_work-due_half = second application
rounds_of_work-opens = opens { DAY($on, style: "about") }, deadline { $by }
rounds_of_work-good = { $count ->
        [0] no good day in the forecast
        [one] 1 good day left
       *[other] { $count } good days left
    }
rounds_of_work-stopped = label limit reached, see its amounts
rounds_of_work-no_amount = no amount yet; see its amounts
rounds_of_work-no_product = no product yet
rounds_of_work-later = After today:
rounds_of_work-resting = { $count ->
        [one] 1 yard
       *[other] { $count } yards
    } with nothing due.
rounds_of_work-page = Page { $page } of { $pages }.
rounds_of_work-caution = Tap Done after you apply. Your label is the law. Keep kids and pets off until it is watered in and dry.
rounds_of_work-button_tick = Done: { $yard }
rounds_of_work-button_next = More
rounds_of_work-button_back = Back
rounds_of_work-button_left = What is left
rounds_of_work-button_today = The list
rounds_of_work-from_to = { $begun } to { $ended }
rounds_of_work-ticked = { $yard } marked done.{ $hours } Mistake? /undo
rounds_of_work-tonight = Left today: { $count } of { $all }.
rounds_of_work-tonight_none = Nothing left to do today.
rounds_of_work-tonight_line = { $yard }: { LIST($what, style: "comma") }
rounds_of_work-tonight_load = Not used: { $amounts }. Store it dry in its own bag, away from kids and pets.
rounds_of_work-tonight_next = First tomorrow: { $yard }.
