grass-grass = { $zones }: { $grass }.
grass-unknown = { $zones }: grass not known, so the strictest limits of any turf govern.
grass-other = { $zones }: another grass than those. The strictest remembered maximum still governs.
grass-part_every = { $zones }: treated in every round.
grass-part_ask = { $zones }: asked each time. /amounts shows it apart, and it is not waited for.
grass-part_never = { $zones }: never treated, and in no total.
grass-buffer = { $zones }: a strip of { $strip } along the water stays untreated, so { $left } of { $area } get product. If your label's distance is greater, it wins.
grass-buffer_ask =
    { $zones }: near water, noted. How long is its edge along the water, and how wide a strip stays untreated? Like:
    { $zone } buffer 60 x 25 ft
    25 ft is Maine's practice around water, drains and wells; your label may say more. Until then nothing is taken off.
grass-buffer_large = That strip of { $strip } is all of { $zone } ({ $area }). If none of it may be treated: { $zone } is never treated
grass-slope = { $zones }: slope. Water in short cycles with soaks between; half an inch of hard rain can carry product off.
grass-clay = { $zones }: clay. Water in short cycles with soaks between, or it runs off.
grass-hot_strip = { $zones }: a hot strip, a week or two ahead of the rest: it goes first.
grass-shade = { $zones }: shade, later than the rest.
grass-not_slope = { $zones }: no slope.
grass-not_clay = { $zones }: no clay.
grass-not_hot_strip = { $zones }: no hot strip.
grass-not_shade = { $zones }: no shade.
grass-not_water = { $zones }: not near water, nothing is taken off.
grass-lock_seed =
    { $zones }: left out, new seed. A pre-emergent stops it rooting. Most wait for 3 or 4 mowings (common practice); your label's own time wins. Then tell me:
    { $zone } is established
grass-lock_sod =
    { $zones }: left out, new sod. Wait until it is rooted and your label allows it. Then tell me:
    { $zone } is established
grass-unlock = { $zones }: established, back in the round.
grass-near = I know no grass "{ $said }". Did you mean { $names }?
grass-which_zone = I know no zone of { $yard } by that name: { $said }. Its zones: { $names }
grass-ask = Which grass is { $zone }? Tap one or write it. It says what may go down there.
grass-known =
    { $yard }:
    { $lines }
    Change one: { $zone } is tall fescue. Also: near water, on a slope, clay, new seed, never treated.
grass-line = { $zone }: { $facts }
grass-not_named = grass not named
grass-fact_unknown = grass not known, strictest limits govern
grass-fact_other = another grass
grass-fact_ask = asked each time
grass-fact_never = never treated
grass-fact_buffer = { $area } along water untreated
grass-fact_slope = slope
grass-fact_clay = clay
grass-fact_hot_strip = hot strip
grass-fact_shade = shade
grass-fact_water = near water
grass-fact_seed = new seed, left out
grass-fact_sod = new sod, left out
grass-none_measured = No zones yet. Tell me one first: front 60x40 ft
grass-button_unknown = I don't know
grass-button_later = Later
grass-later = Left for later: grass
grass-button_none_of_them = None of these
grass-button_undo = Undo
grass-button_ask = Name the grass
grass-left_out_locked_seed = Not { $zones }: new seed. When it is grown in: { $zone } is established
grass-left_out_locked_sod = Not { $zones }: new sod. When it is rooted: { $zone } is established
grass-left_out_harms_turf = Not { $zones }: { $ingredient } harms { $grass } ({ $source }).
grass-left_out_may_harm_unknown_turf = Not { $zones }: { $ingredient } harms { $harmed }, and its grass is not known, so the strictest limits govern. Name it: { $zone } is bermudagrass
grass-left_out_not_residential = Not { $zones }: { $ingredient } is not for home lawns ({ $source }). If your label names them: label allows home lawns
grass-left_out_remembered_maximum = Not { $zones }: with { $used } down, another round passes the { $limit } a year remembered for { $grass } ({ $source }). Tell me your label's own maximum: /product
grass-left_out_too_soon = Not { $zones }: your label wants more days between applications. Not before { $day }.
grass-left_out_too_many = Not { $zones }: the { $limit } applications your label allows are used up.
grass-all_left_out = No amounts for { $yard }: no zone may be treated now.
grass-caution = Grass of { $zones } not named: { $ingredient } harms { $harmed }. Check, and tell me: { $zone } is tall fescue
grass-each_time = { $zone }, asked each time: { $amount } if you treat it, not in the total
grass-buffered = Off the total already: { $area } along water.
grass-soak = { $zones }: water in short cycles with soaks between.
grass-hot_first = { $zones } first: it runs a week or two ahead.
grass-cool_season = cool-season grasses (fescues, bluegrass, ryegrass, bentgrass)
grass-any_turf = the strictest turf
