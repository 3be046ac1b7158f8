"""The setpoint: inside every comfort band that is shared, and the groups that share one where all do not."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockcheck.advice.setpoint import PREFERENCES, choose, setpoint_document, setpoint_of_species
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
    if low > high:
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


def test_neons_and_peppered_corys_are_set_a_little_below_the_middle(table: Table) -> None:
    """Common practice, no source: 22 to 24 degC."""
    answer = setpoint_of_species([table.species("paracheirodon-innesi"), table.species("corydoras-paleatus")])
    assert answer.value_c is not None and 21.5 <= answer.value_c <= 24.5
    assert answer.value_f == pytest.approx(answer.value_c * 1.8 + 32)


def test_common_of_nothing_is_everything() -> None:
    assert common([]) == Span(-inf, inf)
    assert isinstance(limits([], "temperature"), list) and not parties(list[Limit]())
