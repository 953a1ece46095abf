"""Alerts of the rest of the year in words: late summer, the dormant half, seed, what came of it."""

from __future__ import annotations

from datetime import date
from typing import Final

from bot.letters.days_in_words import alert_lines
from bot.letters.letter_facts import is_shelf_enough, shelf_text
from bot.saying.catalogue import say
from bot.saying.plants import say_ingredient
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Day, Names, Temperature
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.season import Kind, Target
from jobs.judged import Judged
from jobs.local_days import local
from jobs.messenger import Letter
from jobs.weather_of_day import Advice

_WITH_CALL: Final = (Kind.WINDOW_OPEN, Kind.ACT_NOW, Kind.BARRIER_FADING)
_TO_PUT_DOWN: Final = (Kind.WINDOW_OPEN, Kind.ACT_NOW)
_WITH_FIGURES: Final = (Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW)


def write(letter: Letter) -> Reply | None:
    """Put an alert of the rest of the year into words; None where it is one of spring."""
    facts = letter.facts
    if facts.get("is_dormant"):
        return _dormant(letter)
    if facts.get("is_capped"):
        zones = Names(facts["zones"])
        text = say("rounds.barrier_capped", yard=letter.yard_name, zones=zones)
        return Reply(text)
    if facts.get("is_call_capped"):
        return Reply(
            say(
                "year.call_capped",
                yard=letter.yard_name,
                zones=Names(facts["zones"]),
                weed=say(f"year.weed_{letter.target}"),
            )
        )
    if facts.get("is_seen_any"):
        return _seen_any(letter)
    if facts.get("is_late_summer_offer"):
        return _offer(letter)
    if facts.get("is_still_time"):
        return _still_time(letter)
    if letter.kind == Kind.SEEDING_POSSIBLE:
        today = local(letter.at, letter.timezone).date()
        on = Day(date.fromisoformat(facts["seed_on"]), today)
        zone = facts["zone"]
        return Reply(say("year.seed_now", yard=letter.yard_name, zone=zone, on=on))
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
    facts = letter.facts
    today = local(letter.at, letter.timezone).date()
    judged = Judged.from_json(dict(facts)) if "p50" in facts else None
    up: Day | str = "?"
    if judged is not None and judged.p50 is not None:
        up = Day(judged.p50, today)
    key = f"year.{letter.kind}"
    key += "_again" if facts.get("is_closed_again") else ""
    key += "_shelf" if is_shelf_enough(letter) else ""
    closes = _closes(letter, judged)
    if letter.kind in _TO_PUT_DOWN and (closes is None or closes <= today):
        key += "_late"
    one_in = _one_in(judged, closes)
    if key in _WITH_ODDS and one_in is None:
        key += "_region"
    text = say(
        key,
        yard=letter.yard_name,
        zones=facts.get("open_zones") or say("letters.all"),
        up=up,
        closes="" if closes is None else Day(closes, today),
        one_in=one_in,
        shelf=shelf_text(letter),
    )
    lines = [text]
    is_call = letter.kind in _WITH_FIGURES and not facts.get("is_closed_again")
    if is_call:
        lines += _call_lines(letter, today)
    if judged is not None and letter.kind in _WITH_FIGURES:
        lines += [say("help.invented")] if judged.is_invented else []
    buttons: Buttons = ()
    if letter.kind in _WITH_CALL:
        buttons = (*_call(letter), *later_row(letter))
    elif is_call:
        buttons = (*_buying(letter), *later_row(letter))
    data = {"day": facts["days"]} if "days" in facts and is_call else None
    return Reply("\n".join(lines), buttons, data=data)


def _closes(letter: Letter, judged: Judged | None) -> date | None:
    """Return by when to have it down: by the soil, or a published date still ahead if sooner."""
    by = [] if judged is None or judged.deadline_on is None else [judged.deadline_on]
    region = letter.facts.get("region_date")
    today = local(letter.at, letter.timezone).date()
    if region is not None and letter.facts.get("is_region_published"):
        day = date.fromisoformat(region)
        by += [day] if day > today else []
    return min(by, default=None)


#: What names a deadline, with the chance that weeds come first or that nobody knows it.
_WITH_ODDS: Final = ("year.window_open", "year.act_now")


def _one_in(judged: Judged | None, closes: date | None) -> int | None:
    """Return in one year of how many weeds come before a deadline helps; None: nobody knows.

    Where no soil falls through the event's warmth a region's date stands for it, which has no odds.
    """
    if judged is None or closes is None or judged.p10 == judged.p90:
        return None
    return judged.one_in_by(closes)


def _call_lines(letter: Letter, today: date) -> list[str]:
    """Return what a call says beside its first line: how much, the days, the region's date."""
    facts = letter.facts
    lines = []
    needed = facts.get("needed")
    if needed is not None:
        said = Quantity(needed["si"], needed["unit"], needed.get("most_si"))
        lines.append(say("letters.needed", amount=said))
    if "days" in facts:
        advice = Advice.from_json(facts["days"])
        lines += alert_lines(advice, today)
    if letter.kind == Kind.SOIL_WARMING:
        lines += _region(letter, today)
    lines += [say("year.weak", ingredient=say_ingredient(name)) for name in facts.get("weak") or ()]
    return lines


def _region(letter: Letter, today: date) -> list[str]:
    """Return the region's date: a published one, or ours."""
    region = letter.facts.get("region_date")
    if region is None:
        return []
    key = "year.region" if letter.facts.get("is_region_published") else "year.region_ours"
    on = Day(date.fromisoformat(region), today)
    return [say(key, region=on)]


def _offer(letter: Letter) -> Reply:
    today = local(letter.at, letter.timezone).date()
    lines = [say("year.offer", yard=letter.yard_name), *_region(letter, today)]
    lines += [
        say("year.weak", ingredient=say_ingredient(name)) for name in letter.facts.get("weak") or ()
    ]
    lines.append(say("year.offer_seed"))
    buttons = rows(
        [
            (say("year.button_offer_yes"), f"rounds:late:{letter.yard_id}"),
            (say("year.button_offer_no"), f"rounds:nolate:{letter.yard_id}"),
        ]
    )
    return Reply("\n".join(lines), buttons)


def _dormant(letter: Letter) -> Reply:
    soil_c = letter.facts.get("soil_5day_c")
    soil = "?" if soil_c is None else Temperature(float(soil_c))
    text = say("year.dormant", yard=letter.yard_name, soil=soil)
    return Reply(text, _call(letter))


def _seen_any(letter: Letter) -> Reply:
    buttons = rows(
        [
            (say("year.button_none"), f"seen:none:{letter.yard_id}"),
            (say("year.button_some"), f"seen:some:{letter.yard_id}"),
        ]
    )
    return Reply(say("year.seen_any", yard=letter.yard_name), buttons)


def _still_time(letter: Letter) -> Reply:
    """It is past the deadline and nothing is up: what an application does now, and for how long."""
    facts, today = letter.facts, local(letter.at, letter.timezone).date()
    days = {
        name: Day(date.fromisoformat(facts[name]), today)
        for name in ("was", "up", "ends")
        if facts[name] is not None
    }
    params = {"yard": letter.yard_name, "ends": say("timing.summer"), **days}
    lines = [say("year.still_time", **params)]
    lasts = facts.get("lasts")
    if lasts is not None and lasts[2] > 0:
        name, low, high = lasts
        lines.append(say("year.still_lasts", ingredient=say_ingredient(name), low=low, high=high))
    if facts.get("acts_on_seedlings"):
        lines.append(say("year.still_seedlings"))
    why = rows([(say("timing.button_why"), f"why:{letter.yard_id}")])
    return Reply("\n".join(lines), (*_call(letter), *why, *later_row(letter)))


def _call(letter: Letter) -> Buttons:
    return rows(
        [
            (say("amounts.button_applied"), f"apply:all:{letter.yard_id}"),
            (say("yards.button_amounts"), f"amounts:{letter.yard_id}"),
        ]
    )


def _buying(letter: Letter) -> Buttons:
    return rows(
        [
            (say("buying.button_buy"), f"buy:show:{letter.yard_id}"),
            (say("yards.button_amounts"), f"amounts:{letter.yard_id}"),
        ]
    )


def later_row(letter: Letter) -> Buttons:
    """Return the buttons that put a call off, or silence its target for the year."""
    mute = f"mute:{letter.yard_id}:{letter.target}"
    return rows(
        [
            (say("letters.button_later"), f"later:ask:{letter.yard_id}"),
            (say("letters.button_mute"), mute),
        ]
    )
