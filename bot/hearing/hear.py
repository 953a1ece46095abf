"""Hearing: a text and the moment it is said in -> what is meant by it.

The order is the whole policy: an emergency, a typed button, a plain yes or no, an answer to what
was asked, what a grammar knows for certain, and then the likeliest acts of the clauses.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from bot.hearing import answering, clauses, emergency, grammar, policy
from bot.hearing.acts import ACTS, is_change
from bot.hearing.bags import act_of_used
from bot.hearing.clause_readings import PASSING, PLAIN, Reader, Reading
from bot.hearing.concepts import concepts_of
from bot.hearing.each_place import at_each, at_named, of_every_yard
from bot.hearing.following import follow_up, is_asked_again, reaction
from bot.hearing.forms import FORMS, read_form
from bot.hearing.forms.label_answers import is_as_said
from bot.hearing.heard import ActHeard, Heard, Scene, Slots
from bot.hearing.heard_values import Span, find_spans
from bot.hearing.held_back import DEEDS
from bot.hearing.names_heard import Names
from bot.hearing.normal import normal
from bot.hearing.outvoting import is_outvoted
from bot.hearing.ranker import Ranker, ranker
from bot.hearing.slots import says_both
from bot.hearing.stretches import Stretch, stretch
from bot.hearing.together import together
from bot.hearing.told_apart import corrected, told_apart


def hear(text: str, scene: Scene, by: Ranker | None = None) -> Heard:
    """Return what a text means in a scene.

    Parameters
    ----------
    text : str
        As typed or dictated, in any of our languages.
    scene : Scene
        What is pending, the names at hand, the day.
    by : Ranker, optional
        Another ranker than the one shipped.
    """
    form = normal(text, scene.language)
    spans = find_spans(form, Names(scene.zones, scene.yards))
    right = corrected(form, spans)
    if right is not None:
        # Each act with the words that were written.
        heard, said = hear(right, scene, by), form.traced.said.strip()
        return replace(heard, acts=tuple(replace(each, said=said) for each in heard.acts))
    reader = Reader(form, spans, scene, by or ranker())
    if not form.text.strip():
        return Heard((ActHeard("unknown", said=text),), keeps_pending=scene.pending is not None)
    if scene.asked_before and is_asked_again(form):
        # Of the moment of then, which is the same but for that it was said.
        return hear(scene.asked_before, replace(scene, asked_before=""), by)
    further = follow_up(form, spans, scene) or reaction(form, scene)
    if further is not None:
        return Heard((further,), keeps_pending=scene.pending is not None)
    shaped = read_form(form.pointed, scene, lambda each: is_outvoted(each, reader))
    urgent = _emergency(reader, is_shaped=shaped is not None)
    if urgent is not None:
        return urgent
    heard = _answer(reader, shaped) or _free(reader, shaped)
    return of_every_yard(at_named(heard, spans), form, scene) if len(scene.yards) > 1 else heard


def hear_as(act: str, text: str, scene: Scene, command: str = "") -> ActHeard:
    """Return a text as one act that is known already: the words behind a command."""
    heard = normal(text, scene.language)
    for said in (f"{command} {heard.traced.said}", heard.traced.said):
        read = (form.read(said, scene) for form in FORMS if form.act == act)
        by_form = next((slots for slots in read if slots is not None), None)
        if by_form is not None:
            return ActHeard(act, by_form, said.strip(), "command")
    clause = stretch(heard, find_spans(heard, Names(scene.zones, scene.yards)))
    return ActHeard(act, grammar.filled(act, clause, scene), text, "command")


def _emergency(reader: Reader, *, is_shaped: bool) -> Heard | None:
    form, spans, whole = reader.normal, reader.spans, reader.whole()
    is_one = emergency.is_emergency(form, spans)
    if emergency.is_hypothetical(form, spans):
        asked = ActHeard("ask_keep_off", Slots(), form.traced.said.strip(), "grammar")
        return Heard((asked,), keeps_pending=True)
    sure = policy.SURE_OF_WORDS if emergency.is_figure_of_speech(form) else policy.SURE_OF_ANSWER
    is_likely = whole.act == "emergency" and whole.score >= sure
    if not is_one and (is_shaped or not is_likely):
        return None
    said = form.traced.said.strip()
    is_product = "product" in concepts_of(form.text) and not whole.manner.is_question
    is_water = whole.act in _OF_WATER and not is_product
    if is_one and is_water and emergency.is_only_spill(form, spans):
        return None
    first = ActHeard("emergency", Slots(), said, "grammar" if is_one else "ranker")
    # Sizes of a strip along the storm drain are sizes too: nothing said is lost.
    more = grammar.read(reader)
    acts = (first, more) if more is not None and more.act == "measure" else (first,)
    return Heard(acts, keeps_pending=True)


#: What runs to a drain here is rain, or what it may have taken along.
_OF_WATER: Final = frozenset({"ask_washed_out", "report_rain", "ask_water", "ask_keep_off"})


def _answer(reader: Reader, shaped: ActHeard | None) -> Heard | None:
    """Return the answer to what is pending, if the text is one."""
    form, scene = reader.normal, reader.scene
    said, pending = form.traced.said.strip(), scene.pending
    is_name = answering.is_name(form, scene, reader.whole())
    button = None if is_name else answering.typed_button(said, scene)
    if button is not None:
        return Heard((button,), answers_pending=True)
    more = _answer_and_more(reader)
    if more is not None:
        return more
    if pending is not None and scene.moment != "new" and answering.is_way_out(form):
        return Heard((ActHeard("cancel", said=said, why="pending"),), answers_pending=True)
    # "Good enough?" asks.
    short = None if said.endswith("?") else answering.yes_or_no(form)
    is_right = is_as_said(said, scene) or answering.is_all_told(form, scene)
    short = short or ("confirm" if is_right else None)
    if short is not None:
        act = ActHeard(short, Slots(of=pending.kind if pending else None), said, "pending")
        is_open = pending is not None and short == "confirm" and "yes_no" not in pending.expects
        return Heard((act,), answers_pending=pending is not None, keeps_pending=is_open)
    if pending and shaped is not None and pending.kind in (shaped.act, shaped.slots.of):
        return Heard((shaped,), answers_pending=True)
    if shaped is not None and not is_name:
        # What fits a form of another act whole is that act, whatever is asked, but for a name.
        return None
    found = answering.answer(form, reader.spans, scene, reader.whole(), is_name=is_name)
    if found is None or (not is_name and _is_one_of_several(found, reader)):
        return None
    return Heard((found,), answers_pending=True)


def _answer_and_more(reader: Reader) -> Heard | None:
    """Return the answer with what is said behind it: "3.2, and I have two bags"."""
    form, scene = reader.normal, reader.scene
    if scene.pending is None:
        return None
    pieces = clauses.pieces(form, reader.spans)
    begun = pieces[0] if len(pieces) > 1 else None
    if begun and reader.stretch(*begun).act != "give_place":
        # "Just moved in, when do people ..." begins with no place, "Sioux Falls, it is ..." does.
        is_named = form.traced.original(*begun).strip(" ,;.").istitle()
        begun = begun if is_named or "place" not in scene.pending.expects else None
    end = answering.answer_first(form, reader.spans, scene, begun)
    if end is None:
        return None
    first = hear(form.traced.original(0, end), scene, reader.ranker)
    rest = form.traced.original(end, len(form.text)).strip(" ,;.")
    then = hear(rest, replace(scene, pending=None), reader.ranker)
    acts = {each.act for each in then.acts}
    is_other = acts and not acts & {*PASSING, "confirm", "deny", scene.asked}
    is_answer = first.answers_pending and first.acts[0].act == scene.asked
    if not is_answer or not is_other or then.choose:
        return None
    return Heard((*first.acts, *then.acts), answers_pending=True)


def _is_one_of_several(answer: ActHeard, reader: Reader) -> bool:
    """Tell whether an answer is said beside another thing, each plainly."""
    best = reader.best()
    acts = {each.act for each in best if each.score >= PLAIN}
    return len(best) > 1 and len(acts) == len(best) and answer.act in acts


def _free(reader: Reader, shaped: ActHeard | None) -> Heard:
    form, spans, scene = reader.normal, reader.spans, reader.scene
    is_pending = scene.pending is not None
    certain = grammar.read(reader) if shaped is None else shaped
    # A form has been weighed against the sentences already.
    if certain is not None and (shaped is not None or not is_outvoted(certain, reader)):
        beside = list(_asked_beside(certain, reader))
        where = [each for each in beside if each.act == "give_place"]
        acts = (*where, certain, *(each for each in beside if each not in where))
        return Heard(acts, keeps_pending=is_pending and certain.act != scene.asked)
    done: list[ActHeard] = []
    asked: list[list[ActHeard]] = []
    best = _with_all_values(told_apart(reader) or reader.best(), reader)
    # An emergency was looked for before.
    best = [each.without("emergency") for each in best]
    for each in best:
        is_weak = policy.is_weak_beside(each, reader.whole()) or policy.is_undone_deed(each)
        if len(best) > 1 and is_weak:
            continue
        clause = stretch(form, spans, each.start, each.end)
        act, between = _settled(each, clause, scene, best)
        if act in DEEDS and _is_which_asked(clause, scene, spans):
            # "Both are done", of three: which two is asked.
            act, between = None, (each.act, each.ranked[1][0])
        if act is not None:
            act = policy.as_asked(act, clause)
            done += at_each(_heard(act, each, reader), clause, scene)
        asked.append([_heard(name, each, reader) for name in between])
    done = together(done, scene)
    if any(each.act.startswith("ask_") and each.score < policy.SURE_OF_QUESTION for each in done):
        unsure = [each for each in done if is_change(each.act)]
        done = [each for each in done if each not in unsure]
        asked += [[each, replace(each, act="cancel", slots=Slots())] for each in unsure[:1]]
    said = [each.act for each in done]
    chosen = [
        each
        for group in asked
        if group and not policy.is_said_by(group[0].act, said)
        for each in group
    ]
    if reader.whole().act in said and reader.whole().score >= policy.SURE_WHOLE:
        # What is surely one thing whole is asked about in no piece of it.
        chosen = []
    if not done and not chosen:
        unknown = ActHeard("unknown", said=form.traced.said.strip())
        done = [grammar.sizes_asked_for(reader) or unknown]
    return Heard(tuple(done), tuple(chosen), keeps_pending=is_pending)


def _settled(
    each: Reading, clause: Stretch, scene: Scene, best: Sequence[Reading]
) -> policy.Settled:
    """Return the act of one of the clauses, or what to ask between."""
    is_several = len(best) > 1
    act, between = policy.settled(each, scene.asked, scene.moment, is_one_of_several=is_several)
    is_beside = any(other.act == "report_applied" for other in best if other is not each)
    used = act_of_used(between or (act or "",), each, clause, is_beside=is_beside)
    return (act, between) if used is None else (used, ())


def _with_all_values(best: list[Reading], reader: Reader) -> list[Reading]:
    """Return sizes or a label with all of the text, where some of their values are beside them.

    "Menos la alberca que es de 15 por 30"; "half a bag of dithiopyr here, .15, covers 6000".
    """
    acts = {each.act for each in best}
    act, kinds = (
        ("measure", ("size", "area")) if "measure" in acts else ("enter_product", ("product",))
    )
    if not acts <= {act, "set_stock"} or (act == "measure" and len(best) > 1):
        return best
    values = [each for each in reader.spans if each.kind in kinds]

    def has_all(each: Reading) -> bool:
        inside = (each.start <= value.start and value.end <= each.end for value in values)
        return each.act != act or all(inside)

    end = len(reader.normal.text)
    return [each if has_all(each) else replace(each, start=0, end=end) for each in best]


def _asked_beside(first: ActHeard, reader: Reader) -> Iterator[ActHeard]:
    """Yield what is said beside a change that fits a form: "front 60x40, is it time yet?".

    A further change is one only where it is kept of the ground, and surely said: "it is fescue".
    """
    found = reader.best() if ACTS[first.act].changes else []
    for each in found if len(found) > 1 else ():
        is_asked = each.act not in (*PASSING, "choose") and not ACTS[each.act].changes
        # Sizes keep the grass that is named with them.
        is_told = each.act == "set_grass" and first.slots.grass is not None
        # A list of yards holds its places; sizes alone do not.
        is_first_place = (first.act, each.act) == (
            "measure",
            "give_place",
        ) and not reader.scene.yards
        is_kept = each.act in _BESIDE or is_first_place
        is_kept = is_kept and not is_told and each.score >= PLAIN
        if is_kept or (is_asked and each.score >= policy.SURE_OF_WORDS):
            yield _heard(each.act, each, reader)


#: Changes that stand beside sizes or a label without a word of their own.
_BESIDE: Final = frozenset(
    {"set_grass", "set_stock", "set_spreader", "set_days", "set_quiet", "set_timing"}
)


def _heard(act: str, reading: Reading, reader: Reader) -> ActHeard:
    scene, spans = reader.scene, reader.spans
    clause = stretch(reader.normal, spans, reading.start, reading.end)
    share = reading.share(act)
    slots = grammar.filled(act, clause, scene)
    named = _named(spans)
    if len(named) == 2 and says_both(clause.text) and not clause.of("all"):
        # "Front done, back done, ran the sprinkler on both."
        slots = replace(slots, zones=tuple(zone for zone in scene.zones if zone in named))
    return ActHeard(act, slots, clause.said, "template" if reading.is_known else "ranker", share)


def _is_which_asked(clause: Stretch, scene: Scene, spans: Sequence[Span]) -> bool:
    """Tell whether two zones are meant that nothing in the message tells apart from a third."""
    is_told = clause.of("zone", "all") or len(_named(spans)) == 2
    return len(scene.zones) > 2 and says_both(clause.text) and not is_told


def _named(spans: Sequence[Span]) -> set[str]:
    """Return the zones that a message names."""
    return {name for span in spans if span.kind == "zone" for name in span.names}
