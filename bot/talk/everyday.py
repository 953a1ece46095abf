"""Everyday questions in people's own words: each answered by the command whose subject it is."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.readers.lexing import plain
from bot.saying.figures import say_depth
from bot.talk import applying, labelling, yards
from bot.talk.commands import command
from bot.talk.naming import find_zones
from bot.talk.talk import Talk
from bot.turn import Reply
from jobs.labels import product_of
from jobs.weather_of_day import water_terms
from storage import products
from storage import yards as yard_rows
from storage.yards import YardRecord

_I: Final = r"(?:i|we|you)"
_PRODUCT: Final = (
    r"(?:it|(?:(?:the|my|our|some|any|a)\s)?(?:pre\s?emergents?|pre\s?em|pre\s?m|product"
    r"|crabgrass\s(?:preventer|preventor|control)|weed\spreventer"
    r"|first\s(?:half|app|application|round|one)))"
)
_LAWN: Final = r"(?:(?:the|my|our|this)\s)?(?:lawn|yard|grass|it)"
_THIS_YEAR: Final = r"(?:\s(?:now|already|yet|here|this\s(?:year|spring|season)))*"
_PUT: Final = r"(?:put|apply|spread|spray|throw|lay|do|drop|use|treat)"

#: Questions whose answer is a command, by that command; written without marks and apostrophes.
_COMMANDS: Final = tuple(
    (re.compile(pattern), word)
    for word, patterns in {
        "soil": (
            (
                r"(?:(?:and|so|hey)\s)?"
                r"(?:(?:whats|what\sis|hows|how\sis|how\s(?:warm|cold|hot)\sis|check|show(?:\sme)?)\s)?"
                r"(?:(?:the|my|our|todays|current)\s)*"
                r"(?:soil(?:\stemps?|\stemperatures?)?|ground\stemp(?:erature)?)"
                r"(?:\s(?:at|now|right|today|like|doing|looking|currently|here|this\smorning))*"
            ),
            (
                rf"(?:so\s)?when\s(?:(?:should|do|can|must|shall|would)\s{_I}|to"
                rf"|is\s(?:it|the\s(?:best\s|right\s)?)\s?time\sto)\s{_PUT}(?:\s{_PRODUCT})?"
                rf"(?:\s(?:down|out|on))?(?:\s{_PRODUCT})?(?:\son\s{_LAWN})?{_THIS_YEAR}"
            ),
        ),
        "yard": (
            (
                rf"(?:is\sit|isnt\sit|am\si|are\swe)\s(?:already\s)?(?:too\s)(?:late|early|soon){_THIS_YEAR}"
                rf"(?:\s(?:to\s{_PUT}(?:\s{_PRODUCT})?(?:\sdown)?(?:\s{_PRODUCT})?|for\s{_PRODUCT}))?"
                rf"{_THIS_YEAR}"
            ),
            rf"(?:did|have|do)\s{_I}\smiss(?:ed)?\s(?:it|(?:the|my)\swindow){_THIS_YEAR}",
            (
                rf"(?:when(?:s|\sis|\sdoes|\swill|\s(?:do|should|can|must)\s{_I})?|is)\s"
                rf"(?:{_PUT}\s)?(?:down\s)?(?:(?:the|my|our|a)\s)?(?:second|2nd|next|other|follow\s?up)\s"
                r"(?:app|apps|application|half|round|treatment|dose|one|pre\s?emergent)"
                r"(?:\s(?:due|come|be|needed|happen|go|down|again))*"
            ),
        ),
    }.items()
    for pattern in patterns
)
_AMOUNT: Final = re.compile(
    rf"how\smuch(?:\s(?:product|pre\s?emergent|stuff|granules?|of\sit|goes|is\sneeded"
    rf"|(?:do|should|must)\s{_I}\s(?:need|use|put|apply|spread)(?:\sdown)?))*"
    r"\s(?:for|on|in|to)\s(?P<where>.+)"
)
_WATER: Final = re.compile(
    rf"when\s(?:(?:should|do|can|must|shall)\s{_I}|to)\s(?:have\sto\s)?(?:water|irrigate)"
    rf"(?:\s(?:{_LAWN}|{_PRODUCT}))?(?:\sin)?(?:\s(?:now|again|after\b.*))?"
)
_MOW: Final = re.compile(
    r"(?:(?:when|how\ssoon|how\slong\s(?:until|before|till)|is\sit\sok(?:ay)?|ok|so|and)\s)*"
    rf"(?:can|may|should|do|could|must|to)\s(?:{_I}\s)?(?:(?:still|now|already|just)\s)*"
    rf"(?:mow(?:\s{_LAWN})?|cut\s(?:(?:the|my|our)\s)?(?:lawn|grass))"
    r"(?:\s(?:now|today|tomorrow|yet|again|first))*(?:\s(?:after|before|when|once|if)\b.*)?"
)
_AERATED: Final = re.compile(
    r"(?:can|may|should|do|does|did|will|would|is|when|how)\b.*\baerat\w+.*"
    r"|.*\baerat\w+\b.*\b(?:did\s\w+|does\s\w+|break|broken?|barrier|ruin\w*|undo|wreck\w*)\b.*"
    r"|.*\bbarrier\b.*\baerat\w+.*"
)


def take(talk: Talk, text: str) -> list[Reply] | None:
    """Answer an everyday question; None for other texts, and for what reports something done."""
    if applying.is_report(text) or applying.is_watering(text):
        return None
    said = _bare(text)
    for pattern, word in _COMMANDS:
        if pattern.fullmatch(said):
            return command(talk, word, "")
    yard = talk.yard()
    if yard is None:
        return None
    amount = _AMOUNT.fullmatch(said)
    if amount is not None and _is_of_yard(talk, yard, amount["where"]):
        return command(talk, "amounts", "")
    if _WATER.fullmatch(said):
        return _when_to_water(talk, yard)
    if _MOW.fullmatch(said):
        return [talk.reply("everyday.mow")]
    if _AERATED.fullmatch(said) and "seed" not in said:
        return [talk.reply("everyday.aerate")]
    return None


def _when_to_water(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer with what waits for water; where nothing does, with what will be wanted."""
    waiting = yards.water_lines(talk, yard)
    if waiting:
        return [talk.reply("everyday.water_now", yard=yard.name, waiting=waiting[0])]
    if yard.product_id is not None:
        names = labelling.foliar_names(product_of(products.product(talk.work, yard.product_id)))
        if names:
            return [talk.reply("labels.foliar", names=names)]
    terms = water_terms(talk.work, yard)
    depth = say_depth(terms.depth_mm / 1000, talk.unit_system)
    text = talk.say("everyday.water", yard=yard.name, depth=depth, days=terms.within_days)
    if yard.is_water_banned:
        text += f"\n{talk.say('watering.banned')}"
    return [Reply(text)]


def _is_of_yard(talk: Talk, yard: YardRecord, where: str) -> bool:
    """Tell whether an amount is asked for a yard or for zones of it, and for nothing else."""
    if re.fullmatch(_LAWN, where):
        return True
    found, leftover = find_zones(yard_rows.zones(talk.work, yard.id), where)
    return bool(found) and not leftover


def _bare(text: str) -> str:
    said = plain(text).text.casefold().replace("'", "")
    return " ".join(re.sub(r"[?.!,-]", " ", said).split())
