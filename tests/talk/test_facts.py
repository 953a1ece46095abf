"""What people ask about anywhere, in both languages: each gets its short answer, place or none."""

import re
from pathlib import Path

import pytest

from bot.hearing.forms.fact_forms import FACTS
from bot.saying.catalogue import say
from bot.saying.voice import speaking
from bot.terminal import Session
from storage import applications, products
from tests.talk.harness import PLACE, Talker

#: The message that answers it where no place is known, and how it is asked.
ASKED = [
    ("facts.who", "who are you", "quién eres"),
    ("facts.who", "is this free?", "es gratis?"),
    ("facts.crabgrass", "what is crabgrass", "qué es el garranchuelo"),
    ("facts.preemergent", "what does pre-emergent mean", "qué es un preemergente"),
    ("help.keep_off", "is it safe for my dog", "es seguro para mi perro"),
    ("everyday.mow", "may i mow today", "puedo cortar el pasto hoy"),
    ("everyday.aerate", "can i aerate", "puedo airear"),
    ("everyday.dethatch", "can i dethatch", None),
    ("everyday.rake", "can i rake today", "puedo rastrillar hoy"),
    ("everyday.feed", "can i feed it", "puedo fertilizar"),
    ("everyday.lime", "can i lime", "puedo echar cal"),
    ("everyday.sod", "can i lay sod", "puedo poner rollos de pasto"),
    ("everyday.edge", "can i edge today", "puedo bordear hoy"),
    ("everyday.burn", "can i burn today", "puedo quemar hoy"),
    ("beforehand.washed_out", "two inches fell, redo it?", "llovió mucho, lo repito?"),
    ("facts.dry", "three weeks without rain, is it still good", "llevamos tres semanas sin lluvia"),
    ("beforehand.too_much", "i put down double", "le eché el doble"),
    ("facts.too_much", "what do i do if i put too much", "qué hago si puse de más"),
    ("beforehand.gap", "ran out half way", "se me acabó a la mitad"),
    ("beforehand.gap", "missed a stripe", "me faltó una raya"),
    ("beforehand.late", "is it too late?", "ya es tarde?"),
    ("beforehand.skip", "skip this year", "este año no"),
    ("everyday.identify", "is this crabgrass", "esto es garranchuelo?"),
    ("facts.will_tell", "you gonna tell me when?", "¿me vas a avisar?"),
    ("facts.wear", "do i need gloves", "¿necesito guantes?"),
    ("facts.licence", "do i need a license", "¿necesito licencia?"),
    ("facts.pavement", "will it stain the concrete", "¿mancha el cemento?"),
    ("facts.old_bag", "can i use last year's bag", "puedo usar la bolsa del año pasado"),
    ("beforehand.service", "a service came", "vino un servicio"),
    ("facts.leftover", "leftover mix, what do i do with it", "me sobró mezcla, qué hago"),
    ("facts.weed_feed", "is weed and feed ok", "el weed and feed sirve?"),
    ("facts.frost", "there's snow on the ground", "hay nieve en el suelo"),
    ("facts.frost", "frost on the ground this morning", "hay escarcha esta mañana"),
    ("facts.double", "can i put down double", "puedo echar el doble"),
    ("facts.drift", "my neighbor's spray drifted on my lawn", "el vecino roció y cayó aquí"),
    ("facts.water_near", "we have a well", "tenemos un pozo"),
    ("facts.water_near", "theres a pond nearby", "hay un estanque cerca"),
    ("facts.new_sod", "new sod", "tengo césped nuevo en rollo"),
    ("facts.ingredient", "crabgrass preventer from the store", "no encuentro el ingrediente"),
    ("facts.why_size", "why do you need the size", "para qué quieres las medidas"),
    ("facts.away", "im on vacation that week", "me voy de viaje"),
    ("facts.why_place", "why do you need that", "para qué lo necesitas"),
    ("facts.garden", "what about the vegetable garden", "le hace daño a mis tomates?"),
    ("facts.poa", "what is poa annua", "qué es la poa anual"),
    ("facts.too_many", "stop texting me so much", "no me escribas tanto"),
    ("facts.garden", "what about my tulips", "¿y mis tulipanes?"),
    ("facts.fall", "do i need a fall one", "¿hago una de otoño?"),
    ("facts.mow_height", "how high should i mow", "¿a qué altura corto?"),
    ("facts.wildlife", "does it hurt the bees", "¿les hace daño a las abejas?"),
    ("facts.health", "is this stuff toxic", "¿es tóxico?"),
    ("facts.brown", "brown patches, was it the stuff?", "¿manchas amarillas, fue por esto?"),
    ("facts.walk_speed", "how fast should i walk", "a qué paso camino"),
    ("facts.nozzle", "what nozzle do i use", "qué boquilla uso"),
    ("facts.surfactant", "do i need to add a surfactant", "le pongo adherente?"),
    ("facts.eyeball", "can i eyeball it", "puedo echarlo a ojo?"),
    ("facts.spreader_kind", "drop or broadcast?", "qué esparcidora compro"),
    ("facts.turns", "do i shut it when i turn", "cierro cuando doy la vuelta?"),
    ("facts.two_passes", "why 2 passes", "por qué dos pasadas?"),
    ("facts.which_rate", "is that the low rate or the high", "qué dosis uso, la alta?"),
    ("facts.bathroom_scale", "i only have a bathroom scale", "solo tengo báscula de baño"),
    ("facts.granules", "whats the difference between granules and liquid", None),
    ("facts.odds", "1 in 5, is that good?", "¿qué tan exacto es esto?"),
    ("facts.window", "what do you mean by window", "¿qué es la ventana?"),
    ("facts.zone", "what's a zone", "¿qué es una zona?"),
    ("facts.rain_after", "before rain or after rain?", "¿y si llueve después?"),
    ("facts.wet_grass", "wet grass or dry?", "¿con el pasto mojado?"),
    ("facts.renters", "i just rent", "rento la casa"),
    ("facts.renters", "what about my hoa", "la asociación pide aviso"),
]
SAID = {"en": [(k, en) for k, en, _ in ASKED], "es": [(k, es) for k, _, es in ASKED if es]}


def somebody(folder: Path, language: str) -> Talker:
    """Return somebody whose platform says which language they read."""
    talker = Talker(folder)
    talker.session = Session(talker.machine, talker.messenger, talker.clock, 1, language)
    return talker


@pytest.mark.parametrize("language", ["en", "es"])
def test_each_question_has_its_answer_before_a_place_is_known(tmp_path, language) -> None:
    new = somebody(tmp_path, language)
    with speaking(language):
        wrong = {
            text: answer
            for key, text in SAID[language]
            if say(key).splitlines()[0] not in (answer := new.ask(text))
        }
        assert not wrong
        # And then the place: it is asked for behind every one of them, and is heard.
        assert say("beforehand.where") in new.ask(SAID[language][2][1])
    assert "KS" in new.ask("topeka ks")


def test_a_lawn_changes_none_of_the_facts_and_none_of_them_changes_the_lawn(tmp_path) -> None:
    owner = somebody(tmp_path, "en")
    owner.session.location(*PLACE)
    owner.say("front 60x40")
    owner.tap("Keep")
    for key, text in SAID["en"]:
        if key.startswith(("facts", "everyday", "help")) and key != "facts.why_place":
            assert say(key).splitlines()[0] in owner.ask(text), text
    with owner.db.reading() as work:
        assert applications.of_yard(work, 1) == []
        assert products.of_chat(work, 1) == []


@pytest.mark.parametrize(
    "said",
    [
        "weed and feed went down on the front yesterday",
        "put down weed and feed this morning",
        "the back by the pond is 40x30",
        "applied last years bag on the strip",
    ],
)
def test_a_report_or_a_size_is_no_question_about_a_fact(settled: Talker, said: str) -> None:
    heard = settled.say(said)[0].reply.understood
    assert all("about" not in each["slots"] for each in heard or ())


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize(
    "about",
    [each for each in FACTS if each not in ("none_yet", "why_asked")]
    + ["why_place", "why_label", "why_grass"],
)
def test_an_answer_is_short_and_every_sentence_of_it(about: str, language: str) -> None:
    with speaking(language):
        text = say(f"facts.{about}")
    assert len(text) < 420
    most = 24 if language == "es" else 20
    assert all(len(each.split()) <= most for each in re.split(r"(?<=[.?!])\s", text))
