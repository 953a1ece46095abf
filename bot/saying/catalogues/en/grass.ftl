grass-grass = { $zones }: { $grass }.
grass-unknown = { $zones }: grass not known, so I use the strictest limits of any grass.
grass-other = { $zones }: another grass. I use the strictest limit I know.
grass-part_every = { $zones }: treated every time.
grass-part_ask = { $zones }: I ask each time. /amounts lists it separately and I don't wait for it.
grass-part_never = { $zones }: never treated and not in any total.
grass-buffer = { $zones }: a { $strip } strip along the water stays untreated. That leaves { $left } of { $area } to treat. If your label asks for a wider strip, it wins.
grass-buffer_ask = { $zones }: near water, noted. How long is the water's edge, and how wide a strip stays untreated? For example:
    { $zone } buffer 60 x 25 ft
    Maine uses 25 ft around water, drains and wells. Your label may ask for more. Nothing is subtracted until you tell me.
grass-buffer_large = A { $strip } strip is all of { $zone } ({ $area }). If none of it may be treated, say: { $zone } is never treated
grass-slope = { $zones }: slope. Water in short cycles with breaks. A half inch of hard rain can wash product off.
grass-clay = { $zones }: clay. Water in short cycles with breaks, or it runs off.
grass-hot_strip = { $zones }: hot strip. It warms a week or two ahead of the rest, so treat it first.
grass-shade = { $zones }: shade. It warms later than the rest.
grass-not_slope = { $zones }: no slope.
grass-not_clay = { $zones }: no clay.
grass-not_hot_strip = { $zones }: no hot strip.
grass-not_shade = { $zones }: no shade.
grass-not_water = { $zones }: not near water. Nothing is subtracted.
grass-lock_seed = { $zones }: skipped, new seed. A pre-emergent stops new grass from rooting. Most labels say wait 3 or 4 mowings (common practice); your label wins. Then tell me:
    { $zone } is established
grass-lock_sod = { $zones }: skipped, new sod. Wait until it is rooted and your label allows it. Then tell me:
    { $zone } is established
grass-lock_rest = { $zones } rests this year: no calls, no amounts, nothing to buy. Mow high there, and pull the few that come. To take it in again, say:
    { $zone } is in again
grass-unlock = { $zones }: back in the plan.
grass-near = I don't know a grass called "{ $said }". Did you mean { $names }?
grass-which_zone = { $yard } has no zone called { $said }. Its zones: { $names }
grass-ask = What grass is on { $zone }? Tap one or type it. Some products harm some grasses.
grass-known = { $yard }:
    { $lines }
    To change one: { $zone } is tall fescue. Also: near water, on a slope, clay, new seed, never treated.
grass-line = { $zone }: { $facts }
grass-not_named = grass not named
grass-fact_unknown = grass not known, strictest limits apply
grass-fact_other = another grass
grass-fact_ask = asked each time
grass-fact_never = never treated
grass-fact_buffer = { $area } along water untreated
grass-fact_slope = slope
grass-fact_clay = clay
grass-fact_hot_strip = hot strip
grass-fact_shade = shade
grass-fact_water = near water
grass-fact_seed = new seed, skipped
grass-fact_rest = rests this year
grass-fact_sod = new sod, skipped
grass-held = Grass of { $names }: { $grass }.
grass-held_first = Noted: { $grass }, for the zones you measure now. For example: front 60x40 ft
grass-which_kind = Which { $said }: { $names }? Tell me, for example: front is tall fescue
grass-none_measured = No zones yet. Tell me one first: front 60x40 ft
grass-button_unknown = I don't know
grass-button_later = Later
grass-later = OK, later. Say grass to come back to it.
grass-button_none_of_them = None of these
grass-button_undo = Undo
grass-button_ask = Name the grass
grass-left_out_locked_seed = Skipped { $zones }: new seed. Once it has grown in, say: { $zone } is established
grass-left_out_locked_rest = Skipped { $zones }: rests this year. To take it in again, say: { $zone } is in again
grass-left_out_locked_sod = Skipped { $zones }: new sod. Once it has rooted, say: { $zone } is established
grass-left_out_harms_turf = Skipped { $zones }: { $ingredient } harms { $grass } ({ $source }).
grass-left_out_may_harm_unknown_turf = Skipped { $zones }: { $ingredient } harms { $harmed }, and I don't know your grass. Tell me: { $zone } is bermudagrass
grass-left_out_not_residential = Skipped { $zones }: { $ingredient } is not for home lawns ({ $source }). If your label lists home lawns, say: label allows home lawns
grass-left_out_remembered_maximum = Skipped { $zones }: { $used } is already on. One more would pass the usual yearly limit of { $limit } for { $grass }. Tell me your label's own limit: /product
grass-left_out_too_soon = Skipped { $zones }: too soon for your label. Not before { $day }.
grass-left_out_too_many = Skipped { $zones }: all { $limit } applications your label allows are used.
grass-all_left_out = No amounts for { $yard }: no zone can be treated now.
grass-caution = Name your grass: { $ingredient } harms { $harmed }. For example: { $zone } is tall fescue
grass-each_time = { $zone } (ask each time): { $amount } if you treat it. Not in the total.
grass-buffered = Already subtracted: { $area } along water.
grass-soak = { $zones }: water in short cycles with breaks.
grass-hot_first = Do { $zones } first: hot strips run a week or two ahead.
grass-cool_season = cool-season grasses (fescues, bluegrass, ryegrass, bentgrass)
grass-any_turf = the strictest turf
