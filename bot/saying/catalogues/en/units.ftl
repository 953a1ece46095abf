# Units as people read them on labels, scales and cups. $text is the number as written, $n the number itself.
units-twice = { $first } ({ $second })
units-range = { $low } to { $high }
units-rate = { $amount } per { $per }
units-rate_of_ai = { $amount } per { $per } of active ingredient
units-lb = { $text } lb
units-oz = { $text } oz
units-g = { $text } g
units-kg = { $text } kg
units-fl_oz = { $text } fl oz
units-pt = { $text } pt
units-qt = { $text } qt
units-gal = { $text } gal
units-ml = { $text } mL
units-l = { $text } L
units-sq_ft = { $text } sq ft
units-acre = { $n ->
        [1] { $text } acre
       *[other] { $text } acres
    }
units-sq_m = { $text } m²
units-ha = { $text } ha
units-degrees_f = { $text } °F
units-degrees_c = { $text } °C
units-in = { $text } in
units-ft = { $text } ft
units-mm = { $text } mm
units-m = { $text } m
units-mph = { $text } mph
units-m_s = { $text } m/s
units-yd = { $text } yd
units-cm = { $text } cm
units-sq_yd = { $text } sq yd
units-per_1000_sq_ft = 1,000 sq ft
units-per_acre = acre
units-per_ha = ha
units-per_sq_m = m²
units-per_100_sq_m = 100 m²
units-per_sq_ft = sq ft
units-percent = { $text }%
