"""Is it the right thing at all? Short questions before buying, and what is better where not."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.readers.dates import WhenRead, find_when, say_day
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.uses import screening as uses
from storage import yards
from storage.yards import YardRecord

TOPIC: Final = "screening"

#: Questions in their order; "weed" only where there is a history.
_STEPS: Final = ("seeding", "thin", "rooted", "history", "weed", "water", "ban", "others")
#: Those before the purchase that people are told to expect (the grass is asked with "grass").
_SHORT: Final = 5
_WEEDS: Final = (
    ("crabgrass", "foxtail"),
    ("goosegrass", "annual_bluegrass"),
    ("nutsedge", "other", "unsure"),
)
_PERENNIAL: Final = re.compile(
    r"dallis\s*grass|quack\s*grass|tall\s+fescue|fescue|moss|clover|dandelion|plantain|broadleaf"
    r"|bermuda|orchard|nimblewill|ivy",
    re.IGNORECASE,
)
_YES: Final = re.compile(
    r"^(?:yes|y|yep|yeah|sure|some|a\s+bit|we\s+will|i\s+will)\b", re.IGNORECASE
)
_NO: Final = re.compile(r"^(?:no|n|nope|none|never|not?\b.*|nobody)\b", re.IGNORECASE)
#: Ways to water, as they are said; a sprinkler that hangs on a hose is the hose's.
_WATER: Final = (
    (
        "none",
        r"no|n|nope|none|no\s+water|nothing|(?:it\s+)?(?:can\W?t|cannot|can\s+not)\b.*|only\s+rain|rain(?:\s+only)?",
    ),
    ("hose", r".*\b(?:hose|by\s+hand|garden\s+tap)\b.*"),
    ("system", r".*\b(?:sprinklers?|irrigation|irrigated|system)\b.*"),
)
_LICENCE: Final = re.compile(
    r"^(?:my\s+)?(?:pesticide\s+|applicator\s+)?licen[cs]e\s*(?:number|no\.?|is|:)?\s*"
    r"(?P<number>[A-Za-z0-9][\w/-]*)[\s,]*(?:good\s+|valid\s+)?"
    r"(?:until|till|to|through|expires?|exp\.?|runs\s+out)\b\s*(?P<rest>.+)$",
    re.IGNORECASE,
)


def before_buying(talk: Talk, yard: YardRecord) -> list[Reply] | None:
    """Ask once before the first purchase; None where it was asked, or is not theirs to answer."""
    if yard.screening is not None or not talk.may(yard, "change"):
        return None
    uses.begin(talk.work, yard)
    intro = talk.say("screening.intro", count=_SHORT)
    first = _ask(talk, yard, "seeding")
    return [Reply(f"{intro}\n{first.text}", first.buttons)]


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take answers and questions about local rules; None for other texts."""
    said = " ".join(text.casefold().rstrip("?.!").split())
    if said in ("questions", "screening", "is it right for my lawn", "do i need it"):
        uses.begin(talk.work, yard)
        return [_ask(talk, yard, "seeding")]
    if re.fullmatch(r"(?:your\s+|my\s+|the\s+)?local\s+(?:rules|law|laws)", said):
        return [talk.reply("screening.local_rules")]
    if talk.topic != TOPIC or talk.data.get("yard_id") != yard.id:
        return None
    step = talk.data.get("step", "")
    if said in ("skip", "skip it", "next"):
        return _answered(talk, yard, step, "skip")
    if step == "weed" and len(said.split()) <= 4 and not re.search(r"\d", said):
        return _answered(talk, yard, step, said)
    if step in ("water", "weed"):
        return None
    if _YES.match(said):
        return _answered(talk, yard, step, "yes")
    return _answered(talk, yard, step, "no") if _NO.match(said) else None


def take_water(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take how a yard is watered where that was asked; its words belong to other subjects too."""
    if talk.topic != TOPIC or (talk.data.get("yard_id"), talk.data.get("step")) != (
        yard.id,
        "water",
    ):
        return None
    said = " ".join(text.casefold().strip(" ?.!").split())
    if re.search(r"\d", said) or len(said.split()) > 6:
        return None
    for how, pattern in _WATER:
        if re.fullmatch(pattern, said):
            return _answered(talk, yard, "water", how)
    return [_ask(talk, yard, "water")] if _YES.fullmatch(said) else None


def take_licence(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take a licence with its last day; one without a day is the record's."""
    match = _LICENCE.match(text.strip())
    if match is None or not re.search(r"\d", match["number"]):
        return None
    now = talk.said_at(yard)
    when = find_when(match["rest"], now)
    number = match["number"]
    if not isinstance(when, WhenRead):
        return [talk.reply("screening.licence_no_day", number=number)]
    until, today = when.at.date(), talk.today(yard)
    talk.person = uses.set_licence(talk.work, yard, talk.person, number, until, talk.now)
    key = "screening.licence_past" if until < today else "screening.licence"
    return [talk.reply(key, number=number, day=say_day(until, today))]


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons of this subject: ``screen:<answer>:<yard>:<step>``."""
    _, said, _, *rest = action.split(":")
    step = rest[0] if rest else ""
    if said == "start":
        uses.begin(talk.work, yard)
        return [_ask(talk, yard, "seeding")]
    if said == "end":
        talk.settle()
        return [talk.reply("screening.skipped")]
    if step not in _STEPS:
        return [talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))]
    return _answered(talk, yard, step, said)


def whose(talk: Talk) -> list[Reply]:
    """Ask whose a further yard is, as soon as there is one."""
    mine = talk.yards()
    yard = talk.yard()
    if yard is None or len(mine) < 2 or yard.owner is not None:
        return []
    buttons = rows(
        [
            (talk.say("screening.button_own"), f"owner:own:{yard.id}"),
            (talk.say("screening.button_friend"), f"owner:friend:{yard.id}"),
        ],
        [(talk.say("screening.button_pay"), f"owner:pay:{yard.id}")],
    )
    return [talk.reply("screening.whose", buttons, yard=yard.name)]


def owner_tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer whose a yard is."""
    owner = action.split(":")[1]
    if owner not in ("own", "friend", "pay"):
        return [talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))]
    uses.set_habit(talk.work, yard, person_id=talk.person.id, now=talk.now, owner=owner)
    return [talk.reply(f"screening.{owner}", yard=yard.name)]


def licence_line(talk: Talk, yard: YardRecord) -> str | None:
    """Return what is missing to treat a client's yard for pay; it never holds anything back."""
    if yard.owner != "pay":
        return None
    person = talk.person
    if person.licence is None:
        return talk.say("screening.licence_missing")
    if person.licence_until is not None and person.licence_until < talk.today(yard):
        day = say_day(person.licence_until, talk.today(yard))
        return talk.say("screening.licence_expired", number=person.licence, day=day)
    return None


# --- inside ---------------------------------------------------------------------------------------


def _ask(talk: Talk, yard: YardRecord, step: str) -> Reply:
    talk.expect(TOPIC, yard_id=yard.id, step=step)

    def button(name: str, said: str) -> tuple[str, str]:
        return talk.say(f"screening.button_{name}"), f"screen:{said}:{yard.id}:{step}"

    skips = [
        button("skip", "skip"),
        (talk.say("screening.button_skip_all"), f"screen:end:{yard.id}"),
    ]
    if step == "weed":
        lines = [[button(weed, weed) for weed in line] for line in _WEEDS]
        return talk.reply("screening.weed", rows(*lines, skips))
    if step == "water":
        choices = [button(how, how) for how in ("system", "hose", "none")]
    elif step == "ban":
        choices = [button("no_ban", "no"), button("ban", "yes")]
    else:
        choices = [button("yes", "yes"), button("no", "no")]
    return talk.reply(f"screening.{step}", rows(choices, skips), yard=yard.name)


def _answered(talk: Talk, yard: YardRecord, step: str, said: str) -> list[Reply]:
    yard = uses.answer(talk.work, yard, step, said)
    habit = _habit(step, said)
    if habit is not None:
        name, value = habit
        yard = uses.set_habit(
            talk.work, yard, person_id=talk.person.id, now=talk.now, **{name: value}
        )
    following = _next_step(step, said)
    if following is not None:
        return [_ask(talk, yard, following)]
    talk.settle()
    return [Reply("\n".join(_verdict(talk, yard)))]


def _habit(step: str, said: str) -> tuple[str, str | bool] | None:
    if said == "skip":
        return None
    if step == "water":
        return "water_how", said
    if step == "ban":
        return "is_water_banned", said == "yes"
    return ("others_treat", said == "yes") if step == "others" else None


def _next_step(step: str, said: str) -> str | None:
    place = _STEPS.index(step) + 1
    if step == "history" and said != "yes":
        place += 1
    return _STEPS[place] if place < len(_STEPS) else None


def _verdict(talk: Talk, yard: YardRecord) -> list[str]:
    """Return what is better where an answer speaks against it, and what follows from the rest."""
    answers = yard.screening or {}
    zones = yards.zones(talk.work, yard.id)
    zone = zones[0].name if zones else "front"
    against = []
    if answers.get("seeding") == "yes":
        against.append(talk.say("screening.no_seeding", zone=zone))
    if answers.get("thin") == "yes":
        against.append(talk.say("screening.no_thin"))
    if answers.get("rooted") == "no":
        against.append(talk.say("screening.no_rooted", zone=zone))
    if answers.get("history") == "no":
        against.append(talk.say("screening.no_history"))
    weed = str(answers.get("weed", ""))
    if weed and weed != "skip":
        against += _about_weed(talk, weed)
    lines = [talk.say("screening.verdict", yard=yard.name)]
    has_answers = any(said != "skip" for said in answers.values())
    lines += against or ([talk.say("screening.fine")] if has_answers else [])
    if yard.water_how == "none":
        lines.append(talk.say("screening.water_none"))
    elif yard.is_water_banned:
        lines.append(talk.say("screening.banned"))
    elif answers.get("water") in ("system", "hose"):
        lines.append(talk.say("screening.water_days"))
    if yard.others_treat:
        lines.append(talk.say("screening.others_yes"))
    if any(each.grass is None for each in zones):
        lines.append(talk.say("screening.next_grass"))
    lines.append(talk.say("screening.next"))
    return lines


def _about_weed(talk: Talk, weed: str) -> list[str]:
    said = weed.replace("_", " ")
    if re.search(r"crab|foxtail|barnyard|sandbur|panicum", said):
        return []
    if "goose" in said:
        return [talk.say("screening.weed_goosegrass")]
    if re.search(r"annual\s+blue|poa", said):
        return [talk.say("screening.weed_annual_bluegrass")]
    if re.search(r"nut\s*(?:sedge|grass)", said):
        return [talk.say("screening.weed_nutsedge")]
    if said in ("unsure", "don't know", "i don't know", "no idea", "not sure"):
        return [talk.say("screening.weed_unsure")]
    if _PERENNIAL.search(said):
        return [talk.say("screening.weed_perennial", weed=said[:1].upper() + said[1:])]
    name = talk.say("screening.another_weed") if said == "other" else said
    return [talk.say("screening.weed_other", weed=name)]
