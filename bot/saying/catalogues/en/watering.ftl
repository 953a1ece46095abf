watering-rain_known = { $yard }: I already have { $rain } or more of rain for that day, and it counts.
watering-run_once = Run your sprinkler { $minutes } min.
watering-run_cycles = Run your sprinkler { $minutes } min in all: { $count } runs of { $each } min, with { $soak } min between runs. This ground can't take it faster.
watering-run_unknown = For minutes, tell me what a can catches: sprinkler 0.3 in in 20 min
watering-rain_ahead = Rain in the forecast by then: { $rain }.
watering-rain_enough = Rain in the forecast by then: { $rain }. That would be enough. I'll let you know.
watering-banned = Under the watering ban only rain counts.
watering-banned_short = Under the ban only rain counts, and the forecast has { $rain } by then. There is nothing more you can do.
watering-washout = Careful: { $rain } of rain is forecast from { $from }. Water in lightly before it so it sticks. Sweep granules off pavement and away from drains.
watering-sprinkler = Saved: your sprinkler gives { $rate } an hour, so { $depth } takes { $minutes } min.
watering-sprinkler_uneven = It is uneven: the driest quarter gets { $share }% of the average. Overlap the sprinklers or those spots stay dry.
watering-sprinkler_unread = I could not read that test. For example: sprinkler 0.3 in in 20 min, or for several cans: sprinkler 0.2, 0.3, 0.25 in in 20 min
watering-minutes_unknown = I don't know how fast your sprinkler is, so I can't use { $minutes } min. I recorded nothing.
    Set out straight-sided cans, run it 20 min, and tell me: sprinkler 0.3 in in 20 min
    Or tell me the depth: { watering-some }
watering-nothing_down = { $yard }: I know of no recent application. Tell me first: applied yesterday
watering-heavy_how_much = How much fell? My data has { $rain } of rain at { $yard } since you applied. Tell me, for example: 2 inches fell overnight, redo it?
watering-heavy_keep = { $yard }: no, leave it. { $rain } is under the { $limit } that washes product off here.
watering-heavy_watered_in = { $yard }: no, leave it. It was watered in before the rain, so it is bound to the soil and little of it moves. Don't apply again.
watering-heavy_look = { $yard }: don't redo the whole yard. { $rain } before it was watered in can move granules. Look downhill, along pavement and at drains.
    Re-treat bare spots only, within your label's yearly maximum (/amounts). Sweep what is on pavement back onto the lawn.
watering-heavy_counts = If that much fell at your yard it counts as watering in. Tell me: we got { $rain } of rain
watering-dry_watered_in = { $yard }: no. It was watered in already, { $had } since the application. Dry weeks don't undo the barrier.
watering-dry_in_time = { $yard }: not wasted. You applied { SPAN($days) } ago and have until { $by }. { $missing } to go.
watering-dry_water_now = { $yard }: not wasted, but late. It has been dry { SPAN($days) }. Water it in now, { $missing }, before weeds sprout.
watering-dry_partly_late = { $yard }: partly. Weeds sprouted while it lay dry, and those are not stopped. Water in { $missing } now for the rest, and look for seedlings.
watering-dry_share = About { $share }% of the dose is left, by its half-life. On a dry surface some ingredients go faster.
watering-none_waits = Nothing waits for water at any of your yards right now.
watering-still_short = Noted, but still short of water: { LIST($yards, style: "unit") }.
# How water is told, in the units of whoever is answered.
watering-some = { UNITS() ->
    [metric] watered 8 mm
   *[us] watered 0.3 in
}
watering-enough = { UNITS() ->
    [metric] watered 13 mm
   *[us] watered 0.5 in
}
