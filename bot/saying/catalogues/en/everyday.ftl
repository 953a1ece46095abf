everyday-water_now =
    { $yard }: { $waiting }
    The sooner the better; rain counts, your label wins. Tell me what you water: watered 0.3 in
everyday-water = { $yard }: nothing waits for water now. Once it is down: { $depth } within { SPAN($days) }, the sooner the better; rain counts. Your label wins. Then tell me: watered 0.5 in
everyday-which_work = Which work do you mean? I can say how mowing, aerating, dethatching, raking, feeding, liming, sod, edging or burning goes with it.
# Bagging before watering in removes product: Univ. of Arkansas 2009; the rest is common practice.
everyday-mow = Mow before it goes down, or wait until it is watered in and the leaves are dry. Don't bag the first clippings after it. Your label wins.
# Coring after a pre-emergent mostly did not raise crabgrass: Branham and Rieke 1986, Agron. J. 78:1089.
everyday-aerate = Core aeration: before the product is down, or in autumn, if you can; the label wins. Done already? Put nothing more down for that alone. How long the barrier holds: /yard
# Common practice, no source.
everyday-dethatch = Dethatch or power rake before the product goes down. Once it is down, leave it until fall: it tears up the barrier. Your label wins.
# Common practice, no source.
everyday-rake = A light raking of leaves does no harm once it is watered in and dry. Rake hard before it goes down, not after. Your label wins.
# Common practice, no source.
everyday-feed = Feeding goes with it, if the bag holds no second herbicide. Count the nitrogen of both bags. Don't feed warm-season grass before it is green. Sweep granules off paving. Your label wins.
# Common practice, no source.
everyday-lime = Lime may go down before or after, on another day. Let a soil test say whether you need it. Your label wins.
# Extension advice: no pre-emergent on sod before it has rooted (product labels say how long).
everyday-sod = No sod or sprigs on ground that was treated until the barrier is gone: new roots stop too. Fresh sod gets no pre-emergent until it has rooted, and your label says how long. Ask me: when can I seed
# Common practice, no source.
everyday-edge = Edge before it goes down. Later a clean cut does little harm, but the bare line may let weeds through. Keep soil and granules off paving. Your label wins.
# Common practice, no source.
everyday-burn = Burn before it goes down, never over it: heat and smoke carry product off. Ask your fire department first; many places forbid it. Your label wins.
# Common practice, no source.
everyday-topdress = Topdress before it goes down. Soil on top of the barrier brings seed of its own. Your label wins.
# Common practice, no source.
everyday-roll = Roll before it goes down, and not on wet ground. Your label wins.
# Common practice, no source.
everyday-weed = Pull weeds any time. A small hole in the barrier stays small; press the soil back. Your label wins.
# Common practice, no source.
everyday-spray = Another spray: read both labels first, and leave days between unless they allow a mix. Some want dry leaves, this one wants water. Tell me what it is, so that I can count it.
# Extension keys to seedlings: rolled or folded bud, ligule, hairs; from memory, no source at hand.
everyday-identify =
    I can't tell it from words alone. Crabgrass: light green, wide short blades, stems flat on the ground like a star, mostly from late spring on.
    Early in spring it is rarely crabgrass: tall fescue clumps and quackgrass come back each year, and no pre-emergent stops them.
    Take a plant with its roots to your county extension office. See crabgrass? Tell me where: crabgrass along the drive
