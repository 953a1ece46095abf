timing-not_yet = Not yet: put it down at { $yard } between { $opens } and { $closes }.
timing-any_day = Any day now: I call as soon as the soil says so. Have it down and watered in at { $yard } by { $closes }.
timing-now = Now: have it down and watered in at { $yard } by { $closes }.
timing-at_once = Now, today if you can: crabgrass is due at { $yard } { DAY($up, style: "about") }. Water it in at once.
timing-passed = It is late: first crabgrass was due at { $yard } { $up }. Ask me: is it too late
timing-far = Not now: this year's window at { $yard } is over, or too far off to date. I call when it comes.
timing-capped = No more now: your label leaves no whole round of this product at { $yard }. Look for seedlings.
timing-down_second = It is down ({ $yard }, { $last }); the second one { DAY($on, style: "about") }.
timing-down_last = It is down ({ $yard }, { $last }). No second one is planned this spring.
timing-down_capped = It is down ({ $yard }, { $last }). No second one: your label leaves no whole round.
timing-second_now = Now: the second one is due at { $yard }. How much: /amounts
timing-part_down = A part is down. Still to do: { $zones }.
timing-range = The window may open { $early } to { $late }.
timing-button_why = Why
timing-late_no_early = No, you are early: put it down between { $opens } and { $closes }.
timing-late_no = No, there is time: have it down and watered in by { $closes }.
timing-late_no_down = No: it is down ({ $last }). Nothing is missed.
timing-late_nearly = Not too late, but hurry: first crabgrass is due { DAY($up, style: "about") }. Put it down today or tomorrow, and water it in at once.
# Labels and extension pages: it acts on seed as it sprouts, once water has carried it in.
timing-late_does = A late one stops seed that sprouts after it is watered in. What is up by then it leaves standing.
timing-late_up = For what is up, yes: first crabgrass was due { $up }, and a plain pre-emergent doesn't stop seedlings.
timing-late_part = Still worth it against seed that sprouts later, until { DAY($ends, style: "about") }, if your label allows. Look first: where seedlings are many, deal with those.
timing-late_little = Little seed sprouts after this (until { DAY($ends, style: "about") }), so a plain one is hardly worth it now.
# Ingredients by the table of ingredients; species-bound, by the label (common practice).
timing-late_helps = On small plants: pull them, or spot-treat with an ingredient that acts on them ({ $names }), only where your label names your turf and that stage.
timing-late_next = Mow at 3 in (8 cm) or higher and water deeply, not often: shade keeps seed down. I call in time next spring.
timing-late_over_since = Yes, for this year: first crabgrass was due { $up }, and most of it has sprouted.
timing-late_over = Yes, for this year: { $yard }'s window is over.
timing-late_unknown = I can't tell for { $yard }: no date is in sight. Look for seedlings; if you find none, ask me: is it time yet
# Common practice, no source.
timing-late_grown = A pre-emergent stops nothing that grows. Pull plants before they seed, or wait: frost ends crabgrass. Seed bare spots in fall, and I call in time next spring.
timing-summer = midsummer
timing-barrier_none_yet = Nothing is down yet at { $yard }. How long one holds depends on its ingredient and rate: mostly 2 to 5 months. Tell me yours: /product
timing-barrier_not_down = Nothing is down yet at { $yard }. Tell me when it is, and I reckon how long it holds on each zone.
timing-barrier_spent = Nothing is down this year at { $yard } yet. What went down { $last } is spent by spring. Ask me: is it time yet
timing-barrier_rough = Weeks are rough: thin turf, much rain and warm soil shorten them. Your label says when it may go down again, and it wins.
