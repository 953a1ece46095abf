"""What a look changed, and telling of it: alerts into the outbox, untrue ones out of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Final

from jobs.agronomy.season import FALSE_START, Kind, State, Target
from jobs.judged import Judged
from jobs.local_days import season_day
from jobs.season_facts import is_more_allowed, plan_of, round_of
from jobs.standing import Standing, standing_of
from jobs.turf_limits import room, round_amount
from jobs.year_round import Word, late_summer_facts
from storage import alerts, yards
from storage.applications import ApplicationRecord
from storage.database import Work
from storage.yards import YardRecord, ZoneRecord

#: What calls to the first round of a target.
_CALLS: Final = (Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW)


@dataclass(frozen=True, slots=True)
class Moved:
    """What one look changed for one target: for those who write histories."""

    target: str
    state: str
    is_state_changed: bool
    alerts: tuple[str, ...]
    why: str
    judged: Judged | None


def tell(
    work: Work,
    standing: Standing,
    change: Moved,
    kind: str,
    today: date,
    now: datetime,
    due_at: datetime,
    *,
    about: ApplicationRecord | None = None,
    more: dict[str, Any] | None = None,
    word: Word | None = None,
) -> None:
    """Put an alert into the outbox, with the facts it will be worded from; once an episode."""
    yard, target = standing.yard, Target(change.target)
    day = season_day(today, yard.lat)
    year = day.year if word is None else word.year
    key = f"{yard.id}:{target}:{year}:{kind}"
    is_closed_again = kind == Kind.SOIL_WARMING and FALSE_START in change.why.split(", ")
    capped = {} if is_closed_again else _capped_call(standing, kind, target, word, day)
    if capped and kind == Kind.WINDOW_MISSED:
        return  # nothing could be put down: that was told when it was called for
    if word is not None:
        key, more = f"{key}:{word.about}", {**word.facts, "word": word.about}
    elif capped:
        key = f"{yard.id}:{target}:{year}:capped"
    elif about is not None:
        key = f"{key}:{about.id}"
        stage = (more or {}).get("stage", "first")
        key += "" if stage == "first" else f":{stage}"
    elif kind in _CALLS and is_called_again(standing, target):
        key = f"{key}:again"
    elif kind in (Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING):
        # Corrected days make another half of it.
        now_due = round_of(standing, target, day)
        key = f"{key}:{now_due.done + 1}:{now_due.completed_on}"
    elif kind is Kind.DATA_STALE and change.judged is not None:
        key = f"{key}:{change.judged.known_until}"
    _to_outbox(
        work,
        yard,
        target=target,
        year=year,
        kind=kind,
        episode_key=key,
        facts={
            **({} if change.judged is None else change.judged.to_json()),
            **(more or {}),
            "today": today.isoformat(),
            "state": change.state,
            "why": change.why,
            "target": change.target,
            **about_zones(work, standing, target, kind, today),
            "application_id": None if about is None else about.id,
            "rounds": plan_of(standing, target).rounds,
            "is_closed_again": is_closed_again,
            **capped,
            **(
                late_summer_facts(standing, day.year)
                if target is Target.WINTER_ANNUALS and kind in _CALLS and not is_closed_again
                else {}
            ),
        },
        due_at=due_at,
        now=now,
    )


def about_zones(
    work: Work, standing: Standing, target: Target, kind: str, today: date
) -> dict[str, Any]:
    """Return the facts of the zones a message is about: which, how far they are, what they take.

    Those still to do, without those the label stops; for a window missed those it is too late for.
    """
    now = round_of(standing, target, season_day(today, standing.yard.lat))
    ids = (now.late or now.zones) if kind == Kind.WINDOW_MISSED else now.zones
    about = [zone for zone in standing.zones if zone.id in ids]
    return {
        "open_zones": [zone.name for zone in room(standing, about, today).zones or about],
        "rounds_done": now.done,
        "needed": _needed(work, standing, about, today),
        "form": None if standing.product is None else standing.product.form,
    }


def is_called_again(standing: Standing, target: Target) -> bool:
    """Tell whether this year's window of a yard has closed once already."""
    season = standing.season(target)
    return season is not None and FALSE_START in season.told


def withdraw_untrue(work: Work, yard: YardRecord, target: Target, state: State) -> None:
    """Withdraw what waits in the outbox and is no longer so."""
    if state in (State.APPLIED, State.RETREAT_DUE):
        alerts.drop_waiting(work, yard.id, target, [str(kind) for kind in _CALLS])
    if state is State.WAITING:
        # Should the window open again, that is another call.
        calls = [str(Kind.WINDOW_OPEN), str(Kind.ACT_NOW)]
        alerts.drop_waiting(work, yard.id, target, calls)
    if state is not State.RETREAT_DUE:
        again = [Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING]
        alerts.drop_waiting(work, yard.id, target, [str(kind) for kind in again])


def _to_outbox(work: Work, yard: YardRecord, *, episode_key: str, **alert: Any) -> None:
    """Put an alert into the outbox of the yard's chat, and of those with a share in its work."""
    alerts.add(work, chat_id=yard.chat_id, yard_id=yard.id, episode_key=episode_key, **alert)
    for member in standing_of(work, yard).members:
        if member.role != "see":
            key = f"{episode_key}:chat{member.chat_id}"
            alerts.add(work, chat_id=member.chat_id, yard_id=yard.id, episode_key=key, **alert)


def _capped_call(
    standing: Standing, kind: str, target: Target, word: Word | None, day: date
) -> dict[str, Any]:
    """Return the facts of a call that the label leaves nothing for; nothing for any other."""
    if word is not None or kind not in (*_CALLS, Kind.WINDOW_MISSED):
        return {}
    if is_more_allowed(standing, day):
        return {}
    return {"is_call_capped": True, "zones": [zone.name for zone in standing.programme]}


def _needed(
    work: Work, standing: Standing, zones: Sequence[ZoneRecord], on: date
) -> dict[str, Any] | None:
    """Return how much product zones take on a day, and what the label allows of it.

    Only zones that may get it count; None before a product is chosen, or where none may. With it
    what stands on the shelf, and whether that will do for every yard of the chat on the product.
    """
    yard = standing.yard
    found = round_amount(standing, zones, on)
    if found is None or standing.record is None:
        return None
    amount, most_si = found
    needed = {"si": amount.si, "unit": amount.unit, "most_si": most_si}
    shelf_si = standing.record.shelf_si
    if shelf_si is None:
        return needed
    others = [
        standing_of(work, each)
        for each in yards.of_chat(work, yard.chat_id)
        if each.product_id == yard.product_id and each.id != yard.id
    ]
    sharing = [round_amount(each, each.programme, on) for each in others]
    all_si = amount.si + sum(each[0].si for each in sharing if each is not None)
    return {**needed, "shelf_si": shelf_si, "is_shelf_enough": shelf_si >= all_si}
