"""Whether a new zone lies where another was: found, asked about, and careful until answered."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise
from typing import Final

from jobs.agronomy.naming import WORTH_ASKING
from jobs.standing import Standing, lineage_of, standing_of
from storage import grounds, journal, yards
from storage.database import Work
from storage.yards import YardRecord, ZoneRecord

#: What was put down before that has no say any more: no label counts so long, no barrier holds.
_FORGOTTEN: Final = timedelta(days=540)
#: A zone is about as large as another within this; less than the other share is no ground left.
_ALIKE: Final = 0.2
_NOTHING_LEFT: Final = 0.02

#: What became of ground, without what only may have.
_SURE: Final = ("split", "merge", "same")


class NothingToSettle(LookupError):
    """Raised for a question that is not open any more."""


@dataclass(frozen=True, slots=True)
class Left:
    """Ground with a record that no zone stands on any more, or not on all of it.

    Attributes
    ----------
    ground_id, name
        The ground, and what it was called.
    area_m2, free_m2
        What it was, and how much of it no zone is known to stand on.
    is_taken_out
        Whether the zone was taken out, rather than measured smaller.
    """

    ground_id: int
    name: str
    area_m2: float
    free_m2: float
    is_taken_out: bool


@dataclass(frozen=True, slots=True)
class Question:
    """Is this where the front was? Open until answered, and taken as yes meanwhile.

    Attributes
    ----------
    id
        For answering it.
    zone
        The zone that is there now.
    was
        What the ground with the record is called.
    is_taken_out
        Whether it was taken out; else it was measured smaller.
    applied_on
        The newest day on which something was put down there.
    """

    id: int
    zone: ZoneRecord
    was: str
    is_taken_out: bool
    applied_on: date


def ground_left(work: Work, yard: YardRecord, now: datetime) -> list[Left]:
    """Return ground with a record that a new zone could lie on."""
    standing = standing_of(work, yard)
    since = now.date() - _FORGOTTEN
    first: dict[int, int] = {}
    for done in standing.done:
        for share in done.shares if done.applied_on >= since else ():
            zone_id = first.get(share.ground_id, share.zone_id)
            first[share.ground_id] = min(zone_id, share.zone_id)
    if not first:
        return []
    origins = standing.origins
    names = grounds.ground_names(work, yard.id)
    stands = {zone.ground_id: zone for zone in standing.zones}
    sure = lineage_of(each for each in origins if each.kind in _SURE)
    measured: dict[int, list[ZoneRecord]] = {}
    for zone in yards.every_zone(work, yard.id):
        measured.setdefault(zone.ground_id, []).append(zone)
    changed = [each for each in origins if each.kind in ("split", "merge")]
    # What came of ground that stands again was taken back: it is no ground of its own.
    undone = {each.ground_id for each in changed if each.from_id in stands}
    gone_on = {each.from_id for each in changed} - stands.keys()
    found = []
    for ground_id, every in measured.items():
        with_record = frozenset().union(*sure.lines(ground_id, first))
        if ground_id in undone or not with_record:
            continue
        is_gone = ground_id not in stands and ground_id not in gone_on
        # A record of what it came of counts from its own day, not from the newer one here.
        free_m2 = _given_away_m2(every, min(first[each] for each in with_record))
        free_m2 += every[-1].treated_m2 if is_gone else 0.0
        again_m2 = sum(
            stands[each.ground_id].treated_m2
            for each in origins
            if each.from_id == ground_id and each.kind == "same" and each.ground_id in stands
        )
        was_m2 = max(zone.treated_m2 for zone in every)
        left_m2 = max(0.0, free_m2 - again_m2)
        found.append(Left(ground_id, names[ground_id], was_m2, left_m2, is_gone))
    return found


def _given_away_m2(measured: Sequence[ZoneRecord], first: int) -> float:
    """Return how much a zone was measured smaller in all since its first record [m²].

    What it was measured larger meanwhile is no comfort: that may be other ground.
    """
    return sum(
        max(0.0, before.treated_m2 - after.treated_m2)
        for before, after in pairwise(measured)
        if after.id > first
    )


def could_be(left: Sequence[Left], name: str, area_m2: float) -> list[Left]:
    """Return the ground that a new zone of a name and a size could lie on."""
    return [each for each in left if _could_be(each, name, area_m2)]


def _could_be(left: Left, name: str, area_m2: float) -> bool:
    if left.free_m2 > _NOTHING_LEFT * left.area_m2:
        return True
    is_near = difflib.SequenceMatcher(None, left.name.casefold(), name.casefold()).ratio()
    is_alike = abs(area_m2 - left.area_m2) <= _ALIKE * left.area_m2
    return left.is_taken_out and (is_near >= WORTH_ASKING or is_alike)


def questions(work: Work, yard: YardRecord) -> list[Question]:
    """Return what is to be asked about a yard's ground, oldest first."""
    standing = standing_of(work, yard)
    maybe = [each for each in standing.origins if each.kind == "maybe"]
    if not maybe:
        return []
    names = grounds.ground_names(work, yard.id)
    stands = {zone.ground_id for zone in standing.zones}
    found = []
    for each in maybe:
        on = [z for z in standing.zones if standing.lineage.comes_of(z.ground_id, {each.ground_id})]
        applied_on = _newest_on(standing, each.from_id)
        if on and applied_on is not None:
            is_gone = each.from_id not in stands
            found.append(Question(each.id, on[0], names[each.from_id], is_gone, applied_on))
    return found


def _newest_on(standing: Standing, ground_id: int) -> date | None:
    history = standing.records.on(ground_id)
    days = [entry.day for entry in history.entries]
    days += [
        done.applied_on
        for done in standing.done
        if done.product is None and any(share.ground_id == ground_id for share in done.shares)
    ]
    return max(days, default=None)


def answer(
    work: Work, yard: YardRecord, question_id: int, *, is_same: bool, now: datetime
) -> Question:
    """Settle whether a zone lies where another was; return the question.

    Raises
    ------
    NothingToSettle
        If it is not asked any more.
    """
    found = next((each for each in questions(work, yard) if each.id == question_id), None)
    if found is None:
        raise NothingToSettle(str(question_id))
    grounds.settle_origin(work, question_id, "same" if is_same else "other")
    yards.change(work, yard.id, next_check_at=now)
    journal.note(
        work,
        yard.id,
        "ground.settle",
        question_id,
        is_same=is_same,
        name=found.zone.name,
        was=found.was,
    )
    return found
