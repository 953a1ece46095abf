"""Several yards of one person in one message: what to do where, grouped by what it is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date
from typing import Final

from bot.letters import letter_facts, year_letters
from bot.letters.letter_facts import is_shelf_enough, trouble_lines
from bot.letters.watering_words import later_call
from bot.saying.catalogue import has, say, shown
from bot.saying.printed_amounts import Quantity
from bot.saying.shown_names import first_named
from bot.saying.values import Day, Depth, Names, Temperature, Value
from bot.turn import Button, Reply
from jobs.agronomy.amounts import Amount
from jobs.agronomy.season import Kind
from jobs.agronomy.units import c_from_f
from jobs.agronomy.whats_next import last_day
from jobs.data_trouble import Trouble
from jobs.judged import Judged
from jobs.local_days import local
from jobs.messenger import Letter

_BAND_C: Final = (c_from_f(50.0), c_from_f(55.0))
#: The order of what is most pressing.
_ORDER: Final = (
    Kind.ACT_NOW,
    Kind.WINDOW_OPEN,
    Kind.WATER_IN,
    Kind.SECOND_HALF_DUE,
    Kind.BARRIER_FADING,
    Kind.SOIL_WARMING,
)
_TO_LOAD: Final = frozenset({Kind.ACT_NOW, Kind.WINDOW_OPEN, Kind.SECOND_HALF_DUE})
#: What may be put off.
PUT_OFF: Final = frozenset({Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.SECOND_HALF_DUE})
#: Under this many yards each gets a button of its own; more are answered page by page.
_FEW: Final = 4


def write(letter: Letter) -> Reply:
    """Put several alerts into one message."""
    letters = [letter, *letter.others]
    yards = {each.yard_id: each.yard_name for each in letters}
    lines = [say("letters.digest_head", count=len(yards))]
    for key, group in _groups(letters):
        alike: dict[str, tuple[dict[str, Value], list[str]]] = {}
        for each in group:
            more = _until(each)
            key_of = "/".join(map(str, more.values()))
            alike.setdefault(key_of, (more, []))[1].append(each.yard_name)
        lines.append(say(key, yards=Names([_alike(*each) for each in alike.values()], "apart")))
    load = _load(letters)
    if load:
        lines.append(say("letters.digest_load", amounts=load))
    lines += dict.fromkeys(line for each in letters for line in letter_facts.call_lines(each.facts))
    lines += _soil(letters)
    lines += _troubles(letters)
    if any(each.facts.get("is_invented") for each in letters):
        lines.append(say("help.invented"))
    first = Button(say("letters.digest_button"), "round:page:0")
    rows: list[tuple[Button, ...]] = [(first,)]
    answers = []
    if sum(each.kind == Kind.WATER_IN for each in letters) > 1:
        answers.append(
            Button(say("letters.digest_all_watered"), f"digest:watered:{letter.alert_id}")
        )
    if all(each.facts.get("is_seen_any") for each in letters):
        answers.append(Button(say("letters.digest_all_none"), f"digest:none:{letter.alert_id}"))
    if any(each.kind in PUT_OFF for each in letters):
        answers.append(Button(say("letters.digest_all_later"), f"digest:later:{letter.alert_id}"))
    if answers:
        rows.append(tuple(answers))
    if any(each.kind == Kind.SOIL_WARMING for each in letters):
        label = say("letters.digest_shopping")
        rows.append((Button(label, f"buy:season:{letters[0].yard_id}"),))
    if len(yards) >= _FEW and answers:
        rows.append((Button(say("letters.digest_each"), f"digest:each:{letter.alert_id}"),))
    elif len(yards) < _FEW:
        rows += [(Button(name, f"yard:go:{yard_id}"),) for yard_id, name in yards.items()]
    return Reply("\n".join(lines), tuple(rows))


def _groups(letters: list[Letter]) -> Iterator[tuple[str, list[Letter]]]:
    groups: dict[str, list[Letter]] = {}
    for each in sorted(letters, key=_urgency):
        key = f"letters.digest_{each.kind}"
        key += "_back" if each.facts.get("is_back") else ""
        key += later_call(each.facts)
        key += "_again" if each.facts.get("is_closed_again") else ""
        key += "_shelf" if is_shelf_enough(each) else ""
        key = year_letters.digest_key(each) or key
        if not has(key):
            key = "letters.digest_other"
        groups.setdefault(key, []).append(each)
    yield from groups.items()


def _urgency(letter: Letter) -> int:
    kinds = [str(kind) for kind in _ORDER]
    return kinds.index(letter.kind) if letter.kind in kinds else len(kinds)


def _alike(more: dict[str, Value], names: list[str]) -> str:
    """Return yards of which the same is so in one phrase, the first few by name."""
    yards = first_named(names)
    if "missing" in more:
        return say("letters.digest_missing", yard=yards, **more)
    return say("letters.digest_by", yard=yards, **more) if more else str(yards)


def _until(letter: Letter) -> dict[str, Value]:
    """Return until when, and how much is missing, where a call says so."""
    facts = letter.facts
    today = local(letter.at, letter.timezone).date()
    if year_letters.digest_key(letter) is not None:
        return {}
    if letter.kind in (Kind.WINDOW_OPEN, Kind.ACT_NOW) and facts.get("p50"):
        judged = Judged.from_json(dict(facts))
        by, _ = last_day(judged.deadline_on, judged.p50 or today, today)
        return {"by": Day(by, today)}
    if letter.kind == Kind.WATER_IN and "by" in facts:
        missing = max(0.0, float(facts["wanted_mm"]) - float(facts["had_mm"]))
        by = date.fromisoformat(facts["by"])
        return {"missing": Depth(missing / 1000), "by": Day(by, today)}
    return {}


def _load(letters: list[Letter]) -> Names:
    """Sum what the yards take, weights and volumes apart."""
    sums: dict[str, Amount] = {}
    most_si: dict[str, float] = {}
    for each in letters:
        needed = each.facts.get("needed")
        if needed is None or each.kind not in _TO_LOAD:
            continue
        held = sums.get(needed["unit"])
        si = needed["si"] + (0.0 if held is None else held.si)
        sums[needed["unit"]] = Amount(si, needed["unit"])
        most = needed.get("most_si")
        held_most = most_si.get(needed["unit"], 0.0)
        most_si[needed["unit"]] = held_most + (math.inf if most is None else most)
    return Names([Quantity.of(amount, most_si[unit]) for unit, amount in sums.items()])


def _soil(letters: list[Letter]) -> list[str]:
    judged = [Judged.from_json(dict(each.facts)) for each in letters if "p50" in each.facts]
    known = [each for each in judged if each.soil_5day_c is not None]
    if not known:
        return []
    temperatures = [each.soil_5day_c for each in known if each.soil_5day_c is not None]
    low, high = min(temperatures), max(temperatures)
    newest = min(each.known_until for each in known if each.known_until is not None)
    first = letters[0]
    today = local(first.at, first.timezone).date()
    is_one = shown(Temperature(low)) == shown(Temperature(high))
    return [
        say(
            "letters.digest_soil_one" if is_one else "letters.digest_soil",
            low=Temperature(low),
            high=Temperature(high),
            known=Day(newest, today),
            band_low=Temperature(_BAND_C[0]),
            band_high=Temperature(_BAND_C[1]),
        )
    ]


def _troubles(letters: list[Letter]) -> list[str]:
    said: dict[str, None] = {}
    for each in letters:
        if "trouble" not in each.facts or each.kind == Kind.DATA_STALE:
            continue
        today = local(each.at, each.timezone).date()
        for line in trouble_lines(Trouble.from_json(each.facts["trouble"]), today):
            said[line] = None
    return list(said)[:2]
