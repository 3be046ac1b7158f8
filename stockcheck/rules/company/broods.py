"""A forecast of young livebearers: how many live, and what they add to the tank's feed and nitrogen."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp
from typing import NamedTuple

from stockcheck.facts.model import Facts, Group
from stockcheck.physics.feeding import REFERENCE_C, feed_g_per_day
from stockcheck.physics.growth import (
    ADULT_PER_ASYMPTOTE,
    GROWTH_PERFORMANCE,
    MM_PER_CM,
    MONTHS_PER_YEAR,
    growth_rate,
)
from stockcheck.physics.mass import body_mass, relation, total_per_standard
from stockcheck.physics.quantity import Constant, Interval, propagate
from stockcheck.table.model import Species

PRACTICE = "common practice, no source"
GUPPY_BROOD = "pet reference, petshun.com (guppy: 20 to 40 young)"
GUPPY_INTERVAL = "breeding guide, aifishscr.com (guppy: 20 to 30 days at 24 to 28 degC)"
REZNICK = "UC Riverside (Reznick group) report: guppy sperm stored at least 10 months"
_SURVIVAL = "from memory: 5 to 50 % of the young live in planted tanks"

#: Young of one brood and days from brood to brood, where the table has no figure for the taxon.
BROOD = Constant(25.0, "young", GUPPY_BROOD + "; wider for other livebearers: " + PRACTICE, 10.0, 45.0)
BROOD_INTERVAL = Constant(28.0, "day", GUPPY_INTERVAL, 22.0, 40.0)
#: Share of the young that live to be seen, by cover, where only their parents eat them.
SURVIVAL = {
    "open": Constant(0.06, "1", _SURVIVAL, 0.02, 0.15),
    "some": Constant(0.15, "1", _SURVIVAL, 0.05, 0.35),
    "dense": Constant(0.35, "1", _SURVIVAL, 0.15, 0.60),
}
#: What other fish leave of them: those that eat fry, and those that hunt fish.
LEFT_BY_COMPANIONS = Constant(0.5, "1", PRACTICE, 0.2, 0.9)
LEFT_BY_HUNTERS = Constant(0.1, "1", PRACTICE, 0.02, 0.4)
#: Age at which a daughter drops her first brood; half of the young are female.
FIRST_BROOD_DAYS = Constant(
    90.0, "day", "from memory: livebearers at three months; guppies ripe earlier", 60, 150
)
DAYS_PER_MONTH = Constant(30.4, "day/month", "definition: 365.25/12")
#: Months that a female from a mixed tank goes on dropping broods without a male.
STORED_SPERM_MONTHS = Constant(10.0, "month", REZNICK, 6.0, 12.0)
NEWBORN = Constant(8.0, "mm", "from memory: newborn livebearers are 6 to 12 mm long", 6.0, 12.0)
#: The forecast's horizons, months.
HORIZONS = (3, 6)


class FryForecast(NamedTuple):
    """Young that live: a month from the females as planned, and how many there are after each horizon."""

    per_month: Interval
    after: tuple[Interval, ...]
    #: The tank's feed, and so its ammonia nitrogen, after each horizon, over that of the adults alone.
    feed_times: tuple[Interval, ...] = ()


class Brooding(NamedTuple):
    """What a forecast rests on."""

    females: int
    brood: Interval
    interval_days: Interval
    survival: Interval
    left: Interval


def born_by_month(
    females: float, brood: float, interval_days: float, survival: float, months: int
) -> list[float]:
    """Young of each month that live, when nobody takes any out: mothers as planned, then their daughters.

    Daughters of a month's young breed from :data:`FIRST_BROOD_DAYS` on; half of the young are daughters.
    """
    per_female = brood / interval_days * float(DAYS_PER_MONTH) * survival
    lag = round(float(FIRST_BROOD_DAYS) / float(DAYS_PER_MONTH))
    mothers = females
    born: list[float] = []
    for month in range(months):
        if month >= lag:
            mothers += born[month - lag] / 2
        born.append(mothers * per_female)
    return born


def raised_young(females: float, brood: float, interval_days: float, survival: float, months: int) -> float:
    """Young alive after some months; see :func:`born_by_month`."""
    return sum(born_by_month(females, brood, interval_days, survival, months))


def young_mass_g(species: Species, age_months: float, performance: float) -> float:
    """Mass of a young fish of some age, g: von Bertalanffy from :data:`NEWBORN` toward the mean adult length.

    ``performance`` is the growth performance index, log10(cm2/year).  Zero where no length is known.
    """
    lengths = [length for length in (species.adult_male_mm, species.adult_female_mm) if length]
    if not lengths:
        return 0.0
    standard = species.length_type == "SL"
    tail = float(total_per_standard(species.body_shape)) if standard else 1.0
    asymptote = sum(lengths) / len(lengths) / MM_PER_CM / ADULT_PER_ASYMPTOTE
    rate = growth_rate(asymptote, performance)
    newborn = NEWBORN / MM_PER_CM
    length = asymptote - (asymptote - newborn) * exp(-rate * age_months / MONTHS_PER_YEAR)
    return body_mass(length * tail, relation(species.kind, species.family, species.body_shape))


def young_feed_g(species: Species, born: list[float], performance: float) -> float:
    """Feed of the young of these months a day, g at 25 degC, at the end of the last one."""
    feed = 0.0
    for month, count in enumerate(born):
        mass = young_mass_g(species, len(born) - month - 0.5, performance)
        if mass:
            feed += count * feed_g_per_day(mass, 1, species.kind, REFERENCE_C)
    return feed


def own_feed_g(groups: list[Group]) -> float:
    """Feed of the animals as planned, grown, g/day at 25 degC; shares are all that is asked of it."""
    return sum(
        feed_g_per_day(group.mass_g.value, group.count, group.species.kind, REFERENCE_C)
        for group in groups
        if group.mass_g
    )


def forecast(brooding: Brooding, species: Species | None = None, own_feed: float = 0.0) -> FryForecast:
    """Young a month, and after each horizon, with their 90 % intervals; and what they eat, with a species."""

    def model(inputs: Mapping[str, float]) -> dict[str, float]:
        lives = inputs["survival"] * inputs["left"]
        months = max(HORIZONS)
        born = born_by_month(brooding.females, inputs["brood"], inputs["interval"], lives, months)
        results = {"month": born[0]} | {f"young {h}": sum(born[:h]) for h in HORIZONS}
        if species is not None and own_feed > 0:
            for h in HORIZONS:
                results[f"feed {h}"] = young_feed_g(species, born[:h], inputs["growth"]) / own_feed
        return results

    inputs = {
        "brood": brooding.brood,
        "interval": brooding.interval_days,
        "survival": brooding.survival,
        "left": brooding.left,
        "growth": GROWTH_PERFORMANCE.interval,
    }
    results, _ = propagate(model, inputs)
    added = [results[f"feed {h}"] for h in HORIZONS if f"feed {h}" in results]
    feed = tuple(Interval(1 + share.low, 1 + share.value, 1 + share.high) for share in added)
    return FryForecast(results["month"], tuple(results[f"young {h}"] for h in HORIZONS), feed)


def brooding_of(facts: Facts, species: Species, females: int, cover: str) -> Brooding:
    """What a plan and the table say of a taxon's young."""
    left, _ = left_by(facts, species)
    return Brooding(females, brood_of(species), interval_of(species), SURVIVAL[cover].interval, left)


def brood_of(species: Species) -> Interval:
    """Young of one brood: the table's band, else a livebearer's usual."""
    return _band(species, "brood_size") or BROOD.interval


def interval_of(species: Species) -> Interval:
    """Days from brood to brood: the table's band, else a livebearer's usual."""
    return _band(species, "brood_interval") or BROOD_INTERVAL.interval


def _band(species: Species, name: str) -> Interval | None:
    band = species.band(name)
    if band is None or not band.comfort_low or not band.comfort_high:
        return None
    return Interval(band.comfort_low, (band.comfort_low + band.comfort_high) / 2, band.comfort_high)


def left_by(facts: Facts, parent: Species) -> tuple[Interval, Species | None]:
    """The share of the young that other fish leave, and the taxon that takes most of them."""
    others = [group.species for group in facts.groups if group.species.slug != parent.slug]
    hunters = [species for species in others if species.piscivore in ("small", "yes")]
    if hunters:
        return LEFT_BY_HUNTERS.interval, hunters[0]
    nibblers = [species for species in others if species.piscivore == "fry"]
    if nibblers:
        return LEFT_BY_COMPANIONS.interval, nibblers[0]
    return Interval.exact(1.0), None
