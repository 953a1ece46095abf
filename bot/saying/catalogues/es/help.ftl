help-language_which = ¿En qué idioma? Di: en español, o: speak English
help-language_heard = Entiendo ese idioma, pero todavía no puedo contestar en él.
help-language_set = De aquí en adelante, en español.
help-language_en = English
help-language_es = Español
help-emergency =
    DEJA de trabajar. Aleja a personas y animales.
    Etiqueta en mano: haz ya sus PRIMEROS AUXILIOS.
    - Si se tragó, entró en un ojo, tocó la piel o se respiró: Centro de Toxicología de EE. UU., 1-800-222-1222, día y noche, también en español; fuera de EE. UU., el número de emergencia local.
    - Desmayo, convulsiones o le cuesta respirar: llama de inmediato al número de emergencia local (911 en EE. UU.).
    - Una mascota: llama ya a tu veterinario, etiqueta en mano.
    - Derrame: detenlo y que no llegue a desagües ni al agua. Cúbrelo con tierra seca, arena o arena para gatos y recógelo. No lo laves con la manguera. Si llegó a un desagüe o al agua: llama al número de emergencia de la etiqueta y luego al local.
    No provoques el vómito a nadie, salvo que ellos te lo indiquen. Soy un programa y no puedo llamar por ti.
help-greeting =
    Te aviso cuando el suelo de tu césped diga que el garranchuelo está cerca, cuánto producto lleva cada parte y cuándo toca la segunda aplicación.
    
    ¿Dónde está el césped? Escribe ciudad y estado, o un código postal, así: Salina, Kansas. O comparte la ubicación.
help-greeting_again =
    Qué bueno verte de nuevo. { $yards }
    Dime qué necesitas, o toca /help.
help-invented = Clima inventado.
help-commands =
    Lo que puedes decir:
    { $lines }
    
    También con tus palabras: «frente 60x40, franja 5 por 80 ft», «apliqué la franja», «{ watering-enough }», «métrico».
    ¿Alguien lo comió, le entró en un ojo, se derramó? Dilo: eso se contesta primero.
    La etiqueta de tu producto es la ley y manda sobre lo que yo diga.
help-unknown_new =
    No pude leer esto: { $said }
    ¿Dónde está el césped? Escribe ciudad y estado, como: Salina, Kansas
help-unknown_asked = No pude leer esto: { $said }
help-unknown_placed =
    No pude leer esto: { $said }
    ¿Qué tan grande es el césped? Por ejemplo: frente 60x40, franja 5 por 80 ft
help-unknown_ready =
    No pude leer esto: { $said }
    Pregúntame, por ejemplo: ¿ya es hora? O: ¿cuánto para el frente? En /help hay más.
help-is_it_down = ¿Ya lo aplicaste en { $yard }?
help-is_second_down = ¿Ya hiciste la segunda aplicación en { $yard }?
help-unknown_applied =
    No pude leer esto: { $said }
    Dime lo que riegues, por ejemplo: { watering-enough }. O pregunta: ¿cuánto dura?
help-button_all_of_it = Todo
help-button_part = Una parte
help-button_not_yet = Todavía no
help-part_which = ¿Qué parte está aplicada? Por ejemplo: frente, o: la mitad de atrás
help-noted = Está bien. Yo vigilo el suelo.
help-noted_new = Está bien. ¿Dónde está el césped? Escribe ciudad y estado, como: Salina, Kansas
help-noted_placed = Está bien. ¿Qué tan grande es el césped? Por ejemplo: frente 60x40, franja 5 por 80 ft
help-noted_open = Está bien. Después de aplicarlo, dime: ya lo apliqué
help-noted_applied = Está bien. Después de regar, dime: { watering-enough }
help-welcome = De nada. Yo vigilo el suelo.
help-nothing_asked = ¿Sí a qué? No tengo ninguna pregunta abierta. Pregúntame, por ejemplo: ¿ya es hora? O: ¿cuánto para el frente?
help-other = De eso no sé: yo cuido céspedes y su preemergente. /help muestra lo que puedes decir.
help-left = Está bien. No se cambió nada.
help-alerts_as_before = Los avisos de este chat siguen como estaban.
help-button_alerts_too = Los avisos también
help-alerts_too = Listo. Los avisos de este chat también llegarán así.
help-units_which = Escribe como quieras: 60x40 pies, o 18x12 m. { UNITS() ->
    [metric] Un número solo es en metros, y en metros te contesto. Para cambiarlo, di: usa pies
   *[us] Un número solo es en pies, y en pies te contesto. Para cambiarlo, di: usa metros
}
help-cancelled = Lo dejamos. No se cambió nada. /help muestra lo que puedes decir.
help-nothing_to_cancel = No había ninguna pregunta pendiente. /help muestra lo que puedes decir.
help-keep_off =
    Que niños y mascotas no pisen hasta que el producto esté regado y el césped, seco. Tu etiqueta puede pedir más, y manda: lee lo que dice de la reentrada.
    No puedo prometer más que la etiqueta. ¿Alguien lo tragó, le entró en un ojo o le cayó en la piel? Dilo de inmediato.
help-units_us = De aquí en adelante, en pies, libras y °F.
help-units_metric = De aquí en adelante, en metros, kilogramos y °C.
help-button_stale = Ese botón ya no sirve y no se cambió nada. { $hint }
help-photo = Gracias, pero todavía no puedo leer fotos aquí. Dime las medidas en palabras: frente 60x40 ft
help-trouble = Algo falló de mi lado y no se cambió nada. Dilo otra vez en un minuto, por favor.
help-busy = Otro mensaje tuyo llegó mientras tanto y no se cambió nada. Dilo otra vez, por favor.
help-hint_zones = Di la zona otra vez, así: frente 60x40 ft
help-hint_yard = /yard muestra cómo va todo.
help-too_long = Dilo por partes, por favor: leo hasta { $most } caracteres a la vez, y esto tenía { $characters }. No se anotó nada. Unas pocas zonas por mensaje se leen bien: frente 60x40, atrás 50x30
help-button_more = Más ({ $page } de { $pages })
help-cancelled_kept = Lo dejamos. Lo que anoté antes se queda; /undo deshace lo último.
help-how_rate = Busca en las instrucciones, atrás: cuánto va en un área, o cuánto cubre el saco. Por ejemplo: 3.2 lb por 1000 pies cuadrados, o: 48 lb cubre 15,000 pies cuadrados
help-how_form = Los gránulos son secos y van en la esparcidora. Lo que se mezcla con agua se rocía. Di: gránulos, o: se mezcla con agua
