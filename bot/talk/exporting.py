"""The record as files: CSV, XLSX, a log to print and a calendar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final, get_args

from bot.dialogue.talk import Talk
from bot.hearing.forms.export_forms import ExportSaid
from bot.hearing.heard import ActHeard
from bot.hearing.words import bare
from bot.saying.plants import say_grass, say_ingredient
from bot.saying.values import Day
from bot.talk import record_filling
from bot.telling.rounds_said import sight_of
from bot.turn import Reply, rows
from jobs import exports
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.maxima import Period
from jobs.agronomy.season import Target
from jobs.calendar_file import CalendarItem, calendar_of
from jobs.digests import MANY_YARDS
from jobs.uses import confirming as application_uses
from jobs.uses import recording as uses
from storage.yards import YardRecord


def on_export(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Make the files of a yard, of all yards, of a customer's, of some days."""
    said = heard.slots.read
    if not isinstance(said, ExportSaid):
        said = ExportSaid()
    if said.customer is None and heard.slots.yard is None and len(talk.yards()) >= MANY_YARDS:
        # Who looks after many is asked for the record of all, unless one of them is named.
        said = replace(said, is_all=True)
    named = None if said.customer or heard.slots.yard else _customer_in(talk, heard.said)
    if named is not None:
        said = replace(said, is_all=False, customer=named)
    mine = [yard]
    if said.is_all or said.customer is not None:
        mine = [each for each in talk.yards() if talk.may(each, "see")]
    if said.customer is not None:
        wanted = said.customer.casefold()
        mine = [each for each in mine if wanted in (each.customer or "").casefold()]
        if not mine:
            return [talk.reply("records.no_customer", name=said.customer)]
    return export(talk, yard, mine, said)


def _customer_in(talk: Talk, text: str) -> str | None:
    """Return the customer a text names without that word: "export Cobb"."""
    words = set(bare(text).split())
    for name in {each.customer for each in talk.yards() if each.customer}:
        own = {word for word in bare(name).split() if len(word.strip(".")) > 1}
        if own and own <= words:
            return name
    return None


def tapped(talk: Talk, yard: YardRecord, _action: str) -> list[Reply]:
    """Answer [All yards]."""
    mine = [each for each in talk.yards() if talk.may(each, "see")]
    return export(talk, yard, mine, ExportSaid(is_all=True))


def export(
    talk: Talk, yard: YardRecord, mine: Sequence[YardRecord], said: ExportSaid
) -> list[Reply]:
    """Make the files of some yards: the log in three forms, and a calendar."""
    today = talk.today(yard)
    words = _words(talk, mine)
    first, last = said.first or date.min, said.last or date.max
    rows_ = [
        row
        for each in mine
        for row in uses.log_rows(talk.work, each, words)
        if first <= date.fromisoformat(row.applied_on) <= last
    ]
    rows_.sort(key=lambda row: (row.applied_on, row.started or "", row.record))
    headings = {name: talk.say(f"records.heading.{name}") for name in exports.columns()}
    is_one = len(mine) == 1
    name = mine[0].name if is_one else said.customer or talk.say("records.all_yards")
    folder = talk.around.files / (f"yard-{mine[0].id}" if is_one else f"chat-{talk.chat.id}")
    stem = folder / f"{_slug(name)}-{today.isoformat()}"
    title = talk.say("records.log_title", yard=name)
    place = (
        talk.say(
            "records.log_place",
            lat=f"{mine[0].lat:.4f}",
            lon=f"{mine[0].lon:.4f}",
            zone=mine[0].timezone,
            day=today.isoformat(),
        )
        if is_one
        else talk.say("records.log_yards", count=len(mine), day=today.isoformat())
    )
    law = talk.say("records.log_law")
    total, totals = talk.say("records.total"), talk.say("records.totals")
    calendar = calendar_of(
        talk.work,
        [(each, _items(talk, each)) for each in mine],
        talk.say("records.calendar_name", yard=name),
        talk.now,
    )
    csv, *others = (stem.with_suffix(f".{kind}") for kind in ("csv", "xlsx", "pdf", "ics"))

    def write() -> None:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        exports.write_csv(rows_, headings, stem.with_suffix(".csv"))
        exports.write_xlsx(rows_, headings, name, stem.with_suffix(".xlsx"), totals)
        exports.write_pdf(rows_, headings, title, [place, law], stem.with_suffix(".pdf"), total)
        stem.with_suffix(".ics").write_bytes(calendar)

    # Files take a second or more: nobody waits for the database meanwhile.
    talk.afterwards.append(write)
    whose = name if is_one or said.customer else talk.say("crews.all_of_them")
    lines = [talk.say("records.exported", yard=whose, count=len(rows_))]
    if said.first is not None:
        ends = {"first": Day(said.first, today), "last": Day(said.last or today, today)}
        lines.append(talk.say("records.exported_days", **ends))
    lines += record_filling.ask_lines(talk, list(mine))
    lines.append(talk.say("records.keep_safe"))
    buttons = []
    if is_one and len(talk.yards()) > 1:
        buttons.append((talk.say("records.button_all"), f"export:all:{yard.id}"))
    return [
        Reply("\n".join(lines), rows(buttons), file=str(csv)),
        *(Reply(path.name, file=str(path)) for path in others),
    ]


#: Codes of the log that have a word of their own: forms, kinds of weather, what maxima are of.
_CODES: Final = ("granule", "spray", "hour", "day", "product", "ai")


def _words(talk: Talk, mine: Sequence[YardRecord]) -> dict[str, str]:
    """Return what the codes of a log are called."""
    targets = (*Target, application_uses.OTHER_TARGET)
    grasses = {zone.grass for each in mine for zone in talk.standing(each).zones if zone.grass}
    return {
        **{target: talk.say(f"records.target_{target}") for target in targets},
        **{item.names[0]: say_ingredient(item.names[0]) for item in ingredients().values()},
        **{code: talk.say(f"records.code_{code}") for code in _CODES},
        **{period: talk.say(f"amounts.period_{period}") for period in get_args(Period)},
        "unsaid": talk.say("records.code_unsaid"),
        **{grass: say_grass(grass) for grass in grasses},
    }


def _items(talk: Talk, yard: YardRecord) -> list[CalendarItem]:
    sight = sight_of(talk, yard)
    return [_item(talk, yard, each) for each in uses.to_come(talk.work, yard, talk.now, sight)]


def _item(talk: Talk, yard: YardRecord, each: uses.ToCome) -> CalendarItem:
    key = f"records.calendar_{each.kind}"
    if each.kind == "window":
        key = f"{key}_{each.target}"
    what = f"{each.kind}.{each.zone or each.target}"
    return CalendarItem(
        what=what,
        year=each.year,
        first=each.first,
        last=each.last,
        summary=talk.say(key, yard=yard.name, zone=each.zone),
        description=talk.say(f"records.calendar_{'certain' if each.is_certain else 'rough'}"),
        is_certain=each.is_certain,
        link=(talk.around.invite_link or "").format(payload=f"yard_{yard.id}"),
    )


def _slug(name: str) -> str:
    letters = "".join(
        each if each.isascii() and each.isalnum() else " " for each in name.casefold()
    )
    return "-".join(letters.split()) or "yard"


HANDLERS: Final = {"export": on_export}
