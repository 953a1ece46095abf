"""Products: entered as the label states them, piece by piece or in one line."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any, Final

from bot.hearing.readers.lexing import figures, plain
from bot.hearing.readers.products import ProductRead, read_product
from bot.hearing.readers.reading import Unread
from bot.saying.figures import say_rate
from bot.talk import topics
from bot.talk.talk import Talk
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.ingredients import find_ingredient, ingredients
from jobs.agronomy.maxima import LabelMaximum, Period
from jobs.agronomy.products import Form, product_rate
from jobs.agronomy.rates import Rate
from jobs.agronomy.slips import Slip, find_slips
from jobs.agronomy.strengths import Strength
from jobs.agronomy.units import to_si
from jobs.labels import product_of
from jobs.uses import products as uses
from storage import products
from storage.products import ProductRecord
from storage.yards import YardRecord

#: Products of other yards offered at once.
_MOST_OFFERED: Final = 4
EXAMPLE: Final = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"

#: A dry product put down at this rate or more is a granule: no sprayed powder comes near it, and
#: no granule stays under it. The wide gap is common practice, no source.
_GRANULE_FROM_KG_HA: Final = to_si(0.5, "lb/1000 sq ft")

#: A typed answer to what a maximum is for, by the button it stands for.
_PERIODS_SAID: Final = {
    "year": re.compile(r"\b(?:year|yearly|annual(?:ly)?)\b", re.IGNORECASE),
    "season": re.compile(r"\bseason\b", re.IGNORECASE),
    "application": re.compile(r"\b(?:applications?|time|once|single)\b", re.IGNORECASE),
}

_MAXIMUM: Final = re.compile(
    r"(?:the\s+|my\s+)?(?:label(?:'s)?\s+)?(?:says\s+)?(?:max(?:imum)?|not\s+more\s+than)\b.*\d",
    re.IGNORECASE | re.DOTALL,
)
#: The typed answer for [My label gives none], where a maximum was asked for.
_NO_MAXIMUM: Final = re.compile(
    r"(?:no|sorry|sadly)?[\s,]*(?:(?:my|the|this|its?)\s+)?(?:label\s+)?"
    r"(?:(?:gives?|has|says|states?|names?|lists?|shows?|there\s+is|there's)\s+)?"
    r"(?:none|nothing|no\s+(?:max(?:imum)?|limit|most)|not\s+(?:given|stated|said))"
    r"(?:\s+(?:given|stated|on\s+(?:it|the\s+label)|at\s+all|for\s+that))*"
    r"|(?:(?:my|the|this)\s+)?(?:label|it)\s+(?:does\s*n[o']?t|does\s+not)\s+"
    r"(?:say|give|state|have|name|list)(?:\s+(?:one|any|a\s+max(?:imum)?|it))?",
    re.IGNORECASE,
)
_RATE_LIKE: Final = re.compile(
    r"(?:per|/|an?)\s*(?:1,?000|1k|acres?|ac|ha|hectares?|100|m2|m²|thousand)\b", re.IGNORECASE
)

#: What adds an ingredient to the product being entered, where a bare name begins another one.
_ADDED: Final = re.compile(r"\s*(?:\+|&|(?:and|plus|also|with)\b)", re.IGNORECASE)

#: Where the unit and the area of a maximum go that was said without them.
_GAP: Final = "…"

#: What is read only to be asked about when it matters.
_MAY_WAIT: Final = frozenset(
    {"reading.form", "reading.strength", "reading.strengths", "reading.limit_period"}
)

#: What an answer to a question about a line is taken for, where it is not the rate.
_AWAITS: Final = {
    "reading.limit_period": "maximum",
    "reading.ingredient_spelling": "ingredient",
}

#: A maximum's period as it is written back into the line, to be read again.
_PERIOD_WORDS: Final[dict[Period, str]] = {
    "application": " per application",
    "calendar_year": " per year",
    "season": " per season",
    "12_months": " per 12 months",
    "unsaid": "",
}


@dataclass(frozen=True, slots=True)
class _Draft:
    """What has been gathered of a product: the understood line, and the answers to questions."""

    said: str = ""
    words: str = ""
    form: str | None = None
    is_sure: bool = False
    is_certified: bool = False
    awaits: str = ""
    #: A maximum that lacks its unit or area, with a gap where they go: ``max 6.4 … per year``.
    maximum: str = ""

    def to_json(self) -> dict[str, Any]:
        return {
            "said": self.said,
            "words": self.words,
            "form": self.form,
            "is_sure": self.is_sure,
            "is_certified": self.is_certified,
            "awaits": self.awaits,
            "maximum": self.maximum,
        }


def show(talk: Talk, yard: YardRecord, rest: str) -> list[Reply]:
    """Answer /product: with words behind it enter a product, without ask for one."""
    if rest:
        return _continue(talk, yard, _Draft(said=rest, words=rest))
    talk.expect(topics.PRODUCT, **_Draft(awaits="all").to_json())
    offered = _offered(talk, yard)
    if yard.product_id is None:
        return [talk.reply("products.ask", offered)]
    record = products.product(talk.work, yard.product_id)
    known = talk.say(
        "products.known", product=say_product(talk, record), limits=say_limits(talk, record)
    )
    return [Reply(f"{known}\n{talk.say('products.ask_another')}", offered)]


def _offered(talk: Talk, yard: YardRecord) -> Buttons:
    """Return a button for each product that other yards of the chat use."""
    found = uses.others_in_use(talk.work, yard)[:_MOST_OFFERED]
    labels = [talk.say("products.button_use", product=_short_name(each)) for each in found]
    actions = [f"product:use:{yard.id}:{each.id}" for each in found]
    return rows(*([pair] for pair in zip(labels, actions, strict=True)))


def _short_name(record: ProductRecord) -> str:
    names = " + ".join(part.name for part in product_of(record).ingredients)
    return f"{names}, {say_rate(Rate(record.rate_value, record.rate_unit))}"


def use(talk: Talk, yard: YardRecord, product_id: int) -> list[Reply]:
    """Answer [Use ...]: choose a product that another yard uses."""
    found = [each for each in uses.others_in_use(talk.work, yard) if each.id == product_id]
    if not found:
        return [talk.reply("help.button_stale", hint=talk.say("products.hint"))]
    talk.settle()
    journal_id = uses.choose(
        talk.work, yard, found[0], said="same", person_id=talk.person.id, now=talk.now
    )
    lines = [
        talk.say("products.kept", product=say_product(talk, found[0]), yard=yard.name),
        talk.say("products.limits", limits=say_limits(talk, found[0])),
        talk.say("products.law"),
    ]
    buttons = rows(
        [
            (talk.say("yards.button_amounts"), f"amounts:{yard.id}"),
            (talk.say("applying.button_undo"), f"undo:{journal_id}"),
        ]
    )
    return [Reply("\n".join(lines), buttons)]


def same(talk: Talk, yard: YardRecord, of: YardRecord | None) -> list[Reply]:
    """Take ``same product (as yard 1)``: that yard's, or the only one other yards use."""
    found = uses.others_in_use(talk.work, yard)
    if of is not None:
        found = [each for each in found if each.id == of.product_id]
    if len(found) == 1:
        return use(talk, yard, found[0].id)
    return show(talk, yard, "")


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply]:
    """Take the next piece of a product that is being entered."""
    draft = _draft(talk)
    if draft.said and names_ingredient(text) and _RATE_LIKE.search(text):
        # The whole label said again is no addition to what was asked about.
        return _continue(talk, yard, _Draft(text, text))
    if _is_another(draft, text):
        return _continue(talk, yard, _Draft(text, text))
    if draft.awaits == "maximum" and _NO_MAXIMUM.fullmatch(plain(text).text.strip(" .!")):
        return confirm(talk, yard, "nomax")
    if draft.awaits == "period" and len(text.split()) <= 4:
        for period, pattern in _PERIODS_SAID.items():
            if pattern.search(text):
                return confirm(talk, yard, period)
    said = draft.said
    if draft.awaits == "maximum":
        text = _as_maximum(draft, text)
        said = said.removesuffix(f", {_without_gap(draft.maximum)}")
    joined = f"{said}, {text}" if said else text
    words = f"{draft.words}, {text}" if draft.words else text
    return _continue(talk, yard, _Draft(joined, words, draft.form, False, draft.is_certified))


def _is_another(draft: _Draft, text: str) -> bool:
    """Tell whether a text begins another product: one with ingredients or strengths of its own."""
    if draft.awaits == "ingredient" or _ADDED.match(text):
        return False
    known = {part.name: part.strength for part in read_product(draft.said, _names()).ingredients}
    if not known:
        return False
    return any(
        part.name not in known
        or (part.strength and known[part.name] and part.strength != known[part.name])
        for part in read_product(text, _names()).ingredients
    )


def _as_maximum(draft: _Draft, text: str) -> str:
    """Return an answer as a maximum; what was missing of one completes it."""
    if text.casefold().lstrip().startswith(("max", "not more")):
        return text
    if not draft.maximum:
        return f"max {text}"
    figure = draft.maximum.split()[1]
    if re.search(rf"(?<![\d.]){re.escape(figure)}(?![\d.])", text):
        return f"max {text}"
    filled = draft.maximum.replace(_GAP, text)
    read = read_product(filled, _names())
    is_completed = bool(read.limits) or read.part_maximum is not None
    # Another figure, such as the rate once more, is no answer: the question is put again.
    is_other = re.search(r"\d", _RATE_LIKE.sub(" ", text)) is not None
    return filled if is_completed and not is_other else _without_gap(draft.maximum)


def _without_gap(maximum: str) -> str:
    return maximum.replace(f" {_GAP}", "")


def is_maximum(text: str) -> bool:
    """Tell whether a text states a label's maximum alone."""
    return _MAXIMUM.match(text.strip()) is not None


def take_maximum(talk: Talk, yard: YardRecord, text: str) -> list[Reply]:
    """Take a maximum of the product that is chosen already."""
    if yard.product_id is None:
        return show(talk, yard, "")
    record = products.product(talk.work, yard.product_id)
    product = product_of(record)
    parts = [
        part.name if part.strength is None else f"{part.name} {_written(part.strength)}"
        for part in product.ingredients
    ]
    parts += [record.form, _rate_line(Rate(record.rate_value, record.rate_unit), "")]
    parts += [_maximum_line(limit) for limit in product.maxima]
    said = ", ".join([*parts, text])
    return _continue(talk, yard, _Draft(said, f"{record.said}, {text}", record.form, True, True))


def yes_or_no(talk: Talk, yard: YardRecord, *, is_yes: bool) -> list[Reply] | None:
    """Answer a typed yes or no to a question about a product; None where neither answers it."""
    match _draft(talk).awaits:
        case "sure" | "certified" as asked:
            return confirm(talk, yard, asked if is_yes else "change")
        case "maximum" if not is_yes:
            return confirm(talk, yard, "nomax")
    return None


def names_ingredient(text: str) -> bool:
    """Tell whether a text names an active ingredient we know."""
    return bool(read_product(text, _names()).ingredients)


def confirm(talk: Talk, yard: YardRecord, what: str) -> list[Reply]:
    """Answer the buttons under a question about a product."""
    if talk.topic != topics.PRODUCT:
        return [talk.reply("help.button_stale", hint=talk.say("products.hint"))]
    draft = _draft(talk)
    said, words = draft.said, draft.words
    match what:
        case "granule" | "spray":
            return _continue(talk, yard, _Draft(said, words, what, True, draft.is_certified))
        case "sure":
            return _continue(talk, yard, _Draft(said, words, draft.form, True, draft.is_certified))
        case "certified":
            return _continue(talk, yard, _Draft(said, words, draft.form, draft.is_sure, True))
        case "nomax":
            talk.settle()
            return [talk.reply("products.no_maximum", yard=yard.name)]
        case "year" | "application" | "season":
            said = _with_period(said, what)
            return _continue(talk, yard, _Draft(said, words, draft.form, True, draft.is_certified))
        case _:
            talk.expect(topics.PRODUCT, **_Draft(awaits="all").to_json())
            return [talk.reply("products.ask")]


def say_product(talk: Talk, record: ProductRecord) -> str:
    """Return a product in one phrase: ingredient, strength, form and rate as on the label."""
    parts = [
        part.name if part.strength is None else f"{part.name} {_say_strength(part.strength)}"
        for part in product_of(record).ingredients
    ]
    form = talk.say("products.granule" if record.form == "granule" else "products.spray")
    rate = say_rate(Rate(record.rate_value, record.rate_unit))
    return f"{' + '.join(parts)}, {form}, {rate}"


def _continue(talk: Talk, yard: YardRecord, draft: _Draft) -> list[Reply]:
    read = read_product(draft.said, _names())
    blocking = [each for each in read.questions if each.reason not in _MAY_WAIT]
    needs_strength = read.is_rate_of_ingredient or any(x.of == "ai" for x in read.limits)
    if needs_strength and not all(part.strength for part in read.ingredients):
        blocking += [each for each in read.questions if each.reason.startswith("reading.strength")]
    if not read.ingredients:
        return [_ask_ingredient(talk, draft, read)]
    stopped = _stopped(talk, draft, read)
    if stopped is not None:
        return [stopped]
    if blocking or read.rate is None:
        return [_ask(talk, draft, read, blocking)]
    form, is_form_said = _form(draft, read, read.rate)
    command = _command(draft, read, form)
    if command is None:
        return [_ask(talk, draft, read, blocking)]
    slips = () if draft.is_sure else find_slips(command.as_product(), command.rate)
    if slips:
        talk.expect(topics.PRODUCT, **_kept(draft, read, "sure"))
        return [_ask_slip(talk, slips[0])]
    return _enter(talk, yard, draft, read, command, is_form_said)


def _enter(
    talk: Talk,
    yard: YardRecord,
    draft: _Draft,
    read: ProductRead,
    command: uses.Enter,
    is_form_said: bool,
) -> list[Reply]:
    try:
        record = uses.enter(talk.work, yard, command, person_id=talk.person.id, now=talk.now)
    except LabelLimitExceeded as over:
        talk.expect(topics.PRODUCT, **_kept(draft, read, "rate", with_rate=False))
        asked, limit = Rate(over.asked, over.unit), Rate(over.limit, over.unit)
        return [talk.reply("products.over_limit", asked=say_rate(asked), limit=say_rate(limit))]
    lines = [talk.say("products.kept", product=say_product(talk, record), yard=yard.name)]
    lines += _codes(talk, read)
    if not is_form_said:
        lines.append(talk.say(f"products.form_taken_{record.form}"))
    if read.leftovers:
        lines.append(talk.say("products.leftovers", words=", ".join(read.leftovers)))
    buttons: list[list[tuple[str, str]]] = []
    if not is_form_said:
        other = "spray" if record.form == "granule" else "granule"
        buttons.append([(talk.say(f"products.button_{other}"), f"product:{other}:{yard.id}")])
    if read.part_maximum is not None or not command.maxima:
        lines.append(_ask_maximum(talk, read))
        buttons.append([(talk.say("products.button_nomax"), f"product:nomax:{yard.id}")])
        talk.expect(topics.PRODUCT, **_kept(draft, read, "maximum"))
    elif any(maximum.period == "unsaid" for maximum in command.maxima):
        lines.append(talk.say("products.ask_period", limits=say_limits(talk, record)))
        buttons.append(
            [
                (talk.say(f"products.button_{period}"), f"product:{period}:{yard.id}")
                for period in ("application", "year", "season")
            ]
        )
        talk.expect(topics.PRODUCT, **_kept(draft, read, "period"))
    else:
        lines.append(talk.say("products.limits", limits=say_limits(talk, record)))
        if is_form_said:
            talk.settle()
        else:
            talk.expect(topics.PRODUCT, **_kept(draft, read, "form"))
        buttons.append([(talk.say("yards.button_amounts"), f"amounts:{yard.id}")])
    lines.append(talk.say("products.law"))
    return [Reply("\n".join(lines), rows(*buttons))]


def _ask_maximum(talk: Talk, read: ProductRead) -> str:
    part = read.part_maximum
    if part is None:
        return talk.say("products.ask_maximum")
    key = "products.ask_maximum_area" if part.has_unit else "products.ask_maximum_unit"
    return talk.say(key, said=part.said)


def _ask_ingredient(talk: Talk, draft: _Draft, read: ProductRead) -> Reply:
    names = ", ".join(_names())
    talk.expect(topics.PRODUCT, **{**draft.to_json(), "awaits": "ingredient"})
    for word in read.leftovers:
        near = find_ingredient(word)
        if near.candidates:
            talk.expect(
                topics.PRODUCT, **{**draft.to_json(), "said": draft.said.replace(word, " ")}
            )
            return talk.reply("products.near", said=word, names=" / ".join(near.candidates))
    # Nothing of it could be an ingredient: what was said may still hold a rate worth keeping.
    return talk.reply("products.ask_ingredient", names=names)


def _ask(talk: Talk, draft: _Draft, read: ProductRead, blocking: list[Unread]) -> Reply:
    question = blocking[0] if blocking else Unread(draft.said, "reading.product_rate", EXAMPLE)
    awaits = _AWAITS.get(question.reason, "rate")
    talk.expect(topics.PRODUCT, **_kept(draft, read, awaits))
    return Reply("\n".join([*_codes(talk, read), question.sentence(talk.chat.language)]))


def _codes(talk: Talk, read: ProductRead) -> list[str]:
    """Say back what each trade code was read as."""
    return [
        talk.say("products.code_taken", said=said, strength=_say_strength(strength))
        for said, strength in read.codes
    ]


def _ask_slip(talk: Talk, slip: Slip) -> Reply:
    params: dict[str, object] = {
        "ingredient": slip.ingredient.replace("_", "-"),
        "asked": say_rate(slip.asked),
    }
    if slip.low is not None and slip.high is not None:
        params["usual"] = f"{figures(round(slip.low.value, 3))} to {say_rate(_short(slip.high))}"
    if slip.suggestion is not None:
        params["suggestion"] = say_rate(_short(slip.suggestion))
    key = f"products.slip_{slip.kind}"
    if slip.kind in ("above_range", "below_range") and "usual" not in params:
        key = "products.slip_too_much_of_anything"
    buttons = rows(
        [
            (talk.say("products.button_sure"), "product:sure:0"),
            (talk.say("products.button_change"), "product:change:0"),
        ]
    )
    return talk.reply(key, buttons, **params)


def _stopped(talk: Talk, draft: _Draft, read: ProductRead) -> Reply | None:
    table = ingredients()
    for part in read.ingredients:
        item = table.get(part.name)
        is_restricted = item is not None and item.certified_only and item.certified_only.value
        if is_restricted and not draft.is_certified:
            talk.expect(topics.PRODUCT, **{**draft.to_json(), "awaits": "certified"})
            buttons: Buttons = rows(
                [(talk.say("products.button_certified"), "product:certified:0")],
                [(talk.say("products.button_change"), "product:change:0")],
            )
            return talk.reply("products.certified_only", buttons, ingredient=part.name)
    return None


def _form(draft: _Draft, read: ProductRead, rate: Rate) -> tuple[Form, bool]:
    if draft.form is not None:
        return ("granule" if draft.form == "granule" else "spray"), True
    if read.form is not None:
        return read.form, True
    if not rate.is_weight:
        return "spray", True
    return ("granule" if rate.rate_si >= _GRANULE_FROM_KG_HA else "spray"), False


def _command(draft: _Draft, read: ProductRead, form: Form) -> uses.Enter | None:
    assert read.rate is not None
    rate = read.rate
    if read.is_rate_of_ingredient:
        if len(read.ingredients) != 1 or rate.rate_kg_ha is None:
            return None
        strength = read.ingredients[0].strength
        is_liquid = strength is not None and strength.is_liquid
        amount = "fl oz" if is_liquid else ("lb" if form == "granule" else "oz")
        rate = _down(product_rate(rate.rate_kg_ha, read.ingredients[0], f"{amount}/1000 sq ft"))
    return uses.Enter(draft.words, form, read.ingredients, rate, read.limits)


def _kept(
    draft: _Draft, read: ProductRead, awaits: str, *, with_rate: bool = True
) -> dict[str, Any]:
    """Return the draft with what was understood in our own writing, so that more can be added."""
    parts = []
    for part in read.ingredients:
        strength = "" if part.strength is None else f" {_written(part.strength)}"
        parts.append(f"{part.name}{strength}")
    form = draft.form or read.form
    if form is not None:
        # A dry flowable stays dry: its ounces are weights.
        parts.append("powder" if form == "spray" and read.is_liquid is False else form)
    if read.rate is not None and with_rate:
        of = " ai" if read.is_rate_of_ingredient else ""
        parts.append(_rate_line(read.rate, of))
    parts += [_maximum_line(limit) for limit in read.limits]
    part_maximum = ""
    if read.part_maximum is not None:
        period = _PERIOD_WORDS[read.part_maximum.period or "unsaid"]
        part_maximum = f"max {read.part_maximum.said} {_GAP}{period}"
        parts.append(_without_gap(part_maximum))
    said = ", ".join(parts)
    return _Draft(
        said, draft.words, draft.form, draft.is_sure, draft.is_certified, awaits, part_maximum
    ).to_json()


def _rate_line(rate: Rate, of: str) -> str:
    amount, _, per = rate.unit.partition("/")
    return f"{figures(rate.value)} {amount}{of} per {per}"


def _maximum_line(limit: LabelMaximum) -> str:
    of = " ai" if limit.of == "ai" else ""
    return f"max {_rate_line(limit.rate, of)}{_PERIOD_WORDS[limit.period]}"


def _written(strength: Strength) -> str:
    return f"{figures(strength.value)}{'%' if strength.unit == '%' else ' ' + strength.unit}"


def _with_period(said: str, period: str) -> str:
    parts = said.split(", ")
    return ", ".join(
        f"{part} per {period}" if part.startswith("max ") and part.count(" per ") == 1 else part
        for part in parts
    )


def _draft(talk: Talk) -> _Draft:
    if talk.topic != topics.PRODUCT:
        return _Draft()
    return _Draft(**talk.data)


def _down(rate: Rate) -> Rate:
    """Return a reckoned rate in five figures, rounded down: never above what the label says."""
    step = 10.0 ** (math.floor(math.log10(rate.value)) - 4)
    return Rate(float(f"{math.floor(rate.value / step * (1 + 1e-12)) * step:.5g}"), rate.unit)


def _short(rate: Rate) -> Rate:
    return Rate(float(f"{rate.value:.3g}"), rate.unit)


def _say_strength(strength: Strength) -> str:
    return f"{figures(strength.value)} {strength.unit}"


def say_limits(talk: Talk, record: ProductRecord) -> str:
    """Return the label's maxima in one phrase."""
    if not record.maxima:
        return talk.say("products.limit_none")
    return "; ".join(
        talk.say(
            f"products.limit_{maximum.period}",
            rate=say_rate(maximum.rate)
            + (talk.say("products.of_ingredient") if maximum.of == "ai" else ""),
        )
        for maximum in product_of(record).maxima
    )


def _names() -> list[str]:
    return [item.names[0] for item in ingredients().values()]
