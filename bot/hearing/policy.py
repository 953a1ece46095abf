"""From readings to what is done: one place for who yields to whom, and for when to ask."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final, TypeAlias

from bot.hearing import words
from bot.hearing.acts import ACTS, is_change
from bot.hearing.clause_readings import Reading
from bot.hearing.concepts import concepts_of
from bot.hearing.following import names_only
from bot.hearing.held_back import DEEDS, FACTS, KIND, REPORTS, is_to_come
from bot.hearing.measuring_asked import is_about_units
from bot.hearing.phrases import phrases
from bot.hearing.stretches import Stretch

#: A change is made where its reading is at least so likely; a question answered, so likely. What is
#: wrong is mostly said surely: on 1,626 sentences of five authors not learnt from, 0.8 for all made
#: one wrong change fewer than 0.7 (20 instead of 21) and nine right answers fewer.
SURE_OF_CHANGE: Final = 0.65
SURE_OF_ANSWER: Final = 0.30
#: While a question of ours waits, another change is made only where it is so likely.
SURE_BESIDE_QUESTION: Final = 0.7
#: A change is read into a piece of a message that only asks, as a whole, just so surely.
SURE_BESIDE: Final = 0.9
#: Beside a question that is heard less surely, a change is asked about: all of it may be one
#: question. Of nine changes so read five were not meant.
SURE_OF_QUESTION: Final = 0.76
#: A message that is one act so surely asks nothing of what else a piece may be.
SURE_WHOLE: Final = 0.98
#: One of several things said is a change only so surely, even one that is waited for.
SURE_OF_SEVERAL: Final = 0.8
#: A setting so said is one only so surely: mostly it is what a question or a report stands on.
SURE_OF_SETTING: Final = 0.93
#: A yes that answers nothing is one only so surely.
SURE_OF_YES: Final = 0.9
#: What fits a form is still another act where the sentences say so this surely, and make the
#: form's own act this unlikely. Learnt from one author and tried on another: of 41 texts so taken
#: from their form, 33 were right then, 3 had been right before.
SURE_OF_WORDS: Final = 0.8
SURE_OF_WORDS_OF_CHANGE: Final = 0.9
NO_FORM: Final = 0.1
NO_FORM_OF_CHANGE: Final = 0.01
#: So few words that fit a form are its command: "grass", "redo", "what's left".
WORDS_OF_A_COMMAND: Final = 2
#: What was heard wrongly most often takes more. On 1,620 sentences of three authors not learnt from
#: these make 82 changes that were not meant instead of 90, and 3 right answers more.
SURE_OF: Final = {
    "change_record": 0.95,
    "plan_seed": 0.95,
    "remove_yard": 0.9,
    "report_gap": 0.8,
    "report_not_done": 0.8,
    "report_rain": 0.85,
    "report_too_much": 0.85,
    "set_days": 0.98,
    "set_language": 0.95,
}
#: After an alert that asks for it, "it is down" is believed sooner.
SURE_OF_AWAITED: Final = 0.5
#: Where nothing asks for it, only so surely, unless it says how much of what went down, or when.
SURE_UNASKED: Final = 0.999
_SAID_WHOLE: Final = ("<all>", "<zone>", "<yard> and <yard>", "<amount>", "<day")
#: A second reading less likely than this is not worth a button.
WORTH_ASKING: Final = 0.1
#: Two readings this near in likelihood that differ in what they change are asked between.
NEAR: Final = 0.65

#: What is gathered piece by piece, and kept only once it is whole, or said to be right.
DRAFTED: Final = frozenset({"enter_product", "measure"})

#: Changes that lie so near to one another that either is understood by the other's handler.
KIN: Final = (
    frozenset({"report_gap", "report_not_done"}),
    frozenset({"change_record", "report_too_much"}),
    frozenset({"snooze", "report_not_done"}),
)


#: Figures of a label.
_FIGURED: Final = frozenset({"area", "amount", "rate", "percent", "number", "depth"})
#: The act of a clause, or the acts to ask between, or neither.
Settled: TypeAlias = tuple[str | None, tuple[str, ...]]
#: What is kept once of a yard: saying it again puts it right.
_KEPT_ANEW: Final = frozenset(
    {"enter_product", "measure", "set_timing", "set_grass", "set_spreader", "set_stock", "set_days"}
)
#: Half an inch is the sprinkler's or the sky's.
_OF_WATER: Final = ("report_watered", "report_rain")
_OF_SEED: Final = frozenset({"ask_seed", "plan_seed", "report_seeded"})
#: What is put right is no second report.
_PUT_RIGHT: Final = frozenset({"report_applied", "report_not_done", "undo"})


#: What the first says already, the second is not said beside it: a new yard and its place.
_SAYS_ALSO: Final = (
    ("add_yard", "give_place"),
    ("add_yard", "name_yard"),
    ("report_gap", "measure"),
    ("remove_zone", "remove_yard"),
    ("undo", "report_not_done"),
    ("set_units", "stop_alerts"),
)


def of_one_matter(acts: Sequence[str]) -> frozenset[str]:
    """Return which of several acts of a message only say again what another of them says.

    A correction names what was done; what still wants water, beside a watering, is not undone work.
    """
    left = {less for more, less in _SAYS_ALSO if more in acts}
    if _KEPT_ANEW & set(acts):
        # What is said anew takes the place of what was said: "it is dithiopyr, my mistake".
        left |= {"undo", "change_record"}
    elif "change_record" in acts:
        left |= _PUT_RIGHT
    if _OF_SEED & set(acts):
        # A bare spot to be seeded is no gap in what was spread.
        left |= {"report_gap", "report_weeds"}
    if "report_watered" in acts and "report_applied" not in acts:
        left.add("report_not_done")
    return frozenset(left & set(acts))


def is_said_by(act: str, acts: Sequence[str]) -> bool:
    """Tell whether an act that would be asked about is one of a message's, or only repeats one."""
    return bool(acts) and (act in acts or act in of_one_matter([*acts, act]))


def settled(
    reading: Reading, pending: str = "", moment: str = "", *, is_one_of_several: bool = False
) -> Settled:
    """Return the act of a clause, or the acts to ask between, or neither."""
    told = [(act, share) for act, share in reading.ranked if act not in _NO_READING]
    (act, share), (second, next_share) = reading.ranked[0], reading.ranked[1]
    if act == "unknown":
        return None, ()
    if act in _OF_AIR and phrases("sentences", "of_air").whole(reading.text) is not None:
        return (None if is_one_of_several else "ask_day"), ()
    if act in ("confirm", "deny") and reading.manner.is_question and not reading.is_known:
        # "Have you ever been wrong" refuses nothing.
        return None, ()
    if act == "choose":
        # A sentence that is known for two is asked about, however unlikely its second.
        if told[0][0] in _OF_WATER and "<depth>" in reading.text:
            is_awaited = moment == "applied" and "<day> behind" not in reading.text
            return ("report_watered", ()) if is_awaited else (None, _OF_WATER)
        return None, _asked([told[0][0], told[1][0]], 1.0 if reading.is_known else told[1][1])
    if act == "deny" and pending in DRAFTED and _FIGURED & set(KIND.findall(reading.text)):
        # "Wait no, that's 10,000 square feet" is no no.
        return pending, ()
    if act == "confirm" and not pending and share < SURE_OF_YES and not reading.is_known:
        return None, ()
    if not ACTS[act].changes:
        is_of_the_day = act == "ask_day" and second in _SAYS_WHY_NOT
        return (act, ()) if share >= SURE_OF_ANSWER or is_of_the_day else (None, ())
    if act == "set_grass" and "<grass>" not in reading.text and share >= SURE_OF_SETTING:
        # "What grass type": nothing is said that could be kept, and it is answered with the choice.
        return act, ()
    if act in FACTS and reading.manner.is_question and share < SURE_WHOLE:
        return None, _asked([act, second])
    if pending and act != pending and share < SURE_BESIDE_QUESTION:
        return None, ()
    if (
        act == "set_spreader"
        and pending == "measure"
        and "spreader" not in concepts_of(reading.text)
    ):
        # "The drive is 12 ft wide": how wide a spreader throws is not asked.
        return pending, ()
    is_awaited = act == "report_applied" and moment in ("open", "due")
    is_whole = reading.is_known or any(each in reading.text for each in _SAID_WHOLE)
    is_unasked = act == "report_applied" and not is_awaited and not is_whole
    if act == "report_applied" and not is_awaited and names_only(reading.text):
        # "And the front", of which nothing was said before.
        return None, _asked([act])
    # A watering of a day to come is answered with just that, and kept by nobody.
    is_harmless = act == "report_watered" and "<day> ahead" in reading.text
    sure = SURE_OF_AWAITED if is_awaited or is_harmless else SURE_OF_CHANGE
    sure = SURE_UNASKED if is_unasked else max(sure, SURE_OF.get(act, 0.0))
    if is_one_of_several:
        is_setting = act not in REPORTS and act not in ("report_not_done", "snooze")
        sure = max(sure, SURE_OF_SETTING if is_setting else SURE_OF_SEVERAL)
    is_part = {act, second} == _OF_A_PART and share + next_share >= sure
    if is_part and _says_part_is_done(reading):
        return "report_applied", ()
    if reading.manner.is_question and act in _ASKED_OF and share < sure:
        return _ASKED_OF[act], ()
    if (act, second) == ("remove_zone", "undo") and "<zone>" in reading.text:
        # What was just recorded on a zone is not taken for the zone: its room asks which.
        share += next_share
    is_lone = second in _NO_READING or next_share < NEAR * share
    is_kin = frozenset({act, second}) in KIN and share + next_share >= sure
    is_one = share >= sure and is_lone
    if _denies_a_zone(reading) and not (is_one and act != "change_record"):
        return "report_not_done", ()
    if is_kin or is_one:
        return act, ()
    is_drafted = pending in DRAFTED and pending in (act, second) and share >= SURE_OF_ANSWER
    # "I have 2 dogs" is no figure of a label's; a bare one that is asked for was taken as such.
    if is_drafted and set(KIND.findall(reading.text)) != {"number"}:
        # As likely as not it is what was asked for, and nothing is kept of it before it is whole.
        return pending, ()
    if _is_of_the_day(act, second, reading):
        return "ask_day", ()
    return None, _asked([act, second]) if share >= SURE_OF_ANSWER else ()


#: What a report is that is held back because it asks: "two inches last night, is it gone".
_ASKED_OF: Final = {
    "report_rain": "ask_washed_out",
    "report_watered": "ask_water",
    "report_soil": "ask_soil",
    "report_seeded": "ask_seed",
}


#: "It is 92 out today" is the air's, and no work done.
_OF_AIR: Final = ("report_soil", "report_applied", "report_not_done", "choose")


def _is_of_the_day(act: str, second: str, reading: Reading) -> bool:
    """Tell whether nothing is lost by judging the day: "windy out here", "rain is on the way"."""
    if "<depth>" in reading.text:
        return False
    if act == "report_rain" and is_to_come(reading.text):
        return True
    is_planned = reading.manner.is_plan or reading.manner.is_condition
    return act in _SAYS_WHY_NOT and second == "ask_day" and not is_planned


_SAYS_WHY_NOT: Final = ("report_not_done", "report_rain")


def as_asked(act: str, clause: Stretch) -> str:
    """Return the act that a question is, where its words look like another's."""
    if act == "ask_why" and clause.of("day"):
        # "Why not Tuesday" asks what that day is like.
        is_proposed = words.phrases("commands", "why_not", "words").search(clause.text)
        return "ask_day" if is_proposed else act
    if act == "cancel" and any(span.value for span in clause.of("zone")):
        # "The town mows the ditch, forget it" leaves that zone alone.
        return "remove_zone"
    if act == "report_gap" and phrases("zone", "no_lawn").first(clause.text) is not None:
        # "Half of the back is garden" tells of the ground, not of what it got.
        return "remove_zone"
    return "help" if act == "set_units" and is_about_units(clause.said) else act


#: "Half of the back is done" reports that half, and leaves the other.
_OF_A_PART: Final = frozenset({"report_applied", "report_gap"})


def _says_part_is_done(reading: Reading) -> bool:
    is_done = words.phrases("commands", "done", "words").search(reading.text) is not None
    return is_done and "<part>" in reading.text and not reading.manner.is_denied


def _denies_a_zone(reading: Reading) -> bool:
    """Tell whether a zone got nothing, by whatever name: "actually I skipped the side"."""
    # "Nope, I mean the back" denies what was said before it.
    text = phrases("sentences", "denies_before").without(reading.text)
    if words.phrases("guards", "negation", "words").search(text) is None:
        return False
    share = sum(reading.share(act) for act in _NOT_DOWN)
    is_alone = KIND.findall(reading.text) == ["zone"]
    is_alone = is_alone and phrases("sentences", "only").first(reading.text) is None
    return is_alone and reading.manner.is_denied and share >= SURE_OF_CHANGE


#: What a zone that got nothing may be told as; what is said to be so is no change by itself.
_NOT_DOWN: Final = ("report_not_done", "change_record", "undo", "report_gap")


def _asked(between: Sequence[str], least: float = 1.0) -> tuple[str, ...]:
    """Return what to ask between; one weak reading is asked too, against leaving it."""
    if least < WORTH_ASKING:
        return ()
    told = [act for act in between if act not in _NO_READING]
    if len(told) == 1 and ACTS[told[0]].changes:
        return (told[0], "cancel")
    return tuple(told) if len(told) > 1 else ()


#: What no one can be asked for.
_NO_READING: Final = frozenset({"unknown", "choose", "other", "greet", "thanks"})


def is_undone_deed(each: Reading) -> bool:
    """Tell whether a clause beside others says only that nothing was watered or seeded."""
    is_undone = each.manner.is_denied and each.score < SURE_OF_SEVERAL
    return is_undone and each.act in ("report_watered", "report_seeded")


def is_weak_beside(each: Reading, whole: Reading) -> bool:
    """Tell whether a change is read into a piece of a message that only asks, as a whole."""
    is_asked = not is_change(whole.act) and whole.score >= SURE_OF_ANSWER
    # "Should I go ahead and spread it": the question goes on.
    goes_on = whole.manner.is_question and _GOES_ON.match(each.text) is not None
    is_deed = each.act in DEEDS and not each.manner.is_question and not goes_on
    is_sure = each.score >= SURE_BESIDE and not goes_on
    return is_asked and is_change(each.act) and not is_deed and not is_sure


_GOES_ON: Final = re.compile(
    r"\s*(?:and|or|y|o)\s+(?:just\s+)?(?:spread|put|do|water|run|hit|throw|get|seed)\b"
)
