bounds-name = Ese nombre es muy largo: hasta { $most } letras. Por ejemplo: Birch St 12
bounds-zones = Una propiedad tiene aquí hasta { $most } zonas, y nada de esto se guardó. Di las iguales como una: frente 5 por 80 ft
bounds-yards = Este chat tiene { $most } propiedades, el máximo. Deja una antes: dejar Birch St
bounds-places = Nombraste { $most } lugares nuevos en un día, el máximo por persona. Di el próximo mañana.
bounds-figures = Dilo en partes: leo hasta { $most } cifras a la vez, y no se tomó nada de esto. Unas pocas zonas por mensaje se leen bien: frente 60x40, atrás 50x30
