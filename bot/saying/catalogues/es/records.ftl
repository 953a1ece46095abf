records-a_service = un servicio
records-licence_how = Di el número, por ejemplo: licencia 12345 hasta el 31 de diciembre de 2027, o: EPA reg 1234-56
records-none = Todavía no hay nada registrado en { $yard }. Dímelo cuando algo esté aplicado: apliqué la franja ayer a las 5 pm
records-head = Registros más nuevos de { $yard }:
records-line = #{ $number } { DAY($on) }{ $at }: { $zones }, { $amount }{ $by }.
records-line_at = , { $at }
records-line_by = , por { $who }
records-no_amount = cantidad desconocida
records-how = Para cambiar un dato: registro { $number } viento 5 mph
    La cantidad: registro { $number } cantidad 7.5 lb
    El día: registro { $number } fecha martes pasado
    Todo: /export
records-edited = Registro #{ $number }, { $field }: { $value }. Antes: { $before }. El valor anterior se guarda con tu nombre.
records-edited_nothing = nada
records-redated_same = El registro #{ $number } ya está en el { $on }. ¿Otro día? Por ejemplo: registro { $number } fecha 3 abr
records-redated = El registro #{ $number } es ahora del { $on }, no del { $before }. Vuelvo a calcular lo que depende de él.
records-no_record = No tengo ningún registro #{ $number } en { $yard }. Míralos, di: registros
records-no_field = No conozco el dato «{ $said }». Datos: { $fields }. Por ejemplo: registro { $number } viento 5 mph
records-long_ago = «{ $said }» fue hace años, así que el registro #{ $number } queda como está. ¿Qué día fue? Por ejemplo: registro { $number } fecha 3 de abril
records-long_ago_by_others = «{ $said }» fue hace años, así que no registré nada. ¿Qué día fue? Por ejemplo ({ $who }): el servicio aplicó 3 lb de prodiamina 0.38% en la franja el 3 de abril
records-future = «{ $said }» todavía no llega. Un registro es de lo ya aplicado.
records-registered = Anotado de tu etiqueta: { $number } para { $product }.
records-no_product = No hay producto escogido al que corresponda un número: /product
records-licensed = Licencia anotada: { $number }. Va en tus registros.
records-exported = { $count ->
    [one] Registro de { $yard } (una fila): CSV, Excel, PDF y calendario.
   *[other] Registro de { $yard } ({ $count } filas): CSV, Excel, PDF y calendario.
}
records-asked_registration = Falta el número EPA de tu etiqueta. Dime: epa 1234-567
records-asked_licence = ¿Te pagan por tratar céspedes? Dime tu licencia: licencia 12345. Lo pregunto solo una vez.
records-all_yards = Todas las propiedades
records-button_all = Todas las propiedades
records-total = Total
records-totals = Totales
records-log_yards = { $count } propiedades, hecho el { $day }.
records-no_customer = Ninguna propiedad tuya tiene un cliente llamado «{ $name }». Ponlo así: registro cliente A. Cobb, dirección 12 Birch St
records-asked_all =
    También falta: { LIST($fields, style: "standard") }. En un mensaje:
    todos los registros viento del noroeste, equipo esparcidora, reentrada al secarse
records-filled = Registro { $number } de { $yard }: { LIST($fields, style: "unit") }.
records-unplaced = No supe dónde anotar esto: { $said }. Di también el campo, por ejemplo: equipo esparcidora
records-filled_before = Antes: { LIST($fields, style: "unit") }. Los valores anteriores quedan guardados con tu nombre.
records-filled_all =
    { LIST($fields, style: "unit") }: ahora en { $count ->
        [one] 1 registro al que le faltaba.
       *[other] { $count } registros a los que les faltaba.
    }
records-filled_field = { $field } { $value }
records-under = Anotado: trabajas bajo { $name }, licencia { $licence }. Así consta en tus registros.
records-under_no_licence = Anotado: trabajas bajo { $name }. Su licencia se dice así: trabajo bajo { $name }, licencia 12345
records-field_air = temperatura del aire
records-field_humidity = humedad
records-field_started = inicio
records-field_supervisor = supervisado por
records-field_supervisor_licence = licencia del supervisor
records-field_customer = cliente
records-field_address = dirección
records-field_registration = n.º de registro EPA
records-heading-customer = Cliente
records-heading-address = Dirección
records-heading-supervisor = Supervisado por
records-heading-supervisor_licence = Licencia del supervisor
records-keep_safe = Qué guardar, y cuánto tiempo, lo dice tu estado. Esto no es consejo legal.
records-button_none_of_these = Ninguna de estas
records-by_others_elsewhere = De acuerdo, no anoté nada. ¿Es terreno nuevo? Mídelo primero y luego dímelo otra vez.
records-by_others = { $who ->
    [service] Registrado en { $yard }: el servicio aplicó { $product } en { $zones }, { DAY($on) }. Cuenta para los máximos de tu etiqueta.
   *[other] Registrado en { $yard }: { $who } aplicó { $product } en { $zones }, { DAY($on) }. Cuenta para los máximos de tu etiqueta.
}
records-by_others_unknown = { $who ->
    [service] Registrado en { $yard }: el servicio trató { $zones }, { DAY($on) }. Sin el ingrediente no lo puedo contar para tu etiqueta. Pregúntales y dime, así: el servicio aplicó 3 lb de prodiamina 0.38% en { $zone } el martes pasado
   *[other] Registrado en { $yard }: { $who } trató { $zones }, { DAY($on) }. Sin el ingrediente no lo puedo contar para tu etiqueta. Pregúntales y dime, así: el servicio aplicó 3 lb de prodiamina 0.38% en { $zone } el martes pasado
}
records-by_others_own_label = No sé cuánto se aplicó. Mientras no me digas cuento { $rate } lb de ingrediente activo por acre, la dosis de tu etiqueta.
records-by_others_table = No sé cuánto se aplicó. Mientras no me digas cuento { $rate } lb de ingrediente activo por acre, la dosis única más alta que conozco.
records-by_others_no_amount = No sé cuánto se aplicó, así que ahí no calculo nada más hasta que me digas. Pregúntales cuántas libras por 1,000 sq ft.
records-amount_of = { $amount } de { $product }
records-amended = Registro #{ $number }: { $amount }, no { $before }. Vuelvo a calcular lo que depende de él.
records-amended_on = Registro #{ $number }: { $amount } en { $zones }, no { $before }. Sus otras zonas quedan como estaban.
records-amended_first = Registro #{ $number }: { $amount }. Vuelvo a calcular lo que depende de él.
records-amended_same = El registro #{ $number } ya dice { $amount }. No cambié nada.
records-amended_over = Eso pasa del máximo de tu etiqueta. No apliques más ahí y sigue la etiqueta. Si dudas, pregunta en tu oficina de extensión.
records-amount_no_product = No cambié nada: el registro #{ $number } aún no tiene producto. Anota primero la etiqueta con /product; te pregunto si era ése, y entonces dime otra vez la cantidad.
records-amount_unread = { $problem } No registré nada.
records-target_summer_annuals = garranchuelo y otras gramíneas anuales de verano
records-target_winter_annuals = poa anual
records-target_other = otra
records-log_title = Bitácora de aplicaciones: { $yard }
records-log_place = Lugar { $lat }, { $lon }; horas de { $zone }. Impreso de los registros hasta { DAY($day, style: "on") }.
records-log_law = La etiqueta del producto es la ley. El viento, el aire y la humedad que nadie midió en el lugar vienen de datos del tiempo.
records-code_granule = granulado
records-code_spray = aspersión
records-code_hour = datos del tiempo, de esa hora
records-code_day = datos del tiempo, de ese día
records-code_product = producto
records-code_ai = ingrediente activo
records-code_unsaid = sin plazo dicho
records-calendar_name = { $yard }: césped
records-calendar_window_summer_annuals = { $yard }: ventana del preemergente contra el garranchuelo
records-calendar_window_winter_annuals = { $yard }: ventana del preemergente contra la poa anual
records-calendar_half2 = { $yard }: toca la segunda aplicación
records-calendar_seed = { $yard }: sembrar { $zone }
records-calendar_certain = Importa un archivo más nuevo si algo cambia. Tu etiqueta manda.
records-calendar_rough = La fecha es aproximada. Importa un archivo más nuevo para tener fechas nuevas. Tu etiqueta manda.
records-field_wind = viento
records-field_wind_from = viento de
records-wind_direction = dirección del viento
records-field_sky = cielo
records-field_ended = fin
records-field_carrier = agua
records-field_equipment = equipo
records-field_calibration = calibración
records-field_batch = lote
records-field_weed = maleza
records-field_applicator = aplicador
records-field_licence = licencia
records-field_posted = letrero
records-field_reentry = reentrada
records-field_notes = nota
records-heading-record = Registro
records-heading-applied_on = Fecha
records-heading-started = Inicio
records-heading-ended = Fin
records-heading-yard = Propiedad
records-heading-place = Latitud, longitud
records-heading-zone = Zona
records-heading-area_sq_ft = Área, sq ft
records-heading-area_m2 = Área, m²
records-heading-turf = Césped
records-heading-product = Producto
records-heading-registration = Núm. de reg. EPA
records-heading-ingredients = Ingrediente activo
records-heading-strength = Concentración
records-heading-batch = Lote
records-heading-form = Forma
records-heading-rate_asked = Dosis prevista
records-heading-rate_achieved = Dosis aplicada
records-heading-product_amount = Cantidad de producto
records-heading-product_unit = Unidad
records-heading-ingredient_lb = Ingrediente activo, lb
records-heading-ingredient_kg = Ingrediente activo, kg
records-heading-ingredient_lb_acre = Ingrediente activo, lb por acre
records-heading-ingredient_this_year_lb_acre = Mismo año calendario, todos los productos, lb por acre
records-heading-label_maxima = Máximos de la etiqueta
records-heading-carrier = Volumen de agua
records-heading-equipment = Equipo
records-heading-calibration = Calibración
records-heading-weed = Maleza
records-heading-season = Temporada
records-heading-wind = Viento
records-heading-wind_from = Viento de
records-heading-air_f = Aire, °F
records-heading-soil_f = Suelo a 2 in, °F
records-heading-humidity_pct = Humedad, %
records-heading-rain_in = Lluvia del día, in
records-heading-sky = Cielo
records-heading-weather_basis = Origen del clima
records-heading-watered_in_on = Incorporado
records-heading-water_in = Riego desde entonces, in
records-heading-applicator = Aplicador
records-heading-licence = Licencia
records-heading-posted = Letrero
records-heading-reentry = Reentrada
records-heading-next_allowed_on = Siguiente permitida
records-heading-notes = Notas
records-heading-said = Como se dijo
records-heading-recorded_at = Registrado el
records-heading-recorded_by = Registrado por
records-heading-changes = Cambios
records-exported_days = Solo lo aplicado desde { DAY($first, style: "on") } hasta { DAY($last, style: "on") }.
records-ask_out = El registro #{ $number } cuenta { $zones } como hecho. ¿Lo saco, para que quede por hacer?
records-button_out = Sacar { $zones }
records-out = Fuera del registro #{ $number }, por hacer: { $zones }. En el registro queda { $kept }.
records-out_amount = Fuera del registro #{ $number }, por hacer: { $zones }. En el registro queda { $kept }, { $amount }.
