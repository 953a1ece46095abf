labels-kept =
    Anotado de { $product }:
    { $lines }
labels-no_product = ¿De qué producto es eso? Dime primero su etiqueta, en una línea: prodiamina 0.38% granulado, 3.2 lb por 1000 sq ft, máximo 6.4 lb por 1000 al año
labels-wrong_kind = { $said } y { $wanted } son un peso y un volumen. Revisa la etiqueta y escribe la unidad completa.
labels-times_calendar_year = Como máximo { $count ->
        [one] 1 aplicación
       *[other] { $count } aplicaciones
    } en un año calendario.
labels-times_season = Como máximo { $count ->
        [one] 1 aplicación
       *[other] { $count } aplicaciones
    } en una temporada.
labels-times_12_months = Como máximo { $count ->
        [one] 1 aplicación
       *[other] { $count } aplicaciones
    } en cualquier período de 12 meses.
labels-times_unsaid = Como máximo { $count ->
        [one] 1 aplicación
       *[other] { $count } aplicaciones
    }. ¿En cuánto tiempo? Mientras no me digas cuento 12 meses: 2 aplicaciones al año
labels-interval = { $days ->
    [one] Por lo menos un día entre aplicaciones.
   *[other] Por lo menos { $days } días entre aplicaciones.
}
labels-seeding = { $days ->
    [one] No sembrar por un día después.
   *[other] No sembrar por { $days } días después.
}
labels-age = { $days ->
    [one] Césped de un día o más.
   *[other] Césped de { $days } días o más.
}
labels-homes_yes = La etiqueta nombra céspedes de casa.
labels-homes_no = No es para céspedes de casa: para ellos no doy cantidades.
labels-analysis = { UNITS() ->
    [metric] También fertiliza, { $analysis }: { $kg } kg de nitrógeno por hectárea en cada aplicación.
   *[us] También fertiliza, { $analysis }: { $lb } lb de nitrógeno por 1,000 sq ft en cada aplicación.
}
labels-packs = Se vende en { $packs }.
labels-shelf = Guardado: { $amount }.
labels-show =
    { $product }
    Máximo de la etiqueta: { $limits }.
    { $lines }
labels-missing = Aún no me has dicho: { $missing }. Por ejemplo: { $example }
labels-missing_times = cuántas aplicaciones
labels-missing_interval = días entre una y otra
labels-missing_seeding = cuánto tiempo sin sembrar
labels-missing_age = edad mínima del césped
labels-missing_homes = si nombra céspedes de casa
labels-missing_packs = tamaños y precios de las bolsas
labels-example = 2 aplicaciones al año, 60 días entre aplicaciones, no sembrar por 16 semanas, permite césped de casa, bolsas 25 lb $38, 50 lb $62
labels-foliar = Trae { $names }, que trabaja por la hoja. Casi todas esas etiquetas quieren hoja mojada y nada de riego por cerca de un día, al revés que el preemergente. Vale el orden de tu etiqueta; yo no le pongo riego.
labels-foliar_recorded = Riega en el orden que diga tu etiqueta: trae { $names }, que trabaja por la hoja. No te recuerdo el riego de este.
labels-feeds = También fertiliza: { $n } de nitrógeno por 1,000 sq ft en cada aplicación; súmalo al del año. Barre el pavimento y respeta las fechas prohibidas y los límites al fósforo.
labels-too_young = { $days ->
    [one] { $zones }: tu etiqueta quiere césped de un día o más, así que no antes de { DAY($day) }. Sigue fuera.
   *[other] { $zones }: tu etiqueta quiere césped de { $days } días o más: fecha más temprana, { DAY($day) }. Sigue fuera.
}
labels-button_undo = Deshacer
labels-price_ask = ¿De qué tamaño es la que cuesta eso? Así: bolsas 50 lb $42
labels-stock_ask = ¿Cuánto te queda? Así: me quedan 10 lb. O dime primero la bolsa: bolsas 25 lb
labels-pack_at = { $size } a { $price }
