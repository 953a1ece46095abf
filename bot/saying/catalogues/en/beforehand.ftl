beforehand-where = For your own lawn I need its place. Type a town and state, such as: Salina, Kansas
# Band: Michigan State University Extension 2020; PNW Weed Management Handbook. Rest: Fidanza and others 1996.
beforehand-when = Put it down when the soil at 2 in (5 cm) nears 50 to 55 °F (10 to 13 °C), two or three weeks before crabgrass comes up. From the Gulf to Canada that is February to May.
beforehand-late = Once crabgrass is up, a plain pre-emergent no longer stops it. Before that, late is better than never, watered in at once. Small plants: pull them, or spot-treat with what your label names for them.
# Extension advice: dense turf keeps most crabgrass out; it stops grass seed too.
beforehand-need = You need one if crabgrass came last year, in thin turf or along paving. Not if you seed this spring: it stops grass seed too. Thick grass at 3 in (8 cm) or higher keeps most crabgrass out without it.
beforehand-weeds = Crabgrass comes first, when the soil has been warm for some days: about when it passes 55 °F (13 °C). Foxtails follow, goosegrass two or three weeks later. Annual bluegrass comes in fall.
beforehand-day = A good day: dry grass for granules, wind under 10 mph, no flood of rain to come, and a gentle half inch of water within days. Your label wins.
beforehand-why = I go by the soil's warmth at 2 in, past years and the forecast at your place, and by published counts of when crabgrass comes up. Then [Why] shows the figures.
beforehand-water = Most want about half an inch (13 mm) of water within a few days, the sooner the better. Rain counts. Your label says how much and how soon, and it wins.
# Common practice, no source: the barrier binds to soil and thatch once it is watered in.
beforehand-washed_out = Once watered in it holds to the soil, and one heavy rain mostly does not take it. Granules washed off paving or slopes are gone. Don't put more down for that alone: the label's maximum counts.
beforehand-barrier = Mostly 2 to 5 months, by ingredient and rate; warm soil, much rain and thin turf shorten it. A second application often comes 6 to 10 weeks after the first, if the label allows.
beforehand-seed = Not for months after most pre-emergents: they stop grass seed too. Seed first and wait, or seed in fall. Your label gives the months.
beforehand-notice = Once I know your lawn I write words for a neighbor, a customer or a landlord: what, when, and how long to keep off. Some places ask for signs or notice days ahead.
beforehand-amounts = It is the label's rate times the size: 3.2 lb per 1,000 sq ft on 2,500 sq ft is 8 lb. Your bag's "covers" says the same. Never more than the label's maximum.
beforehand-too_much = Put nothing more there, and water as the label says. Sweep up what lies on paving, back into the spreader. Over the label's maximum: the label's phone number says what to do. Thin or young grass may suffer; no seed there this year.
beforehand-gap = Only what was missed gets the rest, at the label's rate, soon, before weeds are up. Measure that part alone. Where you are not sure, leave it: double is worse than a stripe.
beforehand-service = Ask them what went down, how much, and when: product, rate, date. It counts toward the label's yearly maximum. Until you know, put nothing more there.
beforehand-skip = You may well skip a year where grass is thick and crabgrass was rare. Mow high, pull the few that come before they seed, and seed in fall.
