wishes-button_later = Later
wishes-mute_sure = { $yard }: shall I say no more this season? Tap below; otherwise nothing changes.
wishes-quiet_early = First tell me where the lawn is. Then say for example: quiet 9 pm to 7 am
wishes-quiet_how = When shall I write? For example: quiet 9 pm to 7 am, or: write to me at 6, or: at most 3 messages a day
wishes-free_set = { $yard }: I look for a day in your free hours: { $hours }.
wishes-free_any = { $yard }: any day and hour suits you. Noted.
wishes-free_unread = I could not read those hours. For example: free Saturday and Sunday mornings, or: free weekdays after 5 pm
wishes-water_days = { $yard }: watering on { $days }. I count on those days only.
wishes-water_days_any = { $yard }: watering on any day. Noted.
wishes-banned = { $yard }: a watering ban is on. From now on only rain counts: I look for a day with half an inch to follow, and say better not where none comes. Granules forgive waiting; a spray does not.
wishes-ban_over = { $yard }: no watering ban any more. Noted.
wishes-can_water = { $yard }: it can be watered. Noted.
wishes-cannot_water = { $yard }: it can't be watered, so only rain counts from now on.
wishes-ground = { $yard }: the ground is { $ground }. I set limits for heavy rain and watering runs by it.
wishes-slope = { $yard }: on a slope. Half an inch of hard rain counts as too much there, and watering goes in short runs.
wishes-level = { $yard }: level ground. Noted.
wishes-label_set = Your label's terms now stand for { $product }: { $terms }. They win over mine.
wishes-label_cleared = Noted: nothing from the label on the day, so the common limits hold.
wishes-label_product = Choose the product first, so that I know whose label it is: /product
wishes-label_water = { $depth } to water in
wishes-label_within = within { $hours } h
wishes-label_wind = wind to { $wind }
wishes-label_leaves = { $leaves } leaves
wishes-label_dry = no rain for { $hours } h after
wishes-quiet_set = Quiet from { $first } to { $last }, by each yard's own clock. What comes up meanwhile waits.
wishes-quiet_none = No quiet hours any more: I write whenever something comes up.
wishes-wake_set = I write from { $at } on, by each yard's own clock, and look at the soil in time for it.
wishes-wake_data = I may write from { $at } on, but what hangs on soil or rain comes at { $known }: yesterday is known only then.
wishes-wake_deep = { $at } lies deep in your quiet hours ({ $first } to { $last }). Change those first: quiet 22 to 5
wishes-wake_any = I write from the end of your quiet hours on.
wishes-cap_set = At most { $count ->
        [one] { $count } message a day
       *[other] { $count } messages a day
    } from me, besides answers. What is over goes into the next morning's.
wishes-yards_a_day = I plan your rounds with { $count ->
        [one] { $count } yard a day
       *[other] { $count } yards a day
    }.
wishes-number_range = A number from { $low } to { $high }, please.
wishes-later_ask = { $yard }: when shall I come back to it? { $limit }
wishes-later_limit = Last day that is early enough: { $by }.
wishes-later_set = { $yard }: I come back to it { $when }. { $warning }
wishes-later_warmer = { $yard }: I come back to it when the soil reaches { $warm } (5-day mean), or at the last call.
wishes-later_too_long = That is past { $by }, the last day that is early enough. Sooner is wiser.
wishes-later_range = Up to { SPAN($high) }; for longer say: not this season
wishes-mute_winter_annuals = { $yard }: no more about annual bluegrass this year. Water on what is down already I still tell you of. To hear of it again: this season after all
wishes-mute_summer_annuals = { $yard }: no more about crabgrass this season. Water on what is down already I still tell you of. To hear of it again: this season after all
wishes-mute_off = { $yard }: I tell you of this season again. It stands at: { $state }. /yard
wishes-button_day = In a day
wishes-button_days = In { SPAN($count) }
wishes-button_warmer = When it is warmer
wishes-summary =
    { $yard }: { $free }; { $water }; ground { $ground }{ $slope }; { $sprinkler }.
    Messages: { $quiet }, from { $wake } on, at most { $cap } a day; rounds of { $yards } yards a day.
    Change any of it in words: free Saturday mornings; watering days Tue and Fri; watering ban; clay soil; slope; sprinkler 0.3 in in 20 min; quiet 21 to 7; wake me at 6; at most 3 a day.
wishes-midnight = midnight
wishes-summary_quiet = quiet { $first } to { $last }
wishes-summary_never_quiet = no quiet hours
wishes-summary_free = free { $hours }
wishes-summary_any = free at any time
wishes-summary_water_any = watering on any day
wishes-summary_water_days = watering on { $days }
wishes-summary_banned = watering ban
wishes-summary_cannot = can't be watered
wishes-summary_ground_unknown = not said
wishes-summary_slope = , sloping
wishes-summary_sprinkler = sprinkler { $rate } an hour
wishes-summary_no_sprinkler = sprinkler's speed not known
wishes-span = { $days } { $first } to { $last }
wishes-span_whole = { $days }
wishes-every_day = every day
wishes-grounds-sand = sand
wishes-grounds-sandy_loam = sandy loam
wishes-grounds-loam = loam
wishes-grounds-clay_loam = clay loam
wishes-grounds-clay = clay
