products-ask =
    ¿Qué trae la bolsa o el envase? El ingrediente activo está al frente, en letra chica.
    Tócalo, o escribe la etiqueta en una línea:
    prodiamina 0.38% granulado, 3.2 lb por 1000 sq ft, máximo 6.4 lb por 1000 al año
products-no_rate_no_amount = Sin dosis ni lo que cubre la bolsa no doy cantidades. Busca atrás «covers», «treats» o una tabla por esparcidora. Una bolsa sin etiqueta no se usa.
products-ask_another = Para otro, dime su etiqueta: ingrediente, dosis, máximo.
products-known =
    Usas { $product }.
    Máximo de la etiqueta: { $limits }.
products-ask_ingredient =
    ¿Qué ingrediente activo? Está al frente, en letra chica, con un porcentaje.
products-near = No conozco ningún «{ $said }». ¿Quisiste decir { $names }? Escribe el nombre como en la etiqueta.
products-kept = Anotado para { $yard }: { $product }.
products-code_taken = Leo { $said } como { $strength } de ingrediente activo.
products-form_taken_granule = Lo tomo como granulado para esparcidora.
products-form_taken_spray = Lo tomo como polvo o gránulo fino que se mezcla con agua.
products-leftovers = No entendí esto: { $words }.
products-rate_again = Ésa es la dosis; ya la tengo. { $question }
products-button_max_same = También es el máximo
products-ask_maximum =
    ¿Cuánto es lo más que permite la etiqueta? Busca en las instrucciones «do not apply more than». Así: máximo 6.4 lb por 1000 al año
    Mientras no lo sepa, no puedo comparar la dosis.
products-ask_maximum_unit =
    Lo más que permite la etiqueta, { $said }: ¿de qué, y en qué área? Así: lb por 1000 sq ft
    Mientras no lo sepa, no puedo comparar la dosis.
products-ask_maximum_area =
    Lo más que permite la etiqueta, { $said }: ¿en qué área? Así: por 1000 sq ft
    Mientras no lo sepa, no puedo comparar la dosis.
products-ask_period = Máximo de la etiqueta, { $limits }: ¿es por aplicación, o para todo el año? Mientras no me digas, tomo lo más estricto.
products-limits = Máximo de la etiqueta: { $limits }.
products-limit_application = { $rate } en una aplicación
products-limit_calendar_year = { $rate } en un año calendario
products-limit_season = { $rate } en una temporada
products-limit_12_months = { $rate } en cualquier período de 12 meses
products-limit_unsaid = { $rate } (no dice en cuánto tiempo)
products-limit_none = no dado, así que no puedo comparar con él
products-law = Tu etiqueta es la ley y manda sobre mí.
products-granule = { $ingredients }, granulado, { $rate }
products-spray = { $ingredients }, rociado, { $rate }
products-button_granule = Es granulado
products-button_spray = Se mezcla con agua
products-button_nomax = Mi etiqueta no lo da
products-button_application = Por aplicación
products-button_year = Todo el año
products-button_season = Por temporada
products-button_use = Usar { $product }
products-button_sure = Así dice
products-button_reread = La leo otra vez
products-button_unsaid = No lo dice
products-button_change = Cambiarlo
products-button_certified = Tengo certificación
products-no_maximum = Anotado: la etiqueta no da máximo. Antes de esparcir busca otra vez «do not apply more than» en ella. /amounts para { $yard }
products-over_limit =
    No lo anoté: { $asked } pasa del máximo de tu etiqueta, { $limit }.
    Revisa los dos en la etiqueta y dime la dosis correcta, así: 3.2 lb por 1000 sq ft
products-slip_above_range = Revísalo: { $asked } es mucho. Con esta concentración, las dosis publicadas de { $ingredient } son { $usual }. ¿Así dice tu etiqueta?
products-slip_below_range = Revísalo: { $asked } es poco. Con esta concentración, las dosis publicadas de { $ingredient } son { $usual }. ¿Así dice tu etiqueta?
products-slip_per_acre_as_per_1000 = Revísalo: { $asked } es 43.56 veces { $suggestion }, que sería lo usual. ¿Cuál de las dos dice tu etiqueta?
products-slip_per_1000_as_per_acre = Revísalo: { $asked } es muy poco; { $suggestion } sería lo usual. ¿Cuál de las dos dice tu etiqueta?
products-slip_weight_for_volume = Revísalo: { $asked } es un peso, y este producto es líquido. ¿Qué dice tu etiqueta?
products-slip_volume_for_weight = Revísalo: { $asked } es un volumen, y este producto es seco. ¿Qué dice tu etiqueta?
products-slip_too_much_of_anything = Revísalo: { $asked } es más que cualquier producto que conozco. ¿Así dice tu etiqueta?
products-slip_granule_or_spray = Revísalo: { $asked } de granulado es difícil de esparcir parejo. ¿No se mezcla con agua?
products-slip_spray_or_granule = Revísalo: { $asked } es mucho para mezclar con agua. ¿No es granulado para esparcidora?
products-slip_maximum_above = Revisa el máximo: { $asked } es mucho más que cualquiera que conozco, { $usual }. ¿Así dice tu etiqueta?
products-slip_maximum_per_acre_as_per_1000 = Revisa el máximo: ¿{ $asked }, o más bien { $suggestion }? El primero es mucho más que cualquiera que conozco.
products-slip_again = Anotado. Vuelvo a { $asked }: ¿así dice tu etiqueta?
products-read_again = Con calma. Luego escríbelo como viene ahí: 3.2 lb por 1000 sq ft, o: 18 lb cubre 5,000 sq ft
products-doubt_above_range = En duda: { $asked } está arriba de lo publicado, { $range }. Mira la etiqueta.
products-doubt_below_range = En duda: { $asked } está abajo de lo publicado, { $range }. Mira la etiqueta.
products-doubt_per_acre_as_per_1000 = En duda: { $asked } es 43.56 veces lo usual, { $suggestion }. Mira otra vez la etiqueta.
products-doubt_per_1000_as_per_acre = En duda: { $asked } es muy poco; lo usual es { $suggestion }. Mira otra vez la etiqueta.
products-doubt_weight_for_volume = En duda: { $asked } es un peso, y el producto es líquido. Mira otra vez la etiqueta.
products-doubt_volume_for_weight = En duda: { $asked } es un volumen, y el producto es seco. Mira otra vez la etiqueta.
products-doubt_too_much_of_anything = En duda: { $asked } es más que cualquier producto que conozco. Mira otra vez la etiqueta.
products-doubt_granule_or_spray = En duda: { $asked } es muy poco para un granulado. Mira otra vez la etiqueta.
products-doubt_spray_or_granule = En duda: { $asked } es mucho para mezclar con agua. Mira otra vez la etiqueta.
products-doubt_maximum_above = En duda: un máximo de { $asked } está muy arriba de cualquiera que conozco, { $usual }. Mira otra vez la etiqueta.
products-doubt_maximum_per_acre_as_per_1000 = En duda: un máximo de { $asked }; lo usual sería { $suggestion }. Mira otra vez la etiqueta.
products-by_row = Toma el renglón de tu césped y de cuánto debe durar. Mándame esa dosis: 3.2 lb por 1000 sq ft
products-take_time = Sin prisa.
products-no_amounts_yet = Todavía sin cantidades para { $yard }: no tengo con qué comparar la dosis.
products-ask_percent = ¿La etiqueta dice { $said } % de { $ingredient }?
products-button_percent = { $said } %
products-ask_strength = ¿Qué concentración tiene? El frente de la etiqueta da { $ingredient } con un porcentaje, así: 0.38%
products-ask_strength_by_volume = ¿Cuántas libras de { $ingredient } por galón? Está bajo los ingredientes, así: 2 lb por galón
products-ask_strength_by_weight = La dosis es un peso. ¿Qué porcentaje de { $ingredient } da la etiqueta? Así: 0.38%
products-coverage_taken = Leo: bolsa de { $weight } para { $area }, una dosis de { $rate }.
products-certified_only = { $ingredient } es solo para aplicadores certificados y no para céspedes de casa (US EPA, 2022). No lo incluyo, salvo que tengas certificación y tu etiqueta nombre este sitio.
products-hint = /product empieza de nuevo.
products-ask_was_it = Aplicaste algo { $on } antes de que yo supiera qué. ¿Era esto?
products-button_was_it = Sí, era esto
products-was_it = Anotado para { $zones }: { $product }. Cuenta para el máximo y la barrera.
products-button_none_yet = Todavía nada
products-button_list = Otro
products-button_nostrength = No lo dice
products-ask_strength_first = ¿Qué tan fuerte es? El porcentaje está al frente, junto a { $ingredient }. Los líquidos dan libras por galón.
products-button_max_year = { $unit } al año
products-button_max_application = { $unit } cada vez
products-so_far = Para las cantidades necesito el resto de la etiqueta. Hasta ahora: { $said }.
products-ask_covers = Una bolsa de { $pack }. ¿Cuánto cubre? Busca atrás «covers», así: cubre 15,000 sq ft
products-ask_range = Tu etiqueta da de { $low } a { $high }. ¿Qué dosis vas a usar?
products-over_range = { $asked } pasa de lo que da tu etiqueta, de { $low } a { $high }. ¿Qué dosis vas a usar?
products-button_rate = { $rate }
products-range = Dosis de la etiqueta: de { $low } a { $high }.
products-range_below = Tu dosis está por debajo de la etiqueta, que da de { $low } a { $high }. Puede durar menos. Revisa que tu etiqueta permita menos.
products-fit_over = { $count } aplicaciones suman { $together }. Eso pasa del máximo: { $limit }.
products-fit_all =
    Lo que cabe: { $count } de { $each } si tu etiqueta permite esa dosis, o { $times ->
        [one] una de { $rate }.
       *[other] { $times } de { $rate }.
    }
products-fit_one = Lo que cabe: una aplicación de { $rate }.
products-button_fit_all = { $count } de { $each }
products-button_fit_one = Una aplicación
products-one_at_a_time = Un producto a la vez, por favor, cada uno con su dosis y su zona: ditiopir 0.27% granulado, 3.4 lb por 1000 en el fondo. No cambié nada.
products-zone_only = Un mismo producto sirve para toda una propiedad. Para usar { $ingredient } solo en { $zones }, hazla una propiedad aparte: { $name }. Conserva su lugar y sus ajustes, y se lleva sus registros.
products-zone_of_others = Un mismo producto sirve para toda { $yard }. Quien la dio de alta puede hacer de { $zones } una propiedad aparte.
products-mingled = Los registros de { $zones } pueden ser también de otra parte de { $yard }. Por eso sigue en { $yard }, con un solo producto.
products-apart = { $zones } es ahora la propiedad { $name }. Se llevó sus registros. /undo lo deshace.
products-button_apart = Pasarla a { $name }
products-button_whole = Usarlo en toda { $yard }
