machines-spreader =
    { $head }
    { $lines }
    Compuerta baja. Vacía una pasada en un sentido y la segunda en cruz.
    Las dos pasadas juntas son la dosis de la etiqueta; no la dividas otra vez.
machines-spreader_head = { $yard }, aplicación { $number } de { $rounds }.
machines-spreader_finished = { $yard }: no toca nada más. Una aplicación llevó esto.
machines-button_even_done = Lo que llevó una
machines-spreader_how =
    1. Pesa una pasada de una zona. Pon baja la compuerta.
    2. Camina en un sentido hasta vaciar la tolva.
    3. Pesa la segunda pasada y camina en cruz.
    Cada pasada es de { $half }. Usa una báscula que marque { $step } o menos.
    Para probar la compuerta, dime: 4.2 lb en 8 x 150 ft, ajuste 5
machines-button_how = Paso a paso
machines-zone = { $zone }: { $half } por pasada, 2 pasadas
machines-zone_strips = { $zone }: { $half } por pasada; la primera en { $one }, la segunda en { $other }
machines-zone_narrow = { $zone }: { $half } por pasada, las dos a lo largo: { $one } de ida y { $one } de vuelta
machines-too_narrow = { LIST($zones, style: "unit") }: más angosto que tu ancho de { $swath }. Usa el deflector lateral o una esparcidora de caída, y barre lo que caiga al lado.
machines-strips = { $count ->
        [one] 1 franja
       *[other] { $count } franjas
    }
machines-strips_note = Las franjas van separadas { $swath } como máximo.
machines-cups_note = Una taza rasa pesa { $cup }: { $zone } lleva { $cups } tazas rasas por pasada.
machines-more_zones = ... y { $count } más: /amounts
machines-not_spread = { $product } se mezcla con agua. Para eso di: pulverizador
machines-no_sprayer = { $product } se esparce seco. Para eso di: esparcidora
machines-button_pans = Bandejas
machines-button_cups = Tazas
machines-button_tries = Mis pruebas
machines-button_undo = Deshacer
machines-run = Eso da { $achieved }.
machines-run_over = Pasa del máximo de tu etiqueta: cierra bastante la compuerta antes de la siguiente prueba.
machines-run_no_product = Dime el producto (/product) y lo comparo con la etiqueta.
machines-target_whole = Comparado con la dosis entera en un sentido, { $target }.
machines-target_half = Comparado con media dosis, uno de dos sentidos: { $target }.
machines-on_target = Con menos de 5 % de diferencia: déjala así.
machines-low = { $percent } % menos: abre un poco la compuerta y pesa otra vez.
machines-high = { $percent } % más: cierra un poco la compuerta y pesa otra vez.
machines-for_two = Para dos sentidos ajústala a la mitad: { $half } por pasada.
machines-next_between = Según tus pruebas, sigue con el ajuste { $setting }.
machines-next_beyond = Queda fuera de tus pruebas, así que es un tanteo: pon el ajuste { $setting } y pesa.
machines-next_keep = Deja el ajuste { $setting }.
machines-disagree = El ajuste { $wide } dio menos que el { $narrow }: pesa ese otra vez.
machines-say_setting = Dime también el ajuste y te sugiero el siguiente: ..., ajuste 5
machines-tries_none = Todavía no hay pruebas pesadas de este producto, y ningún ajuste sirve para toda esparcidora. Abre poco, pesa lo que gasta una prueba corta y dime: 4.2 lb en 8 x 150 ft, ajuste 5
machines-tries =
    Tus pruebas de este producto:
    { $lines }
    { $next }
machines-try_line = ajuste { $setting }: { $rate }
machines-run_needs = ¿Qué ancho tira tu esparcidora? Por ejemplo: ancho 8 ft
machines-pans_ask =
    Bandejas: pon cajas cada 1 ft en fila, atravesadas en tu camino, sobre el césped. Pasa por el centro, siempre en el mismo sentido, 3 veces. Luego pesa cada una, de izquierda a derecha:
    bandejas cada 1 ft: 0.4 0.9 1.6 2.0 2.1 2.0 1.5 0.8 0.3 g
machines-pans = Ancho útil { $swath }: la mitad de lo del centro cae { $left } a la izquierda y { $right } a la derecha. Es la regla de la mitad del centro (Ohio State Bulletin 817). Anotado: separa las pasadas { $swath }.
machines-pans_skew = El patrón se carga a un lado; revisa la máquina y su deflector.
machines-pans_rate = Con esa separación echa { $rate }.
machines-pans_narrow = Las bandejas de las orillas todavía recibieron más de la mitad del centro. Pon bandejas más afuera y repite.
machines-pans_few = Necesito tres bandejas o más, la de en medio en tu camino: un número impar, a la misma distancia.
machines-pan_mean = { $mean } por bandeja de { $area } son { $rate }.
machines-swath = Ancho { $swath }, anotado. { $area } dan un recorrido de { $length }.
machines-course = Un ancho de { $swath } cubre { $area } en { $length }.
machines-cup = Una taza rasa de { $product } pesa { $cup }; lo anoto solo para este producto.
machines-amount_converted = { $amount } son { $other }.
machines-cup_first = Primero pesa una taza rasa de este producto; cada producto pesa distinto. Luego dime: la taza pesa 9.2 oz
machines-no_spoons = Nada de cucharaditas con un producto seco: una cuchara puede pasarse la mitad. Pésalo, con pasos de { $step } o más finos.
machines-scale_fine = Anotado: tu báscula marca { $step }. Sirve para todas las zonas, y redondeo hacia abajo a eso.
machines-scale_coarse = Anotado: tu báscula marca { $step }. { $zone } ({ $amount }) pide { $needed } o menos. Pesa dos zonas juntas o usa una más fina.
machines-ran_out_which = ¿En qué pasada? Con dos pasadas cruzadas, cada una lleva la mitad del producto.
machines-button_pass_first = Primera pasada
machines-button_pass_second = Segunda pasada
machines-button_pass_one = Lo hice en una pasada
machines-ran_out_first = Lo que cubriste recibió { $achieved } en la primera pasada. En { $zone } faltan { $left }: pesa { $needed } para esa parte, la mitad por pasada, con la compuerta un poco más cerrada.
machines-ran_out_rest = La parte que cubriste lleva { $rest } más, en cruz.
machines-ran_out_full = La parte que cubriste ya tiene su dosis entera: ahí no hagas la segunda pasada.
machines-ran_out_second = Con las dos pasadas, lo que cubriste recibió { $achieved }. En { $zone } les falta la segunda pasada a { $left }: pesa { $needed } para esa parte, con la compuerta un poco más cerrada.
machines-ran_out_one = Lo que cubriste recibió { $achieved }. En { $zone } faltan { $left }: pesa { $needed } para esa parte, con la compuerta un poco más cerrada.
machines-ran_out_left = En { $zone } faltan { $left }: pesa { $needed } para esa parte, con la compuerta más cerrada.
machines-ran_out_thick = Donde quedó cargado, déjalo; no pases otra vez.
machines-ran_out_over = Esa parte recibió más de lo que permite tu etiqueta. Trata solo lo que falta y no apliques más ahí en el resto del período de la etiqueta.
machines-ran_out_used_up = Con eso tu etiqueta no deja otra aplicación entera en la parte que cubriste: déjala fuera de la siguiente.
machines-ran_out_ask = ¿Cuánto alcanzaste a cubrir? Así: se acabó a la mitad del frente, o: se acabó después de 1,200 sq ft del frente
machines-ran_out_ask_used = Salieron { $used }. ¿Cuánto alcanzaste a cubrir con eso? Así: la mitad del frente, o: 1,200 sq ft
machines-gap_ask = ¿Qué parte no recibió nada? Así: faltó una raya 2 ft x 60 ft, o: se acabó a la mitad del frente
machines-set_ask = Guardo qué ancho tira, lo que gastó una prueba y lo que cabe en el tanque. Así: ancho 8 ft. O: 4.2 lb en 8 x 150 ft, ajuste 5. O: tanque 4 gal
machines-missed = Una raya de { $size } lleva { $amount }. Pásala una vez, a lo largo.
machines-sprayer =
    { $yard }: { $volume }
    { $lines }
machines-sprayer_no_volume = Primero mide tu volumen de aspersión. Con 20 in entre boquillas, camina { $course } (1/128 acre) con agua, a tu paso de siempre. Junta lo de una boquilla en ese tiempo y dime: junté 48 oz. O: 0.4 gpm, 3 mph, boquillas a 20 in
machines-sprayer_no_volume_metric = Primero mide tu volumen de aspersión. Camina 10 m con agua, a tu paso de siempre. Junta lo que dan en ese tiempo las boquillas de 1 m de ancho y dime: junté 0.5 L en 10 m x 1 m. O: 450 L/ha
machines-sprayer_volume_metric = { $l_ha } L/ha, { $per_100 } L por 100 m².
machines-sprayer_volume = { $gpa } galones por acre, { $per_1000 } por 1,000 sq ft.
machines-sprayer_no_tank = ¿De cuánto es el tanque? Así: tanque 4 gal
machines-tank_kept = Tanque de { $tank }, anotado.
machines-volume_kept = { UNITS() ->
    [metric] { $l_ha } L/ha = { $per_100 } L por 100 m². Anotado; deja igual la presión, la boquilla y el paso.
   *[us] { $gpa } gal por acre = { $per_1000 } gal por 1,000 sq ft. Anotado; deja igual la presión, la boquilla y el paso.
}
machines-volume_128 = Lo juntado en 1/128 acre: las onzas líquidas son galones por acre.
machines-covers = { UNITS() ->
    [metric] Un tanque lleno, { $tank }, cubre { $area }.
   *[us] Un tanque lleno, { $tank }, cubre { $area } ({ $acres } acre).
}
machines-loads = { $area } llevan { $loads } cargas. Cada { $tank } llenos cubren { $covers } y llevan { $product }.
machines-loads_last = Última carga: { $carrier } de agua para { $area }, con { $product }, para que no sobre nada.
machines-loads_one = Una carga: { $carrier } de agua para { $area }, con { $product }.
machines-loads_one_pass = Eso es para UNA pasada pareja. Para dos pasadas cruzadas, pon medio producto en cada tanque y pasa dos veces.
machines-loads_caution = Primero la mitad del agua, luego el producto, luego el resto. Enjuaga sobre el césped, nunca en un desagüe.
machines-per_gallon = { $product } por galón.
machines-per_10_l = { $product } por cada 10 L.
machines-per_gallon_spoons = { $product } por galón, unas { $spoons } cucharadas.
machines-course_128 = Una boquilla con { $spacing } de ancho cubre 1/128 acre en { $length }. Las onzas juntadas en ese tiempo son galones por acre.
machines-plot_128 = 1/128 acre son { $area }, un cuadrado de { $side }.
machines-speed = { UNITS() ->
    [metric] { $kmh } km/h ({ $mph } mph).
   *[us] { $mph } mph.
}
machines-nitrogen = { $amount } de { $analysis } por 1,000 sq ft dan { $n } lb de nitrógeno. Está bien ajustar entre { $low } y { $high } lb; en cada uno de dos sentidos, { $half }.
machines-nitrogen_unit = ¿Nitrógeno para qué área? Así: 20-5-10 para 1 lb N por 1000 sq ft
machines-converted = { $rate } son { $other }.
machines-reverse = { $rate } de un producto al { $percent } % son { $ai } lb de ingrediente activo por acre.
machines-water = { $depth } de agua en { $area } son { $water }.
machines-minutes = A { $rate }, el aspersor tarda { $minutes } minutos en dar { $depth }.
machines-missed_length = ¿Cuánto medía de largo esa raya de { $width }? Así: faltó una raya 4 ft x 60 ft en atrás
machines-missed_recorded = El registro #{ $number } la cuenta como hecha. ¿Saco de él esa parte de { $zone }, para que quede por hacer?
machines-missed_where = El registro #{ $number } la cuenta como hecha. ¿En qué zona fue? La saco de ahí, para que quede por hacer.
machines-left_out = Corregí el registro #{ $number }: en { $zone } faltan { $left }. Cuando estén, di: apliqué el resto de { $zone }
machines-button_leave_out = Sacar esa parte
machines-button_record = Registrarlo en { $zone }
machines-button_done = Ya está todo: { $zone }
