"""Pictures as values: kept with a reply, drawn when it is sent, and the same file each time.

A `PictureSpec` holds everything a picture shows, so that it can be stored with the turn that asked
for it and drawn later, outside any transaction. The file's name follows from its contents: a turn
that is delivered twice finds the picture it drew before.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
import threading
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Final, Literal, get_args

from pydantic import TypeAdapter, ValidationError

from bot.pictures.page import Page
from bot.pictures.soil_chart import SoilChart, describe
from bot.pictures.soil_drawing import soil_chart_page
from bot.pictures.yard_sketch import Sketch, SketchZone, describe_sketch, sketch_page
from bot.pictures.years_chart import YearsChart, describe_years, years_page
from bot.saying.voice import speaking
from jobs.agronomy.shape_store import from_json, to_json

Kind = Literal["soil_chart", "yard_sketch", "years"]
Picture = SoilChart | Sketch | YearsChart

#: Counted up when drawings change, so that old files are not taken for new ones.
_DRAWING: Final = 2

#: matplotlib does not promise that two threads may draw at once.
_ONE_AT_A_TIME: Final = threading.Lock()


class UnknownPicture(ValueError):
    """Raised for stored values that are no picture we know."""


@dataclass(frozen=True, slots=True)
class PictureSpec:
    """A picture to draw: its kind, and its values as one line of JSON (keys in order)."""

    kind: Kind
    values: str

    @classmethod
    def of(cls, picture: Picture) -> PictureSpec:
        """Return the spec of a chart or a sketch."""
        if isinstance(picture, YearsChart):
            return cls("years", _line(_years().dump_python(picture, mode="json")))
        if isinstance(picture, SoilChart):
            return cls("soil_chart", _line(_charts().dump_python(picture, mode="json")))
        return cls("yard_sketch", _line(_sketch_values(picture)))

    @classmethod
    def from_json(cls, stored: dict[str, Any]) -> PictureSpec:
        """Return what `to_json` wrote.

        Raises
        ------
        UnknownPicture
            If it is none of our kinds.
        """
        kind: Any = stored.get("kind")
        if kind not in get_args(Kind):
            raise UnknownPicture(str(kind))
        return cls(kind, _line(stored.get("values")))

    def to_json(self) -> dict[str, Any]:
        """Return primitives for storage."""
        return {"kind": self.kind, "values": json.loads(self.values)}

    @property
    def picture(self) -> Picture:
        """The chart or sketch.

        Raises
        ------
        UnknownPicture
            If the values cannot be one.
        """
        try:
            if self.kind == "soil_chart":
                return _charts().validate_json(self.values)
            if self.kind == "years":
                return _years().validate_json(self.values)
            return _sketch(json.loads(self.values))
        except (ValidationError, ValueError, KeyError, TypeError) as error:
            raise UnknownPicture(f"{self.kind}: {error}") from error

    @property
    def text(self) -> str:
        """What the picture shows, as one line of text."""
        picture = self.picture
        with speaking(picture.lang):
            if isinstance(picture, SoilChart):
                return describe(picture)
            if isinstance(picture, YearsChart):
                return describe_years(picture)
            return describe_sketch(picture)

    @property
    def file_name(self) -> str:
        """Name of the file, by contents."""
        told = f"{_DRAWING} {self.kind} {self.values}"
        return f"{self.kind}-{hashlib.sha256(told.encode()).hexdigest()[:24]}.png"


def render(spec: PictureSpec, folder: Path | str) -> Path:
    """Return the picture's file in a folder (made if need be), drawn unless it is there already.

    The file appears whole or not at all, however many draw it at once.

    Raises
    ------
    UnknownPicture
        If the values cannot be a picture.
    OSError
        If the folder cannot be written to.
    """
    path = Path(folder, spec.file_name)
    if path.exists():
        return path
    picture = spec.picture
    with _ONE_AT_A_TIME:
        png = _page_of(picture).png()
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    handle, draft = tempfile.mkstemp(suffix=".part", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(png)
        Path(draft).chmod(0o600)
        Path(draft).replace(path)
    except BaseException:
        Path(draft).unlink(missing_ok=True)
        raise
    return path


def _page_of(picture: Picture) -> Page:
    with speaking(picture.lang):
        if isinstance(picture, SoilChart):
            return soil_chart_page(picture)
        return years_page(picture) if isinstance(picture, YearsChart) else sketch_page(picture)


@cache
def _years() -> TypeAdapter[YearsChart]:
    return TypeAdapter(YearsChart)


@cache
def _charts() -> TypeAdapter[SoilChart]:
    return TypeAdapter(SoilChart)


def _line(values: Any) -> str:
    return json.dumps(values, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def _sketch_values(sketch: Sketch) -> dict[str, Any]:
    zones = [
        {
            "name": zone.name,
            "size": zone.size,
            "amount": zone.amount,
            "shape": json.loads(to_json(zone.shape)),
            "is_treated": zone.is_treated,
            "is_done": zone.is_done,
            "buffer_m2": zone.buffer_m2,
        }
        for zone in sketch.zones
    ]
    return {
        "title": sketch.title,
        "total": sketch.total,
        "zones": zones,
        "system": sketch.system,
        "lang": sketch.lang,
    }


def _sketch(values: dict[str, Any]) -> Sketch:
    zones = tuple(
        SketchZone(**{**zone, "shape": from_json(json.dumps(zone["shape"]))})
        for zone in values["zones"]
    )
    return Sketch(**{**values, "zones": zones})
