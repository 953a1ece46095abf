notices-intro = El texto para reenviar está en el siguiente mensaje. Pon abajo tu nombre y número, y compáralo con tu etiqueta: ella manda.
notices-local = En algunos lugares piden letreros, o avisar días antes. Pregunta en tu condado o estado antes de aplicar, y luego dime, por ejemplo: mi estado pide letreros y avisar 48 horas antes
notices-before =
    { $reader ->
        [landlord] Sobre el césped de { $place }: ¿me da permiso de tratarlo? Aplicaría { $what } { $when }. Evita que nazcan las semillas de malezas.
        [association] Aviso a los residentes, { $place }: { $when } se aplicará { $what }. Evita que nazcan las semillas de malezas.
        [neighbor] Aviso a los vecinos de { $place }: { $when } se aplicará { $what } en el césped. Evita que nazcan las semillas de malezas.
       *[other] Aviso de césped, { $place }: { $when } se aplicará { $what }. Evita que nazcan las semillas de malezas.
    }
notices-after =
    { $reader ->
        [landlord] El césped de { $place }: { DAY($on, style: "on") } se aplicó { $what } ({ $zones }). Evita que nazcan las semillas de malezas.
        [association] Aviso a los residentes, { $place }: { DAY($on, style: "on") } se aplicó { $what } ({ $zones }). Evita que nazcan las semillas de malezas.
        [neighbor] Aviso a los vecinos de { $place }: { DAY($on, style: "on") } se aplicó { $what } en el césped ({ $zones }). Evita que nazcan las semillas de malezas.
       *[other] Aviso de césped, { $place }: { DAY($on, style: "on") } se aplicó { $what } en el césped ({ $zones }). Evita que nazcan las semillas de malezas.
    }
notices-place_of = { $customer }, { $place }
notices-what = un preemergente ({ $names })
notices-what_registered = un preemergente ({ $names }, registro EPA { $number })
notices-what_unknown = un preemergente
notices-when = entre { DAY($first, style: "on") } y { DAY($last, style: "on") }, si el tiempo lo permite,
notices-when_by = a más tardar { DAY($last, style: "on") }, si el tiempo lo permite,
notices-when_open = esta temporada, en un día por confirmar,
notices-keep_off = Por favor, que niños y mascotas no pisen hasta que esté regado y seco, o más tiempo si la etiqueta lo dice.
notices-keep_off_watered = Ya está regado. Por favor, que niños y mascotas no pisen hasta que el césped esté seco, o más tiempo si la etiqueta lo dice.
notices-keep_off_dry = Por favor, que niños y mascotas no pisen hasta que esté seco, o más tiempo si la etiqueta lo dice.
notices-keep_off_said = Por favor, que niños y mascotas no pisen el césped. Hasta cuándo: { $until }, o más tiempo si la etiqueta lo dice.
notices-to_water = Todavía falta regarlo. Por favor, dejen funcionar los aspersores, y no lo rastrillen ni lo barran.
notices-clippings = Por favor, dejen en el césped el recorte del primer corte, y no siembren ahí por unos meses.
notices-by = Lo aplicó { $name }, licencia { $licence }.
notices-by_under = Lo aplicó { $name }, bajo { $under }, licencia { $licence }.
notices-why = Se aplica antes de que el suelo se caliente lo suficiente para el garranchuelo. Por favor, retiren del césped juguetes, platos y muebles.
notices-ask =
    { $reader ->
        [landlord] ¿Está de acuerdo? ¿Hay un pozo o estanque cerca, o alguien sensible a estos productos? La etiqueta está a la vista para leerla.
       *[other] ¿Dudas, un pozo o estanque cerca, o alguien sensible a estos productos? Por favor, avísenme antes. La etiqueta está a la vista para leerla.
    }
notices-ask_after = ¿Dudas, un pozo o estanque cerca, o alguien sensible a estos productos? Por favor, llámenme. La etiqueta está a la vista para leerla.
notices-button_before = Texto para antes
notices-button_after = Texto para después
notices-for_customer = Para un cliente
notices-for_neighbor = Para un vecino
notices-for_landlord = Para el dueño
notices-for_association = Para residentes
notices-in_en = En inglés
notices-in_es = En español
notices-rule_kept = Anotado. Lo digo en mis avisos y en la lista del día. Manda lo que diga tu estado.
notices-rule_none = Anotado: ni letreros ni aviso previo. Manda lo que diga tu estado.
notices-rule_hours =
    Tu estado pide avisar, según me dijeron: { $hours ->
        [one] 1 hora
       *[other] { $hours } horas
    } antes.
notices-rule_words = Para los textos, di: avisos para clientes
notices-rule_signs = Tu estado pide letreros, según me dijeron: ponlos al aplicar.
notices-rule_posted = ¿Ya están los letreros que pide tu estado, según me dijeron? Entonces di: todos los registros letrero sí
notices-send_by = Envíalo a más tardar { DAY($by, style: "on") }.
notices-due_head =
    { $count ->
        [one] Toca un aviso. Reenvía el siguiente mensaje.
       *[other] Tocan { $count } avisos. Reenvía cada uno de los siguientes mensajes.
    } Pon tu nombre y número; manda tu etiqueta.
notices-due_after = Hecho: { LIST($yards, style: "unit") }.
notices-due_before = Por hacer: { LIST($yards, style: "unit") }.
notices-none_due = A ningún cliente le toca un aviso ahora. Para una propiedad, nómbrala: aviso para Birch St 12
