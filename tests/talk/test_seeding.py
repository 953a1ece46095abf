"""Seed and barrier on the same ground, asked about and planned in talk."""

from datetime import date

from storage import seedings, yards
from tests.made_yard import alerts_of
from tests.talk.harness import PLACE, Talker, labels_of, lived, text_of


@lived
def treated(talker: Talker) -> None:
    """A yard that was treated on 30 March 2026 with prodiamine at 0.53 lb/A."""
    talker.settle_in()
    talker.say("strip is tall fescue")
    talker.wait("P55D")
    talker.say("applied on 30 March 2026")


def test_september_seed_after_prodiamine_in_spring_waits_for_the_long_default(
    treated: Talker,
) -> None:
    text = treated.ask("can I seed the pool lawn on 5 September?")
    assert "not on Sat Sep 5" in text
    # 183 days after 30 March: six months where the label is silent (general practice).
    assert "earliest is Tue Sep 29" in text
    assert "Your label wins" in text


def test_the_labels_interval_wins_over_the_default(treated: Talker) -> None:
    text = treated.ask("can I seed the pool lawn on 5 September, label 16 weeks?")
    assert "can seed on Sat Sep 5" in text
    assert "112 days" in text


def test_a_published_trial_longer_than_the_label_is_a_warning(treated: Talker) -> None:
    # Keeley & Zhou 2005, Weed Technol. 19(1): Kentucky bluegrass 16 weeks by slit (0.84 kg/ha).
    text = treated.ask("/seed pool lawn with kentucky bluegrass slit, label 8 weeks")
    assert "held back for 16 weeks" in text
    assert "Slit seeding" in text


def test_a_trials_shorter_figure_is_never_used(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say("/product dithiopyr 0.25% granule, 4 lb per 1000 sq ft, max 12 lb per 1000 a year")
    talker.say("applied")
    # Johnson & Bundschuh 1993 saw no harm to tall fescue after 8 weeks; 4 months is our default.
    text = talker.ask("when can I seed the front with tall fescue?")
    assert "122 days" in text
    assert "8 weeks" not in text


def test_the_last_half_of_a_split_counts(treated: Talker) -> None:
    treated.wait("P50D")
    treated.say("applied on 25 May 2026")
    # Two halves of 0.53 lb/A pass the top rate: a year by the default (labels from memory).
    assert "365 days" in treated.ask("when can I seed the strip?")


def test_ingredients_that_may_go_on_with_the_seed_are_named(treated: Talker) -> None:
    # Purdue 2011: siduron may be used at seeding of cool-season grasses; Delaware 2008: mesotrione.
    treated.say("can I seed the strip on 5 October?")
    text = treated.tap("Plan it for Mon Oct 5")
    assert "siduron" in text
    assert "mesotrione" in text


def test_untreated_ground_is_open(settled: Talker) -> None:
    assert "Nothing on record stops seed there" in settled.ask(
        "can I overseed the strip on 5 March?"
    )


def test_a_planned_seeding_is_told_when_the_barrier_lets_it_through(treated: Talker) -> None:
    treated.say("can I seed the pool lawn on 25 April, label 3 weeks?")
    assert "Planned" in treated.tap("seed:plan:1")
    told = treated.until_alert("seeding_possible", 40)
    assert told.at.date() == date(2026, 4, 20)
    assert "pool lawn" in told.reply.text
    assert not [said for said in treated.wait("P20D") if said.alert == "seeding_possible"]


def test_autumn_round_and_overseeding_collide_and_one_of_them_is_chosen(treated: Talker) -> None:
    treated.say("late summer round")
    treated.wait("P115D")
    said = treated.say("can I seed the strip on 5 September, label 16 weeks?")
    assert "conflicts with the late-summer application" in said[0].reply.text
    treated.tap("seed:plan:1")
    assert "seed comes first" in treated.tap("Seed first")
    with treated.db.reading() as work:
        assert seedings.of_yard(work, 1)[0].is_before_round
    assert "Skipped strip: you chose to seed there" in treated.ask("/amounts")
    treated.take_back()
    with treated.db.reading() as work:
        assert not seedings.of_yard(work, 1)[0].is_before_round


def test_seed_planned_in_spring_collides_with_the_late_summer_round(treated: Talker) -> None:
    treated.say("late summer round")
    treated.wait("P10D")
    said = treated.say("seed strip 5 September, label 12 weeks")
    assert "conflicts with the late-summer application on strip, about" in text_of(said)
    treated.tap("seed:plan:1")
    treated.tap("Seed first")
    called = treated.until_alert("window_open", 160)
    assert "strip" not in called.reply.text


def test_a_leaf_herbicide_is_no_barrier_that_seed_would_meet(settled: Talker) -> None:
    # Siduron may go on with the seed (Purdue 2011); 2,4-D works on leaves and leaves no barrier.
    settled.say("strip is tall fescue")
    settled.say("/product siduron 3.1% + 2,4-D 0.6% granule, 6 lb per 1000 sq ft")
    assert "siduron" in settled.ask("/product")
    settled.say("late summer round")
    settled.wait("P170D")
    said = settled.ask("can I seed the strip on 5 September?")
    assert "can seed on Sat Sep 5" in said
    assert "conflicts" not in said


def test_the_round_first_drops_the_plan_to_seed(treated: Talker) -> None:
    treated.say("late summer round")
    treated.wait("P115D")
    treated.say("can I seed the strip on 5 September, label 16 weeks?")
    said = treated.session.tap("seed:plan:1")
    assert labels_of(said)[:2] == ["Seed first", "Application first"]
    treated.tap("Application first")
    with treated.db.reading() as work:
        assert seedings.of_yard(work, 1) == []


def test_new_seed_gets_no_pre_emergent_before_the_fourth_mowing(settled: Talker) -> None:
    assert "3rd or 4th mowing" in settled.ask("seeded the strip yesterday")
    assert "Skipped strip" in settled.ask("/amounts")
    for count in (1, 2, 3):
        assert f"mowed {count} of 4" in settled.ask("mowed the strip")
        settled.wait("P5D")
    assert "back in the plan" in settled.ask("mowed the strip")
    assert "strip: " in settled.ask("/amounts")
    settled.take_back()
    assert "Skipped strip" in settled.ask("/amounts")


def test_a_day_of_mowing_counts_once_and_only_after_the_seeding(settled: Talker) -> None:
    settled.say("seeded pool lawn today")
    assert "did not count it" in settled.ask("mowed pool lawn")
    assert "did not count it" in settled.ask("mowed pool lawn yesterday")
    settled.wait("P20D")
    assert "mowed 1 of 4" in settled.ask("mowed pool lawn")
    for _ in range(3):
        assert "already counted a mowing" in settled.ask("mowed pool lawn")
    assert "Skipped pool lawn" in settled.ask("/amounts")
    assert "mowed 2 of 4" in settled.ask("mowed pool lawn yesterday")
    assert "in the future" in settled.ask("mowed pool lawn tomorrow")
    assert "already counted a mowing" in settled.ask("mowed yesterday")
    settled.take_back()
    assert "mowed 2 of 4" in settled.ask("mowed pool lawn yesterday")
    with settled.db.reading() as work:
        (kept,) = seedings.of_yard(work, 1)
    assert kept.mowings == len(kept.mown_on or []) == 2


def test_undoing_a_seeding_unlocks_the_zone_exactly(settled: Talker) -> None:
    with settled.db.reading() as work:
        before = yards.zones(work, 1)
    settled.say("seeded the strip")
    settled.take_back()
    with settled.db.reading() as work:
        assert yards.zones(work, 1) == before
        assert alerts_of(work, 1) == []


def test_an_unknown_zone_is_asked_back(treated: Talker) -> None:
    assert "Which zone" in treated.ask("can I seed the tennis court on 5 September?")


def test_seed_of_years_ago_tells_the_grass_and_locks_nothing(settled: Talker):
    assert "bermudagrass" in settled.ask("they seeded bermuda about five years ago")
    assert "grown in" in settled.ask("we seeded the strip 3 years ago")
    assert "new seed" not in settled.ask("/amounts")
