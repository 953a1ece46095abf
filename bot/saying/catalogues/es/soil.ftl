soil-nothing_yet = Todavía no tengo datos del suelo de { $yard }. Pregunta de nuevo en unos minutos; si sigue así, /yard muestra el lugar que tengo.
soil-unknown_now = { $yard }: por ahora sin temperatura del suelo.
soil-now = { $yard }: suelo a { $soil } (2 in), { $trend }.
soil-trend_up = sube { $change } en 7 días
soil-trend_down = baja { $change } en 7 días
soil-trend_steady = estable esta semana
soil-trend_unknown = tendencia desconocida
soil-past = { $years ->
    [one] El año pasado por estas fechas: { $mean }.
   *[other] Otros años por estas fechas: { $mean }; 4 de cada 5 años, de { $low } a { $high } ({ $years } años).
}
soil-past_regional = Sin otros años para este lugar: una curva regional da { $mean }, más o menos (de { $low } a { $high }).
soil-first_by_region = Primera estimación, según el año habitual de tu región. Se afina en unos días, cuando lleguen los años anteriores de este lugar.
soil-first_by_near = Primera estimación, según los años anteriores de un lugar cercano. Se afina en unos días, cuando lleguen los de este lugar.
soil-warm_spell = Calor adelantado: { $chance } de cada 100 de que el suelo siga sobre { $band } una semana. Me guío por la perspectiva, no por unos días.
soil-late_summer_ahead = Fin de verano: aplica contra la poa anual { DAY($opens, style: "from") } { DAY($closes, style: "to") }.
soil-late_summer_open = Fin de verano: aplica contra la poa anual y riega a más tardar { DAY($closes, style: "on") }.
soil-late_summer_late = Fin de verano: aplica contra la poa anual y riega cuanto antes. Sirve hasta { DAY($closes, style: "on") }.
soil-late_summer_capped = Fin de verano: no hay nada que aplicar. Tu etiqueta no deja una aplicación entera más de este producto.
soil-late_summer_down = Fin de verano: ya está aplicado contra la poa anual. Este año no toca más.
soil-late_summer_half = Fin de verano, siguiente aplicación: { DAY($opens, style: "about") }.
soil-late_summer_missed = Fin de verano: la poa anual se esperaba { DAY($up, style: "on") }. Un preemergente común ya no detiene lo que brotó.
soil-late_summer_far = Fin de verano: la poa anual aún no tiene fecha.
soil-next_ahead = Aplica { DAY($opens, style: "from") } { DAY($closes, style: "to") } (las malezas ganan 1 año de { $one_in }).
soil-next_open = Aplica y riega para incorporarlo a más tardar { DAY($closes, style: "on") } (las malezas ganan 1 año de { $one_in }).
soil-first_up = Primer garranchuelo: { DAY($up, style: "about") } (entre { DAY($first, style: "on") } y { DAY($last, style: "on") }, 4 probabilidades de 5).
soil-band = Regla práctica, de { $low } a { $high }: se alcanza { DAY($low_on, style: "about") } y se pasa { DAY($high_on, style: "about") }.
soil-band_inside = El suelo está cerca de la regla práctica, de { $low } a { $high }; la pasa { DAY($high_on, style: "about") }.
soil-band_passed = El suelo ya pasó la regla práctica, de { $low } a { $high }.
soil-next_late = Aplica y riega cuanto antes: había que hacerlo a más tardar { DAY($was, style: "on") }. Sirve hasta { DAY($closes, style: "on") }.
soil-next_capped = No hay nada que aplicar: tu etiqueta no deja una aplicación entera más de este producto.
soil-next_down = Ya está aplicado. Esta temporada no toca más.
soil-next_half = Segunda aplicación: { DAY($opens, style: "about") }.
soil-next_half_of = Segunda aplicación de { $zones }: { DAY($opens, style: "about") }.
soil-next_half_due = Ya toca la siguiente aplicación: /amounts
soil-next_half_due_of = Ya toca la siguiente aplicación de { $zones }: /amounts
soil-next_missed = El primer garranchuelo se esperaba { DAY($up, style: "on") }. Un preemergente común ya no detiene lo que brotó. Busca plántulas y ve en tu etiqueta qué les hace efecto.
soil-next_far = La ventana de este año ya pasó, o falta demasiado para darle fecha.
soil-no_clear_spring = Aquí no hay una temporada clara: { $why }. Toma mis fechas como aproximadas. Guíate por la fecha de tu oficina de extensión y busca plántulas desde fines de invierno.
soil-no_spring_never_cold = el suelo casi nunca baja a la regla práctica
soil-no_spring_slow_rise = el suelo pasa semanas dentro de la regla práctica
soil-no_spring_never_warm = el suelo se calienta demasiado tarde para dar fecha
soil-spring_mild = Aquí el invierno es suave, así que cuento el calor desde antes de marzo; busca plántulas temprano.
soil-spring_short = Aquí la primavera es corta y fría: cuando abre la ventana hay poco tiempo y el suelo puede estar mojado. Ten todo listo cuando te diga que el suelo se calienta.
soil-regional_apply = Publicado para { $region }: producto aplicado a más tardar { DAY($last, style: "on") } ({ $source }).
soil-regional_germination = Publicado para { $region }: germinación { DAY($last, style: "about") } ({ $source }).
soil-fresh = Datos del suelo hasta { DAY($day, style: "on") }.
soil-old = { $days ->
    [one] CUIDADO, datos viejos: el suelo se conoce solo hasta { DAY($day, style: "on") }, hace un día.
   *[other] CUIDADO, datos viejos: el suelo se conoce solo hasta { DAY($day, style: "on") }, hace { $days } días.
}
soil-place = De { $place }.
soil-modelled = Calculado a partir de la temperatura del aire.
soil-no_data = Todavía no hay datos del suelo.
soil-own = El modelo solo da { $grid }; tu termómetro, { $reading }, { DAY($on) } (lecturas hasta ahora: { $count }). Me guío por la mezcla, { $blend }.
soil-thermometer_warmer = Tu termómetro y el modelo no coinciden: el tuyo da el suelo { $apart } más caliente. Mide en otro sitio; si coincide, fíate del tuyo.
soil-thermometer_colder = Tu termómetro y el modelo no coinciden: el tuyo da el suelo { $apart } más frío. Mide en otro sitio; si coincide, fíate del tuyo.
soil-thermometer_earlier =
    { $days ->
        [one] Tus lecturas adelantan el primer garranchuelo un día.
       *[other] Tus lecturas adelantan el primer garranchuelo { $days } días.
    }
soil-thermometer_later =
    { $days ->
        [one] Tus lecturas retrasan el primer garranchuelo un día.
       *[other] Tus lecturas retrasan el primer garranchuelo { $days } días.
    }
soil-source_warmer = El modelo da el suelo { $apart } más caliente para este aire que en años pasados: puede haber cambiado. Mide a 2 in con un termómetro y dímelo; me guiaré por eso.
soil-source_colder = El modelo da el suelo { $apart } más frío para este aire que en años pasados: puede haber cambiado. Mide a 2 in con un termómetro y dímelo; me guiaré por eso.
soil-button_weeds = Malezas
soil-first_look = El suelo a 2 in está ahora a { $soil }.
