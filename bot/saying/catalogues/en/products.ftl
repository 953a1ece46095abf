products-ask = What is in the bag or jug? The active ingredient is in small print on the front.
    Tap it, or type the label in one line:
    prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year
products-no_rate_no_amount = Without a rate or what the bag covers I give no amount. Look on the back for "covers", "treats" or a table by spreader. A bag whose label is gone should not be used.
products-ask_another = To change it, send the new label: ingredient, rate, maximum.
products-known =
    You use { $product }.
    Label maximum: { $limits }.
products-ask_ingredient = Which active ingredient? It is in small print on the front, with a percent.
products-near = I don't know "{ $said }". Did you mean { $names }? Please type it as on the label.
products-kept = Saved for { $yard }: { $product }.
products-code_taken = I read { $said } as { $strength } of active ingredient.
products-form_taken_granule = I read it as granules for a spreader.
products-form_taken_spray = I read it as a powder or dry flowable that you mix with water.
products-leftovers = I did not understand: { $words }.
products-rate_again = That is the rate, which I have. { $question }
products-button_max_same = It is the most too
products-ask_maximum = What is the most the label allows? Look under the directions for "do not apply more than". For example: max 6.4 lb per 1000 a year
    Until you tell me I can't check your rate against it.
products-ask_maximum_unit = The most the label allows, { $said }: of what, on which area? For example: lb per 1000 sq ft
    Until you tell me I can't check your rate against it.
products-ask_maximum_area = The most the label allows, { $said }: on which area? For example: per 1000 sq ft
    Until you tell me I can't check your rate against it.
products-ask_period = Label maximum { $limits }: is that per application or for the whole year? Until you tell me I use the stricter one.
products-limits = Label maximum: { $limits }.
products-limit_application = { $rate } in one application
products-limit_calendar_year = { $rate } in a calendar year
products-limit_season = { $rate } in a season
products-limit_12_months = { $rate } in any 12 months
products-limit_unsaid = { $rate } (period not said)
products-limit_none = none given, so I cannot check against it
products-law = Your label is the law. It wins over me.
products-granule = { $ingredients }, granules, { $rate }
products-spray = { $ingredients }, sprayed, { $rate }
products-button_granule = It is a granule
products-button_spray = It is mixed with water
products-button_nomax = My label has none
products-button_application = One application
products-button_year = Whole year
products-button_season = A season
products-button_use = Use { $product }
products-button_sure = That's what it says
products-button_reread = Let me read it again
products-button_unsaid = It doesn't say
products-button_change = Change it
products-button_certified = I'm certified
products-no_maximum = Saved without a maximum. Check the label once more for "do not apply more than" before you spread. /amounts for { $yard }
products-over_limit = Not saved: { $asked } is over your label maximum of { $limit }.
    Please check both on the label and send the right rate: 3.2 lb per 1000 sq ft
products-slip_above_range = Please check { $asked }. That is high. Published rates of { $ingredient } this strong are { $usual }. Does your label say so?
products-slip_below_range = Please check { $asked }. That is low. Published rates of { $ingredient } this strong are { $usual }. Does your label say so?
products-slip_per_acre_as_per_1000 = Please check { $asked }. That is 43.56 times { $suggestion }, the usual rate. Which one is on your label?
products-slip_per_1000_as_per_acre = Please check { $asked }. That is very low; { $suggestion } is the usual rate. Which one is on your label?
products-slip_weight_for_volume = Please check { $asked }. That is a weight, and this product is a liquid. What does your label say?
products-slip_volume_for_weight = Please check { $asked }. That is a volume, and this product is dry. What does your label say?
products-slip_too_much_of_anything = Please check { $asked }. That is more than any product I know of. Does your label say so?
products-slip_granule_or_spray = Please check: granules at { $asked } are hard to spread evenly. Is it mixed with water instead?
products-slip_spray_or_granule = Please check: { $asked } is a lot to mix with water. Is it granules for a spreader instead?
products-slip_maximum_above = Please check the maximum. { $asked } is far more than any I know of, { $usual }. Does your label say so?
products-slip_maximum_per_acre_as_per_1000 = Please check the maximum. Is it { $asked } or { $suggestion }? The first is far more than any I know of.
products-slip_again = Noted. Back to { $asked }: does your label say so?
products-read_again = Take your time. Then type it as it stands there: 3.2 lb per 1000 sq ft, or: 18 lb covers 5,000 sq ft
products-doubt_above_range = In doubt: { $asked } is above the published { $range }. Check the label.
products-doubt_below_range = In doubt: { $asked } is below the published { $range }. Check the label.
products-doubt_per_acre_as_per_1000 = In doubt: { $asked } is 43.56 times the usual { $suggestion }. Check the label once more.
products-doubt_per_1000_as_per_acre = In doubt: { $asked } is very low; { $suggestion } is usual. Check the label once more.
products-doubt_weight_for_volume = In doubt: { $asked } is a weight, and the product is a liquid. Check the label once more.
products-doubt_volume_for_weight = In doubt: { $asked } is a volume, and the product is dry. Check the label once more.
products-doubt_too_much_of_anything = In doubt: { $asked } is more than any product I know of. Check the label once more.
products-doubt_granule_or_spray = In doubt: { $asked } is very low for granules. Check the label once more.
products-doubt_spray_or_granule = In doubt: { $asked } is a lot to mix with water. Check the label once more.
products-doubt_maximum_above = In doubt: a maximum of { $asked } is far above any I know of, { $usual }. Check the label once more.
products-doubt_maximum_per_acre_as_per_1000 = In doubt: a maximum of { $asked }; { $suggestion } is usual. Check the label once more.
products-by_row = Take the row for your grass, and for how long it should hold. Send me that rate: 3.2 lb per 1000 sq ft
products-take_time = Take your time.
products-no_amounts_yet = No amounts for { $yard } yet: I have nothing to check the rate against.
products-ask_percent = Does the label say { $said }% { $ingredient }?
products-button_percent = { $said }%
products-ask_strength = How strong is it? The front of the label gives { $ingredient } with a percent. For example: 0.38%
products-ask_strength_by_volume = How many pounds of { $ingredient } per gallon? It is under the ingredients. For example: 2 lb per gallon
products-ask_strength_by_weight = The rate is a weight. What percent of { $ingredient } does the label give? For example: 0.38%
products-coverage_taken = I read { $weight } bag covers { $area } as a rate of { $rate }.
products-certified_only = { $ingredient } is for certified applicators only, not for home lawns (US EPA, 2022). I skip it unless you are certified and your label lists this site.
products-hint = Send /product to start over.
products-ask_was_it = You put something down { $on } before I knew what. Was it this?
products-button_was_it = Yes, it was this
products-was_it = Noted for { $zones }: { $product }. It counts toward the maximum and the barrier.
products-button_none_yet = Nothing yet
products-button_list = Another one
products-button_nostrength = It gives none
products-ask_strength_first = How strong is it? The percent is right beside { $ingredient } on the front. Liquids give pounds per gallon.
products-button_max_year = { $unit } a year
products-button_max_application = { $unit } each time
products-so_far = For amounts I need the rest of the label. So far: { $said }.
products-ask_covers = A bag of { $pack }. What does it cover? Look on the back for "covers", for example: covers 15,000 sq ft
products-ask_range = Your label gives { $low } to { $high }. Which rate will you use?
products-over_range = { $asked } is over your label's { $low } to { $high }. Which rate will you use?
products-button_rate = { $rate }
products-range = Label rates: { $low } to { $high }.
products-range_below = Your rate is below the label's { $low } to { $high }. It may not hold as long. Check that your label allows less.
products-fit_over = { $count } applications come to { $together }. That is over the maximum: { $limit }.
products-fit_all =
    What fits: { $count } of { $each } where your label allows that rate, or { $times ->
        [one] one of { $rate }.
       *[other] { $times } of { $rate }.
    }
products-fit_one = What fits: one application of { $rate }.
products-button_fit_all = { $count } of { $each }
products-button_fit_one = One application
products-one_at_a_time = One product at a time, please, each with its rate and its zone: dithiopyr 0.27% granule, 3.4 lb per 1000 on the back. Nothing was changed.
products-zone_only = One product serves a whole yard. For { $ingredient } on { $zones } alone, make that a yard of its own: { $name }. Its place and settings stay the same, and its records come along.
products-zone_of_others = One product serves all of { $yard }. Whoever set it up can make { $zones } a yard of its own.
products-mingled = Records of { $zones } may be of other ground of { $yard } too. So it stays part of { $yard }, with one product.
products-apart = { $zones } is now the yard { $name }. Its records came along. /undo puts it back.
products-button_apart = Make it { $name }
products-button_whole = Use it on all of { $yard }
