screening-intro = Before you buy, { $count ->
        [one] { $count } short question
       *[other] { $count } short questions
    }; skip any. /amounts never waits for them.
screening-seeding = Will you seed any of { $yard } this spring?
screening-thin = Is the turf thin, about half of it bare?
screening-rooted = Is all of it rooted: no new sod, sprigs or seedlings?
screening-history = Have you had annual grass weeds here, such as crabgrass?
screening-weed = Which weed is it? Tap one or write it.
screening-water = Can { $yard } be watered, and how?
screening-ban = Is there a watering ban or limit now?
screening-others = Does anyone else treat this lawn: a service, a landlord, family? Their product counts too.
screening-button_start = Do I need it at all?
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
screening-verdict = { $yard }, thank you.
screening-fine = By what you say a pre-emergent is the right thing here.
screening-no_seeding = Seeding this spring: not where you seed, it stops grass seed too. Better: seed, feed and mow first, pre-emergent next year; or siduron or mesotrione at seeding, where your label and grass allow it. Mark it: { $zone } is new seed
screening-no_thin = Thin turf: seed or sod first. Bare ground lets weeds through whatever you put down, and the product would stop your seed.
screening-no_rooted = New sod, sprigs or seedlings: wait until they are rooted and mown 3 or 4 times, and your label allows it. Mark it: { $zone } is new sod
screening-no_history = No annual grasses before: dense turf mown 3 in or higher may need none. Scout bare edges in June instead, and save the money.
screening-weed_goosegrass = Goosegrass comes 2 to 6 weeks after crabgrass; a second half or a longer-lasting product suits it.
screening-weed_annual_bluegrass = Annual bluegrass sprouts from late summer on: a spring round does little against it. Put it down before soil falls through 70 °F in late summer.
screening-weed_nutsedge = Nutsedge comes from tubers: these products don't stop it. Ask your extension office for a nutsedge product.
screening-weed_perennial = { $weed } is a perennial or no grass weed: a pre-emergent does little. Dig it out or treat the spots; ask your extension office.
screening-weed_other = For { $weed } ask your extension office first: most pre-emergents here stop annual grasses only.
screening-weed_unsure = Not sure which: show a plant or photo to your extension office before you buy.
screening-water_none = No water: only rain carries it in. I choose days by rain ahead; granules forgive waiting better than sprays.
screening-banned = Under a ban only rain counts; I look for days with half an inch to follow.
screening-others_yes = Ask them what, how much and when, and tell me: service put down prodiamine 0.38% granule, 3.2 lb per 1000 on 3 Mar
screening-water_days = Only certain watering days? Tell me: watering days Mon and Thu
screening-next_grass = Grass of each zone, which says what may go down there: grass
screening-another_weed = other weeds
screening-next = Next: buy
screening-skipped = Skipped. Say questions to come back to them.
screening-again = What you said of { $yard }: { $answers }
screening-whose = Whose is { $yard }? Treating others' lawns for pay needs a licence in nearly every US state.
screening-button_own = My own
screening-button_friend = Family, unpaid
screening-button_pay = A client's, for pay
screening-own = Noted: { $yard } is your own.
screening-friend = Noted: { $yard } is family's or a friend's, unpaid. Ask your state whether that needs a licence too, and have the owner's consent.
screening-pay =
    Noted: { $yard } is a client's. Your licence number and its last day? Like: licence PA-12345 until 31 Dec 2027
    I can't check it, and it holds nothing back. Posting signs and giving notice: your local rules.
screening-licence = Licence { $number }, good until { $day }. Noted; it goes with your records.
screening-licence_no_day = Until when is licence { $number } good? Like: licence { $number } until 31 Dec 2027
screening-licence_past = Licence { $number } ran out on { $day }. Noted; renew it before you treat for pay.
screening-licence_missing = For pay you need a licence in nearly every US state. Tell me yours: licence PA-12345 until 31 Dec 2027
screening-licence_expired = Your licence { $number } ran out on { $day }.
screening-local_rules =
    Your local rules come before anything I say, and I can't look them up:
    - Some provinces, counties, towns, schools and day-cares restrict or ban such products; outside the US use only a locally registered label.
    - For pay: licence, signs, 24 to 72 h notice, registries of sensitive neighbours in places. Tenants need the owner's consent.
    - Fertiliser in the bag: blackout dates and phosphorus bans.
    Your state's department of agriculture or extension office knows. What they say wins.
screening-yes = yes
screening-no = no
screening-skip = skipped
