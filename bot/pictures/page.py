"""A page to draw on: pixels from the top left, large type, and nothing that outlives it.

matplotlib draws, without pyplot and without its settings: a figure of 72 dots per inch, so that
points are pixels, with one set of axes over the whole page whose units are pixels. Fonts are the
ones that ship with matplotlib. It is imported only when something is drawn.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, Final

#: Width of every picture: full width of a phone held upright [px].
WIDTH: Final = 1080

#: Smallest type on a page of that width [px].
SMALL: Final = 40
LARGE: Final = 56
MARGIN: Final = 44

INK: Final = "#111111"
PAPER: Final = "#ffffff"
GREY: Final = "#4d4d4d"

#: Height of a line of text, as a multiple of its size.
LEADING: Final = 1.24

#: Colours kept in the file: enough for smooth edges, few enough for a slow network.
_COLOURS: Final = 96

#: Largest height of a page [px]; chat platforms shrink anything longer.
TALLEST: Final = 2400


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the page [px], y growing downwards."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Width [px]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height [px]."""
        return self.bottom - self.top

    def grown(self, by: float) -> Box:
        """Return a box larger by so many pixels on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: Box) -> bool:
        """Tell whether two boxes overlap."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: Box) -> bool:
        """Tell whether the other box lies wholly inside."""
        return (
            self.left <= other.left
            and self.top <= other.top
            and self.right >= other.right
            and self.bottom >= other.bottom
        )


@cache
def font(*, is_bold: bool = False) -> Any:
    """Return the font of the pages, found by its file so that no system font can take its place."""
    import matplotlib
    from matplotlib.font_manager import FontProperties

    name = "DejaVuSans-Bold.ttf" if is_bold else "DejaVuSans.ttf"
    return FontProperties(fname=Path(matplotlib.get_data_path(), "fonts", "ttf", name))


def _renderer() -> Any:
    from matplotlib.backends import backend_agg

    make: Any = backend_agg.RendererAgg
    return make(1, 1, 72)


@cache
def _drawable() -> frozenset[int]:
    from matplotlib.font_manager import get_font

    return frozenset(get_font(font().get_file()).get_charmap()) & frozenset(
        get_font(font(is_bold=True).get_file()).get_charmap()
    )


def drawable(words: str, otherwise: str = "") -> str:
    """Return the text without characters the font lacks (emoji, say); if none is left, another."""
    kept = "".join(c for c in words if c in " \n" or (c.isprintable() and ord(c) in _drawable()))
    kept = "\n".join(" ".join(line.split()) for line in kept.split("\n"))
    return kept if any(c.isalnum() for c in kept) else otherwise


@lru_cache(maxsize=4096)
def width_of(words: str, size: float = SMALL, *, is_bold: bool = False) -> float:
    """Return the width of one line of text [px]."""
    sized = font(is_bold=is_bold).copy()
    sized.set_size(size)
    renderer: Any = _renderer()
    width, _, _ = renderer.get_text_width_height_descent(words, sized, ismath=False)
    return float(width)


def wrapped(
    words: str,
    width: float,
    size: float = SMALL,
    *,
    is_bold: bool = False,
    most_lines: int | None = None,
) -> list[str]:
    """Break a text into lines no wider than ``width``; words too long for a line are cut up.

    What is beyond ``most_lines`` is left out and an ellipsis says so.
    """
    lines: list[str] = []
    for paragraph in words.split("\n"):
        line = ""
        for word in paragraph.split():
            joined = f"{line} {word}" if line else word
            if width_of(joined, size, is_bold=is_bold) <= width:
                line = joined
                continue
            if line:
                lines.append(line)
            line = word
            while width_of(line, size, is_bold=is_bold) > width and len(line) > 1:
                fits = _fitting(line, width, size, is_bold=is_bold)
                lines.append(line[:fits])
                line = line[fits:]
        lines.append(line)
    if most_lines is not None and len(lines) > most_lines:
        lines = lines[:most_lines]
        last = lines[-1] + "…"
        while width_of(last, size, is_bold=is_bold) > width and len(last) > 1:
            last = last[:-2].rstrip() + "…"
        lines[-1] = last
    return lines


def _fitting(word: str, width: float, size: float, *, is_bold: bool) -> int:
    for count in range(len(word) - 1, 1, -1):
        if width_of(word[:count], size, is_bold=is_bold) <= width:
            return count
    return 1


class Page:
    """A page of `WIDTH` pixels whose height is set when its contents are known."""

    def __init__(self, height: float = WIDTH) -> None:
        from matplotlib.backends.backend_agg import FigureCanvasAgg
        from matplotlib.figure import Figure

        self.figure: Any = Figure(dpi=72, facecolor=PAPER)
        self.canvas: Any = FigureCanvasAgg(self.figure)
        self.axes: Any = self.figure.add_axes((0.0, 0.0, 1.0, 1.0))
        self.axes.set_axis_off()
        self.set_height(height)

    def set_height(self, height: float) -> None:
        """Set the height [px]; what is drawn keeps its distance from the top."""
        self.height = min(round(height), TALLEST)
        self.figure.set_size_inches(WIDTH / 72, self.height / 72)
        self.axes.set_xlim(0, WIDTH)
        self.axes.set_ylim(self.height, 0)

    def text(
        self,
        x: float,
        y: float,
        lines: str | Sequence[str],
        *,
        size: float = SMALL,
        is_bold: bool = False,
        colour: str = INK,
        align: str = "left",
        has_halo: bool = False,
        order: float = 10.0,
    ) -> Box:
        """Write lines below each other, the first one's top at ``y``; return the box they take."""
        from matplotlib import patheffects

        rows = [lines] if isinstance(lines, str) else list(lines)
        widest = 0.0
        for number, words in enumerate(rows):
            if not words:
                continue
            written = self.axes.text(
                x,
                y + number * size * LEADING + size * 0.95,
                words,
                fontproperties=font(is_bold=is_bold),
                fontsize=size,
                color=colour,
                ha=align,
                va="baseline",
                zorder=order,
                parse_math=False,
            )
            if has_halo:
                written.set_path_effects(
                    [patheffects.withStroke(linewidth=size * 0.24, foreground=PAPER)]
                )
            widest = max(widest, width_of(words, size, is_bold=is_bold))
        left = {"left": x, "center": x - widest / 2, "right": x - widest}[align]
        return Box(left, y, left + widest, y + len(rows) * size * LEADING)

    def line(self, xs: Any, ys: Any, **style: Any) -> None:
        """Draw a line through points."""
        self.axes.plot(xs, ys, **{"color": INK, "lw": 2.0, "solid_capstyle": "butt", **style})

    def box(self, box: Box, **style: Any) -> None:
        """Draw a rectangle."""
        from matplotlib.patches import Rectangle

        self.axes.add_patch(
            Rectangle((box.left, box.top), box.width, box.height, **{"lw": 0.0, **style})
        )

    def png(self) -> bytes:
        """Return the page as a PNG file: the same page, the same bytes."""
        from PIL import Image

        self.canvas.draw()
        picture = Image.frombytes(
            "RGBA", self.canvas.get_width_height(), bytes(self.canvas.buffer_rgba())
        ).convert("RGB")
        few = picture.quantize(_COLOURS, method=Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE)
        out = io.BytesIO()
        # The last tenth of a file takes eight times as long.
        few.save(out, "PNG", compress_level=6)
        return out.getvalue()
