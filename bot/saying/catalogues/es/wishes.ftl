wishes-button_later = Más tarde
wishes-mute_sure = { $yard }: ¿no digo nada más esta temporada? Toca abajo; si no, nada cambia.
wishes-quiet_early = Primero dime dónde está el césped. Luego di por ejemplo: silencio de 9 pm a 7 am
wishes-quiet_how = ¿Cuándo te escribo? Por ejemplo: silencio de 9 pm a 7 am, o: escríbeme a las 6, o: máximo 3 mensajes al día
wishes-free_set = { $yard }: busco un día en tus horas libres: { $hours }.
wishes-free_any = { $yard }: te sirve cualquier día y hora. Anotado.
wishes-free_unread = No pude leer esas horas. Por ejemplo: libre sábado y domingo en la mañana, o: libre entre semana después de las 5 pm
wishes-water_days = { $yard }: riego en { $days }. Cuento solo con esos días.
wishes-water_days_any = { $yard }: riego cualquier día. Anotado.
wishes-banned = { $yard }: hay prohibición de riego. Desde ahora solo cuenta la lluvia: busco un día con media pulgada por venir, y donde no la haya digo que mejor no. El granulado aguanta la espera; lo rociado no.
wishes-ban_over = { $yard }: ya no hay prohibición de riego. Anotado.
wishes-can_water = { $yard }: se puede regar. Anotado.
wishes-cannot_water = { $yard }: no se puede regar, así que desde ahora solo cuenta la lluvia.
wishes-ground = { $yard }: suelo { $ground }. Con eso fijo los límites de lluvia fuerte y las tandas de riego.
wishes-slope = { $yard }: en pendiente. Ahí media pulgada de lluvia fuerte ya es demasiado, y se riega en tandas cortas.
wishes-level = { $yard }: terreno plano. Anotado.
wishes-label_set = Lo de tu etiqueta ya vale para { $product }: { $terms }. Manda sobre lo mío.
wishes-label_cleared = Anotado: la etiqueta no dice nada del día, así que valen los límites comunes.
wishes-label_product = Escoge primero el producto, para saber de quién es la etiqueta: /product
wishes-label_water = { $depth } para incorporarlo
wishes-label_within = en menos de { $hours } h
wishes-label_wind = viento hasta { $wind }
wishes-label_leaves = { $leaves ->
    [wet] hoja mojada
    [dry] hoja seca
   *[other] hoja: { $leaves }
}
wishes-label_dry = sin lluvia { $hours } h después
wishes-quiet_set = Silencio de { $first } a { $last }, según la hora de cada propiedad. Lo que surja mientras tanto espera.
wishes-quiet_none = Ya no hay horas de silencio: escribo cuando surja algo.
wishes-wake_set = Escribo desde { $at }, según la hora de cada propiedad, y reviso el suelo a tiempo para eso.
wishes-wake_data = Puedo escribir desde { $at }, pero lo que depende del suelo o la lluvia llega a las { $known }: solo entonces se conoce el día anterior.
wishes-wake_deep = { $at } cae en plenas horas de silencio (de { $first } a { $last }). Cambia primero esas: silencio de 22 a 5
wishes-wake_any = Escribo desde que terminan tus horas de silencio.
wishes-cap_set = { $count ->
    [one] Como máximo un mensaje mío al día, aparte de respuestas. Lo que sobre va en el de la mañana siguiente.
   *[other] Como máximo { $count } mensajes míos al día, aparte de respuestas. Lo que sobre va en el de la mañana siguiente.
}
wishes-yards_a_day = { $count ->
    [one] Planeo tus rutas con una propiedad al día.
   *[other] Planeo tus rutas con { $count } propiedades al día.
}
wishes-number_range = Un número de { $low } a { $high }, por favor.
wishes-later_ask = { $yard }: ¿cuándo vuelvo con esto? { $limit }
wishes-later_limit = Último día a tiempo: { DAY($by, style: "on") }.
wishes-later_set = { $yard }: vuelvo con esto { DAY($when, style: "on") }. { $warning }
wishes-later_warmer = { $yard }: vuelvo con esto cuando el suelo llegue a { $warm } (promedio de 5 días), o con el último aviso.
wishes-later_too_long = Eso pasa del último día a tiempo, { DAY($by, style: "on") }. Es mejor antes.
wishes-later_range = Hasta { $high } días; para más tiempo di: esta temporada no
wishes-mute_winter_annuals = { $yard }: este año no digo más de la poa anual. Del riego de lo ya aplicado sí te aviso. Para volver a recibirlo: esta temporada sí
wishes-is_muted = { $yard } calla esta temporada, como pediste, así que no llega ningún aviso. Para volver a recibirlo: esta temporada sí
wishes-mute_summer_annuals = { $yard }: esta temporada no digo más del garranchuelo. Del riego de lo ya aplicado sí te aviso. Para volver a recibirlo: esta temporada sí
wishes-mute_off = { $yard }: te vuelvo a avisar esta temporada. Ahora está así: { $state }. /yard
wishes-button_day = En un día
wishes-button_days = En { $count } días
wishes-button_warmer = Cuando haga más calor
wishes-summary = { $yard }: { $free }; { $water }; suelo { $ground }{ $slope }; { $sprinkler }.
    Mensajes: { $quiet }, desde { $wake }, máximo { $cap } al día. Propiedades por día: { $yards }.
    Para cambiar algo, dilo. Por ejemplo: libre sábado en la mañana
    o: días de riego martes y viernes
    o: silencio de 21 a 7
wishes-midnight = medianoche
wishes-summary_quiet = silencio de { $first } a { $last }
wishes-summary_never_quiet = sin horas de silencio
wishes-summary_free = libre { $hours }
wishes-summary_any = libre a toda hora
wishes-summary_water_any = riego cualquier día
wishes-summary_water_days = riego en { $days }
wishes-summary_banned = riego prohibido
wishes-summary_cannot = no se puede regar
wishes-summary_ground_unknown = sin decir
wishes-summary_slope = , en pendiente
wishes-summary_sprinkler = aspersor { $rate } por hora
wishes-summary_no_sprinkler = no sé cuánto da el aspersor
wishes-span = { $days } de { $first } a { $last }
wishes-span_whole = { $days }
wishes-every_day = todos los días
wishes-grounds-sand = de arena
wishes-grounds-sandy_loam = franco arenoso
wishes-grounds-loam = franco
wishes-grounds-clay_loam = franco arcilloso
wishes-grounds-clay = de arcilla
