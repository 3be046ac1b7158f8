"""The setpoint: inside every comfort band that is shared, and the groups that share one where all do not."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockcheck.advice.setpoint import PREFERENCES, choose, setpoint_document, setpoint_of_species
from stockcheck.check import check_text
from stockcheck.rules.bands import Limit, Span, common, limits, parties
from stockcheck.table.model import Band, PlantSpecies, Species
from stockcheck.table.read import Table


def band(low: float | None, high: float | None, origins: int = 3) -> Band:
    return Band("temperature", "degC", low, high, low, high, "A", origins)


@pytest.fixture(scope="module")
def guppy(table: Table) -> Species:
    return table.species("poecilia-reticulata")


@pytest.fixture(scope="module")
def moss(table: Table) -> PlantSpecies:
    return table.plant("taxiphyllum-barbieri")


def animal(pattern: Species, name: str, low: float | None, high: float | None) -> Species:
    return replace(pattern, slug=name, common_name=name, bands={"temperature": band(low, high)})


spans = st.tuples(st.integers(150, 300), st.integers(0, 80)).map(lambda x: (x[0] / 10, (x[0] + x[1]) / 10))
many = st.lists(spans, min_size=1, max_size=8)


@given(
    many,
    st.sampled_from(sorted(PREFERENCES)),
    st.sampled_from([0.0, 0.25, 0.5, 1.0, 2.0]),
    st.sampled_from([0.1, 0.5, 1.0, 5.0]),
)
def test_the_setpoint_lies_in_every_comfort_band(
    guppy: Species, bands: list[tuple[float, float]], prefer: str, swing: float, step: float
) -> None:
    taxa = [animal(guppy, f"s{i}", low, high) for i, (low, high) in enumerate(bands)]
    answer = setpoint_of_species(taxa, prefer, swing, step)
    low, high = max(b[0] for b in bands), min(b[1] for b in bands)
    if high - low < min([swing, *(b[1] - b[0] for b in bands)]):
        assert answer.value_c is None
        assert len(answer.shortfalls) == len(taxa)
        return
    assert answer.value_c is not None
    assert all(b[0] - 1e-9 <= answer.value_c <= b[1] + 1e-9 for b in bands)
    assert (answer.low_c, answer.high_c) == (low, high)
    assert answer.low_by is not None and answer.low_by.bands["temperature"].comfort_low == low
    assert answer.high_by is not None and answer.high_by.bands["temperature"].comfort_high == high
    on_a_mark = abs(answer.value_c / step - round(answer.value_c / step)) < 1e-6
    if on_a_mark and any(
        low + swing <= k * step <= high - swing for k in range(int(low / step), int(high / step) + 2)
    ):
        assert low + swing - 1e-9 <= answer.value_c <= high - swing + 1e-9


@given(many)
def test_the_groups_share_a_band_and_are_maximal(guppy: Species, bands: list[tuple[float, float]]) -> None:
    taxa = [animal(guppy, f"s{i}", low, high) for i, (low, high) in enumerate(bands)]
    found = {frozenset(m.taxon.slug for m in party.members) for party in parties(limits(taxa, "temperature"))}
    sharing = [
        frozenset(f"s{i}" for i in chosen)
        for size in range(1, len(bands) + 1)
        for chosen in combinations(range(len(bands)), size)
        if max(bands[i][0] for i in chosen) <= min(bands[i][1] for i in chosen)
    ]
    assert found == {group for group in sharing if not any(group < other for other in sharing)}
    sizes = [len(party.members) for party in parties(limits(taxa, "temperature"))]
    assert sizes == sorted(sizes, reverse=True)


def test_preferences_run_from_cool_to_warm() -> None:
    values = [
        choose(Span(20.0, 26.0), prefer).value_c for prefer in ("coolest", "cooler", "middle", "warmest")
    ]
    assert values == [20.5, 22.0, 23.0, 25.5]


def test_a_band_narrower_than_the_swing_gets_its_middle_and_a_word() -> None:
    choice = choose(Span(24.0, 24.6), swing_c=0.5, step_c=0.1)
    assert choice.cramped
    assert choice.value_c == pytest.approx(24.3)


def test_no_mark_of_the_dial_in_the_band() -> None:
    choice = choose(Span(23.1, 23.9), swing_c=0.1, step_c=1.0)
    assert choice.off_step
    assert choice.value_c == pytest.approx(23.5)


def test_an_open_end_is_no_obstacle() -> None:
    assert 20.0 < choose(Span(20.0, inf)).value_c < 24.0
    assert 22.0 < choose(Span(-inf, 26.0)).value_c < 26.0


def test_a_narrow_band_is_said_to_be_one(guppy: Species) -> None:
    answer = setpoint_of_species([animal(guppy, "a", 20, 24.5), animal(guppy, "b", 24, 28)])
    assert answer.value_c == pytest.approx(24.25, abs=0.3)
    assert any("0.5 K wide" in note for note in answer.notes)


def test_a_band_narrower_than_the_swing_is_none(table: Table) -> None:
    """Neon tetra to 26 and discus from 26 degC share a line, which no thermostat keeps to."""
    answer = setpoint_of_species(
        [table.species("paracheirodon-innesi"), table.species("symphysodon-aequifasciatus")]
    )
    assert answer.value_c is None and len(answer.parties) == 2
    assert "0 K, and the thermostat strays 0.5 K either way" in answer.notes[0]


def test_plants_yield_to_animals(guppy: Species, moss: PlantSpecies) -> None:
    cool = replace(moss, bands={"temperature": band(10, 18)})
    answer = setpoint_of_species([animal(guppy, "a", 22, 26), cool])
    assert answer.value_c is not None and 22.5 <= answer.value_c <= 25.5
    assert [short.taxon.slug for short in answer.left_out] == [moss.slug]
    assert answer.left_out[0].kelvin < 0  # too warm for it


def test_a_taxon_without_a_temperature_is_named(guppy: Species) -> None:
    silent = replace(guppy, slug="silent", bands={})
    answer = setpoint_of_species([animal(guppy, "a", 22, 26), silent])
    assert [taxon.slug for taxon in answer.unstated] == ["silent"]
    assert setpoint_of_species([silent]).value_c is None
    assert "no temperature" in setpoint_of_species([silent]).sentence


def test_goldfish_with_discus_find_no_common_band(table: Table) -> None:
    """Common practice, no source."""
    fish = [table.species("carassius-auratus"), table.species("symphysodon-aequifasciatus")]
    answer = setpoint_of_species(fish)
    assert answer.value_c is None
    assert answer.sentence == "No one temperature is comfortable for all of them."
    assert [[taxon.slug for taxon in party.taxa] for party in answer.parties] in (
        [["carassius-auratus"], ["symphysodon-aequifasciatus"]],
        [["symphysodon-aequifasciatus"], ["carassius-auratus"]],
    )
    document = setpoint_document(answer)
    assert document["value_c"] is None
    assert {short["species"]: short["kelvin"] > 0 for short in document["shortfalls"]} == {
        "carassius-auratus": False,
        "symphysodon-aequifasciatus": True,
    }


@given(many, st.sampled_from([0.25, 0.5, 1.0]), st.sampled_from([0.5, 1.0]))
def test_every_group_gets_a_mark_of_the_dial_with_room_to_swing(
    guppy: Species, bands: list[tuple[float, float]], swing: float, step: float
) -> None:
    taxa = [animal(guppy, f"s{i}", low, high) for i, (low, high) in enumerate(bands)]
    answer = setpoint_of_species(taxa, swing_c=swing, step_c=step)
    if answer.value_c is not None:
        return
    assert {taxon.slug for party in answer.parties for taxon in party.taxa} == {taxon.slug for taxon in taxa}
    for party in answer.parties:
        value = party.choice.value_c
        if len(party.taxa) > 1:
            assert value / step == pytest.approx(round(value / step), abs=1e-6)
            for taxon in party.taxa:
                low, high = bands[int(taxon.slug[1:])]
                assert low + swing / 2 - 1e-6 <= value <= high - swing / 2 + 1e-6


def test_a_tenth_of_a_degree_in_common_is_no_group(table: Table) -> None:
    """Goldfish to 22.2 and Amazon sword from 22.1 degC: no thermostat keeps that."""
    names = ("tanichthys-albonubes", "carassius-auratus", "symphysodon-aequifasciatus")
    fish = [table.species(name) for name in names]
    answer = setpoint_of_species([*fish, table.plant("echinodorus-grisebachii")])
    groups = [{taxon.slug for taxon in party.taxa} for party in answer.parties]
    assert {"tanichthys-albonubes", "carassius-auratus"} in groups
    assert {"carassius-auratus", "echinodorus-grisebachii"} not in groups


ROOM = """
name = "Alcove"
[tank]
length = "60 cm"
width = "30 cm"
height = "35 cm"
lid = true
[room]
low = "{low}"
high = "24 degC"
[[animals]]
species = "guppy"
males = 3
"""
HEATER = '[heater]\npower = "{power}"\nsetpoint = "24 degC"\n'


def notes(table: Table, low: str, power: str | None) -> str:
    heater = HEATER.format(power=power) if power else ""
    return " ".join(check_text(ROOM.format(low=low) + heater, table).setpoint.notes)


def test_an_unheated_plan_is_told_the_power_it_would_take(table: Table) -> None:
    """As much as a heated plan is told; 0.40 W/K per L^(2/3) makes 29 W of 55 L at 5 K."""
    told = notes(table, "19 degC", None)
    need = re.search(r"Holding 24 °C in a room of 19 °C takes about (\d+) W", told)
    assert need and 18 <= int(need[1]) <= 32
    # common practice, no source: a margin of two fifths, and heaters come in steps of 25 W
    assert "choose a heater of 50 W" in told and "drip loop" in told
    assert f"takes about {need[1]} W" in notes(table, "19 degC", "100 W")


def test_the_power_there_is_is_judged(table: Table) -> None:
    assert "there are 100 W: enough" in notes(table, "17 degC", "100 W")
    assert "there are 10 W: too little" in notes(table, "17 degC", "10 W")


def test_a_room_that_is_warm_enough_takes_no_watts(table: Table) -> None:
    told = notes(table, "24 degC", "50 W")
    assert " W" not in told
    assert "The room keeps the water at 24 °C or above by itself." in told


def test_neons_and_peppered_corys_are_set_a_little_below_the_middle(table: Table) -> None:
    """Common practice, no source: 22 to 24 degC."""
    answer = setpoint_of_species([table.species("paracheirodon-innesi"), table.species("corydoras-paleatus")])
    assert answer.value_c is not None and 21.5 <= answer.value_c <= 24.5
    assert answer.value_f == pytest.approx(answer.value_c * 1.8 + 32)


def test_common_of_nothing_is_everything() -> None:
    assert common([]) == Span(-inf, inf)
    assert isinstance(limits([], "temperature"), list) and not parties(list[Limit]())
