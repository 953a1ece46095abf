"""From the values of a soil chart to the chart as it is drawn: units and words."""

from __future__ import annotations

from datetime import date
from typing import Final

import numpy as np

from bot.pictures.soil_chart import SoilChart, Span, Values
from bot.saying.catalogue import say
from bot.saying.values import ShortDay
from bot.saying.voice import UnitSystem
from jobs.agronomy.units import f_from_c
from jobs.agronomy.whats_next import Stage
from jobs.uses.chart_values import SoilChartValues

#: From this age on the data's age stands above all else [days].
_OLD_DAYS: Final = 2

#: A window farther off than this is told as the next one, not as a thing to do [days].
_FAR_DAYS: Final = 100


def soil_chart(values: SoilChartValues, yard: str, system: UnitSystem) -> SoilChart:
    """Return a yard's chart in a person's units and language."""
    is_us = system == "us"

    def shown(array: np.ndarray) -> Values:
        return tuple(
            round(f_from_c(float(c)) if is_us else float(c), 2) if np.isfinite(c) else None
            for c in array
        )

    edges = [f_from_c(edge) if is_us else edge for edge in values.band_c]
    low, high = (f"{edge:.3g}" for edge in edges)
    unit = "°F" if is_us else "°C"
    past = "past" if values.past_years else "past_regional"
    fan = [shown(row) for row in values.fan_c]
    return SoilChart(
        title=say(f"pictures.soil.title_{system}", yard=yard),
        headline=_headline(values),
        badge=_badge(values),
        notes=_notes(values),
        unit=unit,
        first_day=values.first_day,
        today=values.today,
        this_year=shown(values.this_year_c),
        past_mean=shown(values.past_mean_c),
        past_low=shown(values.past_low_c),
        past_high=shown(values.past_high_c),
        fan=(fan[0], fan[1], fan[2], fan[3], fan[4]),
        band=(round(edges[0], 2), round(edges[1], 2)),
        spans=_spans(values),
        this_year_label=say("pictures.soil.this_year"),
        past_label=say(f"pictures.soil.{past}"),
        fan_label=say("pictures.soil.outlook"),
        band_label=say("pictures.soil.band", low=low, high=high, unit=unit),
        legend=say(f"pictures.soil.legend_{past}"),
        today_label=say("pictures.soil.today", day=ShortDay(values.today)),
    )


def _headline(values: SoilChartValues) -> str:
    if values.spring == "none":
        return say("pictures.soil.headline_no_spring")
    upcoming = values.upcoming
    opens, closes, up = upcoming.opens_on, upcoming.by, upcoming.event_on
    key = str(upcoming.stage)
    if upcoming.stage is Stage.AHEAD and opens is not None:
        key = "next" if (opens - values.today).days > _FAR_DAYS else "window"
    elif upcoming.stage is Stage.DOWN and opens is not None:
        key = "half"
    days = {"opens": opens, "closes": closes, "up": up}
    said = {name: ShortDay(day) for name, day in days.items() if day is not None}
    return say(f"pictures.soil.headline_{key}", **said)


def _spans(values: SoilChartValues) -> tuple[Span, ...]:
    if values.spring == "none":
        return ()
    spans = []
    opens, closes = values.window_opens, values.window_closes

    def said(key: str, **days: date) -> str:
        words = {name: ShortDay(day) for name, day in days.items()}
        return say(f"pictures.soil.{key}", **words)

    if opens is not None and closes is not None:
        key = "window" if closes >= values.today else "window_past"
        spans.append(Span(said(key, first=opens, last=closes), opens, closes))
    if values.first_up is not None:
        first, middle, last = values.first_up
        key = "first_up" if first < last else "first_up_past"
        label = said(key, first=first, middle=middle, last=last)
        spans.append(Span(label, first, last, middle))
    return tuple(spans)


def _badge(values: SoilChartValues) -> str | None:
    """Return what nobody may miss: that the climate is invented, or the data old."""
    said = []
    if values.judged.is_invented:
        said.append(say("pictures.invented"))
    if values.judged.known_until is None:
        said.append(say("pictures.soil.no_data"))
    elif _age_days(values) > _OLD_DAYS:
        day = ShortDay(values.judged.known_until)
        said.append(say("pictures.soil.old", day=day, days=_age_days(values)))
    return "\n".join(said) or None


def _notes(values: SoilChartValues) -> tuple[str, ...]:
    judged = values.judged
    notes = []
    if values.upcoming.one_in is not None and values.spring != "none":
        notes.append(say("pictures.soil.chance", one_in=values.upcoming.one_in))
    if judged.known_until is not None and _age_days(values) <= _OLD_DAYS:
        day = ShortDay(judged.known_until)
        notes.append(say("pictures.soil.fresh", day=day))
    if values.place and not judged.is_invented:
        notes.append(say("pictures.soil.place", place=values.place))
    if judged.soil_is_modelled:
        notes.append(say("pictures.soil.modelled"))
    return tuple(notes)


def _age_days(values: SoilChartValues) -> int:
    known = values.judged.known_until
    return 0 if known is None else (values.today - known).days
