amounts-head = { $yard }: { $total } in all, for { $area }.
amounts-head_rounds = { $yard }, round { $number } of { $rounds }: { $total } in all, for { $area }.
amounts-missed = This season's window is past. Before you put it down, ask me: is it too late
amounts-not_open = Not yet: the window opens { DAY($day, style: "about") }.
amounts-not_before = Not yet: this half is due { DAY($day, style: "about") }.
amounts-zone_granule = { $zone }, { $area }: { $amount }, so { $half } each way
amounts-zone_spray = { $zone }, { $area }: { $amount }
amounts-how_granule = Half in each of two directions, crosswise: { $half } each way in all. Gate low; go on until the weighed amount is gone.
amounts-how_spray = Mixed with water as the label says, in two crossing passes at half strength or one even one.
amounts-label = Label rate { $rate }. Label maximum: { $limits }.
amounts-caution = Your label is the law: it wins on rate, gear and weather. Keep off drains, water and paving. Keep children and pets off until watered in and dry; your label may say longer.
amounts-over_limit = No amounts: the rate is over your label's maximum of { $limit } { $period }. Check the label, then /product
amounts-used_up =
    No amounts for { $yard }: another full round would go over your label's maximum.
    Allowed { $limit } { $period }; down already { $used }; left { $left }.
    A lower rate within what is left is for your label to allow: /product. Or leave it, and look for seedlings.
amounts-period_application = in one application
amounts-period_calendar_year = in a calendar year
amounts-period_season = in a season
amounts-period_12_months = in any 12 months
amounts-period_unsaid = (period not said, so I take it for the whole year)
amounts-button_applied = It is down
amounts-part = { $part } of { $zone }
amounts-for_area = { $what }: { $amount }.
amounts-none_now = { $zones }: nothing to put down there now.
