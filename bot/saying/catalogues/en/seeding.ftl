seeding-yes = { $zone }: you can seed { DAY($on, style: "on") }. The barrier is no longer in the way.
seeding-unknown = { $zone }: I can't say. I don't know what was applied { $day }, and a pre-emergent can stop seed for months. Ask who applied it. The bag's label says how long.
seeding-yes_free = { $zone }: you can seed { DAY($on, style: "on") }. Nothing on record stops seed there.
seeding-no = { $zone }: not { DAY($on, style: "on") }. The earliest is { $earliest }.
seeding-when = { $zone }: from { $earliest }.
seeding-reason_label = Your label says { SPAN($days) } after { $ingredient } ({ $treated }).
seeding-reason_default = I use { SPAN($days) } after { $ingredient } ({ $treated }), a long wait, because I don't know your label's. Your label wins. Tell me: seed { $zone } { $on }, label 12 weeks
seeding-reason_default_form = A granule stops seed longer than a spray.
seeding-reason_at_seeding = You can use { $ingredient } with that seed, if the label agrees.
seeding-trial = A published trial found { $species } held back for { SPAN($weeks, unit: "week") }, longer than this wait.
seeding-slit = Slit seeding was held back longer than broadcast seed in trials.
seeding-at_seeding = With that seed, if the label agrees: { $names }. Others wait for the 3rd or 4th mowing.
seeding-no_species = You named no grass, so I made no exception.
seeding-collides = That conflicts with { $round } on { $zones }, { DAY($day, style: "about") }. The seed would be stopped or the barrier broken. Which goes first?
seeding-collides_known = That conflicts with { $round } on { $zones }, { DAY($day, style: "about") }. You choose when you plan it.
seeding-round_winter_annuals = the late-summer application
seeding-round_summer_annuals = the crabgrass application
seeding-button_plan = Plan it for { $on }
seeding-button_seed_first = Seed first
seeding-button_round_first = Application first
seeding-planned = Planned: seed { $zones } { DAY($on, style: "on") }. I'll tell you when the barrier is out of the way.
seeding-seed_first = { $zones }: seed comes first. I skip that application there. Watch for weeds and pull them.
seeding-round_first = { $zones }: the application comes first. I took the seeding off the plan.
seeding-sown = Recorded: { $zones } seeded { $on }. No pre-emergent there before the 3rd or 4th mowing; your label may want longer. Tell me each mowing: mowed { $zone }
seeding-mown = { $zone }: mowed { $count } of { $wanted } times.
seeding-mown_ready = { $zone }: mowed { $count ->
        [one] { $count } time
       *[other] { $count } times
    }, back in the plan. Your label may want more.
seeding-mown_before = { $zone }: I already counted a mowing { $on } ({ $count } of { $wanted }). I count one a day.
seeding-mown_early = { $zone } was seeded { $seeded }. A mowing { $on } was not the new grass, so I did not count it. Tell me about later ones: mowed { $zone }
seeding-future_mown = "{ $said }" is in the future, so I counted nothing. After you mow, say: mowed { $zone }
seeding-mown_none = No new seed at { $yard } is waiting for mowing.
seeding-future_sown = "{ $said }" is in the future. To plan it: seed { $zone } { $said }
seeding-unclear = Which zone do you mean? Zones of { $yard }: { $names }. For example: can I seed the { $zone } on 5 September?
seeding-gone = That seeding is no longer planned.
seeding-long_ago = Seeded { $on }: that has long grown in, so nothing waits for it. I recorded nothing.
