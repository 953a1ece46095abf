"""Yards in bulk: from nothing to a round of thirty, one more, and settings that hold for all."""

import csv
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path

import pandas as pd
import pytest

from bot.talk.routing import LONGEST_TEXT
from storage import yards
from tests.talk.harness import PLACE, Talker, labels_of, text_of

HEAD = ("Name", "Customer", "Address", "City", "State", "ZIP", "Zones", "Grass")
TOWNS = (("Wahoo", "NE", ""), ("Lincoln", "NE", ""), ("Ashland", "NE", "68003"))
LABEL = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 sq ft a year"


def row(number: int, **changed: str) -> tuple[str, ...]:
    town, state, code = TOWNS[number % 3]
    cells = {
        "Name": f"Birch {number}",
        "Customer": f"C. {number}",
        "Address": f"{number} Birch St",
        "City": town,
        "State": state,
        "ZIP": code,
        "Zones": f"front {40 + number}x40, back 30x20",
        "Grass": "tall fescue",
    }
    return tuple({**cells, **changed}.values())


def listed(folder: Path, *rows: tuple[str, ...]) -> str:
    path = folder / "round.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([HEAD, *rows])
    return str(path)


def kept(talker: Talker) -> list[yards.YardRecord]:
    with talker.db.reading() as work:
        return yards.of_chat(work, 1)


@pytest.fixture(scope="module")
def thirty(tmp_path_factory: pytest.TempPathFactory) -> Talker:
    """Somebody who set up thirty yards: five messages, taps among them."""
    folder = tmp_path_factory.mktemp("thirty")
    talker = Talker(folder)
    talker.say("/start")
    shown = talker.session.document(listed(folder, *map(row, range(30))))
    assert "30 yards read: 30 new" in text_of(shown)
    assert "30 yards added" in talker.tap("Add 30 yards")
    assert "Use it at my other 29 yards too" in labels_of(talker.say(LABEL))
    assert "29 more yards" in talker.tap("Use it at my other 29 yards too")
    return talker


def test_thirty_yards_stand_with_sizes_product_customer_and_town(thirty: Talker) -> None:
    mine = kept(thirty)
    assert len(mine) >= 30
    first = mine[0]
    assert (first.customer, first.address, first.town) == ("C. 0", "0 Birch St", "Wahoo, NE")
    # Whoever has customers treats for pay: nobody asks whose each yard is.
    assert first.owner == "pay"
    assert {yard.product_id for yard in mine} == {first.product_id}
    with thirty.db.reading() as work:
        areas = [sum(z.area_m2 for z in yards.zones(work, yard.id)) for yard in mine[:30]]
    # (40 + n) x 40 + 30 x 20 sq ft for n = 0 to 29: plain arithmetic.
    assert sum(areas) / 0.3048**2 == pytest.approx(30 * (1600 + 600) + 40 * sum(range(30)))


def test_a_list_sent_again_changes_what_differs_and_doubles_nothing(
    thirty: Talker, tmp_path: Path
) -> None:
    before = len(kept(thirty))
    same = thirty.session.document(listed(tmp_path, *map(row, range(30))))
    assert "0 new, 0 changed, 30 as they are" in text_of(same)
    other = row(3, Zones="front 50x40, back 30x20", Customer="C. 3")
    shown = thirty.session.document(listed(tmp_path, row(2), other))
    assert "0 new, 1 changed, 1 as they are" in text_of(shown)
    assert "1 yard changed" in thirty.tap("Change 1 yard")
    assert len(kept(thirty)) == before
    assert "Undone" in thirty.take_back()


def test_one_more_yard_takes_one_message_and_what_all_have_in_common(thirty: Talker) -> None:
    text = thirty.ask("new yard Maple 4, Wahoo NE, front 60x40, back 30x20")
    assert "Maple 4 added" in text
    assert "Product as at your other yards: prodiamine" in text
    assert "Grass as at your other yards: tall fescue" in text
    maple = kept(thirty)[-1]
    assert maple.town == "Wahoo, NE"
    assert maple.product_id is not None
    thirty.take_back()


def test_watering_days_said_of_one_yard_are_given_to_all_by_a_button(thirty: Talker) -> None:
    thirty.say("yard Birch 5")
    thirty.say("watering days Tue and Sat")
    assert "29 more yards" in thirty.tap("The same at my other 29 yards")
    assert len({yard.water_days for yard in kept(thirty)[:30]}) == 1
    thirty.take_back()


def test_names_are_told_apart_by_customer(thirty: Talker, tmp_path: Path) -> None:
    twin = row(1, Customer="Dutton", Address="9 Elm St")
    thirty.session.document(listed(tmp_path, twin))
    thirty.tap("Add 1 yard")
    assert kept(thirty)[-1].name == "Birch 1 (Dutton)"
    again = thirty.session.document(listed(tmp_path, twin))
    assert "0 new, 0 changed, 1 as they are" in text_of(again)
    assert "Birch 2 (Dutton)" in thirty.ask("call it Birch 2")
    thirty.take_back()
    thirty.take_back()


def test_a_report_at_a_name_two_yards_share_is_asked_and_lands_where_it_is_meant(
    tmp_path: Path,
) -> None:
    talker = Talker(tmp_path)
    rows = [
        "name, customer, town, zones, grass",
        "Walnut 66, Lee, Wahoo NE, front 60x40, tall fescue",
        "Walnut 66, Cobb, Wahoo NE, front 50x40, tall fescue",
        "Elm 4, Hale, Wahoo NE, front 60x40, tall fescue",
        "Elm 4, Hale, Wahoo NE, front 60x40, tall fescue",
        "Birch 3, Hale, Wahoo NE, front 60x40, bluegrass",
    ]
    # A list may be as long as the platform takes in one message.
    more = [f"Birch Lane {n}, A. Customer {n}, Wahoo NE, front 60x40, bluegrass" for n in range(30)]
    assert len("\n".join([*rows, *more])) > LONGEST_TEXT
    assert "34 yards read" in talker.ask("\n".join([*rows, *more]))
    shown = talker.ask("\n".join(rows))
    assert "Row 5, Elm 4: the same as row 4. Left out." in shown
    assert "4 yards added" in talker.tap("Add 4 yards")
    assert [each.name for each in kept(talker)[:2]] == ["Walnut 66 (Lee)", "Walnut 66 (Cobb)"]
    talker.say("go to Walnut 66 Lee")
    assert "Saved for Walnut 66 (Cobb), Elm 4" in talker.ask(
        f"{LABEL} for Walnut 66 Cobb and Elm 4"
    )
    assert kept(talker)[0].product_id is None
    asked = talker.say("applied 6.4 lb at Walnut 66")
    assert labels_of(asked)[:2] == ["Walnut 66 (Cobb)", "Walnut 66 (Lee)"]
    assert "Recorded for Walnut 66 (Cobb): front (2,000 sq ft), 6.4 lb" in talker.ask(
        "Walnut 66 Cobb"
    )
    both = talker.ask("applied 7.6 lb at Elm 4 and 5 lb at Birch 3")
    assert "Recorded for Elm 4: front (2,400 sq ft), 7.6 lb" in both
    assert "Recorded for Birch 3: front (2,400 sq ft), 5 lb" in both
    assert "for all together?" in talker.ask("applied 6 lb at Elm 4 and Birch 3")
    watered = talker.ask("watered everything, half an inch")
    assert "Walnut 66 (Cobb)" in watered
    assert "Elm 4" in watered


def test_a_crew_that_hardly_answers_hears_little_and_in_the_end_nothing(tmp_path: Path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 3, 10, 14, tzinfo=UTC))
    where = f"{PLACE[0]}, {PLACE[1]}"
    talker.say("\n".join(f"Birch {n}, A. Customer, {where}, front 60x40" for n in range(2)))
    talker.tap("Add 2 yards")
    talker.say(LABEL)
    talker.tap("Use it at my other yard too")
    told = talker.wait("P29D")
    # One yard is treated and never heard of again, the other not even that.
    talker.say("applied at Birch 0")
    told += talker.wait("P170D")
    assert {each.alert for each in told} >= {"window_open", "water_in", "window_missed"}
    # 60 messages on 40 mornings is what the owner of thirty yards may hear in a year at most.
    assert 8 <= len(told) <= 20
    assert len({str(each.at)[:10] for each in told}) == len(told)
    said = Counter(" ".join(each.reply.text.splitlines()[:2]) for each in told)
    assert max(said.values()) <= 2


def test_what_cannot_be_read_is_named_row_by_row_and_the_rest_is_taken(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    path = tmp_path / "round.xlsx"
    frame = pd.DataFrame(
        [
            ("Elm 1", "Wahoo", "NE", 5200, "moss"),
            ("Elm 2", "Nowhere Atall", "NE", 5200, ""),
            ("Elm 3", "", "", 5200, ""),
            ("Elm 4", "Lincoln", "", 5200, "bermuda"),
        ],
        columns=["Yard", "Town", "State", "Area (sq ft)", "Grass"],
    )
    frame.to_excel(path, index=False)
    text = text_of(talker.session.document(str(path)))
    assert "2 yards read" in text
    assert 'Row 2, Elm 1: I don\'t know the grass "moss"' in text
    assert 'Row 3, Elm 2: I don\'t know the place "Nowhere Atall, NE"' in text
    assert "Row 4, Elm 3: no town" in text
    # There are many towns of that name; the one near the rest of the list is meant, and shown.
    assert "Elm 4: Lincoln, NE, 5,200 sq ft" in text
    assert "Left" in talker.tap("Leave it")
    assert kept(talker) == []


def test_a_file_that_is_no_table_is_refused_with_an_example(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    broken, none = tmp_path / "broken.xlsx", tmp_path / "none.csv"
    broken.write_bytes(b"PK\x03\x04 no workbook")
    none.write_text("just some words\n")
    for path in (broken, none):
        assert "Birch St 12, Wahoo NE" in text_of(talker.session.document(str(path)))


@pytest.mark.parametrize(("words", "name"), [("/yards template", "Birch"), ("plantilla", "Birch")])
def test_a_template_can_be_asked_for_and_reads_as_a_list(
    tmp_path: Path, words: str, name: str
) -> None:
    talker = Talker(tmp_path)
    (said,) = talker.say(words)
    assert said.reply.file is not None
    text = text_of(talker.session.document(said.reply.file))
    assert "2 yards read: 2 new" in text
    assert f"{name} St 12: A. Customer; Wahoo" in text.replace(", Wahoo", "; Wahoo")


def test_a_pasted_list_is_shown_then_added_on_yes(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    text = talker.ask("Birch St 12, Wahoo NE, front 60x40\nWalnut 66, 68506, back 30x20")
    assert "2 yards read: 2 new" in text
    assert "2 yards added" in talker.ask("yes")
    assert [yard.name for yard in kept(talker)] == ["Birch St 12", "Walnut 66"]


def test_all_yards_are_listed_in_pages_with_town_and_state(thirty: Talker) -> None:
    said = thirty.say("yards")
    seen = text_of(said)
    assert "Your yards (3" in seen
    assert "Page 1 of 4" in seen
    # By town: Ashland before Lincoln before Wahoo.
    assert "(Ashland, NE): " in seen
    assert "(Wahoo, NE): " not in seen
    while "More" in labels_of(said):
        said = thirty.session.tap("More")
        assert said[0].reply.replaces
        seen += text_of(said)
    assert {f"Birch {number} (" in seen for number in range(30)} == {True}
    by_urgency = thirty.tap("By urgency")
    assert "Page 1 of 4" in by_urgency


def test_one_shopping_list_covers_the_season_over_all_yards(thirty: Talker) -> None:
    text = thirty.ask("shopping list")
    # 30 x 2,200 + 40 x 435 = 83,400 sq ft, two halves of 3.2 lb per 1,000: 533.76 lb.
    assert "534 lb for 30 yards" in text
    assert thirty.ask("lista de compras") == text


@pytest.mark.parametrize("words", ["we start from Ashland, NE", "salimos de 68003"])
def test_where_the_round_starts_is_kept(thirty: Talker, words: str) -> None:
    assert "Your route starts from Ashland, NE" in thirty.ask(words)


def test_the_next_yard_is_given_whole_without_saying_that_it_is_one(tmp_path) -> None:
    talker = Talker(tmp_path)
    assert "Lincoln, NE" in talker.ask("first one is the old mill, 1412 Maple, Lincoln NE")
    talker.say("front 45x30, back 60x40")
    answer = talker.ask("third: oak street, 68510, front 30x30, back 50x40, side 8x60")
    assert "oak street: Lincoln, NE, 3,380 sq ft" in answer
    assert "Yard 1" in talker.ask("yards")


def test_a_strength_and_a_rate_are_no_place(talker) -> None:
    assert "set up at" not in talker.ask("all of them get prodiamine 0.38, 3.2 lb per 1000")
