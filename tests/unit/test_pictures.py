import io
import json
import math
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date, timedelta
from itertools import combinations

import numpy as np
import pytest
from PIL import Image

from bot.pictures.arrange import Piece, on_shelves
from bot.pictures.outlines import outline
from bot.pictures.page import TALLEST, WIDTH, Box, drawable, width_of, wrapped
from bot.pictures.render import PictureSpec, UnknownPicture, render
from bot.pictures.sketch_parts import ToPage, polygons, with_buffer
from bot.pictures.soil_chart import SoilChart, Span, describe
from bot.pictures.soil_drawing import soil_chart_page
from bot.pictures.yard_sketch import (
    Sketch,
    SketchZone,
    describe_sketch,
    sketch_page,
)
from bot.saying import catalogue
from jobs.agronomy.shapes import (
    AverageRadius,
    Circle,
    Corners,
    Difference,
    Ellipse,
    GivenArea,
    ModifiedOffsets,
    Offsets,
    PartCircle,
    Rectangle,
    Square,
    Strip,
    Sum,
    Trapezoid,
    Traverse,
    Triangle,
    TriangleOfSides,
)
from tests.unit.written import text_boxes

LARGEST_FILE = 300_000


def wave(days, lift=0.0, start=0):
    """A spring as a plain curve, in °F."""
    return [round(34 + lift + 0.33 * (start + i) + 3 * math.sin(i / 7), 2) for i in range(days)]


def a_chart(today=date(2025, 3, 20), **changes):
    days, known = 110, 60
    nothing_yet = [None] * known
    fan = tuple(
        (*nothing_yet, *wave(days - known, lift, known)) for lift in (-4.0, -2.0, 0.0, 2.0, 4.0)
    )
    first = today - timedelta(days=known)
    chart = SoilChart(
        title="Front yard: soil 2 in down, mean of 5 days",
        headline="Put it down about 1 Apr to 15 Apr",
        badge=None,
        notes=("Soil data through 19 Mar.", "From Manhattan 6 SSW."),
        unit="°F",
        first_day=first,
        today=today,
        this_year=(*wave(known), *[None] * (days - known)),
        past_mean=tuple(wave(days, 1.5)),
        past_low=tuple(wave(days, -6.0)),
        past_high=tuple(wave(days, 9.0)),
        fan=fan,
        band=(50.0, 55.0),
        spans=(
            Span("put it down: 1 Apr to 15 Apr", date(2025, 4, 1), date(2025, 4, 15)),
            Span(
                "first crabgrass: 22 Apr (15 Apr to 2 May)",
                date(2025, 4, 15),
                date(2025, 5, 2),
                date(2025, 4, 22),
            ),
        ),
        this_year_label="measured",
        past_label="past years:\nline = mean,\nhatched = 4 in 5",
        fan_label="outlook:\ndark = 1 chance in 2,\npale = 4 in 5",
        band_label="trade's band, 50 to 55 °F",
        today_label="today, 20 Mar",
    )
    return replace(chart, **changes)


def in_celsius(chart):
    def c(row):
        return tuple(None if v is None else (v - 32) / 1.8 for v in row)

    return replace(
        chart,
        unit="°C",
        this_year=c(chart.this_year),
        past_mean=c(chart.past_mean),
        past_low=c(chart.past_low),
        past_high=c(chart.past_high),
        fan=tuple(c(row) for row in chart.fan),
        band=(10.0, 12.8),
    )


def moved(chart, days):
    """The same values with today at another place on the axis."""
    shift = timedelta(days=days)
    spans = tuple(
        replace(
            span,
            first=span.first + shift,
            last=span.last + shift,
            middle=span.middle and span.middle + shift,
        )
        for span in chart.spans
    )
    return replace(chart, spans=spans, today=chart.today + shift)


def with_gap(chart):
    row = list(chart.this_year)
    row[20:41] = [None] * 21
    return replace(chart, this_year=tuple(row))


def without(chart, *names):
    nothing = (None,) * chart.days
    return replace(chart, **{n: (nothing,) * 5 if n == "fan" else nothing for n in names})


CHARTS = {
    "before the window": a_chart(),
    "in celsius": in_celsius(a_chart()),
    "invented": a_chart(badge=catalogue.say("pictures.invented")),
    "window at the left edge": moved(a_chart(), -55),
    "window at the right edge": moved(a_chart(), 45),
    "no spans": a_chart(spans=()),
    "a gap": with_gap(a_chart()),
    "nothing measured": without(a_chart(), "this_year"),
    "no outlook": without(a_chart(), "fan"),
    "only past years": without(a_chart(), "this_year", "fan"),
    "invented and old": a_chart(badge="INVENTED\nOLD DATA: soil known to 2 Jan only, 77 days ago."),
    "long words": a_chart(
        title="Grandmother's long back lawn by the creek and the old mill: soil 2 in down",
        headline="No clear rise here: go by your extension office's date and by what you see there",
        notes=("OLD DATA: soil known to 2 Jan only, 77 days ago.", "From a place far off. " * 4),
    ),
    "dollars and emoji": a_chart(title="$5 lawn \N{SEEDLING} $x_1$"),
    "three days": replace(
        a_chart(),
        this_year=(40.0, 41.0, None),
        past_mean=(40.0, 40.5, 41.0),
        past_low=(36.0, 36.0, 36.0),
        past_high=(46.0, 46.0, 46.0),
        fan=tuple((None, None, degrees) for degrees in (39.0, 40.0, 41.0, 42.0, 43.0)),
        first_day=date(2025, 3, 18),
    ),
}  # fmt: skip


def lawn(name, shape, amount="3 lb 4 oz", is_treated=True):
    return SketchZone(name, f"{shape.area_m2:,.0f} m²", amount, shape, is_treated)


def corners(*points):
    return Corners(tuple((float(x), float(y)) for x, y in points))


EVERY_SHAPE = (
    Rectangle(18, 12),
    Strip(24, 1.5),
    Square(9),
    Triangle(12, 7),
    TriangleOfSides(9, 12, 15),
    Circle(5),
    PartCircle(8, 0.25),
    Ellipse(16, 8),
    Trapezoid(14, 8, 7),
    Offsets(2.5, (0, 4, 6, 5, 7, 3, 0)),
    Offsets(2.5, (0, 4, 6, 5, 7, 3, 0), "simpson"),
    ModifiedOffsets(20, 10, 4, (1, 2, 3, 2, 1), (0, 1, 0, 2, 1)),
    AverageRadius((6, 7, 5, 8, 6, 4, 5, 6)),
    Traverse((20, 15, 20, 15), (0, 90, 180, 270)),
    Sum((Rectangle(12, 6), Rectangle(5, 10))),
    Difference(Rectangle(30, 20), (Rectangle(12, 9), Rectangle(3, 15), Circle(1.5))),
    GivenArea(320),
)
WALKED = (
    lawn("Front lawn", corners((0, 0), (22, 0), (22, 11), (12, 13), (0, 11))),
    lawn("Front right of drive", corners((26, 0), (44, 0), (44, 11), (26, 11))),
    lawn("Strip by the street", corners((0, -3), (44, -3), (44, -1.5), (0, -1.5))),
    lawn(
        "Back lawn",
        Difference(
            corners((0, 24), (46, 24), (48, 52), (20, 56), (0, 50)),
            (corners((10, 34), (18, 34), (18, 40), (10, 40)), Circle(2)),
        ),
    ),
    lawn("East side by the neighbour's fence", corners((40, 12), (44, 12), (44, 23), (40, 23))),
)
MANY = tuple(
    lawn(f"Zone with quite a long name, number {i}", Rectangle(4 + i * 37 % 53, 3 + i * 11 % 17))
    for i in range(26)
)
PLOT = ((0, 0), (9, 0), (9, 2), (0, 2))
SKETCHES = {
    "one zone": Sketch("Mill Lane", "1 zone", (lawn("front", Rectangle(18, 12)),)),
    "every shape": Sketch(
        "Every shape at the long-named Sycamore Hollow Road property",
        "17 zones",
        tuple(lawn(type(shape).__name__, shape) for shape in EVERY_SHAPE),
    ),
    "walked": Sketch("Sycamore Hollow", "5 zones", WALKED),
    "walked and taped": Sketch(
        "Sycamore Hollow",
        "8 zones",
        (*WALKED, *(lawn(f"bed {i}", shape) for i, shape in enumerate(EVERY_SHAPE[5:8]))),
        "metric",
    ),
    "many": Sketch("Large grounds", "26 zones", MANY),
    "far too many": Sketch("Larger grounds", "78 zones", MANY * 3),
    "many walked": Sketch(
        "Plots",
        "40 zones",
        tuple(
            lawn(
                f"Plot {i}",
                corners(*((i % 4 * 12 + x, i // 4 * 5 + y) for x, y in PLOT)),
            )
            for i in range(40)
        ),
    ),
    "odd names": Sketch(
        "$5 lawn \N{SEEDLING}",
        "",
        (
            lawn("\N{SEEDLING}", Square(4)),
            lawn("a" * 70, Strip(300, 1), "$x_1$ 2 lb"),
            lawn("play corner", Square(30), None, is_treated=False),
        ),
    ),
    "empty": Sketch("New yard", "", ()),
}  # fmt: skip


def assert_legible(page):
    """Every word stands on the page, and no word on another."""
    canvas = Box(0, 0, WIDTH, page.height)
    written = text_boxes(page)
    assert written
    for words, box in written:
        assert canvas.holds(box), words
    for (one, box), (other, other_box) in combinations(written, 2):
        # Half a pixel of antialiasing is no collision.
        assert not box.grown(-0.5).meets(other_box), (one, other)
    assert all(text.get_fontsize() >= 28 for text in page.axes.texts)


@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_no_word_of_a_chart_is_cut_or_written_over_another(chart):
    assert_legible(soil_chart_page(chart))


@pytest.mark.parametrize("sketch", SKETCHES.values(), ids=SKETCHES)
def test_no_word_of_a_sketch_is_cut_or_written_over_another(sketch):
    assert_legible(sketch_page(sketch))


@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_every_line_of_a_chart_stays_on_the_page(chart):
    page = soil_chart_page(chart)
    for line in page.axes.lines:
        ys = np.asarray(line.get_ydata(), dtype=float)
        ys = ys[np.isfinite(ys)]
        assert ((ys >= 0) & (ys <= page.height)).all()
        xs = np.asarray(line.get_xdata(), dtype=float)
        assert ((xs >= 0) & (xs <= WIDTH)).all()


def test_a_chart_is_a_small_upright_picture_of_phone_width(tmp_path):
    path = tmp_path / "chart.png"
    path.write_bytes(soil_chart_page(a_chart()).png())
    with Image.open(path) as picture:
        assert picture.format == "PNG"
        assert picture.width == WIDTH == 1080
        assert WIDTH <= picture.height <= TALLEST
    assert path.stat().st_size < LARGEST_FILE


@pytest.mark.parametrize("sketch", SKETCHES.values(), ids=SKETCHES)
def test_a_sketch_is_a_small_picture_of_phone_width(sketch, tmp_path):
    path = tmp_path / "sketch.png"
    path.write_bytes(sketch_page(sketch).png())
    with Image.open(path) as picture:
        assert picture.width == WIDTH
        assert picture.height <= TALLEST
    assert path.stat().st_size < LARGEST_FILE


def test_a_chart_keeps_its_contrast_in_grey():
    page = soil_chart_page(a_chart())
    grey = np.asarray(Image.open(io.BytesIO(page.png())).convert("L"))
    # Ink, the dark half of the fan and paper stay apart without colour.
    for low, high in ((0, 60), (120, 185), (250, 255)):
        assert ((grey >= low) & (grey <= high)).sum() > 2000


def test_kinds_of_line_differ_by_more_than_colour():
    page = soil_chart_page(a_chart())
    long = [line for line in page.axes.lines if len(line.get_xdata()) == a_chart().days]
    styles = {(line.get_linestyle(), line._unscaled_dash_pattern, line.get_lw()) for line in long}
    # Halo, measured, mean, middle of the outlook, thin edges: none like another.
    assert len(styles) >= 5


def test_every_series_of_a_full_chart_is_named_on_it():
    words = " ".join(text.get_text() for text in soil_chart_page(a_chart()).axes.texts)
    for name in ("measured", "past years:", "outlook:", "trade's band", "today, 20 Mar"):
        assert name in words
    assert "put it down: 1 Apr to 15 Apr" in words
    assert "Soil data through 19 Mar." in words


def test_an_invented_climate_is_said_on_the_chart_and_in_its_text():
    chart = a_chart(badge=catalogue.say("pictures.invented"))
    words = [text.get_text() for text in soil_chart_page(chart).axes.texts]
    assert any("PRACTICE" in line for line in words)
    assert "PRACTICE" in describe(chart)
    assert "PRACTICE" not in describe(a_chart())


def test_the_text_of_a_chart_tells_now_past_outlook_and_what_to_do():
    text = describe(a_chart())
    assert "\n" not in text
    assert "Latest 56 °F on Mar 19." in text
    assert "Past years that day: average 57 °F, 4 in 5 between 50 °F and 65 °F." in text
    assert "Forecast for Apr 3: 61 °F, 4 chances in 5 57 °F to 65 °F." in text
    assert "Put it down about 1 Apr to 15 Apr." in text
    assert "First crabgrass: 22 Apr (15 Apr to 2 May)." in text
    assert "Soil data through 19 Mar." in text


def test_the_text_of_a_chart_says_when_nothing_is_measured():
    text = describe(without(a_chart(), "this_year"))
    assert "No soil data in this time." in text
    assert "Forecast for Apr 3" in text
    assert "nan" not in text


def test_celsius_is_told_to_a_tenth_and_never_as_minus_zero():
    chart = in_celsius(a_chart())
    low = tuple(-0.01 for _ in chart.past_low)
    text = describe(replace(chart, past_low=low))
    assert "between 0.0 °C" in text
    assert "-0.0" not in text


def test_a_chart_whose_rows_differ_in_length_is_refused():
    with pytest.raises(ValueError, match="length"):
        a_chart(past_mean=(1.0, 2.0))


def test_the_text_of_a_sketch_names_every_zone_with_size_and_amount():
    sketch = Sketch(
        "Mill Lane",
        "2 zones, 396 m² to treat.",
        (
            lawn("front", Rectangle(18, 12)),
            lawn("far field", GivenArea(180), None),
            lawn("play corner", Square(4), None, is_treated=False),
        ),
    )
    assert describe_sketch(sketch) == (
        "Sketch of Mill Lane. 1. front, 216 m², 3 lb 4 oz. "
        "2. far field, 180 m², area only (shape not known). "
        "3. play corner, 16 m², not treated. 2 zones, 396 m² to treat. "
        "All drawn to one scale. Their position is not known. Dotted: left untreated. "
        "Dashed: the area is right, the shape is not known."
    )


def test_only_a_walked_yard_has_a_north_arrow():
    def words(sketch):
        return {text.get_text() for text in sketch_page(sketch).axes.texts}

    assert "N" in words(SKETCHES["walked"])
    assert "N" not in words(SKETCHES["every shape"])


def patch_area(patch):
    """Shoelace over the rings of a drawn patch: outer ring less holes, in square pixels."""
    total, ring = 0.0, []
    for (x, y), code in zip(patch.get_path().vertices, patch.get_path().codes, strict=True):
        if code == 1 and ring:
            total += shoelace(ring)
            ring = []
        if code != 79:
            ring.append((x, y))
    return abs(total + shoelace(ring))


def shoelace(ring):
    return (
        sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True))
        / 2
    )


def scale_of(page):
    """Pixels per metre, read off the drawn scale bar and its words."""
    words = next(t.get_text() for t in page.axes.texts if t.get_text().split()[-1] in {"ft", "m"})
    number, unit = words.split()
    bar = next(line for line in page.axes.lines if line.get_lw() == 5)
    left, right = bar.get_xdata()
    # International foot, exactly 0.3048 m (NIST SP 811, appendix B).
    return (right - left) / (float(number.replace(",", "")) * {"ft": 0.3048, "m": 1.0}[unit])


@pytest.mark.parametrize("name", ["every shape", "walked", "walked and taped", "many"])
def test_zones_are_drawn_to_the_scale_of_the_bar(name):
    sketch = SKETCHES[name]
    page = sketch_page(sketch)
    scale = scale_of(page)
    turf = [p for p in page.axes.patches if p.get_zorder() == 3 and p.get_path().codes is not None]
    drawn = sum(patch_area(patch) for patch in turf) / scale**2
    assert drawn == pytest.approx(sum(zone.shape.area_m2 for zone in sketch.zones), rel=1e-6)


def test_north_is_up_and_east_is_right_on_the_map():
    to_page = ToPage(2.0, 100.0, 500.0)
    (x, y), (east_x, _), (_, north_y) = to_page([(0, 0), (10, 0), (0, 10)])
    assert (x, y) == (100.0, 500.0)
    assert east_x > x
    assert north_y < y


def test_what_finds_no_room_is_counted():
    words = [t.get_text() for t in sketch_page(SKETCHES["far too many"]).axes.texts]
    named = sum(line.startswith("Zone with") for line in words)
    assert named > 12
    assert f"{len(SKETCHES['far too many'].zones) - named} more did not fit" in " ".join(words)


def test_shelves_neither_overlap_nor_stick_out():
    rng = np.random.default_rng(7)
    pieces = [Piece(*map(float, row)) for row in rng.uniform(20, 300, (40, 3))]
    found = on_shelves(pieces, 900.0, 20.0)
    boxes = [
        Box(s.left, s.shelf - p.above, s.left + p.width, s.shelf + p.below)
        for s, p in zip(found.spots, pieces, strict=True)
    ]
    whole = Box(0, 0, 900.0 + 1e-6, found.height + 1e-6)
    assert all(whole.holds(box) for box in boxes)
    assert not any(one.meets(other) for one, other in combinations(boxes, 2))
    assert on_shelves([Piece(901.0, 1.0, 1.0)], 900.0, 20.0) is None


def test_lines_are_broken_to_the_width_and_cut_words_say_so():
    lines = wrapped("the long strip along the neighbour's fence", 300, most_lines=2)
    assert len(lines) == 2
    assert lines[-1].endswith("…")
    assert all(width_of(line) <= 300 for line in wrapped("w" * 90, 300))
    assert "".join(wrapped("w" * 90, 300)) == "w" * 90


def test_letters_the_font_lacks_are_left_out():
    assert drawable("pool \N{SEEDLING} lawn") == "pool lawn"
    assert drawable("\N{SEEDLING}", "zone 1") == "zone 1"
    assert drawable("Grünfläche 5 m² §") == "Grünfläche 5 m² §"


SPECS = {"chart": a_chart(), "sketch": SKETCHES["every shape"], "walked": SKETCHES["walked"]}


@pytest.mark.parametrize("picture", SPECS.values(), ids=SPECS)
def test_a_spec_survives_storage(picture):
    spec = PictureSpec.of(picture)
    again = PictureSpec.from_json(json.loads(json.dumps(spec.to_json())))
    assert again == spec
    assert again.picture == picture
    assert again.file_name == spec.file_name


@pytest.mark.parametrize("picture", SPECS.values(), ids=SPECS)
def test_the_same_spec_gives_the_same_bytes(picture, tmp_path):
    spec = PictureSpec.of(picture)
    one = render(spec, tmp_path / "one")
    other = render(spec, tmp_path / "other")
    assert one.name == other.name
    assert one.read_bytes() == other.read_bytes()


def test_a_picture_drawn_before_is_not_drawn_again(tmp_path):
    spec = PictureSpec.of(SKETCHES["one zone"])
    path = render(spec, tmp_path)
    path.write_bytes(b"as it was sent")
    assert render(spec, tmp_path).read_bytes() == b"as it was sent"


def test_another_value_gives_another_file():
    assert PictureSpec.of(a_chart()).file_name != PictureSpec.of(a_chart(unit="°C")).file_name


def test_threads_draw_the_same_pictures_and_leave_no_drafts(tmp_path):
    specs = [PictureSpec.of(SKETCHES[name]) for name in ("one zone", "empty", "odd names")]
    alone = {spec.file_name: render(spec, tmp_path / "alone").read_bytes() for spec in specs}
    with ThreadPoolExecutor(4) as pool:
        list(pool.map(lambda spec: render(spec, tmp_path / "together"), specs * 4))
    together = {path.name: path.read_bytes() for path in (tmp_path / "together").iterdir()}
    assert together == alone


def test_stored_values_of_no_picture_are_refused():
    with pytest.raises(UnknownPicture):
        PictureSpec.from_json({"kind": "portrait", "values": {}})
    with pytest.raises(UnknownPicture):
        _ = PictureSpec.from_json({"kind": "soil_chart", "values": {"title": "x"}}).picture
    with pytest.raises(UnknownPicture):
        _ = PictureSpec.from_json({"kind": "yard_sketch", "values": {"zones": [{}]}}).picture


def test_polygons_leave_out_stray_lines():
    from shapely.geometry import GeometryCollection, LineString, Point

    square = Point(0, 0).buffer(1)
    assert polygons(GeometryCollection([square, LineString([(0, 0), (1, 1)])])) == [square]


def test_the_drawing_library_is_loaded_only_when_something_is_drawn():
    code = "import sys, bot.pictures.render; sys.exit('matplotlib' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_a_zone_that_is_done_is_ticked_within_it_and_the_note_says_so():
    done = replace(lawn("front", Rectangle(10, 8)), is_done=True)
    sketched = Sketch("Yard 1", "", (done, lawn("strip", Rectangle(20, 2))))
    ticks = [line for line in sketch_page(sketched).axes.lines if len(line.get_xdata()) == 3]
    assert len(ticks) == 1
    assert "Check mark: done." in describe_sketch(sketched)
    assert "Check mark" not in describe_sketch(replace(sketched, zones=(lawn("a", Square(3)),)))


def test_the_buffer_along_water_is_drawn_in_its_size_and_explained() -> None:
    shape = Rectangle(20, 10)
    found = with_buffer(outline(shape), 45.0)
    assert found.buffer.area == pytest.approx(45.0, rel=1e-4)
    assert found.ground.contains(found.buffer.buffer(-1e-6))
    zone = SketchZone("pond side", "155 of 200", None, shape, buffer_m2=45.0)
    sketch = Sketch("Mill Lane", "1 zone", (zone,))
    assert_legible(sketch_page(sketch))
    assert "left untreated" in describe_sketch(sketch)
