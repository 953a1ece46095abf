yards-need_place_of_new = Where is the new yard? Type a town and state, or share its location. For example: Wahoo, Nebraska
yards-none_to_remove = I have no lawn of yours, so there is nothing to remove. To delete all I keep about you, say: delete my data
yards-tell_again = Then tell me that once more, and I record it.
yards-which_in_state = Which town in { $state }? Or a ZIP code, or share your location.
yards-place_unknown = I don't know that place. Type a US town and state, or a ZIP code, for example: Salina, Kansas. Abroad: type a city with its country, share your location, or type latitude and longitude: 52.1, 5.2
yards-registered = { $town }: { $yard } is set up there, time zone { $zone }.
    How big is the lawn? List each part you treat, by its sides or its area:
    { UNITS() ->
        [metric] front 18x12 m, strip 1.5 by 24 m
       *[us] front 60x40, strip 5 by 80 ft
    }
yards-units_hint = I use feet, pounds and °F. For meters, kilograms and °C say: metric
yards-units_metric = I use meters, kilograms and °C. For feet, pounds and °F say: use feet
yards-need_yard = First I need the location. Type a town and state or a ZIP code, for example: Manhattan KS. Or share your location.
yards-need_yard_first = Got it. First I need the location: a town and state or a ZIP code, for example: Manhattan KS. Or share your location.
yards-where_now = { $town ->
    [no] Is that place a new yard, or should I move { $yard } there?
   *[named] { $town }: is that a new yard, or should I move { $yard } there?
}
yards-there_already = { $yard } is there already: { $town }.
yards-moved = { $yard } is now in { $town }, time zone { $zone }. I start its soil over.
yards-unreadable_place = { $problem }
    Type latitude and longitude, for example: 39.18, -96.57
yards-button_new = New yard
yards-button_move = Move { $yard }
yards-button_rename = Rename
yards-button_zone = Time zone
yards-button_zones = Zones
yards-button_grass = Grass
yards-button_sketch = Sketch
yards-button_soil = Soil
yards-button_amounts = Amounts
yards-button_product = Product
yards-button_rounds_one = One application
yards-button_rounds_two = Two applications
yards-more = More of { $yard }: tap what to set or see.
yards-button_more = More
yards-button_all = All yards
yards-button_lead = How early
yards-button_other = Go to { $yard }
yards-state_waiting = waiting
yards-state_window_open = window open, apply now
yards-state_applied = applied
yards-state_retreat_due = re-treat due
yards-detail_first_look = I have not checked its soil yet. Ask again in a moment.
yards-detail_applied = Last application: { $on }.
yards-detail_half_capped = No second application: your label has too little left of this product.
yards-detail_water_over = The watering deadline was { $by }. { $missing } to go; water it anyway.
yards-detail_water = Needs watering in: { $missing } by { $by }.
yards-zones_none = No zones yet. Tell me one: front 60x40 ft
yards-product_none = No product yet: /product
yards-now_talking = Now working on { $yard }.
yards-ask_name = What should I call { $yard }? For example: Mill Lane 4
yards-renamed = OK, it is now { $yard }.
yards-ask_zone = Which time zone is { $yard } in? Now { $zone }. For example: Denver, or America/Denver
yards-zone_set = { $yard } is in { $zone } now; it is { $time } there.
yards-zone_unknown = I don't know a time zone called { $said }. For example: Denver, or America/Denver
yards-ask_lead = How many days before first crabgrass should { $yard }'s window open? Now { $lead }. For example: 21 ({ $low } to { $high })
yards-lead_set = { $yard }: the window opens { SPAN($lead) } before first crabgrass. Long-lasting ingredients can go earlier, short-lived ones later.
yards-lead_short = { $yard }: the window opens { SPAN($lead) } before first crabgrass. That is late: it takes a week to be in place, and weeds may come sooner than expected.
yards-number_needed = Please give a number of days from { $low } to { $high }. For example: { $example }
yards-rounds_one = { $yard }: one spring application.
yards-rounds_two = { $yard }: two applications, { SPAN($split) } apart. Use your label rate for each, within its yearly maximum.
yards-split_set = { $yard }: the second application is due { SPAN($split) } after the first.
yards-list = Yards: { $names }
yards-all = Your yards ({ $count }). We are on { $at }:
    { $lines }
    Switch: go to { $yard }. Add one: new yard at 39.18, -96.57
yards-all_line = { $yard }: { $state }
yards-all_line_town = { $yard } ({ $town }): { $state }
yards-all_by = { $state }, by { $by }
yards-all_state = { $count } { $state }
yards-all_states = In all: { LIST($states, style: "unit") }.
yards-all_page = Page { $page } of { $pages }.
yards-button_back = Back
yards-button_next = More
yards-button_by_due = By urgency
yards-button_by_town = By town
yards-button_by_kept = As added
yards-unknown = You have no yard called "{ $said }". Yours: { $names }.
    Add one: new yard at 39.18, -96.57
yards-which_of = Which one?
yards-default_name = Yard { $number }
yards-which_town = { $is_abroad ->
    [yes] There is more than one { $town }. Which one?
   *[no] There is more than one { $town }. Which state?
}
yards-button_size_later = Size later
yards-size_later = OK. Tell me sizes any time, for example: front 60x40
yards-registered_at = { $yard } is set up at { $lat }, { $lon }, time zone { $zone }.
    How big is the lawn? List each part you treat, by its sides or its area:
    { UNITS() ->
        [metric] front 18x12 m, strip 1.5 by 24 m
       *[us] front 60x40, strip 5 by 80 ft
    }
yards-moved_at = { $yard } is now at { $lat }, { $lon }, time zone { $zone }. I start its soil over.
yards-registered_near = Near { $town }: { $yard } is set up at { $lat }, { $lon }, time zone { $zone }.
    How big is the lawn? List each part you treat, by its sides or its area:
    { UNITS() ->
        [metric] front 18x12 m, strip 1.5 by 24 m
       *[us] front 60x40, strip 5 by 80 ft
    }
yards-stands = { $yard }: { $state }
