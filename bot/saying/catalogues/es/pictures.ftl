pictures-degrees = { $number } { $unit }
pictures-invented = MODO DE PRÁCTICA: clima inventado
pictures-soil-title_us = { $yard }: suelo a 2 in, promedio de 5 días
pictures-soil-title_metric = { $yard }: suelo a 5 cm, promedio de 5 días
pictures-soil-headline_window = Aplica del { $opens } al { $closes }
pictures-soil-headline_next = Próxima ventana: del { $opens } al { $closes }
pictures-soil-headline_open = Ventana abierta: aplica y riega a más tardar { DAY($closes, style: "on") }
pictures-soil-headline_late = Tarde: primer garranchuelo { DAY($up, style: "about") }
pictures-soil-headline_missed = El primer garranchuelo se esperaba { DAY($up, style: "on") }
pictures-soil-headline_no_spring = Aquí no hay un alza clara: guíate por la fecha de tu oficina de extensión y lo que veas
pictures-soil-headline_down = Ya está aplicado; no toca más
pictures-soil-headline_half = Ya está aplicado; la siguiente aplicación toca { DAY($opens, style: "about") }
pictures-soil-headline_half_due = Ya toca la siguiente aplicación
pictures-soil-headline_capped = Tu etiqueta no deja una aplicación entera más
pictures-soil-headline_far = La ventana de este año ya pasó; la próxima está muy lejos para darle fecha
pictures-soil-this_year = este año
pictures-soil-past = otros años
pictures-soil-past_regional = curva regional
pictures-soil-outlook = pronóstico
pictures-soil-legend_past = Pronóstico: oscuro es 1 de cada 2 veces; claro, 4 de cada 5. Otros años: punteado es el promedio; rayado, 4 de cada 5 años.
pictures-soil-legend_past_regional = Pronóstico: oscuro es 1 de cada 2 veces; claro, 4 de cada 5. Aquí no se conocen otros años: la curva regional es aproximada.
pictures-soil-chance = Las malezas ganan 1 año de { $one_in }.
pictures-soil-band = regla práctica, de { $low } a { $high } { $unit }
pictures-soil-today = hoy, { $day }
pictures-soil-window = aplicar: del { $first } al { $last }
pictures-soil-window_past = la ventana fue del { $first } al { $last }
pictures-soil-first_up_past = el primer garranchuelo se esperaba: { $middle }
pictures-soil-first_up = garranchuelo: { $middle } ({ $first } a { $last })
pictures-soil-fresh = Datos del suelo hasta { DAY($day, style: "on") }.
pictures-soil-old = { $days ->
    [one] DATOS VIEJOS: suelo conocido solo hasta { DAY($day, style: "on") }, hace un día.
   *[other] DATOS VIEJOS: suelo conocido solo hasta { DAY($day, style: "on") }, hace { $days } días.
}
pictures-soil-no_data = Sin datos del suelo en las últimas semanas.
pictures-soil-place = De { $place }.
pictures-soil-modelled = Calculado a partir de la temperatura del aire.
pictures-soil_text-whole = Gráfica. { $title }. { $headline }. { $now } { $past } { $outlook } { $spans } { $notes }
pictures-soil_text-now = Lo más nuevo: { $soil }, { DAY($day) }.
pictures-soil_text-now_unknown = Nada medido en este tiempo.
pictures-soil_text-past = Otros años entonces: { $mean }; 4 de 5, entre { $low } y { $high }.
pictures-soil_text-outlook = Perspectiva, { DAY($day) }: { $middle }; 4 probabilidades de 5, entre { $low } y { $high }.
pictures-soil_text-reaches = El centro de la perspectiva llega a { $edge } { DAY($day, style: "about") }.
pictures-soil_text-span = { $label }.
pictures-sketch-total = { $count ->
        [one] 1 zona
       *[other] { $count } zonas
    }, { $total } por tratar.
pictures-sketch-total_left = { $count ->
        [one] 1 zona
       *[other] { $count } zonas
    }, { $total }: faltan { $left } por tratar.
pictures-sketch-total_done = { $count ->
        [one] 1 zona
       *[other] { $count } zonas
    }, { $total }: todo listo.
pictures-sketch-dotted = Punteado: se deja sin tratar.
pictures-sketch-buffer = Franja punteada: junto al agua, se deja sin tratar. El tamaño es correcto; el lado es una suposición.
pictures-sketch-dashed = Borde de rayas: el área es correcta, la forma no se conoce.
pictures-sketch-ticked = Palomita: ya aplicado.
pictures-sketch-to_scale = A escala, norte arriba, con esquinas caminadas.
pictures-sketch-one_scale = Todo a la misma escala. No se sabe dónde queda cada una.
pictures-sketch-rest_one_scale = Bajo el mapa: misma escala, lugar desconocido.
pictures-sketch-cutouts = Rayado: descontado, no se trata.
pictures-sketch-cutouts_guessed = Rayado: descontado, no se trata. El tamaño es correcto; dónde está es una suposición.
pictures-sketch-left_out = Y { $count } más que no cupieron aquí: mira /zones.
pictures-sketch-area_only = solo el área
pictures-sketch-not_treated = no se trata
pictures-sketch-buffered = { $treated } por tratar, franja { $buffer }
pictures-sketch-zone = zona { $number }
pictures-sketch-empty = Todavía no hay zonas.
pictures-sketch-north = N
pictures-sketch_text-whole = Dibujo de { $title }. { $zones } { $total } { $notes }
pictures-sketch_text-zone = { $number }. { $parts }.
pictures-years-title = Los años lado a lado
pictures-years-head = { $yard }: los años lado a lado
pictures-years-opened = se abrió la ventana
pictures-years-applied = aplicado
pictures-years-seen = primeras malezas vistas
pictures-years-text = { $year }: aplicado { $applied }.
pictures-years-text_none = { $year }: nada aplicado.
pictures-years-text_opened = La ventana se abrió el { $day }.
pictures-years-text_seen = Las primeras malezas se vieron el { $day }.
