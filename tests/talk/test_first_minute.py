"""The first minute: from /start to amounts for three zones and a confirmed, watered application.

Counted in messages, typed as people type who have seen none of our examples.
"""

from copy import copy
from pathlib import Path

import pytest

from bot.terminal import Said, Session
from storage import applications, products, yards
from tests.talk.harness import CLIMATE, Talker, labels_of, text_of

#: From /start to amounts, and from there to a confirmed application that is watered in.
MOST_TO_AMOUNTS = 9
MOST_TO_RECORD = 3


class Newcomer(Talker):
    """Somebody new, whose messages are counted."""

    sent = 0

    def types(self, text: str) -> str:
        self.sent += 1
        return self.ask(text)

    def taps(self, label: str) -> str:
        self.sent += 1
        return self.tap(label)


def in_spanish(talker: Talker) -> None:
    """Have the platform say that the person reads Spanish."""
    talker.session = Session(talker.machine, talker.messenger, talker.clock, 1, "es")


def test_nine_messages_to_amounts_and_three_to_a_record(tmp_path: Path) -> None:
    new = Newcomer(tmp_path)
    assert "Where is the lawn?" in new.types("/start")
    placed = new.types("topeka ks")
    assert placed.startswith("Topeka, KS")
    # Something worth knowing at once: the soil now, and what is to come.
    assert "Soil at 2 in is" in placed
    assert "Apply between" in placed
    sizes = new.types("front yard is about 40 by 25, back is 50x30 plus a side strip 6 x 45")
    assert "2,770 sq ft" in sizes
    assert "What is in the bag" in new.types("looks right")
    new.types("its prodiamine .38")
    assert "most the label allows" in new.types("48 lb bag covers 15000")
    assert "Label maximum: 6.4 lb" in new.types("max 6.4 lb per 1000 a year")
    amounts = new.types("how much do i need for each")
    # 3.2 lb per 1,000 sq ft on 1,000, 1,500 and 270 sq ft: by hand.
    assert all(
        each in amounts for each in ("1.6 lb per pass", "2.4 lb per pass", "6.9 oz per pass")
    )
    assert new.sent <= MOST_TO_AMOUNTS
    new.sent = 0
    assert "Recorded for Yard 1: front yard, back, side strip" in new.types(
        "put it all down this morning"
    )
    assert "Yard 1 is watered in" in new.types("watered half an inch")
    assert new.sent <= MOST_TO_RECORD
    with new.db.reading() as work:
        assert len(applications.of_yard(work, 1)) == 1


def test_nueve_mensajes_hasta_las_cantidades_y_tres_hasta_el_registro(tmp_path: Path) -> None:
    new = Newcomer(tmp_path)
    # Nothing tells the language but the words themselves.
    assert "¿Dónde está el césped?" in new.types("hola")
    placed = new.types("vivo en lawrence kansas")
    assert "Lawrence, KS" in placed
    assert "El suelo a 2 in está ahora a" in placed
    assert "2,770 sq ft" in new.types("enfrente 40x25, atras 50x30 y al lado 6x45")
    assert "¿Qué trae la bolsa" in new.types("si")
    assert "¿Cuánto va en un área?" in new.types("es prodiamina 0.38")
    new.types("la bolsa es de 48 libras y cubre 15000 pies")
    assert "no da máximo" in new.types("no veo el maximo")
    amounts = new.types("cuanto le echo a cada parte")
    assert all(
        each in amounts for each in ("1.6 lb por pasada", "2.4 lb por pasada", "6.9 oz por pasada")
    )
    assert new.sent <= MOST_TO_AMOUNTS
    new.sent = 0
    assert "Registrado en Propiedad 1" in new.types("ya le eche a todo esta mañana")
    assert "Incorporado en Propiedad 1" in new.types("regue media pulgada")
    assert new.sent <= MOST_TO_RECORD


def test_one_lawn_in_metres_by_buttons_alone_after_its_size(tmp_path: Path) -> None:
    new = Newcomer(tmp_path)
    new.types("hi")
    assert "set up at 52.10, 5.20" in text_of(new.session.location(52.1, 5.2))
    assert "96.0 m²" in new.types("the lawn is 12 x 8 m")
    assert "What is in the bag" in new.taps("Keep")
    assert "How strong is it?" in new.taps("dithiopyr")
    assert "How much goes on an area?" in new.taps("0.25%")
    assert "What does it cover?" in new.types("its a 10 kg bag")
    assert "most the label allows" in new.types("covers 600 m2")
    assert "without a maximum" in new.taps("My label has none")
    amounts = new.taps("Amounts")
    assert "1.6 kg in all" in amounts
    assert "No label maximum given" in amounts


def test_everything_may_be_said_out_of_order(tmp_path: Path) -> None:
    new = Newcomer(tmp_path)
    assert "Got it" in new.types("prodiamine 0.38%, 48 lb covers 15000 sq ft")
    assert "Got it" in new.types("front 60x40, strip 5 by 80 ft")
    assert "Which state?" in new.types("springfield")
    said = new.types("missouri")
    assert said.startswith("Springfield, MO")
    assert "Total Yard 1: 2,800 sq ft" in said
    with new.db.reading() as work:
        yard = yards.yard(work, 1)
        assert products.product(work, yard.product_id).rate_value == pytest.approx(3.2)


def test_each_question_can_be_skipped_and_taken_up_next_week(tmp_path: Path) -> None:
    new = Newcomer(tmp_path)
    new.types("/start")
    new.types("my zip is 66204")
    assert "What is in the bag" in new.taps("Size later")
    assert "prodiamine" in new.taps("Nothing yet")
    new.wait("P7D")
    assert "Right?" in new.types("front 60x40")
    assert "What is in the bag" in new.types("yes")
    new.taps("prodiamine")
    new.taps("It gives none")
    new.types("3.2 lb per 1000")
    assert "most the label allows" in new.types("6.4")
    assert "6.4 lb per 1,000 sq ft in a calendar year" in new.taps("lb/1000 sq ft a year")


def test_a_label_half_read_waits_for_its_rest_when_amounts_are_asked(settled_size) -> None:
    settled_size.types("prodiamine 0.38%")
    said = settled_size.types("how much do i need")
    assert "So far: prodiamine 0.38%" in said
    assert "Saved for Yard 1" in settled_size.types("48 lb covers 15000")


def test_a_weight_alone_is_the_bags_and_a_report_of_a_zone_is_no_label(settled_size) -> None:
    settled_size.types("this one says prodiamine 0.38%")
    assert "A bag of 15 lb. What does it cover?" in settled_size.types("15 lbs")
    assert "0.6 lb" not in settled_size.types("front's on! 3 lb")
    assert "as a rate of 3 lb per 1,000 sq ft" in settled_size.types("covers 5000")


def test_a_photo_of_the_label_is_kept_and_no_dose_is_taken_from_it(settled_size, tmp_path) -> None:
    label = tmp_path / "label.jpg"
    label.write_bytes(b"jpeg")
    said = text_of(settled_size.session.photo(str(label)))
    assert "I take no dose from a photo" in said
    # The question waits on.
    assert "How strong is it?" in settled_size.types("prodiamine")


def test_all_other_ingredients_are_a_button_away(settled_size) -> None:
    said: list[Said] = settled_size.session.tap("Another one")
    assert "siduron" in labels_of(said)
    assert "prodiamine" not in labels_of(said)
    assert "How strong is it?" in settled_size.taps("siduron")


def test_a_bare_figure_for_the_size_is_asked_back(tmp_path: Path) -> None:
    new = Newcomer(tmp_path)
    new.types("66502")
    assert "2770 of what" in new.types("2770")


@pytest.fixture
def settled_size(tmp_path: Path) -> Newcomer:
    new = Newcomer(tmp_path)
    new.types("66502")
    new.types("front 60x40")
    new.taps("Keep")
    return new


@pytest.mark.parametrize(
    ("language", "first"), [("en", "A first estimate"), ("es", "Primera estimación")]
)
def test_a_new_place_is_told_that_its_past_years_are_to_come(tmp_path: Path, language, first):
    # Past years cost a hundred times what the newest weeks do, so that they come later.
    source = copy(CLIMATE)
    source.cheap_days = 57
    new = Newcomer(tmp_path, source=source)
    if language == "es":
        in_spanish(new)
    new.types("/start")
    placed = new.types("topeka ks")
    assert first in placed
    # By the next message they have come.
    assert first not in new.types("/soil")


def test_people_who_only_estimate_get_their_zones_too(talker: Talker) -> None:
    assert "crabgrass is near" in talker.ask("hey what is this")
    talker.say("66204")
    said = talker.say("3 areas. front maybe 1800 sq ft, back about 2500 and side yard 600")
    assert "front: 1,800 sq ft" in text_of(said)
    # The unit is said once for the list, and every size is shown before it is kept.
    assert "Total Yard 1: 4,900 sq ft" in text_of(said)
    # A sentence before a name is none of it.
    assert "ditch: 900 sq ft" in talker.ask("dont know exactly. ditch maybe 900 sq ft")
    assert talker.ask("i've got a verge about 300 sq ft").startswith("verge: 300 sq ft")
    talker.say("yes")
    talker.say("prodiamine granules, 40 lb covers 12500")
    talker.until_alert("window_open")
    # Nobody knows how strong it is: that is no word of the label's limit.
    left = talker.ask("what do i still owe")
    assert "no amount yet" in left
    assert "label" not in left.splitlines()[1]
