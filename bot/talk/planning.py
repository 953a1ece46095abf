"""The year's plan: how many applications, how far apart, how early the first one is called."""

from __future__ import annotations

from typing import Any, Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing.forms.plan_forms import PlanSaid
from bot.hearing.forms.yard_forms import LeadSaid, TimezoneSaid
from bot.hearing.heard import ActHeard
from bot.saying.plants import say_ingredient
from bot.saying.values import Clock, Names
from bot.telling.rounds_said import lead_of, sight_of, standing_lines
from bot.turn import Buttons, Reply
from jobs.agronomy.season import Target
from jobs.agronomy.timing import IN_PLACE_BEFORE_DAYS
from jobs.local_days import local
from jobs.rounds import weak_ingredients
from jobs.uses import choosing_rounds, yard_settings
from jobs.uses.bounds import NotAllowed
from storage.yards import YardRecord


def on_set_timing(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take a lead, a time zone or a choice of the plan; show the plan where none was said."""
    said, slots = heard.slots.read, heard.slots
    if isinstance(said, TimezoneSaid):
        return set_timezone(talk, yard, said.zone)
    if isinstance(said, LeadSaid):
        return set_lead(talk, yard, said.days)
    if isinstance(said, PlanSaid):
        return _plan(talk, yard, said)
    if slots.days is not None:
        return set_lead(talk, yard, slots.days)
    if slots.number in (1, 2):
        return choose(talk, yard, {"rounds": int(slots.number)})
    return show(talk, yard)


def _plan(talk: Talk, yard: YardRecord, said: PlanSaid) -> list[Reply]:
    if said.is_asked:
        return show(talk, yard)
    if said.as_last_year:
        return copy(talk, yard)
    values = said.values()
    split = values.get("split_days")
    if split is not None and split not in yard_settings.SPLITS_DAYS:
        low, high = yard_settings.SPLITS_DAYS.start, yard_settings.SPLITS_DAYS.stop - 1
        return [talk.reply("rounds.split_range", low=low, high=high)]
    return choose(talk, yard, values)


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer ``rounds``: the plan, where each target stands, and what might suit the yard."""
    sight = sight_of(talk, yard)
    suggested = choosing_rounds.suggest(talk.work, yard, sight)
    lines = [
        talk.say("rounds.head", yard=yard.name),
        *_plan_lines(talk, yard),
        talk.say("rounds.lead", lead=lead_of(talk, yard), before=IN_PLACE_BEFORE_DAYS),
        *standing_lines(talk, yard),
        # The nearest of them: a plan is read at a glance.
        *[talk.say(f"rounds.suggest_{why}") for why in suggested.whys][:1],
    ]
    return [Reply("\n".join(lines), _buttons(talk, yard))]


def tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons under the rounds."""
    what = action.split(":")[1]
    if what == "copy":
        return copy(talk, yard)
    values: dict[str, dict[str, Any]] = {
        "late": {"has_late_summer_round": True},
        "nolate": {"has_late_summer_round": False},
        "dormant": {"has_dormant_half": True, "rounds": 2},
        "nodormant": {"has_dormant_half": False},
    }
    if what not in values:
        return show(talk, yard)
    return choose(talk, yard, values[what])


def copy(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer ``as last year``."""
    try:
        changed, year = choosing_rounds.copy_last_year(talk.work, yard, now=talk.now)
    except choosing_rounds.NoEarlierSeason:
        return [talk.reply("rounds.nothing_to_copy", yard=yard.name)]
    lines = [talk.say("rounds.copied", yard=changed.name, year=year), *_plan_lines(talk, changed)]
    return [Reply("\n".join(lines), talk.undo())]


def choose(talk: Talk, yard: YardRecord, values: dict[str, Any]) -> list[Reply]:
    """Set what was chosen of the year's plan, and say it."""
    changed = choosing_rounds.choose(talk.work, yard, values, now=talk.now)
    params = {"yard": changed.name, "split": changed.split_days}
    if "has_late_summer_round" in values:
        is_on = changed.has_late_summer_round
        key = "rounds.set_late_on" if is_on else "rounds.set_late_off"
    elif "has_dormant_half" in values:
        is_on = changed.has_dormant_half
        key = "rounds.set_dormant_on" if is_on else "rounds.set_dormant_off"
    elif "split_days" in values:
        key = "rounds.set_split"
    else:
        key = "yards.rounds_one" if changed.rounds == 1 else "yards.rounds_two"
    lines = [talk.say(key, **params)]
    if key == "rounds.set_late_on":
        lines += _late_cautions(talk, changed)
    return [Reply("\n".join(lines), talk.undo())]


def _late_cautions(talk: Talk, yard: YardRecord) -> list[str]:
    lines = [
        talk.say("rounds.weak", ingredient=say_ingredient(name))
        for name in weak_ingredients(talk.standing(yard), Target.WINTER_ANNUALS)
    ]
    planned = [s.zone_name for s in talk.standing(yard).seedings if not s.is_done]
    if planned:
        lines.append(talk.say("rounds.late_seed", zones=Names(list(dict.fromkeys(planned)))))
    return [*lines, talk.say("rounds.moisture")]


def _plan_lines(talk: Talk, yard: YardRecord) -> list[str]:
    key = "rounds.spring_two" if yard.rounds > 1 else "rounds.spring_one"
    lines = [talk.say(key, split=yard.split_days)]
    if yard.has_dormant_half:
        lines.append(talk.say("rounds.spring_dormant"))
    lines.append(talk.say("rounds.late_on" if yard.has_late_summer_round else "rounds.late_off"))
    return lines


def _buttons(talk: Talk, yard: YardRecord) -> Buttons:
    rounds = ("one", 1) if yard.rounds > 1 else ("two", 2)
    late = ("off", "nolate") if yard.has_late_summer_round else ("on", "late")
    dormant = ("off", "nodormant") if yard.has_dormant_half else ("on", "dormant")
    return talk.rows(
        [
            (f"yards.button_rounds_{rounds[0]}", f"yard:rounds:{yard.id}:{rounds[1]}"),
            (f"rounds.button_dormant_{dormant[0]}", f"rounds:{dormant[1]}:{yard.id}"),
        ],
        [
            (f"rounds.button_late_{late[0]}", f"rounds:{late[1]}:{yard.id}"),
            ("rounds.button_copy", f"rounds:copy:{yard.id}"),
        ],
    )


def ask_timezone(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Ask for the right time zone."""
    talk.expect(topics.TIMEZONE, yard_id=yard.id)
    return [talk.reply("yards.ask_zone", yard=yard.name, zone=yard.timezone)]


def set_timezone(talk: Talk, yard: YardRecord, text: str) -> list[Reply]:
    """Put the yard into a time zone, by its name or a city's."""
    try:
        changed = yard_settings.correct_timezone(talk.work, yard, text)
    except yard_settings.NoSuchZone:
        return [talk.reply("yards.zone_unknown", said=text)]
    talk.settle()
    time = Clock(local(talk.now, changed.timezone))
    return [talk.reply("yards.zone_set", yard=yard.name, zone=changed.timezone, time=time)]


def ask_lead(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Ask how early the window shall open."""
    talk.expect(topics.LEAD, yard_id=yard.id)
    leads = yard_settings.LEADS_DAYS
    return [
        talk.reply(
            "yards.ask_lead",
            yard=yard.name,
            lead=lead_of(talk, yard),
            low=leads.start,
            high=leads.stop - 1,
        )
    ]


def set_lead(talk: Talk, yard: YardRecord, days: int) -> list[Reply]:
    """Set how many days before first emergence the window opens."""
    leads = yard_settings.LEADS_DAYS
    try:
        yard_settings.set_lead(talk.work, yard, days)
    except NotAllowed:
        return [talk.reply("yards.number_needed", low=leads.start, high=leads.stop - 1, example=21)]
    if talk.topic == topics.LEAD:
        talk.settle()
    key = "yards.lead_short" if days < 2 * IN_PLACE_BEFORE_DAYS else "yards.lead_set"
    return [talk.reply(key, yard=yard.name, lead=days)]


def set_rounds(talk: Talk, yard: YardRecord, rounds: int) -> list[Reply]:
    """Answer the buttons that choose one round or two halves."""
    yard_settings.set_rounds(talk.work, yard, rounds)
    key = "yards.rounds_one" if rounds == 1 else "yards.rounds_two"
    return [talk.reply(key, yard=yard.name, split=yard.split_days)]


HANDLERS: Final = {"set_timing": on_set_timing}
