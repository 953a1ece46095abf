applying-recorded = Recorded for { $yard }: { $zones } ({ $area }), { $on }.
applying-recorded_amount = Recorded for { $yard }: { $zones } ({ $area }), { $amount }, { $on }.
applying-rate_right = That is the label rate of { $planned }, within 5 %.
applying-rate_over = That is { $percent } % over the { $planned } planned. Set the spreader lower next time; put no more there.
applying-rate_under = That is { $percent } % under the { $planned } planned: thin spots may let weeds through.
applying-over = That is more than your label's maximum of { $limit }. Put no more down there, follow the label, and ask your extension office if in doubt.
applying-too_soon = That is too close to { $last }: your label wants longer between applications, { $day } at the earliest. Follow the label, and ask your extension office if in doubt.
applying-too_many = That is once more than the { $limit } your label allows. Put no more down there, follow the label, and ask your extension office if in doubt.
applying-unchecked = I could not check it against your label's maximum: what went down on { $zone } { $day } counts, and I don't know how much.
applying-no_product = I don't know which product that was, so it counts for no maximum and no barrier. Better: undo, enter it with /product, and tell me again.
applying-still_open = Still to do: { $zones }.
applying-water_in = Now water it in: { $depth } in all by { $by }, sooner is better. I watch the rain; tell me what you water: watered 0.3 in
applying-half_capped = No second half: your label leaves no whole round of this product after this. Look for seedlings later on.
applying-next_half = Second half { DAY($on, style: "about") }.
applying-caution = Keep children and pets off until watered in and dry; your label may say longer. No seeding or bagging meanwhile. Sweep paving.
applying-again = { $zones } had an application { $on }. Is this another one, on top of it?
applying-strange_early = That is { SPAN($days) } before I expect the first weeds, { $day }. Much of it would be spent by then. Is the day right?
applying-strange_late = I expected the first weeds { $day }, { SPAN($days) } before that. What is up it no longer stops. Is the day right?
applying-strange_rate = That is { $times } times your label's { $label }. Are the amount and the area right?
applying-strange_long_ago = That is { SPAN($days) } ago: { $day }. Is the year right?
applying-part_left = { $area } of { $zone } had it, { $left } of it are still to do.
applying-part_whole = With these { $area } all of { $zone } has had it.
applying-part_which = Which part of { $yard } was that? Its zones: { $names }. For example: applied half of { $name }
applying-part_how_much = How much of { $zone } got it? For example: applied half of { $zone }, or: applied 100 sq ft of { $zone }
applying-part_too_large = { $area } is more than { $zone } has: { $of }. Nothing was recorded. For example: applied half of { $zone }
applying-button_again = Yes, another one
applying-button_right = Yes, it is right
applying-button_wrong = No, leave it out
applying-button_not = No, the same one
applying-button_undo = Undo
applying-left_out_amend = Left out: the record stays as it was. Was the amount another? Say: record { $number } amount { $amount }
applying-left_out = Left out: the record stays as it was.
applying-unclear =
    I made nothing of "{ $said }", and recorded nothing. Zones of { $yard }: { $names }.
    For example: applied front yesterday 5 pm, or: applied 3.2 lb on the strip
applying-future = "{ $said }" is still to come. Tell me when it is down, for example: applied yesterday 5 pm
applying-long_ago = "{ $said }" is years ago, so I recorded nothing. Which day was it? For example: applied yesterday 5 pm
applying-water_much = { $depth } at once is a flood, so I recorded nothing. For example: watered 0.5 in
applying-wrong_kind = { $said } and { $wanted } are a weight and a volume, so I recorded nothing. Give the amount as on the label, for example: applied 3.2 lb
applying-water_future = "{ $said }" is still to come, so I noted nothing. Tell me when it is watered, for example: watered 0.5 in
applying-watered_before = { $day } is before the product went down ({ $applied }), so I noted nothing. Water counts from then on, for example: watered 0.5 in today
applying-water_zones = Not watered yet: { $zones }.
applying-water_unread =
    { $problem }
    Nothing was recorded.
applying-nothing_to_water = Nothing at { $yard } waits for water just now.
applying-watered_in = Watered in at { $yard }: { $had } since the application. The barrier is in place.
applying-watered_some = Noted, { $added } at { $yard }: { $had } since the application, { $missing } still missing.
applying-over_with_earlier = With the { $used } down before, that is more than your label's maximum of { $limit }. Put no more down there, follow the label, and ask your extension office if in doubt.
applying-for_no_round = It stops no seed, so it counts for no pre-emergent round.
applying-for_late_summer = It counts as the late-summer round against annual bluegrass.
applying-for_next_spring = It counts as the first half for spring { $year }.
applying-not_done = Noted, nothing recorded at { $yard }. Tell me when it is down: applied
applying-not_done_by = Noted, { $what } is not down yet, and nothing was recorded. There is time until { $by }.
applying-not_done_but_recorded = { $yard } has record { $number } from the last day. If that never went down, take it back.
applying-too_much =
    Put no more down there. Sweep up what lies on paving or in heaps, and spread it thin elsewhere only within your label's rate.
    Don't hose it away. Water it in as the label says; thin or yellow grass may follow.
    How much went down in all? Say for example: it was 10 lb on the front
    Near a drain, pond or well: say so now.
applying-too_much_short = Put no more down there, and sweep up what lies on paving. Your label says what to do beyond its rate; ask your extension office if in doubt.
applying-early = That is { SPAN($days) } before first crabgrass, { DAY($up, style: "about") }; part of it will be spent by then.
applying-nearly_late = It is late: first crabgrass is due { DAY($up, style: "about") }. Water it in today; what sprouts before that it misses.
applying-late_on_seed = First crabgrass was due { $up }: what is up it leaves standing. It stops seed that sprouts from now on. Pull what you see before it seeds.
applying-late_on_small = First crabgrass was due { $up }. { LIST($names) } also acts on small seedlings, as far as your label says; what is bigger it leaves. Pull that before it seeds.
