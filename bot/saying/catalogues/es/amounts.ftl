amounts-head = { $yard }: { $total } en total.
amounts-finished = { $yard }: no hay nada más que aplicar esta temporada. Hecho como estaba planeado: { $zones }.
amounts-next_spring = La siguiente es en primavera. Te escribo cuando se abra su ventana.
amounts-one_more = ¿Una más? Cambia primero el plan: /plan
amounts-head_rounds = { $yard }, aplicación { $number } de { $rounds }: { $total } en total.
amounts-missed = La ventana de esta temporada ya pasó. Antes de aplicarlo pregúntame: ¿ya es tarde?
amounts-not_open = Todavía no: la ventana abre { DAY($day, style: "about") }.
amounts-not_before = Todavía no: esta aplicación toca { DAY($day, style: "about") }.
amounts-zone_granule = { $zone }: { $amount }, 2 pasadas
amounts-zone_spray = { $zone }: { $amount }, una pasada pareja
amounts-how_granule = La segunda pasada va en cruz con la primera. Compuerta baja; sigue hasta acabar la cantidad pesada.
amounts-how_spray = Mezclado con agua como dice la etiqueta, en dos pasadas cruzadas a media dosis o en una sola pareja.
amounts-label = Dosis de la etiqueta: { $rate }. Máximo de la etiqueta: { $limits }.
amounts-caution = La etiqueta es la ley: manda en dosis, equipo de protección y clima. Que no llegue a desagües, agua ni pavimento. Niños y mascotas, lejos hasta que esté regado y seco; tu etiqueta puede pedir más.
amounts-over_limit = Sin cantidades: la dosis pasa del máximo de tu etiqueta, { $limit } { $period }. Revisa la etiqueta y luego: /product
amounts-used_up =
    Sin cantidades para { $yard }: otra aplicación entera pasaría del máximo de tu etiqueta.
    Permite { $limit } { $period }; ya van { $used }; quedan { $left }.
    Si tu etiqueta permite una dosis menor con lo que queda: /product. Si no, déjalo y busca plántulas.
amounts-period_application = en una aplicación
amounts-period_calendar_year = en un año calendario
amounts-period_season = en una temporada
amounts-period_12_months = en cualquier período de 12 meses
amounts-period_unsaid = (no dice en cuánto tiempo; lo tomo para todo el año)
amounts-button_applied = Ya lo apliqué
amounts-part = { $part } de { $zone }
amounts-for_area = { $what }: { $amount }.
amounts-none_now = { $zones }: ahí no hay que aplicar nada ahora.
amounts-exact_granule = { $zone }, { $area }: exactamente { $amount }, { $half } por pasada
amounts-exact_spray = { $zone }, { $area }: exactamente { $amount }
amounts-scale = Lo que se pesa va redondeado hacia abajo, a lo que marca tu báscula ({ $step }).
amounts-scale_unknown = Lo que se pesa va redondeado hacia abajo. ¿Qué marca tu báscula? Por ejemplo: mi báscula marca 0.1 lb
amounts-caution_short = Tu etiqueta manda. Nada en pavimento, desagües ni agua. Niños y mascotas, lejos hasta que esté regado y seco, o más si ella lo pide.
amounts-no_maximum = No diste máximo de la etiqueta, así que no puedo comparar la dosis.
amounts-per_pass = { $half } por pasada
