seeding-yes = { $zone }: por la barrera, se puede sembrar { DAY($on, style: "on") }.
seeding-unknown = { $zone }: no puedo decirlo. No se sabe qué se aplicó { DAY($day, style: "on") }, y un preemergente puede frenar la semilla por meses. Pregunta a quien lo aplicó; la etiqueta de la bolsa dice cuánto tiempo.
seeding-yes_free = { $zone }: se puede sembrar { DAY($on, style: "on") }. Nada registrado ahí frena la semilla.
seeding-no = { $zone }: { DAY($on, style: "on") } no. Lo más pronto, { DAY($earliest, style: "on") }.
seeding-when = { $zone }: desde { DAY($earliest, style: "on") }.
seeding-reason_label = Deciden los { $days } días de tu etiqueta después de { $ingredient } ({ DAY($treated) }).
seeding-reason_default = { $days } días después de { $ingredient } ({ DAY($treated) }): un plazo largo, porque no sé el de tu etiqueta. Tu etiqueta manda; dime: siembra { $zone } { DAY($on) }, etiqueta 12 semanas
seeding-reason_default_form = El granulado frena la semilla más tiempo que lo rociado.
seeding-reason_at_seeding = { $ingredient } puede ir junto con esa semilla.
seeding-trial = { $weeks ->
    [one] En un ensayo publicado, { $species } se atrasó una semana; es más que esta espera.
   *[other] En un ensayo publicado, { $species } se atrasó { $weeks } semanas; es más que esta espera.
}
seeding-slit = En ensayos, la siembra en surcos se atrasó más que la siembra al voleo.
seeding-at_seeding = Con esa semilla, según su etiqueta: { $names }. Los demás esperan al tercer o cuarto corte.
seeding-no_species = No pensé en un césped en particular, así que no hay excepción.
seeding-collides = Choca con { $round }, { DAY($day, style: "about") }, en { $zones }: se frenaría la semilla o se rompería la barrera. ¿Qué va primero ahí?
seeding-collides_known = Choca con { $round }, { DAY($day, style: "about") }, en { $zones }. Escoge cuando lo planees.
seeding-round_winter_annuals = la aplicación de fin de verano
seeding-round_summer_annuals = la aplicación contra el garranchuelo
seeding-button_plan = Planear para { DAY($on, style: "on") }
seeding-button_seed_first = Primero la semilla
seeding-button_round_first = Primero la aplicación
seeding-planned = En el plan: sembrar { $zones } { DAY($on, style: "on") }. Te aviso cuando la barrera deje pasar la semilla.
seeding-seed_first = { $zones }: primero la semilla, esta vez sin aplicación ahí. Busca malezas y arráncalas.
seeding-round_first = { $zones }: primero la aplicación; la siembra sale del plan.
seeding-sown = Registrado: { $zones }, sembrado { DAY($on, style: "on") }. Nada de preemergente ahí antes del tercer o cuarto corte; tu etiqueta puede pedir más. Dime cada corte: corté { $zone }
seeding-mown = { $zone }: { $count } de { $wanted } cortes.
seeding-mown_ready = { $count ->
    [one] { $zone }: un corte, ya vuelve a las aplicaciones. Tu etiqueta puede pedir más.
   *[other] { $zone }: { $count } cortes, ya vuelve a las aplicaciones. Tu etiqueta puede pedir más.
}
seeding-mown_before = { $zone }: ese corte ya está contado ({ DAY($on) }), { $count } de { $wanted }. Cuento uno por día.
seeding-mown_early = { $zone } se sembró { DAY($seeded, style: "on") }, así que un corte { DAY($on, style: "on") } no es del césped nuevo y no cuenta. Dime los siguientes, así: corté { $zone }
seeding-future_mown = «{ $said }» todavía no llega, así que no conté nada. Dímelo cuando lo cortes, así: corté { $zone }
seeding-mown_none = En { $yard } no hay semilla nueva esperando cortes.
seeding-future_sown = «{ $said }» todavía no llega. Para planearlo: sembrar { $zone } { $said }
seeding-unclear = ¿Qué zona quieres decir? Zonas de { $yard }: { $names }. Por ejemplo: ¿puedo sembrar { $zone } el 5 de septiembre?
seeding-gone = Esa siembra ya no está en el plan.
seeding-long_ago = Sembrado { DAY($on, style: "on") }: ya está arraigado hace mucho y no frena nada. No registré nada.
