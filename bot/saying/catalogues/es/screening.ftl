screening-intro = Antes de comprar, { $count } preguntas; sáltate las que quieras.
screening-seeding = ¿Vas a sembrar alguna parte de { $yard } esta primavera?
screening-thin = ¿El césped está ralo, con casi la mitad pelada?
screening-rooted = ¿Todo tiene raíz firme: sin tepes, esquejes ni plántulas recientes?
screening-history = ¿Has tenido aquí malezas anuales de hoja angosta, como el garranchuelo?
screening-weed = ¿Qué maleza es? Toca una o escríbela.
screening-water = ¿Se puede regar { $yard }, y con qué?
screening-ban = ¿Hay ahora prohibición o límite de riego?
screening-others = ¿Alguien más trata este césped: un servicio, el casero, la familia? Su producto también cuenta.
screening-button_start = ¿Lo necesito?
screening-button_yes = Sí
screening-button_no = No
screening-button_skip = Saltar
screening-button_skip_all = Saltar las demás
screening-button_crabgrass = Garranchuelo
screening-button_foxtail = Cola de zorro
screening-button_goosegrass = Pata de ganso
screening-button_annual_bluegrass = Poa anual
screening-button_nutsedge = Coquillo
screening-button_other = Otra
screening-button_unsure = No sé
screening-button_system = Sistema de riego
screening-button_hose = Manguera
screening-button_none = Sin agua
screening-button_no_ban = Sin límite
screening-button_ban = Sí, prohibido
screening-verdict = { $yard }: gracias.
screening-fine = Por lo que dices, aquí conviene un preemergente.
screening-no_seeding = Si siembras esta primavera, no apliques donde siembres: también detiene la semilla del césped. Mejor siembra, fertiliza y corta primero, y el preemergente el año que entra. O siduron o mesotriona al sembrar, si tu etiqueta y tu césped lo permiten. Márcalo: { $zone } es semilla nueva
screening-no_thin = Césped ralo: primero semilla o tepes. El suelo pelado deja pasar malezas pongas lo que pongas, y el producto detendría tu semilla.
screening-no_rooted = Tepes, esquejes o plántulas recientes: espera a que tengan raíz, 3 o 4 cortes, y a que tu etiqueta lo permita. Márcalo: { $zone } es tepe nuevo
screening-no_history = Sin malezas anuales antes: un césped tupido, cortado a 3 in o más, quizá no lo necesita. Mejor revisa en junio las orillas peladas y ahórrate el dinero.
screening-weed_goosegrass = La pata de ganso sale de 2 a 6 semanas después del garranchuelo. Le va bien una segunda aplicación o un producto que dure más.
screening-weed_annual_bluegrass = La poa anual brota desde fines de verano: una aplicación de primavera le hace poco. Aplica a fines de verano, antes de que el suelo baje de 70 °F.
screening-weed_nutsedge = El coquillo sale de tubérculos: estos productos no lo detienen. Pide en tu oficina de extensión un producto para coquillo.
screening-weed_perennial = { $weed }: es perenne o de hoja ancha, y un preemergente le hace poco. Arráncala o trata las manchas; pregunta en tu oficina de extensión.
screening-weed_other = { $weed }: pregunta primero en tu oficina de extensión. Casi todos estos preemergentes detienen solo gramíneas anuales.
screening-weed_unsure = Si no sabes cuál es, lleva una planta o foto a tu oficina de extensión antes de comprar.
screening-water_none = Sin riego, solo la lluvia lo incorpora. Escojo días con lluvia por venir; el granulado aguanta la espera mejor que lo rociado.
screening-banned = Con prohibición de riego solo cuenta la lluvia; busco días con media pulgada por venir.
screening-others_yes = Pregúntales qué, cuánto y cuándo, y dime: el servicio aplicó prodiamina 0.38% granulado, 3.2 lb por 1000, el 3 de marzo
screening-water_days = ¿Solo ciertos días de riego? Dime: días de riego lunes y jueves
screening-next_grass = El césped de cada zona, que dice qué se puede aplicar ahí, di: mi césped
screening-another_weed = Otras malezas
screening-next = Sigue, di: qué compro
screening-skipped = Las salté. Di «preguntas» para volver a ellas.
screening-again = Lo que dijiste de { $yard }: { $answers }
screening-whose = { $yard }: ¿de quién es? Tratar céspedes ajenos por pago exige licencia en casi todos los estados de EE. UU.
screening-button_own = Mío
screening-button_friend = De la familia, sin pago
screening-button_pay = De un cliente, con pago
screening-own = Anotado: { $yard } es tuyo.
screening-friend = Anotado: { $yard } es de familia o amistades, sin pago. Pregunta en tu estado si eso también exige licencia, y ten el permiso del dueño.
screening-pay =
    Anotado: { $yard } es de un cliente. ¿Tu número de licencia y hasta cuándo vale? Así: licencia PA-12345 hasta el 31 de diciembre de 2027
    No la puedo verificar, y no detiene nada. Letreros y avisos: tus reglas locales.
screening-licence = Licencia { $number }, vale hasta { DAY($day, style: "on") }. Anotado; va con tus registros.
screening-licence_no_day = ¿Hasta cuándo vale la licencia { $number }? Así: licencia { $number } hasta el 31 de diciembre de 2027
screening-licence_past = La licencia { $number } venció { DAY($day, style: "on") }. Anotado; renuévala antes de tratar por pago.
screening-licence_missing = Por pago necesitas licencia en casi todos los estados de EE. UU. Dime la tuya: licencia PA-12345 hasta el 31 de diciembre de 2027
screening-licence_expired = Tu licencia { $number } venció { DAY($day, style: "on") }.
screening-local_rules =
    Tus reglas locales van antes que todo lo que yo diga, y no las puedo consultar:
    - Hay provincias, condados, ciudades, escuelas y guarderías que limitan o prohíben estos productos. Fuera de EE. UU. usa solo una etiqueta registrada ahí.
    - Por pago: licencia, letreros, aviso de 24 a 72 h; en algunos lugares, listas de vecinos sensibles. Si se renta, hace falta el permiso del dueño.
    - Fertilizante en la bolsa: fechas prohibidas y límites al fósforo.
    El departamento de agricultura de tu estado o tu oficina de extensión lo saben. Lo que digan manda.
screening-yes = sí
screening-no = no
screening-skip = saltada
