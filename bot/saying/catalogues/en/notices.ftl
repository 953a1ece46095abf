notices-intro = Forward the next message. Add your name and number, and check it against your label: the label wins.
notices-local = Some places require signs, or notice days ahead. Check with your county or state before you apply, then tell me, for example: my state asks for signs and notice 48 hours before
notices-before =
    { $reader ->
        [landlord] About the lawn at { $place }: may I treat it? I would apply { $what } { $when }. It keeps weed seed from coming up.
        [association] Notice to residents, { $place }: { $what } goes on the lawn { $when }. It keeps weed seed from coming up.
        [neighbor] Note to neighbors of { $place }: { $what } goes on the lawn { $when }. It keeps weed seed from coming up.
       *[other] Lawn notice, { $place }: { $what } goes on the lawn { $when }. It keeps weed seed from coming up.
    }
notices-after =
    { $reader ->
        [landlord] The lawn at { $place }: { $what } went on the lawn ({ $zones }), { $on }. It keeps weed seed from coming up.
        [association] Notice to residents, { $place }: { $what } went on the lawn ({ $zones }), { $on }. It keeps weed seed from coming up.
        [neighbor] Note to neighbors of { $place }: { $what } went on the lawn ({ $zones }), { $on }. It keeps weed seed from coming up.
       *[other] Lawn notice, { $place }: { $what } went on the lawn ({ $zones }), { $on }. It keeps weed seed from coming up.
    }
notices-place_of = { $customer }, { $place }
notices-what = a pre-emergent ({ $names })
notices-what_registered = a pre-emergent ({ $names }, EPA reg. no. { $number })
notices-what_unknown = a pre-emergent
notices-when = between { $first } and { $last }, weather allowing
notices-when_by = by { $last }, weather allowing
notices-when_open = this season, on a day to be announced
notices-keep_off = Please keep kids and pets off until it is watered in and dry, or longer if the label says so.
notices-keep_off_watered = It has been watered in. Please keep kids and pets off until the grass is dry, or longer if the label says so.
notices-keep_off_dry = Please keep kids and pets off until it is dry, or longer if the label says so.
notices-keep_off_said = Please keep kids and pets off. Until when: { $until }, or longer if the label says so.
notices-to_water = It still has to be watered in. Please leave the sprinklers on, and don't rake or sweep it up.
notices-clippings = Please leave the clippings of the first mowing on the lawn, and don't seed there for some months.
notices-by = Applied by { $name }, license { $licence }.
notices-by_under = Applied by { $name } under { $under }, license { $licence }.
notices-why = It goes on before the soil is warm enough for crabgrass. Please move toys, bowls and furniture off the lawn.
notices-ask =
    { $reader ->
        [landlord] Is that all right with you? Is there a well or pond nearby, or someone sensitive to these products? You may read the label.
       *[other] Questions, a well or pond nearby, or someone sensitive to these products? Please tell me first. You may read the label.
    }
notices-ask_after = Questions, a well or pond nearby, or someone sensitive to these products? Please call me. You may read the label.
notices-button_before = Notice for before
notices-button_after = Notice for after
notices-for_customer = For a customer
notices-for_neighbor = For a neighbor
notices-for_landlord = For a landlord
notices-for_association = For residents
notices-in_en = In English
notices-in_es = In Spanish
notices-rule_kept = Noted. I'll say it in my calls and on the day's list. Your state's own words win.
notices-rule_none = Noted: no signs and no notice. Your state's own words win.
notices-rule_hours =
    Your state asks for notice, I was told: { $hours ->
        [one] 1 hour
       *[other] { $hours } hours
    } before.
notices-rule_words = For the words, say: customer notices
notices-rule_signs = Your state asks for signs, I was told: put them up when you apply.
notices-rule_posted = Are the signs up? Your state asks for them, I was told. Then say: all records posted yes
notices-send_by = Send it by { $by }.
notices-due_head =
    { $count ->
        [one] One notice is due. Forward the next message.
       *[other] { $count } notices are due. Forward each of the next messages.
    } Add your name and number; your label wins.
notices-due_after = Done: { LIST($yards, style: "unit") }.
notices-due_before = To come: { LIST($yards, style: "unit") }.
notices-none_due = No customer is due a notice now. For one yard, name it: notice for Birch St 12
