"""Alerts of the rest of the year in words: late summer, the dormant half, seed, what came of it."""

from __future__ import annotations

from datetime import date
from typing import Final

from bot.hearing.readers.dates import say_day
from bot.saying.catalogue import say
from bot.saying.figures import UnitSystem, say_temp
from bot.talk.letter_facts import is_shelf_enough, shelf_text
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.season import Kind, Target
from jobs.local_days import local
from jobs.messenger import Letter
from jobs.outlooks import Judged

_WITH_CALL: Final = (Kind.WINDOW_OPEN, Kind.ACT_NOW, Kind.BARRIER_FADING)
_WITH_FIGURES: Final = (Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW)


def write(letter: Letter) -> Reply | None:
    """Put an alert of the rest of the year into words; None where it is one of spring."""
    facts = letter.facts
    if facts.get("is_dormant"):
        return _dormant(letter)
    if facts.get("is_capped"):
        zones = ", ".join(facts["zones"])
        text = say("rounds.barrier_capped", letter.language, yard=letter.yard_name, zones=zones)
        return Reply(text)
    if facts.get("is_call_capped"):
        return Reply(
            say(
                "year.call_capped",
                letter.language,
                yard=letter.yard_name,
                zones=", ".join(facts["zones"]),
                weed=say(f"year.weed_{letter.target}", letter.language),
            )
        )
    if facts.get("is_seen_any"):
        return _seen_any(letter)
    if letter.kind == Kind.SEEDING_POSSIBLE:
        today = local(letter.at, letter.timezone).date()
        on = say_day(date.fromisoformat(facts["seed_on"]), today, letter.language)
        zone = facts["zone"]
        return Reply(say("year.seed_now", letter.language, yard=letter.yard_name, zone=zone, on=on))
    if letter.target == Target.WINTER_ANNUALS and letter.kind in _WINTER:
        return _late_summer(letter)
    return None


def digest_key(letter: Letter) -> str | None:
    """Return the sentence for an alert of the rest of the year among others; None for spring's."""
    again = "_again" if letter.facts.get("is_closed_again") else ""
    word = letter.facts.get("word")
    if word is not None:
        return f"year.digest_{str(word).split(':')[0]}"
    if letter.facts.get("is_call_capped"):
        return "year.digest_call_capped"
    if letter.target == Target.WINTER_ANNUALS and letter.kind in _WINTER:
        shelf = "_shelf" if is_shelf_enough(letter) else ""
        return f"year.digest_{letter.kind}" + again + shelf
    return None


_WINTER: Final = frozenset(
    {
        Kind.SOIL_WARMING,
        Kind.WINDOW_OPEN,
        Kind.ACT_NOW,
        Kind.WINDOW_MISSED,
        Kind.SEASON_OVER,
        Kind.BARRIER_FADING,
    }
)


def _late_summer(letter: Letter) -> Reply:
    facts, language = letter.facts, letter.language
    today = local(letter.at, letter.timezone).date()
    judged = Judged.from_json(dict(facts)) if "p50" in facts else None
    up = "?"
    if judged is not None and judged.p50 is not None:
        up = say_day(judged.p50, today, language)
    region = facts.get("region_date")
    weak = [say("year.weak", language, ingredient=name) for name in facts.get("weak") or ()]
    text = say(
        f"year.{letter.kind}"
        + ("_again" if facts.get("is_closed_again") else "")
        + ("_shelf" if is_shelf_enough(letter) else ""),
        language,
        yard=letter.yard_name,
        zones=", ".join(facts.get("open_zones") or ()) or say("letters.all", language),
        up=up,
        region="?" if region is None else say_day(date.fromisoformat(region), today, language),
        weak=" ".join(weak),
        shelf=shelf_text(letter),
    )
    lines = [text.rstrip()]
    if judged is not None and letter.kind in _WITH_FIGURES:
        lines += _figures(letter, judged, today)
    buttons: Buttons = ()
    if letter.kind in _WITH_CALL:
        buttons = (*_call(letter), *later_row(letter))
    return Reply("\n".join(lines), buttons)


def _figures(letter: Letter, judged: Judged, today: date) -> list[str]:
    lines = []
    if judged.soil_5day_c is not None and judged.known_until is not None:
        lines.append(
            say(
                "year.figures",
                letter.language,
                soil=say_temp(judged.soil_5day_c, _units(letter)),
                known=say_day(judged.known_until, today, letter.language),
            )
        )
    lines.append(say("rounds.moisture", letter.language))
    if judged.is_invented:
        lines.append(say("help.invented", letter.language))
    return lines


def _dormant(letter: Letter) -> Reply:
    soil_c = letter.facts.get("soil_5day_c")
    soil = "?" if soil_c is None else say_temp(float(soil_c), _units(letter))
    text = say("year.dormant", letter.language, yard=letter.yard_name, soil=soil)
    return Reply(text, _call(letter))


def _seen_any(letter: Letter) -> Reply:
    buttons = rows(
        [
            (say("year.button_none", letter.language), f"seen:none:{letter.yard_id}"),
            (say("year.button_some", letter.language), f"seen:some:{letter.yard_id}"),
        ]
    )
    return Reply(say("year.seen_any", letter.language, yard=letter.yard_name), buttons)


def _call(letter: Letter) -> Buttons:
    return rows(
        [
            (say("amounts.button_applied", letter.language), f"apply:all:{letter.yard_id}"),
            (say("yards.button_amounts", letter.language), f"amounts:{letter.yard_id}"),
        ]
    )


def later_row(letter: Letter) -> Buttons:
    """Return the buttons that put a call off, or silence its target for the year."""
    mute = f"mute:{letter.yard_id}:{letter.target}"
    return rows(
        [
            (say("letters.button_later", letter.language), f"later:ask:{letter.yard_id}"),
            (say("letters.button_mute", letter.language), mute),
        ]
    )


def _units(letter: Letter) -> UnitSystem:
    return "metric" if letter.units == "metric" else "us"
