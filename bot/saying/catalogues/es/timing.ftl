timing-not_yet = Aún no: aplica en { $yard } { DAY($opens, style: "from") } { DAY($closes, style: "to") } (las malezas ganan 1 año de { $one_in }).
timing-any_day = Cualquier día de estos: te aviso en cuanto el suelo lo diga. En { $yard }, aplica y riega para incorporarlo a más tardar { DAY($closes, style: "on") } (las malezas ganan 1 año de { $one_in }).
timing-now = Ya: en { $yard }, aplica y riega para incorporarlo a más tardar { DAY($closes, style: "on") } (las malezas ganan 1 año de { $one_in }).
timing-at_once = Ya, hoy si puedes: en { $yard } el garranchuelo se espera { DAY($up, style: "about") }. Riega de inmediato para incorporarlo.
timing-passed = Vas tarde: en { $yard } el primer garranchuelo se esperaba { DAY($up, style: "on") }. Pregúntame: ¿ya es tarde?
timing-far = Ahora no: la ventana de este año en { $yard } ya pasó, o falta demasiado para darle fecha. Te aviso cuando llegue.
timing-capped = Ya no más: tu etiqueta no deja otra aplicación entera de este producto en { $yard }. Busca plántulas.
timing-down_second = Ya está aplicado ({ $yard }, { DAY($last) }); la segunda, { DAY($on, style: "about") }.
timing-down_last = Ya está aplicado ({ $yard }, { DAY($last) }). Esta primavera no hay segunda en el plan.
timing-down_over = Ya está aplicado ({ $yard }, { DAY($last) }). La temporada terminó: este año no hay segunda.
timing-down_capped = Ya está aplicado ({ $yard }, { DAY($last) }). Sin segunda: tu etiqueta no deja otra aplicación entera.
timing-second_now = Ya: toca la segunda aplicación en { $yard }. Cuánto lleva: /amounts
timing-second_now_of = Ya: toca la segunda aplicación de { $zones } en { $yard }. Cuánto lleva: /amounts
timing-part_down = Hay una parte aplicada. Falta: { $zones }.
timing-button_why = Por qué
timing-late_no_early = No, es temprano: aplica { DAY($opens, style: "from") } { DAY($closes, style: "to") } (las malezas ganan 1 año de { $one_in }).
timing-late_no = No, hay tiempo: aplica y riega para incorporarlo a más tardar { DAY($closes, style: "on") } (las malezas ganan 1 año de { $one_in }).
timing-late_no_down = No: ya está aplicado ({ DAY($last) }). No se pasó nada.
timing-late_nearly = Todavía no es tarde, pero apúrate: el primer garranchuelo se espera { DAY($up, style: "about") }. Aplica hoy o mañana y riega de inmediato.
timing-late_does = Aplicado tarde detiene la semilla que brota después de regarlo. Lo que ya salió lo deja en pie.
timing-late_up = Para lo que ya brotó, sí: el primer garranchuelo se esperaba { DAY($up, style: "on") }, y un preemergente común no detiene plántulas.
timing-late_part = Todavía vale la pena contra la semilla que brota después, más o menos hasta { DAY($ends, style: "on") }, si tu etiqueta lo permite. Mira primero: si hay muchas plántulas, ocúpate de esas.
timing-late_little = Después de esto brota poca semilla (más o menos hasta { DAY($ends, style: "on") }), así que uno común ya casi no vale la pena.
timing-late_helps = Con plantas pequeñas: arráncalas, o trata las manchas con un ingrediente que actúe sobre ellas ({ $names }). Solo si tu etiqueta nombra tu césped y esa etapa.
timing-late_next = Corta a 3 in (8 cm) o más y riega a fondo, no seguido: la sombra frena las semillas. La próxima primavera te aviso a tiempo.
timing-late_over_since = Sí, por este año: el primer garranchuelo se esperaba { DAY($up, style: "on") } y casi todo ya brotó.
timing-late_over = Sí, por este año: la ventana de { $yard } ya pasó.
timing-late_unknown = No puedo decirlo para { $yard }: no hay fecha a la vista. Busca plántulas; si no encuentras, pregúntame: ¿ya es hora?
timing-late_grown = Un preemergente no detiene lo que ya crece. Arranca las plantas antes de que suelten semilla, o espera: la helada acaba con el garranchuelo. Siembra las calvas en otoño; la próxima primavera te aviso a tiempo.
timing-summer = pleno verano
timing-barrier_none_yet = Todavía no hay nada aplicado en { $yard }. Cuánto dura depende del ingrediente y la dosis: casi siempre de 2 a 5 meses. Dime el tuyo: /product
timing-barrier_not_down = { $count ->
    [1] Todavía no hay nada aplicado en { $yard }. El plan es una aplicación; tu etiqueta dice cuántas puedes hacer. Cuando lo apliques calculo cuánto dura en cada zona.
   *[other] Todavía no hay nada aplicado en { $yard }. El plan son { $count } aplicaciones, con { SPAN($split) } entre una y otra, hasta donde tu etiqueta lo permita. Cuando lo apliques calculo cuánto dura en cada zona.
}
timing-fall = En otoño el preemergente es para la poa anual y otras malezas de invierno. Para planearlo, di: plan de aplicaciones
timing-barrier_spent = Este año todavía no hay nada aplicado en { $yard }. Lo de { DAY($last) } se acaba para la primavera. Pregúntame: ¿ya es hora?
