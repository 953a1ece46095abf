troubles-missing = Hasta ahora no hay datos del suelo de este lugar. Guíate por un termómetro a 2 in hasta que los tenga.
troubles-old = { $days ->
    [one] CUIDADO: el último día medido es de hace un día.
   *[other] CUIDADO: el último día medido es de hace { $days } días.
}
troubles-out = El servicio del tiempo no contesta desde { DAY($day, style: "on") }; lo que digo se basa en lo que ya tenía.
troubles-back = Volvió el servicio del tiempo; no contestaba desde { DAY($day, style: "on") }. Lo que digo ahora es fresco otra vez.
troubles-disagrees_warmer = Dos fuentes difieren aquí en { $gap }; la mía es la más cálida. Compruébalo con un termómetro a 2 in.
troubles-disagrees_cooler = Dos fuentes difieren aquí en { $gap }; la mía es la más fría. Compruébalo con un termómetro a 2 in.
