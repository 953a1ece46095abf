"""What was said of one yard held to be so at the chat's others as well, by one tap."""

from __future__ import annotations

from typing import get_args

from bot.dialogue import topics
from bot.dialogue.talk import OWNER, Talk
from bot.hearing.forms.product_forms import SameAsked
from bot.hearing.heard import ActHeard
from bot.telling.offers import without_product
from bot.telling.products_said import doubt_lines, limits_of, say_product
from bot.turn import Reply
from jobs.uses import adding_many, entering_products
from storage import journal
from storage.yards import YardRecord


def product_for_all(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer the button: the product of this yard for every one that has none."""
    without = without_product(talk, yard)
    # A share in one yard says nothing of the others.
    if yard.product_id is None or not without or talk.role(yard) != OWNER:
        return [talk.stale()]
    if talk.topic == topics.PRODUCT:
        talk.settle()
    record = talk.standing(yard).chosen
    count = adding_many.use_product(talk.work, without, record, now=talk.now)
    product = say_product(record)
    return [talk.reply("many.product_taken", count=count, product=product)]


def same_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer that button."""
    said = action.split(":")[1]
    what = next((each for each in get_args(adding_many.What) if each == said), None)
    if what is None or talk.role(yard) != OWNER:
        return [talk.stale()]
    count = adding_many.give_to_others(talk.work, yard, what, now=talk.now)
    return [talk.reply("many.same_taken", count=count, yard=yard.name)]


def use(talk: Talk, yard: YardRecord, product_id: int) -> list[Reply]:
    """Answer [Use ...]: choose a product that another yard uses."""
    found = [
        each for each in entering_products.others_in_use(talk.work, yard) if each.id == product_id
    ]
    if not found:
        return [talk.stale("products.hint")]
    talk.settle()
    entering_products.choose(talk.work, yard, found[0], now=talk.now)
    lines = [
        talk.say("products.kept", product=say_product(found[0]), yard=yard.name),
        talk.say("products.limits", limits=limits_of(found[0])),
        *doubt_lines(talk, found[0]),
        talk.say("products.law"),
    ]
    undo = ("applying.button_undo", f"undo:{journal.entry_now(talk.work)}")
    buttons = talk.row(("yards.button_amounts", f"amounts:{yard.id}"), undo)
    return [Reply("\n".join(lines), buttons)]


def same(talk: Talk, yard: YardRecord, said: SameAsked) -> list[Reply]:
    """Take ``same product (as yard 1)``: that yard's, or the only one other yards use."""
    found = entering_products.others_in_use(talk.work, yard)
    of = [each for each in talk.yards() if each.name == said.yard]
    if of:
        found = [each for each in found if each.id == of[0].product_id]
    if len(found) == 1:
        return use(talk, yard, found[0].id)
    return talk.answer("show_product", yard, ActHeard("show_product", why="command"))
