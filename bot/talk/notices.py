"""Words for others: a customer, a neighbour, a landlord; before it goes down, and after."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from bot.hearing.heard import ActHeard
from bot.saying.values import Day, Names
from bot.talk import registering, rest_of_label, when_to_treat
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.labels import product_of, product_of_snapshot
from storage import products
from storage.applications import ApplicationRecord
from storage.yards import YardRecord

#: What went down so long ago is still told as news [days].
_LATELY: Final = timedelta(days=14)


def on_ask_notice(talk: Talk, yard: YardRecord, _heard: ActHeard) -> list[Reply]:
    """Give words to forward: of what went down lately, else of what is to come."""
    done = _newest(talk, yard)
    is_news = done is not None and talk.today(yard) - done.applied_on <= _LATELY
    return _after(talk, yard, done) if done is not None and is_news else _before(talk, yard)


def tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons: words for before, or for after."""
    done = _newest(talk, yard)
    if action.split(":")[1] == "after" and done is not None:
        return _after(talk, yard, done)
    return _before(talk, yard)


def _before(talk: Talk, yard: YardRecord) -> list[Reply]:
    span = when_to_treat.days_to_apply(talk, yard)
    when = talk.say("notices.when_open")
    if span is not None:
        first, last = span
        when = talk.say("notices.when", first=_day(first), last=_day(last))
        if first >= last:
            when = talk.say("notices.when_by", last=_day(last))
    lines = [
        talk.say("notices.before", yard=yard.name, when=when, what=_what(talk, yard, None)),
        talk.say("notices.keep_off"),
        talk.say("notices.why"),
        talk.say("notices.ask"),
    ]
    other = None if _newest(talk, yard) is None else "after"
    return [_intro(talk, yard, other), Reply("\n".join(lines))]


def _after(talk: Talk, yard: YardRecord, done: ApplicationRecord) -> list[Reply]:
    lines = [
        talk.say(
            "notices.after",
            yard=yard.name,
            zones=Names([share.zone_name for share in done.shares]),
            on=_day(done.applied_on),
            what=_what(talk, yard, done),
        ),
        talk.say(_keep_off_after(talk, done)),
        talk.say("notices.clippings"),
        talk.say("notices.ask_after"),
    ]
    if done.watered_in_on is None and registering.water_lines(talk, yard):
        lines.insert(2, talk.say("notices.to_water"))
    return [_intro(talk, yard, "before"), Reply("\n".join(lines))]


def _keep_off_after(talk: Talk, done: ApplicationRecord) -> str:
    if rest_of_label.foliar_of(talk, done.id):
        # What works through leaves is not to be watered: it has to dry.
        return "notices.keep_off_dry"
    return "notices.keep_off_watered" if done.watered_in_on else "notices.keep_off"


def _intro(talk: Talk, yard: YardRecord, other: str | None) -> Reply:
    """Say what to check before it is forwarded; `other` are the other words there are."""
    button = (
        []
        if other is None
        else [(talk.say(f"notices.button_{other}"), f"notice:{other}:{yard.id}")]
    )
    buttons = rows(button)
    text = "\n".join(talk.say(f"notices.{each}") for each in ("intro", "local"))
    return Reply(text, buttons)


def _what(talk: Talk, yard: YardRecord, done: ApplicationRecord | None) -> str:
    """Return the ingredients that went down, or are to."""
    product = None
    if done is not None:
        product = None if done.product is None else product_of_snapshot(done.product)
    elif yard.product_id is not None:
        product = product_of(products.product(talk.work, yard.product_id))
    if product is None or not product.ingredient_names:
        return talk.say("notices.what_unknown")
    return talk.say("notices.what", names=Names(product.ingredient_names))


def _newest(talk: Talk, yard: YardRecord) -> ApplicationRecord | None:
    done = talk.standing(yard).done
    return done[-1] if done else None


def _day(day: date) -> Day:
    """Return a day by its date: what is forwarded is read on another one."""
    return Day(day, day - _FAR_ENOUGH)


#: From this distance on a day is said by its date [days].
_FAR_ENOUGH: Final = timedelta(days=2)

HANDLERS: Final = {"ask_notice": on_ask_notice}
