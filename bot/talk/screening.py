"""Is it the right thing at all? Short questions before buying, and what is better where not."""

from __future__ import annotations

from typing import Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing.forms.need_forms import AnswerSaid, LocalRulesAsked, weed_group
from bot.hearing.heard import ActHeard
from bot.saying.plants import say_weed
from bot.saying.shown_names import capital
from bot.turn import Reply, rows
from jobs.uses import eligibility as uses
from storage.yards import YardRecord

#: Questions in their order; "weed" only where there is a history.
_STEPS: Final = ("seeding", "thin", "rooted", "history", "weed", "water", "ban", "others")
#: Answers that speak against it, by their steps.
_AGAINST: Final = {"seeding": "yes", "thin": "yes", "rooted": "no", "history": "no"}
_WEEDS: Final = (
    ("crabgrass", "foxtail"),
    ("goosegrass", "annual_bluegrass"),
    ("nutsedge", "other", "unsure"),
)


def on_ask_need(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Ask whether it is the right thing, take an answer, or point to the local rules."""
    said = heard.slots.read
    if isinstance(said, LocalRulesAsked):
        return [talk.reply("screening.local_rules")]
    may_answer = talk.topic == topics.SCREENING and talk.may(yard, "change")
    if isinstance(said, AnswerSaid) and may_answer:
        return _answered(talk, yard, str(talk.data.get("step", "")), said.answer)
    if not talk.may(yard, "change"):
        return [talk.reply("beforehand.need")]
    uses.begin(talk.work, yard)
    return [_ask(talk, yard, "seeding")]


def yes_or_no(talk: Talk, yard: YardRecord, *, is_yes: bool) -> list[Reply]:
    """Answer a yes or no to the step that waits."""
    step = str(talk.data.get("step", ""))
    if step == "water":
        return [_ask(talk, yard, step)] if is_yes else _answered(talk, yard, step, "none")
    return _answered(talk, yard, step, "yes" if is_yes else "no")


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons of this subject: ``screen:<answer>:<yard>:<step>``."""
    _, said, _, *rest = action.split(":")
    step = rest[0] if rest else ""
    if said == "start":
        uses.begin(talk.work, yard)
        return [_ask(talk, yard, "seeding")]
    if said == "end":
        talk.settle()
        return [talk.reply("screening.skipped")]
    if step not in _STEPS:
        return [talk.stale()]
    return _answered(talk, yard, step, said)


def owner_tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer whose a yard is."""
    owner = action.split(":")[1]
    if owner not in ("own", "friend", "pay"):
        return [talk.stale()]
    uses.set_habit(talk.work, yard, owner=owner)
    return [talk.reply(f"screening.{owner}", yard=yard.name)]


# --- inside ---------------------------------------------------------------------------------------


def _ask(talk: Talk, yard: YardRecord, step: str) -> Reply:
    talk.expect(topics.SCREENING, yard_id=yard.id, step=step)

    def button(name: str, said: str) -> tuple[str, str]:
        return talk.say(f"screening.button_{name}"), f"screen:{said}:{yard.id}:{step}"

    skips = [
        button("skip", "skip"),
        (talk.say("screening.button_skip_all"), f"screen:end:{yard.id}"),
    ]
    if step == "weed":
        lines = [[button(weed, weed) for weed in line] for line in _WEEDS]
        return talk.reply("screening.weed", rows(*lines, skips))
    if step == "water":
        choices = [button(how, how) for how in ("system", "hose", "none")]
    elif step == "ban":
        choices = [button("no_ban", "no"), button("ban", "yes")]
    else:
        choices = [button("yes", "yes"), button("no", "no")]
    return talk.reply(f"screening.{step}", rows(choices, skips), yard=yard.name)


def _answered(talk: Talk, yard: YardRecord, step: str, said: str) -> list[Reply]:
    yard = uses.answer(talk.work, yard, step, said)
    habit = _habit(step, said)
    if habit is not None:
        name, value = habit
        yard = uses.set_habit(talk.work, yard, **{name: value})
    following = _next_step(step, said)
    if following is not None:
        return [_ask(talk, yard, following)]
    talk.settle()
    return [Reply("\n".join(_verdict(talk, yard)))]


def _habit(step: str, said: str) -> tuple[str, str | bool] | None:
    if said == "skip":
        return None
    if step == "water":
        return "water_how", said
    if step == "ban":
        return "is_water_banned", said == "yes"
    return ("others_treat", said == "yes") if step == "others" else None


def _next_step(step: str, said: str) -> str | None:
    place = _STEPS.index(step) + 1
    if step == "history" and said != "yes":
        place += 1
    return _STEPS[place] if place < len(_STEPS) else None


def _verdict(talk: Talk, yard: YardRecord) -> list[str]:
    """Return what is better where an answer speaks against it, and what follows from the rest."""
    answers = yard.screening or {}
    zones = talk.standing(yard).zones
    zone = zones[0].name if zones else "front"
    against = [
        talk.say(f"screening.no_{step}", zone=zone)
        for step, said in _AGAINST.items()
        if answers.get(step) == said
    ]
    weed = str(answers.get("weed", ""))
    if weed and weed != "skip":
        against += _about_weed(talk, weed)
    lines = [talk.say("screening.verdict", yard=yard.name)]
    has_answers = any(said != "skip" for said in answers.values())
    lines += against or ([talk.say("screening.fine")] if has_answers else [])
    if yard.water_how == "none":
        lines.append(talk.say("screening.water_none"))
    elif yard.is_water_banned:
        lines.append(talk.say("screening.banned"))
    elif answers.get("water") in ("system", "hose"):
        lines.append(talk.say("screening.water_days"))
    if yard.others_treat:
        lines.append(talk.say("screening.others_yes"))
    if any(each.grass is None for each in zones):
        lines.append(talk.say("screening.next_grass"))
    lines.append(talk.say("screening.next"))
    return lines


def _about_weed(talk: Talk, weed: str) -> list[str]:
    group = weed_group(weed)
    if group == "summer_annual":
        return []
    if group in ("goosegrass", "annual_bluegrass", "nutsedge", "unsure"):
        return [talk.say(f"screening.weed_{group}")]
    said = say_weed(weed)
    if group == "perennial":
        return [talk.say("screening.weed_perennial", weed=capital(said))]
    name = talk.say("screening.another_weed") if weed == "other" else said
    return [talk.say("screening.weed_other", weed=name)]


HANDLERS: Final = {"ask_need": on_ask_need}
