"""Ground: zones renamed, split and merged; and what may be the same, asked about until said."""

from __future__ import annotations

from collections.abc import Sequence

from bot.dialogue.named_here import names_of
from bot.dialogue.talk import Talk
from bot.hearing.forms.ground_forms import GroundSaid, MergeSaid, PieceSaid, RenameSaid, SplitSaid
from bot.saying.catalogue import shown
from bot.saying.values import Area, Names
from bot.turn import Reply
from jobs.uses import zones as uses
from storage.yards import YardRecord, ZoneRecord


def reshape(talk: Talk, yard: YardRecord, said: GroundSaid) -> list[Reply]:
    """Call a zone otherwise, split it, or make one of several; what lies on the ground stays."""
    try:
        match said:
            case RenameSaid():
                return _renamed(talk, yard, said)
            case SplitSaid():
                return _split(talk, yard, said)
            case MergeSaid():
                return _merged(talk, yard, said)
    except uses.NameTaken as taken:
        names = names_of(talk.standing(yard).zones)
        return [talk.reply("zones.name_taken", name=str(taken), yard=yard.name, names=names)]
    except uses.PartsDiffer as differ:
        parts, zone = (Area(m2) for m2 in (differ.parts_m2, differ.zone_m2))
        return [talk.reply("zones.parts_differ", parts=parts, area=zone)]


def _renamed(talk: Talk, yard: YardRecord, said: RenameSaid) -> list[Reply]:
    zone = _zones(talk, yard, [said.zone])[0]
    renamed = uses.rename(talk.work, yard, zone, said.name, now=talk.now)
    return [talk.reply("zones.renamed", talk.undo(), was=zone.name, name=renamed.name)]


def _split(talk: Talk, yard: YardRecord, said: SplitSaid) -> list[Reply]:
    zone = _zones(talk, yard, [said.zone])[0]
    sized = [each for each in said.pieces if each.area_m2 is not None or each.share is not None]
    if len(sized) < len(said.pieces) - 1 or not said.pieces:
        # How large they are decides what each takes: never halves by silence.
        return [talk.reply("zones.split_ask", zone=zone.name, area=shown(Area(zone.area_m2)))]
    names = _names(zone, said.pieces)
    parts = [
        uses.ZonePart(name, piece.area_m2 if piece.share is None else piece.share * zone.area_m2)
        for name, piece in zip(names, said.pieces, strict=True)
    ]
    made = uses.split(talk.work, yard, zone, parts, person_id=talk.person.id, now=talk.now)
    lines = Names([f"{each.name} {shown(Area(each.area_m2))}" for each in made])
    area = shown(Area(zone.area_m2))
    return [talk.reply("zones.split", talk.undo(), zone=zone.name, area=area, parts=lines)]


def _merged(talk: Talk, yard: YardRecord, said: MergeSaid) -> list[Reply]:
    zones = _zones(talk, yard, said.zones)
    name = said.name or max(zones, key=lambda each: each.area_m2).name
    made = uses.merge(talk.work, yard, zones, name, person_id=talk.person.id, now=talk.now)
    area = shown(Area(made.area_m2))
    return [
        talk.reply("zones.merged", talk.undo(), zones=names_of(zones), name=made.name, area=area)
    ]


def _zones(talk: Talk, yard: YardRecord, names: Sequence[str]) -> list[ZoneRecord]:
    return [zone for zone in talk.standing(yard).zones if zone.name in names]


def _names(zone: ZoneRecord, pieces: Sequence[PieceSaid]) -> list[str]:
    """Return a name for each part: its own, else the zone's with a number."""
    return [each.name or f"{zone.name} {place}" for place, each in enumerate(pieces, 1)]
