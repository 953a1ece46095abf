amounts-head = { $yard }: { $total } in all.
amounts-finished = { $yard }: nothing more to apply this season. Done as planned: { $zones }.
    One more? Change the plan first: /plan
amounts-head_rounds = { $yard }, application { $number } of { $rounds }: { $total } in all.
amounts-missed = This season's window is over. Before you apply, ask me: is it too late
amounts-not_open = Not yet. The window opens { DAY($day, style: "about") }.
amounts-not_before = Not yet. This application is due { DAY($day, style: "about") }.
amounts-zone_granule = { $zone }: { $amount }, 2 passes
amounts-zone_spray = { $zone }: { $amount }, one even pass
amounts-how_granule = Walk the second pass at a right angle to the first. Set the gate low. Keep walking until the weighed amount is gone.
amounts-how_spray = Mix with water as the label says. Spray one even pass, or two crossing passes at half rate.
amounts-label = Label rate: { $rate }. Label maximum: { $limits }.
amounts-caution = Your label comes first: it wins on rate, equipment and weather. Keep product off drains, water and pavement. Keep kids and pets off until it is watered in and dry, or longer if the label says so.
amounts-over_limit = I won't give amounts. Your rate is over the label maximum of { $limit } { $period }. Check the label, then send /product
amounts-used_up = No amounts for { $yard }: one more full application would go over your label maximum.
    Allowed: { $limit } { $period }. Already applied: { $used }. Left: { $left }.
    Use a lower rate only if your label allows it: /product. Or skip it and watch for seedlings.
amounts-period_application = in one application
amounts-period_calendar_year = in a calendar year
amounts-period_season = in a season
amounts-period_12_months = in any 12 months
amounts-period_unsaid = (you gave no period, so I count it for the whole year)
amounts-button_applied = I applied it
amounts-part = { $part } of { $zone }
amounts-for_area = { $what }: { $amount }.
amounts-none_now = { $zones }: nothing to apply there now.
amounts-exact_granule = { $zone }, { $area }: exactly { $amount }, { $half } per pass
amounts-exact_spray = { $zone }, { $area }: exactly { $amount }
amounts-scale = Amounts to weigh are rounded down to what your scale shows ({ $step }).
amounts-scale_unknown = Amounts to weigh are rounded down. What does your scale show? For example: my scale shows 0.1 lb
amounts-caution_short = Your label is the law. Keep it off pavement, drains and water. Kids and pets off until watered in and dry, or longer if it says so.
amounts-no_maximum = No label maximum given, so I can't check the rate against it.
amounts-per_pass = { $half } per pass
