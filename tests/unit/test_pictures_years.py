import re
from pathlib import Path

import pytest

from bot.pictures.page import WIDTH
from bot.pictures.render import PictureSpec, render
from bot.pictures.years_chart import YearLane, YearsChart, years_page
from tests.unit.written import text_boxes

CHART = YearsChart(
    "Alder Court 7: years side by side",
    (
        YearLane(2024, 205, (208, 262), None),
        YearLane(2025, 212, (60, 214), 330),
        YearLane(2026, 214, (), 240),
    ),
    is_invented=True,
)


def test_it_is_drawn_once_and_the_same_each_time(tmp_path: Path) -> None:
    spec = PictureSpec.of(CHART)
    assert PictureSpec.from_json(spec.to_json()).picture == CHART
    first = render(spec, tmp_path)
    assert first.read_bytes().startswith(b"\x89PNG")
    assert first.stat().st_size < 300_000
    (tmp_path / "again").mkdir()
    assert render(spec, tmp_path / "again").read_bytes() == first.read_bytes()


def test_the_text_says_what_the_picture_shows() -> None:
    text = PictureSpec.of(CHART).text
    assert "2024: applied Mar 27, May 20." in text  # 208 and 262 days after 1 September 2023
    assert "2026: nothing applied. The window opened Apr 3. First weeds seen Apr 29." in text


def test_each_mark_has_its_date() -> None:
    page = years_page(CHART)
    page.canvas.draw()
    written = [words for words, _ in text_boxes(page)]
    # Three marks, four, and two: counted in CHART.
    assert sum(bool(re.fullmatch(r"\w{3} \d+", words)) for words in written) == 9


@pytest.mark.parametrize("month", [9, 3])
def test_nothing_is_written_off_the_page_or_over_other_words(month: int) -> None:
    page = years_page(YearsChart(CHART.title, CHART.lanes, month))
    page.canvas.draw()
    boxes = text_boxes(page)
    for words, box in boxes:
        assert box.left >= 0, words
        assert box.right <= WIDTH, words
        assert 0 <= box.top <= box.bottom <= page.height, words
    for at, (words, box) in enumerate(boxes):
        for other, there in boxes[at + 1 :]:
            assert not box.meets(there), (words, other)


def test_a_half_put_down_in_autumn_has_its_place_before_the_spring() -> None:
    assert "Oct 31" in PictureSpec.of(CHART).text


def test_a_yard_with_nothing_on_record_still_draws(tmp_path: Path) -> None:
    lone = YearsChart("Yard 1", (YearLane(2026, None, (), None),))
    assert render(PictureSpec.of(lone), tmp_path).exists()
