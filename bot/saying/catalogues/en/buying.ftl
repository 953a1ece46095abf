buying-head_round = To buy for { $yards }, round { $number } of { $rounds }: { $need } for { $area }.
buying-head_year = To buy for { $yards }, this year's { $count } rounds: { $need }.
buying-head_year_one = To buy for { $yards }, this year: { $need }.
buying-each = { $yard }: { $amount }
buying-shelf = On the shelf { $amount }.
buying-shelf_does = The shelf's { $amount } will do. Nothing to buy; { $left } are left then.
buying-best = Buy { $packs }{ $cost }. Left over { $left }.
buying-cost = , { $money }
buying-pack = { $count } x { $size }
buying-or = Or { $packs }{ $cost }, { $left } left over.
buying-goal_cost = Least cost; least left over breaks ties.
buying-goal_left = Least left over.
buying-goal_no_price = By least left over: tell me the prices for least cost, like: bags 25 lb $38, 40 lb $55
buying-next = The rounds after that take { $amount } more beyond what is left over.
buying-next_covered = What is left over does for the rounds after that.
buying-label_stops = { $yard }: rounds your label leaves on { $zones } this year: { $count }.
buying-not_before = It may go down from { $day }: your label wants that long between applications.
buying-ask_packs = What is it sold in? Like: bags 25 lb $38, 40 lb $55
buying-law = Check before paying: ingredient, strength and turf on the label, and that it may be bought and used where you are. Keep it dry; an old, caked or unlabelled bag is not used.
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
buying-season_nothing = Nothing to buy this season: no yard with a product has a round left.
buying-nothing = Nothing to buy for { $yard }: no zone may get it now, or the label's year is used up.
buying-button_buy = What to buy
buying-button_year = Whole year
buying-button_round = This round
buying-button_all = All yards
buying-button_one = Only { $yard }
buying-button_left = Least left over
buying-button_cost = Least cost
buying-button_compare = Compare products
buying-compare =
    Cost per treated 1,000 sq ft at each label rate:
    { $lines }
    Cheaper is not always right: look at how long each holds, and what your grass takes.
buying-compare_metric =
    Cost per treated 100 m² at each label rate:
    { $lines }
    Cheaper is not always right: look at how long each holds, and what your grass takes.
buying-compare_line = { $money }: { $product }, by the { $size } pack
buying-compare_none = I compare products by price once I know packs of them: enter each with /product and bags 25 lb $38
