reasons-head = What I go by at { $yard }:
reasons-rule = Rule: I add up the soil's warmth over { $base } at 2 in, day by day from March 1. At { $sum } degree-days the first crabgrass comes up (Fidanza and others, Crop Science 1996).
reasons-was_up = By that rule first crabgrass was expected { $up }.
reasons-lead = The window opens { SPAN($lead) } before that. Water it in at least { SPAN($before) } before, so the barrier is in place.
reasons-lead_set = { " " }You set that.
reasons-band_source = The rule of thumb comes from Michigan State University Extension and the PNW Weed Management Handbook. If the two differ, I go by the warmth added up.
reasons-barrier = How long it lasts: your rate, how fast the ingredient breaks down, and the soil since. It is rough: half to one and a half times as long.
reasons-law = Your label beats all of it, and your extension office knows your county.
