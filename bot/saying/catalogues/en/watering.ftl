watering-rain_known = { $yard }: I have { $rain } or more of rain for that day already, and it counts.
watering-run_once = That is { $minutes } min of your sprinkler.
watering-run_cycles = That is { $minutes } min of your sprinkler, in { $count } runs of { $each } min with { $soak } min of soak between: this ground takes no more at once.
watering-no_rate = Tell me how fast your sprinkler is, once: set straight-sided cans out, run it 20 min, and say: sprinkler 0.3 in in 20 min
watering-rain_ahead = Forecast until then: { $rain } of rain.
watering-rain_enough = Forecast until then: { $rain } of rain, which would do it. I tell you.
watering-banned = Under the watering ban only rain counts.
watering-banned_short = Under the watering ban only rain counts, and the forecast has { $rain } until then. Nothing more to do; ask me later what it means.
watering-washout = Careful: { $rain } of rain is forecast from { $from }. Water in lightly before it, so that it binds, and sweep granules off paving and away from drains.
watering-sprinkler = Noted: your sprinkler gives { $rate } an hour, so { $depth } takes { $minutes } min.
watering-sprinkler_uneven = It is uneven: the driest quarter gets { $share } % of the mean. Overlap the throws, or those spots stay dry.
watering-sprinkler_unread = I could not read that test. For example: sprinkler 0.3 in in 20 min, or for several cans: sprinkler 0.2, 0.3, 0.25 in in 20 min
watering-minutes_unknown =
    I don't know yet how fast your sprinkler is, so { $minutes } min tell me nothing, and nothing was recorded.
    Set straight-sided cans out, run it 20 min, and say: sprinkler 0.3 in in 20 min
    Or tell me the depth itself: watered 0.3 in
watering-nothing_down = { $yard }: I know of no application lately. Tell me first: applied yesterday
watering-heavy_how_much = How much fell? For example: 2 inches fell overnight, redo it?
watering-heavy_keep = { $yard }: no, leave it. { $rain } is under the { $limit } that carries product off here.
watering-heavy_watered_in = { $yard }: no, leave it. It was watered in before the rain; the ingredient sticks to the soil, and little of it moves. Put no second dose on.
watering-heavy_look =
    { $yard }: not as a whole. { $rain } on ground where it was not yet watered in can move granules: look downhill, along paving and at drains for washed spots.
    Only bare spots may get it again, within your label's yearly maximum (/amounts). What is on paving: sweep it back onto the lawn.
watering-heavy_counts = The rain counts as watering in: nothing more to do.
watering-dry_watered_in = { $yard }: no. It was watered in already, { $had } since the application; dry weeks don't undo the barrier.
watering-dry_in_time = { $yard }: not wasted. It is { SPAN($days) } down and has until { $by }: { $missing } still missing.
watering-dry_water_now = { $yard }: not wasted, but late. It has lain { SPAN($days) } dry: water it in now, { $missing }, before weeds sprout.
watering-dry_partly_late = { $yard }: partly. Weeds began while it lay dry: what is up is not stopped. Water in { $missing } now for those to come, and look for seedlings.
watering-dry_share = Of the dose about { $share } % is left by its half-life; on a dry surface some ingredients go faster.
