"""Alerts in words: what to do and until when, in a few lines; the figures stand behind [Why]."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Final

from bot.letters import digest_letters, letter_facts, year_letters
from bot.letters.days_in_words import alert_lines
from bot.letters.letter_facts import is_shelf_enough, shelf_text, trouble_lines, turn_lines
from bot.letters.watering_words import later_call, water_lines
from bot.saying.catalogue import say
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Day, Depth, Names
from bot.saying.voice import speaking
from bot.turn import Button, Buttons, Reply
from jobs.agronomy.season import Kind
from jobs.data_trouble import Trouble
from jobs.judged import Judged
from jobs.local_days import local
from jobs.messenger import Letter
from jobs.weather_of_day import Advice

_Day = Callable[[date | None], Day | str]

#: Buttons under each kind: (label key, action with the yard's id).
_BUTTONS: Final[dict[str, tuple[tuple[str, str], ...]]] = {
    Kind.SOIL_WARMING: (
        ("buying.button_buy", "buy:show:{0}"),
        ("yards.button_amounts", "amounts:{0}"),
        ("timing.button_why", "why:{0}"),
    ),
    Kind.WINDOW_OPEN: (
        ("amounts.button_applied", "apply:all:{0}"),
        ("yards.button_amounts", "amounts:{0}"),
        ("timing.button_why", "why:{0}"),
    ),
    Kind.ACT_NOW: (
        ("amounts.button_applied", "apply:all:{0}"),
        ("yards.button_amounts", "amounts:{0}"),
        ("timing.button_why", "why:{0}"),
    ),
    Kind.WATER_IN: (("letters.button_watered", "water:done:{0}"),),
    Kind.SECOND_HALF_DUE: (
        ("amounts.button_applied", "apply:all:{0}"),
        ("yards.button_amounts", "amounts:{0}"),
        ("timing.button_why", "why:{0}"),
    ),
    Kind.BARRIER_FADING: (
        ("amounts.button_applied", "apply:all:{0}"),
        ("yards.button_amounts", "amounts:{0}"),
        ("timing.button_why", "why:{0}"),
    ),
}


def write(letter: Letter) -> Reply:
    """Put an alert into words, in the chat's language and units of today."""
    with speaking(letter.language, letter.units):
        return _written(letter)


def _written(letter: Letter) -> Reply:
    if letter.others:
        return digest_letters.write(letter)
    of_the_year = year_letters.write(letter)
    if of_the_year is not None:
        return of_the_year
    facts = letter.facts
    today = local(letter.at, letter.timezone).date()
    judged = Judged.from_json(dict(facts)) if "p50" in facts else None

    def day(value: date | None) -> Day | str:
        return "?" if value is None else Day(value, today)

    def depth(name: str) -> Depth:
        return Depth(float(facts.get(name, 0.0)) / 1000)

    params: dict[str, object] = {
        # Zones are named where it is not all of the yard that lacks water.
        "yard": Names((letter.yard_name, *facts.get("dry", ()))),
        "zones": facts.get("open_zones") or say("letters.all"),
        "had": depth("had_mm"),
        "wanted": depth("wanted_mm"),
        "missing": Depth(_missing_mm(letter) / 1000),
        "by": day(date.fromisoformat(facts["by"]) if "by" in facts else None),
        "number": int(facts.get("rounds_done", 0)) + 1,
        "rounds": facts.get("rounds", 1),
        "age": facts.get("age_days", 0),
        "shelf": shelf_text(letter),
        "form": facts.get("form") or "granule",
    }
    lines = [_sentence(letter, judged, params, day)]
    is_call = letter.kind in _WITH_AMOUNT and not facts.get("is_closed_again")
    if judged is not None and letter.kind in _FIRST_CALLS and not facts.get("is_closed_again"):
        lines += turn_lines(judged)
    needed = facts.get("needed")
    if needed is not None and is_call:
        amount = Quantity(needed["si"], needed["unit"], needed.get("most_si"))
        lines.append(say("letters.needed", amount=amount))
    if "days" in facts:
        lines += alert_lines(Advice.from_json(facts["days"]), today)
    lines += letter_facts.call_lines(facts)
    if letter.kind == Kind.WATER_IN:
        lines += water_lines(facts, letter.timezone, today)
    if judged is not None and letter.kind in _BY_SOIL and not judged.has_clear_spring:
        lines.append(say("letters.rough"))
    if "trouble" in facts and letter.kind != Kind.DATA_STALE:
        trouble = Trouble.from_json(facts["trouble"])
        lines += trouble_lines(trouble, today)
    if judged is not None and judged.is_invented:
        lines.append(say("help.invented"))
    buttons: Buttons = ()
    pairs = _BUTTONS.get(letter.kind, ())
    if pairs:
        row = tuple(Button(say(key), action.format(letter.yard_id)) for key, action in pairs)
        buttons = (row[:3], *((row[3:],) if row[3:] else ()), *_later_row(letter))
    data = {"day": facts["days"]} if "days" in facts else None
    return Reply("\n".join(lines), buttons, data=data)


#: What may be put off, or left for this season.
_MAY_WAIT: Final = frozenset(
    {Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW, Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING}
)
_FIRST_CALLS: Final = frozenset({Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW})
_WITH_AMOUNT: Final = frozenset({Kind.SOIL_WARMING, Kind.WINDOW_OPEN})
_BY_SOIL: Final = frozenset(
    {Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW, Kind.WINDOW_MISSED, Kind.SECOND_HALF_DUE}
)


def _later_row(letter: Letter) -> Buttons:
    return year_letters.later_row(letter) if letter.kind in _MAY_WAIT else ()


def _sentence(letter: Letter, judged: Judged | None, params: dict[str, object], day: _Day) -> str:
    key = f"letters.{letter.kind}"
    if letter.facts.get("is_back"):
        key += "_back"
    if letter.facts.get("is_closed_again"):
        key += "_again"
    elif is_shelf_enough(letter):
        key += "_shelf"
    key += later_call(letter.facts)
    if judged is not None and judged.p50 is not None:
        params["up"] = day(judged.p50)
        closes = judged.deadline_on or judged.p50
        params |= {"closes": day(closes), "one_in": judged.one_in}
        today = date.fromisoformat(letter.facts["today"])
        weeks = max(1, round((judged.p50 - today).days / 7))
        params["weeks"] = weeks
        if letter.kind in (Kind.WINDOW_OPEN, Kind.ACT_NOW):
            key += "_late" if closes < today else ""
    return say(key, **params)


def _missing_mm(letter: Letter) -> float:
    facts = letter.facts
    return max(0.0, float(facts.get("wanted_mm", 0.0)) - float(facts.get("had_mm", 0.0)))
