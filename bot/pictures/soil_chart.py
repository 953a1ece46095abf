"""The soil chart as values and words: what it shows, and its text equivalent.

This year's line against the band of all past years, the outlook as a fan, and what to do in words.
How it is drawn stands in `bot.pictures.soil_drawing`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta

from bot.saying.catalogue import say
from bot.saying.values import ShortDay
from bot.saying.voice import language_now

Values = tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of days shown under the plot; ``middle`` is its likeliest day, if it has one."""

    label: str
    first: date
    last: date
    middle: date | None = None


@dataclass(frozen=True, slots=True)
class SoilChart:
    """A soil chart as plain values and finished sentences.

    Attributes
    ----------
    title, headline
        What is shown, and what it means for the person.
    badge
        What nobody may miss (an invented climate, old data), a line each; shown in reverse.
    notes
        How fresh the values are, where they come from.
    unit
        ``°F`` or ``°C``: of every temperature here.
    first_day, today
        First day of the arrays, and the day the chart is for.
    this_year, past_mean, past_low, past_high
        One value a day from ``first_day`` on; None where not known.
    fan
        Five lines, lowest first (a tenth, a quarter, a half, three quarters, nine tenths of the
        courses lie below); None before the outlook begins.
    band
        The trade's band: low and high edge.
    spans
        The window and first emergence, where they are in sight.
    this_year_label, past_label, fan_label, band_label, today_label
        What is written on the chart.
    lang
        Language the chart is written in; the one spoken where none is given.
    """

    title: str
    headline: str
    badge: str | None
    notes: tuple[str, ...]
    unit: str
    first_day: date
    today: date
    this_year: Values
    past_mean: Values
    past_low: Values
    past_high: Values
    fan: tuple[Values, Values, Values, Values, Values]
    band: tuple[float, float]
    spans: tuple[Span, ...]
    this_year_label: str
    past_label: str
    fan_label: str
    band_label: str
    today_label: str
    legend: str = ""
    lang: str = field(default_factory=language_now)

    def __post_init__(self) -> None:
        lengths = {len(row) for row in (self.this_year, self.past_mean, *self.fan)}
        lengths |= {len(self.past_low), len(self.past_high)}
        if len(lengths) != 1 or lengths == {0}:
            raise ValueError(f"rows of a chart differ in length, or are empty: {sorted(lengths)}")

    @property
    def days(self) -> int:
        """Number of days shown."""
        return len(self.this_year)

    @property
    def last_day(self) -> date:
        """Last day shown."""
        return self.first_day + timedelta(days=self.days - 1)


def describe(chart: SoilChart) -> str:
    """Return the chart as one line of text, for those who cannot see it."""
    key = "pictures.soil_text"

    def at(values: Values, number: int) -> str:
        return _degrees(chart, values[number])

    known = [i for i, value in enumerate(chart.this_year) if value is not None]
    now = say(f"{key}.now_unknown")
    past = ""
    if known:
        newest = known[-1]
        day = ShortDay(chart.first_day + timedelta(days=newest))
        now = say(f"{key}.now", soil=at(chart.this_year, newest), day=day)
        if chart.past_mean[newest] is not None:
            past = say(
                f"{key}.past",
                mean=at(chart.past_mean, newest),
                low=at(chart.past_low, newest),
                high=at(chart.past_high, newest),
            )
    text = say(
        f"{key}.whole",
        title=chart.title,
        now=now,
        past=past,
        outlook=_outlook_text(chart),
        spans=" ".join(
            say(f"{key}.span", label=span.label[:1].upper() + span.label[1:])
            for span in chart.spans
        ),
        headline=chart.headline,
        notes=" ".join(part for part in (_sentence(chart.badge), *chart.notes) if part),
    )
    return " ".join(text.split())


def _sentence(badge: str | None) -> str:
    lines = (badge or "").split("\n")
    return " ".join(f"{line.rstrip('.')}." for line in lines if line)


def _outlook_text(chart: SoilChart) -> str:
    low, _, middle, _, high = chart.fan
    ahead = [i for i, value in enumerate(middle) if value is not None]
    if not ahead:
        return ""
    key = "pictures.soil_text"
    # Two weeks on, or as far as the outlook goes.
    number = min(ahead[-1], max(ahead[0], (chart.today - chart.first_day).days + 14))
    parts = [
        say(
            f"{key}.outlook",
            day=ShortDay(chart.first_day + timedelta(days=number)),
            middle=_degrees(chart, middle[number]),
            low=_degrees(chart, low[number]),
            high=_degrees(chart, high[number]),
        )
    ]
    course = [as_float(middle[i]) for i in ahead]
    for edge in chart.band:
        if course[0] >= edge:
            continue
        there = next((i for i, value in zip(ahead, course, strict=True) if value >= edge), None)
        if there is not None:
            day = ShortDay(chart.first_day + timedelta(days=there))
            parts.append(say(f"{key}.reaches", edge=_degrees(chart, edge), day=day))
    return " ".join(parts)


def _degrees(chart: SoilChart, value: float | None) -> str:
    places = 0 if chart.unit == "°F" else 1
    number = f"{round(as_float(value), places) + 0.0:.{places}f}"  # + 0: no minus before a zero
    return say("pictures.degrees", number=number, unit=chart.unit)


def as_float(value: float | None) -> float:
    """Return a value, or NaN where it is not known."""
    return float("nan") if value is None else value
