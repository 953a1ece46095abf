pictures-degrees = { $number } { $unit }
pictures-invented = PRACTICE MODE: made-up weather
pictures-soil-title_us = { $yard }: soil at 2 inches, 5-day average
pictures-soil-title_metric = { $yard }: soil at 5 cm, 5-day average
pictures-soil-headline_window = Apply { DAY($opens, style: "about") } to { $closes }
pictures-soil-headline_next = Next window: about { $opens } to { $closes }
pictures-soil-headline_open = Window open: apply and water in by { $closes }
pictures-soil-headline_late = Late: first crabgrass { DAY($up, style: "about") }
pictures-soil-headline_missed = First crabgrass was expected { $up }
pictures-soil-headline_no_spring = No clear spring rise here: use your extension office's date
pictures-soil-headline_down = Applied; no more is due
pictures-soil-headline_half = Applied; next application about { $opens }
pictures-soil-headline_half_due = The next application is due
pictures-soil-headline_capped = Your label has no full application left
pictures-soil-headline_far = This year's window is over; too early to date the next
pictures-soil-this_year = this year
pictures-soil-past = past years
pictures-soil-past_regional = regional average
pictures-soil-outlook = forecast
pictures-soil-legend_past = Forecast: dark is 1 chance in 2, light 4 in 5. Past years: dotted is the average, hatched 4 years in 5.
pictures-soil-legend_past_regional = Forecast: dark is 1 chance in 2, light 4 in 5. No past years are known here: the regional average is rough.
pictures-soil-chance = Weeds come first 1 year in { $one_in }.
pictures-soil-band = rule of thumb, { $low } to { $high } { $unit }
pictures-soil-today = today, { $day }
pictures-soil-window = apply: { $first } to { $last }
pictures-soil-window_past = the window was { $first } to { $last }
pictures-soil-first_up_past = first crabgrass was expected { $middle }
pictures-soil-first_up = first crabgrass: { $middle } ({ $first } to { $last })
pictures-soil-fresh = Soil data through { $day }.
pictures-soil-old = OLD DATA: only through { $day }, { SPAN($days) } ago.
pictures-soil-no_data = No soil data in the last weeks.
pictures-soil-place = From { $place }.
pictures-soil-modelled = Estimated from air temperature.
pictures-soil_text-whole = Chart. { $title }. { $headline }. { $now } { $past } { $outlook } { $spans } { $notes }
pictures-soil_text-now = Latest { $soil } on { $day }.
pictures-soil_text-now_unknown = No soil data in this time.
pictures-soil_text-past = Past years that day: average { $mean }, 4 in 5 between { $low } and { $high }.
pictures-soil_text-outlook = Forecast for { $day }: { $middle }, 4 chances in 5 { $low } to { $high }.
pictures-soil_text-reaches = Middle of the forecast reaches { $edge } about { $day }.
pictures-soil_text-span = { $label }.
pictures-sketch-total = { $count ->
        [one] 1 zone
       *[other] { $count } zones
    }, { $total } to treat.
pictures-sketch-total_left = { $count ->
        [one] 1 zone
       *[other] { $count } zones
    }, { $total }: { $left } still to treat.
pictures-sketch-total_done = { $count ->
        [one] 1 zone
       *[other] { $count } zones
    }, { $total }: all done.
pictures-sketch-dotted = Dotted: left untreated.
pictures-sketch-buffer = Dotted band: the buffer along water, left untreated. Its size is right; the side is a guess.
pictures-sketch-dashed = Dashed: the area is right, the shape is not known.
pictures-sketch-ticked = Check mark: done.
pictures-sketch-to_scale = Drawn to scale, north up, from walked corners.
pictures-sketch-one_scale = All drawn to one scale. Their position is not known.
pictures-sketch-rest_one_scale = Below the map: same scale, position not known.
pictures-sketch-cutouts = Hatched: cut out, not treated.
pictures-sketch-cutouts_guessed = Hatched: cut out, not treated. The size is right; the spot is a guess.
pictures-sketch-left_out = { $count } more did not fit here: see /zones.
pictures-sketch-area_only = area only (shape not known)
pictures-sketch-not_treated = not treated
pictures-sketch-buffered = { $treated } to treat, buffer { $buffer }
pictures-sketch-zone = zone { $number }
pictures-sketch-empty = No zones yet.
pictures-sketch-north = N
pictures-sketch_text-whole = Sketch of { $title }. { $zones } { $total } { $notes }
pictures-sketch_text-zone = { $number }. { $parts }.
pictures-years-title = Years side by side
pictures-years-head = { $yard }: years side by side
pictures-years-opened = the window opened
pictures-years-applied = applied
pictures-years-seen = first weeds seen
pictures-years-text = { $year }: applied { $applied }.
pictures-years-text_none = { $year }: nothing applied.
pictures-years-text_opened = The window opened { $day }.
pictures-years-text_seen = First weeds seen { $day }.
