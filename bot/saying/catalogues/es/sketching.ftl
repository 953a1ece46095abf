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
