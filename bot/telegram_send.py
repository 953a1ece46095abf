"""Replies and alerts on their way to the chat platform."""

from __future__ import annotations

import asyncio
import contextlib
import logging
import threading
import time
from collections.abc import Awaitable, Callable, Iterator, Mapping
from concurrent.futures import CancelledError, Future
from dataclasses import dataclass, replace
from datetime import timedelta
from pathlib import Path
from typing import Any, Final

from telegram import (
    ForceReply,
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    KeyboardButton,
    Message,
    ReplyKeyboardMarkup,
    ReplyParameters,
)
from telegram.constants import ChatAction
from telegram.error import BadRequest, TelegramError

from bot.letters import letters
from bot.saying.catalogue import say
from bot.saying.voice import speaking
from bot.tasks import unheard_here
from bot.telegram_link import (
    PLATFORM,
    Bot,
    Departure,
    LineReport,
    departure_of_calls,
    never_left,
    trouble_of,
)
from bot.telegram_pace import Pacer, is_letter_call
from bot.turn import Buttons, Reply
from jobs.messenger import ChatMoved, Letter, MayHaveArrived, NobodyThere, TryLater

log = logging.getLogger(__name__)

#: The platform's limits, in UTF-16 units.
LONGEST_TEXT: Final = 4096
LONGEST_CAPTION: Final = 1024
#: Buttons beside one another: a phone shows three that can be read.
_MOST_IN_A_ROW: Final = 3
#: Pictures the platform holds already are sent by its own name for them, so many remembered.
_MOST_REMEMBERED: Final = 2000
#: The action of a button that only shows what was chosen.
USED: Final = "used"

#: A reply is tried this often; somebody told to wait longer than this asks again sooner.
_TRIES: Final = 6
_LONGEST_PAUSE: Final = timedelta(minutes=1)

#: What helps in an emergency is tried again after pauses that double, for so long [s].
_FIRST_PAUSE_S: Final = 0.25
_LONGEST_INSISTING_PAUSE_S: Final = 10.0
_INSIST_FOR_S: Final = 900.0

#: So many letters may wait for their turn, which is for half a second, and so many be under way;
#: one whose chat's turn is further off waits in the outbox [s].
_MOST_WAITING: Final = 14
_MOST_UNDER_WAY: Final = 48
_LONGEST_TURN_S: Final = 3.0
#: A letter gets so long, waiting for its turn included; a group's flood must not hold up others.
_LETTER_TIMEOUT_S: Final = 60.0
#: The loop itself gets a little longer to say so.
_LOOP_TIMEOUT_S: Final = 75.0

_Post = Callable[["To"], Awaitable[object]]


@dataclass(frozen=True, slots=True)
class To:
    """Where a reply goes.

    Attributes
    ----------
    chat
        Address of the chat.
    thread
        Topic within it, or None.
    answers
        In a group, the message it answers.
    tapped
        The message whose button was tapped, or None.
    said
        The message that is answered, or None.
    is_group
        True where several people read along.
    """

    chat: str
    thread: int | None = None
    answers: int | None = None
    tapped: int | None = None
    is_group: bool = False
    said: int | None = None


@dataclass(frozen=True, slots=True)
class _Piece:
    """One call; `is_repeatable` where doing it twice is doing it once."""

    post: _Post
    is_repeatable: bool = False


class Sender:
    """Sends replies.

    Parameters
    ----------
    bot
        The session.
    line
        Told how the platform fares.
    pause
        Wait after the platform was not reached.
    silence, move
        Told of a chat that can no longer be reached, and of a chat's new address.
    """

    def __init__(
        self,
        bot: Bot,
        line: LineReport,
        pause: timedelta,
        *,
        silence: Callable[[str], object],
        move: Callable[[str, str], object],
    ) -> None:
        self._bot = bot
        self._line = line
        self._pause = pause
        self._silence = silence
        self._move = move
        self._held: dict[str, str] = {}

    async def answer(self, to: To, reply: Reply) -> None:
        """Send a reply and see to what goes wrong; nothing is raised.

        What surely never left is sent again after a while; what may have arrived is not, unless
        it is an edit, which can be made twice.
        """
        if reply.reaction is not None and await self._react(to, reply):
            return
        for piece in self._pieces(to, reply):
            moved = await self._patiently(to, piece)
            if moved is None:
                return
            to = moved

    async def show_used(self, to: To, markup: InlineKeyboardMarkup) -> None:
        """Show under a message what was chosen there; where that fails it stays as it was."""
        with contextlib.suppress(TelegramError):
            await self._bot.edit_message_reply_markup(
                chat_id=to.chat, message_id=to.tapped, reply_markup=markup
            )

    async def show_busy(self, to: To, doing: ChatAction) -> None:
        """Show that something is under way; nobody misses it where that fails."""
        with contextlib.suppress(TelegramError):
            await self._bot.send_chat_action(
                chat_id=to.chat, action=doing, message_thread_id=to.thread
            )

    async def _react(self, to: To, reply: Reply) -> bool:
        """Put a sign on what was said; return whether that was done."""
        if to.said is None:
            return False
        try:
            await self._bot.set_message_reaction(
                chat_id=to.chat, message_id=to.said, reaction=reply.reaction
            )
        except TelegramError as error:
            log.info("a reaction was not taken: %s", error)
            return False
        return True

    async def insist(self, to: To, reply: Reply) -> None:
        """Send what helps in an emergency, whatever the platform says, until it has arrived.

        Better twice than never: what may have arrived is sent again too.
        """
        pause_s, until_s = _FIRST_PAUSE_S, time.monotonic() + _INSIST_FOR_S
        while time.monotonic() < until_s:
            try:
                for part in split(reply.text):
                    await self._text(part, None)(to)
            except TelegramError as error:
                self._line.failed(error)
                match trouble_of(error, self._pause):
                    case NobodyThere():
                        log.warning("nobody can be reached where help was asked for")
                        return
                    case ChatMoved() as moved:
                        to = To(moved.new_address, is_group=True)
                    case None:
                        # Refused as wrong: plainly then, to no topic and as no answer.
                        to = To(to.chat, is_group=to.is_group)
                await asyncio.sleep(pause_s)
                pause_s = min(2 * pause_s, _LONGEST_INSISTING_PAUSE_S)
            else:
                self._line.up()
                return
        log.error("an answer to an emergency could not be sent")

    async def deliver(self, to: To, reply: Reply) -> None:
        """Send a reply once.

        Raises
        ------
        DeliveryTrouble
            If it did not surely arrive.
        telegram.error.BadRequest
            If the platform refused it as wrong.
        """
        for number, piece in enumerate(self._pieces(to, reply)):
            try:
                await piece.post(to)
            except TelegramError as error:
                self._line.failed(error)
                trouble = trouble_of(error, self._pause)
                if trouble is None:
                    raise
                if number > 0 and isinstance(trouble, (TryLater, ChatMoved)):
                    raise MayHaveArrived("only its beginning was sent") from error
                raise trouble from error
            self._line.up()

    async def _patiently(self, to: To, piece: _Piece) -> To | None:
        """Post a piece; return where the next one goes, or None where no more shall follow."""
        for _ in range(_TRIES):
            try:
                await piece.post(to)
            except TelegramError as error:
                self._line.failed(error)
                trouble = trouble_of(error, self._pause)
                match trouble:
                    case TryLater():
                        await asyncio.sleep(min(trouble.after, _LONGEST_PAUSE).total_seconds())
                    case ChatMoved():
                        await asyncio.to_thread(self._move, to.chat, trouble.new_address)
                        to = To(trouble.new_address, is_group=True)
                    case NobodyThere():
                        await asyncio.to_thread(self._silence, to.chat)
                        return None
                    case MayHaveArrived() if not piece.is_repeatable:
                        log.warning("a reply may not have arrived: %s", trouble)
                        return to
                    case None if to.thread is not None and "thread not found" in str(error).lower():
                        to = replace(to, thread=None)
                    case None:
                        log.warning("the chat platform refused a reply: %s", error)
                        return to
            else:
                self._line.up()
                return to
        log.warning("a reply could not be sent after %d tries", _TRIES)
        return None

    def _pieces(self, to: To, reply: Reply) -> Iterator[_Piece]:
        """Yield the calls that bring a reply across, buttons under the last text."""
        text, markup = reply.text, _markup(to, reply)
        attached = [
            (path, send)
            for path, send in ((reply.picture, self._picture), (reply.file, self._file))
            if path is not None
        ]
        for number, (path, send) in enumerate(attached, 1):
            if not Path(path).is_file():
                log.warning("there is no file %s to send", path)
            elif number == len(attached) and _length(text) <= LONGEST_CAPTION:
                yield _Piece(send(path, text, markup))
                return
            else:
                yield _Piece(send(path, "", None))
        parts = split(text)
        for number, part in enumerate(parts):
            under = markup if number == len(parts) - 1 else None
            if number == 0 and reply.replaces and to.tapped is not None:
                yield _Piece(self._edit(part, under), is_repeatable=True)
            else:
                yield _Piece(self._text(part, under))

    def _text(self, text: str, markup: Any) -> _Post:
        return lambda to: self._bot.say(text, reply_markup=markup, **_whereto(to))

    def _edit(self, text: str, markup: Any) -> _Post:
        async def post(to: To) -> object:
            inline = markup if isinstance(markup, InlineKeyboardMarkup) else None
            try:
                return await self._bot.edit_message_text(
                    text=text, chat_id=to.chat, message_id=to.tapped, reply_markup=inline
                )
            except BadRequest as error:
                if "message is not modified" in str(error).lower():
                    return None
                if trouble_of(error, self._pause) is not None:
                    raise
                # Too old, deleted, or a picture: what it says is said afresh.
                return await self._text(text, markup)(to)

        return post

    def _picture(self, path: str, caption: str, markup: Any) -> _Post:
        async def post(to: To) -> object:
            rest = {"caption": caption or None, "reply_markup": markup, **_whereto(to)}
            held = self._held.get(path)
            if held is not None:
                try:
                    return await self._bot.send_photo(photo=held, **rest)
                except BadRequest as error:
                    if trouble_of(error, self._pause) is not None:
                        raise
                    # The platform does not know it by that name any more.
                    self._held.pop(path, None)
            sent = await self._bot.send_photo(photo=Path(path), **rest)
            self._remember(path, sent)
            return sent

        return post

    def _remember(self, path: str, sent: Message) -> None:
        """Remember the platform's own name of a picture: its file has the name of its contents."""
        if sent.photo:
            while len(self._held) >= _MOST_REMEMBERED:
                self._held.pop(next(iter(self._held)))
            self._held[path] = sent.photo[-1].file_id

    def _file(self, path: str, caption: str, markup: Any) -> _Post:
        return lambda to: self._bot.send_document(
            document=Path(path), caption=caption or None, reply_markup=markup, **_whereto(to)
        )


class TelegramMessenger:
    """Carries letters from the scheduler's thread over the bot's loop, several at a time.

    While the platform is out of reach there is no room for letters, so that none has to fail.

    Parameters
    ----------
    sender
        The sender, which lives on ``loop``.
    pacer
        Keeps the platform's pace.
    loop
        The bot's loop.
    pause
        How long the platform is left alone after it was not reached.
    clock_rate
        How many seconds of the clock pass in one of the wall: waits are told by the clock.
    """

    def __init__(
        self,
        sender: Sender,
        pacer: Pacer,
        loop: asyncio.AbstractEventLoop,
        pause: timedelta,
        *,
        clock_rate: float = 1.0,
    ) -> None:
        self._sender = sender
        self._pacer = pacer
        self._loop = loop
        self._pause = pause
        self._clock_rate = clock_rate
        self._down_until_s = 0.0
        self._under_way = 0
        self._counting = threading.Lock()

    def room(self) -> int:
        """Return how many more letters would leave soon."""
        if time.monotonic() < self._down_until_s:
            return 0
        soon = _MOST_WAITING - self._pacer.letters_waiting()
        return max(0, min(soon, _MOST_UNDER_WAY - self._under_way))

    def begin(self, letter: Letter) -> Future[None]:
        """Put a letter into words and begin to send it.

        Raises
        ------
        DeliveryTrouble
            If it is not even begun.
        """
        if letter.platform != PLATFORM:
            raise NobodyThere(f"not a chat of this platform but of {letter.platform}")
        wait_s = self._down_until_s - time.monotonic()
        if wait_s > 0:
            raise self._later("the platform is out of reach", timedelta(seconds=wait_s))
        wait_s = self._pacer.wait_of_letter_s(letter.address)
        if wait_s > _LONGEST_TURN_S:
            raise self._later("others in the chat come first", timedelta(seconds=wait_s))
        sending = self._carry(To(letter.address), in_words(letter))
        future = asyncio.run_coroutine_threadsafe(sending, self._loop)
        self._count(1)
        future.add_done_callback(lambda _: self._count(-1))
        return future

    def send(self, letter: Letter) -> None:
        """Send a letter and wait until it has arrived.

        Raises
        ------
        DeliveryTrouble
            If it did not surely arrive.
        """
        future = self.begin(letter)
        try:
            future.result(_LOOP_TIMEOUT_S)
        except (TimeoutError, CancelledError):
            future.cancel()
            raise MayHaveArrived("no answer in time") from None

    def _count(self, more: int) -> None:
        with self._counting:
            self._under_way += more

    async def _carry(self, to: To, reply: Reply) -> None:
        unheard_here()
        departure = Departure()
        departure_of_calls.set(departure)
        is_letter_call.set(True)
        try:
            async with asyncio.timeout(_LETTER_TIMEOUT_S):
                await self._sender.deliver(to, reply)
        except (TimeoutError, asyncio.CancelledError):
            if departure.has_begun:
                raise MayHaveArrived("no answer in time") from None
            raise self._later("others were waiting before it", self._pause) from None
        except TryLater as trouble:
            if isinstance(trouble.__cause__, TelegramError) and never_left(trouble.__cause__):
                self._down_until_s = time.monotonic() + self._pause.total_seconds()
            raise self._later(str(trouble), trouble.after) from None

    def _later(self, reason: str, after: timedelta) -> TryLater:
        return TryLater(reason, after * self._clock_rate)


def in_words(letter: Letter) -> Reply:
    """Return an alert in words; one that may have arrived before says so first."""
    reply = letters.write(letter)
    if not letter.is_repeat:
        return reply
    with speaking(letter.language):
        return replace(reply, text=say("letters.repeat", message=reply.text))


def split(text: str, longest: int = LONGEST_TEXT) -> list[str]:
    """Split a text into parts the platform takes: at line ends, else at spaces, else anywhere."""
    parts = []
    while _length(text) > longest:
        head = _head(text, longest)
        cut = max(head.rfind("\n"), 0) or max(head.rfind(" "), 0) or len(head)
        parts.append(text[:cut].rstrip())
        text = text[cut:].lstrip()
    return [part for part in (*parts, text) if part.strip()]


def _head(text: str, longest: int) -> str:
    """Return the longest beginning of a text that fits."""
    units = 0
    for place, letter in enumerate(text):
        units += 2 if ord(letter) > 0xFFFF else 1
        if units > longest:
            return text[:place]
    return text


def _length(text: str) -> int:
    """Return a text's length as the platform counts it."""
    return len(text.encode("utf-16-le")) // 2


def _whereto(to: To) -> Mapping[str, Any]:
    whereto: dict[str, Any] = {"chat_id": to.chat, "message_thread_id": to.thread}
    if to.answers is not None:
        whereto["reply_parameters"] = ReplyParameters(to.answers, allow_sending_without_reply=True)
    return whereto


def _markup(to: To, reply: Reply) -> Any:
    if reply.buttons:
        return InlineKeyboardMarkup(_inline(reply.buttons))
    if not reply.asks_place:
        return None
    hint = say("telegram.share_place_hint")
    if to.is_group:
        # A group is no place for a location button; an answer is heard when it is a reply.
        return ForceReply(selective=True, input_field_placeholder=hint)
    return ReplyKeyboardMarkup(
        [[KeyboardButton(say("telegram.share_place"), request_location=True)]],
        resize_keyboard=True,
        one_time_keyboard=True,
        input_field_placeholder=hint,
    )


def _inline(buttons: Buttons) -> list[list[InlineKeyboardButton]]:
    return [
        [
            InlineKeyboardButton(button.label, callback_data=button.action)
            for button in row[start : start + _MOST_IN_A_ROW]
        ]
        for row in buttons
        for start in range(0, len(row), _MOST_IN_A_ROW)
    ]
