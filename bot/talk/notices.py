"""Words for others: a customer, a neighbor, a landlord, an association; before and after.

They are ready to forward, in either language, and promise nothing: the label and the state's rules
win. What the person's state asks for is taken from their own word, and reminded of.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, get_args

from bot.dialogue import rights
from bot.dialogue.talk import Talk
from bot.hearing.forms.notice_forms import NoticeAsked, Reader
from bot.hearing.heard import ActHeard
from bot.letters.letter_facts import rule_lines
from bot.saying.plants import say_ingredient
from bot.saying.values import Day, Names
from bot.saying.voice import language_now, speaking
from bot.telling import application_days, label_facts, water_due
from bot.turn import Buttons, Reply, rows
from jobs.labels import put_down
from jobs.record_details import RecordDetails
from jobs.uses import field_round, recording
from storage import products
from storage.applications import ApplicationRecord
from storage.yards import YardRecord

#: What went down so long ago is still told as news [days].
_LATELY: Final = timedelta(days=14)
#: What went down since then is what a customer has still to be told [days].
_JUST_NOW: Final = timedelta(days=2)
#: Words for customers that are shown at once; of more there is another page.
_A_PAGE: Final = 8
_LANGUAGES: Final = ("en", "es")


@dataclass(frozen=True, slots=True)
class _Notice:
    """Which words are wanted: of what is to come, or of what was done."""

    yard: YardRecord
    reader: Reader
    language: str
    done: ApplicationRecord | None


def on_ask_notice(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Give words to forward: of what went down lately, else of what is to come."""
    asked = heard.slots.read if isinstance(heard.slots.read, NoticeAsked) else NoticeAsked()
    if asked.is_of_all and len(_customers(talk)) > 1:
        return _due(talk, 0)
    done = _newest(talk, yard)
    is_after = asked.is_after
    if is_after is None:
        is_after = done is not None and talk.today(yard) - done.applied_on <= _LATELY
    reader = asked.reader or _reader_of(yard)
    language = asked.language or language_now()
    return _give(talk, _Notice(yard, reader, language, done if is_after else None))


def tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons: for whom, before or after, in which language; and the next page."""
    _, what, *rest = action.split(":")
    if what == "due":
        return _due(talk, int(rest[1]) if len(rest) > 1 and rest[1].isdigit() else 0)
    reader, language = (*rest[1:], "", "")[:2]
    return _give(
        talk,
        _Notice(
            yard,
            next((each for each in get_args(Reader) if each == reader), _reader_of(yard)),
            language if language in _LANGUAGES else language_now(),
            _newest(talk, yard) if what == "after" else None,
        ),
    )


# --- one notice -----------------------------------------------------------------------------------


def _give(talk: Talk, notice: _Notice) -> list[Reply]:
    """Return what to check before it is forwarded, and the words themselves."""
    lines = [talk.say("notices.intro"), *_rules(talk, notice)]
    return [Reply("\n".join(lines), _others(talk, notice)), _words(talk, notice)]


def _others(talk: Talk, notice: _Notice) -> Buttons:
    """Return the buttons for the other words there are."""
    now = "before" if notice.done is None else "after"
    other = {"before": "after", "after": "before"}[now]

    def action(when: str, reader: str, language: str) -> str:
        return f"notice:{when}:{notice.yard.id}:{reader}:{language}"

    readers = [
        (talk.say(f"notices.for_{each}"), action(now, each, notice.language))
        for each in get_args(Reader)
        if each != notice.reader
    ]
    more = []
    if other == "before" or _newest(talk, notice.yard) is not None:
        label = talk.say(f"notices.button_{other}")
        more.append((label, action(other, notice.reader, notice.language)))
    more += [
        (talk.say(f"notices.in_{each}"), action(now, notice.reader, each))
        for each in _LANGUAGES
        if each != notice.language
    ]
    return rows(readers, more)


def _rules(talk: Talk, notice: _Notice) -> list[str]:
    """Return what the person's state asks for, as they said; else that they should look."""
    said = talk.standing(notice.yard).chat_wishes
    if not said.posts_signs and said.notice_hours is None:
        return [talk.say("notices.local")]
    lines = rule_lines(said.posts_signs, said.notice_hours)
    span = application_days.days_to_apply(talk, notice.yard)
    if notice.done is None and said.notice_hours is not None and span is not None:
        today = talk.today(notice.yard)
        by = span[0] - timedelta(days=-(-said.notice_hours // 24))
        lines.append(talk.say("notices.send_by", by=Day(max(by, today), today)))
    return lines


def _words(talk: Talk, notice: _Notice) -> Reply:
    with speaking(notice.language):
        done = notice.done
        lines = _before(talk, notice) if done is None else _after(talk, notice, done)
        # With data of its own it stays a message by itself, which can be forwarded.
        return Reply("\n".join(lines), data={"notice": notice.yard.id})


def _before(talk: Talk, notice: _Notice) -> list[str]:
    yard, span = notice.yard, application_days.days_to_apply(talk, notice.yard)
    when = talk.say("notices.when_open")
    if span is not None:
        first, last = span
        hours = talk.standing(yard).chat_wishes.notice_hours or 0
        if hours:
            # Nobody is told of a day that their notice does not reach in time.
            first = max(first, talk.today(yard) + timedelta(days=-(-hours // 24)))
        when = talk.say("notices.when", first=_day(first), last=_day(last))
        if first >= last:
            when = talk.say("notices.when_by", last=_day(last))
    return [
        talk.say(
            "notices.before",
            reader=notice.reader,
            place=_place(talk, notice),
            when=when,
            what=_what(talk, yard, None),
        ),
        talk.say("notices.keep_off"),
        talk.say("notices.why"),
        talk.say("notices.ask", reader=notice.reader),
    ]


def _after(talk: Talk, notice: _Notice, done: ApplicationRecord) -> list[str]:
    lines = [
        talk.say(
            "notices.after",
            reader=notice.reader,
            place=_place(talk, notice),
            zones=Names([share.zone_name for share in done.shares]),
            on=_day(done.applied_on),
            what=_what(talk, notice.yard, done),
        ),
        _keep_off_after(talk, done),
    ]
    if done.watered_in_on is None and water_due.water_lines(talk, notice.yard):
        lines.append(talk.say("notices.to_water"))
    lines += [talk.say("notices.clippings"), *_by(talk, done)]
    return [*lines, talk.say("notices.ask_after")]


def _keep_off_after(talk: Talk, done: ApplicationRecord) -> str:
    said = RecordDetails.from_json(done.details).reentry
    if said is not None:
        return talk.say("notices.keep_off_said", until=said)
    if label_facts.foliar_of(put_down(done)):
        # What works through leaves is not to be watered: it has to dry.
        return talk.say("notices.keep_off_dry")
    return talk.say("notices.keep_off_watered" if done.watered_in_on else "notices.keep_off")


def _by(talk: Talk, done: ApplicationRecord) -> list[str]:
    """Return who put it down, where they have a licence or work under one."""
    by = recording.applicator_of(talk.work, done)
    if by.licence is not None and by.name:
        return [talk.say("notices.by", name=by.name, licence=by.licence)]
    if by.supervisor is not None and by.supervisor_licence is not None and by.name:
        licence = by.supervisor_licence
        return [talk.say("notices.by_under", name=by.name, under=by.supervisor, licence=licence)]
    return []


def _place(talk: Talk, notice: _Notice) -> str:
    """Return where the lawn is; a customer's name is told to nobody else."""
    yard = notice.yard
    where = recording.address_of(yard) if yard.address else yard.name
    if notice.reader == "customer" and yard.customer is not None:
        return talk.say("notices.place_of", customer=yard.customer, place=where)
    return str(where)


def _what(talk: Talk, yard: YardRecord, done: ApplicationRecord | None) -> str:
    """Return the ingredients that went down, or are to, with their number where it is known."""
    product, number = None, None
    if done is not None:
        product = put_down(done)
        number = recording.registration_of(talk.work, done)
    elif yard.product_id is not None:
        product = talk.standing(yard).label
        number = products.registration(talk.work, yard.product_id)
    if product is None or not product.ingredient_names:
        return talk.say("notices.what_unknown")
    names = Names([say_ingredient(each) for each in product.ingredient_names])
    if number is None:
        return talk.say("notices.what", names=names)
    return talk.say("notices.what_registered", names=names, number=number)


def _reader_of(yard: YardRecord) -> Reader:
    return "customer" if yard.owner == "pay" or yard.customer is not None else "neighbor"


def _newest(talk: Talk, yard: YardRecord) -> ApplicationRecord | None:
    done = talk.standing(yard).done
    return done[-1] if done else None


# --- what is due to all customers -----------------------------------------------------------------


def _due(talk: Talk, page: int) -> list[Reply]:
    """Return the words for every customer who is to hear of the work of these days."""
    notices = _all_due(talk)
    if not notices:
        return [talk.reply("notices.none_due")]
    shown = notices[page * _A_PAGE : (page + 1) * _A_PAGE]
    done = [each.yard.name for each in notices if each.done is not None]
    to_come = [each.yard.name for each in notices if each.done is None]
    lines = [talk.say("notices.due_head", count=len(notices))]
    if done:
        lines.append(talk.say("notices.due_after", yards=Names(done)))
    if to_come:
        lines.append(talk.say("notices.due_before", yards=Names(to_come)))
    lines += _rules(talk, shown[0])
    buttons: Buttons = ()
    if len(notices) > (page + 1) * _A_PAGE:
        more = f"notice:due:{shown[0].yard.id}:{page + 1}"
        buttons = talk.row(("rounds_of_work.button_next", more))
    return [Reply("\n".join(lines), buttons), *(_words(talk, each) for each in shown)]


def _all_due(talk: Talk) -> list[_Notice]:
    """Return what was done these days, then what is to be done today or as far as notice goes."""
    mine, language = _customers(talk), language_now()
    notices = []
    for yard in mine:
        done = _newest(talk, yard)
        if done is not None and talk.today(yard) - done.applied_on <= _JUST_NOW:
            notices.append(_Notice(yard, "customer", language, done))
    found = field_round.of_today(talk.work, mine, talk.chat.id, talk.around.source, talk.now)
    ahead = max(talk.standing(each).chat_wishes.notice_hours or 0 for each in mine)
    later = [line for line in found.later if line.is_due]
    to_come = [*found.left, *later[: found.yards_a_day * -(-ahead // 24)]]
    told = {each.yard.id for each in notices}
    notices += [
        _Notice(line.yard, "customer", language, None)
        for line in to_come
        if line.yard.id not in told
    ]
    return notices


def _customers(talk: Talk) -> Sequence[YardRecord]:
    """Return the yards of customers; all of them where none is known to be one."""
    mine = [yard for yard in talk.yards() if rights.refuse_act(talk, yard, "ask_notice") is None]
    return [yard for yard in mine if _reader_of(yard) == "customer"] or mine


def _day(day: date) -> Day:
    """Return a day by its date: what is forwarded is read on another one."""
    return Day(day, day - _FAR_ENOUGH)


#: From this distance on a day is said by its date [days].
_FAR_ENOUGH: Final = timedelta(days=2)

HANDLERS: Final = {"ask_notice": on_ask_notice}
