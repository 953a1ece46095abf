buying-head_round = Para { $yards }, aplicación { $number } de { $rounds }: compra { $need } para { $area }.
buying-head_year = { $count ->
        [one] Para { $yards }, este año: compra { $need }.
       *[other] Para { $yards }, las { $count } aplicaciones de este año: compra { $need }.
    }
buying-each = { $yard }: { $amount }
buying-shelf = Tienes guardado { $amount }.
buying-shelf_does = Te alcanza con lo guardado, { $amount }. No compres nada; te sobran { $left }.
buying-best = Compra { $packs }{ $cost }. Sobran { $left }.
buying-cost = , { $money }
buying-pack = { $count } x { $size }
buying-or = O { $packs }{ $cost }, sobran { $left }.
buying-goal_cost = Lo más barato; si empata, lo que menos sobre.
buying-goal_left = Lo que menos sobre.
buying-goal_no_price = Por lo que menos sobre. Para lo más barato, dime los precios, así: bolsas 25 lb $38, 40 lb $55
buying-next = Las aplicaciones que siguen llevan { $amount } más, aparte de lo que sobra.
buying-next_covered = Lo que sobra alcanza para las aplicaciones que siguen.
buying-label_stops = { $yard }: aplicaciones que este año deja tu etiqueta en { $zones }: { $count }.
buying-not_before = Se puede aplicar desde { DAY($day, style: "on") }: tu etiqueta pide ese tiempo entre aplicaciones.
buying-ask_packs =
    { $form ->
        [spray] ¿En qué tamaños se vende? Así: botellas 16 fl oz $38, 64 fl oz $120
       *[other] ¿En qué bolsas se vende? Así: bolsas 25 lb $38, 40 lb $55
    }
buying-law = Antes de pagar revisa en la etiqueta ingrediente, concentración y césped, y que ahí se pueda comprar y usar. Guárdalo seco; una bolsa vieja, apelmazada o sin etiqueta no se usa.
buying-season_head =
    Lista de compras de la temporada, { $count ->
        [one] una propiedad:
       *[other] { $count } propiedades:
    }
buying-season_line =
    { $product }: { $need } para { $count ->
        [one] una propiedad.
       *[other] { $count } propiedades.
    }
buying-season_without = Todavía sin producto: { LIST($names, style: "unit") }.
buying-season_nothing = No hay nada que comprar esta temporada: a ninguna propiedad con producto le queda una aplicación.
buying-nothing = Nada que comprar para { $yard }: ninguna zona lo puede recibir ahora, o ya se usó lo que permite la etiqueta este año.
buying-button_buy = Qué comprar
buying-button_year = Todo el año
buying-button_round = Esta aplicación
buying-button_all = Todas las propiedades
buying-button_one = Solo { $yard }
buying-button_left = Que sobre menos
buying-button_cost = Lo más barato
buying-button_compare = Comparar productos
buying-compare =
    Costo por 1,000 sq ft tratados, con la dosis de cada etiqueta:
    { $lines }
    Lo más barato no siempre conviene: mira cuánto dura cada uno y qué aguanta tu césped.
buying-compare_metric =
    Costo por 100 m² tratados, con la dosis de cada etiqueta:
    { $lines }
    Lo más barato no siempre conviene: mira cuánto dura cada uno y qué aguanta tu césped.
buying-compare_line = { $money }: { $product }, en bolsa de { $size }
buying-compare_none = Comparo productos por precio cuando sepa en qué bolsas vienen: anota cada uno con /product y bolsas 25 lb $38
