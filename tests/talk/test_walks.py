"""Walks of people who are not like one another, typed as they type; each reply was read aloud.

Two more stand in `test_first_minute`: a first lawn in metres, and three zones with a store's bag.
"""

from datetime import UTC, datetime
from pathlib import Path

from storage import applications, yards
from tests.talk.harness import Talker


def test_a_late_starter_who_sees_seedlings_hears_what_is_still_worth_doing(tmp_path: Path) -> None:
    late = Talker(tmp_path, start=datetime(2026, 5, 20, 14, tzinfo=UTC))
    late.say("/start")
    assert "First crabgrass was expected" in late.ask("lincoln ne")
    assert "pull them" in late.ask("i already see little crabgrass coming up by the driveway")
    late.say("driveway side 4x60, front 50x30")
    late.say("yes")
    answer = late.ask("is it too late")
    assert "It still stops seed that sprouts later" in answer
    late.say("dithiopyr 0.25%, 50 lb covers 12000 sq ft")
    late.say("no max on it")
    assert "is it too late" in late.ask("how much for the front")
    done = late.ask("put it on the front and the driveway side today")
    # What is up already, what this ingredient does about it, and how long it holds.
    assert "dithiopyr also acts on small seedlings" in done
    assert "It holds about" in done
    assert "is watered in" in late.ask("watered it in half an inch")


def test_one_who_is_early_hears_what_is_left_when_weeds_come(tmp_path: Path) -> None:
    early = Talker(tmp_path)
    early.settle_in()
    done = early.ask("applied everything")
    assert "before first crabgrass" in done
    assert "part of it will be spent by then" in done


def test_a_sprayer_owner_with_a_range(tmp_path: Path) -> None:
    owner = Talker(tmp_path)
    owner.say("hello")
    owner.say("manhattan ks")
    owner.say("range tee 120x60 ft, fairway strip 300 by 40, chipping area 5000 sq ft")
    owner.say("yes")
    asked = owner.ask("prodiamine 65 wdg, 0.4 to 0.55 oz per 1000")
    assert "?" in asked
    assert "Saved" not in asked
    assert "sprayed, 0.55 oz per 1,000 sq ft" in owner.ask("0.55 oz per 1000")
    owner.say("no max on it")
    # 24,200 sq ft at a gallon and 0.55 oz on each thousand: by hand.
    load = owner.ask("i spray, 25 gallon tank, 1 gallon per 1000 sq ft")
    assert "24.2 gal of water for 24,200 sq ft, with 13.3 oz" in load
    assert "wind 3 mph to 10 mph" in owner.ask("is it too windy to spray tomorrow")


def test_una_cuadrilla_in_two_languages(tmp_path: Path) -> None:
    crew = Talker(tmp_path)
    crew.say("hola")
    crew.say("nueva propiedad en Wahoo, NE")
    crew.say("se llama Church")
    crew.say("frente 80x40, atras 60x50")
    crew.say("si")
    crew.say("prodiamina 0.38% granulado, 3.2 lb por 1000, máximo 6.4 lb por 1000 al año")
    crew.say("new yard in Lincoln, NE")
    # A name is asked for nowhere here, and sizes are none.
    crew.say("se llama Molino")
    crew.say("frente 60x45, atras 50x40")
    crew.say("si")
    crew.say("same product as Church")
    assert "Molino" in crew.ask("ya quedó Molino todo")
    # Weeks before the window so short a report is asked about, and recorded nowhere meanwhile.
    assert "No cambio nada" in crew.ask("church is done too")
    assert "Registrado en Church" in crew.tap("Ya está aplicado")
    with crew.db.reading() as work:
        mine = yards.of_chat(work, 1)
        assert [yard.name for yard in mine] == ["Church", "Molino"]
        assert [len(applications.of_yard(work, yard.id)) for yard in mine] == [1, 1]


def test_between_the_last_call_and_the_first_seedlings_one_word_is_said_and_once(
    tmp_path: Path,
) -> None:
    idle = Talker(tmp_path)
    idle.settle_in()
    idle.until_alert("window_open")
    told = [each for each in idle.wait("P5W") if each.alert is not None]
    assert [each.alert for each in told] == ["act_now", "state", "window_missed"]
    word = told[1].reply.text
    assert "not too late yet. The deadline was" in word
    # Weeks by the decay of prodiamine at 3.2 lb of a 0.38 % granule per 1,000 sq ft.
    assert "At your rate prodiamine lasts about 10 to 32 weeks." in word
    assert "Why" in [button.label for row in told[1].reply.buttons for button in row]


def test_a_doubted_figure_of_a_bag_is_no_trap(tmp_path: Path) -> None:
    walk = Talker(tmp_path)
    walk.say("/start")
    walk.say("I live in kansas city mo")
    asked = walk.ask("three zones: front 2,000 sq ft, back 4,500, hell strip 300")
    assert "hell strip: 300 sq ft" in asked
    # Piece by piece, as it stands on the bag; its own figures stand before what is doubted.
    walk.say("got a bag here, says dithiopyr")
    walk.say(".15")
    assert "What does it cover?" in walk.ask("hm its 18 pounds")
    assert "I read 18 lb bag covers 5,000 sq ft" in walk.ask("5000 square feet")
    assert "Take your time" in walk.ask("let me check")
    # Work reported meanwhile is kept, and given its product once that is settled.
    walk.wait("P30D")
    assert "I'll ask if it was that" in walk.ask("put all of it down this morning")
    # The same figure read once more is its confirmation, and the doubt stays in sight.
    assert "In doubt: 3.6 lb" in walk.ask("it says 18 lb covers 5000 sq ft")
    assert "That is the rate" in walk.ask("18 lb per 5000 sq ft")
    assert "per application or for the whole year" in walk.tap("It is the most too")
    walk.tap("One application")
    assert "It counts toward the maximum and the barrier" in walk.tap("Yes, it was this")
    assert "watered in" in walk.ask("watered half an inch")
    assert "0.24 lb per acre of active ingredient" in walk.ask("what did I put down")


def test_why_is_of_the_newest_answer_with_its_source(tmp_path: Path) -> None:
    owner = Talker(tmp_path)
    owner.settle_in()
    owner.until_alert("window_open")
    owner.say("applied")
    for asked, source in (
        ("how long do i water", "University of Arkansas Extension"),
        ("can i seed now", "K-State Extension"),
        ("can i mow", "common practice, with no published figure"),
        ("is it safe for my dog", "re-entry section"),
        ("it rained 2 inches should i redo it", "An inch in 48 hours"),
        # A date's own reasons stay as they were.
        ("when is the second one due", "Fidanza"),
    ):
        owner.say(asked)
        assert source in owner.ask("why"), asked


def test_a_zone_rests_for_a_year_by_words_and_comes_back_by_words_or_by_itself(
    tmp_path: Path,
) -> None:
    owner = Talker(tmp_path)
    owner.settle_in()
    assert "strip rests this year" in owner.ask("skip the strip this year")
    assert "Skipped strip: rests this year" in owner.ask("how much")
    assert "strip: back in the plan" in owner.ask("strip is in again")
    assert "Skipped" not in owner.ask("how much")
    assert (
        "strip descansa este año" in (owner.say("español"), owner.ask("strip descansa este año"))[1]
    )
    assert "vuelve a las aplicaciones" in owner.ask("strip vuelve a entrar")
    assert "strip descansa este año" in owner.ask("salta el strip este año")
    owner.wait("P330D")
    assert "descansa" not in owner.ask("cuanto")


def test_what_a_label_does_not_say_and_a_yes_to_nothing_are_no_riddles(tmp_path: Path) -> None:
    new = Talker(tmp_path)
    new.say("66502")
    assert "pounds for each 1,000 square feet" in new.ask("why do you need that")
    new.say("front 60x40")
    new.say("yes")
    assert "I never guess a dose" in new.ask("why do you need that")
    new.say("dithiopyr 0.15%")
    assert "Without a rate" in new.ask("it doesnt say")
    new.say("16 lb covers 5000")
    kept = new.ask("yes")
    assert "most the label allows" in kept
    more = new.ask("no more than twice a year")
    assert "At most 2 applications" in more
    # The product is not told again, and its question waits.
    assert "In doubt" not in more
    assert "what maximum does the label give?" in more
    assert "what maximum does the label give?" in new.ask("yes")
    new.tap("My label has none")
    assert "Yes to what?" in new.ask("yes")


def test_a_crew_a_range_and_a_bag_in_other_words(tmp_path: Path) -> None:
    other = Talker(tmp_path)
    assert "Where is the lawn?" in other.ask("hello there")
    assert "/yards template" in other.ask("we have customers, we mow lawns for them")
    # Abroad what is typed to tell water is in meters too.
    other.say("52.1, 5.2")
    other.say("the lawn is 12 x 8 m")
    other.say("yes")
    assert "Your label gives" in other.ask("prodiamine 65 wdg, .4 to .8 oz per thousand")
    assert "0.5 oz per 1,000 sq ft" in other.ask("going with half an ounce")
    other.say("no max on it")
    load = other.ask("sprayer has a 50 gal tank and puts out 44 gallons an acre")
    assert "412 L/ha" in load
    kept = other.ask("prodiamine 0.38%, 40 lb bag for 12000")
    # 40 lb on 12,000 sq ft, rounded down: by hand.
    assert "3.333 lb per 1,000 sq ft" in kept
    assert "watered 8 mm" in (other.say("applied everything"), other.tap("Yes, that's right"))[1]
