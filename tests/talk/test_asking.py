"""Questions with an answer of their own: when, too late, how long, why, who, words for others."""

import re

import pytest

from bot.hearing.acts import ACTS
from bot.hearing.readers.dates import WhenRead
from bot.saying.catalogue import say
from bot.talk.table import BEFOREHAND
from jobs.local_days import local
from tests.talk.by_hand import Somebody, labels_of, text_of


def first_line(text: str) -> str:
    return text.splitlines()[0]


# Before a place is known.


def test_every_act_for_anywhere_has_its_general_answer():
    anywhere = {name for name, act in ACTS.items() if act.is_for_anywhere}
    assert anywhere == set(BEFOREHAND)
    # Without a yard nothing is changed: what went wrong, and a year left out, are advised on.
    changing = {name for name in anywhere if ACTS[name].changes}
    assert changing == {"undo", "report_gap", "report_too_much", "report_service", "mute"}


@pytest.mark.parametrize("act", sorted(set(BEFOREHAND) - {"undo"}))
def test_a_question_before_a_place_is_answered_and_asks_for_the_place(house, act):
    newcomer = Somebody(house)
    (reply,) = newcomer.do(act)
    assert reply.asks_place
    assert "Type a town and state" in reply.text.splitlines()[-1]
    assert len(reply.text.splitlines()) >= 2


def test_the_general_answer_to_when_holds_the_band():
    # 50 to 55 °F: Michigan State University Extension 2020; PNW Weed Management Handbook.
    assert "50 to 55 °F" in say("beforehand.when")


def test_other_work_is_answered_before_a_place_is_known(house):
    assert "Mow before you apply" in Somebody(house).ask("ask_other_work", work="mow")


# When.


def test_in_february_it_is_not_yet_with_two_days(owner):
    told = owner.ask("ask_when")
    said = r"Not yet. Apply at Alder Court between \w+ \w+ \d+ and \w+ \w+ \d+ "
    assert re.fullmatch(said + r"\(weeds come first 1 year in [2-5]\)\.", first_line(told))
    behind = owner.ask("ask_why")
    assert "The window may open" in behind
    assert "First crabgrass: about" in behind


def test_in_the_open_window_it_is_now_with_the_deadline(house, owner):
    house.until("window_open")
    assert re.match(r"Now: apply and water in at Alder Court by ", owner.ask("ask_when"))


def test_what_is_still_to_do_is_named_where_a_part_is_down(house, owner):
    house.until("window_open")
    owner.apply("front")
    assert "Part of it is done. Still to do: strip." in owner.ask("ask_when")


def test_before_the_window_a_part_down_leaves_no_talk_of_a_last_application(house, owner):
    owner.apply("front")
    told = owner.ask("ask_barrier")
    assert first_line(told) == "Part of it is done. Still to do: strip."
    assert "No second" not in told


def test_once_it_is_down_the_answer_is_the_second_one(house, owner):
    house.until("window_open")
    owner.apply()
    said = r"Applied \(Alder Court, today\)\. Second application: about \w+ \w+ \d+\."
    assert re.fullmatch(said, first_line(owner.ask("ask_when")))


def test_when_has_a_why_beside_it(owner):
    assert labels_of(owner.do("ask_when")) == ["Why", "Soil", "Amounts"]


# Too late.


def test_too_late_is_a_plain_no_as_long_as_it_is_early(owner):
    assert owner.ask("ask_late").startswith("No, you are early. ")


def test_too_late_is_a_plain_no_once_it_is_down(house, owner):
    house.until("window_open")
    owner.apply()
    assert owner.ask("ask_late").startswith("No: you applied")


def test_after_emergence_the_late_answer_says_what_helps(house, owner):
    house.until("window_missed")
    told = owner.ask("ask_late")
    assert told.startswith("For weeds that are up, yes: first crabgrass was expected")
    # Crabgrass up to one tiller: Purdue and University of Tennessee articles.
    assert "dithiopyr" in told
    assert "quinclorac" in told
    assert "pull them" in told
    assert "next spring" in told


def test_at_the_end_of_summer_it_is_over_for_this_year(house, owner):
    house.wait(200)
    told = owner.ask("ask_late")
    assert told.startswith("Yes, for this year")
    assert "before they seed" in told


# How long it holds.


def test_nothing_down_is_no_barrier(owner):
    assert owner.ask("ask_barrier").startswith("Nothing is applied yet at Alder Court.")


def test_the_barrier_is_told_by_zone_with_the_second_one(house, owner):
    house.until("window_open")
    owner.apply()
    told = owner.ask("ask_barrier")
    assert re.search(r"It holds about \d+ to \d+ weeks from today\.", told)
    assert told.startswith("Second application: about")


def test_what_went_down_last_year_is_no_barrier_this_year(house, owner):
    house.until("window_open")
    owner.apply()
    house.wait(330)
    assert owner.ask("ask_barrier").startswith("Nothing is applied this year at Alder Court yet.")


# Why.


def test_why_names_figures_and_sources(owner):
    told = owner.ask("ask_why")
    # 42 degree-days over 12 °C are 76 over 54 °F: Fidanza, Dernoeden and Zhang 1996, Crop Sci. 36.
    assert "warmth over 54 °F" in told
    assert "At 76 degree-days" in told
    assert "Fidanza" in told
    assert "Michigan State University Extension" in told
    assert re.search(r"Past years on this date: .* \(years of data: \d+\)", told)
    assert "Soil data through" in told


def test_why_is_not_when(owner):
    assert owner.ask("ask_why") != owner.ask("ask_when")


def test_why_says_how_the_barrier_is_reckoned_once_it_is_down(house, owner):
    house.until("window_open")
    assert "How long it lasts:" not in owner.ask("ask_why")
    owner.apply()
    assert "How long it lasts:" in owner.ask("ask_why")


# Who.


def test_who_did_what_is_told_with_day_and_amount(house, owner):
    house.until("window_open")
    owner.apply("front")
    (line,) = [x for x in owner.ask("ask_who").splitlines() if x.startswith("- ")]
    # 223 m² at 3.2 lb per 1,000 sq ft: 2,400 sq ft, 7.68 lb.
    assert line == "- today: Casey Dell, front, 7.68 lb"


def test_who_did_one_zone_tells_of_that_zone_alone(house, owner):
    house.until("window_open")
    owner.apply()
    told = owner.ask("ask_who", zones=("strip",))
    assert "strip" in told
    assert "front" not in told


def test_who_did_it_on_a_day_nothing_was_done_is_nobody(house, owner):
    house.until("window_open")
    owner.apply()
    at = local(house.now, owner.yard.timezone).replace(day=1)
    told = owner.ask("ask_who", on=WhenRead(at, False, False, "on the first"))
    assert told.startswith("Nothing recorded")


# Sharing with somebody named.


def test_somebody_named_is_invited_by_role(owner):
    replies = owner.do("share", person="Sam")
    assert "Inviting Sam to Alder Court" in text_of(replies)
    assert labels_of(replies) == ["Invite to see", "Invite to confirm", "Invite to change"]


# Words for others.


def test_a_notice_before_it_goes_down_has_days_and_ingredient(owner):
    intro, notice = owner.do("ask_notice")
    assert "the label wins" in intro.text
    assert "signs" in intro.text
    assert re.search(r"between \w+ \w+ \d+ and \w+ \w+ \d+", notice.text)
    assert "prodiamine" in notice.text
    assert "keep kids and pets off" in notice.text
    assert labels_of([intro]) == ["For a customer", "For a landlord", "For residents", "In Spanish"]
    assert notice.buttons == ()


def test_a_notice_after_it_went_down_has_its_date_not_today(house, owner):
    house.until("window_open")
    owner.apply()
    intro, notice = owner.do("ask_notice")
    assert "today" not in notice.text
    assert "went on the lawn (front, strip)" in notice.text
    assert "still has to be watered in" in notice.text
    assert "Notice for before" in labels_of([intro])


def test_after_two_weeks_a_notice_is_about_the_next_one(house, owner):
    house.until("window_open")
    owner.apply()
    house.wait(20)
    intro, notice = owner.do("ask_notice")
    assert "goes on the lawn" in notice.text
    assert "Notice for after" in labels_of([intro])


# Which product.


def test_an_ingredient_that_hurts_the_grass_is_not_listed_for_it(owner):
    told = owner.ask("ask_product", grass="tall_fescue")
    assert "indaziflam" not in told
    assert "prodiamine" in told


def test_a_named_ingredient_that_hurts_the_grass_is_said_so(owner):
    told = owner.ask("ask_product", product="mesotrione", grass="bermudagrass")
    assert "NOT for bermudagrass" in told


def test_without_a_grass_all_that_it_hurts_are_named(house):
    told = Somebody(house).ask("ask_product")
    line = next(x for x in told.splitlines() if x.startswith("- indaziflam"))
    assert "NOT for" in line
    assert "tall fescue" in line
