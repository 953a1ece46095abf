"""Parts of zones that were named, for the use case."""

from bot.hearing.heard import Slots
from bot.hearing.readers.zone_parts import PartSaid
from bot.telling.parts_said import parts_said


def test_a_part_where_no_zone_is_treated_is_of_none() -> None:
    half = PartSaid(zone=None, share=0.5)
    assert parts_said(None, None, [], Slots(parts=(half,))) == {}  # type: ignore[arg-type]
