"""Masses and lengths of a plan's animals."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stockcheck.facts.groups import group_of
from stockcheck.plan.model import Animals
from stockcheck.table.read import Table


def entry(**changes: object) -> Animals:
    return Animals(species="x", where="animals[1]", **changes)  # type: ignore[arg-type]


def test_mass_follows_the_sexes_present(table: Table) -> None:
    guppy = table.species("poecilia-reticulata")
    males = group_of(entry(males=5), guppy)
    females = group_of(entry(females=5), guppy)
    mixed = group_of(entry(males=5, females=5), guppy)
    assert males.mass_g and females.mass_g and mixed.mass_g
    assert males.mass_g.value < mixed.mass_g.value < females.mass_g.value
    assert mixed.mass_g.value == pytest.approx((males.mass_g.value + females.mass_g.value) / 2)
    assert mixed.length_mm == females.length_mm, "the length is that of the larger sex"


def test_unsexed_animals_are_half_and_half(table: Table) -> None:
    guppy = table.species("poecilia-reticulata")
    unsexed, mixed = group_of(entry(count=10), guppy), group_of(entry(males=5, females=5), guppy)
    assert unsexed.mass_g == mixed.mass_g


def test_standard_length_gets_its_tail(table: Table) -> None:
    """An SL taken for a TL would halve the mass."""
    panda = replace(table.species("corydoras-panda"), length_type="TL")
    by_total, by_standard = (
        group_of(entry(count=6), species) for species in (panda, replace(panda, length_type="SL"))
    )
    assert by_total.mass_g and by_standard.mass_g
    assert 1.6 < by_standard.mass_g.value / by_total.mass_g.value < 2.1


def test_juveniles_weigh_less_today(table: Table) -> None:
    rasbora = table.species("trigonostigma-espei")
    young = group_of(entry(count=8, stage="juvenile"), rasbora)
    assert young.mass_now_g and young.mass_g and young.length_now_mm and young.length_mm
    assert young.mass_now_g.value < 0.2 * young.mass_g.value
    assert young.length_now_mm.value < young.length_mm.value


def test_a_measured_length_wins(table: Table) -> None:
    rasbora = table.species("trigonostigma-espei")
    measured = group_of(entry(count=8, length_mm=25.0), rasbora)
    assert measured.length_now_mm is not None and measured.length_now_mm.value == 25.0
    assert measured.mass_now_g is not None and 0.1 < measured.mass_now_g.value < 0.2


def test_adults_are_today_what_they_will_be(table: Table) -> None:
    group = group_of(entry(count=8), table.species("trigonostigma-espei"))
    assert group.mass_now_g == group.mass_g
    assert group.length_now_mm == group.length_mm


@pytest.mark.parametrize(
    ("slug", "low", "high"),
    [
        ("paracheirodon-innesi", 0.3, 1.0),
        ("neocaridina-davidi", 0.05, 0.35),
        ("caridina-multidentata", 0.3, 1.3),
        ("pomacea-diffusa", 20.0, 70.0),
        ("physella-acuta", 0.1, 0.4),
        ("xenopus-laevis", 40.0, 200.0),
        ("ambystoma-mexicanum", 80.0, 300.0),
        ("carassius-auratus", 100.0, 450.0),
    ],
)
def test_masses_are_those_of_the_animals(table: Table, slug: str, low: float, high: float) -> None:
    """Usual adult masses; common practice, no source."""
    group = group_of(entry(count=1), table.species(slug))
    assert group.mass_g is not None
    assert low < group.mass_g.value < high


def test_every_animal_of_the_table_has_a_mass(table: Table) -> None:
    for species in table.all_species():
        group = group_of(entry(count=2), species)
        if species.adult_length_mm is None:
            assert group.mass_g is None
        else:
            assert group.mass_g is not None, species.slug
            assert 0 < group.mass_g.low < group.mass_g.value < group.mass_g.high, species.slug


def test_a_taxon_without_a_length_has_no_mass(table: Table) -> None:
    nameless = replace(table.species("trigonostigma-espei"), adult_male_mm=None, adult_female_mm=None)
    assert group_of(entry(count=2), nameless).mass_g is None
