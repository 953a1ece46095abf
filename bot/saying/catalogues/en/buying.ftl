buying-head_round = To buy for { $yards }, application { $number } of { $rounds }: { $need } for { $area }.
buying-head_year = To buy for { $yards }, { $count ->
        [one] this year
       *[other] this year's { $count } applications
    }: { $need }.
buying-each = { $yard }: { $amount }
buying-shelf = You have { $amount }.
buying-shelf_does = Your { $amount } is enough. Nothing to buy. You will have { $left } left.
buying-best = Buy { $packs }{ $cost }. Left over: { $left }.
buying-cost = , { $money }
buying-pack = { $count } x { $size }
buying-or = Or { $packs }{ $cost }. Left over: { $left }.
buying-goal_cost = Sorted by lowest cost, then by least left over.
buying-goal_left = Sorted by least left over.
buying-goal_no_price = Sorted by least left over. Tell me prices and I sort by cost: bags 25 lb $38, 40 lb $55
buying-next = Later applications need { $amount } more than what is left over.
buying-next_covered = What is left over covers the later applications.
buying-label_stops = { $yard }: applications your label still allows on { $zones } this year: { $count }.
buying-not_before = Do not apply before { $day }. Your label wants that much time between applications.
buying-ask_packs =
    { $form ->
        [spray] What sizes is it sold in? For example: bottles 16 fl oz $38, 64 fl oz $120
       *[other] What sizes is it sold in? For example: bags 25 lb $38, 40 lb $55
    }
buying-law = Check the label before you pay: ingredient, strength, your grass, and that you may use it where you live. Store it dry. Don't use old, caked or unlabeled bags.
buying-season_head =
    Shopping list for the season, { $count ->
        [one] one yard:
       *[other] { $count } yards:
    }
buying-season_line =
    { $product }: { $need } for { $count ->
        [one] one yard.
       *[other] { $count } yards.
    }
buying-season_without = No product yet: { LIST($names, style: "unit") }.
buying-season_nothing = Nothing to buy this season: no yard with a product has an application left.
buying-nothing = Nothing to buy for { $yard }: no zone can be treated now, or the label maximum for the year is used up.
buying-button_buy = What to buy
buying-button_year = Whole year
buying-button_round = This application
buying-button_all = All yards
buying-button_one = Only { $yard }
buying-button_left = Least left over
buying-button_cost = Least cost
buying-button_compare = Compare products
buying-compare = Cost per 1,000 sq ft at each label rate:
    { $lines }
    Cheapest is not always best. Check how long each lasts and whether your grass tolerates it.
buying-compare_metric = Cost per 100 m² at each label rate:
    { $lines }
    Cheapest is not always best. Check how long each lasts and whether your grass tolerates it.
buying-compare_line = { $money }: { $product }, by the { $size } pack
buying-compare_none = I can compare prices once I know the bag sizes. Enter each product with /product and then: bags 25 lb $38
