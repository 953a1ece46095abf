tour-opening = A season on its own. Cobb & Daughter, Quillet County and the weather are made up. The answers come from the real program.
tour-register = Stop { $number } of { $count }: the yard is set up.
tour-measure = Stop { $number } of { $count }: its zones are measured.
tour-product = Stop { $number } of { $count }: the product is entered from its label.
tour-soil_warming = Stop { $number } of { $count }: the soil warms, time to buy.
tour-window_open = Stop { $number } of { $count }: the window opens.
tour-amounts = Stop { $number } of { $count }: how much each zone needs.
tour-applied = Stop { $number } of { $count }: the product is applied.
tour-watered_in = Stop { $number } of { $count }: it is watered in.
tour-second_half_due = Stop { $number } of { $count }: the second application is due.
tour-days_pass = { $days ->
        [one] (a day passes)
       *[other] ({ SPAN($days) } pass)
    }
tour-closing = All { $count } stops reached, { $first } to { $last }.
tour-missed = The tour did not reach its stop "{ $stop }": { $reason }
