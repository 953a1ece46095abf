bounds-name = Ese nombre es muy largo: hasta { $most } letras, por favor. Por ejemplo: Birch St 12
bounds-zones = Un terreno tiene aquí hasta { $most } zonas, y nada de esto se guardó. Diga las iguales como una: franjas de frente 5 por 80 ft
bounds-yards = Este chat tiene { $most } terrenos, el máximo. Deje antes uno: deja Birch St
bounds-places = Nombró { $most } lugares nuevos en un día, el máximo por persona. Nombre el próximo mañana.
