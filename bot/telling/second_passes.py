"""Second passes still to come: what each takes, and the button for when it is down."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.saying.printed_amounts import ToWeigh
from bot.saying.values import Area
from bot.turn import Buttons, rows
from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.ledger import UseUnknown
from jobs.rounds import planned_for
from jobs.uses import second_pass as uses
from jobs.uses.second_pass import SecondPass
from storage.yards import YardRecord


def to_come(talk: Talk, yard: YardRecord) -> list[SecondPass]:
    """Return the second passes that a yard lacks in the round that is planned."""
    standing = talk.standing(yard)
    return uses.to_come(standing, standing.zones, *planned_for(standing, talk.today(yard)))


def lines(talk: Talk, yard: YardRecord) -> list[str]:
    """Say what each second pass takes; where the label leaves none, that it gets none."""
    found = []
    for each in to_come(talk, yard):
        params = {"zone": each.share.zone_name, "area": Area(each.share.area_m2)}
        try:
            most_si = uses.most_si(talk.standing(yard), each, talk.today(yard))
        except (LabelLimitExceeded, UseUnknown):
            found.append(talk.say("applying.second_stopped", **params))
            continue
        rest = ToWeigh(each.lacking.si, each.lacking.unit, most_si, talk.scale)
        found.append(talk.say("applying.second_to_come", **params, rest=rest))
    return found


def buttons(talk: Talk, yard: YardRecord) -> Buttons:
    """Return a button for each second pass that may follow."""
    standing, today = talk.standing(yard), talk.today(yard)
    return tuple(
        row
        for each in to_come(talk, yard)
        if uses.may_follow(standing, each, today)
        for row in rows(
            [
                (
                    talk.say("applying.button_second", zone=each.share.zone_name),
                    f"spreader:second:{yard.id}:{each.record.id}",
                )
            ]
        )
    )
