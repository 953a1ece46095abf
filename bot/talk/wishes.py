"""Wishes in plain words: free hours, watering, ground, sprinkler, label."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Final

from bot.hearing.readers.wishes import (
    read_cans,
    read_free_hours,
    read_label_terms,
    read_weekdays,
)
from bot.saying.figures import say_depth
from bot.talk import manners
from bot.talk.manners import pattern_of
from bot.talk.products import say_product
from bot.talk.talk import Talk
from bot.talk.watering import run_words
from bot.turn import Reply
from jobs.agronomy.units import M_S_PER_MPH
from jobs.agronomy.watering import sprinkler_minutes
from jobs.manners import opens_at
from jobs.uses import watering as watering_uses
from jobs.uses import wishes as uses
from jobs.weather_of_day import (
    can_water,
    rules_of,
    run_of,
    water_terms,
    weekdays_in,
)
from storage import products, wishes
from storage.yards import YardRecord

_GROUNDS: Final = {
    "sand": "sand",
    "sandy": "sand",
    "sandy loam": "sandy_loam",
    "loam": "loam",
    "loamy": "loam",
    "silt": "loam",
    "clay loam": "clay_loam",
    "clay": "clay",
    "heavy": "clay",
}
_GROUND: Final = "|".join(sorted(_GROUNDS, key=len, reverse=True))


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take a wish in words; None where the text is none."""
    said = " ".join(text.split()).strip(" .!")
    replies = manners.answered(_PATTERNS, talk, yard, said, text)
    return manners.take(talk, yard, said, text) if replies is None else replies


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Show a yard's and this chat's wishes."""
    said, chat = wishes.of_yard(talk.work, yard.id), wishes.of_chat(talk.work, talk.chat.id)
    free = talk.say("wishes.summary_any")
    if said.free_hours is not None:
        spans = {int(day): (span[0], span[1]) for day, span in said.free_hours.items()}
        free = talk.say("wishes.summary_free", hours=_spans(talk, spans))
    days = weekdays_in(yard.water_days or "")
    if yard.is_water_banned:
        water = talk.say("wishes.summary_banned")
    elif not can_water(yard):
        water = talk.say("wishes.summary_cannot")
    elif days is None:
        water = talk.say("wishes.summary_water_any")
    else:
        water = talk.say("wishes.summary_water_days", days=_days(talk, days))
    ground = "summary_ground_unknown" if said.ground is None else f"grounds.{said.ground}"
    sprinkler = talk.say("wishes.summary_no_sprinkler")
    if said.sprinkler_mm_h is not None:
        rate = say_depth(said.sprinkler_mm_h / 1000, talk.unit_system)
        sprinkler = talk.say("wishes.summary_sprinkler", rate=rate)
    return [
        talk.reply(
            "wishes.summary",
            yard=yard.name,
            free=free,
            water=water,
            ground=talk.say(f"wishes.{ground}"),
            slope=talk.say("wishes.summary_slope") if said.is_slope else "",
            sprinkler=sprinkler,
            quiet=manners.quiet_words(talk, chat),
            wake=manners.clock(talk, opens_at(chat)),
            cap=chat.daily_cap,
            yards=chat.yards_a_day,
        )
    ]


def _free(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    read = read_free_hours(match["rest"])
    if read is None:
        return [talk.reply("wishes.free_unread")]
    if read == "any":
        _change(talk, yard, {"free_hours": None}, said)
        return [talk.reply("wishes.free_any", yard=yard.name)]
    _change(talk, yard, {"free_hours": {str(day): list(span) for day, span in read.items()}}, said)
    return [talk.reply("wishes.free_set", yard=yard.name, hours=_spans(talk, read))]


def _water_days(
    talk: Talk, yard: YardRecord, match: re.Match[str], said: str
) -> list[Reply] | None:
    days = read_weekdays(match["rest"])
    if not days:
        return None
    is_any = len(days) == 7
    names = None if is_any else ", ".join(_NAMES[day] for day in sorted(days))
    _change_watering(talk, yard, {"water_days": names}, said)
    if is_any:
        return [talk.reply("wishes.water_days_any", yard=yard.name)]
    return [talk.reply("wishes.water_days", yard=yard.name, days=_days(talk, days))]


def _ban(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    is_over = re.search(r"\b(no|over|ended|lifted|off)\b", said, re.IGNORECASE) is not None
    _change_watering(talk, yard, {"is_water_banned": not is_over}, said)
    return [talk.reply("wishes.ban_over" if is_over else "wishes.banned", yard=yard.name)]


def _can_water(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    cannot = re.search(r"\bcan'?t|cannot|can\s+not|no\s", said, re.IGNORECASE) is not None
    _change_watering(talk, yard, {"water_how": "none" if cannot else None}, said)
    return [talk.reply("wishes.cannot_water" if cannot else "wishes.can_water", yard=yard.name)]


def _set_ground(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    key = _GROUNDS[(match["ground"] or match["first"]).casefold()]
    _change(talk, yard, {"ground": key}, said)
    ground = talk.say(f"wishes.grounds.{key}")
    return [talk.reply("wishes.ground", yard=yard.name, ground=ground)]


def _slope(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    is_slope = re.search(r"\b(no|not|level|flat)\b", said, re.IGNORECASE) is None
    _change(talk, yard, {"is_slope": is_slope}, said)
    return [talk.reply("wishes.slope" if is_slope else "wishes.level", yard=yard.name)]


def _sprinkler(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    read = read_cans(match["rest"])
    try:
        if read is None:
            raise ValueError(match["rest"])
        caught = watering_uses.caught([depth * 1000 for depth in read[0]], read[1])
    except ValueError:
        return [talk.reply("watering.sprinkler_unread")]
    after = _change(talk, yard, {"sprinkler_mm_h": caught.rate_mm_h}, said)
    wanted_mm = water_terms(talk.work, yard).depth_mm
    lines = [
        talk.say(
            "watering.sprinkler",
            rate=say_depth(caught.rate_mm_h / 1000, talk.unit_system),
            depth=say_depth(wanted_mm / 1000, talk.unit_system),
            minutes=round(sprinkler_minutes(wanted_mm, caught.rate_mm_h)),
        )
    ]
    run = run_of(after, wanted_mm)
    if run is not None and run.count > 1:
        lines.append(run_words(run, talk.chat.language))
    if caught.evenness < _EVEN:
        share = round(100 * caught.evenness)
        lines.append(talk.say("watering.sprinkler_uneven", share=share))
    return [Reply("\n".join(lines))]


def _label(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply] | None:
    is_cleared = re.fullmatch(r"nothing|no\s+limits", match["rest"], re.IGNORECASE) is not None
    terms = None if is_cleared else read_label_terms(match["rest"])
    if terms is None and not is_cleared:
        return None
    try:
        kept = uses.change_label(
            talk.work, yard, terms, person_id=talk.person.id, now=talk.now, said=said
        )
    except uses.NoProductForLabel:
        return [talk.reply("wishes.label_product")]
    if not kept:
        return [talk.reply("wishes.label_cleared")]
    assert yard.product_id is not None
    product = say_product(talk, products.product(talk.work, yard.product_id))
    return [talk.reply("wishes.label_set", product=product, terms=_terms(talk, yard, kept))]


def _show(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    return show(talk, yard)


def _change(
    talk: Talk, yard: YardRecord, changes: Mapping[str, Any], said: str
) -> wishes.YardWishes:
    return uses.change_yard(
        talk.work, yard, changes, person_id=talk.person.id, now=talk.now, said=said
    )


def _change_watering(talk: Talk, yard: YardRecord, changes: Mapping[str, Any], said: str) -> None:
    uses.change_watering(
        talk.work, yard, changes, person_id=talk.person.id, now=talk.now, said=said
    )


def _terms(talk: Talk, yard: YardRecord, kept: Mapping[str, Any]) -> str:
    rules = rules_of(talk.work, yard)
    parts = []
    if "water_in_mm" in kept:
        depth = say_depth(rules.water_in_mm / 1000, talk.unit_system)
        parts.append(talk.say("wishes.label_water", depth=depth))
    if "water_in_hours" in kept:
        parts.append(talk.say("wishes.label_within", hours=rules.water_in_hours))
    if "wind_high_m_s" in kept:
        speed = rules.wind_high_m_s
        key, value = (
            ("metric", f"{speed:.1f}") if talk.is_metric else ("us", f"{speed / M_S_PER_MPH:.0f}")
        )
        parts.append(talk.say("wishes.label_wind", wind=talk.say(f"days.speed_{key}", value=value)))
    if "leaves" in kept:
        parts.append(talk.say("wishes.label_leaves", leaves=rules.leaves))
    if "dry_hours_after" in kept:
        parts.append(talk.say("wishes.label_dry", hours=rules.dry_hours_after))
    return ", ".join(parts)


def _spans(talk: Talk, spans: Mapping[int, tuple[int, int]]) -> str:
    by_span: dict[tuple[int, int], list[int]] = {}
    for day, span in sorted(spans.items()):
        by_span.setdefault(span, []).append(day)
    parts = []
    for (first, last), days in by_span.items():
        names = _days(talk, frozenset(days))
        if (first, last) == (0, manners.DAY_MIN):
            parts.append(talk.say("wishes.span_whole", days=names))
            continue
        ends = {"first": manners.clock(talk, first), "last": manners.clock(talk, last)}
        parts.append(talk.say("wishes.span", days=names, **ends))
    return "; ".join(parts)


def _days(talk: Talk, days: frozenset[int]) -> str:
    if len(days) == 7:
        return talk.say("wishes.every_day")
    return ", ".join(talk.say(f"saying.weekday.{day + 1}") for day in sorted(days))


#: Below this a sprinkler is called uneven: distribution uniformity of the low quarter, of which 0.7
#: is a usual goal for sprinklers (common practice, no source).
_EVEN: Final = 0.7
_NAMES: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


_PATTERNS: Final[manners.Patterns] = (
    (
        pattern_of(r"(?:i'?m\s+|i\s+am\s+|we'?re\s+|we\s+are\s+|only\s+)*free:?\s+(?P<rest>.+)"),
        _free,
    ),
    (
        pattern_of(
            r"(?:(?:we|i)\s+(?:may|can)\s+(?:only\s+)?)?(?:water(?:ing)?\s+days?:?|water(?:ing)?"
            r"\s+(?:is\s+)?(?:allowed\s+)?(?:only\s+)?on)\s+(?P<rest>.+)"
        ),
        _water_days,
    ),
    (
        pattern_of(
            r"(?:there\s+is\s+|there'?s\s+)?(?:a\s+|the\s+|no\s+(?:more\s+)?)?watering\s+ban"
            r"(?:\s+(?:now|again|is\s+on|on))?(?:\s+(?:any\s?more))?"
            r"|(?:the\s+)?(?:watering\s+)?ban\s+(?:is\s+)?(?:over|ended|lifted|off)"
        ),
        _ban,
    ),
    (
        pattern_of(
            r"(?:i|we)?\s*(?:can'?t|cannot|can\s+not|can)\s+water(?:\s+(?:it|there|here))?"
            r"|no\s+(?:way\s+to\s+)?water(?:\s+there)?"
        ),
        _can_water,
    ),
    (
        pattern_of(
            rf"(?:(?:the\s+|my\s+)?(?:soil|ground)\s+is\s+|it'?s\s+)(?P<ground>{_GROUND})"
            rf"(?:\s+(?:soil|ground))?|(?P<first>{_GROUND})\s+(?:soil|ground)"
        ),
        _set_ground,
    ),
    (
        pattern_of(
            r"(?:it'?s\s+|it\s+is\s+|the\s+(?:yard|lawn)\s+is\s+)?(?:on\s+)?(?:a\s+|no\s+|not\s+a\s+)?"
            r"(?:steep\s+)?(?:slop(?:e|es|ed|ing|y)|hill|level|flat)(?:\s+(?:ground|yard|lawn))?"
        ),
        _slope,
    ),
    (pattern_of(r"(?:my\s+|the\s+)?sprinklers?:?\s+(?P<rest>.+)"), _sprinkler),
    (pattern_of(r"(?:my\s+|the\s+)?label(?:\s+says)?:?\s+(?P<rest>.+)"), _label),
    (pattern_of(r"(?:my\s+|our\s+)?(?:wishes|settings)"), _show),
)
