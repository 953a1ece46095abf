timing-not_yet = Not yet. Apply at { $yard } between { $opens } and { $closes } (weeds come first 1 year in { $one_in }).
timing-any_day = Any day now. I'll message you when the soil is ready. Apply and water in at { $yard } by { $closes } (weeds come first 1 year in { $one_in }).
timing-now = Now: apply and water in at { $yard } by { $closes } (weeds come first 1 year in { $one_in }).
timing-at_once = Now, today if you can: first crabgrass at { $yard } is expected { DAY($up, style: "about") }. Water it in right away.
timing-passed = It is late: first crabgrass at { $yard } was expected { $up }. Ask me: is it too late
timing-far = Not now: this year's window at { $yard } is over, or too far off to date. I'll message you when it comes.
timing-capped = No more now: your label has no full application of this product left at { $yard }. Watch for seedlings.
timing-down_second = Applied ({ $yard }, { $last }). Second application: { DAY($on, style: "about") }.
timing-down_last = Applied ({ $yard }, { $last }). No second one is planned this spring.
timing-down_over = Applied ({ $yard }, { $last }). The season is over: no second one this year.
timing-down_capped = Applied ({ $yard }, { $last }). No second one: your label has no full application left.
timing-second_now = Now: the second application is due at { $yard }. How much: /amounts
timing-second_now_of = Now: the second application of { $zones } is due at { $yard }. How much: /amounts
timing-part_down = Part of it is done. Still to do: { $zones }.
timing-button_why = Why
timing-late_no_early = No, you are early. Apply between { $opens } and { $closes } (weeds come first 1 year in { $one_in }).
timing-late_no = No, there is time. Apply and water in by { $closes } (weeds come first 1 year in { $one_in }).
timing-late_no_down = No: you applied { DAY($last, style: "on") }. Nothing is missed.
timing-late_nearly = Not too late, but hurry: first crabgrass is expected { DAY($up, style: "about") }. Apply today or tomorrow, and water it in right away.
timing-late_does = A late application stops seed that sprouts after it is watered in. It does not stop weeds that are up by then.
timing-late_up = For weeds that are up, yes: first crabgrass was expected { $up }, and a plain pre-emergent does not stop seedlings.
timing-late_part = It still stops seed that sprouts later, until { DAY($ends, style: "about") }, if your label allows. Look first: where there are many seedlings, deal with those.
timing-late_little = Little seed sprouts after this (until { DAY($ends, style: "about") }), so a plain pre-emergent is hardly worth it now.
timing-late_helps = On small plants: pull them, or spot-treat with a product that kills them ({ $names }). Your label must list your grass and that stage.
timing-late_next = Mow at 3 in (8 cm) or higher. Water deeply, not often: shade keeps seed down. I'll message you in time next spring.
timing-late_over_since = Yes, for this year: first crabgrass was expected { $up }, and most of it has sprouted.
timing-late_over = Yes, for this year: { $yard }'s window is over.
timing-late_unknown = I can't tell for { $yard }: there is no date yet. Look for seedlings. If you find none, ask me: is it time yet
timing-late_grown = A pre-emergent does not stop weeds that are up. Pull plants before they seed, or wait: frost kills crabgrass. Seed bare spots in fall. I'll message you in time next spring.
timing-summer = midsummer
timing-barrier_none_yet = Nothing is applied yet at { $yard }. How long it lasts depends on ingredient and rate: about 2 to 5 months. Enter yours: /product
timing-barrier_not_down = { $count ->
    [1] Nothing is applied yet at { $yard }. The plan is one application. Your label says how many you may make. Once you apply I work out how long it lasts on each zone.
   *[other] Nothing is applied yet at { $yard }. The plan is { $count } applications, { SPAN($split) } apart, as far as your label allows. Once you apply I work out how long it lasts on each zone.
}
timing-fall = In fall a pre-emergent is for annual bluegrass and other winter weeds. To plan one, say: rounds
timing-barrier_spent = Nothing is applied this year at { $yard } yet. What you applied { $last } wears off by spring. Ask me: is it time yet
