everyday-water_now =
    { $yard }: { $waiting }
    Cuanto antes, mejor; la lluvia cuenta y tu etiqueta manda. Dime lo que riegues: { watering-some }
everyday-water_had = { $yard } quedó incorporado { DAY($on, style: "on") }. Ya no necesita más agua para esto.
everyday-water = { $days ->
    [one] { $yard }: ahora nada espera riego. Cuando lo apliques: { $depth } en un día, cuanto antes, mejor; la lluvia cuenta: sin manguera, aplica justo antes. Tu etiqueta manda. Luego dime: { watering-enough }
   *[other] { $yard }: ahora nada espera riego. Cuando lo apliques: { $depth } en { $days } días, cuanto antes, mejor; la lluvia cuenta: sin manguera, aplica justo antes. Tu etiqueta manda. Luego dime: { watering-enough }
}
everyday-which_work = ¿De qué trabajo hablas? Puedo decirte cómo combina con cortar, airear, escarificar, rastrillar, fertilizar, encalar, poner tepes, orillar o quemar.
everyday-mow = Corta antes de aplicar, o espera a que esté regado y seco. No recojas el primer recorte. Tu etiqueta manda.
everyday-aerate = Airear sacando tapones: si puedes, antes de aplicar el producto, o en otoño; la etiqueta manda. ¿Ya lo hiciste? No pongas más producto solo por eso. Cuánto dura la barrera: /yard
everyday-dethatch = Escarifica antes de aplicar el producto. Ya aplicado, déjalo para el otoño: rompe la barrera. Tu etiqueta manda.
everyday-rake = Rastrillar hojas suavemente no hace daño cuando ya está regado y seco. Si vas a rastrillar fuerte, que sea antes de aplicar. Tu etiqueta manda.
everyday-feed = Se puede fertilizar junto, si el fertilizante no trae otro herbicida. Suma el nitrógeno de las dos bolsas. No fertilices césped de clima cálido antes de que reverdezca. Barre el granulado del pavimento. Tu etiqueta manda.
everyday-lime = La cal puede ir antes o después, en otro día. Que un análisis de suelo diga si hace falta. Tu etiqueta manda.
everyday-sod = Nada de tepes ni esquejes en suelo tratado hasta que se acabe la barrera: también frena las raíces nuevas. Un tepe recién puesto no lleva preemergente hasta que enraíce, y tu etiqueta dice cuánto tiempo. Pregúntame: ¿cuándo puedo sembrar?
everyday-edge = Orilla antes de aplicar. Después, un corte limpio hace poco daño, pero por la línea pelada pueden salir malezas. Que no queden tierra ni granulado en el pavimento. Tu etiqueta manda.
everyday-burn = Quema antes de aplicar, nunca encima: el calor y el humo se llevan el producto. Pregunta primero a los bomberos; en muchos lugares está prohibido. Tu etiqueta manda.
everyday-topdress = Echa la capa de tierra antes de aplicar. La tierra sobre la barrera trae sus propias semillas. Tu etiqueta manda.
everyday-roll = Pasa el rodillo antes de aplicar, y no con el suelo mojado. Tu etiqueta manda.
everyday-weed = Arranca malezas cuando quieras. Un hueco chico en la barrera queda chico; aprieta la tierra otra vez. Tu etiqueta manda.
everyday-spray = Para rociar otra cosa, lee primero las dos etiquetas y deja días entre una y otra, salvo que permitan la mezcla. Unos quieren la hoja seca; este quiere agua. Dime qué es, para contarlo.
everyday-identify =
    Solo con palabras no puedo decirlo. Garranchuelo: verde claro, hojas anchas y cortas, tallos pegados al suelo en estrella, casi siempre desde fines de primavera.
    A principios de primavera rara vez es garranchuelo: las matas de festuca alta y la grama del norte vuelven cada año, y ningún preemergente las detiene.
    Lleva una planta con raíz a la oficina de extensión de tu condado. ¿Ves garranchuelo? Dime dónde: garranchuelo junto a la entrada
