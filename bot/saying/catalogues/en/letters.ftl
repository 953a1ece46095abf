letters-all = all zones
letters-button_watered = I watered it in
letters-soil_warming =
    { $yard }: the soil is warming. { $form ->
        [spray] Buy product and check your sprayer.
       *[granule] Buy product and set your spreader.
    } First crabgrass in about { SPAN($weeks, unit: "week") } ({ $up }). I'll message you when the window opens.
letters-soil_warming_shelf =
    { $yard }: the soil is warming. You have enough product ({ $shelf }), so { $form ->
        [spray] check your sprayer.
       *[granule] set your spreader.
    } First crabgrass in about { SPAN($weeks, unit: "week") } ({ $up }). I'll message you when the window opens.
letters-soil_warming_again = { $yard }: false alarm. The window is closed again: first crabgrass is now expected { DAY($up, style: "about") }. I'll message you when it opens. What you already applied still counts.
letters-window_open = { $yard }: window open. Apply and water in by { $closes } (weeds come first 1 year in { $one_in }). Zones: { $zones }.
letters-window_open_late = { $yard }: window open. Apply and water in as soon as you can. First crabgrass: { DAY($up, style: "about") }. Zones: { $zones }.
letters-act_now = { $yard }: last call. Apply and water in by { $closes } (weeds come first 1 year in { $one_in }). Zones: { $zones }.
letters-act_now_late = { $yard }: last call. Apply and water in today or tomorrow. First crabgrass: { DAY($up, style: "about") }. Zones: { $zones }.
letters-window_missed = { $yard }: it is too late for a plain pre-emergent on { $zones }. Crabgrass is coming up about now. Look for seedlings. Some products still work on small ones (dithiopyr up to 2-3 leaves); check your label. Want an earlier call next spring? /yard
letters-water_in = { $yard }: water it in. { $missing } to go by { $by } ({ $had } of { $wanted } so far). After you water, say: { watering-some }
letters-water_in_last = { $yard }: last call to water in by { $by }. { $missing } to go ({ $had } of { $wanted } so far). After you water, say: { watering-some }
letters-water_in_over = { $yard }: the watering deadline was { $by }, and it got { $had } of { $wanted }. Give it the other { $missing } anyway. The barrier may be weaker, so watch for seedlings.
letters-watered_in = { $yard }: watered in, { $had } since you applied. Nothing to do.
letters-second_half_due = { $yard }: application { $number } of { $rounds } is due. Apply if your label's yearly maximum still allows it, then water it in. Zones: { $zones }.
letters-barrier_fading = { $yard }: the barrier is wearing off and weeds are still sprouting. Re-treat if your label's yearly maximum allows. Zones to treat: { $zones }.
letters-season_over = { $yard }: the crabgrass season is over. Nothing more to apply against it this year.
letters-data_stale = { $yard }: careful, my soil data is { SPAN($age) } old. Until it is back, use a thermometer at 2 in and your extension office's date.
letters-seeding_possible = { $yard }: your label's waiting time is over. You can seed again.
letters-needed = You need { $amount }.
letters-state = { $yard } is now: { $state }.
letters-late = Too late for a plain pre-emergent on { $zones }. Look for seedlings there.
letters-button_later = Later
letters-button_mute = Not this season
letters-data_stale_back = { $yard }: soil data is back. What I tell you now is current.
letters-digest_head = { $count } yards have news.
letters-digest_window_open = Window open, apply and water in: { $yards }.
letters-digest_act_now = Last call, apply now: { $yards }.
letters-digest_soil_warming = Soil is warming, buy now: { $yards }.
letters-digest_soil_warming_shelf = Soil is warming, you have enough product: { $yards }.
letters-digest_soil_warming_again = False alarm, window closed again: { $yards }.
letters-digest_window_missed = Too late for a plain pre-emergent: { $yards }.
letters-digest_water_in = Needs watering in: { $yards }.
letters-digest_water_in_last = Last call to water in: { $yards }.
letters-digest_water_in_over = Missed the watering deadline, water anyway: { $yards }.
letters-digest_watered_in = Watered in, nothing to do: { $yards }.
letters-digest_second_half_due = Second application due: { $yards }.
letters-digest_barrier_fading = Barrier wearing off: { $yards }.
letters-digest_season_over = Season over: { $yards }.
letters-digest_data_stale = Soil data is old, use a thermometer: { $yards }.
letters-digest_data_stale_back = Soil data is back: { $yards }.
letters-digest_seeding_possible = You can seed again: { $yards }.
letters-digest_other = News: { $yards }.
letters-digest_by = { $yard } (by { $by })
letters-digest_missing = { $yard } ({ $missing } to go by { $by })
letters-digest_more = { LIST($names, style: "comma") } and { $count } more
letters-digest_soil = Soil at 2 inches: { $low } to { $high } (5-day averages through { $known }). Rule of thumb: { $band_low } to { $band_high }.
letters-digest_soil_one = Soil at 2 inches: { $low } (5-day average through { $known }). Rule of thumb: { $band_low } to { $band_high }.
letters-digest_load = Load for these yards: { $amounts }.
letters-digest_button = Today's route
letters-digest_all_watered = All of these are watered
letters-digest_all_none = None seen at any
letters-digest_all_later = Later, all of them
letters-digest_done_watered = Noted as watered in: { LIST($yards, style: "unit") }.
letters-digest_done_none = Noted, none seen: { LIST($yards, style: "unit") }.
letters-digest_done_later = I call again in { $days } days about: { LIST($yards, style: "unit") }.
letters-digest_shopping = Shopping list
letters-rough = There is no clear season here, so these dates are rough. Use your extension office's date and look for seedlings.
letters-turns = Do { $first } first. { $rest }.
letters-turn_later = { $zones } can wait about { SPAN($days) }
letters-repeat =
    You may have this already, so do nothing twice. My first try got no answer.
    { $message }
letters-digest_each = Yard by yard
letters-each_head =
    { $count ->
        [one] One yard is still to answer.
       *[other] { $count } yards are still to answer.
    }
letters-each_done = All of them are answered.
letters-each_watered = Watered: { $yard }
letters-each_none = None seen: { $yard }
letters-each_later = Later: { $yard }
