"""Rations and excretion against what was measured on fed fish and shrimps."""

from __future__ import annotations

import pytest

from stockcheck.physics import feeding, nitrogen
from stockcheck.physics.feeding import RATION_AT_1_G, feed_g_per_day, ration

FEED_PROTEIN = 0.45
#: Mass, g, and ammonia-N, mg/kg/day, of fed sea bream at 24 degC (Porter et al. 1987, as abstracted).
PORTER = [(3.0, 1032.0), (40.0, 365.0), (90.0, 353.0)]


@pytest.mark.parametrize(("grams", "measured"), PORTER)
def test_excretion_of_fed_sea_bream(grams: float, measured: float) -> None:
    """Growing fish fed to satiation lie in the upper half of what usual rations give, inside the interval."""
    share = RATION_AT_1_G.interval.scaled(ration(grams, 24.0) / RATION_AT_1_G)
    low, middle, high = (1e3 * nitrogen.tan_from_feed(part, FEED_PROTEIN) for part in share)
    assert low < measured < high
    assert measured > middle


def test_zebrafish_ration() -> None:
    """Adult zebrafish of 0.5 g: 3 % a day for maintenance, 1 to 10 % given (zebrafish husbandry course)."""
    share = RATION_AT_1_G.interval.scaled(ration(0.5, 27.0) / RATION_AT_1_G)
    assert share.low < 0.03 < share.high
    assert 0.01 < share.value < 0.10


@pytest.mark.parametrize("grams", [5.0, 20.0, 100.0, 300.0])
def test_adult_aquarium_fish(grams: float) -> None:
    """Half to two per cent of dry feed a day for adult aquarium fish (hobby reference)."""
    assert 0.005 <= ration(grams, 25.0) <= 0.02


@pytest.mark.parametrize(("celsius", "rate"), [(12.0, 0.0213), (24.0, 0.0403), (30.0, 0.0554)])
def test_shrimps_excrete_no_more_than_measured(celsius: float, rate: float) -> None:
    """Liu et al. 2010: fed Exopalaemon modestus of 0.12 to 1.93 g, mg ammonia-N/g/h; an upper bound for
    grazers."""
    grams = 0.5
    feed = feed_g_per_day(grams, 1, "shrimp", celsius)
    high = feeding.APPETITE["shrimp"].high / feeding.APPETITE["shrimp"] * RATION_AT_1_G.high / RATION_AT_1_G
    per_gram_hour = nitrogen.tan_from_feed(feed, FEED_PROTEIN) / grams / 24
    assert per_gram_hour < rate < per_gram_hour * high


def test_no_animal_eats_without_appetite_of_its_kind() -> None:
    from stockcheck.table.model import ANIMAL_KINDS

    assert set(ANIMAL_KINDS) == set(feeding.APPETITE)
