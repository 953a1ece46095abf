help-language_which = Which language? Tap one, or say: speak English, or: en español
help-language_heard = I understand that language, but I can't answer in it yet.
help-language_set = English from now on.
# Each language by its own name, in every catalogue.
help-language_en = English
help-language_es = Español
help-emergency =
    STOP work. Keep people and animals away.
    Label in hand: do its FIRST AID now.
    - Swallowed, in an eye, on skin, breathed in: US poison line 1-800-222-1222, day and night; outside the US your local emergency number.
    - Collapsed, fits, trouble breathing: your local emergency number (US 911) at once.
    - A pet: call your vet now, label in hand.
    - Spill: stop it, keep it out of drains and water, cover with dry soil, sand or cat litter, sweep up. Don't hose it away. In a drain or water: emergency number on the label, then your local one.
    Don't make anyone vomit unless they tell you to. I'm a program and can't call for you.
help-greeting =
    I tell you when your lawn's soil says crabgrass is near, how much product each part takes, and when the next half is due.
    
    Where is the lawn? Type a town and state or a ZIP code, like: Salina, Kansas. Or share its place.
help-greeting_again =
    Good to have you back. { $yards }
    Say what you need, or /help.
help-invented = Weather here is invented, for trying things out.
help-commands =
    What you can say:
    { $lines }
    
    Plain words work too: "front 60x40, strip 5 by 80 ft", "applied strip", "watered 0.5 in", "metric".
    Eaten, in an eye, spilled? Say so: that is answered first.
    Your product's label is the law and wins over anything I say.
help-unknown_new =
    I couldn't read that: { $said }
    Where is the lawn? Type a town and state, such as: Salina, Kansas
help-unknown_asked = I couldn't read that: { $said }
help-unknown_placed =
    I couldn't read that: { $said }
    How big is the lawn? For example: front 60x40, strip 5 by 80 ft
help-unknown_ready =
    I couldn't read that: { $said }
    Ask me, for example: is it time yet? Or: how much for the front? /help has more.
help-unknown_open =
    I couldn't read that: { $said }
    Did you apply it at { $yard }?
help-unknown_due =
    I couldn't read that: { $said }
    Is the second application down at { $yard }?
help-unknown_applied =
    I couldn't read that: { $said }
    Tell me what you water, for example: watered 0.5 in. Or ask: how long does it hold?
help-button_all_of_it = All of it
help-button_part = Part
help-button_not_yet = Not yet
help-part_which = Which part is down? For example: front, or: half of the back
help-welcome = You're welcome. I watch the soil.
help-other = That is beyond me: I look after lawns and their pre-emergent. /help shows what you can say.
help-left = All right. Nothing was changed.
help-units_which = Feet or meters? Say: use feet, or: use metric
help-cancelled_kept = Left it. What I noted before stays; /undo takes back the last of it.
help-cancelled = Left it. Nothing was changed by that. /help shows what you can say.
help-nothing_to_cancel = Nothing was waiting for an answer. /help shows what you can say.
help-keep_off =
    Keep children and pets off until the product is watered in and dry. Your label may say longer, and it wins: read its re-entry words.
    I can't promise more than the label does. Swallowed, in an eye, on skin? Say so at once.
help-units_us = Feet, pounds and °F from now on.
help-units_metric = Metres, kilograms and °C from now on.
help-button_stale = That button is out of date, and nothing was changed. { $hint }
help-photo = Thank you, but I can't read photos here yet. Tell me sizes in words: front 60x40 ft
help-trouble = Something went wrong on my side, and nothing was changed. Please say it again in a minute.
help-busy = Another message of yours came in between, and nothing was changed. Please say that again.
help-hint_zones = Say the zone again, like: front 60x40 ft
help-hint_yard = /yard shows where things stand.
help-too_long = Please say it in parts: I read up to { $most } characters at a time, and this was { $characters }. Nothing of it was taken. A few zones a message read well: front 60x40, back 50x30
help-button_more = More ({ $page } of { $pages })
