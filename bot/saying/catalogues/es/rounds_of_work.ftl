rounds_of_work-head = { $all ->
    [one] Ruta, { DAY($day) }: { $left } de 1 propiedad por hacer hoy, { $done ->
        [one] { $done } lista
       *[other] { $done } listas
    }.
   *[other] Ruta, { DAY($day) }: { $left } de { $all } propiedades por hacer hoy, { $done } ya listas.
}
rounds_of_work-head_all_done = { $done ->
    [one] Ruta, { DAY($day) }: lista la única de hoy.
   *[other] Ruta, { DAY($day) }: listas las { $done } de hoy.
}
rounds_of_work-head_none = Ruta, { DAY($day) }: ninguna aplicación pendiente.
rounds_of_work-begin = { $count ->
    [one] Con una propiedad al día, empieza a más tardar { DAY($by, style: "on") }: así la última de { $all } queda a tiempo, contando días de lluvia.
   *[other] Con { $count } propiedades al día, empieza a más tardar { DAY($by, style: "on") }: así la última de { $all } queda a tiempo, contando días de lluvia.
}
rounds_of_work-late = Haz más de { $count } al día, o primero las de productos de larga duración: si no, las últimas quedan tarde.
rounds_of_work-takes = { $days ->
    [one] Todo toma un día, con { $count } al día, contando la lluvia.
   *[other] Todo toma unos { $days } días, con { $count } al día, contando la lluvia.
}
rounds_of_work-load = Carga para lo que falta hoy: { $amounts }.
rounds_of_work-load_one = { $amount } de { $product }
rounds_of_work-line = { $number }. { $yard }: { LIST($what, style: "comma") }
rounds_of_work-line_town = { $number }. { $yard } ({ $town }): { LIST($what, style: "comma") }
rounds_of_work-tanks = { $product }: { $loads } tanques de { $tank }; { $amount } en { $water } de cada uno.
rounds_of_work-drive = En el orden del recorrido, unas { $far } mi en línea recta.
rounds_of_work-drive_metric = En el orden del recorrido, unos { $far } km en línea recta.
rounds_of_work-start_hint = Di de dónde sales: salimos de Wahoo, NE
rounds_of_work-start_set = Tu ruta sale de { $place }; la lista del día sigue con lo más cercano.
rounds_of_work-start_unknown = No conozco ese lugar: { $said }. Escribe ciudad y estado, un código postal o coordenadas: salimos de Wahoo, NE
rounds_of_work-line_done = { $number }. { $yard }: lista { $at }{ $by }
rounds_of_work-by_whom = , por { $name }
rounds_of_work-due_by = { $days ->
    [one] a más tardar { DAY($by, style: "on") } (queda un día)
   *[other] a más tardar { DAY($by, style: "on") } (quedan { $days } días)
}
rounds_of_work-due_late = tarde, cuanto antes; sirve hasta { DAY($by, style: "on") }
rounds_of_work-due_today = hoy es el último día
rounds_of_work-due_half = segunda aplicación
rounds_of_work-opens = abre { DAY($on, style: "about") }, a más tardar { DAY($by, style: "on") }
rounds_of_work-good = { $count ->
        [0] ningún día bueno por delante
        [one] 1 día bueno por delante
       *[other] { $count } días buenos por delante
    }
rounds_of_work-stopped = la etiqueta no permite más; mira sus cantidades
rounds_of_work-no_amount = sin cantidad todavía; mira sus cantidades
rounds_of_work-no_product = sin producto escogido
rounds_of_work-later = Después de hoy:
rounds_of_work-resting = { $count ->
    [one] Una sin nada pendiente.
   *[other] { $count } sin nada pendiente.
}
rounds_of_work-page = Página { $page } de { $pages }.
rounds_of_work-caution = Márcala cuando esté aplicada. Tu etiqueta es la ley; niños y mascotas, lejos hasta que esté regado y seco.
rounds_of_work-button_tick = Lista: { $yard }
rounds_of_work-button_next = Más
rounds_of_work-button_back = Atrás
rounds_of_work-button_left = Qué falta
rounds_of_work-button_today = La lista
rounds_of_work-from_to = de { $begun } a { $ended }
rounds_of_work-ticked = { $yard }: marcada como lista.{ $hours } ¿Error? /undo
rounds_of_work-tonight = Por hacer hoy: { $count } de { $all }.
rounds_of_work-tonight_none = Hoy ya no falta nada.
rounds_of_work-tonight_line = { $yard }: { LIST($what, style: "comma") }
rounds_of_work-tonight_load = Sin usar: { $amounts }. En seco, en su propia bolsa, lejos de niños y mascotas.
rounds_of_work-tonight_next = La primera de mañana: { $yard }.
