"""The table of acts, and how what was heard is shown."""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from bot.hearing.acts import ACTS
from bot.hearing.heard import ActHeard, Heard, Slots
from bot.hearing.readers.dates import WhenRead
from bot.hearing.readers.quantities import Amount
from jobs.agronomy import units


def test_no_question_changes_anything() -> None:
    asking = [act for act in ACTS.values() if act.name.startswith(("ask_", "show_", "list_"))]
    assert len(asking) >= 25
    assert not [act.name for act in asking if act.changes]


@pytest.mark.parametrize("name", ["report_applied", "measure", "erase", "confirm", "set_quiet"])
def test_what_is_kept_is_a_change(name: str) -> None:
    assert ACTS[name].changes


def test_whoever_has_a_share_may_ask_to_leave_a_yard() -> None:
    # What the owner gives up and a member leaves is told apart by its handler (see test_parting).
    assert ACTS["remove_yard"].needs == "see"


def test_an_emergency_needs_no_right() -> None:
    assert ACTS["emergency"].needs == "none"


def test_every_slot_of_an_act_is_one_of_slots() -> None:
    known = set(Slots.__dataclass_fields__)
    assert not {slot for act in ACTS.values() for slot in act.slots} - known


def test_understood_shows_slots_as_plain_values() -> None:
    at = datetime(2026, 4, 9, 17, 30, tzinfo=ZoneInfo("America/Chicago"))
    slots = Slots(
        zones=("front",),
        on=WhenRead(at, True, False, "thursday at 5:30 pm"),
        amount=Amount(7.5, "lb"),
        depth_m=units.to_si(0.5, "in"),
        area_m2=units.to_si(2400.0, "sq ft"),
        soil_c=10.0,
        minutes=20.0,
    )
    heard = Heard((ActHeard("report_applied", slots),))
    assert heard.understood() == [
        {
            "act": "report_applied",
            "slots": {
                "zones": ["front"],
                "on": "2026-04-09",
                "at": "2026-04-09T17:30:00-05:00",
                "amount": "7.5 lb",
                "area_sq_ft": 2400.0,
                "depth_in": 0.5,
                "minutes": 20.0,
                "soil_f": 50.0,
            },
        }
    ]


def test_understood_names_what_is_asked_between() -> None:
    heard = Heard(choose=(ActHeard("report_applied"), ActHeard("report_service")))
    assert heard.understood() == [
        {"act": "choose", "slots": {"between": ["report_applied", "report_service"]}}
    ]


def test_nothing_heard_is_unknown() -> None:
    assert Heard().understood() == [{"act": "unknown", "slots": {}}]
