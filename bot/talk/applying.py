"""Applied: what is down, where, when and how much; and the water after it."""

from __future__ import annotations

from dataclasses import asdict, dataclass, field, replace
from datetime import date, datetime, time, timedelta
from typing import Final

from bot.hearing.forms.applied_forms import ApplicationSaid
from bot.hearing.heard import ActHeard, Slots
from bot.hearing.readers.dates import WhenRead
from bot.hearing.readers.hours_of_work import ended_in
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Area, Day, Depth, LabelRate, Names
from bot.talk import measuring as zone_talk
from bot.talk import second_passes, sprinkling, topics, which_day, work_hours
from bot.talk.parts_said import parts_said
from bot.talk.plants import say_ingredient
from bot.talk.rest_of_label import foliar_of
from bot.talk.rounds_said import barrier_lines, sight_of
from bot.talk.talk import Talk
from bot.talk.zones_named import names_of, zones_said
from bot.turn import Reply, rows
from jobs import packed_cells
from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.label_times import TooManyApplications, TooSoon
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import UseUnknown
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.season import State, Target
from jobs.agronomy.units import from_si
from jobs.judged import Judged
from jobs.labels import put_down
from jobs.local_days import local, season_day
from jobs.record_details import RecordDetails, weather_then
from jobs.rounds import belongs_to
from jobs.season_facts import plan_of, round_of
from jobs.sources.base import Cell
from jobs.turf_limits import fit, room
from jobs.uses import confirming as uses
from jobs.uses import filling_records, weeds_seen
from jobs.uses.parts import Part, PartTooLarge, PartUnknown
from jobs.uses.strange import (
    AfterEmergence,
    AppliedAgain,
    FarOff,
    LongAgo,
    LongBefore,
    Oddity,
    Strange,
)
from jobs.weather_of_day import water_terms
from storage.yards import YardRecord, ZoneRecord

#: A report of something older than this is taken for a slip of the year.
_LONG_AGO: Final = timedelta(days=6 * 365)


@dataclass(frozen=True, slots=True)
class _Report:
    zones: list[ZoneRecord]
    at: datetime
    amount: AmountSaid | None
    target: Target | None = None
    parts: dict[int, Part] = field(default_factory=dict)
    is_first_pass: bool = False
    has_hour: bool = True


def is_long_ago(at: datetime, now: datetime) -> bool:
    """Tell whether something said to be down since then is likelier a slip of the year."""
    return now - at > _LONG_AGO


def on_report_applied(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take a report: what is named, or all that is still to do."""
    zones = list(talk.standing(yard).zones)
    if not zones:
        return zone_talk.show(talk, yard)
    heard = which_day.answered(talk, yard, heard)
    asked = which_day.ask(talk, yard, heard)
    if asked is not None:
        return asked
    read = _read(talk, yard, zones, heard.slots)
    if isinstance(read, Reply):
        return [read]
    return _confirm(talk, yard, read, said=heard.said, is_sure=False)


def confirm_all(talk: Talk, yard: YardRecord, begun: datetime | None = None) -> list[Reply]:
    """Answer [It is down]: every zone still to do in this round, begun then or just now."""
    when = None if begun is None else WhenRead(begun, has_time=True, is_future=False, said="")
    act = ActHeard("report_applied", Slots(on=when), said="applied")
    return on_report_applied(talk, yard, act)


def confirm_part(
    talk: Talk,
    yard: YardRecord,
    zone: ZoneRecord,
    part: Part | None,
    amount: AmountSaid | None,
    *,
    is_first_pass: bool = False,
) -> list[Reply]:
    """Answer a button that puts a part of a zone on record; None: all that is left of it."""
    parts = {} if part is None else {zone.id: part}
    read = _Report([zone], talk.said_at(yard), amount, parts=parts, is_first_pass=is_first_pass)
    return _confirm(talk, yard, read, said="applied", is_sure=False)


def ask_part(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Part]: ask which."""
    talk.expect(topics.APPLY_PART, yard_id=yard.id)
    return [talk.reply("help.part_which")]


def confirm_again(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Yes, again] after an application so lately that it was asked about."""
    if talk.topic != topics.APPLY_SURE:
        return [talk.stale()]
    data = talk.data
    talk.settle()
    zones = [zone for zone in talk.standing(yard).zones if zone.id in data["zones"]]
    if not zones:
        return [talk.stale()]
    amount = None if data["amount"] is None else AmountSaid(*data["amount"])
    target = None if data.get("target") is None else Target(data["target"])
    parts = {int(zone_id): Part(**part) for zone_id, part in data.get("parts", {}).items()}
    at, is_first = datetime.fromisoformat(data["at"]), bool(data.get("is_first_pass"))
    read = _Report(
        zones, at, amount, target, parts, is_first, has_hour=bool(data.get("has_hour", True))
    )
    return _confirm(talk, yard, read, said=data["said"], is_sure=True)


def confirm_not(talk: Talk) -> list[Reply]:
    """Answer [No] after being asked about a second application."""
    number, amount = talk.data.get("record"), talk.data.get("amount")
    talk.settle()
    if number is None or amount is None:
        return [talk.reply("applying.left_out")]
    said = f"{figures(amount[0])} {amount[1]}"
    return [talk.reply("applying.left_out_amend", number=number, amount=said)]


def weather_at(
    talk: Talk, yard: YardRecord, at: datetime, *, has_hour: bool = True
) -> RecordDetails:
    """Return the weather of an hour at a yard for the record; of the day where none was said."""
    held = packed_cells.held(talk.work, talk.around.source, Cell.at(yard.lat, yard.lon))
    if has_hour or held is None:
        return weather_then(held, at, yard.timezone)
    of_day = weather_then(replace(held, hourly=None), at, yard.timezone)
    return replace(of_day, is_hour_open=True)


def _details(talk: Talk, yard: YardRecord, command: uses.Confirm) -> RecordDetails:
    """Return what a record can be given unasked: the weather of its hour, and the machine."""
    weather = weather_at(talk, yard, command.applied_at, has_hour=command.has_hour)
    begun = local(command.applied_at, yard.timezone)
    ended = ended_in(command.said, begun.hour * 60 + begun.minute) if command.has_hour else None
    if ended is not None:
        weather = replace(weather, ended=f"{ended // 60:02}:{ended % 60:02}")
    elif talk.turn.tap is not None and talk.now - command.applied_at <= work_hours.A_TICK:
        # Who taps that it is done has just finished; another hour can be said.
        weather = replace(weather, ended=f"{local(talk.now, yard.timezone):%H:%M}")
    if command.by_whom is not None:
        return weather
    # How much of a part was covered is settled with the report: its carrier is left open.
    area_m2 = 0.0 if command.parts else sum(zone.treated_m2 for zone in command.zones)
    return filling_records.with_machine(talk.work, yard, weather, area_m2)


def _read(talk: Talk, yard: YardRecord, zones: list[ZoneRecord], slots: Slots) -> _Report | Reply:
    if slots.unread is not None:
        return Reply(slots.unread.sentence())
    now = talk.said_at(yard)
    at, when = now, slots.on
    if when is not None:
        if when.is_future:
            return talk.reply("applying.future", said=when.said)
        if is_long_ago(when.at, now):
            return talk.reply("applying.long_ago", said=when.said)
        at = when.at
        if not when.has_time and when.at.date() != now.date():
            at = datetime.combine(when.at.date(), time(12), tzinfo=now.tzinfo)
    named = zones_said(zones, slots)
    if slots.rest and slots.read is not None:
        names = names_of(zones)
        return talk.reply("applying.unclear", said=slots.rest, names=names, yard=yard.name)
    target = slots.read.target if isinstance(slots.read, ApplicationSaid) else None
    meant = named or _still_to_do(talk, yard, zones)
    parts = parts_said(talk, yard, meant, slots)
    if isinstance(parts, Reply):
        return parts
    amount = slots.amount
    if amount is None and slots.packs is not None:
        amount = _of_packs(talk, yard, slots.packs)
        if amount is None:
            return talk.reply("applying.bag_how_much")
    has_hour = when is None or when.has_time or when.at.date() == now.date()
    return _Report(meant, at, amount, target, parts, has_hour=has_hour)


def _of_packs(talk: Talk, yard: YardRecord, count: float) -> AmountSaid | None:
    """Return what so many bags hold, by the one size the product is sold in; else None."""
    record = talk.standing(yard).record
    if record is None or len(record.packs) != 1 or record.form != "granule":
        return None
    (pack,) = record.packs
    unit = "kg" if talk.is_metric else "lb"
    return AmountSaid(round(count * from_si(pack["size_si"], unit), 3), unit)


def _still_to_do(talk: Talk, yard: YardRecord, zones: list[ZoneRecord]) -> list[ZoneRecord]:
    treated = [zone for zone in zones if zone.is_treated]
    standing = talk.standing(yard)
    target, _ = belongs_to(standing, talk.today(yard))
    season = standing.season(target)
    if season is not None and season.state == State.APPLIED:
        return treated
    today = talk.today(yard)
    remaining = wanted_now(talk, yard, treated) or treated
    # What the grass or the label forbids got nothing.
    with_room = list(room(standing, remaining, today).zones)
    return with_room or fit(standing, remaining, today) or remaining


def wanted_now(talk: Talk, yard: YardRecord, zones: list[ZoneRecord]) -> list[ZoneRecord]:
    """Return those of zones that still want the application at hand."""
    standing, today = talk.standing(yard), talk.today(yard)
    target, _ = belongs_to(standing, today)
    ids = round_of(standing, target, season_day(today, yard.lat)).zones
    return [zone for zone in zones if zone.id in ids]


def _confirm(
    talk: Talk, yard: YardRecord, read: _Report, *, said: str, is_sure: bool
) -> list[Reply]:
    amount = None
    if read.amount is not None:
        amount = Amount(read.amount.amount_si, read.amount.unit)
    command = uses.Confirm(
        read.zones,
        read.at,
        amount,
        said,
        is_sure,
        read.target,
        parts=read.parts,
        is_first_pass=read.is_first_pass,
        has_hour=read.has_hour,
    )
    most_si = None if amount is not None else _most_si(talk, yard, read)
    try:
        done = put_on_record(talk, yard, command)
    except Strange as strange:
        again = next((e for e in strange.oddities if isinstance(e, AppliedAgain)), None)
        talk.expect(
            topics.APPLY_SURE,
            zones=[zone.id for zone in read.zones],
            at=read.at.isoformat(),
            amount=None if read.amount is None else [read.amount.value, read.amount.unit],
            said=said,
            target=read.target,
            parts={zone_id: asdict(part) for zone_id, part in read.parts.items()},
            is_first_pass=read.is_first_pass,
            has_hour=read.has_hour,
            record=None if again is None else again.record_id,
        )
        which = ("right", "wrong") if again is None else ("again", "not")
        yes, no = (talk.say(f"applying.button_{each}") for each in which)
        lines = [strange_line(talk, yard, each) for each in strange.oddities]
        return [
            Reply(
                "\n".join(lines),
                rows(
                    [
                        (yes, f"apply:again:{yard.id}"),
                        (no, f"apply:not:{yard.id}"),
                    ]
                ),
            )
        ]
    except WeightAgainstVolume as mixed:
        return [talk.reply("applying.wrong_kind", said=mixed.unit, wanted=mixed.other)]
    if isinstance(done, Reply):
        return [done]
    if talk.topic is not None and talk.topic != topics.WHICH_DAY:
        talk.settle()
    reply = _recorded(talk, yard, done, most_si, is_first_pass=read.is_first_pass)
    return [second_passes.with_button(talk, yard, reply) if read.is_first_pass else reply]


def put_on_record(talk: Talk, yard: YardRecord, command: uses.Confirm) -> uses.Confirmed | Reply:
    """Put a report on record with its weather; return a question where a part is not clear.

    Raises
    ------
    Strange, WeightAgainstVolume
        As `uses.confirm` does.
    """
    try:
        return uses.confirm(
            talk.work,
            yard,
            command,
            person_id=talk.person.id,
            now=talk.now,
            sight=sight_of(talk, yard),
            details=_details(talk, yard, command),
        )
    except PartTooLarge as part:
        area, of = (Area(m2) for m2 in (part.area_m2, part.of_m2))
        return talk.reply("applying.part_too_large", area=area, zone=part.zone, of=of)
    except PartUnknown as part:
        return talk.reply("applying.part_how_much", zone=part.zone)


def strange_line(talk: Talk, yard: YardRecord, oddity: Oddity) -> str:
    """Say what is strange about a report, with its figure, and ask."""
    today = talk.today(yard)
    match oddity:
        case AppliedAgain(zones, on, _):
            return talk.say("applying.again", zones=Names(zones), on=Day(on, today))
        case LongBefore(expected_on, days):
            day = Day(expected_on, today)
            return talk.say("applying.strange_early", day=day, days=days)
        case AfterEmergence(expected_on, days):
            day = Day(expected_on, today)
            return talk.say("applying.strange_late", day=day, days=days)
        case FarOff(_, label, times):
            share = f"{times:.0f}" if times >= 1 else f"{times:.2f}"
            return talk.say("applying.strange_rate", times=share, label=LabelRate.of_rate(label))
        case LongAgo(on, days):
            return talk.say("applying.strange_long_ago", day=Day(on, today), days=days)


def _most_si(talk: Talk, yard: YardRecord, read: _Report) -> float | None:
    """Return the most the label allowed there before [kg or L]; None: no limit, or none left."""
    on = local(read.at, yard.timezone).date()
    allowed = room(talk.standing(yard), read.zones, on)
    if allowed.most is None or len(allowed.zones) < len(read.zones):
        return None
    return amount_for(sum(zone.treated_m2 for zone in read.zones), allowed.most).si


def _recorded(
    talk: Talk,
    yard: YardRecord,
    done: uses.Confirmed,
    most_si: float | None = None,
    *,
    is_first_pass: bool = False,
) -> Reply:
    today = talk.today(yard)
    lines = [
        talk.say(
            "applying.recorded" if done.amount is None else "applying.recorded_amount",
            yard=yard.name,
            zones=Names(done.zones),
            area=Area(done.area_m2),
            on=Day(done.applied_on, today),
            amount="" if done.amount is None else Quantity.of(done.amount, most_si),
        )
    ]
    lines += work_hours.lines(talk, yard, done.application_id)
    lines += second_passes.lines(talk, yard) if is_first_pass else part_lines(talk, done)
    if done.seconds:
        lines.append(talk.say("applying.second_down", zones=Names(done.seconds)))
    if done.over is not None:
        limit = LabelRate(float(f"{done.over.limit:.3g}"), done.over.unit)
        key = "applying.over_with_earlier" if done.over.used else "applying.over"
        used = LabelRate(float(f"{done.over.used:.3g}"), done.over.unit)
        lines.append(talk.say(key, limit=limit, used=used))
    elif done.achieved is not None and done.planned is not None and not is_first_pass:
        lines.append(rate_line(talk, done.achieved, done.planned))
    if done.planned is None:
        lines.append(talk.say("applying.no_product"))
    elif done.amount is None:
        lines.append(talk.say("applying.amount_open", number=done.application_id))
    lines += _doubt_lines(talk, done, today)
    if done.open_zones:
        lines.append(talk.say("applying.still_open", zones=Names(done.open_zones)))
    leafy = foliar_of(_put_down(talk, yard, done))
    if leafy:
        # Wet leaves and no water for a day against water-in: the label's order, no advice of ours.
        lines.append(talk.say("labels.foliar_recorded", names=leafy))
        return _with_end(talk, yard, done, lines)
    if done.water_in_by >= today and not _says_watered(talk):
        wanted = water_terms(talk.work, yard).depth_mm
        water = Depth(wanted / 1000)
        by = Day(done.water_in_by, today)
        lines.append(talk.say("applying.water_in", depth=water, by=by))
        lines += sprinkling.after_application(talk, yard, done.application_id)
    return _with_end(talk, yard, done, lines)


def _says_watered(talk: Talk) -> bool:
    """Tell whether the message says too that it was watered, which is answered beside this."""
    return talk.heard is not None and any(a.act == "report_watered" for a in talk.heard.acts)


def part_lines(talk: Talk, done: uses.Confirmed) -> list[str]:
    """Say which zones had it in part, and how much of them is still to do."""
    lines = []
    for part in done.parts:
        area, left = (Area(m2) for m2 in (part.area_m2, part.left_m2))
        key = "applying.part_left" if part.left_m2 > 0 else "applying.part_whole"
        lines.append(talk.say(key, zone=part.zone, area=area, left=left))
    return lines


def rate_line(talk: Talk, achieved: Rate, planned: Rate) -> str:
    """Say how the rate that was put down compares with the one planned."""
    share = achieved.rate_si / planned.rate_si - 1
    key = "over" if share > 0.05 else ("under" if share < -0.05 else "right")
    percent = f"{abs(share) * 100:.0f}"
    return talk.say(f"applying.rate_{key}", planned=LabelRate.of_rate(planned), percent=percent)


def _doubt_lines(talk: Talk, done: uses.Confirmed, today: date) -> list[str]:
    """Return what else the label has against what is down, beside its maxima."""
    match done.doubt:
        case TooSoon() as soon:
            day, last = Day(soon.allowed_from, today), Day(soon.last, today)
            return [talk.say("applying.too_soon", day=day, last=last)]
        case TooManyApplications() as many:
            return [talk.say("applying.too_many", limit=many.limit)]
        case UseUnknown() as unknown:
            entry = unknown.entries[0]
            day = Day(entry.day, today)
            return [talk.say("applying.unchecked", day=day, zone=entry.zone)]
    return []


def _with_end(talk: Talk, yard: YardRecord, done: uses.Confirmed, lines: list[str]) -> Reply:
    today = talk.today(yard)
    if not done.is_of_a_round:
        lines.append(talk.say("applying.for_no_round"))
    elif done.target == Target.WINTER_ANNUALS:
        lines.append(talk.say("applying.for_late_summer"))
    elif done.year > season_day(done.applied_on, yard.lat).year:
        lines.append(talk.say("applying.for_next_spring", year=done.year))
    else:
        lines += _timing_lines(talk, yard, done)
    half = done.next_half
    if half is not None and not half.is_allowed:
        lines.append(talk.say("applying.half_capped"))
    elif half is not None and half.on > today:
        lines.append(talk.say("applying.next_half", on=Day(half.on, today)))
    lines.append(talk.say("applying.caution"))
    if talk.standing(yard).chat_wishes.posts_signs:
        lines.append(talk.say("notices.rule_posted"))
    button = (talk.say("applying.button_undo"), f"undo:{done.journal_id}")
    return Reply("\n".join(lines), rows([button]))


#: Days before the window on which what goes down counts as early, and says what that means.
_EARLY_DAYS: Final = 14


def _timing_lines(talk: Talk, yard: YardRecord, done: uses.Confirmed) -> list[str]:
    """Say what it means that a first application went down early or late, by its ingredients.

    How long it holds is reckoned with each ingredient's decay; what is up already is told apart.
    """
    season = talk.season(yard)
    year = season_day(done.applied_on, yard.lat).year
    earlier = [
        each
        for each in talk.standing(yard).done
        if each.year == year and each.id != done.application_id
    ]
    if season is None or season.outlook is None or earlier:
        return []
    judged = Judged.from_json(season.outlook)
    up, closes = judged.p50, judged.deadline_on
    if up is None or closes is None or season_day(up, yard.lat).year != year:
        return []
    today = talk.today(yard)
    said = Day(up, today)
    lead = plan_of(talk.standing(yard), Target.SUMMER_ANNUALS).lead_days
    if done.applied_on < up - timedelta(days=lead + _EARLY_DAYS):
        days = (up - done.applied_on).days
        return [talk.say("applying.early", days=days, up=said), *_holds(talk, yard)]
    if done.applied_on <= closes:
        return []
    if done.applied_on < up:
        return [talk.say("applying.nearly_late", up=said)]
    product = _put_down(talk, yard, done)
    names = () if product is None else product.ingredient_names
    working = [name for name in names if name in weeds_seen.helps_on_seedlings()]
    key = "late_on_small" if working else "late_on_seed"
    return [
        talk.say(
            f"applying.{key}", up=said, names=Names([say_ingredient(each) for each in working])
        ),
        *_holds(talk, yard),
    ]


def _holds(talk: Talk, yard: YardRecord) -> list[str]:
    return barrier_lines(talk, yard, sight_of(talk, yard))


def _put_down(talk: Talk, yard: YardRecord, done: uses.Confirmed) -> Product | None:
    record = talk.standing(yard).application(done.application_id)
    return None if record is None else put_down(record)


HANDLERS: Final = {"report_applied": on_report_applied}
