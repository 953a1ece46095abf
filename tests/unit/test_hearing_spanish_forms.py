"""What our Spanish messages give as an example is heard as its English writing is."""

from dataclasses import fields, is_dataclass, replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from bot.hearing.forms import read_form
from bot.hearing.forms.manner_forms import QuietSaid
from bot.hearing.forms.record_forms import EditSaid, ServiceSaid
from bot.hearing.forms.wish_forms import WaterDaysSaid
from bot.hearing.hear import hear
from bot.hearing.heard import Pending, Scene, Slots
from bot.hearing.readers.dates import WhenRead
from bot.hearing.readers.grass_words import ZoneFact
from bot.hearing.readers.product_read import ProductRead
from bot.hearing.readers.quantities import RateRead, read_rate
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.stock_words import read_stock_words

SCENE = Scene(
    now=datetime(2026, 4, 10, 18, tzinfo=ZoneInfo("America/Chicago")),
    language="es",
    moment="applied",
    zones=("frente", "atrás", "franja"),
    yards=("Propiedad 1", "Oak"),
    yard="Propiedad 1",
    products=("prodiamine",),
)

#: A text of ours in Spanish, and the same with the names of the zones in our English writing.
SAME = [
    ("registro 3 cantidad 3.2 lb", "record 3 amount 3.2 lb"),
    ("registro 3 viento 5 mph", "record 3 wind 5 mph"),
    (
        ("registro 3 viento 5 mph del NO, esparcidora vieja, ajuste 5, inicio 9:05, fin 9:40, "
        "caldo 80 galones, supervisado por A. Cobb licencia 12345"),
        ("record 3 wind 5 mph from NW, equipment esparcidora vieja, setting 5, started 9:05, "
        "ended 9:40, carrier 80 galones, supervised by A. Cobb licence 12345"),
    ),
    ("registro 3 fecha martes pasado", "record 3 date last Tuesday"),
    ("registro 3 fecha 3 de abril", "record 3 date 3 April"),
    ("registros", "records"),
    ("licencia 12345", "licence 12345"),
    ("mi licencia es la 12345", "licence 12345"),
    (
        "el servicio aplicó 3 lb de prodiamina 0.38% en atrás el martes pasado",
        "the service put down 3 lb of prodiamine 0.38% on the atrás last Tuesday",
    ),
    (
        "el servicio aplicó prodiamina 0.38% granulado, 3.2 lb por 1000, el 3 de marzo",
        "the service put down prodiamine 0.38% granule, 3.2 lb per 1000, 3 March",
    ),
    ("aspersor 0.3 in en 20 min", "sprinkler 0.3 in in 20 min"),
    ("aspersor 0.2, 0.3, 0.25 in en 20 min", "sprinkler 0.2, 0.3, 0.25 in in 20 min"),
    ("días de riego lunes y jueves", "watering days Mon and Thu"),
    ("prohibido regar", "watering ban"),
    ("libre sábado y domingo en la mañana", "free Saturday and Sunday mornings"),
    ("libre entre semana después de las 5 pm", "free weekdays after 5 pm"),
    ("silencio de 9 pm a 7 am", "quiet 9 pm to 7 am"),
    ("escríbeme a las 6", "write to me at 6"),
    ("máximo 3 mensajes al día", "at most 3 messages a day"),
    ("esta temporada sí", "this season after all"),
    ("avísame otra vez", "start again"),
    ("todo en un archivo", "everything as a file"),
    ("BORRAR", "ERASE"),
    ("plan de aplicaciones", "rounds"),
    ("8 semanas entre aplicaciones", "halves 8 weeks apart"),
    ("aplicación de fin de verano", "late summer round"),
    ("sin aplicación de fin de verano", "no late summer round"),
    ("preguntas", "questions"),
    ("mi césped", "grass"),
    ("frente es semilla nueva", "frente is new seed"),
    ("la franja es tepe nuevo", "franja is new sod"),
    ("atrás ya está establecido", "atrás is established"),
    ("frente nunca se trata", "frente is never treated"),
    ("franja es franja caliente", "franja is a hot strip"),
    ("franja agua 60 x 25 ft", "franja buffer 60 x 25 ft"),
    ("suelo de arcilla", "clay soil"),
    ("corté frente", "mowed frente"),
    ("siembra frente sáb 5 de septiembre, etiqueta 12 semanas",
     "seed frente Sat 5 September, label 12 weeks"),
    ("caminar frente", "walk frente"),
    ("mi foto", "my photo"),
    ("otra propiedad en 39.18, -96.57", "new yard at 39.18, -96.57"),
    ("ve a Oak", "go to Oak"),
    ("cayeron 2 pulgadas anoche, ¿lo repito?", "2 in fell overnight, redo it?"),
    ("llámala Casa Ramírez", "call it Casa Ramírez"),
    ("zona horaria Denver", "time zone Denver"),
    ("quita todas las zonas", "remove all zones"),
    ("etiqueta viento 8 mph", "label wind 8 mph"),
    ("la etiqueta permite césped de casa", "label allows home lawns"),
    ("4.2 lb en 8 x 150 ft, ajuste 5", "4.2 lb over 8 x 150 ft, setting 5"),
    ("bandejas cada 1 ft: 0.4 0.9 1.6 0.8 0.3 g", "pans 1 ft apart: 0.4 0.9 1.6 0.8 0.3 g"),
    ("la taza pesa 9.2 oz", "cup weighs 9.2 oz"),
    ("ancho 8 ft", "swath 8 ft"),
    ("junté 48 oz", "caught 48 oz"),
    ("junté 0.5 L en 10 m x 1 m", "caught 0.5 L over 10 m x 1 m"),
    ("0.4 gpm, 3 mph, boquillas a 20 in", "0.4 gpm, 3 mph, 20 in spacing"),
    ("pulverizador", "sprayer"),
    ("se acabó a la mitad del frente", "ran out half way on frente"),
    ("me salté una raya de 2 ft x 10 ft en el frente", "missed a stripe 2 ft x 10 ft on frente"),
    ("se acabó después de 1,200 sq ft del frente", "ran out after 1,200 sq ft of frente"),
    ("faltó una raya 4 ft x 60 ft en atrás", "missed a stripe 4 ft x 60 ft on the atrás"),
    ("divide frente en arriba 20x30 y abajo el resto",
     "split frente into arriba 20x30 and abajo the rest"),
    ("divide frente a la mitad", "split frente in half"),
    ("ya apliqué la mitad del frente", "applied half of frente"),
    ("apliqué 100 sq ft de frente", "applied 100 sq ft of frente"),
    ("apliqué el resto de frente", "applied rest of frente"),
    ("faltó una raya 2 ft x 60 ft", "missed a stripe 2 ft x 60 ft"),
    ("dame los borradores en inglés", "give me the drafts in English"),
    ("no puedo regar", "I can't water"),
    ("ya se acabó la prohibición de riego", "the watering ban is over"),
    ("el suelo es arenoso", "the soil is sandy"),
    ("junta frente y atrás", "merge frente and atrás"),
    ("renombra frente a norte", "rename frente to norte"),
    ("cambia el nombre de frente a norte", "change the name of frente to norte"),
    ("exporta todo desde el 1 de abril hasta el 5 de abril", "export all from 1 April to 5 April"),
    ("luego, en 3 días", "later 3 days"),
    ("me queda media bolsa", "I have half a bag left"),
    ("en mi estado piden letreros y aviso 48 horas antes",
     "my state asks for signs and notice 48 hours before"),
    ("todavía hay garranchuelo en el frente", "still crabgrass in frente"),
    ("sembré atrás ayer", "seeded atrás yesterday"),
    ("registro 3 con 2 lb", "record 3 amount 2 lb"),
    ("lista de compras", "shopping list"),
    ("mi bomba tira 2 galones por 1000 pies", "my sprayer puts out 2 gal per 1000 feet"),
    ("suelo 52 F", "soil 52 F"),
    ("una sola aplicación", "one round"),
    ("compara productos", "compare products"),
    ("no llueve hace 3 semanas, ¿se desperdició?", "no rain for 3 weeks, wasted?"),
    ("2 lb de nitrógeno de 20-5-10", "2 lb of nitrogen from 20-5-10"),
    ("quita la franja", "remove franja"),
    ("vuelve a tratar atrás", "atrás is in again"),
]  # fmt: skip


@pytest.mark.parametrize(("spanish", "english"), SAME)
def test_an_example_in_spanish_is_its_english_one(spanish: str, english: str) -> None:
    (heard,), form = hear(spanish, SCENE).acts, read_form(english, SCENE)
    assert form is not None
    assert (heard.act, _but_said(heard.slots)) == (form.act, _but_said(form.slots))


def test_the_last_day_of_a_licence_is_read_in_spanish() -> None:
    (heard,) = hear("licencia PA-12345 hasta el 31 de diciembre de 2027", SCENE).acts
    assert heard.slots.read.number == "PA-12345"
    assert heard.slots.read.until.at.date() == date(2027, 12, 31)


@pytest.mark.parametrize(
    "said", ["apliqué el frente hace 3 días", "i put it on the frente 3 days ago"]
)
def test_what_was_done_days_ago_is_of_that_day(said: str) -> None:
    (heard,) = hear(said, SCENE).acts
    assert heard.act == "report_applied"
    assert heard.slots.on is not None
    assert heard.slots.on.at.date() == date(2026, 4, 7)


def test_a_rate_without_other_spanish_words_is_read() -> None:
    read = read_rate("3 lb por 1000 sq ft")
    assert isinstance(read, RateRead)
    assert (read.rate.value, read.rate.unit) == (3.0, "lb/1000 sq ft")


def test_a_grass_is_answered_by_its_spanish_name() -> None:
    asked = replace(SCENE, pending=Pending("set_grass", ("grass",)))
    (heard,) = hear("San Agustín", asked).acts
    ((fact, _),) = heard.slots.read.facts
    assert fact.grass == "st_augustinegrass"


def test_what_a_label_says_is_read_in_spanish() -> None:
    form = read_form(
        "2 aplicaciones al año, 60 días entre aplicaciones, no sembrar por 16 semanas, permite"
        " césped de casa, bolsas 25 lb $38, 50 lb $62",
        SCENE,
    )
    same = read_form(
        "2 applications a year, 60 days apart, no seeding for 16 weeks, home lawns allowed,"
        " bags 25 lb $38, 50 lb $62",
        SCENE,
    )
    assert form is not None
    assert same is not None
    assert form.slots == same.slots


@pytest.mark.parametrize(
    "spanish", ["frente 60 x 40 ft menos casa 30 x 20 ft", "lado 20 x 15 m menos 3x4"]
)
def test_what_is_taken_off_a_size_may_be_said_in_spanish(spanish: str) -> None:
    english = spanish.replace("menos", "minus")
    (heard,), (same,) = hear(spanish, SCENE).acts, hear(english, SCENE).acts
    areas = [[zone.area_m2 for zone in each.slots.read.zones] for each in (heard, same)]
    assert areas[0] == areas[1]


def test_a_size_in_paces_may_be_said_in_spanish() -> None:
    (heard,) = hear("frente 20 x 15 pasos", replace(SCENE, pace_m=0.75)).acts
    assert [zone.area_m2 for zone in heard.slots.read.zones] == [15.0 * 11.25]


#: What holds the words that were said: each language has its own.
IN_WORDS = {
    EditSaid: {"value"},
    ServiceSaid: {"who", "words"},
    WhenRead: {"said", "rest"},
    ZoneFact: {"said", "zones"},
    ProductRead: {"said", "leftovers"},
    Unread: {"said"},
    Slots: {"rest"},
}


def _but_said(found: object) -> object:
    """Return slots and all that is read in them, but for the words they were said in."""
    if isinstance(found, tuple):
        return tuple(map(_but_said, found))
    if not is_dataclass(found):
        return found
    words = IN_WORDS.get(type(found), set())
    return type(found), {
        each.name: _but_said(getattr(found, each.name))
        for each in fields(found)
        if each.name not in words
    }


@pytest.mark.parametrize("said", ["regué 0.5 in hoy", "watered 0.5 in today"])
def test_water_that_was_given_is_heard_alike_in_both_languages(said: str) -> None:
    (act,) = hear(said, SCENE).acts
    assert act.act == "report_watered"
    assert act.slots.depth_m == pytest.approx(0.0127)
    assert act.slots.on is not None
    assert not act.slots.on.is_future


@pytest.mark.parametrize(
    ("said", "zones"),
    [
        ("atrás 15,5 x 9 m", [("atrás", 15.5 * 9)]),
        ("al lado hay un pedacito de 2 m de ancho por 12 de largo", [("lado", 24.0)]),
        ("el patio de enfrente 8 x 6 m y el de atrás 12,5 x 8 m", [("frente", 48), ("atrás", 100)]),
        ("la franja es un triángulo de 9 m de base y 6 m de alto", [("franja", 27.0)]),
    ],
)
def test_sizes_are_read_as_spanish_tells_them(said: str, zones: list[tuple[str, float]]) -> None:
    (act,) = hear(said, SCENE).acts
    found = [(each.name, each.area_m2) for each in act.slots.read.zones]
    assert act.act == "measure"
    assert found == [(name, pytest.approx(area)) for name, area in zones]


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("esta yarda es la de doña Lupe", "doña Lupe"),
        ("llama a esta casa El Rancho", "El Rancho"),
        ("a esta dile Casa Azul", "Casa Azul"),
    ],
)
def test_a_yard_is_called_what_people_call_it_in_spanish(said: str, name: str) -> None:
    (act,) = hear(said, SCENE).acts
    assert (act.act, act.slots.name) == ("name_yard", name)


@pytest.mark.parametrize("said", ["q sigue", "agrega otra propiedad en 76710 se llama Garza"])
def test_a_question_and_one_more_yard_are_no_name(said: str) -> None:
    asked = replace(SCENE, pending=Pending("name_yard", ("name",)))
    (act,) = hear(said, asked).acts
    assert act.act != "name_yard"
    assert act.slots.name in (None, "Garza")


def test_the_figure_behind_a_denied_amount_is_of_its_unit() -> None:
    (act,) = hear("no eran 25 libras, eran 24", SCENE).acts
    assert act.slots.amount is not None
    assert (act.act, act.slots.amount.value, act.slots.amount.unit) == ("change_record", 24, "lb")


def test_litres_of_rain_are_of_a_square_metre() -> None:
    (act,) = hear("anoche cayeron 12 litros", SCENE).acts
    assert (act.act, act.slots.depth_m) == ("report_rain", pytest.approx(0.012))


def test_degrees_without_a_letter_are_of_the_units_of_whoever_says_them() -> None:
    (act,) = hear("mi termómetro marca 9 grados", replace(SCENE, units="metric")).acts
    assert act.slots.soil_c == 9.0


def test_each_of_two_yards_has_the_ground_that_is_said_of_it() -> None:
    several = replace(SCENE, yards=("Lupe", "Garza", "Oak"))
    heard = hear("la de Lupe ya quedó toda y la de Garza nomás enfrente", several)
    assert [(each.slots.yard, each.slots.all_zones, each.slots.zones) for each in heard.acts] == [
        ("Lupe", True, ("frente", "atrás", "franja")),
        ("Garza", False, ("frente",)),
    ]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("name_yard", "pásame el reporte de la iglesia en excel"),
        ("ask_need", "no me mandes nada en la noche"),
    ],
)
def test_what_surely_says_another_thing_answers_no_open_question(asked: str, said: str) -> None:
    expects = "name" if asked == "name_yard" else "yes_no"
    heard = hear(said, replace(SCENE, pending=Pending(asked, (expects,))))
    assert asked not in {act.act for act in heard.acts}


@pytest.mark.parametrize(
    "said", ["otra yarda en 76710, se llama Garza", "agrega la iglesia, zip 76706"]
)
def test_one_more_yard_has_the_name_that_is_said_with_its_place(said: str) -> None:
    (act,) = hear(said, SCENE).acts
    assert (act.act, act.slots.name) == ("add_yard", "Garza" if "Garza" in said else "iglesia")


def test_seven_in_the_morning_is_no_tomorrow() -> None:
    (act,) = hear("hicimos todo, 25 libras a las 7 de la mañana", SCENE).acts
    assert act.slots.amount is not None
    assert act.slots.on is not None
    assert (act.slots.all_zones, act.slots.amount.value, act.slots.on.at.hour) == (True, 25, 7)


def test_tenths_of_rain_are_tenths_of_an_inch() -> None:
    (act,) = hear("le cayó 4 décimas de lluvia", SCENE).acts
    assert (act.act, act.slots.depth_m) == ("report_rain", pytest.approx(0.4 * 0.0254))


@pytest.mark.parametrize("said", ["apunta que riego martes y jueves", "riego los martes y jueves"])
def test_days_of_watering_are_no_days_to_work(said: str) -> None:
    (act,) = hear(said, SCENE).acts
    assert (act.act, act.slots.read) == ("set_days", WaterDaysSaid(frozenset({1, 3})))


@pytest.mark.parametrize(
    ("said", "note"),
    [
        ("hay un arroyo atrás", "water"),
        ("atrás pasa un canal", "water"),
        ("atrás es pura subida", "slope"),
    ],
)
def test_what_lies_at_a_zone_is_noted_of_it(said: str, note: str) -> None:
    (act,) = hear(said, SCENE).acts
    ((fact, zones),) = act.slots.read.facts
    assert (act.act, fact.note, zones) == ("set_grass", note, ("atrás",))


def test_both_of_two_yards_are_every_yard() -> None:
    (act,) = hear("en las dos llovió media pulgada", SCENE).acts
    assert (act.act, act.slots.every_yard) == ("report_rain", True)


def test_packs_and_a_half_are_counted_whole_in_spanish() -> None:
    told = read_stock_words("quedan dos costales y medio")
    assert told is not None
    assert told.packs == 2.5


def test_what_is_taken_off_a_size_in_a_clause_of_its_own_is_taken_off() -> None:
    (act,) = hear("atrás son 55 por 70 menos la alberca que es de 15 por 30", SCENE).acts
    (zone,) = act.slots.read.zones
    assert zone.echo == "55 ft x 70 ft minus alberca 15 ft x 30 ft"


@pytest.mark.parametrize(
    ("said", "quiet_from"),
    [
        ("no me escribas después de las 8", 20 * 60),
        ("nada de mensajes pasadas las 9", 21 * 60),
        ("no me escribas después de las 8 de la noche", 20 * 60),
        ("don't text me past 9 pm", 21 * 60),
    ],
)
def test_quiet_after_an_hour_is_the_evenings(said: str, quiet_from: int) -> None:
    (act,) = hear(said, SCENE).acts
    assert isinstance(act.slots.read, QuietSaid)
    assert act.slots.read.quiet_from == quiet_from
