"""What a message is taken for: emergencies, answers, buttons, several acts, no reports."""

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from bot.hearing.acts import ACTS
from bot.hearing.forms.gap_forms import StripeSaid
from bot.hearing.guards import manner
from bot.hearing.hear import hear
from bot.hearing.heard import Heard, Pending, Scene
from bot.hearing.readers.quantities import Amount
from bot.hearing.readers.times import ended_in

SCENE = Scene(
    now=datetime(2026, 4, 10, 18, tzinfo=ZoneInfo("America/Chicago")),
    moment="open",
    zones=("front", "back", "ditch strip"),
    yards=("Church", "Miller"),
    yard="Church",
)
RATE = Pending("enter_product", ("rate",))
SURE = Pending("remove_zone", ("yes_no",))


def acts(heard: Heard) -> list[str]:
    return [each.act for each in heard.acts] or ["choose"]


def changes(heard: Heard) -> list[str]:
    return [each for each in acts(heard) if each in ACTS and ACTS[each].changes]


def heard(said: str, **scene: object) -> Heard:
    return hear(said, replace(SCENE, **scene))  # type: ignore[arg-type]


CONFIRMATIONS = [
    "done", "all done", "did it", "all down", "its down", "it's down", "is down", "put it down",
    "finished", "all finished", "applied", "applied it", "yep its in", "yes its down",
    "yep all done", "got it down", "got it done", "its all down", "just finished", "just did it",
    "i did it", "we did it", "front is done", "the back is done", "did the front", "did everything",
    "everything is down", "done today", "did it this morning", "done yesterday", "put it out today",
    "spread it this morning", "spread it all", "its on", "its out", "we put it down",
    "i put it down this morning", "job done", "got er done", "all set its down",
]  # fmt: skip
CONFIRMATIONS_ES = [
    "listo", "ya quedó", "ya lo eché", "ya está", "ya estuvo", "hecho", "ya lo puse", "todo listo",
    "ya terminé", "ya acabamos", "ya lo apliqué", "eché todo", "ya quedó todo", "ya eché el frente",
    "listo el frente", "ya le eché a todo", "ya se hizo", "terminado",
]  # fmt: skip


@pytest.mark.parametrize("moment", ["open", "due"])
@pytest.mark.parametrize("said", [*CONFIRMATIONS, *CONFIRMATIONS_ES])
def test_common_confirmations_are_reports(said: str, moment: str) -> None:
    assert acts(heard(said, moment=moment)) == ["report_applied"]


@pytest.mark.parametrize(
    "said",
    [
        "the dog ate some of the granules",
        "got it in my eye",
        "my kid swallowed some",
        "spilled half the jug into the storm drain",
        "el perro se comió las bolitas",
        "me cayó en los ojos",
    ],
)
@pytest.mark.parametrize("pending", [None, RATE, SURE])
def test_an_emergency_comes_first_in_every_state(said: str, pending: Pending | None) -> None:
    assert acts(heard(said, pending=pending)) == ["emergency"]


@pytest.mark.parametrize(
    "said",
    [
        "what if the dog eats some",
        "what happens if my kid swallows a granule",
        "¿qué pasa si se lo come el perro?",
    ],
)
def test_what_might_happen_is_a_question_about_keeping_off(said: str) -> None:
    assert acts(heard(said)) == ["ask_keep_off"]


def test_the_name_of_a_zone_is_no_emergency() -> None:
    said = heard("storm drain strip 5x80", zones=("front", "storm drain strip"))
    assert acts(said) == ["measure"]


@pytest.mark.parametrize(
    "said",
    [
        "should I put it down today?",
        "if I put it down tomorrow will it hold",
        "my neighbor put his down yesterday",
        "did not put it down",
        "going to put it down saturday",
        "have I missed it?",
        "¿ya lo debería echar?",
        "no lo eché todavía",
        "mañana lo echo",
    ],
)
def test_what_is_no_report_records_nothing_as_applied(said: str) -> None:
    assert "report_applied" not in acts(heard(said))


def test_a_typed_label_is_its_button() -> None:
    buttons = (("Yes, leave it out", "out"), ("No", "keep"))
    said = heard("yes leave it out", pending=SURE, buttons=buttons)
    assert said.answers_pending
    assert [(each.act, each.slots.option, each.why) for each in said.acts] == [
        ("remove_zone", "out", "pending")
    ]


def test_a_slip_in_a_label_is_forgiven_but_never_in_its_figures() -> None:
    buttons = (("Wed 15 Apr, 6 to 8 am", "day:15"), ("Thursday morning", "day:16"))
    assert heard("thursday mornng", buttons=buttons).acts[0].slots.option == "day:16"
    assert heard("wed 16 apr 6 to 8 am", buttons=buttons).acts[0].slots.option is None


@pytest.mark.parametrize("named", ["Soil", "Hill", "Amounts"])
def test_a_word_is_the_name_that_was_asked_for_before_it_is_a_button_or_a_form(named: str) -> None:
    asked = Pending("name_yard", ("name",))
    said = heard(named, pending=asked, buttons=((named, "soil:1"),))
    assert [(each.act, each.slots.name) for each in said.acts] == [("name_yard", named)]


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("remove all my information", "erase"),
        ("compare this year with last", "look_back"),
        ("how much prodiamine for 5k", "ask_amounts"),
    ],
)
def test_a_form_yields_where_the_sentences_surely_say_another_thing(said: str, act: str) -> None:
    assert acts(heard(said)) == [act]


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("yes", "confirm"),
        ("yep", "confirm"),
        ("sí", "confirm"),
        ("nope", "deny"),
        ("👍", "confirm"),
    ],
)
def test_a_yes_or_no_settles_what_is_pending(said: str, act: str) -> None:
    found = heard(said, pending=Pending("remove_zone", ("yes_no",)))
    assert found.answers_pending
    assert [(each.act, each.slots.of) for each in found.acts] == [(act, "remove_zone")]


@pytest.mark.parametrize(
    "said", ["3.2", "3.2 lb per 1000", "it says 3.2", "tres punto dos libras por mil"]
)
def test_a_pending_question_gets_its_answer(said: str) -> None:
    found = heard(said, pending=RATE)
    assert found.answers_pending
    assert acts(found) == ["enter_product"]


@pytest.mark.parametrize(
    "said", ["what's the soil doing", "how much for the back", "when can I seed"]
)
def test_a_pending_question_waits_while_another_is_answered(said: str) -> None:
    found = heard(said, pending=RATE)
    assert found.keeps_pending
    assert not found.answers_pending
    assert not changes(found)


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        ("did the front, side tomorrow", {"report_applied", "report_not_done"}),
        ("front is done and I watered it in 20 min", {"report_applied", "report_watered"}),
        ("we got two inches of rain, do I have to redo it?", {"ask_washed_out"}),
    ],
)
def test_several_acts_are_all_heard(said: str, wanted: set[str]) -> None:
    assert set(acts(heard(said))) == wanted


@pytest.mark.parametrize("said", ["watered it for 30 min", "ran the sprinklers 20 min"])
def test_figures_of_a_report_answer_no_question_about_a_label(said: str) -> None:
    maximum = Pending("enter_product", ("rate", "amount", "yes_no"), draft={"awaits": "maximum"})
    assert acts(heard(said, pending=maximum)) == ["report_watered"]


def test_what_is_left_of_a_product_was_caught_from_no_nozzle() -> None:
    assert acts(heard("about 20 ounces left in the jug")) == ["set_stock"]
    assert acts(heard("caught 40 oz")) == ["set_spreader"]


def test_a_report_has_its_slots() -> None:
    slots = heard("did the front yesterday with 7 and a half pounds").acts[0].slots
    assert slots.zones == ("front",)
    assert slots.on is not None
    assert slots.on.at.date().isoformat() == "2026-04-09"
    assert slots.amount == Amount(7.5, "lb")


def test_spanish_reports_have_the_same_slots() -> None:
    slots = heard("le eché atrás anoche con 7 libras y media").acts[0].slots
    assert slots.zones == ("back",)
    assert slots.on is not None
    assert slots.on.at.date().isoformat() == "2026-04-09"
    assert slots.amount == Amount(7.5, "lb")


@pytest.mark.parametrize("day", ["", "el martes ", "ayer "])
def test_what_is_left_out_of_everything_stays_with_it_on_any_day(day: str) -> None:
    done = heard(f"{day}eché todo menos la franja").acts[0]
    assert (done.act, done.slots.zones) == ("report_applied", ("front", "back"))


def test_one_word_for_all_zones_means_all() -> None:
    assert heard("did everything").acts[0].slots.all_zones


@pytest.mark.parametrize("said", ["38.8, -97.6", "68506", "Salina, Kansas"])
def test_a_place_is_known_by_its_grammar(said: str) -> None:
    assert acts(heard(said, moment="new", zones=(), yards=(), yard=None)) == ["give_place"]


def test_nothing_is_unknown() -> None:
    assert acts(heard("   ")) == ["unknown"]


def test_only_known_acts_are_heard() -> None:
    for said in ("done", "???", "12", "asdf qwer", "yes", "front 60x40"):
        assert set(acts(heard(said))) <= {*ACTS, "choose"}


@pytest.mark.parametrize(
    ("said", "expects", "is_answer"),
    [
        ("Alder Court", "name", True),
        ("the dog ate some", "name", False),
        ("how much for the back", "name", False),
        ("Albuquerque", "place", True),
        ("38.9, -97.6", "place", True),
        ("tomorrow", "day", True),
        ("60x40", "size", True),
        ("no not that", "yes_no", True),
        ("bermuda", "grass", True),
        ("4 weeks", "days", True),
    ],
)
def test_an_answer_is_told_by_what_is_expected(said: str, expects: str, is_answer: bool) -> None:
    found = heard(said, pending=Pending("name_yard", (expects,)))
    assert found.answers_pending is is_answer


def test_both_of_three_zones_is_asked() -> None:
    assert acts(heard("both of them are done")) == ["choose"]
    slots = heard("both of them are done", zones=("front", "back")).acts[0].slots
    assert slots.zones == ("front", "back")


def test_thanks_are_no_yes_to_what_waits() -> None:
    assert "confirm" not in acts(heard("ok thanks man", pending=SURE))
    assert "confirm" not in acts(heard("ok gracias", pending=SURE))
    assert acts(heard("yes thanks", pending=SURE)) == ["confirm"]


def test_a_question_about_a_figure_is_asked_not_taken() -> None:
    assert not changes(heard("is it 3.2 lb per 1000?", pending=RATE))


@pytest.mark.parametrize(
    ("said", "zones"),
    [
        ("front is done, back I'll do sunday", ("front",)),
        ("ayer eché atrás y el frente, la zanja la hago el lunes", ("front", "back")),
    ],
)
def test_what_is_still_to_come_is_not_among_the_zones_done(
    said: str, zones: tuple[str, ...]
) -> None:
    done = next(each for each in heard(said).acts if each.act == "report_applied")
    assert done.slots.zones == zones


def test_sizes_are_read_in_spanish_words() -> None:
    found = heard("el fondo es de 12 por 9 metros, adelante 8 por 6", zones=(), moment="placed")
    assert acts(found) == ["measure"]
    assert set(found.acts[0].slots.zones) == {"front", "back"}
    assert round(found.acts[0].slots.read.zones[0].area_m2) == 108


def test_a_part_of_a_lot_is_the_zone_that_is_kept_for_it() -> None:
    said = heard("front yard is forty by twenty five feet")
    assert [zone.name for zone in said.acts[0].slots.read.zones] == ["front"]


def test_a_yard_given_up_is_no_zone_that_has_the_word_in_its_name() -> None:
    said = heard("remove yard", zones=("front yard", "back"))
    assert [(each.act, each.slots.zones) for each in said.acts] == [("remove_yard", ())]


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("how much do I use around the mailbox, its like 5x8", "ask_amounts"),
        ("a 3.2 por mil cuánto le toca al front", "ask_amounts"),
    ],
)
def test_figures_beside_a_question_are_the_questions(said: str, act: str) -> None:
    assert acts(heard(said)) == [act]


def test_what_is_asked_beside_sizes_is_answered_too() -> None:
    assert acts(heard("front is 60x40, is it too late?")) == ["measure", "ask_late"]


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("joining with code 55821", "join"),
        ("zip code 66044", "give_place"),
        ("overland park ks", "give_place"),
    ],
)
def test_codes_and_places_are_told_apart(said: str, act: str) -> None:
    assert acts(heard(said)) == [act]


def test_a_form_is_not_outvoted_by_a_change_that_is_only_likely() -> None:
    assert acts(heard("alerts back on")) == ["stop_alerts"]


def test_a_report_of_two_yards_is_one_of_each() -> None:
    said = heard("church and miller are done", yards=("Church", "Miller", "Home"))
    assert [(each.act, each.slots.yard) for each in said.acts] == [
        ("report_applied", "Church"),
        ("report_applied", "Miller"),
    ]


def test_a_correction_reports_nothing_twice() -> None:
    assert acts(heard("no it was 7 lb on the front, not 8 lb on the back")) == ["change_record"]


def test_a_zone_that_can_wait_asks_for_no_reminder() -> None:
    said = "front and back are down. the strip can wait til monday, too wet to get across"
    assert acts(heard(said)) == ["report_applied", "report_not_done"]


def test_nothing_is_asked_between_what_nobody_can_choose() -> None:
    assert "unknown" not in [each.act for each in heard("front").choose]


def test_words_before_a_kept_name_are_no_part_of_it() -> None:
    said = heard("no wait the strip is 6 by 55", zones=("front", "side strip"))
    assert [zone.name for zone in said.acts[0].slots.read.zones] == ["side strip"]


def test_what_is_left_out_of_everything_may_be_named_as_the_language_does() -> None:
    found = heard("ya le eché a todo menos la tira", zones=("front", "back", "side strip"))
    assert acts(found) == ["report_applied"]
    assert found.acts[0].slots.zones == ("front", "back")


def test_what_others_went_on_to_do_is_no_report_of_ones_own() -> None:
    theirs = "my guy came by and treated everything last tuesday"
    found = heard(theirs, moment="open")
    assert acts(found) == ["report_service"]
    assert found.acts[0].slots.all_zones
    assert found.acts[0].slots.on is not None


def test_a_correction_takes_nothing_back_besides() -> None:
    assert acts(heard("me equivoqué, fue ayer", moment="applied")) == ["change_record"]


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        (
            "put the back down and watered it, when's the second one due",
            ["report_applied", "report_watered", "ask_barrier"],
        ),
        ("service did the front and I did the back", ["report_service", "report_applied"]),
        ("el de atrás sí, el de enfrente no", ["report_applied", "report_not_done"]),
    ],
)
def test_what_is_said_in_one_breath_is_heard_act_by_act(said: str, wanted: list[str]) -> None:
    assert acts(heard(said, moment="open")) == wanted


def test_what_was_almost_done_is_not_done() -> None:
    assert "report_applied" not in acts(heard("almost did it", moment="open"))


def test_quiet_until_a_day_is_a_snooze_and_hours_are_quiet_hours() -> None:
    assert acts(heard("no me escribas hasta el lunes", moment="open")) == ["snooze"]
    assert acts(heard("no texts before 8 in the morning")) == ["set_quiet"]


def test_a_number_behind_its_mark_is_no_place() -> None:
    assert acts(heard("applicator # KS-20871")) != ["give_place"]


def test_what_is_denied_is_none_of_what_was_done() -> None:
    found = heard("oops that was the back not the front", moment="applied")
    assert found.acts[0].slots.zones == ("back",)


def test_a_yard_is_named_by_another_language_too() -> None:
    found = heard("quién hizo la iglesia ayer", yards=("Church", "Miller", "Home"))
    assert found.acts[0].slots.yard == "Church"


def test_a_bare_figure_of_a_label_is_no_depth_of_water() -> None:
    slots = heard("0.48 prodiamine").acts[0].slots
    assert (slots.number, slots.depth_m) == (0.48, None)


@pytest.mark.parametrize("said", ["watered half an inch", "watered a half inch everywhere"])
def test_water_is_read_in_words(said: str) -> None:
    assert heard(said, moment="applied").acts[0].slots.depth_m == pytest.approx(0.0127)


@pytest.mark.parametrize(
    "said",
    [
        "sposed to rain an inch tonight, can i skip the sprinklers",
        "bare spot by the driveway, can i throw seed on it",
        "ya deberían haber acabado, salieron a las 6",
        "should have put it down last week",
    ],
)
def test_what_ought_to_be_or_is_forecast_or_asked_about_is_no_report(said: str) -> None:
    assert not changes(heard(said, moment="applied"))


def test_what_says_nothing_is_no_place() -> None:
    found = heard("asdkj k", moment="new", pending=Pending("give_place", ("place",)))
    assert acts(found) == ["unknown"]
    assert found.keeps_pending


def test_till_before_a_day_is_no_tilling() -> None:
    found = heard("holding off till saturday", moment="open")
    assert acts(found) == ["snooze"]
    assert found.acts[0].slots.work is None


@pytest.mark.parametrize(
    ("said", "yard", "pounds"),
    [
        ("applied 21.5 lb at Miller", "Miller", 21.5),
        ("applied at Miller at 9:15", "Miller", None),
        ("aplicado en Miller con 21.5 lb", "Miller", 21.5),
        ("apliqué en Miller a las 9:15", "Miller", None),
        ("did Miller at 9:15", "Miller", None),
    ],
)
def test_a_report_names_its_yard(said: str, yard: str, pounds: float | None) -> None:
    (act,) = heard(said).acts
    assert (act.act, act.slots.yard) == ("report_applied", yard)
    assert (None if act.slots.amount is None else act.slots.amount.value) == pounds


@pytest.mark.parametrize(
    ("said", "is_every"),
    [
        ("watered everywhere", True),
        ("half an inch on all", True),
        ("half an inch on all zones", False),
        ("no crabgrass anywhere", True),
        ("regué en todas partes", True),
        ("no vi garranchuelo en ninguna parte", True),
        ("watered all of it", False),
    ],
)
def test_every_yard_is_meant_by_words_for_everywhere(said: str, *, is_every: bool) -> None:
    found = heard(said, moment="applied")
    assert [each.slots.every_yard for each in found.acts] == [is_every]


@pytest.mark.parametrize(
    ("said", "amounts"),
    [
        ("applied 7 lb on the front and 4.5 lb on the back", {"front": 7, "back": 4.5}),
        ("le eché 3 libras al frente y 2 libras atrás", {"front": 3, "back": 2}),
        ("applied 7 lb on the front and the back got 4.5 lb", None),
    ],
)
def test_each_place_gets_its_own_amount_or_it_is_asked(
    said: str, amounts: dict[str, float] | None
) -> None:
    found = heard(said).acts
    if amounts is None:
        assert [each.slots.unread is not None for each in found] == [True]
        return
    assert {
        each.slots.zones[0]: each.slots.amount.value for each in found if each.slots.amount
    } == amounts


@pytest.mark.parametrize(
    ("said", "water"),
    [
        ("we got three tenths friday and a half inch last night", [(10, 0.3), (11, 0.5)]),
        (
            "rained .3 friday, .5 saturday and a tenth this morning",
            [(10, 0.3), (11, 0.5), (12, 0.1)],
        ),
        ("ran it 20 minutes yesterday and 30 today", [(11, 20), (12, 30)]),
        ("le puse agua 20 minutos ayer y 30 hoy", [(11, 20), (12, 30)]),
        ("it rained half an inch between friday and saturday", [(10, 0.5)]),
    ],
)
def test_each_day_gets_its_own_water(said: str, water: list[tuple[int, float]]) -> None:
    at = datetime(2026, 4, 12, 18, tzinfo=SCENE.now.tzinfo)
    told = [each.slots for each in heard(said, now=at, moment="applied").acts]
    assert [
        (each.on and each.on.at.day, each.minutes or pytest.approx((each.depth_m or 0) / 0.0254))
        for each in told
    ] == water


def test_an_hour_of_tonight_is_no_morning() -> None:
    (act,) = heard("sprinklers come on at 6 tonight for half an hour", moment="applied").acts
    assert act.slots.on is not None
    assert act.slots.on.at.hour == 18


@pytest.mark.parametrize(
    ("said", "begun", "minutes"),
    [
        ("applied the front from 9:15 to 9:50", (9, 15), 9 * 60 + 50),
        ("applied the front from 11 to 1 pm", (11, 0), 13 * 60),
        ("front is done, started 9:15, finished 9:50", (9, 15), 9 * 60 + 50),
        ("eché el frente de 9:15 a 9:50", (9, 15), 9 * 60 + 50),
        ("applied 3 to 4 lb on the front at 9:15", (9, 15), None),
    ],
)
def test_a_report_says_when_work_began_and_ended(
    said: str, begun: tuple[int, int], minutes: int | None
) -> None:
    at = datetime(2026, 4, 10, 18, tzinfo=SCENE.now.tzinfo)
    (act,) = heard(said, now=at).acts
    when = act.slots.on
    assert when is not None
    assert (when.at.hour, when.at.minute) == begun
    assert ended_in(act.said, begun[0] * 60 + begun[1]) == minutes


@pytest.mark.parametrize("said", ["no crabgrass at {}", "watered half an inch at {}"])
def test_what_is_seen_or_watered_lands_at_the_yard_it_names(said: str) -> None:
    (act,) = heard(said.format(SCENE.yards[-1]), moment="applied").acts
    assert act.slots.yard == SCENE.yards[-1]


def test_an_answer_may_say_another_thing_as_well() -> None:
    said = "it's 4 lb per 1000, how many bags does that take"
    assert acts(heard(said, pending=RATE)) == ["enter_product", "ask_buy"]


def test_half_an_inch_on_everything_is_the_sprinklers_or_the_skys() -> None:
    both = heard("half an inch on everything last night").choose
    assert [each.act for each in both] == ["report_watered", "report_rain"]


def test_a_question_that_has_only_begun_is_no_clause_of_its_own() -> None:
    assert acts(heard("how much can I still put on the back")) == ["ask_amounts"]


def test_a_day_beside_a_question_is_no_reminder() -> None:
    assert acts(heard("mañana se puede o hay mucho aire")) == ["ask_day"]


def test_work_not_done_is_told_beside_a_question_about_another_day() -> None:
    assert acts(heard("couldn't do it, too windy. is sunday better?")) == [
        "report_not_done",
        "ask_day",
    ]


def test_a_zone_skipped_for_the_year_rests_by_its_name() -> None:
    (skipped,) = heard("skip the back this year").acts
    assert (skipped.act, skipped.slots.zones) == ("mute", ("back",))


def test_any_strip_is_not_the_strip_that_is_kept() -> None:
    told = heard("got it all but a strip by the mailbox").acts[0]
    assert "ditch strip" in told.slots.zones


def test_the_day_asked_about_may_be_today_beside_the_day_of_rain() -> None:
    asked = heard("ok to put it down today? rain thursday").acts[0]
    assert asked.act == "ask_day"
    assert asked.slots.on is not None
    assert asked.slots.on.at.date() == SCENE.now.date()


@pytest.mark.parametrize(
    "said",
    [
        "nope nothing about a max on here",
        "it doesn't say one",
        "dunno",
        "no clue, the bag got wet and its smeared",
        "nope theres only a percent on it",
        "no dice nada de un máximo",
        "no sé, se borró la etiqueta",
        "No me acuerdo, tiré la etiqueta",
    ],
)
def test_a_figure_that_is_not_to_be_had_is_a_no_to_the_question_for_it(said: str) -> None:
    found = heard(said, pending=RATE)
    assert acts(found) == ["deny"]
    assert found.answers_pending
    assert found.acts[0].slots.of == "enter_product"


@pytest.mark.parametrize("said", ["not more than 6 lb a year", "no, 3.2 lb per 1000"])
def test_a_figure_beside_a_no_is_that_figure(said: str) -> None:
    assert acts(heard(said, pending=RATE)) == ["enter_product"]


@pytest.mark.parametrize(
    "said",
    ["did Miller this morning, Church I'll get tomorrow", "hoy hicimos Miller, mañana Church"],
)
def test_what_is_to_come_beside_a_day_that_is_past_is_not_done(said: str) -> None:
    assert acts(heard(said)) == ["report_applied", "report_not_done"]


def test_what_is_said_in_passing_takes_nothing_from_what_is_plain() -> None:
    assert acts(heard("recuérdame el sábado, gracias por avisar")) == ["snooze"]
    assert acts(heard("my thermometer says 54 at two inches, does that sound right to you?"))[
        0
    ] == ("report_soil")


def test_an_inch_caught_in_a_can_is_nothing_put_down() -> None:
    assert "report_applied" not in acts(heard("I put a can out and got 1/4 inch in 20 minutes"))


def test_hives_of_bees_are_no_rash() -> None:
    assert acts(heard("is it ok to do this with bees around, wife keeps two hives")) == [
        "ask_keep_off"
    ]
    assert acts(heard("broke out in hives after spreading it")) == ["emergency"]


@pytest.mark.parametrize(
    ("said", "names"),
    [
        (
            "el zacate de enfrente, 45 por 30 pies, y el de atrás que son 2000 pies cuadrados",
            ["enfrente", "atrás"],
        ),
        ("el pasto de atrás 40 por 20 pies, la cochera 5 por 40", ["atrás", "cochera"]),
    ],
)
def test_the_grass_of_a_part_is_that_part(said: str, names: list[str]) -> None:
    [measured] = heard(said, language="es", zones=()).acts
    assert [item.name for item in measured.slots.read.items] == names


def test_a_word_for_grass_is_no_zone_that_has_it_in_its_name() -> None:
    [grass] = heard("zacate bermuda en todo", language="es", zones=("zacate norte", "sur")).acts
    assert (grass.act, grass.slots.all_zones) == ("set_grass", True)


@pytest.mark.parametrize("said", ["which day is good this week", "cual día es bueno esta semana"])
def test_the_week_is_asked_for_its_best_day(said: str) -> None:
    [asked] = heard(said).acts
    assert (asked.act, asked.slots.on) == ("ask_day", None)


@pytest.mark.parametrize(
    ("said", "gal_per_acre"),
    [
        # 43,560 sq ft an acre: 4 gal on 2,000 sq ft are 87.12 gal/acre.
        ("4 gallons covered 2000 sq ft", 87.12),
        ("4 gallons covers 2000", 87.12),
        ("con 4 galones cubrí 2 mil pies", 87.12),
        ("my sprayer puts out a gallon per 1000", 43.56),
    ],
)
def test_how_far_water_went_is_the_spray_volume(said: str, gal_per_acre: float) -> None:
    [told] = heard(said).acts
    assert told.act == "set_spreader"
    assert told.slots.read.gpa == pytest.approx(gal_per_acre)


def test_how_far_a_jug_goes_is_read_off_a_label_that_is_asked() -> None:
    assert acts(heard("1 gallon covers 5000 sq ft", pending=RATE)) == ["enter_product"]


def test_a_missed_stripe_keeps_the_size_said_behind_it() -> None:
    [gap] = heard("i skipped the strip along the fence, like 3 by 60").acts
    assert gap.act == "report_gap"
    assert gap.slots.read.width_m == pytest.approx(0.9144)
    assert gap.slots.read.length_m == pytest.approx(18.288)


@pytest.mark.parametrize(
    ("said", "bags"),
    [
        ("its all down, two bags", 2.0),
        ("front is done, used a bag and a half", 1.5),
        ("all down, used half a bag", 0.5),
        ("put down the front and back, about a third of the bag", 1 / 3),
        ("spread 3/4 of a bag on everything", 0.75),
        ("todo puesto, gaste medio saco", 0.5),
        # Not just so many: 0, and the weight is asked.
        ("everything is down, went through most of the bag", 0.0),
        ("ok its all down, two bags minus maybe 5 lbs", 0.0),
    ],
)
def test_bags_beside_a_report_are_what_it_took(said: str, bags: float) -> None:
    [report] = heard(said, moment="open").acts
    assert (report.act, report.slots.amount) == ("report_applied", None)
    assert report.slots.packs == pytest.approx(bags)


@pytest.mark.parametrize(
    "said", ["actually i skipped the side", "no, not the back", "oh wait i didn't do the back"]
)
def test_a_zone_that_got_nothing_is_one_act_however_it_is_said(said: str) -> None:
    assert acts(heard(said, moment="open")) == ["report_not_done"]


def test_a_report_in_short_may_call_a_zone_as_the_language_does() -> None:
    [report] = heard("ya aplique en el frente, 7 libras", moment="open", language="es").acts
    assert (report.act, report.slots.zones) == ("report_applied", ("front",))
    assert report.slots.amount is not None


def test_what_denies_only_what_was_said_before_is_no_zone_undone() -> None:
    assert acts(heard("nope i mean the back", moment="open")) != ["report_not_done"]


@pytest.mark.parametrize(
    "said", ["there's half a bag in the garage", "half a bag left", "tengo medio saco"]
)
def test_bags_that_nobody_used_are_none_that_went_down(said: str) -> None:
    assert "report_applied" not in acts(heard(said, moment="open"))


@pytest.mark.parametrize(
    "said",
    [
        "my kid ran through it before i watered",
        "the dog got out there before i could water it in",
        "los ninos jugaron en el frente antes de regar",
    ],
)
def test_what_came_before_a_watering_is_none(said: str) -> None:
    assert "report_watered" not in acts(heard(said, moment="applied"))


def test_a_wish_beside_a_question_is_only_what_it_stands_on() -> None:
    said = "i only have saturdays off, is it too late by then"
    assert not changes(heard(said, moment="ready"))


def test_what_somebody_would_do_for_money_is_no_service_done() -> None:
    said = "the lawn service wants 95 bucks to do it, is that a waste"
    assert not changes(heard(said, moment="ready"))


def test_the_number_of_a_round_is_no_degree() -> None:
    assert "report_soil" not in acts(heard("round two is in the ground", moment="due"))


def test_both_are_the_two_that_were_named() -> None:
    found = heard("front done, back done, ran the sprinkler on both for half an hour")
    assert acts(found) == ["report_applied", "report_watered"]
    assert found.acts[1].slots.zones == ("front", "back")


def test_a_tank_beside_a_label_keeps_both() -> None:
    label = "prodiamine 65 WDG, 0.83 oz per 1000, max 2 oz a year"
    found = heard(f"a 4 gallon backpack and {label}", moment="ready")
    assert sorted(acts(found)) == ["enter_product", "set_spreader"]
    assert all(each.slots.read is not None for each in found.acts)


def test_ran_out_for_a_place_tells_that_it_is_not_done() -> None:
    for said in (
        "put down the front, ran out for the back",
        "ya eché enfrente pero se me acabó para atrás",
    ):
        found = heard(said)
        assert acts(found)[0] == "report_applied"
        assert found.acts[0].slots.zones == ("front",)


def test_what_it_costs_is_no_rate() -> None:
    found = heard("pro-diamine, $89 a bag", moment="ready", pending=RATE)
    assert acts(found) == ["enter_product"]
    assert (found.acts[0].slots.product, found.acts[0].slots.number) == ("prodiamine", None)


def test_that_the_bag_says_so_is_a_yes_that_leaves_the_question() -> None:
    found = heard("yes thats what the bag says", moment="ready", pending=RATE)
    assert acts(found) == ["confirm"]
    assert found.keeps_pending


def test_who_does_not_know_skips_what_is_asked_of_the_need() -> None:
    need = Pending("ask_need", ("yes_no",))
    for said in ("dunno", "no clue", "quién sabe"):
        assert heard(said, moment="ready", pending=need).acts[0].slots.read.answer == "skip"  # type: ignore[union-attr]


def test_how_big_a_part_is_is_no_name() -> None:
    def names(said: str) -> list[str | None]:
        read = heard(said, moment="placed", zones=()).acts[0].slots.read
        return [zone.name for zone in read.zones]  # type: ignore[union-attr]

    assert names("a small front 20x30") == ["front"]
    assert names("big side 60x40, small side 20x30") == ["big side", "small side"]


def test_wind_told_after_a_report_is_the_record_s() -> None:
    found = heard("oh and it was windy, like 12 mph", moment="applied")
    assert acts(found) == ["change_record"]
    assert found.acts[0].slots.read.fields == (("wind", "12 mph"),)  # type: ignore[union-attr]


def test_what_cannot_be_done_is_no_question() -> None:
    assert not manner("can not find the label", "en", has_mark=False).is_question
    assert manner("can not i do it today", "en", has_mark=False).is_question


def test_why_not_a_day_asks_about_the_day() -> None:
    assert acts(heard("why not tuesday", moment="ready")) == ["ask_day"]
    assert acts(heard("why not a bit later", moment="ready")) != ["ask_day"]


@pytest.mark.parametrize(
    "said",
    ["did it all, 12 lb on the front and four on the back", "front got 12 lb and the back 4"],
)
def test_a_bare_figure_beside_a_place_has_the_unit_said_before(said: str) -> None:
    acts = heard(said, moment="open").acts
    assert [(each.slots.zones, each.slots.amount) for each in acts] == [
        (("front",), Amount(12.0, "lb")),
        (("back",), Amount(4.0, "lb")),
    ]


def test_one_more_yard_has_the_place_said_beside_it() -> None:
    [added] = heard("add another yard, my aunts place in Salina KS").acts
    assert added.act == "add_yard"
    assert "Salina KS" in getattr(added.slots.read, "words", str(added.slots.read))


def test_sizes_beside_a_new_place_are_no_zone_of_the_yard_talked_about() -> None:
    said = heard("third one is the church in Lawrence KS, about half an acre")
    assert acts(said) == ["give_place"]


@pytest.mark.parametrize(
    ("said", "sq_ft"),
    [
        ("mide como 3 mil pies cuadrados en total", [3000]),
        ("tiene como tres mil pies cuadrados", [3000]),
        ("el frente tiene 2 mil pies cuadrados y el de atrás mil quinientos", [2000, 1500]),
    ],
)
def test_thousands_in_spanish_are_thousands(said: str, sq_ft: list[float]) -> None:
    [measured] = heard(said, language="es", zones=()).acts
    assert [each.area_m2 / 0.09290304 for each in measured.slots.read.zones] == pytest.approx(sq_ft)


@pytest.mark.parametrize(
    ("said", "depth_m"),
    [
        ("my heads put out half an inch an hour", 0.0127),
        ("sprinkler does 12 mm an hour", 0.012),
        ("los rociadores dan media pulgada por hora", 0.0127),
    ],
)
def test_what_a_sprinkler_gives_an_hour_needs_no_minutes(said: str, depth_m: float) -> None:
    [told] = heard(said).acts
    assert told.act == "set_sprinkler"
    assert (told.slots.depth_m, told.slots.minutes) == (pytest.approx(depth_m), 60.0)


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("Sprinkler gives a quarter inch per hour", "set_sprinkler"),
        ("I spray 2 gallons per thousand", "set_spreader"),
    ],
)
def test_what_is_said_of_ones_own_water_answers_no_question_about_a_label(
    said: str, act: str
) -> None:
    assert acts(heard(said, pending=RATE)) == [act]


def test_a_pouch_is_a_pack() -> None:
    [label] = heard("one 5 oz pouch treats 10000 sq ft", pending=RATE).acts
    assert label.act == "enter_product"
    assert label.slots.read.read.coverage.rate.value == pytest.approx(0.5)


def test_two_places_with_their_articles_are_one_report() -> None:
    told = heard("finished the back and the front at 7 pm, one bag left", moment="open").acts
    assert [each.act for each in told] == ["report_applied", "set_stock"]
    assert set(told[0].slots.zones) == {"front", "back"}


def test_a_whole_zone_that_was_skipped_is_no_stripe() -> None:
    for act in heard("skipped the back, its 40x50").acts:
        assert not isinstance(act.slots.read, StripeSaid)


SIZE = Pending("measure", ("size",))
FIRST = {"moment": "new", "zones": (), "yards": (), "yard": None}


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("3.2 and i have a bag and a half of it", "set_stock"),
        ("2.8 per thousand, when does it need to be down", "ask_when"),
        ("3 libras por mil y tengo dos sacos", "set_stock"),
    ],
)
def test_the_figure_asked_for_is_taken_with_what_is_said_behind_it(said: str, kept: str) -> None:
    assert acts(heard(said, moment="ready", pending=RATE)) == ["enter_product", kept]


def test_more_of_the_same_label_behind_its_figure_is_one_answer() -> None:
    assert acts(heard("2.8 and covers 5000", moment="ready", pending=RATE)) == ["enter_product"]


@pytest.mark.parametrize(
    "said",
    [
        "house is in Wichita, front is bout 50 by 30",
        "vivo en Dodge City, la yarda de enfrente mide 40 por 25",
    ],
)
def test_the_first_place_said_beside_sizes_is_taken_before_them(said: str) -> None:
    place = Pending("give_place", ("place",))
    assert acts(heard(said, pending=place, **FIRST)) == ["give_place", "measure"]


def test_the_grass_kept_with_sizes_is_told_as_understood() -> None:
    understood = heard("front 50x30, tall fescue", moment="placed", pending=SIZE).understood()
    assert [each["act"] for each in understood] == ["measure", "set_grass"]
    assert understood[1]["slots"]["grass"] == "tall_fescue"


@pytest.mark.parametrize("said", ["i hit the back and the ditch strip thursday"])
def test_a_day_behind_two_places_that_were_done_is_the_day_of_both(said: str) -> None:
    [report] = heard(said).acts
    assert (report.act, set(report.slots.zones)) == ("report_applied", {"back", "ditch strip"})


def test_a_day_to_come_behind_the_second_place_is_its_own() -> None:
    said = "did the front and the back tomorrow"
    assert acts(heard(said)) == ["report_applied", "report_not_done"]


def test_a_correction_and_a_watering_are_both_heard() -> None:
    said = "I did it thursday actually, and watered it in the same night"
    assert acts(heard(said, moment="applied")) == ["change_record", "report_watered"]


@pytest.mark.parametrize("said", ["fue el viernes, no el sábado", "it was friday, not saturday"])
def test_a_correction_with_two_days_is_no_wish_of_days(said: str) -> None:
    assert acts(heard(said, moment="applied")) == ["change_record"]


@pytest.mark.parametrize(
    "said",
    ["once its down how long till it quits working", "did the crew say they finished the back"],
)
def test_what_will_be_down_or_is_asked_of_others_is_no_report(said: str) -> None:
    assert changes(heard(said)) == []


def test_a_yard_of_ours_treated_by_somebody_is_a_service_whoever_it_was() -> None:
    assert acts(heard("Miller got done by my brother in law's crew")) == ["report_service"]


def test_a_question_after_rain_is_no_report_of_rain() -> None:
    assert changes(heard("hm, did it rain at all this week", moment="applied")) == []


@pytest.mark.parametrize("said", ["save", "save it", "yep keep it", "guardar"])
def test_the_words_of_keeping_are_a_yes(said: str) -> None:
    assert acts(heard(said, moment="placed", pending=SURE)) == ["confirm"]


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("who's up first", "ask_today"),
        ("how much is left in the bag", "show_product"),
        ("book the second for mid june", "snooze"),
        ("I mow for 3 people", "other"),
        ("olvidalo, borra lo de mi hermano", "remove_yard"),
        ("what grass type", "set_grass"),
        ("no, 0.45", "change_record"),
        ("8 not 9", "change_record"),
    ],
)
def test_sayings_that_were_misread(said: str, act: str) -> None:
    assert acts(heard(said, moment="applied")) == [act]


@pytest.mark.parametrize("moment", ["open", "due"])
@pytest.mark.parametrize(
    "said",
    [
        "its 92 out today",
        "its 45 degrees this morning",
        "hace 30 grados hoy",
        "2 days of rain coming",
    ],
)
def test_weather_that_is_told_asks_of_the_day_and_changes_nothing(said: str, moment: str) -> None:
    assert acts(heard(said, moment=moment)) == ["ask_day"]


def test_a_report_that_asks_is_its_question() -> None:
    found = heard("it poured last night, two inches, am i screwed", moment="applied")
    assert acts(found) == ["ask_washed_out"]


def test_a_question_refuses_nothing_that_waits() -> None:
    waits = Pending("enter_product", ("rate",))
    for said in ("good enough?", "have you ever been wrong"):
        assert not {"confirm", "deny"} & set(acts(heard(said, pending=waits)))


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("can it wait till may 1", (5, 1)),
        ("is the 20th ok", (4, 20)),
        ("did it on the 3rd", (4, 3)),
    ],
)
def test_a_day_of_the_month_is_the_one_that_is_meant(said: str, day: tuple[int, int]) -> None:
    on = heard(said, now=datetime(2026, 4, 10, 12, tzinfo=ZoneInfo("America/Chicago"))).acts[0]
    assert on.slots.on is not None
    assert (on.slots.on.at.month, on.slots.on.at.day) == day


def test_a_label_told_in_pieces_keeps_its_ingredient() -> None:
    said = "half a bag of dithiopyr in the shed, point one five, covers 6000 with 24 pounds"
    (act,) = heard(said, moment="placed", pending=Pending("enter_product", ("ingredient",))).acts
    assert (act.act, act.slots.product) == ("enter_product", "dithiopyr")


def test_rain_told_while_a_rate_is_asked_for_is_no_rate() -> None:
    said = "quarter inch fell overnight, is it enough for the back"
    told = heard(said, moment="applied", pending=Pending("enter_product", ("rate",)))
    assert [each.act for each in told.acts] == ["report_rain"]
    assert told.acts[0].slots.depth_m == pytest.approx(0.00635)
