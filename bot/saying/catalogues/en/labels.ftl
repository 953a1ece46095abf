labels-kept =
    Noted of { $product }:
    { $lines }
labels-no_product = Which product is that? Tell me its label first, in one line: prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year
labels-wrong_kind = { $said } and { $wanted } are a weight and a volume. Please check the label and write the unit in full.
labels-application = 1 application
labels-applications = { $count } applications
labels-times_calendar_year = At most { $count } in a calendar year.
labels-times_season = At most { $count } in a season.
labels-times_12_months = At most { $count } in any 12 months.
labels-times_unsaid = At most { $count }. Over what time? Until you say I count any 12 months: 2 applications a year
labels-interval = At least { SPAN($days) } between applications.
labels-seeding = No seeding for { SPAN($days) } after it.
labels-age = Turf at least { SPAN($days) } old.
labels-homes_yes = Home lawns are named on the label.
labels-homes_no = Not for home lawns: I give no amounts for them.
labels-analysis = Feeds too, { $analysis }: { $n } lb of nitrogen per 1,000 sq ft each round.
labels-analysis_metric = Feeds too, { $analysis }: { $n } kg of nitrogen per hectare each round.
labels-packs = Sold in { $packs }.
labels-shelf = On the shelf: { $amount }.
labels-show =
    { $product }
    Label maximum: { $limits }.
    { $lines }
labels-missing = Not told yet: { $missing }. For example: { $example }
labels-missing_times = how many applications
labels-missing_interval = days between them
labels-missing_seeding = how long no seeding
labels-missing_age = least age of turf
labels-missing_homes = whether home lawns are named
labels-missing_packs = pack sizes and prices
labels-example = 2 applications a year, 60 days apart, no seeding for 16 weeks, home lawns allowed, bags 25 lb $38 and 50 lb $62
labels-foliar = { $names } in it works through leaves: most such labels want wet leaves and no water for a day or so, against watering in. Your label's order goes; I set no watering for it.
labels-foliar_recorded = Water in your label's order: it carries { $names }, which works through leaves. I don't remind you of watering for it.
labels-feeds = It feeds too: { $n } of nitrogen per 1,000 sq ft each round; count it in the year's. Sweep paving; mind local blackout dates and phosphorus bans.
labels-too_young = { $zones }: your label wants turf at least { SPAN($days) } old, so not before { $day }. Still left out.
labels-button_undo = Undo
labels-stock_ask = How much is left of it? Like: I have 10 lb left. Or tell me the pack first: bags 25 lb
labels-pack_at = { $size } at { $price }
