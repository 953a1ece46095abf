"""Long answers in pages: the first is sent, and a button brings the next from what is kept."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bot.saying.catalogue import say
from bot.turn import Button, Reply
from storage import chats
from storage.chats import ChatRecord
from storage.database import Work

#: Longest page in characters; two units each at most, so that it is one message on the platform
#: unless it is made of emoji.
A_PAGE: Final = 3800
#: Most lines of a page, empty ones not counted.
LINES: Final = 12
_LINE: Final = re.compile(r".+")
_ACTION: Final = re.compile(r"more:([0-9]{1,9}):([0-9]{1,3}):([0-9]{1,4})")


def first_pages(turn_id: int, replies: Sequence[Reply]) -> list[Reply]:
    """Return a turn's replies as they are shown: of a long one its first page."""
    return [_page(turn_id, number, reply, 0) for number, reply in enumerate(replies)]


def next_page(work: Work, chat: ChatRecord, action: str) -> Reply | None:
    """Return the page a button asks for; None where it is none of ours, or no longer kept."""
    asked = _ACTION.fullmatch(action)
    if asked is None:
        return None
    turn_id, number, page = (int(each) for each in asked.groups())
    replies = chats.replies_of_turn(work, chat.id, turn_id)
    if number >= len(replies):
        return None
    reply = replace(Reply.from_json(replies[number]), picture=None, drawing=None, file=None)
    if not 0 < page < len(pages_of(reply.text)):
        return None
    return replace(_page(turn_id, number, reply, page), replaces=False)


def is_one_page(text: str) -> bool:
    """Tell whether a text is shown whole at once."""
    return _end_of_page(text) == len(text)


def pages_of(text: str) -> list[str]:
    """Return a text in pages, parted at line ends, else at spaces, else anywhere."""
    pages = []
    while (end := _end_of_page(text)) < len(text):
        pages.append(text[:end].rstrip())
        text = text[end:].lstrip()
    return [*pages, text]


def _end_of_page(text: str) -> int:
    """Return where the first page of a text ends: by its lines, shared out, else by its length."""
    ends = [found.end() for found in _LINE.finditer(text)]
    pages = -(-len(ends) // LINES)
    if pages > 1:
        end = ends[-(-len(ends) // pages) - 1]
        if end <= A_PAGE:
            return end
    if len(text) <= A_PAGE:
        return len(text)
    return max(text.rfind("\n", 0, A_PAGE), 0) or max(text.rfind(" ", 0, A_PAGE), 0) or A_PAGE


def _page(turn_id: int, number: int, reply: Reply, page: int) -> Reply:
    pages = pages_of(reply.text)
    if len(pages) == 1:
        return reply
    buttons = reply.buttons
    if page + 1 < len(pages):
        label = say("help.button_more", page=page + 1, pages=len(pages))
        buttons = (*buttons, (Button(label, f"more:{turn_id}:{number}:{page + 1}"),))
    return replace(reply, text=pages[page], buttons=buttons)
