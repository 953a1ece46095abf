from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.ingredients import (
    combinations,
    find_ingredient,
    ingredients,
    stops,
)
from jobs.agronomy.tables import load
from jobs.agronomy.turf import find_species, turf_species
from jobs.agronomy.units import to_si

PRE = [item for item in ingredients().values() if item.kind == "pre"]


def lb_acre(kg_ha: float) -> float:
    return kg_ha / to_si(1.0, "lb/acre")


# --- every figure has a source ---------------------------------------------------------------


def rows_of(table: str) -> list[dict[str, object]]:
    found: list[dict[str, object]] = []

    def walk(value: object) -> None:
        inner = value.values() if isinstance(value, dict) else value
        if isinstance(value, dict) and "source" in value:
            found.append(value)
        if isinstance(inner, list | type({}.values())):
            for each in inner:
                walk(each)

    walk(load(table))
    return found


def rows_with_figures() -> list[dict[str, object]]:
    found: list[dict[str, object]] = []

    def walk(value: object) -> None:
        if isinstance(value, dict):
            if any(isinstance(v, int | float) for v in value.values()):
                found.append(value)
            for inner in value.values():
                walk(inner)
        elif isinstance(value, list):
            for inner in value:
                walk(inner)

    walk(load("ingredients"))
    walk(load("combinations"))
    return found


def test_every_figure_carries_its_certainty_and_source() -> None:
    rows = rows_with_figures()
    assert len(rows) > 80
    for row in rows:
        assert row["certainty"] in set("FMCPS"), row
        assert len(str(row["source"])) > 1, row


#: A year, or who published it: enough to look it up by.
PUBLISHED = re.compile(
    r"\b(?:19|20)\d\d\b|Univ\.|Extension|PNW Weed Management Handbook|USGS|USDA|EPA|PPDB"
)
ADMITTED = {
    "M": re.compile(r"from memory"),
    "P": re.compile(r"common practice, no source"),
    "S": re.compile(r"inference|taken as|inferred"),
}


def test_every_source_can_be_looked_up_or_says_that_there_is_none() -> None:
    rows = [*rows_of("ingredients"), *rows_of("combinations"), *rows_of("regional_dates")]
    for row in rows:
        said, certainty = str(row["source"]), str(row["certainty"])
        assert ADMITTED.get(certainty, PUBLISHED).search(said), row


def test_turf_named_by_an_ingredient_is_known() -> None:
    known = set(turf_species())
    for item in PRE:
        named = {t.species for t in item.trials}
        for group in (*item.harms, *item.yearly_maxima):
            named |= group.species
        named |= item.at_seeding.value if item.at_seeding else frozenset()
        assert named <= known, item.key


def test_a_range_never_reaches_above_the_remembered_years_total() -> None:
    for item in PRE:
        most = item.yearly_maximum("bermudagrass")
        usual = item.rate_range()
        if most is not None and usual is not None:
            assert usual.low_kg_ha < usual.high_kg_ha <= most.max_kg_ha * (1 + 1e-9), item.key


# --- published figures -----------------------------------------------------------------------


def test_benefin_with_trifluralin_by_the_published_granule() -> None:
    # PNW Weed Management Handbook (published): 75-120 lb an acre of a 2 % granule.
    [mixture] = combinations()
    assert mixture.ingredients == {"benefin", "trifluralin"}
    [usual] = mixture.rates
    assert lb_acre(usual.low_kg_ha) == pytest.approx(75 * 0.02)
    assert lb_acre(usual.high_kg_ha) == pytest.approx(120 * 0.02)


def test_bensulide_by_the_published_granules_and_liquid() -> None:
    # PNW Weed Management Handbook (published), golf: 180 lb/A of a 7 % granule; at most 4.6 lb per
    # 1000 sq ft a year of a 12 % granule, 24 lb ai/A; 25 lb ai/A of the 4 lb/gal liquid.
    item = ingredients()["bensulide"]
    liquid, its_most = item.rate_range(form="spray"), item.yearly_maximum(None, "spray")
    assert liquid is not None
    assert its_most is not None
    assert lb_acre(liquid.high_kg_ha) == pytest.approx(25.0)
    assert lb_acre(its_most.max_kg_ha) == pytest.approx(25.0)
    # Where the form is not known the lesser governs.
    usual, most = item.rate_range(), item.yearly_maximum("creeping_bentgrass")
    assert usual is not None
    assert most is not None
    assert lb_acre(usual.high_kg_ha) == pytest.approx(180 * 0.07)
    assert lb_acre(most.max_kg_ha) == pytest.approx(4.6 * 43.56 * 0.12, rel=2e-3)


def test_pendimethalin_range_in_kilograms_a_hectare() -> None:
    # Bhowmik & Bingham 1990, Weed Technol. (published): 1.7-3.4 kg/ha.
    usual = ingredients()["pendimethalin"].rate_range()
    assert usual is not None
    assert usual.low_kg_ha == pytest.approx(1.7, abs=0.05)
    assert usual.high_kg_ha == pytest.approx(3.4, abs=0.05)


def test_half_lives_in_turf_stand_beside_their_trials_own_soil() -> None:
    # Schleicher et al. 1995, Weed Sci. 43:140-148 (published): 35 and 23 days in turf.
    for key, days in (("dithiopyr", 35), ("pendimethalin", 23)):
        [field] = [h for h in ingredients()[key].half_lives if h.setting == "field"]
        assert field.days == days
        assert 15 < field.soil_c < 22


def test_early_action_on_small_crabgrass() -> None:
    # Purdue and University of Tennessee (published) for dithiopyr; mesotrione from memory.
    early = {item.key for item in PRE if item.early_post and item.early_post.value}
    assert early == {"dithiopyr", "mesotrione"}


def test_dithiopyr_is_weak_against_annual_bluegrass() -> None:
    # Kopec & Gilbert, University of Arizona (published): at most 45 % control in November.
    assert [t.value for t in ingredients()["dithiopyr"].weak_targets] == ["winter_annuals"]


# --- who may not get it ----------------------------------------------------------------------


def reasons(key: str, species: str | None, **say: bool | None) -> list[str]:
    return [stop.reason for stop in stops(ingredients()[key], species, **say)]  # type: ignore[arg-type]


def test_oxadiazon_stops_for_everyone_but_a_certified_applicator_off_home_lawns() -> None:
    # EPA interim registration review decision, 2022 (published summaries).
    assert reasons("oxadiazon", "bermudagrass") == ["certified_only", "not_residential"]
    assert reasons("oxadiazon", "bermudagrass", is_certified=True) == ["not_residential"]
    assert reasons("oxadiazon", "bermudagrass", is_certified=True, is_residential=False) == []
    # A label naming home lawns does not lift the restriction to certified applicators.
    assert reasons("oxadiazon", "bermudagrass", label_allows_residential=True) == ["certified_only"]


def test_indaziflam_stops_on_cool_season_turf() -> None:
    # From memory; bermudagrass alone in a University of Tennessee table (published).
    for key, species in turf_species().items():
        harmed = reasons("indaziflam", key) == ["harms_turf"]
        assert harmed == (species.season == "cool"), key


def test_siduron_stops_on_bermudagrass() -> None:
    # Purdue 2011 (published).
    assert reasons("siduron", "bermudagrass") == ["harms_turf"]
    assert reasons("siduron", "kentucky_bluegrass") == []


def test_an_unknown_turf_is_asked_about_where_an_ingredient_harms_some() -> None:
    assert set(reasons("s_metolachlor", None)) == {"may_harm_unknown_turf"}
    assert reasons("prodiamine", None) == []


def test_a_label_that_excludes_home_lawns_stops() -> None:
    assert reasons("prodiamine", "tall_fescue", label_allows_residential=False) == [
        "not_residential"
    ]


def test_the_least_remembered_maximum_governs_an_unknown_turf() -> None:
    # From memory, medium confidence: 1.5 tall fescue, 1.0 Kentucky bluegrass, 0.65 bentgrass.
    item = ingredients()["prodiamine"]
    for species, expected in (
        ("tall_fescue", 1.5),
        ("kentucky_bluegrass", 1.0),
        ("creeping_bentgrass", 0.65),
        (None, 0.65),
    ):
        most = item.yearly_maximum(species)
        assert most is not None
        assert lb_acre(most.max_kg_ha) == pytest.approx(expected)
    assert ingredients()["benefin"].yearly_maximum("tall_fescue") is None


# --- names -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Prodiamine", "prodiamine"),
        (" PENDIMETHALIN ", "pendimethalin"),
        ("benfluralin", "benefin"),
        ("S-Metolachlor", "s_metolachlor"),
        ("s metolachlor", "s_metolachlor"),
        ("2,4-D", "2,4-d"),
    ],
)
def test_names_are_found_whatever_their_case_and_hyphens(text: str, key: str) -> None:
    assert find_ingredient(text).found == key


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("prodiamin", "prodiamine"),
        ("pendamethalin", "pendimethalin"),
        ("dithiopyer", "dithiopyr"),
        ("oxadiozon", "oxadiazon"),
        ("metolachlor", "s_metolachlor"),
    ],
)
def test_a_slip_of_spelling_is_asked_back(text: str, first: str) -> None:
    naming = find_ingredient(text)
    assert naming.found is None
    assert naming.candidates[0] == first


@pytest.mark.parametrize("text", ["glyphosate", "simazine", "", "lime", "🌱"])
def test_a_stranger_is_neither_found_nor_guessed(text: str) -> None:
    naming = find_ingredient(text)
    assert naming.found is None
    assert naming.candidates == ()


@given(st.text(max_size=40))
def test_any_text_gets_an_answer(text: str) -> None:
    naming = find_ingredient(text)
    assert (naming.found is None) or naming.candidates == ()


def test_turf_is_found_by_its_usual_names_and_fescue_alone_is_asked_back() -> None:
    assert find_species("St. Augustine").found == "st_augustinegrass"
    assert find_species("Bermuda").found == "bermudagrass"
    assert set(find_species("fescue").candidates) == {"tall_fescue", "fine_fescue"}
