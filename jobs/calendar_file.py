"""What is to come as an iCalendar file whose entries update those given out before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from storage import calendar_entries
from storage.database import Work
from storage.yards import YardRecord


@dataclass(frozen=True, slots=True)
class CalendarItem:
    """One thing to come, as whole days; `what` and `year` make its identity stable.

    Attributes
    ----------
    what
        Such as ``window.summer_annuals``, ``half2.summer_annuals`` or ``seed.pool lawn``.
    year
        Season's year.
    first, last
        Its days, both inclusive.
    summary, description
        What people read.
    is_certain
        Whether the days stand; an estimate is tentative.
    link
        What opens the yard where it is talked about; empty where there is no such link.
    """

    what: str
    year: int
    first: date
    last: date
    summary: str
    description: str
    is_certain: bool = False
    link: str = ""


def calendar_of(
    work: Work, items: Sequence[tuple[YardRecord, Sequence[CalendarItem]]], name: str, now: datetime
) -> bytes:
    """Return an iCalendar file (RFC 5545) whose entries update those given out before.

    A UID stays for good; a change counts SEQUENCE up and moves DTSTAMP. What was given out and is
    done, or is no longer so, is given out cancelled, so that it vanishes.
    """
    from icalendar import Calendar, Event

    calendar = Calendar()
    calendar.add("prodid", "-//Soilbell//yard calendar//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", name)
    for yard, of_yard in items:
        contents = {_uid(yard, item): _content(item) for item in of_yard}
        for uid, before in calendar_entries.given_out(work, yard.id).items():
            if uid not in contents:
                contents[uid] = {**before, "status": "CANCELLED"}
        for uid, content in contents.items():
            sequence, changed_at = calendar_entries.numbered(work, yard.id, uid, content, now)
            event = Event()
            event.add("uid", uid)
            event.add("sequence", sequence)
            event.add("dtstamp", changed_at.astimezone(UTC))
            event.add("last-modified", changed_at.astimezone(UTC))
            event.add("dtstart", date.fromisoformat(content["first"]))
            event.add("dtend", date.fromisoformat(content["last"]) + timedelta(days=1))
            event.add("summary", content["summary"])
            event.add("description", content["description"])
            event.add("status", content["status"])
            event.add("transp", "TRANSPARENT")
            if content.get("link"):
                event.add("url", content["link"])
            calendar.add_component(event)
    return bytes(calendar.to_ical())


def _uid(yard: YardRecord, item: CalendarItem) -> str:
    made = yard.created_at.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    what = item.what.replace(" ", "-")
    return f"{what}.{item.year}.yard{yard.id}.{made}@soilbell"


def _content(item: CalendarItem) -> dict[str, str]:
    return {
        "first": item.first.isoformat(),
        "last": item.last.isoformat(),
        "summary": item.summary,
        "description": item.description,
        "status": "CONFIRMED" if item.is_certain else "TENTATIVE",
        **({"link": item.link} if item.link else {}),
    }
