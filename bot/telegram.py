"""Turns from the chat platform, and their way through the conversation and back.

Each update becomes one turn (a photo with words two), in order within its chat, chats side by
side. Work that blocks is done off the event loop.
"""

from __future__ import annotations

import asyncio
import logging
import re
from collections.abc import Callable, Coroutine, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any, Final, TypeVar
from weakref import WeakValueDictionary

from sqlalchemy.exc import SQLAlchemyError
from telegram import (
    Chat,
    ChatMemberUpdated,
    Document,
    InaccessibleMessage,
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    MaybeInaccessibleMessage,
    Message,
    Update,
    User,
)
from telegram.constants import ChatAction, ChatMemberStatus, ChatType
from telegram.error import BadRequest, TelegramError

from bot.conversation import Conversation, NotKept, behind_first_line
from bot.hearing.acts import ACTS
from bot.pictures.studio import Studio
from bot.saying.catalogue import language_for, say
from bot.saying.voice import speaking
from bot.table_files import MOST_BYTES, is_table
from bot.talk.taps import act_of
from bot.tasks import GoesFirst, unheard
from bot.telegram_chats import Addresses, GroupAdmins
from bot.telegram_lines import Answer, Line
from bot.telegram_link import PLATFORM, Bot
from bot.telegram_pinned import take_down
from bot.telegram_send import USED, Sender, To
from bot.turn import Reply, Turn
from storage.database import may_pass

log = logging.getLogger(__name__)

#: What is asked of the platform; edits only to say that they are not read.
UPDATES: Final = ("message", "edited_message", "callback_query", "my_chat_member")

#: Largest photo taken in [MB]; the platform itself hands over at most 20.
MOST_PHOTO_MB: Final = 10

#: So much that takes its time, such as reading photos, is done at a time, beside the turns.
_SLOW_AT_ONCE: Final = 8
#: While the database is away it is asked again after pauses that double [s].
_FIRST_PAUSE_S: Final = 0.1
_LONGEST_PAUSE_S: Final = 2.0
#: Somebody who has waited so long is told that they need not say it again [s].
_PATIENCE_AFTER_S: Final = 6.0
#: Words wait so long for their picture; then they go alone, and it follows [s].
_WAIT_FOR_PICTURE_S: Final = 0.8
#: And so long for the first look at a new yard [s].
_WAIT_FOR_LOOK_S: Final = 3.0

T = TypeVar("T")

_GONE: Final = (ChatMemberStatus.BANNED, ChatMemberStatus.LEFT)


class Stopped(Exception):
    """Raised where a turn is left for the next start: it is neither kept nor confirmed."""


class Front:
    """Takes updates one by one and sees each through to its reply.

    What helps in an emergency is sent at once, beside everything else and without the database. All
    else is kept first, then answered; while the database is locked or away it is tried again, and
    people are told once that they need not say it again.

    Parameters
    ----------
    bot
        The session, already opened: it knows its own name.
    conversation
        What answers.
    sender
        What carries replies.
    addresses
        What keeps chats' addresses.
    clock
        Tells the time.
    pictures
        Folder for photos.
    studio
        Draws pictures.
    """

    def __init__(
        self,
        bot: Bot,
        conversation: Conversation,
        sender: Sender,
        addresses: Addresses,
        clock: Callable[[], datetime],
        pictures: Path,
        studio: Studio,
    ) -> None:
        self._bot = bot
        self._conversation = conversation
        self._sender = sender
        self._addresses = addresses
        self._admins = GroupAdmins(bot)
        self._clock = clock
        self._pictures = pictures
        self._studio = studio
        self._lines: WeakValueDictionary[str, Line] = WeakValueDictionary()
        self._beside: set[asyncio.Task[object]] = set()
        at_once = conversation.turns_at_once
        self._turns = GoesFirst("turn") if at_once == 1 else ThreadPoolExecutor(at_once, "turn")
        self._slow = ThreadPoolExecutor(_SLOW_AT_ONCE, "slow")
        self._is_stopping = False

    async def take(self, update: Update, kept: Callable[[], object]) -> None:
        """See an update through; nothing is raised.

        ``kept`` is called when all it says is kept and only replies are left to send. It is not
        called where the update is left for the next start.
        """
        try:
            if update.callback_query is not None:
                # At once, beside everything else: until then the button looks stuck.
                self._do_beside(self._acknowledge(update.callback_query.id))
            chat = update.effective_chat
            if chat is None:
                kept()
                return
            if update.message is not None:
                self._help(update.message)
            line = self._lines.setdefault(str(chat.id), Line())
            if not line.join(self._would_answer(update)):
                kept()
                return
            try:
                async with line.turns:
                    await self._see_through(update, line, kept)
                    under_way = line.under_way()
                await asyncio.gather(*under_way)
            finally:
                refused = line.leave()
                if refused is not None:
                    self._do_beside(refused())
        except Stopped:
            log.info("update %s is left for the next start", update.update_id)
            return
        except Exception:
            log.exception("update %s was not seen through", update.update_id)
        kept()

    def stop(self) -> None:
        """Begin nothing new, and try nothing again."""
        self._is_stopping = True
        for workers in (self._turns, self._slow):
            workers.shutdown(wait=False, cancel_futures=True)

    async def finish(self, within_s: float) -> None:
        """Let what is done beside the turns end, such as pictures under way."""
        if self._beside:
            _, late = await asyncio.wait(self._beside, timeout=within_s)
            for task in late:
                task.cancel()
        await self._studio.close()

    def _do_beside(self, doing: Coroutine[Any, Any, object]) -> None:
        task = asyncio.create_task(doing)
        self._beside.add(task)
        task.add_done_callback(self._end_beside)

    def _end_beside(self, task: asyncio.Task[object]) -> None:
        self._beside.discard(task)
        trouble = None if task.cancelled() else task.exception()
        if trouble is not None and not isinstance(trouble, Stopped):
            log.error("something beside a turn was not done", exc_info=trouble)

    def _help(self, message: Message) -> None:
        """Send what helps in an emergency, before anything else is done about it."""
        said = message.text or message.caption
        if said is None or message.from_user is None:
            return
        if not is_meant(message, said, self._bot.id, self._bot.username):
            return
        text = without_mention(said, self._bot.username)
        aid = self._conversation.first_aid(
            self._turn("first aid", message.from_user, message, text=text)
        )
        if aid is not None:
            self._do_beside(self._sender.insist(_to(message), aid))

    async def _off_loop(
        self, doing: Callable[..., T], *arguments: Any, by: ThreadPoolExecutor | None = None
    ) -> T:
        """Do something that blocks off the loop; while the database is away, again and again.

        Raises
        ------
        Stopped
            If told to stop before it could be done.
        """
        pause_s = _FIRST_PAUSE_S
        while not self._is_stopping:
            try:
                loop = asyncio.get_running_loop()
                return await loop.run_in_executor(by or self._slow, partial(doing, *arguments))
            except RuntimeError:
                if not self._is_stopping:
                    raise
            except (NotKept, SQLAlchemyError) as trouble:
                if not isinstance(trouble, NotKept) and not may_pass(trouble):
                    raise
                if pause_s == _FIRST_PAUSE_S:
                    log.warning("the database cannot be used for now; what is said waits for it")
                await asyncio.sleep(pause_s)
                pause_s = min(2 * pause_s, _LONGEST_PAUSE_S)
        raise Stopped

    def _would_answer(self, update: Update) -> Answer | None:
        """Return how an update is refused; None where nobody waits for an answer to it."""
        query, message = update.callback_query, update.message or update.edited_message
        shown = message if query is None else query.message
        if shown is None:
            return None
        if message is not None:
            said = message.text or message.caption
            is_meant_so = is_meant(message, said, self._bot.id, self._bot.username)
            if message.migrate_to_chat_id is not None or not is_meant_so:
                return None
        to = replace(_to(shown), answers=shown.message_id)
        return partial(self._refuse, to, update.effective_user)

    async def _refuse(self, to: To, user: User | None) -> None:
        await self._sender.answer(to, _said("telegram.too_many", user))

    async def _see_through(self, update: Update, line: Line, kept: Callable[[], object]) -> None:
        key = f"{PLATFORM}:{self._bot.id}:{update.update_id}"
        if update.my_chat_member is not None:
            await self._membership(update.my_chat_member)
        elif update.callback_query is not None:
            query = update.callback_query
            if query.message is not None and query.data and query.data != USED:
                turn = self._turn(key, query.from_user, query.message, tap=query.data)
                await self._answer(turn, query.message, line, kept)
        elif update.message is not None:
            await self._message(key, update.message, line, kept)
        elif update.edited_message is not None:
            await self._edited(update.edited_message, line, kept)

    async def _message(
        self, key: str, message: Message, line: Line, kept: Callable[[], object]
    ) -> None:
        if message.migrate_to_chat_id is not None:
            new = str(message.migrate_to_chat_id)
            await self._off_loop(self._addresses.move, str(message.chat.id), new)
            return
        user = message.from_user
        if user is None or (user.is_bot and message.sender_chat is None):
            return
        said = message.text or message.caption
        if not is_meant(message, said, self._bot.id, self._bot.username):
            return
        if said is not None:
            text = without_mention(said, self._bot.username)
            is_all = message.text is not None
            turn = self._turn(key if is_all else f"{key}:caption", user, message, text=text)
            await self._answer(turn, message, line, kept if is_all else lambda: None)
        if message.location is not None:
            place = (message.location.latitude, message.location.longitude)
            turn = self._turn(key, user, message, place=place)
            await self._answer(turn, message, line, kept)
        document = message.document
        if document is not None and not _is_picture(document):
            await self._document(key, user, message, document, line, kept)
        photo = _photo(message)
        if photo is not None:
            path = await self._fetch(*photo)
            if path is None:
                sorry = _said("telegram.photo_lost", user, megabytes=MOST_PHOTO_MB)
                await line.reply(kept, partial(self._sender.answer, _to(message), sorry))
            else:
                turn = self._turn(key, user, message, photo=path)
                await self._answer(turn, message, line, kept)

    async def _document(
        self,
        key: str,
        user: User,
        message: Message,
        document: Document,
        line: Line,
        kept: Callable[[], object],
    ) -> None:
        """Take a table in; its file is let go as soon as it was read."""
        name = document.file_name or ""
        suffix = Path(name).suffix.casefold()
        path = None
        if is_table(name) and (document.file_size or 0) <= MOST_BYTES:
            path = await self._fetch(document.file_id, document.file_unique_id, suffix, MOST_BYTES)
        if path is None:
            sorry = _said("telegram.file_lost", user)
            await line.reply(kept, partial(self._sender.answer, _to(message), sorry))
            return
        try:
            turn = self._turn(key, user, message, document=path)
            await self._answer(turn, message, line, kept)
        finally:
            await asyncio.to_thread(Path(path).unlink, missing_ok=True)

    async def _answer(
        self, turn: Turn, message: MaybeInaccessibleMessage, line: Line, kept: Callable[[], object]
    ) -> None:
        to = _to(message, is_tap=turn.tap is not None)
        if turn.is_group:
            # The message of a button is the bot's own.
            own = message if turn.tap is None and isinstance(message, Message) else None
            runs_chat = await self._admins.has(message.chat.id, int(turn.person), own)
            turn = replace(turn, runs_chat=runs_chat)
        asking: list[asyncio.Task[None]] = []

        def ask() -> None:
            words = self._ask_for_patience(replace(to, tapped=None), turn.language)
            asking.append(asyncio.create_task(words))

        # Nearly every turn is answered before: a task for each would cost more than the timer.
        patience = asyncio.get_running_loop().call_later(_PATIENCE_AFTER_S, ask)
        try:
            is_quick = turn.photo is None and turn.document is None
            by = self._turns if is_quick else self._slow
            replies = await self._off_loop(self._conversation.answer, turn, by=by)
        finally:
            patience.cancel()
            for task in asking:
                task.cancel()
        await line.reply(kept, partial(self._send, turn, to, message, replies))

    async def _send(
        self, turn: Turn, to: To, message: MaybeInaccessibleMessage, replies: list[Reply]
    ) -> None:
        aid = self._conversation.first_aid(turn)
        if aid is not None and replies and replies[0].text == aid.text:
            # It is on its way already.
            replies = replies[1:]
        if turn.tap is not None and replies and replies[0].settles and not replies[0].replaces:
            markup = used(message, turn.tap)
            if markup is not None:
                self._do_beside(self._sender.show_used(to, markup))
        for reply in replies:
            for message_ref in reply.unpins:
                self._do_beside(take_down(self._bot, to.chat, message_ref))
            looked = await self._looked(turn, to, reply)
            await self._sender.answer(to, await self._in_time(to, looked))
            # One message is replaced once; what else there is to say follows it.
            to = replace(to, tapped=None)

    async def _ask_for_patience(self, to: To, language: str | None) -> None:
        with speaking(language_for(language)):
            words = say("telegram.waiting")
        await self._sender.answer(to, Reply(words))

    async def _in_time(self, to: To, reply: Reply) -> Reply:
        """Return a reply with its picture, or its words alone where that takes long.

        The picture follows then, beside what else is said in the chat.
        """
        if reply.drawing is None:
            return reply
        drawing = asyncio.create_task(self._studio.draw(reply.drawing))
        unheard(drawing)
        done, _ = await asyncio.wait((drawing,), timeout=_WAIT_FOR_PICTURE_S)
        words = replace(reply, drawing=None)
        if not done:
            self._do_beside(self._sender.show_busy(to, ChatAction.UPLOAD_PHOTO))
            self._do_beside(self._follow(replace(to, tapped=None), drawing))
            return words
        path = drawing.result()
        return words if path is None else replace(words, picture=str(path))

    async def _looked(self, turn: Turn, to: To, reply: Reply) -> Reply:
        """Return a reply with what the first look at a new yard shows, or at once without it.

        Where the weather takes long, what is seen follows.
        """
        if reply.looks_at is None:
            return reply
        self._do_beside(self._sender.show_busy(to, ChatAction.TYPING))
        looking = asyncio.create_task(self._off_loop(self._conversation.look_line, turn, reply))
        unheard(looking)
        done, _ = await asyncio.wait((looking,), timeout=_WAIT_FOR_LOOK_S)
        if done:
            return behind_first_line(reply, looking.result())
        self._do_beside(self._follow_look(replace(to, tapped=None), looking))
        return replace(reply, looks_at=None)

    async def _follow_look(self, to: To, looking: asyncio.Task[str]) -> None:
        line = await looking
        if line:
            await self._sender.answer(to, Reply(line))

    async def _follow(self, to: To, drawing: asyncio.Task[Path | None]) -> None:
        path = await drawing
        if path is not None:
            await self._sender.answer(to, Reply("", picture=str(path)))

    async def _edited(self, message: Message, line: Line, kept: Callable[[], object]) -> None:
        # A place shared live moves by edits; nobody changed their words there.
        if message.location is None and is_meant(
            message, message.text, self._bot.id, self._bot.username
        ):
            words = _said("telegram.edited", message.from_user)
            await line.reply(kept, partial(self._sender.answer, _to(message), words))

    async def _membership(self, change: ChatMemberUpdated) -> None:
        if change.new_chat_member.status in _GONE:
            await self._off_loop(self._addresses.silence, str(change.chat.id))

    async def _acknowledge(self, query_id: str) -> None:
        try:
            await self._bot.answer_callback_query(query_id)
        except BadRequest as error:
            if "query is too old" not in str(error).lower():
                log.warning("a tap could not be acknowledged: %s", error)
        except TelegramError as error:
            # The button looks stuck for a moment; what it does is done all the same.
            log.info("a tap could not be acknowledged: %s", error)

    async def _fetch(
        self, file_id: str, unique_id: str, suffix: str, most: int = MOST_PHOTO_MB * 1_000_000
    ) -> str | None:
        """Download a file of so many bytes; return its path, or None where that failed."""
        path = self._pictures / f"{PLATFORM}-{re.sub(r'[^A-Za-z0-9_-]', '', unique_id)}{suffix}"
        try:
            file = await self._bot.get_file(file_id)
            if (file.file_size or 0) > most:
                return None
            content = bytes(await file.download_as_bytearray())
        except TelegramError as error:
            log.warning("a file could not be fetched: %s", error)
            return None
        if not 0 < len(content) <= most:
            return None
        await self._off_loop(_keep, path, content)
        return str(path)

    def _turn(self, key: str, user: User, message: MaybeInaccessibleMessage, **done: Any) -> Turn:
        chat = message.chat
        return Turn(
            key=key,
            platform=PLATFORM,
            chat=str(chat.id),
            person=str(user.id),
            at=self._clock(),
            person_name=user.full_name,
            chat_title=chat.title or user.full_name,
            message_ref=str(message.message_id) if "tap" in done else None,
            is_group=_is_group(chat),
            # The message of a tapped button is the bot's own: when it was tapped nobody says.
            said_at=None if "tap" in done else message.date,
            language=user.language_code,
            **done,
        )


def used(message: MaybeInaccessibleMessage, action: str) -> InlineKeyboardMarkup | None:
    """Return what stands under a message once a button there has settled what it asked.

    What was chosen, and what only looks something up; None where there is nothing to change.
    """
    if not isinstance(message, Message) or message.reply_markup is None:
        return None
    every = [button for row in message.reply_markup.inline_keyboard for button in row]
    chosen = next((each.text for each in every if each.callback_data == action), None)
    if chosen is None:
        return None
    looks = [
        tuple(
            each
            for each in row
            if isinstance(each.callback_data, str) and not ACTS[act_of(each.callback_data)].changes
        )
        for row in message.reply_markup.inline_keyboard
    ]
    shown = InlineKeyboardButton(f"✓ {chosen}", callback_data=USED)
    return InlineKeyboardMarkup([(shown,), *(row for row in looks if row)])


def is_meant(message: Message, said: str | None, bot_id: int, username: str) -> bool:
    """Tell whether a message is meant for the bot.

    In private everything is; in a group, where the bot may be made to read all, only commands
    (not those of other bots), answers to its messages and messages that name it.
    """
    if not _is_group(message.chat):
        return True
    command = re.match(r"/\w+(?:@(?P<whose>\w+))?", said or "")
    if command is not None:
        return (command["whose"] or username).lower() == username.lower()
    answered = message.reply_to_message
    if answered is not None and answered.from_user is not None:
        return answered.from_user.id == bot_id
    return _mention(username).search(said or "") is not None


def without_mention(said: str, username: str) -> str:
    """Return what was said without the bot's name; a command keeps it."""
    if said.startswith("/"):
        return said
    return _mention(username).sub(" ", said).strip() or said


def _mention(username: str) -> re.Pattern[str]:
    return re.compile(rf"@{re.escape(username)}\b[,:]?", re.IGNORECASE)


def _is_group(chat: Chat) -> bool:
    return chat.type != ChatType.PRIVATE


def _to(message: MaybeInaccessibleMessage, *, is_tap: bool = False) -> To:
    is_group = _is_group(message.chat)
    thread = None
    if isinstance(message, Message) and message.is_topic_message:
        thread = message.message_thread_id
    is_there = not isinstance(message, InaccessibleMessage)
    return To(
        chat=str(message.chat.id),
        thread=thread,
        answers=message.message_id if is_group and not is_tap else None,
        tapped=message.message_id if is_tap and is_there else None,
        said=None if is_tap else message.message_id,
        is_group=is_group,
    )


def _said(key: str, user: User | None, **params: Any) -> Reply:
    """Return words of the platform's own trouble, in the language of whoever wrote."""
    with speaking(language_for(None if user is None else user.language_code)):
        return Reply(say(key, **params))


def _photo(message: Message) -> tuple[str, str, str] | None:
    """Return file id, unique id and suffix of the largest photo that is taken in, if any."""
    sizes: Sequence[Any] = message.photo
    fitting = [size for size in sizes if (size.file_size or 0) <= MOST_PHOTO_MB * 1_000_000]
    if fitting:
        largest = max(fitting, key=lambda size: size.width * size.height)
        return largest.file_id, largest.file_unique_id, ".jpg"
    document = message.document
    if document is not None and _is_picture(document):
        suffix = {"image/png": ".png", "image/jpeg": ".jpg"}.get(document.mime_type or "", ".img")
        return document.file_id, document.file_unique_id, suffix
    return None


def _is_picture(document: Document) -> bool:
    return (document.mime_type or "").startswith("image/")


def _keep(path: Path, content: bytes) -> None:
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    path.touch(0o600)
    path.write_bytes(content)
