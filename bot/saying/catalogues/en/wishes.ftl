wishes-button_later = Later
wishes-mute_sure = { $yard }: no more messages this season? Tap below; otherwise nothing changes.
wishes-quiet_early = First tell me where the lawn is. Then say for example: quiet 9 pm to 7 am
wishes-quiet_how = When should I message you? For example: quiet 9 pm to 7 am, or: write to me at 6, or: at most 3 messages a day
wishes-free_set = { $yard }: I look for days in your free hours: { $hours }.
wishes-free_any = { $yard }: any day and hour works. Saved.
wishes-free_unread = I could not read those hours. For example: free Saturday and Sunday mornings, or: free weekdays after 5 pm
wishes-water_days = { $yard }: watering on { $days }. I count on those days only.
wishes-water_days_any = { $yard }: watering on any day. Saved.
wishes-banned = { $yard }: watering ban on. Only rain counts now. I look for days with half an inch to follow and tell you if there are none. Granules can wait for rain; a spray can't.
wishes-ban_over = { $yard }: watering ban off. Saved.
wishes-can_water = { $yard }: you can water. Saved.
wishes-cannot_water = { $yard }: no water, so only rain counts from now on.
wishes-ground = { $yard }: soil type { $ground }. I use it for rain limits and watering runs.
wishes-slope = { $yard }: on a slope. Half an inch of hard rain is too much there, and I split watering into short runs.
wishes-level = { $yard }: level ground. Saved.
wishes-label_set = Saved your label's limits for { $product }: { $terms }. They win over mine.
wishes-label_cleared = OK: nothing from your label about the day, so the common limits apply.
wishes-label_product = Choose the product first, so I know whose label it is: /product
wishes-label_water = { $depth } to water in
wishes-label_within = within { $hours } h
wishes-label_wind = wind to { $wind }
wishes-label_leaves = { $leaves } leaves
wishes-label_dry = no rain for { $hours } h after
wishes-quiet_set = Quiet hours: { $first } to { $last }, in each yard's local time. Messages wait until after.
wishes-quiet_none = No quiet hours. I message you any time.
wishes-wake_set = I message from { $at } on, in each yard's local time, and check the soil before that.
wishes-wake_data = I may write from { $at } on, but what hangs on soil or rain comes at { $known }: yesterday is known only then.
wishes-wake_deep = { $at } is inside your quiet hours ({ $first } to { $last }). Change those first: quiet 22 to 5
wishes-wake_any = I message you as soon as your quiet hours end.
wishes-cap_set = At most { $count ->
        [one] { $count } message
       *[other] { $count } messages
    } a day, not counting answers. The rest come the next morning.
wishes-yards_a_day = I plan your routes with { $count ->
        [one] { $count } yard a day
       *[other] { $count } yards a day
    }.
wishes-number_range = Please give a number from { $low } to { $high }.
wishes-later_ask = { $yard }: when should I remind you? { $limit }
wishes-later_limit = The deadline is { $by }.
wishes-later_set = { $yard }: I'll remind you { DAY($when, style: "on") }. { $warning }
wishes-later_warmer = { $yard }: I'll remind you when the soil reaches { $warm } (5-day average), or at the last call.
wishes-later_too_long = That is after the deadline, { $by }. Pick a sooner day.
wishes-later_range = Up to { SPAN($high) }. For longer say: not this season
wishes-mute_winter_annuals = { $yard }: no more about annual bluegrass this year. I still remind you to water what is already applied. To turn it back on: this season after all
wishes-is_muted = { $yard } is quiet this season, as you wished, so no reminder comes. To turn it back on: this season after all
wishes-mute_summer_annuals = { $yard }: no more about crabgrass this season. I still remind you to water what is already applied. To turn it back on: this season after all
wishes-mute_off = { $yard }: messages for this season are on again. Status: { $state }. /yard
wishes-button_day = In a day
wishes-button_days = In { SPAN($count) }
wishes-button_warmer = When it is warmer
wishes-summary = { $yard }: { $free }; { $water }; soil type { $ground }{ $slope }; { $sprinkler }.
    Messages: { $quiet }, from { $wake } on, at most { $cap } a day. Yards per day: { $yards }.
    To change one, type it. For example: free Saturday mornings
    or: watering days Tue and Fri
    or: quiet 21 to 7
wishes-midnight = midnight
wishes-summary_quiet = quiet { $first } to { $last }
wishes-summary_never_quiet = no quiet hours
wishes-summary_free = free { $hours }
wishes-summary_any = free at any time
wishes-summary_water_any = watering on any day
wishes-summary_water_days = watering on { $days }
wishes-summary_banned = watering ban
wishes-summary_cannot = can't be watered
wishes-summary_ground_unknown = not set
wishes-summary_slope = , sloping
wishes-summary_sprinkler = sprinkler { $rate } an hour
wishes-summary_no_sprinkler = sprinkler speed not known
wishes-span = { $days } { $first } to { $last }
wishes-span_whole = { $days }
wishes-every_day = every day
wishes-grounds-sand = sand
wishes-grounds-sandy_loam = sandy loam
wishes-grounds-loam = loam
wishes-grounds-clay_loam = clay loam
wishes-grounds-clay = clay
