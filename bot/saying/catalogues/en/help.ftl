help-language_which = Which language? Tap one, or say: speak English, or: en español
help-language_heard = I understand that language, but I can't answer in it yet.
help-language_set = English from now on.
# Each language by its own name, in every catalogue.
help-language_en = English
help-language_es = Español
help-emergency = STOP work. Keep people and animals away.
    Label in hand: do its FIRST AID now.
    - Swallowed, in an eye, on skin, breathed in: US poison line 1-800-222-1222, day and night; outside the US your local emergency number.
    - Collapsed, seizure, trouble breathing: your local emergency number (US 911) at once.
    - A pet: call your vet now, label in hand.
    - Spill: stop it, keep it out of drains and water, cover with dry soil, sand or cat litter, sweep up. Don't hose it away. In a drain or water: emergency number on the label, then your local one.
    Don't make anyone vomit unless they tell you to. I'm a program and can't call for you.
help-greeting = I tell you when your lawn's soil says crabgrass is near and how much product each part needs. I tell you again when the next application is due.
    
    Where is the lawn? Type a town and state or a ZIP code, for example: Salina, Kansas. Or share your location.
help-greeting_again = Welcome back. { $yards }
    What do you need? /help lists what I can do.
help-invented = Made-up weather.
help-commands = What you can say:
    { $lines }
    
    Plain words work too: "front 60x40, strip 5 by 80 ft", "applied strip", "{ watering-enough }", "metric".
    Swallowed, in an eye, or spilled? Tell me and I answer that first.
    Your product label is the law. It beats anything I say.
help-unknown_new = I couldn't read that: { $said }
    Where is the lawn? Type a town and state, for example: Salina, Kansas
help-unknown_asked = I couldn't read that: { $said }
help-unknown_placed =
    I couldn't read that: { $said }
    How big is the lawn? For example: front 60x40, strip 5 by 80 ft
help-unknown_ready =
    I couldn't read that: { $said }
    Ask me, for example: is it time yet? Or: how much for the front? /help has more.
help-is_it_down = Did you apply it at { $yard }?
help-is_second_down = Did you make the second application at { $yard }?
help-unknown_applied = I couldn't read that: { $said }
    After you water, tell me: { watering-enough }. Or ask: how long does it last?
help-button_all_of_it = All of it
help-button_part = Part
help-button_not_yet = Not yet
help-part_which = Which part is done? For example: front, or: half of the back
help-noted = OK. I keep watching the soil.
help-noted_new = OK. Where is the lawn? Type a town and state, for example: Salina, Kansas
help-noted_placed = OK. How big is the lawn? For example: front 60x40, strip 5 by 80 ft
help-noted_open = OK. After you apply it, tell me: I applied it
help-noted_applied = OK. After you water, tell me: { watering-enough }
help-welcome = You're welcome. I keep watching the soil.
help-nothing_asked = Yes to what? No question of mine is open. Ask me, for example: is it time yet? Or: how much for the front?
help-other = I can't help with that. I look after lawns and their pre-emergent. /help lists what I can do.
help-left = OK. Nothing was changed.
help-alerts_as_before = Alerts in this chat stay as they were.
help-button_alerts_too = Alerts too
help-alerts_too = Done. Alerts in this chat come that way too.
help-units_which = Type either: 60x40 ft, or 18x12 m. { UNITS() ->
    [metric] A bare number is meters, and I answer in meters. To change that, say: use feet
   *[us] A bare number is feet, and I answer in feet. To change that, say: use metric
}
help-cancelled_kept = OK, stopped. What I saved before stays; /undo takes back the last of it.
help-cancelled = OK, stopped. Nothing was changed. /help lists what I can do.
help-nothing_to_cancel = There was nothing to cancel. /help lists what I can do.
help-keep_off = Keep kids and pets off until it is watered in and dry. Your label may say longer; read its re-entry section. The label wins.
    I can't promise more than the label does. Swallowed, in an eye, on skin? Tell me right away.
help-units_us = OK: feet, pounds and °F.
help-units_metric = OK: meters, kilograms and °C.
help-button_stale = That button is too old. Nothing was changed. { $hint }
help-photo = Thanks, but I can't read photos yet. Type the sizes: front 60x40 ft
help-trouble = Something went wrong on my end. Nothing was changed. Please try again in a minute.
help-busy = Another message of yours came in at the same time. Nothing was changed. Please send that again.
help-hint_zones = Send the zone again, for example: front 60x40 ft
help-hint_yard = /yard shows where things stand.
help-too_long = Please split that up: I read up to { $most } characters at a time, and this had { $characters }. I took none of it. A few zones per message work well: front 60x40, back 50x30
help-button_more = More ({ $page } of { $pages })
help-how_rate = Look in the directions on the back: how much goes on an area, or what the bag covers. For example: 3.2 lb per 1000 sq ft, or: 48 lb covers 15,000 sq ft
help-how_form = Granules are dry and go through a spreader. What is mixed with water is sprayed. Say: granules, or: mixed with water
