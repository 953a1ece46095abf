many-lawn = lawn
many-head =
    { $count ->
        [one] One yard read
       *[other] { $count } yards read
    }: { $new } new, { $changed } changed, { $same } as they are.
many-line = { $yard }: { LIST($facts, style: "comma") }
many-line_changed = { $yard }, changed: { LIST($facts, style: "comma") }
many-area_of = { $area } ({ LIST($names, style: "unit") })
many-no_sizes = no sizes yet
many-rough = Yards without coordinates stand at the middle of their town or ZIP area.
many-strangers = Columns I don't use: { $names }.
many-button_add =
    { $count ->
        [one] Add 1 yard
       *[other] Add { $count } yards
    }
many-button_change =
    { $count ->
        [one] Change 1 yard
       *[other] Change { $count } yards
    }
many-button_not = Leave it
many-dropped = Left. Nothing was changed.
many-nothing = Nothing to change: your yards are as in the list.
many-added =
    { $count ->
        [one] { $yard } added
       *[other] { $count } yards added
    }{ $changed ->
        [0] .
       *[other] , { $changed } changed.
    }
many-changed =
    { $count ->
        [one] 1 yard changed.
       *[other] { $count } yards changed.
    }
many-took_product = Product as at your other yards: { $product }. A different one there? Say it at that yard.
many-took_water = Watering days as at your other yards: { $days }.
many-took_grass = Grass as at your other yards: { $grass }. Where it differs, name the grass there.
many-next_product = What will you apply? Say what the label says; one button then gives it to every yard: /product
many-next_sizes = Next, the sizes that are missing: go to the yard and say front 60x40, or send the list again with them.
many-next = All of them are ready. I look at their soil every morning.
many-button_today = Route
many-button_product =
    { $count ->
        [one] Use it at my other yard too
       *[other] Use it at my other { $count } yards too
    }
many-product_taken =
    { $product }: now for { $count ->
        [one] one more yard.
       *[other] { $count } more yards.
    }
many-no_table = I could not read a list of yards there. I take CSV or XLSX, up to 1 MB and 400 rows. Headings: name, customer, address, town, zones and so on. Or paste lines like:
    Birch St 12, Wahoo NE, front 60x40, back 30x20
    /yards template gives you a file to fill in.
many-template_how = A list to fill in: a row a yard. Keep the headings, leave empty what you don't know, then send it back. The two rows in it are invented.
many-template =
    name,customer,address,town,state,zip,latitude,longitude,zones,grass,product
    Birch St 12,A. Customer,12 Birch St,Wahoo,NE,68066,,,"front 60x40, back 30x20",tall fescue,
    Mill Lane 4,,,,,,39.18,-96.57,"lawn 5,200 sq ft",bermuda,
many-trouble_name = Row { $row }: it has no name, address or customer. Left out.
many-trouble_double = Row { $row }, { $yard }: the same as row { $said }. Left out.
many-trouble_long = Row { $row }, { $said }: that name is too long; up to 40 letters, please. Left out.
many-trouble_no_place = Row { $row }, { $yard }: no town, ZIP code or coordinates. Left out.
many-trouble_place = Row { $row }, { $yard }: I don't know the place "{ $said }". Left out; write town and state, or a ZIP code.
many-trouble_which_town = Row { $row }, { $yard }: there is more than one { $said }. Left out; add the state.
many-trouble_zones = Row { $row }, { $yard }: I could not read the size "{ $said }". Write front 60x40, or front 2,400 sq ft.
many-trouble_area = Row { $row }, { $yard }: I could not read the area "{ $said }". Write 5,200 or 0.25 acre.
many-trouble_coordinates = Row { $row }, { $yard }: I could not read the coordinates "{ $said }". Write 39.18, -96.57.
many-trouble_grass = Row { $row }, { $yard }: I don't know the grass "{ $said }". Write tall fescue, for example.
many-trouble_product = Row { $row }, { $yard }: of the product "{ $said }" something is missing. Say it by itself afterwards: /product
many-button_same =
    { $count ->
        [one] The same at my other yard
       *[other] The same at my other { $count } yards
    }
many-same_taken =
    As at { $yard }, now at { $count ->
        [one] one more yard.
       *[other] { $count } more yards.
    } Where it differs, say it at that yard.
