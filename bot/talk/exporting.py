"""The record as files: CSV, XLSX, a log to print and a calendar."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from bot.hearing.heard import ActHeard
from bot.talk.rounds_said import sight_of
from bot.talk.talk import Talk
from bot.turn import Reply
from jobs import exports
from jobs.agronomy.season import Target
from jobs.uses import confirming as application_uses
from jobs.uses import recording as uses
from storage.yards import YardRecord


def on_export(talk: Talk, yard: YardRecord, _heard: ActHeard) -> list[Reply]:
    """Make the files of a yard."""
    sight = sight_of(talk, yard)
    today = talk.today(yard)
    targets = {
        target: talk.say(f"records.target_{target}")
        for target in (*Target, application_uses.OTHER_TARGET)
    }
    rows_ = uses.log_rows(talk.work, yard, targets)
    headings = {name: talk.say(f"records.heading.{name}") for name in exports.columns()}
    folder = talk.around.files / f"yard-{yard.id}"
    stem = folder / f"{_slug(yard.name)}-{today.isoformat()}"
    title = talk.say("records.log_title", yard=yard.name)
    place = talk.say(
        "records.log_place",
        lat=f"{yard.lat:.4f}",
        lon=f"{yard.lon:.4f}",
        zone=yard.timezone,
        day=today.isoformat(),
    )
    law = talk.say("records.log_law")
    calendar = exports.calendar_of(
        talk.work,
        yard,
        [_item(talk, yard, each) for each in uses.to_come(talk.work, yard, talk.now, sight)],
        talk.say("records.calendar_name", yard=yard.name),
        talk.now,
    )
    first, *others = (stem.with_suffix(f".{kind}") for kind in ("csv", "xlsx", "pdf", "ics"))

    def write() -> None:
        folder.mkdir(parents=True, exist_ok=True)
        exports.write_csv(rows_, headings, stem.with_suffix(".csv"))
        exports.write_xlsx(rows_, headings, yard.name, stem.with_suffix(".xlsx"))
        exports.write_pdf(rows_, headings, title, [place, law], stem.with_suffix(".pdf"))
        stem.with_suffix(".ics").write_bytes(calendar)

    # Files take a second or more: nobody waits for the database meanwhile.
    talk.afterwards.append(write)
    lines = [talk.say("records.exported", yard=yard.name, count=len(rows_))]
    missing = uses.missing(talk.work, yard)
    if missing and uses.ask_once(talk.work, talk.chat.id, talk.now):
        lines += [talk.say(f"records.asked_{what}") for what in missing]
    lines.append(talk.say("records.keep_safe"))
    return [Reply("\n".join(lines), file=str(first)), *(_file(path) for path in others)]


def _file(path: Path) -> Reply:
    return Reply(path.name, file=str(path))


def _item(talk: Talk, yard: YardRecord, each: uses.ToCome) -> exports.CalendarItem:
    key = f"records.calendar_{each.kind}"
    if each.kind == "window":
        key = f"{key}_{each.target}"
    what = f"{each.kind}.{each.zone or each.target}"
    return exports.CalendarItem(
        what=what,
        year=each.year,
        first=each.first,
        last=each.last,
        summary=talk.say(key, yard=yard.name, zone=each.zone),
        description=talk.say("records.calendar_rough"),
    )


def _slug(name: str) -> str:
    letters = "".join(
        each if each.isascii() and each.isalnum() else " " for each in name.casefold()
    )
    return "-".join(letters.split()) or "yard"


HANDLERS: Final = {"export": on_export}
