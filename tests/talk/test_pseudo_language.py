"""A season in a language made up on the fly: whatever is not from the catalogue shows.

Every vowel of every message is accented. A word without an accent, of what people are told, was
put there by code: a name that was given, a date by CLDR, or words glued on.
"""

import re
import shutil
from pathlib import Path

import pytest
from fluent.syntax import FluentParser, FluentSerializer, ast
from fluent.syntax.visitor import Transformer

from bot.saying import catalogue
from bot.talk.commands import COMMANDS_BY_WORD
from bot.terminal import Said
from tests.talk.harness import PLACE, PRODUCT, ZONES, Talker

ACCENTS = str.maketrans("aeiouAEIOU", "áéíóúÁÉÍÓÚ")
#: Given by the person or a table of names, or written by CLDR.
GIVEN = {
    *COMMANDS_BY_WORD,
    *("yard", "front", "strip", "back", "south", "bed", "prodiamine", "america", "chicago"),
    *("ene", "feb", "abr", "may", "jun", "jul", "ago", "oct", "nov", "dic", "sept", "mar"),
    *("lawn", "pool", "kansas", "state", "extension", "newsletters", "sep", "semanas"),
    *("lun", "jue", "vie", "dom", "día", "días", "a", "y", "manhattan"),
}
#: Written by code as yet: what a size is read as ("minus").
WRITTEN_BY_CODE = {"minus"}


class Accented(Transformer):
    def visit_TextElement(self, node: ast.TextElement) -> ast.TextElement:  # noqa: N802
        node.value = node.value.translate(ACCENTS)
        return node


@pytest.fixture
def pseudo(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Put the accented English where the Spanish catalogue was."""
    folder = tmp_path / "catalogues"
    shutil.copytree(catalogue.FOLDER / "en", folder / "en")
    (folder / "es").mkdir()
    for file in (folder / "en").glob("*.ftl"):
        text = file.read_text(encoding="utf-8")
        if file.stem != "saying":
            resource = Accented().visit(FluentParser().parse(text))
            text = FluentSerializer().serialize(resource)
        (folder / "es" / file.name).write_text(text, encoding="utf-8")
    monkeypatch.setattr(catalogue, "FOLDER", folder)
    catalogue.forget()
    yield
    monkeypatch.undo()
    catalogue.forget()


def words_put_there(said: list[Said]) -> set[str]:
    shown = [message.reply.text for message in said if message.reply.file is None]
    shown += [button.label for message in said for row in message.reply.buttons for button in row]
    near = {"today", "yesterday", "tomorrow", "about", "on"}
    words = {word.lower() for text in shown for word in re.findall(r"[^\W\d_]{2,}", text)}
    has_vowel = re.compile("[aeiou]")
    has_accent = re.compile("[áéíóú]")
    return {
        word
        for word in words - GIVEN - WRITTEN_BY_CODE - near
        if has_vowel.search(word) and not has_accent.search(word)
    }


def test_a_season_says_nothing_that_is_not_in_the_catalogue(talker: Talker, pseudo: None) -> None:
    talker.say("/start")
    talker.say("/language es")
    said = talker.session.location(*PLACE)
    for line in (ZONES, PRODUCT, "/yard", "/soil", "/amounts", "/day", "/today", "why", "weeds"):
        said += talker.say(line)
    said += talker.wait("P45D")
    for line in ("applied today", "watered 0.3 in", "/seed", "records", "/undo", "/help"):
        said += talker.say(line)
    said += talker.wait("P60D")
    said += talker.say("/yard")
    found = words_put_there(said)
    assert not found, " ".join(sorted(found))
