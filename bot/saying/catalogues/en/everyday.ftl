everyday-water_now = { $yard }: { $waiting }
    The sooner the better. Rain counts. Your label wins. After you water, say: { watering-some }
everyday-water_had = { $yard } was watered in { DAY($on, style: "on") }. It needs no more water for this.
everyday-water = { $yard }: nothing needs watering in right now. After you apply: { $depth } within { SPAN($days) }, the sooner the better. Rain counts: no hose at hand, apply just before it. Your label wins. Then tell me: { watering-enough }
everyday-which_work = Which work do you mean? I know how mowing, aerating, dethatching, raking, feeding, liming, sod, edging or burning goes with it.
everyday-mow = Mow before you apply, or wait until it is watered in and dry. Don't bag the first clippings. Your label wins.
everyday-aerate = Core aerate before you apply, or in the fall. Your label wins. Already done? Don't re-treat just for that. How long it lasts: /yard
everyday-dethatch = Dethatch or power rake before you apply. After that leave it until fall: it tears up the barrier. Your label wins.
everyday-rake = Rake leaves lightly once it is watered in and dry. Rake hard before you apply, not after. Your label wins.
everyday-feed = You can feed at the same time if that bag has no second herbicide. Count the nitrogen of both bags. Don't feed warm-season grass before it is green. Sweep granules off pavement. Your label wins.
everyday-lime = Lime before or after, on another day. A soil test tells you whether you need it. Your label wins.
everyday-sod = Lay no sod or sprigs on treated ground until the barrier is gone: it stops new roots too. Fresh sod gets no pre-emergent until it has rooted; your label says how long. Ask me: when can I seed
everyday-edge = Edge before you apply. A clean cut later does little harm, but weeds may come through the bare line. Keep soil and granules off pavement. Your label wins.
everyday-burn = Burn before you apply, never after: heat and smoke carry product off. Ask your fire department first; many places ban it. Your label wins.
everyday-topdress = Topdress before you apply. Soil on top of the barrier brings its own seed. Your label wins.
everyday-roll = Roll before you apply, and not on wet ground. Your label wins.
# Common practice, no source.
everyday-weed = Pull weeds any time. A small hole in the barrier stays small; press the soil back. Your label wins.
everyday-spray = Read both labels first, and leave days between the two unless they allow a mix. Some want dry leaves, this one wants water. Tell me what it is, so I can count it.
everyday-identify = I can't tell from words alone. Crabgrass: light green, wide short blades, stems flat on the ground like a star, mostly from late spring on.
    Early in spring it is rarely crabgrass. Tall fescue clumps and quackgrass come back each year, and no pre-emergent stops them.
    Take a plant with its roots to your county extension office. See crabgrass? Tell me where: crabgrass along the drive
