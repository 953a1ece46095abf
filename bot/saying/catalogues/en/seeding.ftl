seeding-yes = { $zone }: seed can go in { $on }, as far as the barrier is concerned.
seeding-unknown = { $zone }: I can't say. What went down { $day } is not known, and a pre-emergent can hold seed back for months. Ask who put it down; the bag's label says how long.
seeding-yes_free = { $zone }: nothing is on record there that would hold seed back. { $on } is open.
seeding-no = { $zone }: not { $on }. Earliest { $earliest }.
seeding-when = { $zone }: from { $earliest }.
seeding-reason_label = Your label's { SPAN($days) } after { $ingredient } ({ $treated }) decide.
seeding-reason_default = { SPAN($days) } after { $ingredient } ({ $treated }): a long default, since I don't know your label's interval. Your label wins; tell me: seed { $zone } { $on }, label 12 weeks
seeding-reason_default_form = A granule holds seed back longer than a spray.
seeding-reason_at_seeding = { $ingredient } may go on with that seed.
seeding-trial = A published trial saw { $species } held back for { SPAN($weeks, unit: "week") }; that is longer than this wait.
seeding-slit = Slit seeding was held back longer than broadcast seed in trials.
seeding-at_seeding = May go on with that seed, by its label: { $names }. Any other pre-emergent waits for the 3rd or 4th mowing.
seeding-no_species = I took no particular grass, so no exception for one.
seeding-collides = It collides with { $round } { DAY($day, style: "about") } on { $zones }: seed would be stopped, or the barrier broken. Which goes first there?
seeding-collides_known = It collides with { $round } { DAY($day, style: "about") } on { $zones }. Choose when you plan it.
seeding-round_winter_annuals = the late-summer round
seeding-round_summer_annuals = the crabgrass round
seeding-button_plan = Plan it for { $on }
seeding-button_seed_first = Seed first
seeding-button_round_first = The round first
seeding-planned = Planned: seed { $zones } { $on }. I tell you when the barrier lets seed through.
seeding-seed_first = { $zones }: seed goes first, no round there this time. Look for weeds and pull them.
seeding-round_first = { $zones }: the round goes first; the seeding is off the plan.
seeding-sown = Recorded: { $zones } seeded { $on }. No pre-emergent there before the 3rd or 4th mowing; your label may say longer. Tell me each mowing: mowed { $zone }
seeding-mown = { $zone }: mown { $count } of { $wanted } times.
seeding-mown_ready = { $zone }: mown { $count ->
        [one] { $count } time
       *[other] { $count } times
    }, back in the rounds. Your label may ask for more.
seeding-mown_before = { $zone }: the mowing { $on } is counted, { $count } of { $wanted } times. I count one a day.
seeding-mown_early = { $zone } was seeded { $seeded }, so a mowing { $on } is not one of the new grass and doesn't count. Tell me of later ones, like: mowed { $zone }
seeding-future_mown = "{ $said }" is still to come, so I counted nothing. Tell me when it is mown, like: mowed { $zone }
seeding-mown_none = No new seed is waiting for mowings at { $yard }.
seeding-future_sown = "{ $said }" is still to come. To plan it: seed { $zone } { $said }
seeding-unclear = Which zone do you mean? Zones of { $yard }: { $names }. For example: can I seed the { $zone } on 5 September?
seeding-gone = That seeding is no longer on the plan.
