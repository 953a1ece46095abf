days-button_day = Mejor día
days-not_due = No toca ninguna aplicación.
days-not_due_before = { NEAR($day) ->
    [near] No toca ninguna aplicación antes de { $day }.
   *[far] No toca ninguna aplicación antes del { $day }.
}
days-best = { $yard }: lo mejor es { DAY($day, style: "on") }, { $hours }. { $water }
days-best_by_day = { $yard }: lo mejor es { DAY($day, style: "on") }. { $water }
days-not_due_day = Todavía no: no toca ninguna aplicación hasta { DAY($day, style: "on") }.
days-second = Segunda opción: { DAY($day, style: "on") }, { $hours }.
days-second_by_day = Segunda opción: { DAY($day, style: "on") }.
days-water_rain = La lluvia pronosticada lo incorpora a más tardar { DAY($day, style: "on") }.
days-water_self = Riega tú para incorporarlo: { $depth }.
days-water_none = La lluvia pronosticada no alcanza para incorporarlo.
days-none = { $yard }, { $form }: ningún día bueno en siete días.
days-none_before = { $yard }, { $form }: ningún día bueno antes de que germinen las malezas; último día a tiempo: { DAY($by, style: "on") }.
days-least_bad = El menos malo: { DAY($day, style: "on") }, { $hours }; en contra: { $reason }.
days-least_bad_by_day = El menos malo: { DAY($day, style: "on") }; en contra: { $reason }.
days-better_not = Mejor no: nada lo incorporaría. Espera a que se pronostique lluvia, o déjalo por esta vez.
days-no_least_bad = Ningún día vale el riesgo: déjalo guardado y pregunta mañana.
days-line = { DAY($day) }: { $reason }
days-last_day = Último día a tiempo: { DAY($by, style: "on") }.
days-tail_hourly = Pronóstico por hora ({ $at }). Los pronósticos cambian: pregunta otra vez el mismo día.
days-tail_daily = Pronóstico solo por día ({ $at }): no sé horas, viento ni rocío. Asómate a la ventana.
days-no_forecast =
    { $yard }: este clima no trae pronóstico, solo datos por día, así que no puedo comparar los días.
    Lluvia de los últimos dos días: { $rain }. Escoge una mañana seca, con viento de { $low } a { $high } para { $form }. Que no vengan { $heavy } de lluvia, y que caigan { $depth } de agua en { $days } días.
days-nothing_yet = Todavía no tengo el clima de { $yard }. Pregunta de nuevo en unos minutos.
days-no_product = Sin producto escogido, lo juzgo como granulado; rociar pide menos viento: /product
days-foliar = Tu producto trae un herbicida para hojas. Si la hoja debe estar mojada y cuándo regar lo dice su etiqueta.
days-form_granule = granulado
days-form_spray = aspersión
days-hours = de { $start } a { $end }
days-alert_best = Mejor día: { DAY($day, style: "on") }, { $hours }.
days-alert_best_by_day = Mejor día: { DAY($day, style: "on") }.
days-alert_none = Esta semana no se pronostica ningún día bueno.
days-alert_least_bad = El menos malo: { DAY($day, style: "on") } ({ $reason }).
days-why_best = { DAY($day, style: "on") } es el mejor de los siete: { $hours }, viento { $wind }, { $rain } de lluvia como máximo en 24 horas después. { $water }
days-why_not = { DAY($day, style: "on") } no: { $reason }.
days-why_fit = { DAY($day, style: "on") }, buen clima: { $hours }, viento { $wind }, { $rain } de lluvia como máximo en 24 horas después. { $water }
days-why_against = En contra { DAY($day, style: "from") }: { $reason }.
days-why_limits = Límites para { $form }: viento de { $low } a { $high }, aire de { $cold } a { $hot }, menos de { $heavy } de lluvia en las siguientes { $hours } h, { $depth } de agua para incorporarlo. { $whose }
days-whose_ours = Son los comunes; mandan los de tu etiqueta: etiqueta viento 8 mph
days-whose_label = Entre ellos, los de tu etiqueta.
days-why_beyond = Juzgo los próximos siete días: entre { DAY($first, style: "on") } y { DAY($last, style: "on") }.
days-of_label = { $reason } (tu etiqueta)
days-reason-dark = ya no queda luz para trabajar
days-reason-not_your_hours = nada cabe en tus horas libres
days-reason-not_your_day = no es uno de tus días libres
days-reason-no_forecast = hasta ahí no llega el pronóstico
days-reason-rain = se pronostica lluvia mientras trabajas, hasta { $value } por hora
days-reason-wet_leaves = la hoja sigue mojada mientras hay luz
days-reason-dry_leaves = la hoja está seca, y la etiqueta la quiere mojada
days-reason-cold = mucho frío, { $value } (desde { $limit })
days-reason-hot = mucho calor, { $value } (hasta { $limit })
days-reason-calm = nada de viento, { $value }: las gotas quedan en el aire y derivan (desde { $limit })
days-reason-windy = mucho viento, hasta { $value } (máximo { $limit })
days-reason-too_late = { $value ->
    [one] un día tarde
   *[other] { $value } días tarde
}
days-reason-no_water = después solo vendrían { $value } de lluvia y no se puede regar (hacen falta { $limit })
days-reason-saturated = suelo empapado, { $value } en dos días
days-reason-frozen = suelo congelado, { $value }
days-reason-heavy_rain = después se pronostican { $value } de lluvia que lo lavarían (el límite es { $limit })
days-reason-windier = más viento, { $value } contra { $limit }
days-reason-more_rain_risk = más lluvia después, { $value } contra { $limit }
days-reason-watered_in_later = { $value ->
    [one] la lluvia pronosticada lo incorpora un día después
   *[other] la lluvia pronosticada lo incorpora hasta { $value } días después
}
days-reason-needs_water = tendrías que regarlo tú
days-reason-later = igual de bueno, solo que más tarde
days-button_all = Todos los días
