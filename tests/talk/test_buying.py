"""What to buy: packs for one yard or all, a round or the year, stock on the shelf, compared."""

import pytest

from storage import yards
from storage.yards import NewZone
from tests.talk.harness import PLACE, Talker, labels_of, lived

GRANULE = "/product prodiamine 0.38% granule, 3.927 lb per 1000 sq ft, max 8 lb per 1000 a year"


@lived
def asked(talker: Talker) -> None:
    """Somebody who has put the questions before buying behind them."""
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 2,400 sq ft, back 5,150 sq ft, side 980 sq ft")
    talker.say(GRANULE)
    talker.say("buy")
    talker.tap("Skip the rest")


def test_w9_packs_for_three_zones(asked: Talker) -> None:
    # Worked example W9, computed: 33.50 lb in all; 2 bags of 25 lb or 1 of 40 lb.
    asked.say("bags 25 lb, 40 lb")
    text = asked.ask("/buy")
    assert "33.5 lb for 8,530 sq ft" in text
    assert "Buy 1 x 40 lb" in text
    assert "Or 2 x 25 lb" in text
    assert "Tell me prices" in text


def test_least_cost_and_least_left_over_differ(asked: Talker) -> None:
    asked.say("bags 25 lb $20, 40 lb $55")
    assert "Buy 2 x 25 lb, $40.00. Left over: 16.5 lb" in asked.ask("buy")
    assert "Buy 1 x 40 lb, $55.00. Left over: 6.5 lb" in asked.tap("Least left over")
    assert "Buy 2 x 25 lb" in asked.tap("Least cost")


def test_the_year_takes_every_round_the_label_allows(asked: Talker) -> None:
    asked.say("bags 25 lb $20")
    text = asked.ask("buy for the year")
    assert "this year's 2 applications: 67 lb" in text
    assert "Buy 3 x 25 lb" in text
    asked.say("1 application a year")
    text = asked.ask("buy for the year")
    assert "33.5 lb" in text
    assert "your label still allows on front, back, side this year: 1." in text


def test_zones_the_label_has_no_room_for_are_not_bought_for(asked: Talker) -> None:
    asked.say("bags 25 lb $20")
    # 7 of 8 lb per 1,000 sq ft are down on the side: no full round is left there.
    asked.say("the service put down 6.86 lb of prodiamine 0.38% on the side yesterday")
    text = asked.ask("/buy")
    # 7,550 sq ft at 3.927 lb per 1,000 sq ft: 29.65 lb.
    assert "29.65 lb for 7,550 sq ft" in text
    assert "Already done this time: side" in text
    assert "applications your label still allows on side this year: 0." in asked.ask(
        "buy for the year"
    )


def test_a_zone_of_which_nobody_knows_what_is_down_is_not_bought_for(asked: Talker) -> None:
    asked.say("bags 25 lb $20")
    asked.say("the service sprayed prodiamine on the side yesterday")
    text = asked.ask("/buy")
    assert "for 7,550 sq ft" in text
    assert "Already done this time: side" in text


def test_what_may_not_go_down_yet_may_be_bought(asked: Talker) -> None:
    asked.say("bags 25 lb $20")
    asked.say("at least 60 days between applications")
    asked.say("applied")
    asked.wait("P1D")
    text = asked.ask("/buy")
    assert "application 2 of 2: 33.5 lb" in text
    # Applied on 10 February: 60 days after it is 11 April.
    assert "Do not apply before Sat Apr 11" in text
    assert "Not before Sat Apr 11" in asked.ask("/amounts")


def test_stock_on_the_shelf_counts(asked: Talker) -> None:
    asked.say("bags 25 lb $20")
    asked.say("I have 10 lb left")
    text = asked.ask("buy")
    assert "You have 10 lb" in text
    assert "Buy 1 x 25 lb" in text
    asked.say("bought 2 bags of 25 lb")
    text = asked.ask("buy")
    assert "Your 60 lb is enough" in text
    assert "You will have 26.5 lb left" in text


def test_what_is_left_over_is_carried_to_the_next_round(asked: Talker) -> None:
    asked.say("bags 40 lb $55")
    # 2 rounds of 33.496 lb less 40 lb: 26.99 lb more (computed).
    assert "need 27 lb more" in asked.ask("buy")


def test_what_is_left_over_may_do_for_the_next_round(asked: Talker) -> None:
    asked.say("bags 80 lb $100")
    assert "covers the later applications" in asked.ask("buy")


def test_all_yards_with_the_same_product_together(asked: Talker) -> None:
    asked.say("bags 25 lb $20, 40 lb $55")
    asked.session.location(40.0, -96.0)
    asked.tap("New yard")
    asked.say("lawn 2,000 sq ft")
    asked.say(GRANULE)
    asked.say("buy")
    asked.tap("Skip the rest")
    text = asked.ask("buy all")
    assert "Yard 1, Yard 2" in text
    assert "Yard 1: 33.5 lb" in text
    assert "Yard 2: 7.85 lb" in text
    assert "41.35 lb" in text


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("i have a bag and a half", "You have 75 lb"),
        ("picked up two more bags", "You have 110 lb"),
        ("I've got one and a half 30 lb bags left over", "You have 45 lb"),
        ("inventory: 9 bags, 40 lb each", "You have 360 lb"),
        ("bag's empty now, none left", "You have 0 oz"),
        ("lent the neighbor two bags, we're at 9", "How much is left of it?"),
        ("one bag is 42 dollars", "50 lb at $42.00"),
        ("they also sell a 25 lb bag for 27 bucks", "25 lb at $27.00"),
    ],
)
def test_the_shelf_is_told_in_free_speech(asked: Talker, said: str, told: str) -> None:
    asked.say("bags 50 lb")
    asked.say("I have 10 lb left")
    assert told in asked.ask(said)


def test_zones_left_out_are_not_bought_for(asked: Talker) -> None:
    asked.say("back is new seed")
    assert "for 3,380 sq ft" in asked.ask("buy")


def test_products_are_compared_by_cost_per_treated_thousand(asked: Talker) -> None:
    # 50 lb at $62 and 3.927 lb per 1,000: $4.87; 50 lb at $50 and 3.8 lb: $3.80 (computed).
    asked.say("bags 50 lb $62")
    asked.say(
        "/product dithiopyr 0.15% granule, 3.8 lb per 1000 sq ft, max 8 lb per 1000 a year, "
        "bags 50 lb $50"
    )
    lines = asked.ask("compare").splitlines()
    assert lines[1].startswith("$3.80: dithiopyr")
    assert lines[2].startswith("$4.87: prodiamine")


def test_without_packs_the_need_is_told_and_packs_are_asked_for(asked: Talker) -> None:
    text = asked.ask("what should I buy?")
    assert "33.5 lb" in text
    assert "What sizes is it sold in" in text


def test_nothing_is_bought_that_the_label_stops(asked: Talker) -> None:
    asked.until_alert("window_open")
    asked.say("applied")
    asked.say("applied")
    asked.tap("Yes, a second one")
    assert "No amounts" in asked.ask("buy")


def test_a_week_of_buttons_stays_on_the_same_question(asked: Talker) -> None:
    asked.say("bags 25 lb $20, 40 lb $55")
    assert "Whole year" in labels_of(asked.say("buy"))
    assert "This application" in labels_of(asked.session.tap("Whole year"))


@pytest.mark.parametrize(
    ("shelf", "told"),
    [("50 lb", "You have enough product (50 lb)"), ("10 lb", "Buy product")],
)
def test_the_call_to_buy_knows_what_stands_on_the_shelf(
    asked: Talker, shelf: str, told: str
) -> None:
    asked.say(f"I have {shelf} left")
    text = asked.until_alert("soil_warming").reply.text
    assert told in text
    assert ("Buy product" in text) == (shelf == "10 lb")


@pytest.mark.parametrize(("shelf", "is_enough"), [("50 lb", True), ("38 lb", False)])
def test_one_shelf_has_to_do_for_every_yard_on_the_product(
    asked: Talker, shelf: str, is_enough: bool
) -> None:
    asked.say(f"I have {shelf} left")
    with asked.db.writing() as work:
        first = yards.yard(work, 1)
        assert first is not None
        other = yards.add(
            work,
            chat_id=first.chat_id,
            person_id=1,
            name="Alder Court",
            lat=first.lat,
            lon=first.lon,
            timezone=first.timezone,
            lead_days=first.lead_days,
            split_days=56,
            rounds=2,
            now=asked.session.now,
        )
        # 1,300 sq ft at 3.927 lb is 5.1 lb beside the 33.5 lb of the first (computed).
        zone = NewZone("lawn", "120 m²", "120 m²", "", 120.0)
        yards.keep_zones(work, other.id, [zone], person_id=1, now=asked.session.now)
        yards.change(work, other.id, product_id=first.product_id)
    text = asked.until_alert("soil_warming").reply.text
    assert "2 yards have news" in text
    assert ("you have enough product" in text) == is_enough
    assert ("buy now" in text) != is_enough
