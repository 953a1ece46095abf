"""Rounds of a whole year: chosen in words, called for in their time, held by a barrier."""

import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.terminal import Said
from jobs.agronomy.season import Target
from storage import applications, seasons, yards
from tests.made_yard import alerts_of
from tests.talk.harness import PLACE, Talker, labels_of, lived, text_of


def target_state(talker: Talker, target: Target) -> str:
    with talker.db.reading() as work:
        season = seasons.season(work, 1, target)
    assert season is not None
    return season.state


@pytest.fixture
def late(tmp_path: Path) -> Talker:
    """A yard with a late-summer round, in July."""
    return late_in(tmp_path, datetime(2026, 7, 25, 14, tzinfo=UTC))


def late_in(folder: Path, start: datetime) -> Talker:
    talker = Talker(folder, start=start)
    talker.settle_in()
    talker.say("late summer round")
    return talker


def test_a_yard_has_no_late_summer_round_unless_it_chose_one(tmp_path: Path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 7, 25, 14, tzinfo=UTC))
    talker.settle_in()
    talker.wait("P90D")
    with talker.db.reading() as work:
        assert {alert.target for alert in alerts_of(work, 1)} <= {"summer_annuals"}
    assert "annual bluegrass: none" in talker.ask("rounds")


def test_the_late_summer_round_is_offered_once_in_july_and_a_yes_puts_it_on(
    tmp_path: Path,
) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 6, 20, 14, tzinfo=UTC))
    talker.settle_in()
    offers = [said for said in talker.wait("P40D") if "late-summer application" in said.reply.text]
    [offer] = offers
    assert "without odds: apply by" in offer.reply.text
    assert offer.at.month == 7
    # "Yes" alone will do.
    assert "late-summer application for annual bluegrass" in talker.ask("yes")
    opened = talker.until_alert("window_open")
    assert "nnual bluegrass" in opened.reply.text


def test_an_offer_declined_or_left_alone_calls_for_nothing(tmp_path: Path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 6, 25, 14, tzinfo=UTC))
    talker.settle_in()
    talker.wait("P10D")
    assert "no late-summer application" in talker.tap("No, thanks")
    told = [said.reply.text for said in talker.wait("P100D")]
    assert not [text for text in told if "annual bluegrass" in text]


def test_late_summer_is_called_in_its_own_words_and_days(late: Talker) -> None:
    for kind in ("soil_warming", "window_open", "act_now"):
        text = late.until_alert(kind).reply.text
        assert "annual bluegrass" in text.lower()
        for spring in ("crabgrass", "50 °F", "55 °F", "April", "May"):
            assert spring not in text, (kind, spring)
        if kind == "window_open":
            assert "against annual bluegrass" in late.ask("is it time yet")
        # No deadline is said without the chance that weeds come first.
        assert ("water in by" in text) == ("weeds come first roughly 1 year in" in text), text


def test_each_target_has_its_own_state_and_a_yard_speaks_of_one(settled: Talker) -> None:
    settled.say("late summer round")
    settled.until_alert("window_open")
    settled.say("applied with 18 lb")
    assert "bluegrass" not in settled.ask("/yard")
    text = settled.ask("/plan")
    assert "Crabgrass (spring): applied" in text
    assert "Annual bluegrass (late summer): waiting" in text


def test_the_late_summer_heads_up_comes_before_soil_falls_through_seventy(late: Talker) -> None:
    told = late.until_alert("soil_warming")
    assert "annual bluegrass" in told.reply.text.lower()
    # Our own rule for regions without a published date: two weeks before 1 September, at latest.
    assert (told.at.month, told.at.day) <= (8, 19)
    assert told.at.month >= 8


def test_the_late_summer_window_opens_is_applied_and_ends_in_waiting(late: Talker) -> None:
    opened = late.until_alert("window_open")
    assert "nnual bluegrass" in opened.reply.text
    assert opened.at.month in (8, 9)
    assert "late-summer application" in late.tap("I applied it")
    assert target_state(late, Target.WINTER_ANNUALS) == "applied"
    # What is done is asked for no more, and the day's words are of this round, not of spring.
    amounts = late.say("/amounts")
    assert "nothing more to apply this season" in amounts[-1].reply.text
    assert "I applied it" not in labels_of(amounts)
    for asked in ("/spreader", "/buy"):
        assert "The next one is in spring" in late.ask(asked)
    late.ask("/spreader")
    assert "nothing more is due" in late.tap("What one took")
    for asked in ("/soil", "/yard"):
        said = late.ask(asked)
        assert "Late summer: applied against annual bluegrass" in said
        assert "Apply between" not in said
    assert "done" in late.ask("/sketch")
    late.wait("P80D")
    late.wait("P30D")
    assert target_state(late, Target.WINTER_ANNUALS) == "waiting"


def test_dithiopyr_alone_is_named_as_weak_against_annual_bluegrass(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say("/product dithiopyr 0.25% granule, 4 lb per 1000 sq ft, max 12 lb per 1000 a year")
    # Kopec & Gilbert (Univ. of Arizona): at most 45 % control of annual bluegrass in November.
    assert "dithiopyr alone is weak" in talker.ask("late summer round")


def test_what_goes_down_in_september_with_both_rounds_counts_for_late_summer(late: Talker) -> None:
    late.wait("P45D")
    late.say("applied")
    with late.db.reading() as work:
        done = applications.of_yard(work, 1)[-1]
    assert (done.target, done.year) == ("winter_annuals", 2026)


def test_said_against_crabgrass_it_counts_for_spring(late: Talker) -> None:
    late.wait("P45D")
    # Months early: asked about first.
    assert "Is the day right?" in late.ask("applied for next spring on the strip")
    late.tap("Yes, that's right")
    with late.db.reading() as work:
        assert applications.of_yard(work, 1)[-1].target == "summer_annuals"


def test_a_dormant_first_half_is_called_for_in_the_cold_and_counts_next_spring(
    tmp_path: Path,
) -> None:
    settled = Talker(tmp_path, start=datetime(2026, 10, 10, 14, tzinfo=UTC))
    settled.settle_in()
    assert "late fall" in settled.ask("first half in autumn")
    called = settled.until_alert("window_open", 70)
    # K-State Extension: prodiamine may go on in autumn (November) for next spring.
    assert called.at.month in (10, 11, 12)
    assert "not frozen" in called.reply.text
    assert "first application for spring 2027" in settled.ask("applied")
    with settled.db.reading() as work:
        assert applications.of_yard(work, 1)[-1].year == 2027
    assert not [said for said in settled.wait("P20D") if said.alert == "window_open"]


def test_the_second_half_after_an_autumn_one_comes_in_late_spring(tmp_path: Path) -> None:
    talker = Talker(tmp_path, start=datetime(2027, 4, 5, 14, tzinfo=UTC))
    talker.settle_in()
    talker.say("applied on 5 November 2026")
    assert target_state(talker, Target.SUMMER_ANNUALS) == "applied"
    half = talker.until_alert("second_half_due")
    # Z. Reicher, Univ. of Nebraska: first any time November to April, second early to mid June.
    assert datetime(2027, 5, 10, tzinfo=UTC) < half.at < datetime(2027, 6, 20, tzinfo=UTC)


def test_rounds_change_freely_and_undo_puts_them_back(settled: Talker) -> None:
    assert "42 days" in settled.ask("halves 6 weeks apart")
    assert "one spring application" in settled.ask("one round")
    settled.take_back()
    settled.take_back()
    with settled.db.reading() as work:
        yard = yards.yard(work, 1)
    assert yard is not None
    assert (yard.rounds, yard.split_days) == (2, 56)
    assert "28 to 84" in settled.ask("halves 3 weeks apart")


def test_last_years_plan_is_copied_from_what_was_done(settled: Talker) -> None:
    settled.say("applied on 3 April 2025")
    settled.tap("Yes, that's right")
    text = settled.ask("as last year")
    assert "as in 2025" in text
    assert "one application" in text
    settled.take_back()
    with settled.db.reading() as work:
        yard = yards.yard(work, 1)
    assert yard is not None
    assert yard.rounds == 2


def test_there_is_nothing_to_copy_in_the_first_year(settled: Talker) -> None:
    assert "nothing to copy" in settled.ask("as last year")


def test_the_barrier_is_told_in_weeks_as_a_wide_rough_band(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied")
    text = settled.ask("how long does it hold")
    band = re.search(r"about (\d+) to (\d+) weeks", text)
    assert band is not None
    low, high = int(band[1]), int(band[2])
    # Prodiamine at 0.53 lb/A lasts 3-4 months by the trade (labels from memory).
    assert low < 13 <= high
    assert high >= 2 * low
    assert "%" not in text


def test_a_hot_strip_loses_its_barrier_sooner(settled: Talker) -> None:
    settled.say("strip is a hot strip")
    settled.until_alert("window_open")
    settled.say("applied")
    told = re.findall(r"Barrier on (.+?): about (\d+) to (\d+) weeks", settled.ask("why"))
    bands = {zones: (int(low), int(high)) for zones, low, high in told}
    assert set(bands) == {"pool lawn, south bed", "strip"}
    # Loss runs faster in warmer soil (Arrhenius, EFSA 2007/8).
    assert bands["strip"] < bands["pool lawn, south bed"]
    assert bands["strip"][1] < bands["pool lawn, south bed"][1]


def test_a_short_lived_product_put_down_once_fades_while_weeds_sprout(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say(
        "/product pendimethalin 1.71% granule, 2.4 lb per 1000 sq ft, max 5 lb per 1000 a year"
    )
    talker.say("one round")
    talker.until_alert("window_open")
    talker.say("applied")
    applied_at = talker.session.now
    fading = talker.until_alert("barrier_fading", 120)
    # Schleicher et al. 1995: pendimethalin 1.7 kg/ha held 59 days in warm turf; spring is cooler.
    assert 40 <= (fading.at - applied_at).days <= 110


def test_a_cap_that_leaves_weeds_free_is_said_with_what_else_helps(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say(
        "/product pendimethalin 1.71% granule, 2.4 lb per 1000 sq ft, max 2.4 lb per 1000 a year"
    )
    talker.until_alert("window_open")
    talker.say("applied")
    told = talker.until_alert("barrier_fading", 120)
    assert "allows no more this period" in told.reply.text
    assert "pull" in told.reply.text
    heard = [said.alert for said in talker.wait("P60D")]
    assert "barrier_fading" not in heard
    assert "second_half_due" not in heard


def test_less_room_than_a_whole_round_is_no_second_half(settled: Talker) -> None:
    settled.say(
        "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 5 lb per 1000 sq ft a year"
    )
    settled.until_alert("window_open")
    assert "no second application" in settled.ask("applied")
    heard = [said.alert for said in settled.wait("P70D")]
    assert "second_half_due" not in heard
    overview = settled.ask("/yard")
    assert "Yard 1: applied" in overview
    assert "No second application" in overview
    # Another rate that the label still leaves room for is a round again.
    settled.say(
        "/product prodiamine 0.38% granule, 1.6 lb per 1000 sq ft, max 5 lb per 1000 sq ft a year"
    )
    told = settled.session.tap("That's what it says") + settled.wait("P3D")
    assert "second_half_due" in [said.alert for said in told]


def test_what_a_service_put_down_counts_toward_the_label(settled: Talker) -> None:
    settled.until_alert("window_open")
    text = settled.ask("the service put down prodiamine 0.38% 4 lb per 1000 sq ft on the strip")
    assert "It counts" in text
    allowed = settled.ask("what is still allowed")
    assert "strip: 2.4 lb per 1,000 sq ft" in allowed
    assert "pool lawn: 6.4 lb" in allowed
    amounts = settled.ask("/amounts")
    assert "Already done this time: strip" in amounts
    assert "\nstrip: " not in amounts
    settled.say("applied")
    settled.wait("P60D")
    amounts = settled.ask("/amounts")
    assert "Skipped strip" in amounts
    assert "4 lb" in amounts
    assert "\nstrip: " not in amounts


@pytest.mark.parametrize(
    "said", ["did i use too much", "am I over the yearly max", "¿me pasé con la dosis?"]
)
def test_whether_it_was_too_much_is_told_from_the_records(settled: Talker, said: str) -> None:
    settled.until_alert("window_open")
    settled.say("applied 14 lb")
    text = settled.ask(said)
    assert re.search("(Newest record, today|Último registro, hoy): 14 lb", text)
    assert re.search("14 ?% (over the planned|más que lo previsto)", text)
    assert re.search("6.4 lb (per|por) 1,000 sq ft (minus|menos) 3.65", text)


def test_an_unknown_amount_of_others_counts_at_a_rate_that_is_said(settled: Talker) -> None:
    settled.until_alert("window_open")
    text = settled.ask("the service sprayed prodiamine on the strip yesterday")
    assert "I don't know how much was applied" in text
    # 3.2 lb of 0.38 % per 1,000 sq ft: 0.53 lb an acre, as the label in their own hand has it.
    assert "I count 0.53 lb of active ingredient per acre, your own label rate" in text
    assert "strip: 3.2 lb per 1,000 sq ft" in settled.ask("what is still allowed")
    assert "Skipped strip" not in settled.take_back()


def test_another_ingredient_counts_at_the_highest_rate_known(settled: Talker) -> None:
    settled.until_alert("window_open")
    text = settled.ask("the service sprayed dithiopyr on the strip yesterday")
    assert "I count 0.5 lb of active ingredient per acre, the highest single rate" in text


def test_what_cannot_be_checked_is_recorded_and_said(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("the service treated the strip yesterday")
    settled.say("applied 1.28 lb on the strip")
    text = settled.tap("Yes, a second one")
    assert "Recorded" in text
    assert "I could not check your label maximum" in text
    assert "strip yesterday" in text


def test_sooner_or_oftener_than_the_label_is_recorded_and_said(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("at least 60 days between applications")
    assert "too soon after" not in settled.ask("applied")
    settled.wait("P20D")
    # Five weeks before the half is due: asked about first.
    assert "Is this another one" in settled.ask("applied strip")
    text = settled.tap("Yes, a second one")
    assert "Recorded" in text
    assert "too soon after" in text
    settled.take_back()
    settled.say("2 applications a year")
    settled.wait("P60D")
    assert "one more than" not in settled.ask("applied")
    settled.wait("P110D")
    # Long after the season's weeds came up it is asked about first.
    assert "Is the day right?" in settled.ask("applied strip")
    assert "one more than the 2 your label allows" in settled.ask("yes")


def test_late_news_moves_the_second_half(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.wait("P9D")
    settled.say("did it 8 days ago")
    with settled.db.reading() as work:
        done = applications.of_yard(work, 1)[0]
    assert (settled.session.now.date() - done.applied_on).days in (7, 8)
    half = settled.until_alert("second_half_due")
    assert (half.at.date() - done.applied_on).days == 56


def test_applied_twice_over_the_maximum_is_recorded_with_the_sum(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied")
    settled.wait("P45D")
    settled.say("applied")
    settled.wait("P45D")
    text = settled.ask("applied")
    assert "With the 6.4 lb per 1,000 sq ft applied before" in text


def test_words_that_only_mention_autumn_choose_no_round(settled: Talker) -> None:
    settled.ask("what about autumn colours")
    with settled.db.reading() as work:
        yard = yards.yard(work, 1)
    assert yard is not None
    assert not yard.has_late_summer_round
    assert text_of(settled.say("rounds")).startswith("Plan for Yard 1")


def test_a_late_summer_call_that_the_label_leaves_nothing_for_says_so(tmp_path: Path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 8, 1, 14, tzinfo=UTC))
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say(
        "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 3.2 lb per 1000 sq ft a year"
    )
    talker.say("applied against crabgrass on 1 April")
    talker.say("late summer round")
    heard: list[Said] = []
    while "label has no full application" not in talker.ask("/yard"):
        heard += talker.wait("P1D")
    heard += talker.wait("P100D")
    told = [said.reply.text for said in heard if said.alert != "season_over"]
    assert len([text for text in told if "allows no more of this product" in text]) == 1
    assert not [text for text in told if "too late" in text or "pply and water" in text]


def test_the_days_list_reckons_a_late_summer_round_by_its_own_zones(tmp_path: Path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 4, 13, 14, tzinfo=UTC))
    talker.settle_in()
    talker.say("/product prodiamine 0.38% granule, 3.2 lb per 1000, max 12.8 lb per 1000 a year")
    talker.say("late summer round")
    for wait, said in (("P60D", "applied"), ("P20D", "applied"), ("P50D", "applied strip")):
        talker.say(said)
        talker.wait(wait)
    # Spring's rounds are uneven: the strip had one more. Late summer's has not begun.
    while "opens about" not in (today := talker.ask("/today")):
        talker.wait("P1D")
    (whole,) = re.findall(r": ([\d.]+ lb) in all", talker.ask("/amounts"))
    assert f", {whole}" in today


# Zones that are not all in the same round.


@lived
def partly(talker: Talker) -> None:
    """A window that is open, and a front that has had its first half."""
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, strip 5 by 80 ft, back 50x70")
    talker.say(
        "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
    )
    talker.until_alert("window_open")
    talker.say("applied front")


def test_amounts_are_for_what_is_still_to_do(partly: Talker) -> None:
    text = partly.ask("/amounts")
    # 3,900 sq ft at 3.2 lb per 1,000 sq ft: 12.48 lb.
    assert "application 1 of 2: 12.48 lb" in text
    assert "front: " not in text
    assert "Already done this time: front" in text
    assert "12.48 lb" in partly.ask("/today")
    assert "front, 2,400 sq ft, done." in partly.ask("/sketch")
    partly.say("applied")
    with partly.db.reading() as work:
        newest = applications.of_yard(work, 1)[-1]
    assert sorted(share.zone_name for share in newest.shares) == ["back", "strip"]


def test_a_half_that_is_not_due_yet_is_asked_about(partly: Talker) -> None:
    partly.say("applied")
    partly.wait("P21D")
    text = partly.ask("/amounts")
    assert "Not yet. This application is due about" in text.splitlines()[1]
    said = partly.tap("I applied it")
    assert "Is this another one on top of it?" in said
    with partly.db.reading() as work:
        assert len(applications.of_yard(work, 1)) == 2


def test_water_is_called_for_by_zone_where_others_lack_none(partly: Talker) -> None:
    partly.wait("P2D")
    partly.say("watered front 0.5 in")
    partly.say("applied back")
    dry = partly.until_alert("water_in", 20)
    assert dry.reply.text.startswith("Yard 1, back: water it in.")


def test_a_zone_that_was_left_out_does_not_hold_back_the_others(partly: Talker) -> None:
    partly.say("applied back")
    missed = partly.until_alert("window_missed", 60)
    assert "on strip." in missed.reply.text
    half = partly.until_alert("second_half_due", 80)
    assert "application 2 of 2" in half.reply.text
    assert "Zones: front, back." in half.reply.text
    text = partly.ask("/amounts")
    assert "application 2 of 2" in text
    assert "Skipped strip: too late" in text
    assert "18.88 lb" in text  # 5,900 sq ft
    partly.say("applied")
    assert "Yard 1: applied" in partly.ask("/yard")


def test_the_second_half_is_called_anew_after_a_correction(partly: Talker) -> None:
    partly.say("applied")
    first = partly.until_alert("second_half_due", 80)
    moved = (first.at.date() - timedelta(days=35)).strftime("%-d %B")
    for number in (1, 2):
        partly.say(f"record {number} date {moved}")
    again = partly.until_alert("second_half_due", 40)
    assert 18 <= (again.at - first.at).days <= 24


def test_a_hot_strip_does_not_close_the_season_of_the_rest(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, strip 5 by 80 ft, back 50x70")
    talker.say(
        "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
    )
    talker.until_alert("act_now")
    talker.wait("P7D")
    said = talker.wait("PT1M") if "window open" not in talker.ask("/yard") else []
    assert said == []
    told = text_of(talker.say("strip is hot") + talker.wait("P1D"))
    assert "too late for a plain pre-emergent on front" not in told
    assert "pre-emergent on strip" in talker.ask("/soil")
    overview = talker.ask("/yard")
    assert "window open, apply now" in overview
    assert "nothing to do" not in talker.ask("/today")
    late = talker.until_alert("window_missed", 40)
    assert "strip" in late.reply.text


def test_after_the_hot_strip_the_rest_keeps_its_own_days(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, strip 5 by 80 ft, back 50x70")
    talker.say(
        "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
    )
    talker.say("strip is hot")
    opened = talker.until_alert("window_open")
    talker.say("applied strip")
    after = []
    for _ in range(80):
        after += talker.wait("P1D")
        if any(said.alert == "window_missed" for said in after):
            break
    kinds = [said.alert for said in after]
    assert "soil_warming" not in kinds
    last_call = next(said for said in after if said.alert == "act_now")
    assert "Zones: front, back." in last_call.reply.text
    assert (last_call.at - opened.at).days >= 10
    assert after[-1].alert == "window_missed"
    assert "on front, back." in after[-1].reply.text


def test_what_is_left_is_what_is_reported_though_the_label_stops_it(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, back 50x70")
    talker.say(
        "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 9.6 lb per 1000 a year"
    )
    talker.until_alert("window_open")
    talker.say("applied front")
    # 6.57 lb per 1,000 sq ft: no whole round is left there.
    talker.say("applied back 23 lb")
    talker.tap("Yes, that's right")
    talker.until_alert("second_half_due", 80)
    talker.say("applied front")
    talker.say("applied")
    with talker.db.reading() as work:
        newest = applications.of_yard(work, 1)[-1]
    assert [share.zone_name for share in newest.shares] == ["back"]


def test_once_the_season_is_over_nothing_speaks_of_its_second_half(tmp_path: Path) -> None:
    yard = Talker(tmp_path, start=datetime(2026, 10, 10, 14, tzinfo=UTC))
    yard.settle_in()
    said = yard.ask("applied on 31 March 2026")
    assert "Recorded for Yard 1" in said
    assert "Second application" not in said
    assert "Still to do" not in said
    assert "application 1 of 2" in yard.ask("/amounts")
    assert "no second one this year" in yard.ask("when do I do the second half")
    # One zone of three done out of season makes no yard done.
    yard.say("applied strip")
    assert "strip" in yard.tap("Yes, that's right")
    assert "done" not in yard.ask("/today")
    for zone in ("pool lawn", "south bed"):
        yard.say(f"applied {zone}")
        assert zone in yard.tap("Yes, that's right")
    assert "done" in yard.ask("/today")
