readings-how = Tell me the number and the depth, for example: soil 52 at 2 in, 4 pm
readings-taken =
    Thank you. { $measured } at that hour and depth stands for { $mean } as a day's mean at 2 in; the grid says { $grid }.
    For { $yard } I go by { $blend } from now on. A reading at dawn and one in mid-afternoon tell most.
readings-taken_zone =
    Thank you. { $measured } at that hour and depth stands for { $mean } as a day's mean at 2 in; the grid says { $grid }.
    For { $zone } of { $yard } I go by { $blend } from now on.
readings-far_off = { $measured } is far from what I expect there now, { $low } to { $high }. Thermometer in the soil, not in the sun? Is it right?
readings-button_sure = Yes, it is right
readings-button_not = Leave it out
readings-left_out = Left out. Read again when you can: soil 52, or soil 52 at 3 in, 4 pm
readings-unclear = I made nothing of "{ $said }", and took no reading. For example: soil 52, or soil 52 at 3 in on the strip, 4 pm
readings-future = That hour is still to come. For example: soil 52 at 2 in, 8 am
readings-depth = A reading from the surface down to 12 in, please. For example: soil 52 at 2 in
readings-hint = Tell me the reading again, like: soil 52
