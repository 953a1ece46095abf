machines-spreader =
    { $yard }, round { $number } of { $rounds }. The sure way: weigh out one zone's amount, set the gate low, put half in the hopper and walk one way until it is gone, then the other half crosswise.
    { $lines }
    Each pass is { $half }; both together are the label rate, so halve nothing again.
    Weigh with steps of { $step } or finer.
    To check the gate: 4.2 lb over 8 x 150 ft, setting 5
machines-zone = { $zone }: pass 1 of 2, { $first }; pass 2 of 2, { $second }
machines-zone_strips = { $zone }: pass 1 of 2, { $first } in { $one }; pass 2 of 2, { $second } in { $other }
machines-strip = 1 strip
machines-strips = { $count } strips
machines-strips_note = Strips are up to { $swath } apart.
machines-cups_note = One level cup of it is { $cup }: { $zone } takes { $cups } level cups a pass.
machines-more_zones = ... and { $count } more: /amounts
machines-not_spread = { $product } is mixed with water. Say sprayer for that.
machines-no_sprayer = { $product } is spread dry. Say spreader for that.
machines-button_pans = Catch pans
machines-button_cups = Cups
machines-button_tries = My tries
machines-button_undo = Undo
machines-run = That is { $achieved }.
machines-run_over = That is over your label's maximum: close the gate well before the next try.
machines-run_no_product = Tell me the product (/product) and I hold it against the label.
machines-target_whole = Held against the whole rate in one direction, { $target }.
machines-target_half = Held against half the rate, one of two directions: { $target }.
machines-on_target = Within 5 %: leave it.
machines-low = { $percent } % low: open the gate a little and weigh again.
machines-high = { $percent } % high: close the gate a little and weigh again.
machines-for_two = For two directions set it for half: { $half } each pass.
machines-next_between = By your own tries, set { $setting } next.
machines-next_beyond = Outside your tries, so a rougher guess: set { $setting } next, and weigh.
machines-next_keep = Keep setting { $setting }.
machines-disagree = Setting { $wide } gave less than { $narrow }: weigh that one again.
machines-say_setting = Tell me the setting too and I suggest the next one: ..., setting 5
machines-tries_none = No weighed tries of this product with a setting yet. Like: 4.2 lb over 8 x 150 ft, setting 5
machines-tries =
    Your tries of this product:
    { $lines }
    { $next }
machines-try_line = setting { $setting }: { $rate }
machines-run_needs = Swath and length too, please, like: 4.2 lb over 8 x 150 ft, setting 5
machines-pans_ask =
    Catch pans: set boxes 1 ft apart in a row across your path, on grass. Walk over the middle, always one way, 3 times. Then weigh each, left to right:
    pans 1 ft apart: 0.4 0.9 1.6 2.0 2.1 2.0 1.5 0.8 0.3 g
machines-pans = Effective swath { $swath }: half of the middle's catch lies { $left } to the left and { $right } to the right (half-of-centre rule, Ohio State Bulletin 817). Kept: walk passes { $swath } apart.
machines-pans_skew = The pattern leans to one side; look at the machine and its deflector.
machines-pans_rate = At that spacing it puts down { $rate }.
machines-pans_narrow = The outermost pans still caught over half of the middle. Set pans further out and run again.
machines-pans_few = I need three pans or more, the middle one on your path: an odd number, the same distance apart.
machines-pan_mean = { $mean } a pan of { $area } is { $rate }.
machines-swath = Swath { $swath }, kept. { $area } takes a course of { $length }.
machines-course = A swath of { $swath } covers { $area } in { $length }.
machines-cup = One level cup of { $product } is { $cup }, kept for this product only.
machines-cup_first = Weigh one level cup of this product first; cups differ by product. Then tell me: cup weighs 9.2 oz
machines-no_spoons = No teaspoons for a dry product: a spoon can be half over. Weigh it, with steps of { $step } or finer.
machines-scale_fine = A scale in steps of { $step } will do for every zone.
machines-scale_coarse = Steps of { $step } are too coarse for { $zone }, { $amount }: it wants { $needed } or finer. Weigh two zones together, or borrow a finer scale.
machines-ran_out_which = In which pass? By two crossing passes each has half of the product.
machines-button_pass_first = First pass
machines-button_pass_second = Second pass
machines-button_pass_one = I did it in one pass
machines-ran_out_first = What you covered got { $achieved } in the first pass. { $left } of { $zone } have nothing yet: weigh out { $needed } for them, half each way, gate a little lower.
machines-ran_out_rest = The part you covered takes { $rest } more, crosswise.
machines-ran_out_full = The part you covered has its full rate: no second pass there.
machines-ran_out_second = With both passes what you covered got { $achieved }. { $left } of { $zone } lack the second pass: weigh out { $needed } for them, gate a little lower.
machines-ran_out_one = What you covered got { $achieved }. { $left } of { $zone } are left: weigh out { $needed } for them, gate a little lower.
machines-ran_out_left = { $left } of { $zone } are left: weigh out { $needed } for them, gate lower.
machines-ran_out_thick = Where it lies thick leave it; do not go over it again.
machines-ran_out_over = That part got more than your label allows, so treat only what is left, and leave that part alone for the rest of the label's period.
machines-ran_out_used_up = With that your label leaves no whole round more on the part you covered: leave that part out of the next one.
machines-ran_out_ask = How much of it was covered? Like: ran out half way on front, or: ran out after 1,200 sq ft of front
machines-gap_ask = Which part got nothing? Like: missed a stripe 2 ft x 60 ft, or: ran out half way on front
machines-set_ask = What did you weigh or measure? Like: 4.2 lb over 8 x 150 ft, setting 5. Or: swath 8 ft. Or: tank 4 gal
machines-missed = What was missed, { $size }, takes { $amount }. Walk it once, along it.
machines-missed_length = How long was that stripe of { $width }? Like: missed a stripe 4 ft x 60 ft on the back
machines-missed_recorded = Record #{ $number } counts it as done. Leave that part of { $zone } out of it, so that it is still to do?
machines-left_out = Record #{ $number } is put right: { $left } of { $zone } are still to do. Say when they are: applied rest of { $zone }
machines-button_leave_out = Leave it out
machines-button_record = Record it for { $zone }
machines-button_done = All of { $zone } is done now
machines-sprayer =
    { $yard }: { $volume }
    { $lines }
machines-sprayer_no_volume = Find your spray volume first. Walk { $course } for 20 in between nozzles (1/128 acre) at your usual pace with water, catch one nozzle for that time, and tell me: caught 48 oz. Or: 0.4 gpm, 3 mph, 20 in spacing
machines-sprayer_no_volume_metric = Find your spray volume first. Walk 10 m at your usual pace with water, catch what nozzles 1 m wide together give in that time, and tell me: caught 0.5 L over 10 m x 1 m. Or: 450 L/ha
machines-sprayer_volume_metric = { $l_ha } L/ha, { $per_100 } L per 100 m².
machines-sprayer_volume = { $gpa } gallons an acre, { $per_1000 } per 1,000 sq ft.
machines-sprayer_no_tank = How much does the tank hold? Like: tank 4 gal
machines-sprayer_no_tank_metric = How much does the tank hold? Like: tank 15 L
machines-tank_kept = Tank { $tank }, kept.
machines-volume_kept = { $gpa } gal per acre = { $per_1000 } gal per 1,000 sq ft. Kept; pressure, nozzle and pace stay as they were.
machines-volume_kept_metric = { $l_ha } L/ha = { $per_100 } L per 100 m². Kept; pressure, nozzle and pace stay as they were.
machines-volume_128 = Caught over 1/128 acre, fluid ounces are gallons an acre.
machines-covers = A full { $tank } covers { $area } ({ $acres } acre).
machines-covers_metric = A full { $tank } covers { $area }.
machines-loads = { $area } takes { $loads ->
        [one] { $loads } load
       *[other] { $loads } loads
    }. Each full { $tank } covers { $covers } and gets { $product }.
machines-loads_last = Last load: { $carrier } of water for { $area }, with { $product }, so that nothing is left over.
machines-loads_one = One load: { $carrier } of water for { $area }, with { $product }.
machines-loads_one_pass = That is for ONE even pass. For two crossing passes put half the product into each tank and go over it twice.
machines-loads_caution = Half the water first, then the product, then the rest. Rinse over the lawn, never into a drain.
machines-per_gallon = { $product } to each gallon.
machines-per_10_l = { $product } to each 10 L.
machines-per_gallon_spoons = { $product } to each gallon, about { $spoons } tablespoons.
machines-course_128 = One nozzle { $spacing } wide covers 1/128 acre in { $length }. Ounces caught in that time are gallons an acre.
machines-plot_128 = 1/128 acre is { $area }, { $side } square.
machines-speed = { $speed } mph.
machines-speed_metric = { $speed } km/h ({ $mph } mph).
machines-nitrogen = { $amount } of { $analysis } per 1,000 sq ft gives { $n } lb of nitrogen. Setting it within { $low } to { $high } lb is good; each of two directions { $half }.
machines-nitrogen_unit = Nitrogen per what area? Like: 20-5-10 for 1 lb N per 1000 sq ft
machines-converted = { $rate } is { $other }.
machines-reverse = { $rate } of a { $percent } % product is { $ai } lb of active ingredient per acre.
machines-water = { $depth } of water on { $area } is { $water }.
machines-minutes = At { $rate } the sprinkler runs { SPAN($minutes, unit: "minute") } for { $depth }.
