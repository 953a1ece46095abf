yards-need_place_of_new = ¿Dónde está la nueva propiedad? Escribe ciudad y estado, o comparte su ubicación. Por ejemplo: Wahoo, Nebraska
yards-none_to_remove = No tengo ningún césped tuyo, así que no hay nada que quitar. Para borrar todo lo que guardo de ti, di: borra mis datos
yards-tell_again = Luego dímelo otra vez y lo registro.
yards-which_in_state = ¿En qué ciudad de { $state }? O dime el código postal, o comparte la ubicación.
yards-place_unknown = No conozco ese lugar. Escribe una ciudad de EE. UU. con su estado, o un código postal, así: Salina, Kansas. En otro país: escribe la ciudad con su país, comparte la ubicación, o escribe latitud y longitud: 52.1, 5.2
yards-registered =
    Anotado: { $yard }, en { $town }. Zona horaria: { $zone }.
    ¿Qué tan grande es el césped? Cada parte que se trata, por sus lados o su área, así:
    { UNITS() ->
        [metric] frente 18x12 m, franja 1.5 por 24 m
       *[us] frente 60x40, franja 5 por 80 ft
    }
yards-units_hint = Escribo pies, libras y °F. Para metros, kilogramos y °C di: métrico
yards-units_metric = Escribo metros, kilogramos y °C. Para pies, libras y °F di: en pies
yards-need_yard = Primero necesito el lugar. Escribe ciudad y estado, o un código postal, así: Manhattan KS. O comparte la ubicación.
yards-need_yard_first = Eso lo guardo. Primero necesito el lugar: ciudad y estado, o un código postal, así: Manhattan KS. O comparte la ubicación.
yards-where_now = { $town ->
    [no] ¿Ese lugar es otra propiedad, o { $yard } se cambia ahí?
   *[named] { $town }: ¿es otra propiedad, o { $yard } se cambia ahí?
}
yards-there_already = { $yard } ya está ahí: { $town }.
yards-moved = { $yard } está ahora en { $town }, zona horaria { $zone }. Vuelvo a evaluar su suelo.
yards-unreadable_place =
    { $problem }
    Escribe latitud y longitud, así: 39.18, -96.57
yards-button_new = Otra propiedad
yards-button_move = Cambiar { $yard } ahí
yards-button_rename = Otro nombre
yards-button_zone = Zona horaria
yards-button_zones = Zonas
yards-button_grass = Césped
yards-button_sketch = Dibujo
yards-button_soil = Suelo
yards-button_amounts = Cantidades
yards-button_product = Producto
yards-button_rounds_one = Una aplicación
yards-button_rounds_two = Dos aplicaciones
yards-more = Más de { $yard }: toca lo que quieras ver o cambiar.
yards-button_more = Más
yards-button_all = Todas las propiedades
yards-button_lead = Anticipación
yards-button_other = Ir a { $yard }
yards-state_waiting = en espera
yards-state_window_open = ventana abierta, aplica ya
yards-state_applied = aplicado
yards-state_retreat_due = toca repetir
yards-detail_first_look = Todavía no reviso su suelo; pregunta de nuevo en un momento.
yards-detail_applied = Última aplicación: { DAY($on) }.
yards-detail_half_capped = Sin segunda aplicación: tu etiqueta no deja una entera más de este producto.
yards-detail_water_over = Había que regar a más tardar { DAY($by, style: "on") }; faltan { $missing }. Riega de todos modos.
yards-detail_water = Falta regar para incorporarlo: { $missing }, a más tardar { DAY($by, style: "on") }.
yards-zones_none = Todavía no hay zonas. Dime una: frente 60x40 ft
yards-product_none = Todavía no hay producto: /product
yards-now_talking = Ahora hablamos de { $yard }.
yards-ask_name = ¿Cómo llamo a { $yard }? Por ejemplo: Mill Lane 4
yards-renamed = Ahora se llama { $yard }.
yards-ask_zone = ¿En qué zona horaria está { $yard }? Ahora: { $zone }. Por ejemplo: Denver, o America/Denver
yards-zone_set = { $yard } está ahora en { $zone }; allí son las { $time }.
yards-zone_unknown = No conozco ninguna zona horaria con ese nombre: { $said }. Por ejemplo: Denver, o America/Denver
yards-ask_lead = ¿Cuántos días antes del primer garranchuelo abro la ventana de { $yard }? Ahora: { $lead }. Por ejemplo: 21 (de { $low } a { $high })
yards-lead_set = { $lead ->
    [one] { $yard }: la ventana abre un día antes del primer garranchuelo. Los ingredientes de larga duración pueden ir antes; los de corta, después.
   *[other] { $yard }: la ventana abre { $lead } días antes del primer garranchuelo. Los ingredientes de larga duración pueden ir antes; los de corta, después.
}
yards-lead_short = { $yard }: la ventana abre { SPAN($lead) } antes del primer garranchuelo. Es tarde: la barrera tarda una semana en estar puesta, y las malezas pueden salir antes de lo previsto.
yards-number_needed = Dime un número de días, de { $low } a { $high }. Por ejemplo: { $example }
yards-rounds_one = { $yard }: una aplicación por primavera.
yards-rounds_two = { $yard }: dos aplicaciones, con { $split } días entre una y otra. Usa en cada una la dosis de tu etiqueta, dentro de su máximo anual.
yards-split_set = { $yard }: la segunda aplicación toca { $split } días después de la primera.
yards-list = Propiedades: { $names }
yards-all =
    Tus propiedades, { $count }; hablamos de { $at }:
    { $lines }
    Cambia a una: ve a { $yard }. Agrega otra: otra propiedad en 39.18, -96.57
yards-all_line = { $yard }: { $state }
yards-all_line_town = { $yard } ({ $town }): { $state }
yards-all_by = { $state }, hasta { $by }
yards-all_state = { $count } { $state }
yards-all_states = En total: { LIST($states, style: "unit") }.
yards-all_page = Página { $page } de { $pages }.
yards-button_back = Atrás
yards-button_next = Más
yards-button_by_due = Por urgencia
yards-button_by_town = Por ciudad
yards-button_by_kept = Como se agregaron
yards-unknown =
    No conozco ninguna propiedad «{ $said }». Las tuyas: { $names }.
    Agrega otra: otra propiedad en 39.18, -96.57
yards-which_of = ¿Cuál?
yards-default_name = Propiedad { $number }
yards-which_town = { $is_abroad ->
    [yes] Hay más de un lugar llamado { $town }. ¿Cuál es?
   *[no] Hay más de un lugar llamado { $town }. ¿En qué estado?
}
yards-button_size_later = El tamaño después
yards-size_later = Está bien. Dime los tamaños cuando quieras, así: frente 60x40
yards-registered_at =
    { $yard } queda anotada en { $lat }, { $lon }, zona horaria { $zone }.
    ¿Qué tan grande es el césped? Cada parte que se trata, por sus lados o su área, así:
    { UNITS() ->
        [metric] frente 18x12 m, franja 1.5 por 24 m
       *[us] frente 60x40, franja 5 por 80 ft
    }
yards-moved_at = { $yard } está ahora en { $lat }, { $lon }, zona horaria { $zone }. Vuelvo a evaluar su suelo.
yards-registered_near =
    Cerca de { $town }: { $yard } queda anotada en { $lat }, { $lon }, zona horaria { $zone }.
    ¿Qué tan grande es el césped? Cada parte que se trata, por sus lados o su área, así:
    { UNITS() ->
        [metric] frente 18x12 m, franja 1.5 por 24 m
       *[us] frente 60x40, franja 5 por 80 ft
    }
yards-stands = { $yard }: { $state }
