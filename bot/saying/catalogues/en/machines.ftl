machines-spreader =
    { $head }
    { $lines }
    Gate low. Walk out one pass one way, then the second across it.
    Two passes make the label rate, so don't halve it again.
machines-spreader_head = { $yard }, application { $number } of { $rounds }.
machines-spreader_finished = { $yard }: nothing more is due. One application took this.
machines-button_even_done = What one took
machines-spreader_how =
    1. Weigh out one pass for one zone. Set the gate low.
    2. Walk one way until the hopper is empty.
    3. Weigh out the second pass. Walk across your first lines.
    Each pass is { $half }. Use a scale that reads { $step } or finer.
    To check the gate, tell me: 4.2 lb over 8 x 150 ft, setting 5
machines-button_how = Step by step
machines-zone = { $zone }: { $half } per pass, 2 passes
machines-zone_strips = { $zone }: { $half } per pass; the first in { $one }, the second in { $other }
machines-zone_narrow = { $zone }: { $half } per pass, both lengthwise, { $one } there and { $one } back
machines-too_narrow = { LIST($zones, style: "unit") }: narrower than your { $swath } spread. Use the side shield or a drop spreader, and sweep up what lands beside.
machines-strips = { $count ->
        [one] 1 strip
       *[other] { $count } strips
    }
machines-strips_note = Space the strips up to { $swath } apart.
machines-cups_note = One level cup weighs { $cup }. { $zone } needs { $cups } level cups a pass.
machines-more_zones = ... and { $count } more: /amounts
machines-not_spread = { $product } is mixed with water. Say sprayer for that.
machines-no_sprayer = { $product } is spread dry. Say spreader for that.
machines-button_pans = Pan test
machines-button_cups = Cups
machines-button_tries = My tests
machines-button_undo = Undo
machines-run = That is { $achieved }.
machines-run_over = That is over your label maximum. Close the gate a lot before you try again.
machines-run_no_product = Tell me the product (/product) and I'll compare it with the label.
machines-target_whole = Compared with the full rate in one pass: { $target }.
machines-target_half = Compared with half the rate, one of two passes: { $target }.
machines-on_target = Within 5%. Leave the gate there.
machines-low = { $percent }% low. Open the gate a little and weigh again.
machines-high = { $percent }% high. Close the gate a little and weigh again.
machines-for_two = For two passes, set it to half: { $half } per pass.
machines-next_between = From your tests, try setting { $setting } next.
machines-next_beyond = Your tests don't reach that far, so this is a rough guess: try setting { $setting } and weigh.
machines-next_keep = Keep setting { $setting }.
machines-disagree = Setting { $wide } gave less than { $narrow }. Test that one again.
machines-say_setting = Add the setting and I'll suggest the next one: ..., setting 5
machines-tries_none = You have no weighed tests of this product yet, and no setting fits every spreader. Set the gate low, weigh what a short test takes, and tell me: 4.2 lb over 8 x 150 ft, setting 5
machines-tries = Your tests of this product:
    { $lines }
    { $next }
machines-try_line = setting { $setting }: { $rate }
machines-run_needs = How wide does your spreader spread? For example: swath 8 ft
machines-pans_ask = Pan test: set an odd number of boxes 1 ft apart in a row on grass. Walk across the middle one, same direction, 3 times. Weigh each box, left to right:
    pans 1 ft apart: 0.4 0.9 1.6 2.0 2.1 2.0 1.5 0.8 0.3 g
machines-pans = Effective width { $swath }: the catch drops to half at { $left } left and { $right } right (Ohio State Bulletin 817). Saved. Space your passes { $swath } apart.
machines-pans_skew = It throws more to one side. Check the spreader and its deflector.
machines-pans_rate = At that spacing it applies { $rate }.
machines-pans_narrow = The outer boxes still caught over half as much as the middle. Set boxes farther out and run it again.
machines-pans_few = I need three or more boxes: an odd number, evenly spaced, the middle one on your path.
machines-pan_mean = { $mean } a pan of { $area } is { $rate }.
machines-swath = Spread width { $swath }, saved. { $area } takes a run of { $length }.
machines-course = At a { $swath } width, { $area } takes a run of { $length }.
machines-cup = One level cup of { $product } weighs { $cup }. Saved for this product only.
machines-amount_converted = { $amount } is { $other }.
machines-cup_first = Weigh one level cup of this product first. Cups differ by product. Then tell me: cup weighs 9.2 oz
machines-no_spoons = Don't measure a dry product by the spoon. It can be off by half. Weigh it on a scale that reads { $step } or finer.
machines-scale_fine = Saved: your scale shows { $step }. It works for every zone, and I round amounts down to it.
machines-scale_coarse = Saved: your scale shows { $step }. { $zone } ({ $amount }) needs { $needed } or finer. Weigh two zones together, or borrow a finer scale.
machines-ran_out_which = On which pass? With two passes, each gets half the product.
machines-button_pass_first = First pass
machines-button_pass_second = Second pass
machines-button_pass_one = I did it in one pass
machines-ran_out_first = The part you covered got { $achieved } on the first pass. { $left } of { $zone } still have none. Weigh out { $needed } for that, half per pass, with the gate a little lower.
machines-ran_out_rest = The part you covered still needs { $rest }, walked crosswise.
machines-ran_out_full = The part you covered already has the full rate. Skip the second pass there.
machines-ran_out_second = After both passes the part you covered got { $achieved }. { $left } of { $zone } still need the second pass. Weigh out { $needed }, with the gate a little lower.
machines-ran_out_one = The part you covered got { $achieved }. { $left } of { $zone } are left. Weigh out { $needed }, with the gate a little lower.
machines-ran_out_left = { $left } of { $zone } are left. Weigh out { $needed }, with the gate lower.
machines-ran_out_thick = Leave the heavy spots alone. Don't go over them again.
machines-ran_out_over = That part got more than your label allows. Treat only the rest. Put no more on that part until the label's period is over.
machines-ran_out_used_up = Your label leaves too little for one more application on the part you covered. Skip that part next time.
machines-ran_out_ask = How much did you cover? For example: ran out half way on front, or: ran out after 1,200 sq ft of front
machines-ran_out_ask_used = { $used } went on. How much did you cover with it? For example: half of front, or: 1,200 sq ft
machines-gap_ask = Which part did you miss? For example: missed a stripe 2 ft x 60 ft, or: ran out half way on front
machines-set_ask = I keep how wide it spreads, what a test used and what a tank holds. For example: swath 8 ft. Or: 4.2 lb over 8 x 150 ft, setting 5. Or: tank 4 gal
machines-missed = A missed stripe of { $size } needs { $amount }. Walk along it once.
machines-missed_length = How long was that stripe of { $width }? For example: missed a stripe 4 ft x 60 ft on the back
machines-missed_recorded = Record #{ $number } counts it as done. Take that part of { $zone } out, so it is still to do?
machines-missed_where = Record #{ $number } counts it as done. On which zone was it? I take it out there, so it is still to do.
machines-left_out = Record #{ $number } is corrected: { $left } of { $zone } still to do. When it is done, say: applied rest of { $zone }
machines-button_leave_out = Take it out
machines-button_record = Record it for { $zone }
machines-button_done = All of { $zone } is done now
machines-sprayer =
    { $yard }: { $volume }
    { $lines }
machines-sprayer_no_volume = First find your spray volume. Walk { $course } at your usual pace (1/128 acre with nozzles 20 in apart), spraying water. Catch one nozzle for that long. Then tell me: caught 48 oz. Or: 0.4 gpm, 3 mph, 20 in spacing
machines-sprayer_no_volume_metric = First find your spray volume. Walk 10 m at your usual pace, spraying water. Catch what nozzles 1 m wide together give in that time. Then tell me: caught 0.5 L over 10 m x 1 m. Or: 450 L/ha
machines-sprayer_volume_metric = { $l_ha } L/ha, { $per_100 } L per 100 m².
machines-sprayer_volume = { $gpa } gallons per acre, { $per_1000 } per 1,000 sq ft.
machines-sprayer_no_tank = How much does the tank hold? For example: tank 4 gal
machines-tank_kept = Tank { $tank }, saved.
machines-volume_kept = { UNITS() ->
    [metric] { $l_ha } L/ha = { $per_100 } L per 100 m². Saved. Don't change pressure, nozzle or pace now.
   *[us] { $gpa } gal per acre = { $per_1000 } gal per 1,000 sq ft. Saved. Don't change pressure, nozzle or pace now.
}
machines-volume_128 = On 1/128 acre, fluid ounces caught equal gallons per acre.
machines-covers = { UNITS() ->
    [metric] A full tank ({ $tank }) covers { $area }.
   *[us] A full tank ({ $tank }) covers { $area } ({ $acres } acre).
}
machines-loads = { $area } takes { $loads ->
        [one] { $loads } tank
       *[other] { $loads } tanks
    }. Each full tank ({ $tank }) covers { $covers } and gets { $product }.
machines-loads_last = Last tank: { $carrier } of water for { $area }, with { $product }. Nothing is left over.
machines-loads_one = One tank: { $carrier } of water for { $area }, with { $product }.
machines-loads_one_pass = This is for ONE even pass. For two passes, put half the product in each tank.
machines-loads_caution = Fill half the water, add the product, then fill the rest. Spray the rinse water on the lawn, never in a drain.
machines-per_gallon = { $product } to each gallon.
machines-per_10_l = { $product } to each 10 L.
machines-per_gallon_spoons = { $product } to each gallon, about { $spoons } tablespoons.
machines-course_128 = One nozzle { $spacing } wide covers 1/128 acre in { $length }. Ounces caught in that time equal gallons per acre.
machines-plot_128 = 1/128 acre is { $area }, a square { $side } on a side.
machines-speed = { UNITS() ->
    [metric] { $kmh } km/h ({ $mph } mph).
   *[us] { $mph } mph.
}
machines-nitrogen = { $amount } of { $analysis } per 1,000 sq ft gives { $n } lb of nitrogen. Anything from { $low } to { $high } lb is close enough. For two passes: { $half } each.
machines-nitrogen_unit = Nitrogen on how much area? For example: 20-5-10 for 1 lb N per 1000 sq ft
machines-converted = { $rate } is { $other }.
machines-reverse = { $rate } of a { $percent }% product is { $ai } lb of active ingredient per acre.
machines-water = { $depth } of water on { $area } is { $water }.
machines-minutes = At { $rate }, run the sprinkler { SPAN($minutes, unit: "minute") } for { $depth }.
