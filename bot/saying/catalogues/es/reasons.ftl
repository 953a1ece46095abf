reasons-head = En qué me baso para { $yard } (suelo: promedio de 5 días):
reasons-rule = Regla: sumo el calor del suelo sobre { $base } a 2 in, día por día desde el 1 de marzo. Con { $sum } grados-día sale el primer garranchuelo (Fidanza y otros, Crop Science 1996).
reasons-was_up = Según esa regla, el primer garranchuelo se esperaba { DAY($up, style: "on") }.
reasons-lead = La ventana abre { SPAN($lead) } antes del primer garranchuelo. Debe quedar incorporado { SPAN($before) } antes, para que la barrera esté puesta. «Las malezas ganan»: brotan antes de que lo esté.{ $is_set ->
        [yes] { " " }Esa anticipación la escogiste tú.
       *[no] { "" }
    }
reasons-band_source = Ese intervalo es una regla práctica (Michigan State University Extension; PNW Weed Management Handbook). Donde no coinciden, me guío por el calor sumado.
reasons-barrier = Cuánto dura: tu dosis, qué tan rápido se gasta el ingrediente y el suelo desde entonces. Es aproximado: de la mitad a una vez y media. Tu etiqueta dice cuándo se puede repetir, y manda.
reasons-law = Tu etiqueta manda sobre todo esto, y tu oficina de extensión conoce tu condado.
reasons-range = La ventana puede abrir entre { DAY($early, style: "on") } y { DAY($late, style: "on") }.
reasons-of_water = Cuento { $depth } dentro de { SPAN($days) }: lo que dice tu etiqueta, si lo sé. Si no, media pulgada dentro de 7 días (Extensión de la Universidad de Arkansas). Cuenta la lluvia desde que aplicaste y lo que me digas. Tu etiqueta manda.
reasons-of_rain = Antes de incorporarse, una lluvia fuerte puede arrastrar el granulado. Mi límite es una pulgada en 48 horas, la mitad en pendiente o arcilla: de memoria. Incorporado, queda unido al suelo. Tu etiqueta manda.
reasons-of_day = Me baso en el pronóstico para tu jardín y en los límites de tu etiqueta donde los sé; si no, en los comunes. Los pronósticos cambian: pregunta otra vez ese día. Manda tu etiqueta.
reasons-of_seed = Un preemergente frena también la semilla de césped. Primero cuenta el plazo de tu etiqueta. Si no lo sé, tomo uno largo por ingrediente, como los más largos de las etiquetas: de memoria. En césped nuevo espera al tercer o cuarto corte (Extensión de K-State: del segundo al cuarto).
reasons-of_work = La barrera es una capa delgada arriba en el suelo. Lo que rompe o levanta ese suelo la abre, y lo que mueve granulado mojado la deja dispareja. Es práctica común, sin cifra publicada. Tu etiqueta manda.
reasons-of_keep_off = Las etiquetas para césped piden que personas y mascotas esperen hasta que seque, y muchas hasta que se riegue. Cada una da su plazo en la sección de reentrada. Es la ley para ese producto, y manda sobre mí.
