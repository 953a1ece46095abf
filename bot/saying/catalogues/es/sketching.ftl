sketching-none = Todavía no hay nada que dibujar. Dime una zona: frente 60x40 ft, o camina sus esquinas: caminar frente
sketching-button_photo = Mi foto
sketching-photo_kept =
    Guardada con { $yard }: tu foto. Di «mi foto» para verla otra vez.
    No puedo sacar medidas de ella; dímelas en palabras: frente 60x40 ft
sketching-photo = { $yard }, tu foto, { DAY($day) }.
sketching-photo_none = No hay foto guardada con { $yard }. Manda una de tu dibujo en papel y la guardo aquí.
sketching-photo_gone = Tu foto ({ DAY($day) }) ya no está donde la guardé. Mándala otra vez, por favor.
sketching-down = ya aplicado
sketching-late = ahí ya es tarde
sketching-photo_of_label =
    Guardada con { $yard }. No tomo ninguna dosis de una foto: escribe lo que dice la etiqueta, un dato tras otro.
    Al frente: ingrediente activo y porcentaje, peso neto. Atrás: cuánto cubre y «do not apply more than».
sketching-photo_unsure =
    Guardada con { $yard }. No pude leer esta foto con certeza, y así no me guío por ella. Escribe lo que dice la etiqueta, un dato a la vez.
    Al frente: ingrediente activo y porcentaje, peso neto. Atrás: lo que cubre, y el máximo que permite.
sketching-seen_ask_first =
    Guardada. Leí la foto, y una foto engaña: compara cada dato con la etiqueta.
    { sketching-seen_ask_next }
sketching-seen_ask_next = { $kind ->
    [ingredient] Ingrediente activo: { $said }. ¿Eso dice la etiqueta?
    [strength] Porcentaje junto a él: { $said }. ¿Eso dice la etiqueta?
    [weight] Peso neto: { $said }. ¿Eso dice la etiqueta?
    [covers] Cubre { $said }. ¿Eso dice la etiqueta?
   *[maximum] { $period ->
        [application] Lo máximo que permite: { $said } cada vez. ¿Eso dice la etiqueta?
        [season] Lo máximo que permite: { $said } por temporada. ¿Eso dice la etiqueta?
       *[year] Lo máximo que permite: { $said } al año. ¿Eso dice la etiqueta?
    }
}
sketching-button_seen = Así dice
sketching-button_unseen = No, déjalo fuera
sketching-button_label = Foto de la etiqueta
sketching-label = La etiqueta
