# Questions about the trade that need no place. Sources stand above each; the label wins over all.
facts-who = I'm Soilbell, a program and no person. I watch a lawn's soil, call you in time, work out amounts and keep your record. I ask for no money. What I say is no substitute for the label, or for a licensed applicator where one is needed.
# Life cycle: extension turf pages, common knowledge of the trade; no one source.
facts-crabgrass = Crabgrass is a grass that lives one summer: up from seed in spring, wide by July, dead at frost. One plant leaves thousands of seeds. A pre-emergent stops its seedlings before you see them, and nothing that is up already.
facts-preemergent = A pre-emergent lies in the top of the soil and stops seedlings as they sprout. Water carries it there. So apply it before weeds come up. It stops grass seed too, and leaves grown grass and grown weeds alone.
facts-dry = Not watered in yet? Water it now: half an inch, sprays first; they lose most by waiting. Watered in already? Dry soil keeps it well, and weeds wait for rain too. Don't apply more for that alone. Your label wins.
# Common practice, no source.
facts-old_bag = Dry, closed and cool, granules mostly keep two or three years. Leave a bag that was wet, is caked hard, or has lost its label. A date on the bag wins. Got the label? Tell me what it says: /product
facts-leftover = Mix only what you will use. What is left goes on turf the label names, within its maximum, never down a drain, sink or ditch. Granules stay in their own bag: dry, closed, away from kids. To get rid of it, ask your county's hazardous waste day.
# Common knowledge of the trade, no one source.
facts-weed_feed = Weed-and-feed mostly kills broad-leaved weeds that are up, through their leaves. It stops no crabgrass seed unless the front names a pre-emergent: prodiamine, dithiopyr, pendimethalin. Some bags hold both, and want wet leaves first, water later. The label says which.
# Common practice, no source.
facts-frost = Not on snow or frozen ground: melt water carries it off. Wait until the ground has thawed and nothing runs. Frost on the leaves alone: wait until it is gone and the grass is dry. The soil is cold then, so you have time.
# Common practice, no source; complaints go to the state agency that licenses applicators.
facts-drift = Keep people and animals off. Note the day, hour and wind, take pictures, and ask what was sprayed. Anyone unwell: US poison line 1-800-222-1222. Your state's pesticide office takes complaints. Your own: spread or spray in little wind, and leave a strip to the fence.
facts-water_near = Your label gives the distance to wells, ponds and streams, and it wins. Leave that strip out, and any slope or pavement that runs there. Nothing before heavy rain. Some ingredients are very hard on fish. Tell me, and I mind it: back is near water
facts-new_sod = { everyday-sod }
facts-renters = Ask the owner or the association first: some want notice, signs, or their own service. Ask what was applied this year; it counts toward the label maximum. With a lawn noted I write the words for them: text for the landlord
facts-ingredient = The big name on the front says nothing. Look low on the front for "Active ingredient": a name and a percentage in small print, like prodiamine 0.38%. Tell me those two. Many bags of different names hold the same.
facts-double = No. The label rate is the most for one application, and all of it counts toward the yearly maximum. More can thin or yellow the grass, and it is against the law. For an even coat make two passes at half the rate.
facts-too_much = { beforehand-too_much }
# What the bot itself does.
facts-will_tell = You need not ask: I message you when the soil warms, when it is time, and before the deadline. Missed one? Ask any day: is it time yet
# The label alone; long sleeves, long pants and shoes are what lawn labels ask for at the least.
facts-wear = What your label says. At the least long sleeves, long pants, socks and shoes, and gloves to pour. No kids, no bare feet. Wash hands before you eat, and the clothes by themselves.
# State rules differ: no source holds for all.
facts-licence = On your own lawn, seldom, for products sold to anyone. Paid to treat others', nearly always. Rules differ by state and town, and I can't look them up: ask your state's pesticide office. Your label is the law everywhere.
# Pendimethalin is a yellow to orange dye by itself: common knowledge of the trade.
facts-pavement = Sweep it off right away, back onto the lawn. Rain carries it to drains, and wet granules can stain, pendimethalin orange. Don't hose it off.
# Rates on labels are by area; common practice for whoever is away, no source.
facts-why_size = A label gives pounds for each 1,000 square feet. So the size says how much to weigh, and keeps you under the label maximum. No tape? Pace it off: say walk. Count grass only. An area that is off shifts every amount as much.
facts-away = Going away? If the window opens before you leave, apply then, and water it in the same day. If not, ask someone to do both, or apply when you are back. Late still stops what sprouts later. For a reminder, say: remind me in 7 days
facts-why_place = Weeds go by the soil, and soil differs from town to town. From the place I get its soil, its past years and its forecast. A town or a ZIP code is enough. Weather services get it to about half a mile, and nothing about you.
# Rates follow from label figures alone.
facts-why_label = The ingredient and its strength say how long it lasts and what it may hurt. The rate and the maximum say how much you may apply. I never guess a dose, so I ask for what your label says.
facts-why_grass = Some ingredients hurt some grasses, and a label names those it allows. Knowing yours, I leave out what could harm it. Not sure? Say so: I don't know
# Common practice, no source; use on food crops is a matter of the label alone.
facts-garden = Keep it off vegetables, herbs, fruit and bare beds. No lawn product goes where you grow food unless its label names that crop. It stops garden seed for months. Flowers, shrubs and trees: only those your label names. Sweep stray granules back onto the lawn.
# Soil near 70 °F and falling: common practice, no primary source (weeds.toml); seed heads in spring: common knowledge of the trade.
facts-poa = Annual bluegrass (poa annua) sprouts in late summer and fall, when soil falls below about 70 °F. It stays small and bright green, and sets pale seed heads by spring. A pre-emergent must be down before it sprouts. To plan for it, say: late summer round
facts-too_many = I write when there is something to do: about ten times in a season, watering included. I can wait for the evening, rest a while or stop. Say: quiet 8 pm to 8 am, later, not this season, or: stop
# Licences: state law; common knowledge of the trade, no one source.
facts-crew = Good: I keep many yards, each with its place, sizes, product and record. Send them as one list: /yards template gives it. Or one by one: new yard in Lincoln, NE. /today plans the route, /crew lets others confirm. Treating lawns for pay needs a license in most states.
facts-units = { help-units_which }
# How figures of known shapes are measured: geometry, by the formulas of jobs/agronomy/shapes.
facts-measure_triangle = A pie or wedge is a triangle: its widest side, then straight from it to the tip. Say: back triangle 60x40 ft. No sharp tip? Its two level sides, and how far apart: back trapezoid 60 ft, 20 ft, 40 ft deep. Or walk its corners: walk back
facts-measure_round = Measure straight across the middle. Say: back circle 40 ft across. Longer than wide: back oval 60x40 ft. Half of one: back half circle radius 20 ft
facts-measure_ell = Cut it into two rectangles and add them: back 60x40 plus 20x15 ft. Or take the missing corner off: back 80x60 minus 20x15 ft
facts-measure_odd = Cut it into rectangles and triangles, and add them: back 40x30 plus 20x15 plus triangle 20x10 ft. All curves? Walk its edge with your phone: walk back
facts-measure_no_tape = Pace it off: back 20 by 15 paces. Or walk its corners with your phone: walk back. Know the lot's size? Take off what is no grass: lot 0.25 acre minus house 40x50 ft
facts-measure_lookup = I can't look your lot up. County records or a map often tell it: lot 0.25 acre minus house 40x50 ft. Or pace it off: back 20 by 15 paces. Or walk its corners with your phone: walk back
facts-measure_zones = To change one, send it again: front 60x40. To add one: strip 5x80 ft. Or say: remove strip, rename strip to parkway, split back in half, merge side and back
facts-measure_grass_only = Count grass only: no house, driveway, patio or beds. Take off what stands in it: back 60x40 minus patio 12x15 ft
facts-measure_sizes = Length and width of each part, grass only: front 60x40, strip 5 by 80 ft. An odd shape is a sum: back 40x30 plus 20x15 ft. No tape? Pace it: side 20 by 15 paces. Or walk its corners with your phone: walk back
# Seed heads, soil near 70 °F: as above.
facts-fall = A fall application is for annual bluegrass and other winter weeds. It goes out in late summer, before the soil falls below about 70 °F. Skip it where you seed this fall. To plan one, say: late summer round
# Height: K-State and other extension turf pages name 2.5 to 3.5 in for tall fescue and bluegrass; a third at a time is common practice, no source.
facts-mow_height = Cool-season grass: at 3 in (8 cm) or higher, often enough to cut off a third at most. Shade keeps weed seed down. Warm-season grass is cut lower. After you apply, wait until it is watered in and dry.
# The label alone.
facts-wildlife = Your label says it, under environmental hazards. Many of these are hard on fish and what lives in water. Keep it on the lawn: out of water, drains, flowers and bird feeders. Sweep up what is on pavement.
facts-health = I can't judge that. Your label names its hazards, what to wear and how long to keep off. Take the label to your doctor. Swallowed, in an eye, on skin? Tell me right away.
# Common practice, no source.
facts-brown = Grown grass seldom shows it at the label's rate. Too much, an overlap or a spill may show on thin or young turf. Do the spots follow your passes? If not, think of drought, dogs, grubs or disease. Your county extension office can tell. Put on too much? Tell me where.
# 88 ft in 20 seconds is 3 mph (computed); a steady pace about that fast: common practice, no source.
facts-walk_speed = Steadily, and always at the pace of your test. About 3 mph is usual: 88 ft in 20 seconds. Slower puts down more, faster less. Tell me yours: 88 ft in 20 sec
# Common practice, no source.
facts-nozzle = Your label may name nozzle and pressure, and it wins. Mostly: flat fans, coarse drops, low pressure. Coarse drops drift less. Another nozzle or pressure after the test needs a new test: caught 48 oz
# Works in the soil, not through leaves: labels of the trade; common practice, no one source.
facts-surfactant = Only what your label names. It works in the soil, so it needs water behind it, and no sticker or soap. A marker dye shows where you have been, where the label allows one.
# Rates are by weight or volume on labels; no source needed.
facts-eyeball = No: weigh it, or measure it as the label says. By eye it is soon double or half. Weigh what one zone takes, spread that, and stop when it is gone: amounts
# Common practice, no source.
facts-spreader_kind = Any that spreads evenly, once tested. A broadcast one is quick on open lawn. A drop one keeps it out of beds, pavement and water. A hand spreader does for small parts; bare hands don't. To test it, say: step by step
# Common practice, no source.
facts-turns = Go around the edge first, then fill in. Walk before you open the gate, and shut it before you stop or turn. A broadcast spreader: passes as far apart as its tested width. A drop one: overlap the wheel tracks.
facts-can_wait = It can wait. I still watch the soil; amounts come once you tell me.
# Common practice, no source.
facts-granules = Both work alike once watered in. Granules: a spreader, a scale, and water within days. Sprays: a sprayer, a steady pace, and the soonest water; they go on more evenly with practice. Buy what you can apply evenly. The label decides the rest.
# Two passes at half rate, crosswise: common practice of calibration guides, no one source.
facts-two_passes = Two passes at half the rate each, the second across the first, even out stripes and misses. One pass at the full rate works too, once you tested the spreader for it. The total stays the same, so nothing is doubled.
# How long it holds rises with the rate: labels of the trade, no one source.
facts-which_rate = I know only the rate you told me. Where a label gives a range, the low end holds a shorter time, the high end longer. Both count toward the yearly maximum. Take the row for your grass, and send it: 3.2 lb per 1000 sq ft
# Weighing by difference: common practice, no source.
facts-bathroom_scale = Good enough for large amounts. Weigh several zones together, holding the bucket: first without, then with product. Tell me its finest step: my scale shows 0.5 lb. Small zones want a kitchen scale.
# The odds are those of the deadline, by past years (jobs.timing).
facts-odds = "Weeds come first 1 year in 5" is for the last day. In one of five such years the first sprout before the barrier is in place. Sooner is better odds. It is never certain: watch for seedlings.
facts-window = The window is the days on which to apply. It opens some weeks before the first crabgrass. The deadline is its last day: after that the barrier comes late for the first weeds.
facts-zone = A zone is a part of the lawn that you measure and treat by itself: front, back, a strip. One is enough: front 60x40
# Half an inch and the limits as in `reasons`.
facts-rain_after = A light rain after it is good: it counts as watering in. Not before heavy rain: an inch in 48 hours can wash it off, half of that on slopes and clay. Then wait until it has passed.
# Common practice, no source.
facts-wet_grass = Granules want dry grass, so they fall through to the soil. Only where the label wants wet leaves, as weed and feed does, is it the other way. Spray once the dew is off. Your label wins.
