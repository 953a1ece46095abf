screening-intro = Before you buy: { $count ->
        [one] { $count } quick question
       *[other] { $count } quick questions
    }. Skip any. /amounts works either way.
screening-seeding = Will you seed any of { $yard } this spring?
screening-thin = Is the turf thin, with about half of it bare?
screening-rooted = Is it all rooted? (No new sod, sprigs or seedlings.)
screening-history = Have you had crabgrass or other annual grass weeds here?
screening-weed = Which weed? Tap one or type it.
screening-water = Can { $yard } be watered, and how?
screening-ban = Is there a watering ban or limit now?
screening-others = Does anyone else treat this lawn, like a service, a landlord or family? Their product counts too.
screening-button_start = Do I need it?
screening-button_yes = Yes
screening-button_no = No
screening-button_skip = Skip
screening-button_skip_all = Skip the rest
screening-button_crabgrass = Crabgrass
screening-button_foxtail = Foxtail
screening-button_goosegrass = Goosegrass
screening-button_annual_bluegrass = Annual bluegrass
screening-button_nutsedge = Nutsedge
screening-button_other = Something else
screening-button_unsure = Don't know
screening-button_system = Sprinkler system
screening-button_hose = Hose
screening-button_none = No water
screening-button_no_ban = No limit
screening-button_ban = Yes, a ban
screening-verdict = { $yard }: thanks.
screening-fine = From what you told me, a pre-emergent makes sense here.
screening-no_seeding = Seeding this spring? Don't use it where you seed; it stops grass seed too. Better: seed, feed and mow first, and use pre-emergent next year. Siduron or mesotrione can go down with seed if your label and grass allow it. Mark it: { $zone } is new seed
screening-no_thin = Thin turf: seed or sod first. Weeds come through bare ground no matter what, and the product would stop your seed.
screening-no_rooted = New sod, sprigs or seedlings: wait until they are rooted and mowed 3 or 4 times, and your label allows it. Mark it: { $zone } is new sod
screening-no_history = No annual grass weeds before? Thick turf mowed at 3 in or higher may not need it. Check bare edges in June and save the money.
screening-weed_goosegrass = Goosegrass sprouts 2 to 6 weeks after crabgrass. Plan a second application or a longer-lasting product.
screening-weed_annual_bluegrass = Annual bluegrass sprouts from late summer on, so a spring application does little. Apply before soil drops below 70 °F in late summer.
screening-weed_nutsedge = Nutsedge grows from tubers. These products don't stop it. Ask your extension office what does.
screening-weed_perennial = { $weed } comes back from roots or is not a grass, so a pre-emergent does little. Dig it out or spot-treat. Ask your extension office.
screening-weed_other = Ask your extension office about { $weed } first. Most pre-emergents here stop annual grasses only.
screening-weed_unsure = Not sure which: show a plant or photo to your extension office before you buy.
screening-water_none = No water? Then only rain activates it. I pick days with rain ahead. Granules can wait for rain better than sprays.
screening-banned = Under a ban only rain counts. I look for days with half an inch of rain to follow.
screening-others_yes = Ask them what, how much and when, and tell me: the service applied prodiamine 0.38% granule, 3.2 lb per 1000 on Mar 3
screening-water_days = Only certain watering days? Tell me: watering days Mon and Thu
screening-next_grass = Tell me the grass in each zone. Some products harm some grasses: grass
screening-another_weed = other weeds
screening-next = Next: buy
screening-skipped = Skipped. Say questions to come back to them.
screening-again = Your answers for { $yard }: { $answers }
screening-whose = Whose lawn is { $yard }? Nearly every US state wants a license to treat lawns for pay.
screening-button_own = My own
screening-button_friend = Family, unpaid
screening-button_pay = A client's, for pay
screening-own = Noted: { $yard } is your own.
screening-friend = Noted: { $yard } is family's or a friend's, unpaid. Ask your state whether that needs a license too, and get the owner's OK.
screening-pay = Noted: { $yard } is a client's. What is your license number and when does it expire? For example: license PA-12345 until Dec 31, 2027
    I can't check it and it blocks nothing. Signs and notices: follow your local rules.
screening-licence = License { $number }, good until { $day }. Saved. It goes on your records.
screening-licence_no_day = When does license { $number } expire? For example: license { $number } until Dec 31, 2027
screening-licence_past = License { $number } expired { DAY($day, style: "on") }. Saved. Renew it before you treat for pay.
screening-licence_missing = Nearly every US state wants a license to treat for pay. Tell me yours: license PA-12345 until Dec 31, 2027
screening-licence_expired = Your license { $number } expired on { $day }.
screening-local_rules = Your local rules come before anything I say, and I can't look them up.
    - Some provinces, counties, towns, schools and day cares limit or ban these products. Outside the US use only a label registered there.
    - For pay: license, signs, 24 to 72 h notice, lists of sensitive neighbors. Tenants need the owner's OK.
    - Fertilizer in the bag: blackout dates, phosphorus bans.
    Ask your state department of agriculture or extension office. What they say wins.
screening-yes = yes
screening-no = no
screening-skip = skipped
