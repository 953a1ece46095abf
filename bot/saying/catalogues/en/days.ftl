days-button_day = Best day
days-not_due = No application is due.
days-not_due_before = No application is due before { $day }.
days-best = { $yard }: best day { $day }, { $hours }. { $water }
days-best_by_day = { $yard }: best day { $day }. { $water }
days-not_due_day = Not yet: no application is due before { $day }.
days-second = Next best: { $day }, { $hours }.
days-second_by_day = Next best: { $day }.
days-water_rain = Rain in the forecast waters it in by { $day }.
days-water_self = Water it in yourself: { $depth }.
days-water_none = Too little rain in the forecast to water it in.
days-none = { $yard }, { $form }: no good day in the next week.
days-none_before = { $yard }, { $form }: no good day before the deadline, { $by }.
days-least_bad = Best of a bad week: { $day }, { $hours }. Problem: { $reason }.
days-least_bad_by_day = Best of a bad week: { $day }. Problem: { $reason }.
days-better_not = Don't apply yet: there is no water to activate it. Wait for rain in the forecast, or skip it this time.
days-no_least_bad = No day is worth the risk. Leave it in the shed and ask again tomorrow.
days-line = { $day }: { $reason }
days-last_day = Deadline: { $by }.
days-tail_hourly = Hourly forecast from { $at }. Forecasts change, so ask again that day.
days-tail_daily = Daily forecast from { $at }. No hours, wind or dew, so check outside first.
days-no_forecast = { $yard }: I have no forecast, only past weather, so I can't compare days.
    Rain in the last two days: { $rain }. For { $form } pick a dry morning with wind from { $low } to { $high }. No { $heavy } of rain should be coming. It needs { $depth } of water within { SPAN($days) }.
days-nothing_yet = I have no weather for { $yard } yet. Ask again in a few minutes.
days-no_product = No product yet, so this is for granules. A spray needs less wind. Enter yours: /product
days-foliar = Your product also has a weed killer that works on leaves. Check the label: should leaves be wet, and when can you water?
days-form_granule = granules
days-form_spray = a spray
days-hours = { $start } to { $end }
days-alert_best = Best day: { $day }, { $hours }.
days-alert_best_by_day = Best day: { $day }.
days-alert_none = No good day in this week's forecast.
days-alert_least_bad = Best of a bad week: { $day } ({ $reason }).
days-why_best = { $day } is the best of the week, { $hours }. Wind { $wind }. At most { $rain } of rain in any 24 hours after. { $water }
days-why_not = { $day }: { $reason }.
days-why_fit = It is within the limits, { $hours }. Wind { $wind }. At most { $rain } of rain in any 24 hours after. { $water }
days-why_limits = Limits for { $form }:
    wind { $low } to { $high }
    air { $cold } to { $hot }
    rain under { $heavy } in the next { $hours } h
    water needed { $depth }
    { $whose }
days-whose_ours = These are common limits. Your label's limits win: label wind 8 mph
days-whose_label = These include your label's limits.
days-why_beyond = I can judge { $first } to { $last }.
days-of_label = { $reason } (your label)
days-reason-dark = no daylight left
days-reason-not_your_hours = no good hours in your free time
days-reason-not_your_day = not one of your free days
days-reason-no_forecast = no forecast that far
days-reason-rain = rain while you work, up to { $value } an hour
days-reason-wet_leaves = leaves stay wet all day
days-reason-dry_leaves = leaves are dry, and your label wants them wet
days-reason-cold = too cold: { $value } (minimum { $limit })
days-reason-hot = too hot: { $value } (maximum { $limit })
days-reason-calm = no wind at all, { $value }: spray hangs and drifts (minimum { $limit })
days-reason-windy = too windy: { $value } (limit { $limit })
days-reason-too_late = past the deadline by { SPAN($value) }
days-reason-no_water = only { $value } of rain after, and you can't water ({ $limit } needed)
days-reason-saturated = ground soaked: { $value } in two days
days-reason-frozen = ground frozen, { $value }
days-reason-heavy_rain = heavy rain after, { $value }, could wash it off (limit { $limit })
days-reason-windier = more wind: { $value }, not { $limit }
days-reason-more_rain_risk = more rain after: { $value }, not { $limit }
days-reason-watered_in_later = rain to water it in comes only after { SPAN($value) }
days-reason-needs_water = you would have to water it yourself
days-reason-later = just as good, but later
days-button_all = All days
