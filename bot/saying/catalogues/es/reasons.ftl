reasons-head = En qué me baso para { $yard }:
reasons-rule = Regla: sumo el calor del suelo sobre { $base } a 2 in, día por día desde el 1 de marzo. Con { $sum } grados-día sale el primer garranchuelo (Fidanza y otros, Crop Science 1996).
reasons-was_up = Según esa regla, el primer garranchuelo se esperaba { DAY($up, style: "on") }.
reasons-lead = La ventana abre { $lead } días antes. Debe quedar incorporado { $before } días antes, para que la barrera esté puesta.
reasons-lead_set = { " " }Esa anticipación la escogiste tú.
reasons-band_source = Ese intervalo es una regla práctica (Michigan State University Extension; PNW Weed Management Handbook). Donde no coinciden, me guío por el calor sumado.
reasons-barrier = Cuánto dura: tu dosis, qué tan rápido se gasta el ingrediente y el suelo desde entonces. Es aproximado: de la mitad a una vez y media.
reasons-law = Tu etiqueta manda sobre todo esto, y tu oficina de extensión conoce tu condado.
