many-lawn = césped
many-head =
    { $count ->
        [one] Leí una propiedad
       *[other] Leí { $count } propiedades
    }: { $new } nuevas, { $changed } con cambios, { $same } sin cambios.
many-line = { $yard }: { LIST($facts, style: "comma") }
many-line_changed = { $yard }, con cambios: { LIST($facts, style: "comma") }
many-area_of = { $area } ({ LIST($names, style: "unit") })
many-no_sizes = todavía sin medidas
many-rough = Las propiedades sin coordenadas quedan en el centro de su ciudad o código postal.
many-strangers = Columnas que no uso: { $names }.
many-button_add =
    { $count ->
        [one] Agregar 1 propiedad
       *[other] Agregar { $count } propiedades
    }
many-button_change =
    { $count ->
        [one] Cambiar 1 propiedad
       *[other] Cambiar { $count } propiedades
    }
many-button_not = Déjalo
many-dropped = Lo dejé. No cambió nada.
many-nothing = No hay nada que cambiar: tus propiedades están como en la lista.
many-added =
    { $count ->
        [one] Agregué { $yard }
       *[other] Agregué { $count } propiedades
    }{ $changed ->
        [0] .
       *[other] , { $changed } con cambios.
    }
many-changed =
    { $count ->
        [one] Cambié 1 propiedad.
       *[other] Cambié { $count } propiedades.
    }
many-took_product = Producto como en tus otras propiedades: { $product }. ¿Otro en alguna? Dilo en esa propiedad.
many-took_water = Días de riego como en tus otras propiedades: { $days }.
many-took_grass = Césped como en tus otras propiedades: { $grass }. Donde sea otro, dilo en esa propiedad.
many-next_product = Ahora, ¿qué vas a aplicar? Di lo que dice la etiqueta; después un botón lo pone en todas: /product
many-next_sizes = Ahora, las medidas que faltan: ve a la propiedad y di frente 60x40, o manda otra vez la lista con ellas.
many-next = Todas están listas. Reviso su suelo cada mañana.
many-button_today = Ruta
many-button_product =
    { $count ->
        [one] Usarlo también en mi otra propiedad
       *[other] Usarlo también en mis otras { $count } propiedades
    }
many-product_taken =
    { $product }: ahora también en { $count ->
        [one] una propiedad más.
       *[other] { $count } propiedades más.
    }
many-no_table =
    No pude leer ahí una lista de propiedades. Tomo CSV o XLSX, hasta 1 MB y 400 filas, con encabezados como nombre, cliente, dirección, ciudad, zonas. O pega líneas así:
    Birch St 12, Wahoo NE, frente 60x40, fondo 30x20
    /yards template te da un archivo para llenar.
many-template_how = Una lista para llenar: una fila por propiedad. Deja los encabezados, deja vacío lo que no sepas y mándala de vuelta. Las dos filas que trae son inventadas.
many-template =
    nombre,cliente,dirección,ciudad,estado,código postal,latitud,longitud,zonas,césped,producto
    Birch St 12,A. Cliente,12 Birch St,Wahoo,NE,68066,,,"frente 60x40, fondo 30x20",festuca alta,
    Mill Lane 4,,,,,,39.18,-96.57,"césped 5,200 sq ft",bermuda,
many-trouble_name = Fila { $row }: no tiene nombre, dirección ni cliente. Quedó fuera.
many-trouble_double = Fila { $row }, { $yard }: igual que la fila { $said }. La dejé fuera.
many-trouble_long = Fila { $row }, { $said }: ese nombre es muy largo; hasta 40 letras, por favor. Quedó fuera.
many-trouble_no_place = Fila { $row }, { $yard }: sin ciudad, código postal ni coordenadas. Quedó fuera.
many-trouble_place = Fila { $row }, { $yard }: no conozco el lugar «{ $said }». Quedó fuera; escribe ciudad y estado, o el código postal.
many-trouble_which_town = Fila { $row }, { $yard }: hay más de una { $said }. Quedó fuera; agrega el estado.
many-trouble_zones = Fila { $row }, { $yard }: no pude leer la medida «{ $said }». Escribe frente 60x40, o frente 2,400 sq ft.
many-trouble_area = Fila { $row }, { $yard }: no pude leer la superficie «{ $said }». Escribe 5,200 o 0.25 acres.
many-trouble_coordinates = Fila { $row }, { $yard }: no pude leer las coordenadas «{ $said }». Escribe 39.18, -96.57.
many-trouble_grass = Fila { $row }, { $yard }: no conozco el césped «{ $said }». Escribe festuca alta, por ejemplo.
many-trouble_product = Fila { $row }, { $yard }: al producto «{ $said }» le falta algo. Dilo aparte después: /product
many-button_same =
    { $count ->
        [one] Lo mismo en mi otra propiedad
       *[other] Lo mismo en mis otras { $count } propiedades
    }
many-same_taken =
    Como en { $yard }, ahora en { $count ->
        [one] una propiedad más.
       *[other] { $count } propiedades más.
    } Donde sea distinto, dilo en esa propiedad.
