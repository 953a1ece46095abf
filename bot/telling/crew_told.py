"""Who has to do with a yard: its crew, whose it is, and what is missing to treat it for pay."""

from __future__ import annotations

from bot.dialogue.talk import OWNER, Talk
from bot.saying.values import Day, Names
from bot.turn import Reply, rows
from jobs.local_days import local
from jobs.uses import crew_changes as uses
from jobs.uses.crew_changes import ROLES
from storage import yards
from storage.yards import YardRecord


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer /crew."""
    role = talk.role(yard)
    if role != OWNER:
        button = (talk.say("crews.button_leave", yard=yard.name), f"crew:leave:{yard.id}")
        said = talk.say(f"crews.role_{role}")
        return [talk.reply("crews.member_view", rows([button]), yard=yard.name, role=said)]
    crew = uses.crew_of(talk.work, yard)
    today = talk.today(yard)
    lines = [talk.say("crews.head" if crew.members else "crews.head_none", yard=yard.name)]
    removals = []
    for member in crew.members:
        name = member.name or talk.say("sharing.somebody")
        since = Day(local(member.since, yard.timezone).date(), today)
        lines.append(
            talk.say(
                "crews.member", name=name, role=talk.say(f"crews.role_{member.role}"), since=since
            )
        )
        label = talk.say("crews.button_remove", name=name[:24])
        removals.append([(label, f"crew:remove:{yard.id}:{member.id}")])
    for done in crew.lately:
        on = Day(done.on, today)
        name = done.by or talk.say("sharing.somebody")
        lines.append(talk.say("crews.lately", zones=Names(done.zones), on=on, name=name))
    if talk.turn.is_group:
        lines.append(talk.say("crews.group"))
    if not talk.turn.runs_chat:
        return [Reply("\n".join(lines))]
    invites = [
        [(talk.say(f"crews.button_invite_{each}"), f"crew:invite:{yard.id}:{each}")]
        for each in ROLES
    ]
    own = len(yards.of_chat(talk.work, talk.chat.id))
    if own > 1:
        invites += [
            [(talk.say(f"crews.button_all_{each}", count=own), f"crew:all:{yard.id}:{each}")]
            for each in ROLES
        ]
    return [Reply("\n".join(lines), rows(*removals, *invites))]


def whose(talk: Talk) -> list[Reply]:
    """Ask whose a further yard is, as soon as there is one."""
    mine = talk.yards()
    yard = talk.yard()
    if yard is None or len(mine) < 2 or yard.owner is not None:
        return []
    buttons = talk.rows(
        [
            ("screening.button_own", f"owner:own:{yard.id}"),
            ("screening.button_friend", f"owner:friend:{yard.id}"),
        ],
        [("screening.button_pay", f"owner:pay:{yard.id}")],
    )
    return [talk.reply("screening.whose", buttons, yard=yard.name)]


def licence_line(talk: Talk, yard: YardRecord) -> str | None:
    """Return what is missing to treat a client's yard for pay; it never holds anything back."""
    if yard.owner != "pay":
        return None
    person = talk.person
    if person.licence is None:
        return talk.say("screening.licence_missing")
    if person.licence_until is not None and person.licence_until < talk.today(yard):
        day = Day(person.licence_until, talk.today(yard))
        return talk.say("screening.licence_expired", number=person.licence, day=day)
    return None
