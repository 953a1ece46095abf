"""What hearing may know of the moment (`Scene`), and what it hears (`Heard`)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Final, Literal, TypeAlias

from bot.hearing.readers.dates import WhenRead
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.quantities import Amount
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.zone_parts import PartSaid
from jobs.agronomy import units

#: new: no yard yet; placed: no zones; ready: zones (and perhaps a product), nothing to do yet;
#: open: an alert says to apply; applied: down, water is awaited; due: the second application.
Moment: TypeAlias = Literal["new", "placed", "ready", "open", "applied", "due"]
Why: TypeAlias = Literal["template", "ranker", "grammar", "pending", "command"]


@dataclass(frozen=True)
class Pending:
    """A question of ours that waits for its answer.

    Attributes
    ----------
    kind : str
        The act the question belongs to, such as ``enter_product``.
    expects : tuple of str
        What an answer is: ``yes_no`` ``rate`` ``number`` ``percent`` ``size`` ``place`` ``name``
        ``day`` ``zone`` ``days`` ``timezone`` ``amount`` ``ingredient`` ``grass`` ``part``.
    draft : mapping or None
        What is being put together by the answers so far, in plain values (see
        `bot.hearing.drafts`).
    """

    kind: str
    expects: tuple[str, ...] = ()
    draft: Mapping[str, Any] | None = None


@dataclass(frozen=True)
class Scene:
    """All that hearing may know of the moment a text is said in.

    Attributes
    ----------
    now : datetime
        With the time zone of the yard.
    language : str
        Of the chat; a text in another of our languages is understood as well.
    units : str
        ``us`` or ``metric``: units of figures written without one.
    is_abroad : bool
        Whether the yard lies outside the United States: feet go without saying nowhere else.
    moment : str
        Where the season stands.
    zones, yards : tuple of str
        Names as kept; `yard` is the one talked about.
    pending : Pending or None
        Our question that waits.
    products : tuple of str
        Ingredients of the yard's product.
    pace_m : float or None
        Length of the person's pace.
    buttons : tuple of (str, str)
        Label and action of each button under our newest message.
    said_before : str
        The act that the person's message before was, where another may go on with it.
    asked_before : str
        That message itself, where it was a question.
    """

    now: datetime
    language: str = "en"
    units: Literal["us", "metric"] = "us"
    moment: Moment = "ready"
    zones: tuple[str, ...] = ()
    yards: tuple[str, ...] = ()
    yard: str | None = None
    pending: Pending | None = None
    products: tuple[str, ...] = ()
    pace_m: float | None = None
    buttons: tuple[tuple[str, str], ...] = ()
    is_abroad: bool = False
    said_before: str = ""
    asked_before: str = ""

    @property
    def asked(self) -> str:
        """The act of our question that waits; empty where none does."""
        return self.pending.kind if self.pending else ""

    @property
    def length_unit(self) -> str:
        """The unit of lengths written without one; empty where it has to be asked."""
        if self.units == "metric":
            return "m"
        return "" if self.is_abroad else "ft"


@dataclass(frozen=True)
class Slots:
    """What was said beside the act itself; SI inside, names as kept.

    Attributes
    ----------
    zones, all_zones : tuple of str, bool
        Zones named, in their kept order; `all_zones` where one word meant all of them.
    strangers : tuple of str
        Parts of a lot that were named and are no zone of the yard talked about, as said.
    every_yard : bool
        Whether every yard of this chat is meant, by a word such as "everywhere".
    yard : str or None
        A yard of this chat that was named.
    on : WhenRead or None
        The day or moment.
    amount : Amount or None
        How much product; `packs` where that was said in bags.
    area_m2, depth_m, minutes, soil_c : float or None
        An area, a depth of water (or of a probe), a running time, a soil temperature.
    product : str or None
        An active ingredient.
    work : str or None
        ``mow`` ``aerate`` ``dethatch`` ``rake`` ``feed`` ``lime`` ``sod`` ``edge`` ``burn`` ...
    weed, grass, language, units, person, name : str or None
        Canonical names of weeds and grasses, a language's code, ``us`` or ``metric``, a person as
        written, a name to give.
    days : int or None
        A span in days; `number` a bare number.
    weekdays : frozenset of int
        Days of the week (Monday 0).
    about : str or None
        The fact of the trade that is asked about, such as ``frost`` (``words/facts.toml``).
    part : str or None
        How much of a zone: ``half`` ``most`` ``rest`` ``1/3`` ``edge`` ``stripe`` ``corner`` ...
    parts : tuple of PartSaid
        The parts of zones that were named, each with its zone and its size.
    of : str or None
        What a yes or no settles: the pending question's act.
    option : str or None
        Action of the button whose label was typed.
    rest : str
        Words that no slot took.
    unread : Unread or None
        A value that has two meanings and must be asked back.
    read : object
        What the act's own reader made of it: `ZonesRead` (measure), `ProductRead` or `RateRead`
        (enter_product), `TemperatureRead` (report_soil), a latitude and longitude (give_place),
        a code (join), free hours (set_days).
    """

    zones: tuple[str, ...] = ()
    all_zones: bool = False
    strangers: tuple[str, ...] = ()
    every_yard: bool = False
    yard: str | None = None
    on: WhenRead | None = None
    amount: Amount | None = None
    packs: float | None = None
    area_m2: float | None = None
    depth_m: float | None = None
    minutes: float | None = None
    soil_c: float | None = None
    product: str | None = None
    work: str | None = None
    weed: str | None = None
    grass: str | None = None
    language: str | None = None
    units: str | None = None
    person: str | None = None
    name: str | None = None
    days: int | None = None
    number: float | None = None
    weekdays: frozenset[int] = frozenset()
    about: str | None = None
    part: str | None = None
    parts: tuple[PartSaid, ...] = ()
    of: str | None = None
    option: str | None = None
    rest: str = ""
    unread: Unread | None = None
    read: Any = None


@dataclass(frozen=True)
class ActHeard:
    """One act heard, the clause it was heard in, by what, and how surely (0 to 1)."""

    act: str
    slots: Slots = field(default_factory=Slots)
    said: str = ""
    why: Why = "ranker"
    score: float = 1.0

    def understood(self) -> dict[str, Any]:
        """Return the act and its slots as plain values."""
        return {"act": self.act, "slots": _plain(self.slots)}

    def with_it(self) -> list[dict[str, Any]]:
        """Return what is kept with it: sizes keep the grass that is named beside them."""
        is_kept = self.act == "measure" and self.slots.grass is not None
        return [{"act": "set_grass", "slots": {"grass": self.slots.grass}}] if is_kept else []


#: Reports that are told place by place: "did the back", "and the front".
GOES_ON: Final = frozenset({"report_applied", "report_watered", "report_seeded"})
#: And what a figure said anew puts right, or adds to: "no, 0.45".
_PUT_RIGHT: Final = frozenset({"report_rain", "set_spreader"})


_ASIDE: Final = frozenset({"thanks", "greet", "emergency"})


@dataclass(frozen=True)
class Heard:
    """What a message is taken for.

    Attributes
    ----------
    acts : tuple of ActHeard
        To be done, in order. Empty only where `choose` is not.
    choose : tuple of ActHeard
        Readings to ask between.
    answers_pending : bool
        Whether the first act answers the pending question.
    keeps_pending : bool
        Whether the pending question still waits after these acts.
    """

    acts: tuple[ActHeard, ...] = ()
    choose: tuple[ActHeard, ...] = ()
    answers_pending: bool = False
    keeps_pending: bool = False

    @property
    def is_aside(self) -> bool:
        """Whether nothing was heard that begins another thread: thanks, a greeting, a fright."""
        return bool(self.acts) and {each.act for each in self.acts} <= _ASIDE

    @property
    def goes_on(self) -> str:
        """The one act that was heard, where the next message may go on with it; else empty."""
        acts = {each.act for each in (*self.acts, *self.choose)}
        act = acts.pop() if len(acts) == 1 else ""
        return act if act.startswith("ask_") or act in GOES_ON | _PUT_RIGHT else ""

    def understood(self) -> list[dict[str, Any]]:
        """Return what was understood, in plain values, one entry an act."""
        found = [one for each in self.acts for one in (each.understood(), *each.with_it())]
        if self.choose:
            between = list(dict.fromkeys(each.act for each in self.choose))
            found.append({"act": "choose", "slots": {"between": between}})
        return found or [{"act": "unknown", "slots": {}}]


#: Slots that are shown as they are.
_AS_KEPT = [
    "yard",
    "product",
    "work",
    "weed",
    "grass",
    "language",
    "units",
    "person",
    "name",
    "days",
    "number",
    "about",
    "part",
    "of",
    "option",
]


def _plain(slots: Slots) -> dict[str, Any]:
    shown: dict[str, Any] = {}
    if slots.zones:
        shown["zones"] = list(slots.zones)
    if slots.all_zones:
        shown["all_zones"] = True
    if slots.on is not None:
        shown["on"] = slots.on.at.date().isoformat()
        if slots.on.has_time:
            shown["at"] = slots.on.at.isoformat()
    if slots.amount is not None:
        shown["amount"] = f"{figures(slots.amount.value)} {slots.amount.unit}"
    for name, value, unit in (
        ("area_sq_ft", slots.area_m2, "sq ft"),
        ("depth_in", slots.depth_m, "in"),
    ):
        if value is not None:
            shown[name] = round(units.from_si(value, unit), 3)
    if slots.minutes is not None:
        shown["minutes"] = round(slots.minutes, 1)
    if slots.soil_c is not None:
        shown["soil_f"] = round(units.f_from_c(slots.soil_c), 1)
    if slots.weekdays:
        shown["weekdays"] = sorted(slots.weekdays)
    for name in _AS_KEPT:
        value = getattr(slots, name)
        if value is not None:
            shown[name] = value
    return shown
