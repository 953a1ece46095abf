scouting-ask_where = ¿Dónde? Por ejemplo: garranchuelo en la franja. O: garranchuelo por todos lados
scouting-noted = Anotado: { $weed } en { $zones }, { DAY($on) }.
scouting-noted_yard = Anotado: { $weed } en { $yard }, { DAY($on) }.
scouting-noted_none = Anotado: { DAY($on, style: "on") } no viste nada en { $yard }. Bien; pregunto otra vez en agosto.
scouting-noted_none_last = Anotado: { DAY($on, style: "on") } no viste nada en { $yard }. Eso ayuda a fijar la fecha del próximo año.
scouting-which = ¿Qué maleza, y dónde? La anoto, por ejemplo: garranchuelo junto a la entrada. Mientras, arranca las pequeñas, o trátalas con un producto cuya etiqueta nombre esa maleza y tu césped. Un preemergente no hace nada a lo que ya brotó.
scouting-helps = Lo que todavía ayuda con plantas pequeñas: arrancarlas, o un ingrediente que actúe sobre ellas ({ $names }). Solo si tu etiqueta nombra tu césped y esa etapa.
scouting-late = A estas alturas un preemergente ya no ayuda, y casi nada más. Arráncalas o trata las manchas antes de que suelten semilla, espera la helada y planea la próxima primavera.
scouting-failed = En { $zones } fue la dosis de la etiqueta, regada a tiempo, y aun así salieron malezas. Sospecha resistencia, y pide un análisis en tu oficina de extensión.
scouting-group = Año { $years } seguido con el grupo { $group }. Otro ingrediente del mismo grupo no es cambio; pide otro grupo en tu oficina de extensión.
scouting-lead = Brotó poco después de tu aplicación. Sugerencia: el próximo año abre la ventana { $lead } días antes, en vez de { $now }.
scouting-first_zone = En { $zone } salió primero dos años. Sugerencia: haz primero esa zona. Dime: { $zone } es franja caliente
scouting-button_lead = Anticipación: { $lead } días
scouting-unclear = ¿Qué zona es? Zonas de { $yard }: { $names }. Por ejemplo: garranchuelo en { $zone }
scouting-back_none = Todavía no hay nada que recordar de { $yard }. Empieza con tu primera aplicación.
scouting-back_head = { $yard }, temporada por temporada:
scouting-back_line = { $year }: ventana { $opened }; aplicado { $applied }{ $soil }; { $amount }; { $control }.
scouting-back_never = no abrió
scouting-back_line_none = { $year }: ventana { $opened }; nada aplicado; { $control }.
scouting-back_soil = { " " }con el suelo a { $soil }
scouting-back_amount = { $rate } de ingrediente activo
scouting-back_control = primeras malezas { SPAN($days) } después de lo aplicado { DAY($after, style: "on") }
scouting-back_clean = sin malezas reportadas
scouting-back_seen = primeras malezas { DAY($on, style: "on") }
scouting-back_earlier = { $days ->
    [one] La aplicación de este año fue un día antes que en { $year }.
   *[other] La aplicación de este año fue { $days } días antes que en { $year }.
}
scouting-back_later = { $days ->
    [one] La aplicación de este año fue un día después que en { $year }.
   *[other] La aplicación de este año fue { $days } días después que en { $year }.
}
