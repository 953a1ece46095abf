products-ask =
    What is in the bag or jug? The active ingredient stands in small print on the front.
    Tap it, or type the label in one line:
    prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year
products-ask_another = For another one, tell me its label: ingredient, rate, maximum.
products-known =
    You use { $product }.
    Label maximum: { $limits }.
products-ask_ingredient =
    Which active ingredient? It stands in small print on the front, with a percentage.
    I know: { $names }
products-near = I know no "{ $said }". Did you mean { $names }? Please write the name as on the label.
products-kept = Noted for { $yard }: { $product }.
products-code_taken = I read { $said } as { $strength } of active ingredient.
products-form_taken_granule = I take it as granules for a spreader.
products-form_taken_spray = I take it as a powder or dry flowable that is mixed with water.
products-leftovers = I made nothing of: { $words }.
products-ask_maximum =
    What is the most the label allows? Look under the directions for "do not apply more than". Like: max 6.4 lb per 1000 a year
    Until then I can't check the dose against it.
products-ask_maximum_unit =
    The most the label allows, { $said }: of what, on which area? Like: lb per 1000 sq ft
    Until then I can't check the dose against it.
products-ask_maximum_area =
    The most the label allows, { $said }: on which area? Like: per 1000 sq ft
    Until then I can't check the dose against it.
products-ask_period = Label maximum { $limits }: is that for one application, or for the whole year? Until you tell me I go by the stricter reading.
products-limits = Label maximum: { $limits }.
products-limit_application = { $rate } in one application
products-limit_calendar_year = { $rate } in a calendar year
products-limit_season = { $rate } in a season
products-limit_12_months = { $rate } in any 12 months
products-limit_unsaid = { $rate } (period not said)
products-limit_none = none given, so I cannot check against it
products-law = Your label is the law and wins over me.
products-granule = granules
products-spray = sprayed
products-button_granule = It is a granule
products-button_spray = It is mixed with water
products-button_nomax = My label gives none
products-button_application = One application
products-button_year = Whole year
products-button_season = A season
products-button_use = Use { $product }
products-button_sure = My label says so
products-button_change = Change it
products-button_certified = I am certified
products-no_maximum = Noted, no maximum given. Look for "do not apply more than" on the label once more before you spread. /amounts for { $yard }
products-over_limit =
    Not kept: { $asked } is more than your label's maximum of { $limit }.
    Please check both on the label and tell me the right rate, like: 3.2 lb per 1000 sq ft
products-slip_above_range = Please check: { $asked }. Published rates of { $ingredient } come to { $usual } of a product of this strength. Does your label say { $asked }?
products-slip_below_range = Please check: { $asked } is little. Published rates of { $ingredient } come to { $usual } of a product of this strength. Does your label say { $asked }?
products-slip_per_acre_as_per_1000 = Please check: { $asked } is 43.56 times as much as { $suggestion }, which would be usual. Which of the two does your label say?
products-slip_per_1000_as_per_acre = Please check: { $asked } is very little; { $suggestion } would be usual. Which of the two does your label say?
products-slip_weight_for_volume = Please check: { $asked } is a weight, and this product is a liquid. What does your label say?
products-slip_volume_for_weight = Please check: { $asked } is a volume, and this product is dry. What does your label say?
products-slip_too_much_of_anything = Please check: { $asked } is more than any product I know of. Does your label say { $asked }?
products-slip_granule_or_spray = Please check: granules at { $asked } are hard to spread evenly. Is it mixed with water instead?
products-slip_spray_or_granule = Please check: { $asked } is a lot to mix with water. Is it granules for a spreader instead?
products-slip_maximum_above = Please check the maximum: { $asked } is far more than any I know of, { $usual }. Does your label say { $asked }?
products-slip_maximum_per_acre_as_per_1000 = Please check the maximum: { $asked }, or rather { $suggestion }? The first is far more than any I know of.
products-doubt_above_range = In doubt: { $asked } is above the published { $usual }. You said your label has it; look once more.
products-doubt_below_range = In doubt: { $asked } is below the published { $usual }. You said your label has it; look once more.
products-doubt_per_acre_as_per_1000 = In doubt: { $asked } is 43.56 times the usual { $suggestion }. Look at the label once more.
products-doubt_per_1000_as_per_acre = In doubt: { $asked } is very little; { $suggestion } is usual. Look at the label once more.
products-doubt_weight_for_volume = In doubt: { $asked } is a weight, and the product is a liquid. Look at the label once more.
products-doubt_volume_for_weight = In doubt: { $asked } is a volume, and the product is dry. Look at the label once more.
products-doubt_too_much_of_anything = In doubt: { $asked } is more than any product I know of. Look at the label once more.
products-doubt_granule_or_spray = In doubt: { $asked } is very little for granules. Look at the label once more.
products-doubt_spray_or_granule = In doubt: { $asked } is a lot to mix with water. Look at the label once more.
products-doubt_maximum_above = In doubt: a maximum of { $asked } is far above any I know of, { $usual }. Look at the label once more.
products-doubt_maximum_per_acre_as_per_1000 = In doubt: a maximum of { $asked }; { $suggestion } would be usual. Look at the label once more.
products-no_amounts_yet = No amounts for { $yard } yet: I cannot hold the rate against anything.
products-ask_percent = Does the label say { $said } % { $ingredient }?
products-button_percent = { $said } %
products-ask_strength = How strong is it? The front of the label gives { $ingredient } with a percentage, like: 0.38%
products-ask_strength_by_volume = How many pounds of { $ingredient } per gallon? It stands under the ingredients, like: 2 lb per gallon
products-ask_strength_by_weight = The rate is a weight. Which percentage of { $ingredient } does the label give? Like: 0.38%
products-coverage_taken = I read { $said } as a rate of { $rate }.
products-certified_only = { $ingredient } is for certified applicators only and not for home lawns (US EPA, 2022). I leave it out unless you are certified and your label names this site.
products-hint = /product begins again.
products-button_none_yet = Nothing yet
products-button_list = Another one
products-button_nostrength = It gives none
products-ask_strength_first = How strong is it? The percentage stands right beside { $ingredient } on the front. Liquids give pounds per gallon.
products-button_max_year = { $unit } a year
products-button_max_application = { $unit } each time
products-so_far = For amounts I need the rest of the label. So far: { $said }.
products-ask_covers = A bag of { $pack }. What does it cover? Look on the back for "covers", like: covers 15,000 sq ft
