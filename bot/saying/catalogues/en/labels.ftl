labels-kept = Saved for { $product }:
    { $lines }
labels-no_product = Which product is that? Tell me its label first, in one line: prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year
labels-wrong_kind = { $said } is not the same kind of unit as { $wanted } (weight or volume). Please check the label and type the full unit.
labels-times_calendar_year = At most { $count ->
        [one] 1 application
       *[other] { $count } applications
    } in a calendar year.
labels-times_season = At most { $count ->
        [one] 1 application
       *[other] { $count } applications
    } in a season.
labels-times_12_months = At most { $count ->
        [one] 1 application
       *[other] { $count } applications
    } in any 12 months.
labels-times_unsaid = At most { $count ->
        [one] 1 application
       *[other] { $count } applications
    }. In what period? Until you tell me I count any 12 months: 2 applications a year
labels-interval = At least { SPAN($days) } between applications.
labels-seeding = No seeding for { SPAN($days) } after it.
labels-age = Turf at least { SPAN($days) } old.
labels-homes_yes = The label lists home lawns.
labels-homes_no = Not for home lawns, so I give no amounts for them.
labels-analysis = { UNITS() ->
    [metric] It also fertilizes ({ $analysis }): { $kg } kg of nitrogen per hectare each time.
   *[us] It also fertilizes ({ $analysis }): { $lb } lb of nitrogen per 1,000 sq ft each time.
}
labels-packs = Sold in { $packs }.
labels-shelf = You have { $amount }.
labels-show =
    { $product }
    Label maximum: { $limits }.
    { $lines }
labels-missing = Still missing: { $missing }. For example: { $example }
labels-missing_times = how many applications
labels-missing_interval = days between them
labels-missing_seeding = how long no seeding
labels-missing_age = how old the turf must be
labels-missing_homes = whether home lawns are listed
labels-missing_packs = pack sizes and prices
labels-example = 2 applications a year, 60 days apart, no seeding for 16 weeks, home lawns allowed, bags 25 lb $38 and 50 lb $62
labels-foliar = It also contains { $names }, which works on leaves. Most such labels want wet leaves and no water for about a day. That is the opposite of watering in. Follow your label. I set no watering for it.
labels-foliar_recorded = Water the way your label says: { $names } works on leaves. I won't remind you to water this one.
labels-feeds = It also fertilizes: { $n } of nitrogen per 1,000 sq ft each time. Count it in your yearly total. Sweep it off pavement. Check local blackout dates and phosphorus bans.
labels-too_young = { $zones }: your label wants turf at least { SPAN($days) } old. Not before { $day }. Still skipped.
labels-button_undo = Undo
labels-price_ask = Which size costs that? For example: bags 50 lb $42
labels-stock_ask = How much is left of it? For example: I have 10 lb left. Or tell me the bag size first: bags 25 lb
labels-pack_at = { $size } at { $price }
