letters-all = todas las zonas
letters-button_watered = Ya está regado
letters-soil_warming = { $weeks ->
    [one] { $yard }: el suelo se está calentando. Compra ya y { $form ->
        [spray] revisa el pulverizador
       *[granule] ajusta la esparcidora
    }; el primer garranchuelo sale en cosa de una semana ({ $up }). Te aviso cuando abra la ventana.
   *[other] { $yard }: el suelo se está calentando. Compra ya y { $form ->
        [spray] revisa el pulverizador
       *[granule] ajusta la esparcidora
    }; el primer garranchuelo sale en unas { $weeks } semanas ({ $up }). Te aviso cuando abra la ventana.
}
letters-soil_warming_shelf = { $weeks ->
    [one] { $yard }: el suelo se está calentando. { $form ->
        [spray] Revisa el pulverizador
       *[granule] Ajusta la esparcidora
    }; te alcanza con lo que tienes guardado, { $shelf }. El primer garranchuelo sale en cosa de una semana ({ $up }). Te aviso cuando abra la ventana.
   *[other] { $yard }: el suelo se está calentando. { $form ->
        [spray] Revisa el pulverizador
       *[granule] Ajusta la esparcidora
    }; te alcanza con lo que tienes guardado, { $shelf }. El primer garranchuelo sale en unas { $weeks } semanas ({ $up }). Te aviso cuando abra la ventana.
}
letters-soil_warming_again = { $yard }: todavía no. La ventana se cerró otra vez: ahora el primer garranchuelo se espera { DAY($up, style: "about") }. Te aviso cuando abra. Lo ya aplicado cuenta.
letters-window_open = { $yard }: ventana abierta. Aplica y riega para incorporarlo a más tardar { DAY($closes, style: "on") } (las malezas ganan 1 año de { $one_in }). Zonas: { $zones }.
letters-window_open_late = { $yard }: ventana abierta. Aplica y riega para incorporarlo cuanto antes. Primer garranchuelo: { DAY($up, style: "about") }. Zonas: { $zones }.
letters-act_now = { $yard }: último aviso. Aplica y riega para incorporarlo a más tardar { DAY($closes, style: "on") } (las malezas ganan 1 año de { $one_in }). Zonas: { $zones }.
letters-act_now_late = { $yard }: último aviso. Aplica y riega para incorporarlo hoy o mañana. Primer garranchuelo: { DAY($up, style: "about") }. Zonas: { $zones }.
letters-window_missed = { $yard }: ya es tarde para un preemergente común en { $zones }; el primer garranchuelo ya está por salir. Busca plántulas. Algunos ingredientes todavía controlan las pequeñas (ditiopir, hasta 2 o 3 hojas): lo dice tu etiqueta. La próxima primavera te aviso antes, si quieres: /yard
letters-water_in = { LIST($yard, style: "comma") }: riega para incorporarlo; faltan { $missing }, a más tardar { DAY($by, style: "on") }. Lleva { $had } de { $wanted }. Dime lo que riegues: { watering-some }
letters-water_in_last = { LIST($yard, style: "comma") }: último aviso para regar, a más tardar { DAY($by, style: "on") }. Faltan { $missing }; lleva { $had } de { $wanted }. Dime lo que riegues: { watering-some }
letters-water_in_over = { LIST($yard, style: "comma") }: el plazo para regar se cumplió { DAY($by, style: "on") }, con { $had } de { $wanted }. Riega de todos modos los { $missing } que faltan y luego busca plántulas: la barrera puede haber quedado floja.
letters-watered_in = { $yard }: incorporado, con { $had } desde la aplicación. No hay nada que hacer.
letters-second_half_due = { $yard }: toca la aplicación { $number } de { $rounds }. Aplica si el máximo anual de tu etiqueta aún lo permite, y riega para incorporarlo. Zonas: { $zones }.
letters-barrier_fading = { $yard }: la barrera se debilita y las malezas siguen brotando. Repite la aplicación si el máximo anual de tu etiqueta lo permite. Por hacer: { $zones }.
letters-season_over = { $yard }: se acabó la temporada; este año ya no hay que aplicar nada contra el garranchuelo.
letters-data_stale = { $age ->
    [one] { $yard }: cuidado, llevo un día sin datos nuevos del suelo. Guíate por un termómetro a 2 in y por la fecha de tu oficina de extensión mientras tanto.
   *[other] { $yard }: cuidado, llevo { $age } días sin datos nuevos del suelo. Guíate por un termómetro a 2 in y por la fecha de tu oficina de extensión mientras tanto.
}
letters-seeding_possible = { $yard }: según el plazo de la etiqueta, ya se puede volver a sembrar.
letters-needed = Necesitas { $amount }.
letters-state = { $yard }, ahora: { $state }.
letters-late = En { $zones } ya es tarde para un preemergente común: busca plántulas ahí.
letters-button_later = Más tarde
letters-button_mute = Esta temporada no
letters-data_stale_back = { $yard }: ya volvieron los datos del suelo. Lo que te diga desde ahora se basa en cifras frescas.
letters-digest_head = { $count ->
    [one] Hay novedades en una propiedad.
   *[other] Hay novedades en { $count } propiedades.
}
letters-digest_window_open = Ventana abierta, aplica y riega para incorporarlo: { $yards }.
letters-digest_act_now = Último aviso, aplica ya: { $yards }.
letters-digest_soil_warming = El suelo se calienta, compra ya: { $yards }.
letters-digest_soil_warming_shelf = El suelo se calienta, alcanza con lo guardado: { $yards }.
letters-digest_soil_warming_again = Todavía no, la ventana se cerró otra vez: { $yards }.
letters-digest_window_missed = Ya es tarde para un preemergente común: { $yards }.
letters-digest_water_in = Riega para incorporar lo aplicado: { $yards }.
letters-digest_water_in_last = Último aviso para regar: { $yards }.
letters-digest_water_in_over = Se pasó el plazo del riego, riega de todos modos: { $yards }.
letters-digest_watered_in = Incorporado, nada que hacer: { $yards }.
letters-digest_second_half_due = Toca la segunda aplicación: { $yards }.
letters-digest_barrier_fading = La barrera se debilita: { $yards }.
letters-digest_season_over = Se acabó la temporada: { $yards }.
letters-digest_data_stale = Datos viejos del suelo, guíate por un termómetro: { $yards }.
letters-digest_data_stale_back = Ya volvieron los datos del suelo: { $yards }.
letters-digest_seeding_possible = Ya se puede volver a sembrar: { $yards }.
letters-digest_other = Novedades: { $yards }.
letters-digest_by = { $yard } (a más tardar { DAY($by, style: "on") })
letters-digest_missing = { $yard } (faltan { $missing }, a más tardar { DAY($by, style: "on") })
letters-digest_more = { LIST($names, style: "comma") } y { $count } más
letters-digest_soil = Suelo a 2 in: de { $low } a { $high } (promedios de 5 días, con datos hasta { DAY($known, style: "on") }); la regla práctica es de { $band_low } a { $band_high }.
letters-digest_soil_one = Suelo a 2 in: { $low } (promedio de 5 días, con datos hasta { DAY($known, style: "on") }); la regla práctica es de { $band_low } a { $band_high }.
letters-digest_load = Carga para estas: { $amounts }.
letters-digest_button = Ruta de hoy
letters-digest_all_watered = Todas estas regadas
letters-digest_all_none = No vi en ninguna
letters-digest_all_later = Más tarde, todas
letters-digest_done_watered = Anotado como regado: { LIST($yards, style: "unit") }.
letters-digest_done_none = Anotado, no se vio nada: { LIST($yards, style: "unit") }.
letters-digest_done_later = Aviso otra vez en { $days } días sobre: { LIST($yards, style: "unit") }.
letters-digest_shopping = Lista de compras
letters-rough = Aquí no hay una temporada clara; toma las fechas como aproximadas. Guíate por la fecha de tu oficina de extensión y busca plántulas.
letters-turns = Primero { $first }; { $rest }.
letters-turn_later = { $days ->
    [one] { $zones }: puede esperar un día
   *[other] { $zones }: puede esperar unos { $days } días
}
letters-repeat =
    Quizá ya te llegó esto; no hagas nada dos veces. Mi primer intento quedó sin respuesta.
    { $message }
letters-digest_each = Una por una
letters-each_head =
    { $count ->
        [one] Falta contestar de una propiedad.
       *[other] Falta contestar de { $count } propiedades.
    }
letters-each_done = Ya está contestado de todas.
letters-each_watered = Regado: { $yard }
letters-each_none = Nada visto: { $yard }
letters-each_later = Después: { $yard }
