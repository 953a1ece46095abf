"""Values as callers give them to the catalogue, and how each is written.

A caller says what is meant (`Day`, `Area`, `Depth`, ...); the language, the units and the words
are those of the chat (see `voice`). Units and days have their words in the catalogue
(``units.ftl``, ``saying.ftl``), numbers and dates follow Babel's CLDR data.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from typing import Final, Literal, Protocol, TypeAlias

from babel import Locale
from babel.dates import format_date, format_time
from babel.lists import format_list
from babel.numbers import format_decimal

from bot.saying.rounding import plain, rounded
from bot.saying.voice import UnitSystem
from jobs.agronomy import units
from jobs.agronomy.rates import Rate

ListStyle: TypeAlias = Literal["unit", "standard", "or", "comma", "apart"]


class Form(Protocol):
    """What a value is written with: a language's locale and words, and the chat's units."""

    @property
    def locale(self) -> Locale:
        """Whose dates and numbers."""

    @property
    def units(self) -> UnitSystem:
        """Units of the chat."""

    def say(self, key: str, **params: object) -> str:
        """Return a sentence of the same language."""


class Value:
    """Something a message shows, written when it is said."""

    def shown(self, form: Form) -> str:
        """Return it in words."""
        raise AssertionError(form)

    def __str__(self) -> str:
        """Return it in words, in the language spoken now."""
        from bot.saying.catalogue import shown  # it needs this module itself

        return shown(self)


#: Days farther off than this are written with their year [days].
_FAR_DAYS: Final = 300


@dataclass(frozen=True, slots=True)
class Day(Value):
    """A day as seen from another: ``today``, ``Fri 3 Apr``, with the year where it is far off."""

    day: date
    today: date

    @property
    def nearness(self) -> str:
        """``today``, ``yesterday``, ``tomorrow`` or ``far``."""
        near = {0: "today", -1: "yesterday", 1: "tomorrow"}
        return near.get((self.day - self.today).days, "far")

    def date_in(self, form: Form) -> str:
        """Return the date, near or not."""
        is_far = abs((self.day - self.today).days) > _FAR_DAYS
        pattern = form.say("saying.far_day_pattern" if is_far else "saying.day_pattern")
        return format_date(self.day, pattern, form.locale)

    def shown(self, form: Form) -> str:  # noqa: D102
        return self.styled("plain", form)

    def styled(self, style: str, form: Form) -> str:
        """Return it as a style of ``saying.ftl`` has it, such as ``about``."""
        return form.say(f"saying.day_{style}", near=self.nearness, date=self.date_in(form))


@dataclass(frozen=True, slots=True)
class ShortDay(Value):
    """A day of this season without its weekday: ``3 Apr``."""

    day: date

    def shown(self, form: Form) -> str:  # noqa: D102
        return self.styled("plain", form)

    def styled(self, style: str, form: Form) -> str:
        """Return it as a style of ``saying.ftl`` has it, such as ``about``."""
        date = format_date(self.day, form.say("saying.short_day_pattern"), form.locale)
        return form.say(f"saying.day_{style}", near="far", date=date)


@dataclass(frozen=True, slots=True)
class Month(Value):
    """A month by its number, abbreviated."""

    number: int

    def shown(self, form: Form) -> str:  # noqa: D102
        return str(form.locale.months["stand-alone"]["abbreviated"][self.number])


@dataclass(frozen=True, slots=True)
class Weekday(Value):
    """A weekday by its number from Monday on, abbreviated."""

    number: int

    def shown(self, form: Form) -> str:  # noqa: D102
        return str(form.locale.days["stand-alone"]["abbreviated"][self.number])


@dataclass(frozen=True, slots=True)
class Clock(Value):
    """A time of day: ``5:30 pm``, in metric chats ``17:30``."""

    at: time | datetime

    def shown(self, form: Form) -> str:  # noqa: D102
        if form.units == "metric":
            return format_time(_on_the_clock(self.at), "HH:mm", locale=form.locale)
        key = "saying.clock_pattern" if self.at.minute else "saying.hour_pattern"
        said = format_time(_on_the_clock(self.at), form.say(key), locale=form.locale)
        return said.lower()


@dataclass(frozen=True, slots=True)
class Moment(Value):
    """A day and a time of it, local, as seen from a day."""

    at: datetime
    today: date

    def shown(self, form: Form) -> str:  # noqa: D102
        day = Day(self.at.date(), self.today).shown(form)
        return form.say("saying.moment", day=day, time=Clock(self.at).shown(form))


@dataclass(frozen=True, slots=True)
class Names(Value):
    """Names or values one after the other; `style` is ``unit`` (commas), ``standard`` (and), or."""

    items: Sequence[object]
    style: ListStyle = "unit"

    def __bool__(self) -> bool:
        return bool(self.items)

    def shown(self, form: Form) -> str:  # noqa: D102
        said = [each.shown(form) if isinstance(each, Value) else str(each) for each in self.items]
        if self.style == "comma":
            # Facts about one thing, side by side: no language puts an "and" between them.
            return ", ".join(said)
        if self.style == "apart":
            # Things that have commas of their own.
            return "; ".join(said)
        known = form.locale.list_patterns
        has_it = "start" in known.get(self.style, {})
        return format_list(said, self.style if has_it else "standard", form.locale)


@dataclass(frozen=True, slots=True)
class Number(Value):
    """A number as we write it: grouped, no trailing zeros, ten digits kept."""

    value: float

    def shown(self, form: Form) -> str:  # noqa: D102
        return _number(Decimal(f"{self.value:.10g}"), form)


@dataclass(frozen=True, slots=True)
class Area(Value):
    """An area: ``2,400 sq ft``, ``223 m²``; from an acre or hectare on, that too."""

    area_m2: float

    def shown(self, form: Form) -> str:  # noqa: D102
        small, large = ("sq ft", "acre") if form.units == "us" else ("m²", "ha")
        value = units.from_si(self.area_m2, small)
        step = Decimal(1) if value >= 100 else Decimal("0.1")
        text = _with_unit(rounded(value, step), small, form, trim=False)
        many = units.from_si(self.area_m2, large)
        if many < 1.0:
            return text
        return form.say("units.twice", first=text, second=in_unit(round(many, 2), large, form))


@dataclass(frozen=True, slots=True)
class Temperature(Value):
    """A temperature: ``52 °F`` or ``11.1 °C``."""

    temperature_c: float

    def shown(self, form: Form) -> str:  # noqa: D102
        if form.units == "us":
            value = rounded(units.f_from_c(self.temperature_c), Decimal(1)) + 0
            return _with_unit(value, "°F", form, trim=False)
        value = rounded(self.temperature_c, Decimal("0.1")) + 0
        return _with_unit(value, "°C", form, trim=False)


@dataclass(frozen=True, slots=True)
class Degrees(Value):
    """A difference of temperatures: ``4 °F`` or ``2.2 °C``."""

    difference_c: float

    def shown(self, form: Form) -> str:  # noqa: D102
        if form.units == "us":
            value = rounded(units.f_from_c_step(self.difference_c), Decimal(1))
            return _with_unit(value, "°F", form, trim=False)
        return _with_unit(rounded(self.difference_c, Decimal("0.1")), "°C", form, trim=False)


@dataclass(frozen=True, slots=True)
class Depth(Value):
    """A depth of water or soil: ``0.5 in`` or ``12 mm``."""

    depth_m: float

    def shown(self, form: Form) -> str:  # noqa: D102
        if form.units == "us":
            inches = rounded(units.from_si(self.depth_m, "in"), Decimal("0.01"))
            return _with_unit(inches, "in", form)
        return _with_unit(rounded(self.depth_m * 1000.0, Decimal(1)), "mm", form)


@dataclass(frozen=True, slots=True)
class Speed(Value):
    """A speed of wind: ``8 mph`` or ``3.6 m/s``; ``?`` where it is not known."""

    speed_m_s: float

    def shown(self, form: Form) -> str:  # noqa: D102
        if math.isnan(self.speed_m_s):
            return "?"
        if form.units == "us":
            mph = rounded(float(self.speed_m_s) / units.M_S_PER_MPH, Decimal(1))
            return _with_unit(mph, "mph", form, trim=False)
        return _with_unit(rounded(float(self.speed_m_s), Decimal("0.1")), "m/s", form, trim=False)


@dataclass(frozen=True, slots=True)
class LabelRate(Value):
    """A rate as the label has it, in the label's own units: ``3.2 lb per 1,000 sq ft``.

    `of` is ``product``, or ``ai`` for a rate of the active ingredient.
    """

    value: float
    unit: str
    of: str = "product"

    @classmethod
    def of_rate(cls, rate: Rate, of: str = "product") -> LabelRate:
        """Return a rate of a label."""
        return cls(rate.value, rate.unit, of)

    def shown(self, form: Form) -> str:  # noqa: D102
        amount, _, per = self.unit.partition("/")
        said = in_unit(self.value, amount, form)
        key = "units.rate_of_ai" if self.of == "ai" else "units.rate"
        return form.say(key, amount=said, per=form.say(f"units.per_{_key_of(per)}"))


def in_unit(value: float, unit: str, form: Form) -> str:
    """Return a number with its unit: ``3.2 lb``."""
    return _with_unit(Decimal(f"{value:.10g}"), unit, form)


def _with_unit(value: Decimal, unit: str, form: Form, *, trim: bool = True) -> str:
    text = _number(plain(value) if trim else value, form)
    key = f"units.{_key_of(unit)}"
    return form.say(key, text=text, n=float(value))


_SIGNS: Final = {"°F": "degrees_f", "°C": "degrees_c", "m²": "sq_m", "%": "percent"}


def _key_of(unit: str) -> str:
    return _SIGNS.get(unit) or re.sub(r"\W+", "_", unit.replace("m²", "sq_m")).lower()


def _number(value: Decimal, form: Form) -> str:
    places = max(0, -int(value.as_tuple().exponent))
    return format_decimal(value, f"#,##0.{'0' * places}" if places else "#,##0", form.locale)


def _on_the_clock(at: time | datetime) -> time:
    return time(at.hour, at.minute)
