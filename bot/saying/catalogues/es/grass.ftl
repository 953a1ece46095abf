grass-grass = { $zones }: { $grass }.
grass-unknown = { $zones }: césped desconocido, así que valen los límites más estrictos de todos.
grass-other = { $zones }: otro césped que esos. Vale de todos modos el máximo más estricto que recuerdo.
grass-part_every = { $zones }: se trata en cada aplicación.
grass-part_ask = { $zones }: se pregunta cada vez. /amounts lo muestra aparte y no se espera por él.
grass-part_never = { $zones }: nunca se trata y no entra en ningún total.
grass-buffer = { $zones }: una franja de { $strip } junto al agua queda sin tratar; reciben producto { $left } de { $area }. Si tu etiqueta pide más distancia, manda ella.
grass-buffer_ask =
    { $zones }: cerca del agua, anotado. ¿Cuánto mide la orilla junto al agua, y qué ancho queda sin tratar? Así:
    { $zone } agua 60 x 25 ft
    25 ft es la práctica de Maine junto a agua, desagües y pozos; tu etiqueta puede pedir más. Mientras tanto no se descuenta nada.
grass-buffer_large = Esa franja de { $strip } es toda { $zone } ({ $area }). Si no se puede tratar nada: { $zone } nunca se trata
grass-slope = { $zones }: pendiente. Riega en tandas cortas con reposo entre ellas; media pulgada de lluvia fuerte se puede llevar el producto.
grass-clay = { $zones }: arcilla. Riega en tandas cortas con reposo entre ellas, o el agua se escurre.
grass-hot_strip = { $zones }: franja caliente, una o dos semanas antes que el resto: va primero.
grass-shade = { $zones }: sombra, más tarde que el resto.
grass-not_slope = { $zones }: sin pendiente.
grass-not_clay = { $zones }: sin arcilla.
grass-not_hot_strip = { $zones }: no es franja caliente.
grass-not_shade = { $zones }: sin sombra.
grass-not_water = { $zones }: no está cerca del agua, no se descuenta nada.
grass-lock_seed =
    { $zones }: queda fuera, semilla nueva. Un preemergente no la deja enraizar. Casi todos esperan 3 o 4 cortes (práctica común); manda el plazo de tu etiqueta. Luego dime:
    { $zone } ya está establecido
grass-lock_sod =
    { $zones }: queda fuera, tepe nuevo. Espera a que enraíce y a que tu etiqueta lo permita. Luego dime:
    { $zone } ya está establecido
grass-lock_rest =
    { $zones } descansa este año: sin avisos, sin cantidades, nada que comprar. Ahí corta alto y arranca las pocas que salgan. Para que vuelva, di:
    { $zone } vuelve a entrar
grass-unlock = { $zones }: vuelve a las aplicaciones.
grass-near = No conozco el césped «{ $said }». ¿Quisiste decir { $names }?
grass-which_zone = No conozco ninguna zona de { $yard } con ese nombre: { $said }. Sus zonas: { $names }
grass-ask = ¿Qué césped hay en { $zone }? Toca uno o escríbelo. De eso depende qué se puede aplicar ahí.
grass-known =
    { $yard }:
    { $lines }
    Cambia uno: { $zone } es festuca alta. También: cerca del agua, pendiente, arcilla, semilla nueva, nunca se trata.
grass-line = { $zone }: { $facts }
grass-not_named = césped sin nombrar
grass-fact_unknown = césped desconocido, valen los límites más estrictos
grass-fact_other = otro césped
grass-fact_ask = se pregunta cada vez
grass-fact_never = nunca se trata
grass-fact_buffer = { $area } junto al agua sin tratar
grass-fact_slope = pendiente
grass-fact_clay = arcilla
grass-fact_hot_strip = franja caliente
grass-fact_shade = sombra
grass-fact_water = cerca del agua
grass-fact_seed = semilla nueva, queda fuera
grass-fact_rest = descansa este año
grass-fact_sod = tepe nuevo, queda fuera
grass-held = Césped de { $names }: { $grass }.
grass-held_first = Anotado: { $grass }, para las zonas que midas ahora. Por ejemplo: frente 60x40 ft
grass-which_kind = ¿Cuál { $said }: { $names }? Dime, por ejemplo: el frente es festuca alta
grass-none_measured = Todavía no hay zonas. Dime primero una: frente 60x40 ft
grass-button_unknown = No sé
grass-button_later = Más tarde
grass-later = Lo dejamos para después. Di: mi césped
grass-button_none_of_them = Ninguno de esos
grass-button_undo = Deshacer
grass-button_ask = Decir el césped
grass-left_out_locked_seed = { $zones } no: semilla nueva. Cuando haya prendido: { $zone } ya está establecido
grass-left_out_locked_rest = { $zones } no: descansa este año. Para que vuelva, di: { $zone } vuelve a entrar
grass-left_out_locked_sod = { $zones } no: tepe nuevo. Cuando haya enraizado: { $zone } ya está establecido
grass-left_out_harms_turf = { $zones } no: { $ingredient } daña { $grass } ({ $source }).
grass-left_out_may_harm_unknown_turf = { $zones } no: { $ingredient } daña { $harmed }, y no se sabe qué césped hay ahí, así que valen los límites más estrictos. Dilo: { $zone } es bermuda
grass-left_out_not_residential = { $zones } no: { $ingredient } no es para céspedes de casa ({ $source }). Si tu etiqueta los nombra: la etiqueta permite césped de casa
grass-left_out_remembered_maximum = { $zones } no: ya van { $used }, y otra aplicación pasa de { $limit } al año, lo usual en { $grass }. Dime el máximo de tu etiqueta: /product
grass-left_out_too_soon = { $zones } no: tu etiqueta pide más días entre aplicaciones. Fecha más temprana: { DAY($day) }.
grass-left_out_too_many = { $limit ->
    [one] { $zones } no: ya se usó la única aplicación que permite tu etiqueta.
   *[other] { $zones } no: ya se usaron las { $limit } aplicaciones que permite tu etiqueta.
}
grass-all_left_out = Sin cantidades para { $yard }: ninguna zona se puede tratar ahora.
grass-caution = Di qué césped tienes: { $ingredient } daña { $harmed }. Por ejemplo: { $zone } es festuca alta
grass-each_time = { $zone }, se pregunta cada vez: { $amount } si la tratas, fuera del total
grass-buffered = Ya descontado del total: { $area } junto al agua.
grass-soak = { $zones }: riega en tandas cortas con reposo entre ellas.
grass-hot_first = Primero { $zones }: va una o dos semanas antes que el resto.
grass-cool_season = céspedes de clima fresco (festucas, poa de Kentucky, ballico, agrostis)
grass-any_turf = el césped más estricto
