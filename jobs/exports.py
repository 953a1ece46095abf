"""The record as rows, and the files made of it: CSV, XLSX and PDF.

Headings and texts are given by whoever speaks; nothing here has a language. The libraries that
write files are loaded when a file is wanted, as they take long.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping, Sequence
from dataclasses import astuple, dataclass, fields
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import pandas as pd

#: One value of a record; None where nobody knows.
Value = str | float | int | None


@dataclass(frozen=True, slots=True)
class LogRow:
    """One zone of one application: a superset of what US states ask of an applicator.

    Units stand in the names; text is as the person wrote it.
    """

    record: int
    applied_on: str
    started: str | None
    ended: str | None
    yard: str
    customer: str | None
    address: str | None
    place: str
    zone: str
    area_sq_ft: float
    area_m2: float
    turf: str | None
    product: str | None
    registration: str | None
    ingredients: str | None
    strength: str | None
    batch: str | None
    form: str | None
    rate_asked: str | None
    rate_achieved: str | None
    product_amount: float | None
    product_unit: str | None
    ingredient_lb: float | None
    ingredient_kg: float | None
    ingredient_lb_acre: float | None
    ingredient_this_year_lb_acre: float | None
    label_maxima: str | None
    carrier: str | None
    equipment: str | None
    calibration: str | None
    weed: str
    season: int
    wind: str | None
    wind_from: str | None
    air_f: float | None
    soil_f: float | None
    humidity_pct: float | None
    rain_in: float | None
    sky: str | None
    weather_basis: str | None
    watered_in_on: str | None
    water_in: float | None
    applicator: str | None
    licence: str | None
    supervisor: str | None
    supervisor_licence: str | None
    posted: str | None
    reentry: str | None
    next_allowed_on: str | None
    notes: str | None
    said: str
    recorded_at: str
    recorded_by: str
    changes: str | None


#: Columns of the log on paper, each of several fields under one another; the files hold all.
ON_PAPER: Final = (
    ("applied_on", "started", "ended"),
    ("yard", "customer", "address"),
    ("zone", "area_sq_ft", "turf"),
    ("product", "registration", "ingredients", "strength"),
    ("product_amount", "product_unit", "rate_achieved"),
    ("carrier", "equipment", "calibration"),
    ("weed",),
    ("wind", "wind_from", "air_f", "humidity_pct"),
    ("watered_in_on", "reentry", "posted"),
    ("applicator", "licence", "supervisor", "supervisor_licence"),
)

#: What is summed on a sheet of its own, and by what.
_SUMMED: Final = ("product_amount", "area_sq_ft", "ingredient_lb")
_SUMMED_BY: Final = ("product", "registration", "product_unit")

#: A cell that begins so would be taken for a formula by a spreadsheet.
_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r")

#: What the title of a sheet may not hold, and how long it may be (common practice, no source; an
#: apostrophe at either end is refused too).
_NOT_IN_A_SHEET_TITLE: Final = re.compile(r"[\\/?*\[\]:\x00-\x1f]+")
_LONGEST_SHEET_TITLE: Final = 31


def columns() -> tuple[str, ...]:
    """Return the columns of the log, in order."""
    return tuple(field.name for field in fields(LogRow))


def write_csv(rows: Sequence[LogRow], headings: Mapping[str, str], path: Path) -> Path:
    """Write the log as CSV (RFC 4180, UTF-8)."""
    _frame(rows, headings).to_csv(path, index=False, quoting=csv.QUOTE_MINIMAL)
    return path


def write_xlsx(
    rows: Sequence[LogRow],
    headings: Mapping[str, str],
    sheet: str,
    path: Path,
    totals: str | None = None,
) -> Path:
    """Write the log as a workbook, its head frozen; with a sheet of totals where that is named."""
    import pandas as pd

    frame = _frame(rows, headings)
    title = _sheet_title(sheet)
    with pd.ExcelWriter(path, engine="openpyxl") as book:
        frame.to_excel(book, sheet_name=title, index=False, freeze_panes=(1, 0))
        page = book.sheets[title]
        for cells in page.columns:
            longest = max(len(str(cell.value or "")) for cell in cells)
            page.column_dimensions[cells[0].column_letter].width = min(40, longest + 2)
        if totals is not None and rows:
            by = [headings[name] for name in _SUMMED_BY]
            summed = frame.groupby(by, dropna=False)[[headings[name] for name in _SUMMED]].sum()
            summed.reset_index().to_excel(book, sheet_name=_sheet_title(totals), index=False)
    return path


def write_pdf(
    rows: Sequence[LogRow],
    headings: Mapping[str, str],
    title: str,
    lines: Sequence[str],
    path: Path,
    total: str,
) -> Path:
    """Write the log for printing: letter paper, the head repeated on each page.

    After the zones of each application stands what it came to, headed by the word for a total.
    """
    from reportlab.lib import colors
    from reportlab.lib.pagesizes import landscape, letter
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.lib.units import mm
    from reportlab.platypus import Paragraph, SimpleDocTemplate, Spacer, Table, TableStyle

    styles = getSampleStyleSheet()
    small = styles["BodyText"].clone("small", fontSize=8, leading=9.5)
    shown = [[Paragraph(_stacked([headings[name] for name in names]), small) for names in ON_PAPER]]
    sums = []
    for record, zones in groupby(rows, key=lambda row: row.record):
        of_record = list(zones)
        shown += [
            [
                Paragraph(_stacked([_shown(getattr(row, n)) for n in names]), small)
                for names in ON_PAPER
            ]
            for row in of_record
        ]
        summed = _total_cells(of_record, headings, f"{total}, {headings['record']} {record}")
        shown.append([Paragraph(_stacked(cell), small) for cell in summed])
        sums.append(len(shown) - 1)
    page = landscape(letter)
    document = SimpleDocTemplate(
        str(path),
        pagesize=page,
        title=title,
        leftMargin=12 * mm,
        rightMargin=12 * mm,
        topMargin=12 * mm,
        bottomMargin=12 * mm,
    )
    width = (page[0] - 24 * mm) / len(ON_PAPER)
    table = Table(shown, repeatRows=1, colWidths=[width] * len(ON_PAPER))
    table.setStyle(
        TableStyle(
            [
                ("GRID", (0, 0), (-1, -1), 0.25, colors.grey),
                ("BACKGROUND", (0, 0), (-1, 0), colors.whitesmoke),
                *(("BACKGROUND", (0, at), (-1, at), colors.whitesmoke) for at in sums),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 2),
                ("RIGHTPADDING", (0, 0), (-1, -1), 2),
            ]
        )
    )
    story = [Paragraph(_escaped(title), styles["Heading2"])]
    story += [Paragraph(_escaped(line), styles["BodyText"]) for line in lines]
    document.build([*story, Spacer(1, 4 * mm), table])
    return path


def _frame(rows: Sequence[LogRow], headings: Mapping[str, str]) -> pd.DataFrame:
    import pandas as pd

    names = columns()
    data = [[_guarded(value) for value in astuple(row)] for row in rows]
    return pd.DataFrame(data, columns=[headings[name] for name in names])


def _total_cells(rows: Sequence[LogRow], headings: Mapping[str, str], head: str) -> list[list[str]]:
    """Return what one application came to, in the columns of the paper."""
    cells: dict[str, list[str]] = {"applied_on": [head]}
    for first, name in (
        ("zone", "area_sq_ft"),
        ("product", "ingredient_lb"),
        ("product_amount", "product_amount"),
    ):
        known = [value for row in rows if (value := getattr(row, name)) is not None]
        if known:
            unit = f" {rows[0].product_unit}" if name == "product_amount" else ""
            cells[first] = [headings[name], f"{_shown(float(sum(known)))}{unit}"]
    return [cells.get(names[0], []) for names in ON_PAPER]


def _sheet_title(name: str) -> str:
    """Return a name as a workbook takes it for a sheet: without its signs, and not too long."""
    words = _NOT_IN_A_SHEET_TITLE.sub(" ", name).split()
    return " ".join(words)[:_LONGEST_SHEET_TITLE].strip(" '") or "1"


def _guarded(value: Value) -> Value:
    """Keep what people wrote from being run as a formula by a spreadsheet."""
    if isinstance(value, str) and value.startswith(_FORMULA):
        return f"'{value}"
    return value


def _shown(value: Value) -> str:
    if value is None:
        return "-"
    if isinstance(value, float):
        return f"{value:.4g}" if value < 1000 else f"{value:,.0f}"
    return f"{value}"


def _stacked(texts: Sequence[str]) -> str:
    return "<br/>".join(_escaped(text) for text in texts if text)


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
