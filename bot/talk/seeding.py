"""Seed: may it go in, when, and who goes first where a round is planned."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any, Final

from bot.hearing.readers.dates import find_when, say_day
from bot.hearing.readers.reading import Unread
from bot.talk.naming import find_zones, names_of
from bot.talk.talk import Talk
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.seeding import SeedingWait
from jobs.agronomy.turf import turf_species
from jobs.uses import seeding as uses
from storage import yards
from storage.yards import YardRecord, ZoneRecord

TOPIC: Final = "seeding"

_ASKED: Final = re.compile(
    r"^(?:(?:can|may|could|should)\s+(?:i|we)\s+|when\s+(?:can|may)\s+(?:i|we)\s+|(?:plan|want)\s+to\s+"
    r"|is\s+it\s+too\s+(?:early|soon)\s+to\s+)?(?:over|re)?(?:seed|sow)\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_SOWN: Final = re.compile(
    r"^(?:i\s+|we\s+|i've\s+|just\s+|have\s+)*(?:over|re)?(?:seeded|sowed|sown)\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_MOWN: Final = re.compile(
    r"^(?:i\s+|we\s+|i've\s+|just\s+|have\s+)*(?:mowed|mown|cut)\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_LABEL: Final = re.compile(
    r"[,;]?\s*(?:my\s+|the\s+)?label(?:\s+(?:says|interval|wait))*[\s:]*(?P<number>\d{1,3})\s*"
    r"(?P<unit>days?|weeks?|months?)",
    re.IGNORECASE,
)
_SLIT: Final = re.compile(
    r"\b(?:by\s+|with\s+(?:a\s+)?)?(?:slit|slice|slot|drill)(?:[- ]?(?:seed(?:er|ing|ed)?|it))?\b",
    re.IGNORECASE,
)
_BROADCAST: Final = re.compile(r"\b(?:broadcast|spread\s+by\s+hand)\b", re.IGNORECASE)
_DAYS_IN: Final = {"d": 1.0, "w": 7.0, "m": 30.5}
_FILLERS: Final = re.compile(
    r"\b(?:with|seed|grass|my|some|new|there|please|again)\b|\?", re.IGNORECASE
)


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take a question, a report of seeding or of mowing; None where a text is none of them."""
    for pattern, answer in ((_SOWN, _take_sown), (_MOWN, _take_mown), (_ASKED, _take_asked)):
        match = pattern.match(text.strip())
        if match is not None:
            return answer(talk, yard, match["rest"], text)
    return None


def command(talk: Talk, yard: YardRecord, rest: str) -> list[Reply]:
    """Answer /seed."""
    return _take_asked(talk, yard, rest, f"seed {rest}".strip())


def tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons under an answer about seed."""
    what = action.split(":")[1]
    if talk.topic != TOPIC or talk.data.get("yard_id") != yard.id:
        return [talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))]
    if what == "plan":
        return _plan(talk, yard, _wish_kept(talk, yard))
    return _decide(talk, yard, is_seed_first=what == "first")


def _take_asked(talk: Talk, yard: YardRecord, rest: str, text: str) -> list[Reply]:
    wish = _wish(talk, yard, rest, text, is_ahead=True)
    if isinstance(wish, Reply):
        return [wish]
    found = uses.ask(talk.work, yard, wish, talk.now)
    lines = []
    for each in found:
        lines += _answer_lines(talk, yard, wish, each)
    if wish.method == "slit":
        lines.append(talk.say("seeding.slit"))
    species = {each.species for each in found}
    if species == {None}:
        lines.append(talk.say("seeding.no_species"))
    for key in species:
        names = uses.at_seeding(key)
        if names:
            lines.append(talk.say("seeding.at_seeding", names=", ".join(names)))
    lines += _collision_lines(talk, yard, found, "collides_known")
    buttons: Buttons = ()
    if wish.on is not None and all(each.allows for each in found):
        talk.expect(TOPIC, yard_id=yard.id, **_kept(wish))
        label = talk.say("seeding.button_plan", on=say_day(wish.on, talk.today(yard)))
        buttons = rows([(label, f"seed:plan:{yard.id}")])
    return [Reply("\n".join(dict.fromkeys(lines)), buttons)]


def _answer_lines(
    talk: Talk, yard: YardRecord, wish: uses.Wish, each: uses.ZoneAnswer
) -> list[str]:
    today = talk.today(yard)
    on = say_day(wish.on or today, today)
    waits = each.answer.waits
    if each.unknown_on is not None:
        day = say_day(each.unknown_on, today)
        return [talk.say("seeding.unknown", zone=each.zone, day=day)]
    if not waits or each.answer.earliest is None:
        return [talk.say("seeding.yes_free", zone=each.zone, on=on)]
    earliest = say_day(max(each.answer.earliest, today), today)
    key = "when" if wish.on is None else ("yes" if each.allows else "no")
    params = {"zone": each.zone, "on": on, "earliest": earliest}
    lines = [talk.say(f"seeding.{key}", **params)]
    deciding = waits[0]
    params |= {
        "days": str(deciding.days),
        "ingredient": deciding.treated.ingredient,
        "treated": say_day(deciding.treated.day, today),
    }
    lines.append(talk.say(f"seeding.reason_{deciding.basis}", **params))
    if deciding.basis == "default" and deciding.treated.form == "granule":
        lines.append(talk.say("seeding.reason_default_form"))
    return [*lines, *_trials(talk, waits)]


def _trials(talk: Talk, waits: Sequence[SeedingWait]) -> list[str]:
    """Name published trials that saw harm for longer than we wait; shorter ones are not named."""
    lines = []
    for wait in waits:
        if not wait.is_shorter_than_a_trial:
            continue
        longest = max(wait.trials, key=lambda trial: trial.weeks)
        lines.append(
            talk.say(
                "seeding.trial",
                species=_species_name(longest.species),
                weeks=f"{longest.weeks:g}",
            )
        )
    return lines


def _collision_lines(
    talk: Talk, yard: YardRecord, found: Sequence[uses.ZoneAnswer], key: str
) -> list[str]:
    by_round: dict[uses.Collision, list[str]] = {}
    for each in found:
        for clash in each.collisions:
            by_round.setdefault(clash, []).append(each.zone)
    return [
        talk.say(
            f"seeding.{key}",
            round=talk.say(f"seeding.round_{clash.target}"),
            day=say_day(clash.planned_on, talk.today(yard)),
            zones=", ".join(zones),
        )
        for clash, zones in by_round.items()
    ]


def _plan(talk: Talk, yard: YardRecord, wish: uses.Wish) -> list[Reply]:
    found = uses.ask(talk.work, yard, wish, talk.now)
    ids, journal_id = uses.plan(talk.work, yard, wish, person_id=talk.person.id, now=talk.now)
    assert wish.on is not None
    on = say_day(wish.on, talk.today(yard))
    lines = [talk.say("seeding.planned", zones=names_of(wish.zones), on=on)]
    clashes = _collision_lines(talk, yard, found, "collides")
    undo = (talk.say("applying.button_undo"), f"undo:{journal_id}")
    if not clashes:
        talk.settle()
        return [Reply("\n".join(lines), rows([undo]))]
    names = {each.zone for each in found if each.collisions}
    kept = [i for i, zone in zip(ids, wish.zones, strict=True) if zone.name in names]
    talk.expect(TOPIC, yard_id=yard.id, ids=kept, names=sorted(names))
    choice = [
        (talk.say("seeding.button_seed_first"), f"seed:first:{yard.id}"),
        (talk.say("seeding.button_round_first"), f"seed:round:{yard.id}"),
    ]
    return [Reply("\n".join([*lines, *clashes]), rows(choice, [undo]))]


def _decide(talk: Talk, yard: YardRecord, *, is_seed_first: bool) -> list[Reply]:
    ids, names = talk.data.get("ids", []), talk.data.get("names", [])
    talk.settle()
    try:
        journal_id = uses.decide(
            talk.work,
            yard,
            ids,
            is_seed_first=is_seed_first,
            person_id=talk.person.id,
            now=talk.now,
        )
    except uses.NoSuchSeeding:
        return [talk.reply("seeding.gone")]
    key = "seeding.seed_first" if is_seed_first else "seeding.round_first"
    undo = (talk.say("applying.button_undo"), f"undo:{journal_id}")
    return [talk.reply(key, rows([undo]), zones=", ".join(names))]


def _take_sown(talk: Talk, yard: YardRecord, rest: str, text: str) -> list[Reply]:
    wish = _wish(talk, yard, rest, text)
    if isinstance(wish, Reply):
        return [wish]
    today = talk.today(yard)
    if wish.on is not None and wish.on > today:
        said = say_day(wish.on, today)
        return [talk.reply("seeding.future_sown", said=said, zone=wish.zones[0].name)]
    wish = replace(wish, on=wish.on or talk.said_at(yard).date())
    _, journal_id = uses.sown(talk.work, yard, wish, person_id=talk.person.id, now=talk.now)
    undo = (talk.say("applying.button_undo"), f"undo:{journal_id}")
    return [
        talk.reply(
            "seeding.sown",
            rows([undo]),
            zones=names_of(wish.zones),
            zone=wish.zones[0].name,
            on=say_day(wish.on or today, today),
        )
    ]


def _take_mown(talk: Talk, yard: YardRecord, rest: str, text: str) -> list[Reply] | None:
    zones = yards.zones(talk.work, yard.id)
    on, today = talk.said_at(yard).date(), talk.today(yard)
    when = find_when(rest, talk.said_at(yard))
    if when is not None and not isinstance(when, Unread):
        on, rest = when.at.date(), when.rest
    named, leftover = find_zones(zones, _FILLERS.sub(" ", rest))
    if leftover and not named:
        return None
    if on > today:
        said = say_day(on, today)
        return [talk.reply("seeding.future_mown", said=said, zone=(named or zones)[0].name)]
    done, journal_id = uses.mown(
        talk.work, yard, named or zones, on=on, person_id=talk.person.id, now=talk.now
    )
    if not done:
        return [talk.reply("seeding.mown_none", yard=yard.name)]
    lines = [
        talk.say(
            _mown_key(each, on),
            zone=each.zone,
            count=each.mowings,
            wanted=each.wanted,
            on=say_day(on, today),
            seeded=say_day(each.seed_on, today),
        )
        for each in done
    ]
    if journal_id is None:
        return [Reply("\n".join(lines))]
    undo = (talk.say("applying.button_undo"), f"undo:{journal_id}")
    return [Reply("\n".join(lines), rows([undo]))]


def _mown_key(each: uses.Mown, on: date) -> str:
    if each.is_counted:
        return "seeding.mown_ready" if each.is_grown_in else "seeding.mown"
    return "seeding.mown_early" if on <= each.seed_on else "seeding.mown_before"


def _wish(
    talk: Talk, yard: YardRecord, rest: str, text: str, *, is_ahead: bool = False
) -> uses.Wish | Reply:
    zones = yards.zones(talk.work, yard.id)
    example = zones[0].name if zones else "front"
    label_days = None
    label = _LABEL.search(rest)
    if label is not None:
        label_days = round(int(label["number"]) * _DAYS_IN[label["unit"][0].lower()])
        rest = rest.replace(label[0], " ")
    on: date | None = None
    when = find_when(rest, talk.said_at(yard))
    if isinstance(when, Unread):
        return Reply(when.sentence(talk.chat.language))
    if when is not None:
        on, rest = when.at.date(), when.rest
        if is_ahead and not re.search(r"\b\d{4}\b", when.said):
            on = _next(on, talk.today(yard))
    method = "slit" if _SLIT.search(rest) else "broadcast"
    rest = _BROADCAST.sub(" ", _SLIT.sub(" ", rest))
    species, rest = _find_species(rest)
    named, leftover = find_zones(zones, _FILLERS.sub(" ", rest))
    if leftover or not zones:
        return talk.reply("seeding.unclear", yard=yard.name, names=names_of(zones), zone=example)
    return uses.Wish(named or zones, species, method, on, label_days, text)


def _next(day: date, today: date) -> date:
    """Return the next such day of a year: people ask about seed to come, not about last year's."""
    while day < today:
        leap = (day.month, day.day) == (2, 29)
        day = date(day.year + 1, 2, 28) if leap else day.replace(year=day.year + 1)
    return day


def _find_species(text: str) -> tuple[str | None, str]:
    """Return the species a text names, and the text without it; longer names first."""
    names = [(name, key) for key, row in turf_species().items() for name in row.names]
    for name, key in sorted(names, key=lambda pair: -len(pair[0])):
        pattern = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", re.IGNORECASE)
        if pattern.search(text):
            return key, pattern.sub(" ", text)
    return None, text


def _species_name(key: str) -> str:
    return turf_species()[key].names[0]


def _kept(wish: uses.Wish) -> dict[str, Any]:
    return {
        "zones": [zone.id for zone in wish.zones],
        "species": wish.species,
        "method": wish.method,
        "on": None if wish.on is None else wish.on.isoformat(),
        "label_days": wish.label_days,
        "said": wish.said,
    }


def _wish_kept(talk: Talk, yard: YardRecord) -> uses.Wish:
    data = talk.data
    zones: list[ZoneRecord] = [
        zone for zone in yards.zones(talk.work, yard.id) if zone.id in data["zones"]
    ]
    on = date.fromisoformat(data["on"])
    return uses.Wish(zones, data["species"], data["method"], on, data["label_days"], data["said"])
