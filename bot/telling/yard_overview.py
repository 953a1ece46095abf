"""A yard at a glance: where it stands, what comes next, what can be set."""

from __future__ import annotations

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.saying.values import Day, Names
from bot.telling import rounds_said
from bot.telling.soil_lines import next_line
from bot.telling.water_due import water_lines
from bot.turn import Buttons, Reply
from jobs.agronomy.season import State, Target
from jobs.agronomy.whats_next import Next, Stage
from jobs.rounds import planned_for
from jobs.season_facts import late_summer_of, next_half
from storage.yards import YardRecord


def overview(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer /yard: where it stands, in words, and what is settled about it."""
    lines = [
        talk.say("yards.stands", yard=yard.name, state=state_words(talk, yard)),
        *_details(talk, yard),
        *rounds_said.beside_lines(talk, yard),
    ]
    if not talk.standing(yard).zones:
        lines.append(talk.say("yards.zones_none"))
    if yard.product_id is None:
        lines.append(talk.say("yards.product_none"))
    if talk.around.is_invented:
        lines.append(talk.say("help.invented"))
    return [Reply("\n".join(lines), yard_buttons(talk, yard))]


def state_words(talk: Talk, yard: YardRecord) -> str:
    """Return where a yard stands, in words."""
    standing = talk.standing(yard)
    season = standing.season(planned_for(standing, talk.today(yard))[0])
    state = State.WAITING if season is None else State(season.state)
    return talk.say(f"yards.state_{state.name.lower()}")


def choose(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer the button of another yard."""
    talk.settle()
    first = talk.reply("yards.now_talking", yard=yard.name)
    return [first, *overview(talk, yard)]


def more(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [More]: what is set of a yard less often, and the others."""
    word, rounds = ("one", 1) if yard.rounds > 1 else ("two", 2)
    settings = talk.rows(
        [
            ("yards.button_grass", f"grass:ask:{yard.id}"),
            ("buying.button_buy", f"buy:show:{yard.id}"),
        ],
        [
            (f"yards.button_rounds_{word}", f"yard:rounds:{yard.id}:{rounds}"),
            ("yards.button_lead", f"yard:lead:{yard.id}"),
        ],
        [
            ("yards.button_rename", f"yard:name:{yard.id}"),
            ("yards.button_zone", f"yard:tz:{yard.id}"),
        ],
        [("yards.button_all", "yards:0")] if len(talk.yards()) > 1 else [],
    )
    return [talk.reply("yards.more", settings, yard=yard.name)]


def yard_buttons(talk: Talk, yard: YardRecord) -> Buttons:
    """Return the buttons under what is said of a whole yard."""
    return talk.rows(
        [
            ("yards.button_soil", f"soil:{yard.id}"),
            ("yards.button_amounts", f"amounts:{yard.id}"),
            ("timing.button_why", f"why:{yard.id}"),
        ],
        [
            ("yards.button_zones", f"zones:list:{yard.id}"),
            ("yards.button_product", f"product:show:{yard.id}"),
            ("yards.button_sketch", f"sketch:show:{yard.id}"),
        ],
        [
            ("rounds.button_rounds", f"rounds:show:{yard.id}"),
            ("yards.button_more", f"yard:more:{yard.id}"),
        ],
    )


def _details(talk: Talk, yard: YardRecord) -> list[str]:
    season = talk.season(yard)
    if season is None or season.outlook is None:
        return [talk.say("yards.detail_first_look")]
    late_summer = late_summer_of(talk.standing(yard), talk.now)
    if late_summer is not None:
        line = next_line(late_summer, talk.today(yard), is_late_summer=True)
        return [line, *water_lines(talk, yard)]
    upcoming = rounds_said.next_of(talk, yard)
    if upcoming.stage in (Stage.DOWN, Stage.HALF_DUE):
        return _applied(talk, yard, upcoming)
    # Part of it may be down already.
    return [next_line(upcoming, talk.today(yard)), *water_lines(talk, yard)]


def _applied(talk: Talk, yard: YardRecord, upcoming: Next) -> list[str]:
    today = talk.today(yard)
    lines = []
    done = talk.standing(yard).done
    if done:
        lines.append(talk.say("yards.detail_applied", on=Day(done[-1].applied_on, today)))
    lines += water_lines(talk, yard)
    if upcoming.stage is Stage.HALF_DUE or upcoming.opens_on is not None:
        lines.append(next_line(upcoming, today))
    elif next_half(talk.standing(yard), Target.SUMMER_ANNUALS, talk.now) is not None:
        lines.append(talk.say("yards.detail_half_capped"))
    return lines


def start(talk: Talk) -> list[Reply]:
    """Answer /start."""
    mine = talk.yards()
    invented = f"\n{talk.say('help.invented')}" if talk.around.is_invented else ""
    if mine:
        talk.settle()
        names = talk.say("yards.list", names=Names([yard.name for yard in mine]))
        greeting = talk.say("help.greeting_again", yards=names)
        return [Reply(greeting + invented, yard_buttons(talk, mine[-1]))]
    talk.expect(topics.PLACE)
    return [Reply(talk.say("help.greeting") + invented, asks_place=True)]
