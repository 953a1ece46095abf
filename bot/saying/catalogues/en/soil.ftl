soil-nothing_yet = I have no soil data for { $yard } yet. Ask again in a few minutes; if that stays so, /yard shows the place I have.
soil-unknown_now = { $yard }: no soil temperature just now.
soil-now = { $yard }: soil at 2 in is { $soil } (mean of 5 days), { $trend }.
soil-trend_up = up { $change } in a week
soil-trend_down = down { $change } in a week
soil-trend_steady = steady this week
soil-trend_unknown = trend unknown
soil-past = Past years on this date: { $mean }; four years in five { $low } to { $high } ({ $years ->
        [one] { $years } year
       *[other] { $years } years
    }).
soil-past_regional = No past years for this place: a regional curve says { $mean }, give or take ({ $low } to { $high }).
soil-warm_spell = A warm spell, early: { $chance } in 100 that the soil stays above { $band } for a week. I count on the outlook, not on one spell.
soil-next_ahead = Put it down { DAY($opens, style: "about") } to { $closes }. The window may open { $early } to { $late }.
soil-next_open = The window is open: have it down and watered in by { $closes }.
soil-next_late = Put it down and water it in at once: it was due by { $was }. It helps up to { $closes }.
soil-next_capped = Nothing to put down: your label leaves no whole round of this product.
soil-next_down = It is down. No more is due this season.
soil-next_half = It is down. The next half is due { DAY($opens, style: "about") }.
soil-next_half_due = The next half is due now: /amounts
soil-first_up = First crabgrass { DAY($up, style: "about") } ({ $first } to { $last }, four chances in five).
soil-band = The trade's { $low } to { $high } band: reached { DAY($low_on, style: "about") }, passed { DAY($high_on, style: "about") }.
soil-band_inside = The soil is near the trade's { $low } to { $high } band; past it { DAY($high_on, style: "about") }.
soil-band_passed = The soil has passed the trade's { $low } to { $high } band.
soil-next_missed = First crabgrass was due { $up }. A plain pre-emergent no longer stops what is up; look for seedlings, and see your label for what works on them.
soil-next_far = This year's window is over; the next one is too far off to date.
soil-no_clear_spring = No clear season here: { $why }. Take my dates as rough; go by your extension office's date, and look for seedlings from late winter on.
soil-no_spring_never_cold = the soil hardly ever falls to the trade's band
soil-no_spring_slow_rise = the soil lies in the trade's band for weeks on end
soil-no_spring_never_warm = the soil gets warm enough too late for a date
soil-spring_mild = Winters are mild here, so I count warmth from before March; look for seedlings early.
soil-spring_short = Springs are short and cold here: when the window opens there is little time and the ground may be wet. Be ready when I say the soil is warming.
soil-regional_apply = Published for { $region }: product down by { $last } ({ $source }).
soil-regional_germination = Published for { $region }: germination { DAY($last, style: "about") } ({ $source }).
soil-fresh = Soil known to { $day }.
soil-old = CAREFUL, old data: soil known to { $day } only, { SPAN($days) } ago.
soil-place = From { $place }.
soil-modelled = Estimated from air temperature.
soil-no_data = No soil data yet.
soil-own = Grid alone { $grid }; your thermometer { $reading }, { $on } (readings so far: { $count }). I go by the blend, { $blend }.
soil-thermometer_warmer = Your thermometer and the grid disagree: yours has the ground { $apart } warmer. Read it at a second spot; if that agrees, trust yours.
soil-thermometer_colder = Your thermometer and the grid disagree: yours has the ground { $apart } colder. Read it at a second spot; if that agrees, trust yours.
soil-thermometer_earlier =
    { $days ->
        [one] Your readings bring first crabgrass earlier by one day.
       *[other] Your readings bring first crabgrass earlier by { $days } days.
    }
soil-thermometer_later =
    { $days ->
        [one] Your readings put first crabgrass later by one day.
       *[other] Your readings put first crabgrass later by { $days } days.
    }
soil-source_warmer = The grid has this soil { $apart } warmer for its air than in past years: its model may have changed. Read a thermometer at 2 in and tell me; I go by it.
soil-source_colder = The grid has this soil { $apart } colder for its air than in past years: its model may have changed. Read a thermometer at 2 in and tell me; I go by it.
soil-button_weeds = Weeds
soil-first_look = Soil at 2 in is { $soil } now.
