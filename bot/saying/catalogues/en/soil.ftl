soil-nothing_yet = I have no soil data for { $yard } yet. Ask again in a few minutes. Still nothing? /yard shows the location I have.
soil-unknown_now = { $yard }: no soil temperature right now.
soil-now = { $yard }: soil at 2 in is { $soil }, { $trend }.
soil-trend_up = up { $change } in a week
soil-trend_down = down { $change } in a week
soil-trend_steady = steady this week
soil-trend_unknown = trend not known
soil-past = Past years on this date: { $mean }. In 4 of 5 years: { $low } to { $high } (years of data: { $years }).
soil-past_regional = I have no past years here. A regional average says { $mean }, roughly { $low } to { $high }.
soil-first_by_region = A first estimate, by the usual year of your region. It sharpens within days, as past years of this place come in.
soil-first_by_near = A first estimate, by past years of a place close by. It sharpens within days, as those of this place come in.
soil-warm_spell = An early warm spell: { $chance } in 100 that soil stays above { $band } for a week. I go by the long-range forecast, not by one spell.
soil-late_summer_ahead = Late summer: apply against annual bluegrass between { $opens } and { $closes }.
soil-late_summer_open = Late summer: apply against annual bluegrass and water in by { $closes }.
soil-late_summer_late = Late summer: apply against annual bluegrass and water in right away. It helps up to { $closes }.
soil-late_summer_capped = Late summer: nothing to apply. Your label has no full application of this product left.
soil-late_summer_down = Late summer: applied against annual bluegrass. No more is due this year.
soil-late_summer_half = Late summer, next application: { DAY($opens, style: "about") }.
soil-late_summer_missed = Late summer: annual bluegrass was expected { $up }. A plain pre-emergent does not stop what is up.
soil-late_summer_far = Late summer: no day for annual bluegrass yet.
soil-next_ahead = Apply between { $opens } and { $closes } (weeds come first 1 year in { $one_in }).
soil-next_open = Apply and water in by { $closes } (weeds come first 1 year in { $one_in }).
soil-next_late = Apply and water in right away. The deadline was { $was }. It helps up to { $closes }.
soil-next_capped = Nothing to apply: your label has no full application of this product left.
soil-next_down = Applied. No more is due this season.
soil-next_half = Second application: { DAY($opens, style: "about") }.
soil-next_half_of = Second application of { $zones }: { DAY($opens, style: "about") }.
soil-next_half_due = The next application is due now: /amounts
soil-next_half_due_of = The next application of { $zones } is due now: /amounts
soil-first_up = First crabgrass: { DAY($up, style: "about") }. Likely { $first } to { $last } (4 chances in 5).
soil-band = Rule of thumb, { $low } to { $high }: starts { DAY($low_on, style: "about") }, ends { DAY($high_on, style: "about") }.
soil-band_inside = The soil is near the { $low } to { $high } rule of thumb. It passes that { DAY($high_on, style: "about") }.
soil-band_passed = The soil is past the { $low } to { $high } rule of thumb.
soil-next_missed = First crabgrass was expected { $up }. A plain pre-emergent does not stop weeds that are up. Look for seedlings, and see your label for what works on them.
soil-next_far = This year's window is over, or too far off to date.
soil-no_clear_spring = No clear season here: { $why }. My dates are rough. Use your extension office's date and look for seedlings from late winter on.
soil-no_spring_never_cold = the soil rarely gets that cool
soil-no_spring_slow_rise = the soil stays at those temperatures for weeks
soil-no_spring_never_warm = the soil warms too late to give a date
soil-spring_mild = Winters are mild here, so I start counting warmth before March. Look for seedlings early.
soil-spring_short = Spring is short here. When the window opens you have little time and wet ground. Be ready when I say the soil is warming.
soil-regional_apply = Published for { $region }: apply by { $last } ({ $source }).
soil-regional_germination = Published for { $region }: germination { DAY($last, style: "about") } ({ $source }).
soil-fresh = Soil data through { $day }.
soil-old = CAREFUL, old data: only through { $day }, { SPAN($days) } ago.
soil-place = From { $place }.
soil-modelled = Estimated from air temperature.
soil-no_data = No soil data yet.
soil-own = Weather data: { $grid }. Your thermometer: { $reading }, { $on } (readings so far: { $count }). I use a blend: { $blend }.
soil-thermometer_warmer = Your thermometer and weather data differ: yours has the ground { $apart } warmer. Check a second spot. If it agrees, trust yours.
soil-thermometer_colder = Your thermometer and weather data differ: yours has the ground { $apart } colder. Check a second spot. If it agrees, trust yours.
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
soil-source_warmer = Weather data has this soil { $apart } warmer for its air than in past years. Its model may have changed. Read a thermometer at 2 in and tell me; I go by it.
soil-source_colder = Weather data has this soil { $apart } colder for its air than in past years. Its model may have changed. Read a thermometer at 2 in and tell me; I go by it.
soil-button_weeds = Weeds
soil-first_look = Soil at 2 in is { $soil } now.
