walking-begin = A caminar { $zone }. Párate en la primera esquina, espera unos segundos y comparte tu ubicación. Sigue con la próxima esquina, siempre en la misma dirección. En la última di: listo
walking-begin_unnamed = ¿Qué zona vas a caminar? Así: caminar frente
walking-first = Primera esquina de { $zone }. Ve a la siguiente y compártela.
walking-next = Esquina { $count }, a { $step } de la anterior. La siguiente, o di: listo
walking-same = Es el mismo punto que la última esquina; no lo anoté dos veces. Ve a la siguiente.
walking-too_far = Ese lugar está a { $distance } de { $yard }, así que lo dejé fuera. ¿Es otra propiedad? Di primero «cancelar» y compártelo otra vez.
walking-dropped = { $count ->
    [one] Quité la última esquina; queda una. Comparte la siguiente.
   *[other] Quité la última esquina; quedan { $count }. Comparte la siguiente.
}
walking-none_left = Todavía no hay esquinas. Párate en la primera y comparte tu ubicación.
walking-too_few = Tres esquinas o más, por favor; tengo { $count }. Comparte la siguiente, o cancela.
walking-kept =
    { $line }
    Error probable, { $error }, { $percent } %: a cielo abierto un teléfono acierta con { $phone } de margen.{ $tape }
    Total de { $yard }: { $total }
walking-tape = { " " }Con menos de { $limit } es mejor una cinta: { $zone } 60x40 ft
walking-echo = { $count ->
    [one] caminado, 1 esquina
   *[other] caminado, { $count } esquinas
}
walking-button_walk = Caminar una zona
walking-button_done = Listo
walking-button_drop = Quitar la última
walking-button_stop = Parar
walking-stopped = Dejé de medir { $zone }; no se guardó nada.
walking-pace = Tu paso: { $pace }. Ya puedes medir en pasos: frente 20 x 15 pasos
