"""Rivalry, courtship, predation and fry against what was published; the study stands beside each check."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stockcheck.physics.quantity import Interval
from stockcheck.rules.company import broods
from stockcheck.rules.company.predation import AT_RISK, BUILD, POSSIBLE, SURE
from stockcheck.rules.company.pressure import (
    CALM,
    SIGHT_BARRIER,
    Part,
    Pressure,
    Rivals,
    courtship,
    rivalry,
)

SPARRING = Rivals("spar", 6, 4.0, 2400.0, 80.0, "open", single_sex="fits")
HOLDING = Rivals("territorial", 4, 20.0, 3000.0, 100.0, "open", single_sex="unknown")


def part(pressure: Pressure, name: str) -> Part:
    return next(part for part in pressure.parts if part.name == name)


# Structure (science of sight lines)


def test_dense_cover_lowers_attacks_by_a_fifth_to_a_half() -> None:
    """Basquill & Grant 1998, Can. J. Zool. 76:770: zebrafish dominants attacked less among plants (P =
    0.050).

    The abstract gives no size; 20 to 50 % fewer is the working range, from memory."""
    open_, dense = (part(rivalry(replace(SPARRING, cover=c)), "cover").factor for c in ("open", "dense"))
    assert 0.5 <= dense.value / open_.value <= 0.8


def test_fights_in_half_the_furnished_tanks_lie_inside_the_interval() -> None:
    """Kadry & Barreto 2010, 10.1590/S1679-62252010000200011: all pearl cichlids fought in bare tanks, half of
    them in furnished ones."""
    assert SIGHT_BARRIER.low <= 0.5 <= SIGHT_BARRIER.high


def test_cover_may_also_raise_aggression() -> None:
    """Woodward, Winder & Watt 2019, 10.3390/fishes4010022: enriched tanks raised mirror aggression in
    zebrafish.

    So the interval of the effect reaches past 1."""
    assert SIGHT_BARRIER.high > 1


# Numbers


@pytest.mark.parametrize("trait", ["display", "spar"])
def test_shoalers_are_calmer_up_to_ten(trait: str) -> None:
    """Saxby et al. 2010, AABS 125:195: neon tetra and white cloud, groups of 1, 2, 5 and 10: least aggression
    in ten.  Floor for each is held equal here, to see the number alone."""
    number = [
        part(rivalry(replace(SPARRING, trait=trait, count=n, floor_cm2=400.0 * n)), "number").factor.value
        for n in (2, 5, 10)
    ]
    assert number[0] > number[1] > number[2]
    assert number[0] > 1 > number[2]


def test_number_does_nothing_for_territorial_cichlids() -> None:
    """Oldfield 2011, 10.1080/10888705.2011.600664: Midas cichlids, no effect of group size from 3 to 9."""
    few, many = (
        rivalry(replace(HOLDING, count=n, floor_cm2=750.0 * n)).value for n in (3, 9)
    )  # the same floor each
    assert few == pytest.approx(many)


def test_only_much_more_room_with_structure_calms_cichlids() -> None:
    """Oldfield 2011: no effect of 38 against 151 L, less aggression only in 380 L and complex.

    Footprints of the usual US tanks of 10, 40 and 100 gallons, cm2, with three fish of 15 cm."""
    midas = replace(HOLDING, count=3, body_cm=15.0)
    small = rivalry(replace(midas, floor_cm2=50 * 25, run_cm=50))
    middle = rivalry(replace(midas, floor_cm2=91 * 46, run_cm=91))
    large_bare = rivalry(replace(midas, floor_cm2=183 * 46, run_cm=183))
    large_complex = rivalry(replace(midas, floor_cm2=183 * 46, run_cm=183, cover="dense"))
    assert small.level == middle.level == "stop"
    assert large_complex.value < large_bare.value < middle.value
    assert large_complex.value < 0.6 * small.value


def test_those_raised_together_fight_less() -> None:
    """Price & Rodd 2006, 10.1111/j.1439-0310.2006.01142.x: unfamiliar male guppies nip and chase more than
    tank mates."""
    assert rivalry(replace(SPARRING, raised_together=True)).value < rivalry(SPARRING).value


# The model's own sense


def test_one_alone_and_the_peaceful_have_no_pressure() -> None:
    assert rivalry(replace(SPARRING, count=1)) == CALM
    assert rivalry(replace(SPARRING, trait="none")) == CALM
    assert CALM.value == 0 and CALM.level == "clear"


@pytest.mark.parametrize(
    ("calmer", "fiercer"),
    [
        ({"floor_cm2": 4800.0}, {"floor_cm2": 2400.0}),
        ({"run_cm": 120.0}, {"run_cm": 40.0}),
        ({"cover": "dense"}, {"cover": "some"}),
        ({"trait": "display"}, {"trait": "spar"}),
        ({"single_sex": "fits"}, {"single_sex": "needs-cover"}),
        ({"nipped_fins": False}, {"nipped_fins": True}),
        ({"opposite": 12}, {"opposite": 3, "opposite_wanted": 2.0}),
    ],
)
def test_each_part_works_in_its_direction(calmer: dict[str, object], fiercer: dict[str, object]) -> None:
    one, other = (rivalry(replace(SPARRING, **change)) for change in (calmer, fiercer))  # type: ignore[arg-type]
    assert one.value < other.value


def test_interval_of_a_pressure_against_a_monte_carlo_run() -> None:
    """Products of log-normal parts: quadrature in logarithms against numpy draws (a method check)."""
    numpy = pytest.importorskip("numpy")
    parts = [Interval.factor(0.4, 1.6), Interval.factor(1.3, 1.3), Interval.factor(0.8, 1.5)]
    pressure = Pressure(tuple(Part(str(i), part, "", "") for i, part in enumerate(parts)))
    random = numpy.random.default_rng(7)
    draws = numpy.ones(200_000)
    for interval in parts:
        sigma = numpy.log(interval.high / interval.value) / 1.645
        draws *= interval.value * numpy.exp(random.normal(0, sigma, draws.size))
    low, high = numpy.quantile(draws, [0.05, 0.95])
    assert pressure.interval.low == pytest.approx(low, rel=0.02)
    assert pressure.interval.high == pytest.approx(high, rel=0.02)


def test_harassment_eases_with_females() -> None:
    """Darden et al. 2009, PMC2686652 (direction: harassment costs females their company)."""
    one_each = courtship("harass", 4, 4, 2.0, "some")
    two_each = courtship("harass", 4, 8, 2.0, "some")
    crowd = courtship("harass", 6, 1, 2.0, "some")
    assert crowd.level == "stop" and one_each.level == "watch" and two_each.level == "clear"


# Prey


def test_prey_cuts_stand_where_diets_do() -> None:
    """Gaeta et al. 2018, 10.1371/journal.pone.0194092: over 20 000 diets of seven freshwater piscivores, prey
    length 10 to 20 % of the predator's in the median, 32 to 46 % at the 99th percentile."""
    assert 0.10 <= SURE <= 0.20
    assert 0.32 <= AT_RISK <= POSSIBLE <= 0.46


def test_largest_prey_ever_found_is_possible_for_thin_prey_only() -> None:
    """Dorner & Wagner 2003, J. Fish Biol. 62: prey up to 59 % of a perch's length."""
    assert POSSIBLE / BUILD["eel-like"] >= 0.59
    assert POSSIBLE / BUILD["short-deep"] < 0.36  # the reef sharks' limit for whole prey


def test_slender_prey_is_taken_longer_than_deep() -> None:
    """Gaeta et al. 2018: fusiform prey was taken larger than deep-bodied."""
    assert BUILD["eel-like"] < BUILD["elongated"] < BUILD["fusiform"] < BUILD["short-deep"]


# Young


def test_brood_and_interval_of_the_guppy() -> None:
    """Guppy: 20 to 40 young (petshun.com), 20 to 30 days at 24 to 28 degC (aifishscr.com)."""
    assert 20 <= broods.BROOD <= 40
    assert 20 <= broods.BROOD_INTERVAL <= 30


def test_one_pair_brings_some_thirty_a_month() -> None:
    """From memory: one pair of guppies, about 30 young per month before anything eats them."""
    assert broods.raised_young(1, 28.0, 28.0, 1.0, 1) == pytest.approx(30, abs=3)


def test_sperm_lasts_ten_months() -> None:
    """Reznick group, UC Riverside: female guppies stored sperm for at least 10 months."""
    assert broods.STORED_SPERM_MONTHS == 10


def test_daughters_breed_from_the_fourth_month() -> None:
    """By hand: two females, 10 young that live each month; the first month's five daughters breed in the
    fourth.
    """
    months = [broods.raised_young(2, 10.0, broods.DAYS_PER_MONTH, 0.5, n) for n in range(1, 7)]
    assert months[:4] == pytest.approx([10, 20, 30, 65])
    assert months[4] > months[3] + 35


def test_forecast_holds_its_interval() -> None:
    exact = Interval.exact
    sure = broods.forecast(broods.Brooding(4, exact(25), exact(28), exact(0.2), exact(1.0)))
    assert sure.per_month.low == sure.per_month.high == pytest.approx(4 * 25 / 28 * 30.4 * 0.2)
    unsure = broods.forecast(
        broods.Brooding(4, Interval(10, 25, 45), exact(28), Interval(0.05, 0.2, 0.5), exact(1.0))
    )
    assert unsure.per_month.low < sure.per_month.value < unsure.per_month.high
