watering-rain_known = { $yard }: ya tengo anotados { $rain } o más de lluvia de ese día, y cuentan.
watering-run_once = Son { $minutes } min de tu aspersor.
watering-run_cycles = Son { $minutes } min de tu aspersor, en { $count } tandas de { $each } min con { $soak } min de reposo entre ellas: este suelo no absorbe más de una vez.
watering-run_unknown = Para saber los minutos, dime cuánto junta un bote: aspersor 0.3 in en 20 min
watering-rain_ahead = Pronóstico hasta entonces: { $rain } de lluvia.
watering-rain_enough = Pronóstico hasta entonces: { $rain } de lluvia, con eso bastaría. Yo te aviso.
watering-banned = Con la prohibición de riego solo cuenta la lluvia.
watering-banned_short = Con la prohibición de riego solo cuenta la lluvia, y se pronostican { $rain } hasta entonces. No hay más que hacer; luego pregúntame qué significa.
watering-washout = Cuidado: se pronostican { $rain } de lluvia desde { DAY($from, style: "on") }. Antes riega ligero para que se fije. Barre el granulado del pavimento y aléjalo de los desagües.
watering-sprinkler = Anotado: tu aspersor da { $rate } por hora, así que { $depth } toman { $minutes } min.
watering-sprinkler_uneven = Riega disparejo: el cuarto más seco recibe { $share } % del promedio. Traslapa los chorros, o esas partes quedan secas.
watering-sprinkler_unread = No pude leer esa prueba. Por ejemplo: aspersor 0.3 in en 20 min, o con varios botes: aspersor 0.2, 0.3, 0.25 in en 20 min
watering-minutes_unknown =
    Todavía no sé cuánto da tu aspersor; con { $minutes } min solos no lo puedo calcular, y no registré nada.
    Pon botes de lados rectos, riega 20 min y di: aspersor 0.3 in en 20 min
    O dime cuánta agua cayó: { watering-some }
watering-nothing_down = { $yard }: no sé de ninguna aplicación reciente. Dime primero: aplicado ayer
watering-heavy_how_much = ¿Cuánto cayó? Mis datos dan { $rain } de lluvia en { $yard } desde que aplicaste. Dime, por ejemplo: cayeron 2 pulgadas anoche, ¿lo repito?
watering-heavy_keep = { $yard }: no, déjalo así. { $rain } es menos de { $limit }, que es lo que aquí se lleva el producto.
watering-heavy_watered_in = { $yard }: no, déjalo así. Ya estaba incorporado antes de la lluvia; el ingrediente se pega al suelo y se mueve poco. No pongas otra dosis.
watering-heavy_look =
    { $yard }: completo, no. Con { $rain } sobre lo que aún no estaba incorporado, el granulado se puede mover. Busca partes lavadas cuesta abajo, junto al pavimento y en los desagües.
    Solo en las partes lavadas se puede repetir, dentro del máximo anual de tu etiqueta (/amounts). Lo que esté en el pavimento, bárrelo de vuelta al césped.
watering-heavy_counts = Si eso cayó en tu propiedad, cuenta como riego. Dímelo así: cayeron { $rain } de lluvia
watering-dry_watered_in = { $yard }: no. Ya está incorporado, con { $had } desde la aplicación; unas semanas secas no deshacen la barrera.
watering-dry_in_time = { $days ->
    [one] { $yard }: no se perdió. Lleva un día y tiene plazo hasta { DAY($by, style: "on") }: faltan { $missing }.
   *[other] { $yard }: no se perdió. Lleva { $days } días y tiene plazo hasta { DAY($by, style: "on") }: faltan { $missing }.
}
watering-dry_water_now = { $days ->
    [one] { $yard }: no se perdió, pero vas tarde. Lleva un día seco: riega ya { $missing }, antes de que broten malezas.
   *[other] { $yard }: no se perdió, pero vas tarde. Lleva { $days } días seco: riega ya { $missing }, antes de que broten malezas.
}
watering-dry_partly_late = { $yard }: en parte. Empezaron a brotar malezas mientras estaba seco; las que ya salieron no las detiene. Riega ya { $missing } por las que vienen y busca plántulas.
watering-dry_share = Por su vida media queda cerca de { $share } % de la dosis; en superficie seca algunos ingredientes se pierden más rápido.
watering-none_waits = En ninguna de tus propiedades hay algo que espere riego ahora.
watering-still_short = Anotado, pero todavía falta agua en: { LIST($yards, style: "unit") }.
# How water is told, in the units of whoever is answered.
watering-some = { UNITS() ->
    [metric] regué 8 mm
   *[us] regué 0.3 in
}
watering-enough = { UNITS() ->
    [metric] regué 13 mm
   *[us] regué 0.5 in
}
