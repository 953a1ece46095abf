parting-remove_ask = ¿Quito { $yard }? Ya no la cuido ni escribo de ella.
parting-remove_kept = Se conservan su registro (aplicaciones: { $applications }) y sus medidas (zonas: { $zones }). Con «deshacer» vuelve. ¿Quieres antes los archivos? Di: mándame los registros
parting-remove_shared = También la pierden las personas con quienes la compartes.
parting-leave_ask = { $yard } es de otra persona. ¿La dejas? Para volver necesitas otra invitación; su registro se queda con esa persona.
parting-button_remove = Quitar { $yard }
parting-button_keep = Conservar
parting-kept = { $yard } se queda. No se cambió nada.
parting-removed = Quité { $yard }. Lo registrado se conserva. Con «deshacer» vuelve. Para borrar todo lo que guardo de ti, di: borra mis datos
parting-stopped =
    Ya no escribo si no me preguntas. No se borró nada, y contesto cuando escribas.
    Para que te vuelva a avisar: /start, o di: avísame otra vez
parting-stopped_dry = Lo ya aplicado todavía necesita su agua, y no te lo voy a recordar.
parting-button_again = Avísame otra vez
parting-button_privacy = Qué se guarda
parting-again = Te vuelvo a escribir cuando haya algo que hacer. Así está todo:
parting-never_stopped = Nunca dejé de escribirte. Así está todo:
parting-privacy_yard = Guardo dónde está el césped (con unos 30 pies de precisión), sus zonas y productos. También lo que ahí hiciste y viste, y tus fotos.
parting-privacy_person = De ti: tu nombre y número en esta plataforma. Una licencia, solo si me la dices.
parting-privacy_why = Para qué: avisarte a tiempo, calcular cantidades y llevar tu registro.
parting-privacy_how_long = { $days ->
    [one] Tus mensajes y mis respuestas se borran después de un día. Lo demás queda hasta que lo borres, o hasta que no te alcance en un año.
   *[other] Tus mensajes y mis respuestas se borran después de { $days } días. Lo demás queda hasta que lo borres, o hasta que no te alcance en un año.
}
parting-privacy_weather = Los servicios del tiempo reciben el lugar con media milla de precisión, y nada de ti.
parting-privacy_seen = Quién lo ve: tú, las personas con quienes compartes la propiedad y quien opera este bot. No se lo paso a nadie más.
parting-privacy_others = Lo que haces en propiedades ajenas queda en su registro, con tu nombre.
parting-privacy_no_unread = Los textos que no entiendo no se guardan aparte de tus mensajes.
parting-privacy_unread = Los textos que no entiendo los guardo { $days } días, sin nombres, lugares ni números, como aceptaste. Nada en ellos lleva a ti.
parting-privacy_how =
    Para tener todo, di: todo en un archivo
    Para no recibir más mensajes, di: alto. Para borrar todo, di: borra mis datos
parting-button_file = Todo en un archivo
parting-button_erase = Borrar todo
parting-button_unread_on = Guardar lo no entendido
parting-button_unread_off = No guardar lo no entendido
parting-unread_on = Gracias. Desde ahora guardo { $days } días los textos que no entiendo. Quito nombres, lugares y números hasta donde puedo, y el tuyo no se guarda con ellos.
parting-unread_off = Desde ahora no guardo textos que no entiendo. Los anteriores no llevan a ti, así que se van con los demás de su edad.
parting-unread_not_here = Quien opera este bot no guarda esos textos, así que no hay nada que aceptar.
parting-everything = Aquí está todo lo que guardo, en un archivo (filas: { $count }). Fotos y dibujos solo se mencionan; no van dentro.
parting-erase_ask = Esto borra para siempre: propiedades { $yards }, registros { $records }, fotos { $photos }, mensajes { $messages }, y tu nombre. Nadie lo puede recuperar.
parting-erase_shared = También la pierden las personas con quienes compartes una propiedad.
parting-erase_others = Lo que hiciste en propiedades ajenas queda en su registro, sin tu nombre.
parting-erase_records = ¿Trabajas por pago? Tu estado puede exigir que guardes registros por años. Pide antes los archivos: mándame los registros
parting-erase_word = Para borrar todo, escribe: BORRAR
parting-erase_group = En un grupo no borro nada: sus propiedades son de todos los de aquí. Escríbeme a solas y di: borra mis datos. Para sacar una propiedad del grupo: quita esta propiedad
parting-not_erased = No se borró nada.
parting-erased = Borrado: tus propiedades, registros, fotos, mensajes y tu nombre. Ya no sé nada de ti. Gracias por todo; /start empieza de nuevo.
parting-button_stop = Ya no me escribas
