"""The photo of a label: read where `tesseract` is, confirmed figure by figure, and kept."""

import os
import shutil
import stat
from pathlib import Path

import pytest

from bot.hearing.readers.label_photo import sure_figures, words_of
from bot.label_reader import read_label
from bot.terminal import Session
from storage import photos, products, yards
from tests.talk.harness import Talker, lived, text_of

HEAD = "level page_num block_num par_num line_num word_num left top width height conf text"
#: What our own made-up bag says, a line a row; the number behind a word is how sure it is.
BAG = """Mill Lane lawn granules
Active ingredient:
Prodiamine ........ 0.38%
Other ingredients ........ 99.62%
Apply 3.2 lb per 1,000 sq ft
Covers up to 15,000 sq. ft.
Do not apply more than 6.4 lb
per 1,000 sq ft per calendar year
NET WT. 48 LB (21.7 kg)"""


def rows_of(text: str, unsure: tuple[str, ...] = ()) -> str:
    """Return a text as rows of words, in the form that Tesseract's manual gives (TSV renderer)."""
    rows = [HEAD.split()]
    for number, line in enumerate(text.splitlines(), 1):
        rows.append([*f"4 1 1 1 {number} 0 10 {number * 40} 800 30 -1".split(), ""])
        for at, word in enumerate(line.split(), 1):
            conf = "41.5" if word in unsure else "95.2"
            rows.append(
                f"5 1 1 1 {number} {at} {at * 60} {number * 40} 55 30 {conf} {word}".split()
            )
    return "\n".join("\t".join(row) for row in rows)


@pytest.fixture
def reader(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Return what puts a `tesseract` on the path that answers with given rows."""

    def installed(text: str, unsure: tuple[str, ...] = ()) -> None:
        folder = tmp_path / "bin"
        folder.mkdir(exist_ok=True)
        (folder / "rows.tsv").write_text(rows_of(text, unsure))
        program = folder / "tesseract"
        program.write_text(
            f'#!/bin/sh\n[ "$2" = stdout ] && [ "$7" = tsv ] || exit 1\ncat {folder}/rows.tsv\n'
        )
        program.chmod(program.stat().st_mode | stat.S_IXUSR)
        monkeypatch.setenv("PATH", f"{folder}{os.pathsep}{os.environ['PATH']}")

    return installed


@lived
def owner(talker: Talker) -> None:
    talker.say("66502")
    talker.say("front 60x40")
    talker.tap("Keep")


def send_photo(talker: Talker, tmp_path: Path) -> str:
    label = tmp_path / "label.jpg"
    label.write_bytes(b"jpeg")
    return text_of(talker.session.photo(str(label)))


def product_of(talker: Talker):
    with talker.db.reading() as work:
        yard = yards.yard(work, 1)
        return None if yard.product_id is None else products.product(work, yard.product_id)


def test_each_figure_is_confirmed_and_goes_the_way_of_typed_words(owner, reader, tmp_path) -> None:
    reader(BAG)
    first = send_photo(owner, tmp_path)
    assert "a photo misleads" in first
    assert "Active ingredient: prodiamine" in first
    assert "0.38%" in owner.tap("The label says so")
    assert "48 lb" in owner.ask("yes")
    assert "15,000 sq ft" in owner.tap("The label says so")
    # Nothing is kept of it before every figure was confirmed.
    assert product_of(owner) is None
    assert "6.4 lb per 1,000 sq ft in a year" in owner.tap("The label says so")
    kept = owner.tap("The label says so")
    # 48 lb on 15,000 sq ft, by hand.
    assert "prodiamine 0.38%, granules, 3.2 lb per 1,000 sq ft" in kept
    assert "Label maximum: 6.4 lb per 1,000 sq ft in a calendar year" in kept
    with owner.db.reading() as work:
        assert photos.of_product(work, product_of(owner).id) is not None
    assert "The label, your photo of" in (owner.say("/product"), owner.tap("Photo of the label"))[1]


def test_what_is_not_confirmed_is_asked_as_ever_and_a_rate_is_never_taken(
    owner, reader, tmp_path
) -> None:
    reader("Prodiamine 0.38%\nApply 3.2 lb per 1,000 sq ft")
    send_photo(owner, tmp_path)
    owner.tap("The label says so")
    assert "How much goes on an area?" in owner.tap("The label says so")
    assert product_of(owner) is None


def test_a_wrong_figure_is_left_out_and_so_is_what_belongs_to_it(owner, reader, tmp_path) -> None:
    reader(BAG)
    send_photo(owner, tmp_path)
    assert "Net weight: 48 lb" in owner.tap("No, leave it out")
    assert "covers 15,000 sq ft" in owner.ask("no")
    # A word of one's own goes before what the photo is taken to say.
    assert "How much goes on an area?" in owner.ask("dithiopyr 0.25%")


def test_a_photo_that_is_not_surely_read_proposes_nothing(owner, reader, tmp_path) -> None:
    reader("Prodiamine 0.38%", unsure=("Prodiamine",))
    said = send_photo(owner, tmp_path)
    assert "not read this photo surely enough" in said
    assert "How strong is it?" in owner.ask("prodiamine")


def test_en_espanol_se_confirma_igual(tmp_path, reader) -> None:
    talker = Talker(tmp_path)
    talker.session = Session(talker.machine, talker.messenger, talker.clock, 1, "es")
    for each in ("66502", "frente 60x40", "si"):
        talker.say(each)
    reader(BAG)
    assert "Ingrediente activo: prodiamine. ¿Eso dice la etiqueta?" in send_photo(talker, tmp_path)
    assert "Porcentaje junto a él: 0.38" in talker.tap("Así dice")


def test_without_a_reader_the_photo_is_kept_and_the_label_typed(owner, monkeypatch, tmp_path):
    monkeypatch.setenv("PATH", str(tmp_path))
    assert "I take no dose from a photo" in send_photo(owner, tmp_path)
    assert "How strong is it?" in owner.ask("prodiamine")
    owner.say("0.38%")
    owner.say("3.2 lb per 1000")
    with owner.db.reading() as work:
        assert photos.of_product(work, product_of(owner).id) is not None
        assert photos.newest(work, 1) is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        # Two bags on one label, or a misreading: neither.
        ("Covers 5,000 sq ft\nCovers 15,000 sq ft", []),
        ("Net Wt 16 lbs\nTreats 5,000 square feet", ["16 lb bag", "covers 5,000 sq ft"]),
        # A percentage needs its ingredient.
        ("0.38% and 99.62%", []),
        ("Prodiamine 380%", ["prodiamine"]),
        (
            "not to exceed 0.5 oz per 1000 sq ft per application",
            ["max 0.5 oz per 1000 sq ft per application"],
        ),
        ("rm -rf; Covers 1 sq ft", []),
    ],
)
def test_figures_stand_among_a_labels_words(text: str, said: list[str]) -> None:
    found = sure_figures(words_of(rows_of(text)))
    assert [each.said for each in found] == said


@pytest.mark.parametrize("rows", ["", "level\tconf", "\x00\t\t", rows_of("Prodiamine")[:80]])
def test_rows_of_another_form_are_no_words(rows: str) -> None:
    assert words_of(rows) == []


def test_the_program_itself_reads_a_clear_label(tmp_path: Path) -> None:
    if shutil.which("tesseract") is None:
        pytest.skip("tesseract is not installed")
    from PIL import Image, ImageDraw, ImageFont

    picture = Image.new("RGB", (1400, 900), "white")
    font = ImageFont.load_default(size=48)
    ImageDraw.Draw(picture).multiline_text((60, 60), BAG, fill="black", font=font, spacing=24)
    picture.save(tmp_path / "label.png")
    assert {each.said for each in read_label(tmp_path / "label.png") or ()} >= {
        "prodiamine",
        "48 lb bag",
    }
