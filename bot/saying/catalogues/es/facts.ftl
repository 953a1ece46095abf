facts-who = Soy Soilbell, un programa y no una persona. Vigilo el suelo de un césped, te aviso a tiempo, calculo cantidades y llevo tu registro. No pido dinero. Lo que digo no reemplaza a la etiqueta, ni a un aplicador con licencia donde haga falta.
facts-crabgrass = El garranchuelo es un zacate que vive un verano: nace de semilla en primavera, en julio está ancho, y muere con la helada. Una planta deja miles de semillas. Un preemergente detiene sus plántulas antes de que las veas, y nada de lo que ya brotó.
facts-preemergent = Un preemergente queda en lo alto del suelo y detiene las plántulas cuando brotan. El agua lo lleva ahí. Por eso se aplica antes de que salga la maleza. También detiene la semilla de pasto, y no toca el pasto ni la maleza ya crecidos.
facts-dry = ¿Todavía sin regar? Riega ya: media pulgada, primero lo rociado; es lo que más pierde al esperar. ¿Ya está regado? El suelo seco lo conserva bien, y la maleza también espera la lluvia. No apliques más solo por eso. Manda tu etiqueta.
facts-old_bag = Seco, cerrado y fresco, el granulado dura casi siempre dos o tres años. Deja la bolsa que se mojó, se hizo piedra o perdió su etiqueta. Si la bolsa trae fecha, manda la fecha. ¿Tienes la etiqueta? Dime qué dice: /product
facts-leftover = Mezcla solo lo que vas a usar. Lo que sobra va en césped que nombre la etiqueta, dentro de su máximo, nunca a un desagüe, fregadero o zanja. El granulado se queda en su bolsa: seco, cerrado, lejos de los niños. Para deshacerte de él, pregunta por el día de desechos peligrosos de tu condado.
facts-weed_feed = El fertilizante con herbicida casi siempre mata maleza de hoja ancha ya brotada, por la hoja. No detiene la semilla del garranchuelo, salvo que al frente nombre un preemergente: prodiamina, ditiopir, pendimetalina. Algunas bolsas traen los dos, y quieren hojas mojadas primero y agua después. La etiqueta dice cuál.
facts-frost = No sobre nieve ni suelo congelado: el deshielo se lo lleva. Espera a que el suelo se descongele y no escurra nada. Si solo hay escarcha en las hojas, espera a que se vaya y el pasto esté seco. Con el suelo tan frío hay tiempo.
facts-drift = Que nadie pise, ni personas ni animales. Anota día, hora y viento, toma fotos y pregunta qué rociaron. ¿Alguien se siente mal? Línea de envenenamiento de EE. UU.: 1-800-222-1222. La oficina de plaguicidas de tu estado recibe quejas. Lo tuyo: aplica con poco viento y deja una franja junto a la cerca.
facts-water_near = Tu etiqueta da la distancia a pozos, estanques y arroyos, y manda. Deja fuera esa franja, y toda pendiente o pavimento que escurra hacia ahí. Nada antes de una lluvia fuerte. Algunos ingredientes dañan mucho a los peces. Dímelo y lo tengo en cuenta: atrás está cerca del agua
facts-new_sod = { everyday-sod }
facts-renters = Pregunta primero al dueño o a la asociación: algunos piden aviso, letreros o su propio servicio. Pregunta qué se aplicó este año; cuenta para el máximo de la etiqueta. Con un césped anotado escribo las palabras: texto para el casero
facts-ingredient = El nombre grande del frente no dice nada. Busca abajo, al frente, «Active ingredient»: un nombre y un porcentaje en letra chica, como prodiamine 0.38%. Dime esos dos. Muchas bolsas de nombre distinto traen lo mismo.
facts-double = No. La dosis de la etiqueta es lo más para una aplicación, y todo cuenta para el máximo del año. De más puede ralear o amarillear el césped, y es contra la ley. Para que quede parejo, da dos pasadas a media dosis.
facts-too_much = { beforehand-too_much }
# Lo que hace el bot.
facts-will_tell = No hace falta preguntar: te aviso cuando el suelo se calienta, cuando es hora y antes del último día. ¿Se te pasó uno? Pregunta cualquier día: ¿ya es hora?
facts-wear = Lo que diga tu etiqueta. Al menos manga larga, pantalón largo, calcetines y zapatos, y guantes para verter. Ni niños ni descalzos. Lávate las manos antes de comer, y la ropa aparte.
facts-licence = En tu propio césped casi nunca, con lo que se vende a cualquiera. Si te pagan por tratar otros, casi siempre. Cambia por estado y ciudad, y no puedo buscarlo: pregunta en la oficina de pesticidas de tu estado. Tu etiqueta es la ley en todas partes.
facts-pavement = Bárrelo enseguida, de vuelta al césped. La lluvia lo lleva a los desagües, y los gránulos mojados pueden manchar; la pendimetalina, de naranja. No lo laves con manguera.
facts-why_size = La etiqueta da libras por cada 1,000 pies cuadrados. Con las medidas calculo cuánto pesar y cuido el máximo de la etiqueta. ¿Sin cinta? Mide a pasos: di caminar. Cuenta solo césped. Si la medida falla, cada cantidad falla igual.
facts-away = ¿Te vas? Si la ventana abre antes, aplica y riega ese mismo día. Si no, pide a alguien las dos cosas, o aplica al volver: tarde todavía frena lo que brota después. Para un aviso, di: recuérdame en 7 días
facts-why_place =
    La maleza se guía por el suelo, y cada pueblo tiene el suyo. Con el lugar sé su suelo, sus años pasados y su pronóstico. Basta la ciudad o el código postal. Los servicios del clima lo reciben a unos 800 m, y nada de ti.
facts-why_label =
    El ingrediente y su porcentaje dicen cuánto dura y qué puede dañar. La dosis y el máximo dicen cuánto se puede echar. Nunca adivino una dosis: por eso pregunto lo que dice tu etiqueta.
facts-why_grass =
    Hay ingredientes que dañan algunos céspedes, y la etiqueta nombra los que permite. Si sé cuál es el tuyo, dejo fuera lo que lo dañe. ¿No sabes? Dilo así: no sé
facts-garden =
    Nada de esto en verduras, hierbas, fruta ni camas vacías. Donde cultivas comida no va ningún producto de césped, salvo que su etiqueta nombre ese cultivo. Ahí frena la semilla por meses. Flores, arbustos y árboles: solo los que nombre tu etiqueta.
facts-poa =
    La poa anual (poa annua) brota a fines de verano y en otoño, cuando el suelo baja de unos 70 °F. Es pequeña y verde claro, y en primavera saca espigas pálidas. El preemergente va antes de que brote. Para planearlo, di: aplicación de fin de verano
facts-too_many =
    Escribo cuando hay algo que hacer: unas diez veces por temporada, contando el riego. Puedo esperar, descansar o callar. Di: silencio de 8 pm a 8 am, más tarde, esta temporada no, o: basta
facts-crew =
    Bien: llevo muchas propiedades, cada una con su lugar, tamaños, producto y registro. Mándalas en una lista: /yards template la da. O una por una: nueva propiedad en Lincoln, NE. /today planea la ruta y /crew deja confirmar a otros. Tratar céspedes por pago exige licencia en casi todos los estados.
facts-units = { help-units_which }
facts-measure_triangle = Un terreno en pico o cuña es un triángulo: su lado más ancho, y de ahí derecho hasta la punta. Di: atrás triángulo 60x40 ft. ¿Sin punta? Los dos lados parejos, y cuánto los separa: atrás trapecio 60 ft, 20 ft, 40 ft de fondo. O camina sus esquinas: caminar atrás
facts-measure_round = Mide derecho por el centro. Di: atrás círculo 40 ft de diámetro. Si es más largo que ancho: atrás óvalo 60x40 ft. Media luna: atrás medio círculo radio 20 ft
facts-measure_ell = Córtalo en dos rectángulos y súmalos: atrás 60x40 más 20x15 ft. O quita la esquina que falta: atrás 80x60 menos 20x15 ft
facts-measure_odd = Córtalo en rectángulos y triángulos, y súmalos: atrás 40x30 más 20x15 más triángulo 20x10 ft. ¿Todo curvo? Camina la orilla con el teléfono: caminar atrás
facts-measure_no_tape = Mídelo a pasos: atrás 20 por 15 pasos. O camina sus esquinas con el teléfono: caminar atrás. ¿Sabes el tamaño del terreno? Quita lo que no es pasto: terreno 0.25 acre menos casa 40x50 ft
facts-measure_lookup = No puedo buscar tu terreno. El catastro o un mapa suelen decirlo: terreno 0.25 acre menos casa 40x50 ft. O mídelo a pasos: atrás 20 por 15 pasos. O camina sus esquinas con el teléfono: caminar atrás
facts-measure_zones = Para cambiar una, mándala otra vez: frente 60x40. Para agregar: franja 5x80 ft. O di: quita franja, renombra franja a banqueta, divide atrás a la mitad, junta lado y atrás
facts-measure_grass_only = Cuenta solo pasto: sin casa, entrada, terraza ni jardineras. Quita lo que esté adentro: atrás 60x40 menos terraza 12x15 ft
facts-measure_sizes = Largo y ancho de cada parte, solo pasto: frente 60x40, franja 5 por 80 ft. Una forma rara es una suma: atrás 40x30 más 20x15 ft. ¿Sin cinta? Mídelo a pasos: lado 20 por 15 pasos. O camina sus esquinas con el teléfono: caminar atrás
# Como arriba.
facts-fall = La aplicación de otoño es contra la poa anual y otras malezas de invierno. Va a fines de verano, antes de que el suelo baje de unos 70 °F. No la hagas donde siembres este otoño. Para planearla, di: aplicación de fin de verano
facts-mow_height = Pasto de clima frío: a 3 in (8 cm) o más alto, y nunca más de un tercio de una vez. La sombra frena la semilla de maleza. El de clima cálido se corta más bajo. Después de aplicar, espera a que esté incorporado y seco.
facts-wildlife = Lo dice tu etiqueta, en los peligros para el ambiente. Muchos dañan a los peces y a lo que vive en el agua. Que quede en el césped: lejos del agua, los desagües, las flores y los comederos. Barre lo que caiga en el pavimento.
facts-health = Eso no puedo juzgarlo. Tu etiqueta dice los peligros, qué ponerse y cuánto tiempo no entrar. Lleva la etiqueta a tu médico. ¿Se tragó, cayó en un ojo o en la piel? Dímelo ya.
facts-brown = El pasto ya crecido casi nunca lo resiente con la dosis de la etiqueta. De más, traslapado o derramado sí se nota en pasto ralo o joven. ¿Las manchas siguen tus pasadas? Si no, piensa en sequía, perros, gusanos o enfermedad. Tu oficina de extensión lo puede ver. ¿Pusiste de más? Dime dónde.
# 88 ft in 20 seconds is 3 mph (computed); a steady pace about that fast: common practice, no source.
facts-walk_speed = Parejo, y siempre al paso de tu prueba. Lo normal son unas 3 mph: 88 ft en 20 segundos. Más despacio cae más, más rápido menos. Dime el tuyo: 88 ft en 20 seg
# Common practice, no source.
facts-nozzle = Tu etiqueta puede decir boquilla y presión, y ella manda. En general: abanico plano, gotas gruesas, poca presión. Las gruesas vuelan menos. Otra boquilla u otra presión pide otra prueba: junté 48 oz
# Works in the soil, not through leaves: labels of the trade; common practice, no one source.
facts-surfactant = Solo lo que diga tu etiqueta. Trabaja en el suelo: pide agua después, no adherente ni jabón. Un colorante muestra por dónde pasaste, si la etiqueta lo permite.
# Rates are by weight or volume on labels; no source needed.
facts-eyeball = No: pésalo, o mídelo como dice la etiqueta. A ojo es pronto el doble o la mitad. Pesa lo de una zona, echa eso y para cuando se acabe: cantidades
# Common practice, no source.
facts-spreader_kind = Cualquiera que tire parejo, ya probada. La de voleo es rápida en lo abierto. La de caída no tira en macizos, pavimento ni agua. La de mano sirve en partes chicas; la mano sola no. Para probarla, di: paso a paso
# Common practice, no source.
facts-turns = Primero la orilla, luego lo de adentro. Camina antes de abrir, y cierra antes de parar o dar vuelta. De voleo: pasadas tan separadas como el ancho probado. De caída: encima las huellas de las ruedas.
facts-can_wait = Puede esperar. Sigo vigilando el suelo; las cantidades vienen cuando me lo digas.
# Common practice, no source.
facts-granules = Los dos trabajan igual una vez regados. Granulado: esparcidora, báscula y agua en pocos días. Rociado: bomba, paso parejo y agua cuanto antes; con práctica queda más parejo. Compra el que puedas echar parejo. Lo demás lo decide la etiqueta.
# Two passes at half rate, crosswise: common practice of calibration guides, no one source.
facts-two_passes = Dos pasadas a media dosis, la segunda cruzando la primera, emparejan rayas y huecos. Una sola a dosis completa también sirve, si ya probaste la esparcidora así. El total es el mismo: nada se duplica.
# How long it holds rises with the rate: labels of the trade, no one source.
facts-which_rate = Solo sé la dosis que me diste. Donde la etiqueta da un rango, la baja dura menos y la alta más. Las dos cuentan para el máximo del año. Toma el renglón de tu césped y mándalo: 3.2 lb por 1000 sq ft
# Weighing by difference: common practice, no source.
facts-bathroom_scale = Sirve para cantidades grandes. Pesa varias zonas juntas, con la cubeta en brazos: primero vacía, luego con producto. Dime su paso más fino: mi báscula marca 0.5 lb. Las zonas chicas piden báscula de cocina.
# Como en inglés.
facts-odds = «Las malezas ganan 1 año de 5» vale para el último día. En uno de cinco años así brotan las primeras antes de la barrera. Más temprano es mejor. Nunca es seguro: busca plántulas.
facts-window = La ventana son los días para aplicar. Abre unas semanas antes del primer garranchuelo. Su último día a tiempo es el límite: después la barrera llega tarde para las primeras.
facts-zone = Una zona es una parte del césped que mides y tratas por separado: frente, atrás, una franja. Con una basta: frente 60x40
facts-rain_after = Una lluvia ligera después es buena: cuenta como riego. No antes de una lluvia fuerte: una pulgada en 48 horas puede lavarlo, la mitad en pendiente y arcilla. Entonces espera a que pase.
facts-wet_grass = Los gránulos quieren pasto seco, para que caigan al suelo. Solo si la etiqueta pide la hoja mojada es al revés. Rocía cuando se vaya el rocío. Tu etiqueta manda.
