applying-hours = De { $begun } a { $ended }.
applying-hour = Empezó a las { $begun }.
applying-hours_how = Tomo tu mensaje anterior como inicio. ¿Otra hora? Di: registro { $number } inicio 9:15
applying-recorded = Registrado en { $yard }: { $zones } ({ $area }), { DAY($on) }.
applying-recorded_amount = Registrado en { $yard }: { $zones } ({ $area }), { $amount }, { DAY($on) }.
applying-rate_right = Es la dosis de la etiqueta, { $planned }, con menos de 5 % de diferencia.
applying-rate_over = Es { $percent } % más que lo previsto, { $planned }. La próxima vez cierra más la compuerta; ahí no pongas más.
applying-rate_under = Es { $percent } % menos que lo previsto, { $planned }: pueden pasar malezas.
applying-over = Eso pasa del máximo de tu etiqueta, { $limit }. No apliques más ahí y sigue la etiqueta. Si dudas, pregunta en tu oficina de extensión.
applying-too_soon = Eso va demasiado cerca de { $last }: tu etiqueta pide más tiempo entre aplicaciones, lo más pronto { DAY($day, style: "on") }. Sigue la etiqueta y, si dudas, pregunta en tu oficina de extensión.
applying-too_many = Es una vez más que las { $limit } que permite tu etiqueta. No apliques más ahí y sigue la etiqueta. Si dudas, pregunta en tu oficina de extensión.
applying-unchecked = No pude compararlo con el máximo de tu etiqueta: lo que se aplicó en { $zone } { DAY($day, style: "on") } cuenta, y no sé cuánto fue.
applying-no_product = No sé qué producto era, así que todavía no cuenta para ningún máximo ni barrera. Anótalo con /product y te pregunto si era ése.
applying-newest = Último registro, { DAY($on) }: { $amount } en { $area }.
applying-newest_open = Último registro, { DAY($on) }: sin cantidad, así que no sé. Dime: registro { $number } cantidad 7.5 lb
applying-amount_open = Cuánto pusiste queda abierto: nadie sabe qué concentración tiene el producto. No se sabe cuánto cuenta para el máximo.
    Si lo pesaste, di: registro { $number } cantidad 7.5 lb
applying-still_open = Falta: { $zones }.
applying-water_in = Ahora riega: { $depth } a más tardar { DAY($by, style: "on") }. La lluvia cuenta. Luego di: { watering-some }
applying-half_capped = Sin segunda aplicación: después de esta tu etiqueta no deja otra entera de este producto. Más adelante busca plántulas.
applying-caution = Sin niños ni mascotas hasta que esté regado y seco, o más según la etiqueta. No siembres ni recojas recortes. Barre el pavimento.
applying-which_day = ¿Qué día fue, entre el { $first } y el { $last }? El riego, la siguiente y la siembra cuentan desde ahí. Tócalo o escríbelo: 3 de abril
applying-again = { $zones } ya tuvo una aplicación { DAY($on, style: "on") }. ¿Esta es otra, encima de aquella?
applying-strange_early = { $days ->
    [one] Es un día antes de las primeras malezas que espero, { DAY($day, style: "about") }. ¿Está bien la fecha?
   *[other] Es { $days } días antes de las primeras malezas que espero, { DAY($day, style: "about") }. Para entonces se habría gastado buena parte. ¿Está bien la fecha?
}
applying-strange_late = { $days ->
    [one] Yo esperaba las primeras malezas { DAY($day, style: "on") }, un día antes. Lo que ya brotó no lo detiene. ¿Está bien la fecha?
   *[other] Yo esperaba las primeras malezas { DAY($day, style: "on") }, { $days } días antes. Lo que ya brotó no lo detiene. ¿Está bien la fecha?
}
applying-strange_rate = Es { $times } veces lo de tu etiqueta, { $label }. ¿Están bien la cantidad y el área?
applying-strange_long_ago = { $days ->
    [one] Eso fue hace un día: { DAY($day) }. ¿Está bien el año?
   *[other] Eso fue hace { $days } días: { DAY($day) }. ¿Está bien el año?
}
applying-part_too_large = { $area } es más de lo que tiene { $zone }: { $of }. No registré nada. Por ejemplo: ya apliqué la mitad de { $zone }
applying-button_again = Sí, es otra
applying-button_right = Sí, está bien
applying-button_wrong = No, déjala fuera
applying-button_not = No, es la misma
applying-button_undo = Deshacer
applying-left_out_amend = No lo anoté: el registro queda como estaba. ¿La cantidad era otra? Di: registro { $number } cantidad { $amount }
applying-left_out = No lo anoté: el registro queda como estaba.
applying-unclear =
    No entendí «{ $said }» y no registré nada. Zonas de { $yard }: { $names }.
    Por ejemplo: apliqué el frente ayer a las 5 pm, o: apliqué 3.2 lb en la franja
applying-future = «{ $said }» todavía no llega. Dímelo cuando esté aplicado, por ejemplo: aplicado ayer 5 pm
applying-long_ago = «{ $said }» fue hace años, así que no registré nada. ¿Qué día fue? Por ejemplo: aplicado ayer 5 pm
applying-water_much = { $depth } de una vez es una inundación, así que no registré nada. Por ejemplo: { watering-enough }
applying-wrong_kind = { $said } y { $wanted } son un peso y un volumen, así que no registré nada. Da la cantidad como en la etiqueta, por ejemplo: apliqué 3.2 lb
applying-water_future = «{ $said }» todavía no llega, así que no anoté nada. Dímelo cuando hayas regado, por ejemplo: { watering-enough }
applying-watered_before = No anoté nada: { DAY($day) } es antes de aplicar el producto ({ DAY($applied) }). El agua cuenta desde entonces, por ejemplo: { watering-enough } hoy
applying-water_zones = Sin regar todavía: { $zones }.
applying-water_unread =
    { $problem }
    No registré nada.
applying-nothing_to_water = Por ahora nada espera riego en { $yard }.
applying-watered_in = Incorporado en { $yard }: { $had } desde la aplicación.
applying-watered_some = Anotado, { $added } en { $yard }: { $had } desde la aplicación, faltan { $missing }.
applying-over_with_earlier = Con { $used } de antes, eso pasa del máximo de tu etiqueta, { $limit }. No apliques más ahí y sigue la etiqueta. Si dudas, pregunta en tu oficina de extensión.
applying-for_no_round = No detiene semillas, así que no cuenta como aplicación de preemergente.
applying-for_late_summer = Cuenta como la aplicación de fin de verano contra la poa anual.
applying-for_next_spring = Cuenta como la primera aplicación de la primavera de { $year }.
applying-not_done = Entendido, no registré nada en { $yard }. Dímelo cuando esté: aplicado
applying-left_by = Falta: { $what }. Hay tiempo hasta { DAY($by, style: "on") }.
applying-not_done_by = Entendido: { $what } sigue sin aplicar y no registré nada. Hay tiempo hasta { DAY($by, style: "on") }.
applying-not_done_but_recorded = { $yard } tiene el registro { $number } del último día. Si eso no se aplicó, deshazlo.
applying-too_much =
    No apliques más ahí. Barre lo que quedó en el pavimento o amontonado. Espárcelo ralo en otra parte solo dentro de la dosis de tu etiqueta.
    No lo laves con la manguera. Riega como dice la etiqueta; el césped puede ponerse ralo o amarillo.
    ¿Cuánto cayó en total? Di por ejemplo: fueron 10 lb en el frente
    ¿Hay cerca un desagüe, un estanque o un pozo? Dilo ya.
applying-too_much_short = No apliques más ahí y barre lo que quedó en el pavimento. Tu etiqueta dice qué hacer si se pasa la dosis. Si dudas, pregunta en tu oficina de extensión.
applying-part_left = { $area } de { $zone } ya lo tienen; faltan { $left }.
applying-part_whole = Con estos { $area }, { $zone } ya lo tiene todo.
applying-second_to_come = { $area } de { $zone } llevan la pasada 1 de 2. Faltan { $rest }, en sentido cruzado.
applying-second_stopped = { $area } de { $zone } llevan la pasada 1 de 2. La etiqueta no deja hacer ahí la segunda.
applying-second_down = La segunda pasada en { $zones } también queda anotada.
applying-second_done = Corregí el registro n.º { $number }: { $area } de { $zone } llevan las dos pasadas, la dosis completa.
applying-button_second = Segunda pasada en { $zone } hecha
applying-part_which = ¿Qué parte de { $yard } fue? Sus zonas: { $names }. Por ejemplo: ya apliqué la mitad de { $name }
applying-part_how_much = ¿Cuánto de { $zone } lo recibió? Por ejemplo: ya apliqué la mitad de { $zone }, o: apliqué 100 sq ft de { $zone }
applying-early = Faltan { $days } días para el primer garranchuelo, { DAY($up, style: "about") }; para entonces una parte ya se habrá gastado.
applying-nearly_late = Va tarde: el primer garranchuelo se espera { DAY($up, style: "on") }. Riégalo hoy; lo que brote antes se le escapa.
applying-late_on_seed = El primer garranchuelo se esperaba { DAY($up, style: "on") }: lo que ya brotó lo deja en pie. Detiene la semilla que brote desde ahora. Arranca lo que veas antes de que eche semilla.
applying-late_on_small = El primer garranchuelo se esperaba { DAY($up, style: "on") }. Tu producto ({ LIST($names) }) también actúa sobre plántulas pequeñas, hasta donde diga tu etiqueta; lo más grande lo deja. Arráncalo antes de que eche semilla.
applying-bag_how_much = ¿Cuánto fue por peso? No sé cuánto trae una bolsa. Así: apliqué el frente con 16 lb
applying-bag_not_quite = ¿Cuánto fue por peso, más o menos? Una bolsa llena trae { $pack }. Por ejemplo: 16 lb
