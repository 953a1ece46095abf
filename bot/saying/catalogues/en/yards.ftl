yards-need_place_of_new = Where is the new yard? Type a town and state, or share its place. For example: Wahoo, Nebraska
yards-place_unknown = I don't know that place. Type a US town and state, or a ZIP code, like: Salina, Kansas. Anywhere else in the world: share the place, or type latitude and longitude, like: 52.1, 5.2
yards-registered =
    { $town }: { $yard } is registered there, time zone { $zone }.
    How big is the lawn? Each part that gets treated, by its sides or in square feet, like:
    front 60x40, strip 5 by 80 ft
yards-units_hint = I write feet, pounds and °F. For metres, kilograms and °C say: metric
yards-units_metric = I write meters, kilograms and °C. For feet, pounds and °F say: use feet
yards-need_yard = First I need the place. Type a town and state or a ZIP code, like: Manhattan KS. Or share the place.
yards-need_yard_first = I keep that. First I need the place: a town and state or a ZIP code, like: Manhattan KS. Or share the place.
yards-where_now = You sent a place. Is it a new yard, or is { $yard } to move there?
yards-moved = { $yard } is now in { $town }, time zone { $zone }. I judge its soil afresh.
yards-unreadable_place =
    { $problem }
    Type latitude and longitude, such as: 39.18, -96.57
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
yards-button_rounds_one = One round a spring
yards-button_rounds_two = Two halves
yards-button_lead = Lead
yards-button_other = Go to { $yard }
yards-overview =
    { $yard }: { $state }
    { $detail }
    { $zones }
    { $product }
    { $settings }
yards-state_waiting = waiting
yards-state_window_open = window open, put it down
yards-state_applied = applied
yards-state_retreat_due = re-treat due
yards-detail_first_look = I have not looked at its soil yet; ask again in a moment.
yards-detail_ahead = Window expected { DAY($opens, style: "about") } to { $closes } (opening { $early } to { $late }).
yards-detail_far = This year's window is over or too far off to date.
yards-detail_missed = This spring's window is past: first crabgrass was due { DAY($up, style: "about") }.
yards-detail_capped = Your label leaves no whole round of this product; first crabgrass { DAY($up, style: "about") }.
yards-detail_late = Put it down and water it in at once: it was due by { $was }, and helps up to { $closes }.
yards-detail_open = Have it down and watered in by { $closes }; first crabgrass { DAY($up, style: "about") }.
yards-detail_applied = Last application { $on }.
yards-detail_half_capped = No second half: your label leaves no whole round of this product.
yards-detail_next_half = Next half due { $on }.
yards-detail_retreat_due = Next half is due now: /amounts
yards-detail_water_over = Was to be watered in by { $by }; { $missing } is still missing. Water it all the same.
yards-detail_water = Still needs watering in: { $missing } by { $by }.
yards-zones = Zones: { $count }, { $area } in all.
yards-zones_none = No zones yet. Tell me one: front 60x40 ft
yards-product = Product: { $product }.
yards-product_none = No product yet: /product
yards-settings_two = Plan: two halves { SPAN($split) } apart. Window opens { SPAN($lead) } before first crabgrass. { $zone }.
yards-settings_one = Plan: one round. Window opens { SPAN($lead) } before first crabgrass. { $zone }.
yards-now_talking = Now talking about { $yard }.
yards-ask_name = What shall I call { $yard }? For example: Mill Lane 4
yards-renamed = It is called { $yard } now.
yards-ask_zone = Which time zone is { $yard } in? Now { $zone }. For example: Denver, or America/Denver
yards-zone_set = { $yard } is in { $zone } now; it is { $time } there.
yards-zone_unknown = I know no time zone by that name: { $said }. For example: Denver, or America/Denver
yards-ask_lead = How many days before first crabgrass shall { $yard }'s window open? Now { $lead }. For example: 21 ({ $low } to { $high })
yards-lead_set = { $yard }: the window opens { SPAN($lead) } before first crabgrass. Long-lasting ingredients can go earlier, short-lived ones later.
yards-number_needed = A number of days, please, from { $low } to { $high }. For example: { $example }
yards-rounds_one = { $yard }: one round a spring.
yards-rounds_two = { $yard }: two halves, { SPAN($split) } apart. Use your label's rate for each, within its yearly maximum.
yards-split_set = { $yard }: the second half falls due { SPAN($split) } after the first.
yards-list = Yards: { $names }
yards-all =
    Your yards, { $count }; we talk about { $at }:
    { $lines }
    Turn to one: go to { $yard }. Another one: new yard at 39.18, -96.57
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
yards-unknown =
    I know no yard "{ $said }". Yours: { $names }.
    Another one: new yard at 39.18, -96.57
yards-which_of = Which one?
yards-default_name = Yard { $number }
yards-which_town = There is more than one { $town }. Which state?
yards-button_size_later = Size later
yards-size_later = All right. Tell me sizes any time, like: front 60x40
yards-registered_at =
    { $yard } is registered at { $lat }, { $lon }, time zone { $zone }.
    How big is the lawn? Each part that gets treated, by its sides or in square feet, like:
    front 60x40, strip 5 by 80 ft
yards-moved_at = { $yard } is now at { $lat }, { $lon }, time zone { $zone }. I judge its soil afresh.
yards-registered_near =
    Near { $town }: { $yard } is registered at { $lat }, { $lon }, time zone { $zone }.
    How big is the lawn? Each part that gets treated, by its sides or in square feet, like:
    front 60x40, strip 5 by 80 ft
