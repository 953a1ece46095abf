reasons-head = What I go by at { $yard }, soil as a 5-day average:
reasons-rule = Rule: I add up the soil's warmth over { $base } at 2 in, day by day from March 1. At { $sum } degree-days the first crabgrass comes up (Fidanza and others, Crop Science 1996).
reasons-was_up = By that rule first crabgrass was expected { $up }.
reasons-lead = The window opens { SPAN($lead) } before first crabgrass. Water it in at least { SPAN($before) } before, so the barrier is in place. "Weeds come first" means they sprout before it is.{ $is_set ->
        [yes] { " " }You set that.
       *[no] { "" }
    }
reasons-band_source = The rule of thumb comes from Michigan State University Extension and the PNW Weed Management Handbook. If the two differ, I go by the warmth added up.
reasons-barrier = How long it lasts: your rate, how fast the ingredient breaks down, and the soil since. It is rough: half to one and a half times as long. Your label says when you may apply again, and it wins.
reasons-law = Your label beats all of it, and your extension office knows your county.
reasons-range = The window may open { $early } to { $late }.
# Sources as in `jobs.agronomy.watering`, `day_rules` and `seeding`, and their tables.
reasons-of_water = I go by { $depth } within { SPAN($days) }: your label's figure where I know it. Where I don't, half an inch within 7 days (University of Arkansas Extension). Rain since you applied counts, and what you report. Your label wins.
reasons-of_rain = Before it is watered in, heavy rain can float granules off. An inch in 48 hours is my limit, half of that on slopes and clay: from memory. Watered in, it is bound to the soil. Your label wins.
reasons-of_day = I go by the forecast for your yard, and by your label's limits where I know them; elsewhere by common ones. Forecasts change, so ask again that day. Your label wins.
reasons-of_seed = A pre-emergent stops grass seed too. Your label's wait comes first. Where I don't know it, I take a long one for each ingredient, up to the longest labels give: from memory. On new turf it waits for the 3rd or 4th mowing (K-State Extension: 2nd to 4th).
reasons-of_work = The barrier is a thin layer at the top of the soil. What breaks or lifts that soil opens it, and what moves wet granules makes it patchy. That is common practice, with no published figure. Your label wins.
reasons-of_keep_off = Lawn labels keep people and pets off until it is dry, and many until it is watered in. Each label gives its own time in its re-entry section. That is the law for it, and it wins over me.
