"""Entering a product: what its label says, asked piece by piece until it can be kept."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bot.dialogue import rights, topics, typed_buttons
from bot.dialogue.product_commands import (
    BEFORE_KEPT,
    adds_facts_alone,
    command_of,
    doubt_asked,
    form_of,
    is_of_maximum,
    is_rate_again,
    open_doubts,
    sure_of,
    with_doubt_settled,
    with_figure_repeated,
    with_suggestion,
    without_doubted,
)
from bot.dialogue.talk import Talk
from bot.hearing import drafts
from bot.hearing.draft import NO_MAXIMUM, Draft, ProductSaid
from bot.hearing.forms.label_answers import AnswerSaid
from bot.hearing.forms.product_forms import FactsOfLabel, SameAsked
from bot.hearing.forms.wish_forms import TermsSaid
from bot.hearing.heard import ActHeard
from bot.hearing.label_lines import rate_line
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.product_read import ProductRead
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.yard_names import taken_out
from bot.talk import label_photos, other_yards, product_keeping, zones_apart
from bot.telling import fitting
from bot.telling import products_said as product_words
from bot.telling.product_questions import (
    NO_STRENGTH,
    ask_by_volume,
    ask_doubt,
    ask_ingredient,
    ask_maximum,
    ask_next,
    ask_of_range,
    ask_percent,
    ask_strength,
    is_strength_open,
    stopped,
)
from bot.telling.products_said import label_said, settled_doubts
from bot.turn import Reply, rows
from jobs.agronomy.ingredients import find_ingredient
from jobs.agronomy.label_doubts import key_of
from jobs.labels import rates_of
from storage.yards import YardRecord

#: What is read only to be asked about when it matters.
_MAY_WAIT: Final = frozenset(
    {"reading.form", "reading.strength", "reading.strengths", "reading.limit_period"}
)
#: Kept among what is settled: the product is for the whole yard, though a zone was named beside it.
_WHOLE_YARD: Final = "whole yard"
#: Room for floating point at the end of a range.
_ROUNDING: Final = 1 + 1e-9


def on_enter_product(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take what a label says: a product, a piece of one, or the rest of its label."""
    elsewhere = _at_yards_named(talk, heard)
    if elsewhere is not None:
        return elsewhere
    said, slots = heard.slots.read, heard.slots
    draft = Draft.from_json(talk.data) if talk.topic == topics.PRODUCT else Draft()
    if draft.awaits == "maximum" and isinstance(said, ProductSaid) and is_rate_again(draft, heard):
        again = talk.say("products.rate_again", question=ask_maximum(talk, drafts.reread(draft)))
        talk.has_asked = True
        same = (talk.say("products.button_max_same"), "product:maxsame:0")
        none = (talk.say("products.button_nomax"), "product:nomax:0")
        return [Reply(again, rows([same], [none]))]
    bare = heard.said
    if slots.amount is not None and drafts.figure_of_range(draft, bare) is None:
        bare = f"{figures(slots.amount.value)} {slots.amount.unit}"
    if draft.awaits == "rate" and drafts.figure_of_range(draft, bare) is not None:
        # "3", or "half an ounce", is enough where the label's range has said per what area.
        return _take(talk, yard, drafts.continued(draft, bare))
    if slots.unread is not None:
        return [Reply(slots.unread.sentence())]
    match said:
        case ProductSaid():
            return _take(talk, yard, with_figure_repeated(draft, said))
        case AnswerSaid():
            return confirm(talk, yard, said.what)
        case SameAsked():
            return other_yards.same(talk, yard, said)
        case FactsOfLabel():
            return product_keeping.keep(talk, yard, said.facts)
        case TermsSaid():
            return product_keeping.set_label_terms(talk, yard, said)
    if talk.topic == topics.PRODUCT and talk.data.get("said"):
        return _once_more(talk, yard, heard)
    if slots.product is None:
        # A percentage by itself answers what a kept product lacks, whatever was asked since.
        bare_said, kept = drafts.begun(heard.said), talk.standing(yard).product
        if (
            bare_said.read.strengths
            and kept is not None
            and not all(p.strength for p in kept.ingredients)
        ):
            return _take(talk, yard, bare_said)
        return talk.answer("show_product", yard, ActHeard("show_product", why="command"))
    begun = zones_apart.beside(_named(Draft(), heard, slots.product), heard)
    if slots.number is not None and 0 < slots.number <= _MOST_PERCENT:
        return [ask_percent(talk, begun, slots.product, slots.number)]
    return _take(talk, yard, begun)


def _at_yards_named(talk: Talk, heard: ActHeard) -> list[Reply] | None:
    """Take a product at the yards named beside it; None where none is, or no product."""
    every = {yard.name: yard for yard in talk.yards()}
    names, rest = taken_out(heard.said, list(every)) if len(every) > 1 else ((), "")
    said = drafts.begun(rest) if names else None
    if said is None or not said.read.ingredients or isinstance(heard.slots.read, SameAsked):
        return None
    meant = [every[name] for name in names]
    refused = [rights.refuse_act(talk, yard, heard.act) for yard in meant]
    if any(refused):
        return next(each for each in refused if each)
    if talk.topic == topics.PRODUCT:
        talk.settle()
    first, *others = meant
    talk.turn_to(first.id)
    numbers = tuple(yard.id for yard in others)
    return _take(talk, first, replace(said, draft=replace(said.draft, yards=numbers)))


#: No product of these ingredients is stronger by weight; a larger figure is another thing.
_MOST_PERCENT: Final = 90


def confirm(talk: Talk, yard: YardRecord, what: str) -> list[Reply]:
    """Answer the buttons under a question about a product."""
    if what in ("show", "photo", "fit"):
        return _shown(talk, yard, what)
    if talk.topic != topics.PRODUCT:
        return [talk.stale("products.hint")]
    draft = Draft.from_json(talk.data)
    if what in ("seen", "unseen"):
        said = label_photos.answered(talk, draft, is_so=what == "seen")
        return said if isinstance(said, list) else _go_on(talk, yard, said)
    if what == "none":
        talk.settle()
        return talk.answer("ask_product", yard)
    if what == "nomax" and draft.awaits in BEFORE_KEPT:
        slip = doubt_asked(draft) if draft.awaits == "sure" else None
        # The maximum that is doubted is none of the label's, then.
        left = without_doubted(draft) if slip is not None and is_of_maximum(slip) else draft
        return _go_on(talk, yard, drafts.reread(sure_of(left, NO_MAXIMUM)))
    if what == "nomax":
        return product_keeping.without_maximum(talk, yard, draft)
    if what == "by_row" and draft.awaits == "rate":
        talk.has_asked = True
        return [talk.reply("products.by_row")]
    if what in ("later", "explain", "by_row"):
        return _waits(talk, yard, draft, is_later=what == "later")
    if what in ("norate", "reread"):
        return _read_again(talk, yard, draft, is_there=what == "reread")
    if what == "maxsame":
        rate = drafts.reread(draft).read.rate
        told = "" if rate is None else f"max {rate_line(rate, '')}"
        return _go_on(talk, yard, drafts.continued(draft, told))
    if what == "suggested":
        return _go_on(talk, yard, with_suggestion(draft))
    if what == "apart":
        return _set_apart(talk, yard, draft)
    if what in ("nostrength", "whole", "sure"):
        settled = {"nostrength": NO_STRENGTH, "whole": _WHOLE_YARD}.get(what)
        new = with_doubt_settled(draft) if settled is None else sure_of(draft, settled)
        return _go_on(talk, yard, drafts.reread(new))
    if what.startswith("name_"):
        return _go_on(talk, yard, drafts.continued(draft, what.removeprefix("name_")))
    if what == "list":
        return [ask_ingredient(talk, draft, None, (), is_of_all=True)]
    if what == "change" or not draft.said:
        return product_words.ask_for_bag(talk, yard)
    return _go_on(talk, yard, drafts.answered(draft, what))


def _read_again(talk: Talk, yard: YardRecord, draft: Draft, *, is_there: bool) -> list[Reply]:
    """Let a figure be read off the label once more, or do without where the label has none."""
    slip = doubt_asked(draft) if draft.awaits == "sure" else None
    if slip is None:
        return [talk.reply("products.no_rate_no_amount")] if not is_there else ask_again(talk, yard)
    left = without_doubted(draft)
    if is_of_maximum(slip):
        return _go_on(talk, yard, drafts.reread(left if is_there else sure_of(left, NO_MAXIMUM)))
    talk.expect(topics.PRODUCT, **left.to_json())
    return [talk.reply("products.read_again" if is_there else "products.no_rate_no_amount")]


def _waits(talk: Talk, yard: YardRecord, draft: Draft, *, is_later: bool) -> list[Reply]:
    """Give time for a look at the label, or say once more what is asked, and where it stands."""
    again = topics.asked(topics.PRODUCT, draft.awaits)
    if not is_later and draft.awaits in BEFORE_KEPT:
        return ask_again(talk, yard)
    lines = [talk.say("products.take_time")] if is_later else []
    if draft.awaits == "maximum" and not is_later:
        lines.append(ask_maximum(talk, drafts.reread(draft)))
    elif again is not None:
        lines.append(talk.say(f"hearing.back.{again.again}"))
    talk.has_asked = True
    return [Reply("\n".join(lines), typed_buttons.of_question(talk))]


def ask_again(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Put the question about a product half entered once more, to whoever takes their time."""
    return _go_on(talk, yard, drafts.reread(Draft.from_json(talk.data)))


def _shown(talk: Talk, yard: YardRecord, what: str) -> list[Reply]:
    """Return the product as it is kept or photographed; with the rate that fits, once taken."""
    if what == "photo":
        return label_photos.show(talk, yard)
    if what == "fit":
        talk.settle()
        each = fitting.fitting_rate(talk, yard)
        if each is not None:
            return _take(talk, yard, each)
    return talk.answer("show_product", yard, ActHeard("show_product", why="command"))


def yes_or_no(talk: Talk, yard: YardRecord, *, is_yes: bool) -> list[Reply] | None:
    """Answer a typed yes or no to a question about a product; None where neither answers it."""
    draft = Draft.from_json(talk.data)
    if label_photos.is_asking(talk):
        return confirm(talk, yard, "seen" if is_yes else "unseen")
    if draft.near:
        near = find_ingredient(draft.near).candidates
        return confirm(talk, yard, f"is_{near[0]}" if is_yes and near else "change")
    match draft.awaits:
        case "apart":
            return confirm(talk, yard, "apart" if is_yes else "whole")
        case "sure":
            return confirm(talk, yard, "sure" if is_yes else "reread")
        case "certified":
            return confirm(talk, yard, "certified" if is_yes else "change")
        case "strength" if is_yes and "percent" in talk.data:
            return confirm(talk, yard, f"name_{talk.data['percent']}%")
        case "maximum" if not is_yes:
            return confirm(talk, yard, "nomax")
        case "strength" if not is_yes and drafts.reread(draft).read.rate is None:
            return confirm(talk, yard, "nostrength")
        case "rate" | "coverage" if not is_yes:
            return confirm(talk, yard, "norate")
        case "all" if not is_yes and not draft.said:
            return confirm(talk, yard, "none")
    return None


# --- inside ---------------------------------------------------------------------------------------


def _once_more(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Put the question again to a product half entered: what was said answers a part at most."""
    draft = Draft.from_json(talk.data)
    more = drafts.continued(draft, heard.said)
    if _adds_figures(drafts.reread(draft).read, more.read):
        return _take(talk, yard, more)
    if heard.slots.amount is not None and draft.awaits == "maximum":
        amount = f"{figures(heard.slots.amount.value)} {heard.slots.amount.unit}"
        return _take(talk, yard, drafts.continued(draft, amount))
    if heard.slots.amount is not None and draft.awaits == "rate":
        said = f"{figures(heard.slots.amount.value)} {heard.slots.amount.unit}"
        unread = Unread(said, "reading.rate_needs_area", f"{said} per 1000 sq ft")
        return [Reply(unread.sentence())]
    if heard.slots.product is not None:
        more = _named(draft, heard, heard.slots.product)
        return _take(talk, yard, zones_apart.beside(more, heard))
    return _go_on(talk, yard, drafts.reread(draft))


def _named(draft: Draft, heard: ActHeard, product: str) -> ProductSaid:
    """Return a product that a sentence names, with its strength and its bag where it tells them."""
    whole = drafts.continued(draft, heard.said)
    is_told = whole.read.strengths or whole.draft.label != draft.label
    return whole if is_told and whole.read.ingredients else drafts.continued(draft, product)


def _adds_figures(before: ProductRead, now: ProductRead) -> bool:
    """Tell whether a sentence told a rate, a range, a maximum or what a bag covers, and no more.

    A further figure that is not understood may be the one that counts.
    """
    was = (before.rate, before.rate_range, before.limits, before.coverage)
    told = (now.rate, now.rate_range, now.limits, now.coverage)
    is_whole = not any(any(map(str.isdigit, word)) for word in now.leftovers)
    return told != was and is_whole and now.ingredients == before.ingredients


def _take(talk: Talk, yard: YardRecord, said: ProductSaid) -> list[Reply]:
    """Take a product; a figure of a label that names no ingredient is the chosen product's."""
    is_figure = not said.read.ingredients and (
        said.read.limits or said.read.part_maximum or said.read.rate or said.read.strengths
    )
    is_near = any(each.reason == "reading.ingredient_spelling" for each in said.read.questions)
    before = Draft.from_json(talk.data) if talk.topic == topics.PRODUCT else None
    if before is not None and adds_facts_alone(before, said):
        # It tells the rest of a label that is kept already: no word of the product again.
        return _with_question(
            talk, yard, before.awaits, product_keeping.keep(talk, yard, said.facts)
        )
    is_chosen = talk.topic != topics.PRODUCT and yard.product_id is not None
    if is_chosen and not is_figure and not said.read.ingredients and not said.facts.is_empty:
        return product_keeping.keep(talk, yard, said.facts)
    if talk.topic == topics.PRODUCT or not is_figure or is_near or yard.product_id is None:
        return _go_on(talk, yard, said)
    record = talk.standing(yard).chosen
    label = label_said(record, said.read)
    more = drafts.added_to(label, said.draft.said)
    rates = more.draft.rates
    kept_range = rates_of(record.rates)
    if not rates and kept_range is not None:
        rates = drafts.range_line(*kept_range)
    draft = replace(
        more.draft, form=record.form, is_certified=True, sure=settled_doubts(record), rates=rates
    )
    return _go_on(talk, yard, ProductSaid(draft, more.read))


def _with_question(talk: Talk, yard: YardRecord, awaits: str, kept: list[Reply]) -> list[Reply]:
    """Put the question that waits once more under what was kept of the rest of the label."""
    again = topics.asked(topics.PRODUCT, awaits)
    *first, last = kept
    if again is None:
        return kept
    skip = [(talk.say("products.button_nomax"), f"product:nomax:{yard.id}")]
    text = f"{last.text}\n{talk.say(f'hearing.back.{again.again}')}"
    more = rows(skip) if awaits == "maximum" else ()
    return [*first, replace(last, text=text, buttons=(*last.buttons, *more))]


def _go_on(talk: Talk, yard: YardRecord, said: ProductSaid) -> list[Reply]:
    """Ask for the next thing that is missing or doubtful; keep the product where nothing is."""
    said = zones_apart.named(talk, yard, said)
    draft, read = said.draft, said.read
    spelling = [each for each in read.questions if each.reason == "reading.ingredient_spelling"]
    if spelling or not read.ingredients:
        return [ask_ingredient(talk, draft, spelling[0].said if spelling else None, read.leftovers)]
    if len(read.ingredients) > 1 and any(e.reason == "reading.two_rates" for e in read.questions):
        return [talk.reply("products.one_at_a_time")]
    refused = stopped(talk, said)
    if refused is not None:
        return [refused]
    blocking = [each for each in read.questions if each.reason not in _MAY_WAIT]
    needs_strength = read.is_rate_of_ingredient or any(x.of == "ai" for x in read.limits)
    if needs_strength and not all(part.strength for part in read.ingredients):
        blocking += [each for each in read.questions if each.reason.startswith("reading.strength")]
    if is_strength_open(said):
        return [ask_strength(talk, said)]
    if blocking or read.rate is None:
        return [ask_next(talk, said, blocking)]
    if read.is_liquid and not read.rate.is_weight and not read.is_rate_of_ingredient:
        by_weight = [part for part in read.ingredients if part.strength and part.strength.fraction]
        if by_weight:
            return [ask_by_volume(talk, said, by_weight[0].name)]
    form, is_form_said = form_of(said, read.rate)
    command = command_of(said, form)
    if command is None:
        return [ask_next(talk, said, blocking)]
    rates = draft.rate_range
    if rates is not None and command.rate.rate_si > rates[1].rate_si * _ROUNDING:
        talk.expect(topics.PRODUCT, **drafts.kept(said, "rate", with_rate=False).to_json())
        return [ask_of_range(talk, rates, command.rate)]
    doubts = open_doubts(draft, command)
    if doubts:
        before = Draft.from_json(talk.data) if talk.topic == topics.PRODUCT else Draft()
        was = doubt_asked(before) if before.awaits == "sure" else None
        is_again = was is not None and key_of(was) == key_of(doubts[0])
        talk.expect(topics.PRODUCT, **drafts.kept(said, "sure").to_json())
        return [ask_doubt(talk, said, doubts[0], is_again=is_again)]
    if draft.zones and _WHOLE_YARD not in draft.sure:
        return [zones_apart.ask(talk, yard, said)]
    return product_keeping.enter(talk, yard, said, command, is_form_said=is_form_said)


def _set_apart(talk: Talk, yard: YardRecord, draft: Draft) -> list[Reply]:
    """Answer the button that makes zones a yard of their own, which gets the product."""
    done = zones_apart.set_apart(talk, yard, draft)
    if isinstance(done, Reply):
        return [done]
    new, said = done
    first, *others = _go_on(talk, new, drafts.reread(replace(draft, zones=())))
    return [replace(first, text=f"{said}\n{first.text}"), *others]


HANDLERS: Final = {"enter_product": on_enter_product}
