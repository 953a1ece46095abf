"""One season, talked through from the first word to the files of the record, in a language."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bot.terminal import Said
from tests.talk.harness import PLACE, Talker

#: What a person says before the soil warms, when the window is open, and after.
LINES: Final[Mapping[str, tuple[tuple[str, ...], ...]]] = {
    "en": (
        (
            "front 60x40 ft, strip 5 by 80 ft, back 30x40 ft",
            "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 sq ft a year",
            "everything is tall fescue",
            "my scale shows 0.1 lb",
            "bags 25 lb $38, 40 lb $55",
            "is it time yet?",
            "when can I seed the strip?",
            "quiet 21 to 7",
        ),
        ("how much for the front?", "which day is good?", "can I mow today?", "applied"),
        ("watered 0.3 in", "watered 0.3 in", "how long does it hold?", "license 12345"),
    ),
    "es": (
        (
            "frente 60x40 ft, franja 5 por 80 ft, atrás 30x40 ft",
            "prodiamina 0.38% granulado, 3.2 lb por 1000 sq ft, máximo 6.4 lb por 1000 al año",
            "todo es festuca alta",
            "mi báscula marca 0.1 lb",
            "bolsas 25 lb $38, 40 lb $55",
            "¿ya es hora?",
            "¿cuándo puedo sembrar la franja?",
            "silencio de 21 a 7",
        ),
        ("¿cuánto para el frente?", "¿qué día es bueno?", "¿puedo cortar hoy?", "apliqué"),
        ("regué 0.3 in", "regué 0.3 in", "¿cuánto dura?", "licencia 12345"),
    ),
}
_LOOKS: Final = ("/yard", "/zones", "/soil", "/amounts", "/day", "/today", "/buy", "/spreader")


@dataclass(frozen=True)
class Season:
    """What was answered, what was told unasked, what /amounts said, and the files."""

    replies: list[str]
    alerts: list[Said]
    amounts: list[str]
    files: list[Path]


def lived(folder: Path, language: str, days_after: int = 150) -> Season:
    """Live through a season in a language, to so many days after it; return all that was said."""
    folder.mkdir(parents=True, exist_ok=True)
    talker = Talker(folder)
    talker.say("/start")
    said = talker.say(f"/language {language}")
    said += talker.session.location(*PLACE)
    before, opened, after = LINES[language]
    amounts = []
    for line in (*before, *_LOOKS):
        said += talker.say(line)
    alerts = []
    while not any(each.alert == "window_open" for each in alerts):
        alerts += talker.wait("P1D")
    for line in ("/amounts", *opened, "/undo", opened[-1]):
        answered = talker.say(line)
        if line == "/amounts":
            amounts += [each.reply.text for each in answered]
        said += answered
    for line in (*after, "/yard", "/soil", "/export"):
        said += talker.say(line)
    alerts += talker.wait(f"P{days_after}D")
    said += talker.say("/today")
    return Season(
        replies=[each.reply.text for each in said if each.reply.text],
        alerts=alerts,
        amounts=amounts,
        files=[Path(each.reply.file) for each in said if each.reply.file is not None],
    )
