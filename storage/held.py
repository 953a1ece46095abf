"""What a unit of work has loaded and may use again, until anything is written in it."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, Final, TypeVar

from sqlalchemy import event
from sqlalchemy.orm import ORMExecuteState, Session

from storage.database import Work

Loaded = TypeVar("Loaded")

_KEY: Final = "held"


def held(work: Work, key: Hashable, load: Callable[[], Loaded]) -> Loaded:
    """Return what was loaded under a key in this unit of work, or load it.

    Every write of the unit lets go of all of it; so does whoever waits for others to be done.
    """
    work.flush()
    kept: dict[Hashable, Any] = work.info.setdefault(_KEY, {})
    if key not in kept:
        kept[key] = load()
    found: Loaded = kept[key]
    return found


def let_go(work: Session) -> None:
    """Forget what was loaded: it may be different now."""
    work.info.pop(_KEY, None)


@event.listens_for(Session, "after_flush")
def _after_flush(session: Session, _context: Any) -> None:
    let_go(session)


@event.listens_for(Session, "do_orm_execute")
def _on_execute(state: ORMExecuteState) -> None:
    if not state.is_select:
        let_go(state.session)


@event.listens_for(Session, "after_rollback")
@event.listens_for(Session, "after_soft_rollback")
def _after_rollback(session: Session, *_: Any) -> None:
    let_go(session)
