zones-kept =
    { $lines }
    Total de { $yard }: { $total }
    { $hint }
zones-line = { $name }: { $echo } = { $area }
zones-line_area = { $name }: { $area }
zones-line_area_again = { $name }: { $area } (antes { $was })
zones-line_again = { $name }: { $echo } = { $area } (antes { $was })
zones-hint_right = ¿Está bien? Solo césped: ni casa, ni entrada de autos, ni jardineras. Si sigues, se guarda; si cancelas, no.
zones-within = ¿Las otras son parte de { $whole }? Entonces algo cuenta doble. Di: quita { $whole }
zones-another_yard = ¿Es otra propiedad? No cambié nada de { $yard }. Agrégala con su lugar y luego manda sus medidas: nueva propiedad en Wahoo, Nebraska
zones-hint_others = Todas las zonas de { $yard }: { $names }
zones-unread_more = Lo demás queda anotado.
zones-list =
    Zonas de { $yard }, { $total } en total:
    { $lines }
    Cambia una diciéndola otra vez: { $name } 60x40 ft. Saca una: quita { $name }
zones-none =
    Dime cada parte que se trata, así:
    frente 60x40, franja 5 por 80 ft, lado sur 40x30 menos 10x12
    O el área: atrás 2,400 sq ft, o 0.25 acre. Solo el césped.
zones-ask_fix =
    Di la zona otra vez con la medida correcta, así:
    { $example }
    O sácala: quita { $name }
zones-left_out = Falta esto, pues no me quedó claro: { $said }. Mándalo otra vez con su área.
zones-kept_by_going_on = Guardé { $names }: { $total } en total.
zones-kept_nothing_new = No hay medidas por guardar. { $yard } tiene { $total }.
zones-kept_all = Guardado, { $total } en total.
zones-kept_all_product = Anotado, { $total } en total. /amounts muestra cuánto lleva cada zona.
zones-removed = Quité: { $names }. { $yard } tiene ahora { $total }.
zones-remove_unknown = No conozco ninguna zona de { $yard } con ese nombre: { $said }. Sus zonas: { $names }
zones-stranger =
    ¿Qué zona es «{ $said }»? { $yard } tiene: { $names }. No anoté nada de ella.
    Si es nueva, mídela primero: { $new } 30x20
zones-remove_which = ¿Qué zona quito? Di: quita { $name }. En { $yard } hay: { $names }
zones-remove_part = ¿Solo una parte de { $name }? No quité nada. Mándala otra vez sin esa parte: { $name } 60x40 menos 20x15, o su área: { $name } 2,100 pies cuadrados
zones-remove_all = { $count ->
    [one] ¿Quito la única zona de { $yard }: { $names }?
   *[other] ¿Quito las { $count } zonas de { $yard }: { $names }?
}
zones-remove_kept = No quité nada. { $yard } tiene { $total }.
zones-button_remove = Sí, quítalas
zones-button_forget = Quitar { $zones } de la propiedad
zones-button_remove_not = No, déjalas
zones-button_fix = Corregir
zones-button_keep = Está bien
zones-button_yes_all = Sí, todas
zones-button_yes_zone = Sí, { $area }
zones-button_no_zone = No, déjala fuera
zones-doubt_dropped = La dejé fuera: { $said }. Dila otra vez cuando quieras: { $example }
zones-dropped = Lo dejamos. De esas medidas no se guarda nada.
zones-stepped_back = Listo, quité lo último. Faltan por guardar: { $names }. Total: { $total }
zones-doubt_kept = { $line }. Anotada. Total de { $yard }: { $total }
zones-removed_record = Lo que se aplicó en { $zones } sigue en el registro.
zones-same_gone = ¿{ $zone } está donde estaba { $was }? Ahí se aplicó algo { DAY($on, style: "on") }. Mientras no me digas, cuento que es lo mismo.
zones-same_smaller = ¿{ $zone } está sobre lo que antes era { $was }? Ahí se aplicó algo { DAY($on, style: "on") }. Mientras no me digas, cuento que es lo mismo.
zones-button_same = El mismo terreno
zones-button_other = Otro terreno
zones-is_same = Anotado: a { $zone } le cuenta lo que se aplicó en { $was }.
zones-is_other = Anotado: { $zone } es otro terreno. Lo aplicado en { $was } no cuenta ahí.
zones-button_another_zone = No, es otra zona
zones-renamed = { $was } se llama ahora { $name }. Su registro va con el nombre.
zones-split = { $zone }, { $area }, es ahora: { $parts }. Lo que se aplicó ahí cuenta para cada parte.
zones-split_ask =
    Todavía no divido nada: ¿cuánto mide cada parte de { $zone }? Tiene { $area }. Por ejemplo:
    divide { $zone } en arriba 20x30 y abajo el resto
    O por mitades: divide { $zone } a la mitad
zones-merged = { $zones } son ahora una sola zona: { $name }, { $area }. Lo que se aplicó sigue en el registro.
zones-name_taken = { $yard } ya tiene una zona llamada { $name }. No se cambió nada. Sus zonas: { $names }
zones-parts_differ = Las partes suman { $parts } y la zona tiene { $area }. No se cambió nada. Una parte puede ser el resto, así: arriba 20x30 y abajo el resto
zones-default_name = zona { $number }
