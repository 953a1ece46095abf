terminal-welcome = Habla como en un teléfono. /wait 3 days mueve el reloj, /quit sale. Un botón se toca escribiendo lo que dice.
terminal-no_button = En el último mensaje con botones, ninguno dice o hace «{ $wanted }».
terminal-no_file = No existe el archivo { $path }.
terminal-clock_fixed = Aquí no se puede mover el reloj: el tiempo es el real. Se puede con --climate simulated o recorded:PATH.
terminal-no_duration = No pude leer cuánto esperar en «{ $said }». Semanas, días, horas o minutos, hasta { $days } días, así: P3D, PT6H, 3 days
terminal-no_json = Esa línea no es JSON. Un objeto por línea, como { "{" }"say": "/soil"{ "}" }
terminal-no_request = Uno de estos por línea: { "{" }"say": "..."{ "}" }, { "{" }"tap": "..."{ "}" }, { "{" }"location": [lat, lon]{ "}" }, { "{" }"photo": "path"{ "}" }, { "{" }"file": "path"{ "}" }, { "{" }"wait": "P3D"{ "}" }
terminal-no_place = Un lugar es [latitud, longitud] en grados: de -90 a 90 y de -180 a 180.
