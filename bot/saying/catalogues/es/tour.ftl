tour-opening = Una temporada que corre sola. Cobb e Hija, dos personas con una esparcidora en el condado de Quillet, son inventadas, igual que su condado y su clima; lo que les contesta es de verdad.
tour-register = Parada { $number } de { $count }: queda anotada la propiedad.
tour-measure = Parada { $number } de { $count }: se miden sus zonas.
tour-product = Parada { $number } de { $count }: se anota el producto como lo dice la etiqueta.
tour-soil_warming = Parada { $number } de { $count }: el suelo se calienta, hora de comprar.
tour-window_open = Parada { $number } de { $count }: se abre la ventana.
tour-amounts = Parada { $number } de { $count }: cuánto lleva cada zona.
tour-applied = Parada { $number } de { $count }: ya está aplicado.
tour-watered_in = Parada { $number } de { $count }: ya está incorporado.
tour-second_half_due = Parada { $number } de { $count }: toca la segunda aplicación.
tour-days_pass = { $days ->
        [one] (pasa un día)
       *[other] (pasan { SPAN($days) })
    }
tour-closing = Las { $count } paradas, hechas: de { $first } a { $last }.
tour-missed = El recorrido no llegó a su parada «{ $stop }»: { $reason }
