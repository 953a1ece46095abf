readings-how = Tell me the number and the depth, for example: soil 52 at 2 in, 4 pm
readings-taken = Thanks. { $measured } then and there means about { $mean } as a daily average at 2 inches. Weather data says { $grid }.
    For { $yard } I now use { $blend }. Readings at dawn and mid-afternoon help most.
readings-taken_zone = Thanks. { $measured } then and there means about { $mean } as a daily average at 2 inches. Weather data says { $grid }.
    For { $zone } of { $yard } I now use { $blend }.
readings-far_off = { $measured } is far from what I expect there now ({ $low } to { $high }). Was the thermometer in the soil and out of the sun? Is it right?
readings-button_not = No, skip it
readings-left_out = OK, skipped. Read it again when you can: soil 52, or soil 52 at 3 in, 4 pm
readings-unclear = I could not read "{ $said }", so I took no reading. For example: soil 52, or soil 52 at 3 in on the strip, 4 pm
readings-future = That time is in the future. For example: soil 52 at 2 in, 8 am
readings-depth = I need a reading between the surface and 12 in. For example: soil 52 at 2 in
readings-hint = Send the reading again, for example: soil 52
