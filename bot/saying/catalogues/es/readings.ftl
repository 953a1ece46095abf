readings-how = Dime el número y la profundidad, por ejemplo: suelo 52 a 2 in, 4 pm
readings-taken =
    Gracias. { $measured } a esa hora y profundidad equivale a { $mean } de promedio diario a 2 in; el modelo dice { $grid }.
    Para { $yard } me guío desde ahora por { $blend }. Lo que más dice es una lectura al amanecer y otra a media tarde.
readings-taken_zone =
    Gracias. { $measured } a esa hora y profundidad equivale a { $mean } de promedio diario a 2 in; el modelo dice { $grid }.
    Para { $zone } de { $yard } me guío desde ahora por { $blend }.
readings-far_off = { $measured } está lejos de lo que espero ahí ahora, de { $low } a { $high }. ¿El termómetro está en el suelo y no al sol? ¿Está bien?
readings-button_not = No la anotes
readings-left_out = No la anoté. Mide otra vez cuando puedas: suelo 52, o suelo 52 a 3 in, 4 pm
readings-unclear = No entendí «{ $said }» y no anoté ninguna lectura. Por ejemplo: suelo 52, o suelo 52 a 3 in en la franja, 4 pm
readings-future = Esa hora todavía no llega. Por ejemplo: suelo 52 a 2 in, 8 am
readings-depth = Una lectura entre la superficie y 12 in, por favor. Por ejemplo: suelo 52 a 2 in
readings-hint = Dime la lectura otra vez, así: suelo 52
