"""A stand-in for the chat platform's bot API on loopback.

It keeps chats with their members, messages and buttons, records every call in order, long polls,
confirms updates by offset as the platform does, and refuses what the platform refuses. Trouble is
ordered by method with `fail`, or drawn for each call by a function given to `trouble`.

Limits and refusals are those of the platform's documentation (core.telegram.org/bots/api) as far
as given there; the wording of refusals is from memory.
"""

from __future__ import annotations

import contextlib
import itertools
import json
import re
import socket
import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import timedelta
from email.parser import BytesParser
from email.policy import HTTP
from email.utils import format_datetime, parsedate_to_datetime
from http.client import HTTPConnection, HTTPException
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qsl, urlsplit

from bot.bench.platform import Limits

TOKEN = "4242:AAstandinTokenForTestsOnly_0123456789"
BOT_ID = 4242
USERNAME = "yard_test_bot"

#: Faults that answer without doing anything; what is done all the same is in `MAY_HAVE_ARRIVED`.
FAULTS = ("429", "403", "migrate", "502", "500", "drop", "hang", "lost answer", "garbled")
#: The call was carried out, but whoever called cannot know.
DONE_ANYWAY = frozenset({"hang", "lost answer", "garbled"})


@dataclass(frozen=True)
class Call:
    """One call as it came in, with the fault it met and whether it was carried out."""

    method: str
    params: dict[str, Any]
    fault: str | None = None
    was_done: bool = False
    refusal: str | None = None
    at_s: float = 0.0


@dataclass
class Message:
    """One message as it stands in a chat now."""

    id: int
    chat: int
    text: str
    markup: dict[str, Any] | None = None
    picture: bytes | None = None
    file: bytes | None = None
    thread: int | None = None
    answers: int | None = None
    edits: int = 0

    @property
    def buttons(self) -> dict[str, str]:
        """Actions by label."""
        rows = (self.markup or {}).get("inline_keyboard", [])
        return {button["text"]: button["callback_data"] for row in rows for button in row}


class Refused(Exception):
    """Raised for what the platform refuses: status, description and parameters."""

    def __init__(self, status: int, description: str, **parameters: Any) -> None:
        super().__init__(description)
        self.status = status
        self.description = description
        self.parameters = parameters


@dataclass
class _Order:
    method: str
    fault: str
    times: int
    parameters: dict[str, Any]


@dataclass
class Chat:
    """A chat: its kind, and what has been written into it by the bot."""

    id: int
    kind: str
    messages: list[Message] = field(default_factory=list)
    #: What is sent without a sound, such as what is to be pinned; and what is pinned, by number.
    silent: list[Message] = field(default_factory=list)
    pinned: list[int] = field(default_factory=list)
    may_pin: bool = True
    is_blocked: bool = False
    admins: tuple[int, ...] = ()
    moved_to: int | None = None

    def json(self) -> dict[str, Any]:
        """Return the chat as the platform tells it."""
        if self.kind == "private":
            return {"id": self.id, "type": "private", "first_name": "Ada"}
        return {"id": self.id, "type": self.kind, "title": f"Crew {abs(self.id)}"}


class PlatformStandin:
    """The stand-in as a context manager."""

    def __init__(self, port: int = 0, token: str = TOKEN) -> None:
        self.token = token
        self.calls: list[Call] = []
        self.chats: dict[int, Chat] = {}
        self.commands: dict[str | None, list[dict[str, str]]] = {}
        self.descriptions: dict[str | None, str] = {}
        #: Messages older than two days are deleted no more.
        self.too_old: set[int] = set()
        self.reactions: list[tuple[int, Any]] = []
        self._held: dict[str, bytes] = {}
        self.files: dict[str, bytes] = {}
        self.connections: set[socket.socket] = set()
        self.clock_is_off_s = 0.0
        self.hang_s = 30.0
        #: Each answer takes so long, and with limits the platform's pace is enforced.
        self.latency_s = 0.0
        self.limits: Limits | None = None
        #: Processes that must not end by themselves: what waits for them fails at once if one does.
        self.watched: list[tuple[str, Callable[[], bool]]] = []
        #: What was asked for as a webhook, the ports behind its proxy, and what was brought where.
        self.webhook: dict[str, Any] | None = None
        self.hook_ports: list[int] = []
        self.brought: list[tuple[int, int, int]] = []
        self.trouble: Callable[[str, Mapping[str, Any]], str | None] = lambda method, params: None
        self._port = port
        self._updates: list[dict[str, Any]] = []
        self._all: dict[int, dict[str, Any]] = {}
        self._again: list[dict[str, Any]] = []
        self._update_ids = itertools.count(700_001)
        self._message_ids = itertools.count(101)
        self._query_ids = itertools.count(1)
        self._open_queries: set[str] = set()
        self._orders: list[_Order] = []
        self._lock = threading.RLock()
        self._news = threading.Condition(self._lock)
        self._closing = threading.Event()
        self._poll = 0

    # Its life.

    def __enter__(self) -> PlatformStandin:
        self.open()
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def open(self) -> None:
        """Listen; on the same port again after `close`."""
        standin = self

        class Handler(_Handler):
            service = standin

        class Server(ThreadingHTTPServer):
            daemon_threads = True
            request_queue_size = 128
            allow_reuse_address = True

            def handle_error(self, request: Any, client_address: Any) -> None:
                """Clients that give up are no news here."""

        self._closing = threading.Event()
        self._server = Server(("127.0.0.1", self._port), Handler)
        self._port = self._server.server_address[1]
        self._thread = threading.Thread(
            target=self._server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True
        )
        self._thread.start()

    def close(self) -> None:
        """Stop listening; calls that hang or wait are let go."""
        with self._news:
            self._closing.set()
            self._news.notify_all()
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()
        for connection in list(self.connections):
            with contextlib.suppress(OSError):
                connection.shutdown(socket.SHUT_RDWR)

    @property
    def base_url(self) -> str:
        """Base of the API, as the bot wants it."""
        return f"http://127.0.0.1:{self._port}/bot"

    # What people do.

    def chat(self, chat_id: int, kind: str | None = None) -> Chat:
        """Return a chat, made now if need be: groups have negative ids."""
        with self._lock:
            kind = kind or ("private" if chat_id > 0 else "group")
            return self.chats.setdefault(chat_id, Chat(chat_id, kind))

    def say(self, chat_id: int, text: str, **more: Any) -> int:
        """Say something in a chat; return the update's id."""
        entities = {}
        if text.startswith("/"):
            length = len(text.split()[0])
            entities = {"entities": [{"type": "bot_command", "offset": 0, "length": length}]}
        return self.message(chat_id, text=text, **entities, **more)

    def share_place(self, chat_id: int, lat: float, lon: float, **more: Any) -> int:
        """Share a place; return the update's id."""
        return self.message(chat_id, location={"latitude": lat, "longitude": lon}, **more)

    def message(self, chat_id: int, *, person: int | None = None, **content: Any) -> int:
        """Write any message into a chat; return the update's id."""
        message = self._incoming(chat_id, person, **content)
        return self.update(message=message)

    def edit(self, chat_id: int, **content: Any) -> int:
        """Change an old message; return the update's id."""
        message = self._incoming(chat_id, None, edit_date=int(time.monotonic()) + 1, **content)
        return self.update(edited_message=message)

    def tap(
        self, chat_id: int, action: str, message: Message | None = None, person: int | None = None
    ) -> int:
        """Tap a button with this action; return the update's id."""
        with self._lock:
            chat = self.chat(chat_id)
            shown = message or next(
                (old for old in reversed(chat.messages) if action in old.buttons.values()), None
            )
            query_id = f"query{next(self._query_ids)}"
            self._open_queries.add(query_id)
            under = {
                "message_id": shown.id if shown else next(self._message_ids),
                "date": 1_770_000_000,
                "chat": chat.json(),
                "from": {"id": BOT_ID, "is_bot": True, "first_name": "Yard"},
                "text": shown.text if shown else "gone",
            }
            return self.update(
                callback_query={
                    "id": query_id,
                    "from": _user(person or abs(chat_id)),
                    "chat_instance": "1",
                    "data": action,
                    "message": under,
                }
            )

    def block(self, chat_id: int, *, tells: bool = True) -> None:
        """Block the bot; with ``tells`` the platform tells it so."""
        chat = self.chat(chat_id)
        chat.is_blocked = True
        if tells:
            self._membership(chat, "member", "kicked")

    def unblock(self, chat_id: int) -> None:
        """Let the bot speak again."""
        chat = self.chat(chat_id)
        chat.is_blocked = False
        self._membership(chat, "kicked", "member")

    def move_group(self, chat_id: int, new_id: int, *, tells: bool = False) -> None:
        """Make a group a supergroup under another id."""
        with self._lock:
            chat = self.chat(chat_id)
            self.chat(new_id, "supergroup")
            chat.moved_to = new_id
        if tells:
            self.message(chat_id, migrate_to_chat_id=new_id)

    def update(self, **content: Any) -> int:
        """Queue an update until it is confirmed; return its id."""
        with self._news:
            update_id = next(self._update_ids)
            self._all[update_id] = {"update_id": update_id, **content}
            self._updates.append(self._all[update_id])
            self._news.notify_all()
            return update_id

    def redeliver(self, update_id: int) -> None:
        """Deliver an update once more, confirmed or not."""
        with self._news:
            self._again.append(self._all[update_id])
            self._news.notify_all()

    def unconfirmed(self) -> list[int]:
        """Return ids of updates that are not confirmed yet."""
        with self._lock:
            return [update["update_id"] for update in self._updates]

    def _membership(self, chat: Chat, old: str, new: str) -> None:
        bot = {"id": BOT_ID, "is_bot": True, "first_name": "Yard", "username": USERNAME}
        until = {"until_date": 0}
        self.update(
            my_chat_member={
                "chat": chat.json(),
                "from": _user(abs(chat.id)),
                "date": 1_770_000_000,
                "old_chat_member": {"user": bot, "status": old, **until},
                "new_chat_member": {"user": bot, "status": new, **until},
            }
        )

    def _incoming(self, chat_id: int, person: int | None, **content: Any) -> dict[str, Any]:
        return {
            "message_id": next(self._message_ids),
            "date": 1_770_000_000,
            "chat": self.chat(chat_id).json(),
            "from": _user(person or abs(chat_id)),
            **content,
        }

    # What is asked of it by tests.

    def fail(self, method: str, fault: str, times: int = 1, **parameters: Any) -> None:
        """Order trouble for the next calls of a method (``*`` is any)."""
        assert fault in FAULTS
        with self._lock:
            self._orders.append(_Order(method, fault, times, parameters))

    def calls_of(self, *methods: str) -> list[Call]:
        """Return the calls of some methods so far, in order."""
        with self._lock:
            return [call for call in self.calls if call.method in methods]

    def messages(self, chat_id: int) -> list[Message]:
        """Return what stands in a chat."""
        with self._lock:
            return list(self.chat(chat_id).messages)

    def wait_for(self, what: Callable[[], Any], seconds: float = 60.0, why: str = "") -> Any:
        """Return what comes true, or fail after a while."""
        deadline = time.monotonic() + seconds
        while True:
            found = what()
            if found:
                return found
            broken = [name for name, is_well in self.watched if not is_well()]
            if broken or time.monotonic() > deadline:
                recent = [(c.method, c.fault, c.refusal) for c in self.calls[-12:]]
                raise AssertionError(
                    f"waited {seconds} s in vain {why}; ended: {broken}; last calls: {recent}"
                )
            time.sleep(0.01)

    def next_message(
        self, chat_id: int, words: str, after: int = 0, seconds: float = 60.0
    ) -> Message:
        """Return the first message with these words from the ``after``-th on, once it is there."""

        def found() -> Message | None:
            for message in self.messages(chat_id)[after:]:
                if words in message.text:
                    return message
            return None

        return self.wait_for(found, seconds, f"for {words!r} in chat {chat_id}")

    # What it does.

    def draw(self, method: str, params: Mapping[str, Any]) -> tuple[str | None, dict[str, Any]]:
        """Return the fault a call meets, with its parameters."""
        with self._lock:
            for order in self._orders:
                if order.method in (method, "*"):
                    order.times -= 1
                    if order.times <= 0:
                        self._orders.remove(order)
                    return order.fault, order.parameters
            return self.trouble(method, params), {}

    def pace(self, method: str, params: Mapping[str, Any]) -> tuple[str, dict[str, Any]] | None:
        """Return the refusal of a call that comes too soon, if it does; take the time it takes."""
        if method != "getUpdates":
            time.sleep(self.latency_s)
        if self.limits is None or "chat_id" not in params:
            return None
        with self._lock:
            wait_s = self.limits.wait_s(str(params["chat_id"]), time.monotonic())
        return None if wait_s is None else ("429", {"retry_after": wait_s})

    def record(self, call: Call) -> None:
        """Keep a call."""
        with self._lock:
            self.calls.append(call)

    def do(self, method: str, params: dict[str, Any]) -> Any:
        """Carry a call out, or refuse it."""
        doing = getattr(self, f"_do_{_snake(method)}", None)
        if doing is None:
            raise Refused(404, "Not Found")
        return doing(params)

    def _do_get_me(self, _params: dict[str, Any]) -> Any:
        return {
            "id": BOT_ID,
            "is_bot": True,
            "first_name": "Yard",
            "username": USERNAME,
            "can_join_groups": True,
            "can_read_all_group_messages": False,
            "supports_inline_queries": False,
        }

    def _do_set_webhook(self, params: dict[str, Any]) -> Any:
        if not params["url"].startswith("https://"):
            raise Refused(400, "Bad Request: bad webhook: An HTTPS URL must be provided")
        if not re.fullmatch(r"[A-Za-z0-9_-]{1,256}", params.get("secret_token", "x")):
            raise Refused(400, "Bad Request: secret token contains unallowed characters")
        with self._news:
            begins = self.webhook is None
            self.webhook = params
            self._poll += 1
            self._news.notify_all()
        if begins:
            threading.Thread(target=self._bring, daemon=True).start()
        return True

    def _bring(self) -> None:
        """Bring updates to the ports behind the proxy, in turn, again until each is taken."""
        ports = itertools.count()
        while not self._closing.is_set() and self.webhook is not None:
            with self._news:
                update = self._updates[0] if self._updates and self.hook_ports else None
            if update is None:
                time.sleep(0.02)
                continue
            port = self.hook_ports[next(ports) % len(self.hook_ports)]
            headers = {"X-Telegram-Bot-Api-Secret-Token": self.webhook.get("secret_token", "")}
            path = urlsplit(self.webhook["url"]).path
            status = 0
            with contextlib.suppress(OSError, HTTPException):
                line = HTTPConnection("127.0.0.1", port, timeout=30)
                line.request("POST", path, json.dumps(update), headers)
                status = line.getresponse().status
                line.close()
            self.brought.append((update["update_id"], port, status))
            if status == 200:
                with self._lock:
                    self._updates.remove(update)
            else:
                time.sleep(0.1)

    def _do_delete_webhook(self, params: dict[str, Any]) -> Any:
        self.webhook = None
        if _true(params.get("drop_pending_updates")):
            with self._lock:
                self._updates.clear()
        return True

    def _do_get_webhook_info(self, _params: dict[str, Any]) -> Any:
        hook, failed = self.webhook, [each for each in self.brought if each[2] != 200]
        told: dict[str, Any] = {
            "url": "" if hook is None else hook["url"],
            "has_custom_certificate": False,
            "pending_update_count": len(self._updates),
        }
        if failed:
            trouble = f"Wrong response from the webhook: {failed[-1][2]}"
            told |= {"last_error_date": 1_780_000_000, "last_error_message": trouble}
        return told

    def _do_get_updates(self, params: dict[str, Any]) -> Any:
        offset, limit = int(params.get("offset", 0)), int(params.get("limit", 100))
        if self.webhook is not None:
            raise Refused(
                409,
                "Conflict: can't use getUpdates method while webhook is active; use "
                "deleteWebhook to delete the webhook first",
            )
        deadline = time.monotonic() + float(params.get("timeout", 0))
        wanted = params.get("allowed_updates")
        with self._news:
            # A newer poll ends an older one.
            self._poll += 1
            mine = self._poll
            self._news.notify_all()
            if offset:
                self._updates = [u for u in self._updates if u["update_id"] >= offset]
            while not (self._updates or self._again or self._closing.is_set()):
                left = deadline - time.monotonic()
                if left <= 0 or mine != self._poll:
                    break
                self._news.wait(left)
            if mine != self._poll:
                raise Refused(
                    409,
                    "Conflict: terminated by other getUpdates request; make sure that only one "
                    "bot instance is running",
                )
            due = {update["update_id"]: update for update in (*self._again, *self._updates)}
            self._again.clear()
            return [
                update
                for _, update in sorted(due.items())[:limit]
                if wanted is None or any(kind in update for kind in wanted)
            ]

    def _do_get_chat_administrators(self, params: dict[str, Any]) -> Any:
        admins = self._reachable(params).admins
        return [
            {"user": _user(each), "status": "creator", "is_anonymous": False} for each in admins
        ]

    def _do_set_my_commands(self, params: dict[str, Any]) -> Any:
        commands = params["commands"]
        if len(commands) > 100:
            raise Refused(400, "Bad Request: BOT_COMMANDS_TOO_MUCH")
        for command in commands:
            if not re.fullmatch(r"[a-z0-9_]{1,32}", command["command"]):
                raise Refused(400, "Bad Request: BOT_COMMAND_INVALID")
            if not 1 <= len(command["description"]) <= 256:
                raise Refused(400, "Bad Request: BOT_COMMAND_DESCRIPTION_INVALID")
        self.commands[params.get("language_code")] = commands
        return True

    def _do_set_my_description(self, params: dict[str, Any]) -> Any:
        if len(params["description"]) > 512:
            raise Refused(400, "Bad Request: BOT_DESCRIPTION_TOO_LONG")
        self.descriptions[params.get("language_code")] = params["description"]
        return True

    def _do_set_my_short_description(self, params: dict[str, Any]) -> Any:
        if len(params["short_description"]) > 120:
            raise Refused(400, "Bad Request: BOT_SHORT_DESCRIPTION_TOO_LONG")
        return True

    def _do_answer_callback_query(self, params: dict[str, Any]) -> Any:
        with self._lock:
            if params["callback_query_id"] not in self._open_queries:
                raise Refused(
                    400,
                    "Bad Request: query is too old and response timeout expired or query ID is "
                    "invalid",
                )
            if len(params.get("text", "")) > 200:
                raise Refused(400, "Bad Request: MESSAGE_TOO_LONG")
            self._open_queries.remove(params["callback_query_id"])
        return True

    def _do_send_message(self, params: dict[str, Any]) -> Any:
        _check_text(params.get("text", ""), 4096, "message is too long")
        if not params.get("text", "").strip():
            raise Refused(400, "Bad Request: message text is empty")
        return self._put(params, text=params["text"])

    def _do_send_photo(self, params: dict[str, Any]) -> Any:
        _check_text(params.get("caption", ""), 1024, "message caption is too long")
        photo = params.get("photo")
        if isinstance(photo, str):
            # A picture it holds already, by the name it gave it.
            photo = self._held.get(photo)
            if photo is None:
                raise Refused(400, "Bad Request: wrong remote file identifier specified")
        if not isinstance(photo, bytes) or not photo:
            raise Refused(400, "Bad Request: there is no photo in the request")
        if len(photo) > 10_000_000:
            raise Refused(400, "Bad Request: PHOTO_INVALID_DIMENSIONS")
        return self._put(params, text=params.get("caption", ""), picture=photo)

    def _do_send_document(self, params: dict[str, Any]) -> Any:
        _check_text(params.get("caption", ""), 1024, "message caption is too long")
        document = params.get("document")
        if not isinstance(document, bytes) or not document:
            raise Refused(400, "Bad Request: there is no document in the request")
        return self._put(params, text=params.get("caption", ""), file=document)

    def _do_edit_message_text(self, params: dict[str, Any]) -> Any:
        _check_text(params.get("text", ""), 4096, "message is too long")
        _check_markup(params.get("reply_markup"), only_inline=True)
        with self._lock:
            message = self._shown(params)
            if message.picture is not None:
                raise Refused(400, "Bad Request: there is no text in the message to edit")
            if (message.text, message.markup) == (params["text"], params.get("reply_markup")):
                raise Refused(
                    400,
                    "Bad Request: message is not modified: specified new message content and "
                    "reply markup are exactly the same as a current content and reply markup of "
                    "the message",
                )
            message.text = params["text"]
            message.markup = params.get("reply_markup")
            message.edits += 1
            return self._told(message)

    def _do_edit_message_reply_markup(self, params: dict[str, Any]) -> Any:
        _check_markup(params.get("reply_markup"), only_inline=True)
        with self._lock:
            message = self._shown(params)
            if message.markup == params.get("reply_markup"):
                raise Refused(400, "Bad Request: message is not modified")
            message.markup = params.get("reply_markup")
            message.edits += 1
            return self._told(message)

    def _do_pin_chat_message(self, params: dict[str, Any]) -> Any:
        chat = self._reachable(params)
        if not chat.may_pin:
            raise Refused(400, "Bad Request: not enough rights to pin a message")
        chat.pinned.append(self._shown(params).id)
        return True

    def _do_unpin_chat_message(self, params: dict[str, Any]) -> Any:
        self._reachable(params).pinned.remove(int(params["message_id"]))
        return True

    def _do_delete_message(self, params: dict[str, Any]) -> Any:
        chat, message = self._reachable(params), self._shown(params)
        if message.id in self.too_old:
            raise Refused(400, "Bad Request: message can't be deleted for everyone")
        chat.silent = [each for each in chat.silent if each is not message]
        chat.pinned = [each for each in chat.pinned if each != message.id]
        return True

    def _do_send_chat_action(self, params: dict[str, Any]) -> Any:
        if params["action"] not in ("typing", "upload_photo"):
            raise Refused(400, "Bad Request: wrong parameter action in request")
        return self._reachable(params) is not None

    def _do_set_message_reaction(self, params: dict[str, Any]) -> Any:
        self._reachable(params)
        self.reactions.append((params["message_id"], params["reaction"]))
        return True

    def _do_get_file(self, params: dict[str, Any]) -> Any:
        content = self.files.get(params["file_id"])
        if content is None:
            raise Refused(400, "Bad Request: wrong file_id or the file is temporarily unavailable")
        if len(content) > 20_000_000:
            raise Refused(400, "Bad Request: file is too big")
        return {
            "file_id": params["file_id"],
            "file_unique_id": f"u{params['file_id']}",
            "file_size": len(content),
            "file_path": f"photos/{params['file_id']}.jpg",
        }

    def _reachable(self, params: dict[str, Any]) -> Chat:
        chat = self.chats.get(int(params["chat_id"]))
        if chat is None:
            raise Refused(400, "Bad Request: chat not found")
        if chat.is_blocked:
            kind = "user" if chat.kind == "private" else f"kicked from the {chat.kind} chat"
            if chat.kind == "private":
                raise Refused(403, f"Forbidden: bot was blocked by the {kind}")
            raise Refused(403, f"Forbidden: bot was {kind}")
        if chat.moved_to is not None:
            raise Refused(
                400,
                "Bad Request: group chat was upgraded to a supergroup chat",
                migrate_to_chat_id=chat.moved_to,
            )
        return chat

    def _shown(self, params: dict[str, Any]) -> Message:
        chat = self._reachable(params)
        for message in (*chat.messages, *chat.silent):
            if message.id == int(params["message_id"]):
                return message
        raise Refused(400, "Bad Request: message to edit not found")

    def _put(self, params: dict[str, Any], **content: Any) -> Any:
        _check_markup(params.get("reply_markup"))
        with self._lock:
            chat = self._reachable(params)
            markup = params.get("reply_markup") or {}
            buttons = [button for row in markup.get("keyboard", []) for button in row]
            if chat.kind != "private" and any("request_location" in b for b in buttons):
                raise Refused(400, "Bad Request: location can be requested in private chats only")
            thread = params.get("message_thread_id")
            message = Message(
                id=next(self._message_ids),
                chat=chat.id,
                markup=params.get("reply_markup"),
                thread=None if thread is None else int(thread),
                answers=(params.get("reply_parameters") or {}).get("message_id"),
                **content,
            )
            is_silent = _true(params.get("disable_notification"))
            (chat.silent if is_silent else chat.messages).append(message)
            return self._told(message)

    def _told(self, message: Message) -> dict[str, Any]:
        sizes = []
        if message.picture is not None:
            name = f"held{message.id}"
            self._held[name] = message.picture
            sizes = [{"file_id": name, "file_unique_id": name, "width": 9, "height": 9}]
        return {
            "photo": sizes,
            "message_id": message.id,
            "date": 1_770_000_000,
            "chat": self.chats[message.chat].json(),
            "from": {"id": BOT_ID, "is_bot": True, "first_name": "Yard"},
            "text": message.text,
        }

    def wait_closing(self, seconds: float) -> None:
        """Wait, but not beyond the end."""
        self._closing.wait(seconds)


def _user(number: int) -> dict[str, Any]:
    return {"id": number, "is_bot": False, "first_name": f"Ada {number}"}


def _snake(method: str) -> str:
    return re.sub(r"(?<!^)(?=[A-Z])", "_", method).lower()


def _true(value: Any) -> bool:
    return value in (True, "true", "True", "1", 1)


def _check_text(text: str, longest: int, refusal: str) -> None:
    if len(text.encode("utf-16-le")) // 2 > longest:
        raise Refused(400, f"Bad Request: {refusal}")


def _check_markup(markup: dict[str, Any] | None, *, only_inline: bool = False) -> None:
    if markup is None:
        return
    if only_inline and "inline_keyboard" not in markup:
        raise Refused(400, "Bad Request: inline keyboard expected")
    rows = markup.get("inline_keyboard", [])
    if sum(len(row) for row in rows) > 100 or any(len(row) > 8 for row in rows):
        raise Refused(400, "Bad Request: reply markup is too long")
    for button in (button for row in rows for button in row):
        if not button["text"]:
            raise Refused(400, "Bad Request: text buttons are unallowed in the inline keyboard")
        if not 1 <= len(button["callback_data"].encode()) <= 64:
            raise Refused(400, "Bad Request: BUTTON_DATA_INVALID")


class _Handler(BaseHTTPRequestHandler):
    service: PlatformStandin
    protocol_version = "HTTP/1.1"
    # Written in one go: small writes with Nagle's algorithm would cost 40 ms each.
    wbufsize = -1

    def setup(self) -> None:
        self.request.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, True)
        super().setup()
        self.service.connections.add(self.connection)

    def finish(self) -> None:
        self.service.connections.discard(self.connection)
        super().finish()

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing."""

    def date_time_string(self, timestamp: float | None = None) -> str:
        told = parsedate_to_datetime(super().date_time_string(timestamp))
        told += timedelta(seconds=self.service.clock_is_off_s)
        return format_datetime(told, usegmt=True)

    def do_HEAD(self) -> None:
        self._write(302, b"")

    def do_GET(self) -> None:
        path = urlsplit(self.path).path
        if path.startswith("/file/bot"):
            name = path.rsplit("/", 1)[1].removesuffix(".jpg")
            fault, _ = self.service.draw("download", {})
            if fault is not None:
                self._write(502, b"<html>Bad Gateway</html>")
            else:
                self._write(200, self.service.files[name])
            return
        self._serve(dict(parse_qsl(urlsplit(self.path).query)))

    def do_POST(self) -> None:
        body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
        self._serve(_params(self.headers.get("Content-Type", ""), body))

    def _serve(self, params: dict[str, Any]) -> None:
        service = self.service
        found = re.fullmatch(r"/bot(?P<token>[^/]+)/(?P<method>\w+)", urlsplit(self.path).path)
        if found is None or found["token"] != service.token:
            self._answer_refused(Refused(401, "Unauthorized"))
            return
        method = found["method"]
        fault, parameters = service.pace(method, params) or service.draw(method, params)
        result: Any = None
        refused: Refused | None = None
        if fault is None or fault in DONE_ANYWAY:
            try:
                result = service.do(method, params)
            except Refused as problem:
                refused = problem
        service.record(
            Call(
                method,
                params,
                fault,
                was_done=refused is None and (fault is None or fault in DONE_ANYWAY),
                refusal=None if refused is None else refused.description,
                at_s=time.monotonic(),
            )
        )
        with contextlib.suppress(ConnectionError):
            self._respond(fault, parameters, result, refused)

    def _respond(
        self, fault: str | None, parameters: dict[str, Any], result: Any, refused: Refused | None
    ) -> None:
        match fault:
            case "429":
                wait = parameters.get("retry_after", 1)
                words = f"Too Many Requests: retry after {wait}"
                self._answer_refused(Refused(429, words, retry_after=wait))
            case "403":
                words = parameters.get("words", "Forbidden: bot was blocked by the user")
                self._answer_refused(Refused(403, words))
            case "migrate":
                words = "Bad Request: group chat was upgraded to a supergroup chat"
                self._answer_refused(Refused(400, words, **parameters))
            case "502":
                self._write(502, b"<html><h1>502 Bad Gateway</h1></html>", "text/html")
            case "500":
                self._answer_refused(Refused(500, "Internal Server Error"))
            case "drop" | "lost answer":
                self._hang_up()
            case "hang":
                self.service.wait_closing(self.service.hang_s)
                self._hang_up()
            case "garbled":
                self._write(200, b'{"ok": true, "result": {"mess')
            case _ if refused is not None:
                self._answer_refused(refused)
            case _:
                self._write(200, json.dumps({"ok": True, "result": result}).encode())

    def _hang_up(self) -> None:
        self.close_connection = True
        self.connection.shutdown(socket.SHUT_RDWR)

    def _answer_refused(self, refused: Refused) -> None:
        told: dict[str, Any] = {
            "ok": False,
            "error_code": refused.status,
            "description": refused.description,
        }
        if refused.parameters:
            told["parameters"] = refused.parameters
        self._write(refused.status, json.dumps(told).encode())

    def _write(self, status: int, body: bytes, kind: str = "application/json") -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)
        self.wfile.flush()


def _params(kind: str, body: bytes) -> dict[str, Any]:
    """Return a call's parameters: JSON in a form, files as bytes."""
    if kind.startswith("multipart/form-data"):
        head = f"Content-Type: {kind}\r\n\r\n".encode()
        parsed = BytesParser(policy=HTTP).parsebytes(head + body)
        raw: dict[str, Any] = {}
        for part in parsed.iter_parts():
            name = str(part.get_param("name", header="content-disposition"))
            content = part.get_payload(decode=True)
            raw[name] = content if part.get_filename() else content.decode()
        # Files are named by an address of another part of the form.
        for name, value in raw.items():
            if isinstance(value, str) and value.startswith("attach://"):
                raw[name] = raw[value.removeprefix("attach://")]
    else:
        raw = dict(parse_qsl(body.decode(), keep_blank_values=True))
    return {name: _value(name, value) for name, value in raw.items()}


_STRUCTURED = ("reply_markup", "reply_parameters", "allowed_updates", "commands", "link_preview")


def _value(name: str, value: Any) -> Any:
    is_structured = isinstance(value, str) and name.startswith(_STRUCTURED)
    return json.loads(value) if is_structured else value
