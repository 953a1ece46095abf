reasons-head = What I go by at { $yard }:
# Fidanza, Dernoeden and Zhang 1996, Crop Sci. 36:990-996, as the table of weeds has it.
reasons-rule = Rule: I add up the soil's warmth over { $base } at 2 in, day by day from March 1. At { $sum } degree-days the first crabgrass comes (Fidanza and others, Crop Science 1996).
reasons-was_up = By that rule first crabgrass was due { $up }.
reasons-lead = The window opens { SPAN($lead) } before that. It is to be watered in { SPAN($before) } before, so that the barrier is in place.
reasons-lead_set = { " " }That lead is your own choice.
# Michigan State University Extension 2020; PNW Weed Management Handbook.
reasons-band_source = That band is a rule of thumb (Michigan State University Extension; PNW Weed Management Handbook). Where the two differ, I go by the warmth added up.
reasons-barrier = How long it holds: your rate, how fast the ingredient fades, and the soil since. It is rough: half to one and a half times as long.
reasons-law = Your label wins over all of it, and your extension office knows your county.
