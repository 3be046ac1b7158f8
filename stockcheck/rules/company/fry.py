"""Young fish: how many a group will bring up, and what they add to the tank."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from stockcheck.facts.model import Facts
from stockcheck.physics.quantity import Constant, Interval, propagate
from stockcheck.rules.company.keeping import Keeping, keepings
from stockcheck.rules.core import WATCH, Finding, rule
from stockcheck.rules.wording import names_of, sentence, some
from stockcheck.table.model import Species

PRACTICE = "common practice, no source"
GUPPY_BROOD = "pet reference, petshun.com (guppy: 20 to 40 young)"
GUPPY_INTERVAL = "breeding guide, aifishscr.com (guppy: 20 to 30 days at 24 to 28 degC)"
REZNICK = "UC Riverside (Reznick group) report: guppy sperm stored at least 10 months"

#: Young of one brood and days from brood to brood, where the table has no figure for the taxon.
BROOD = Constant(25.0, "young", GUPPY_BROOD + "; wider for other livebearers: " + PRACTICE, 10.0, 45.0)
BROOD_INTERVAL = Constant(28.0, "day", GUPPY_INTERVAL, 22.0, 40.0)
#: Share of the young that live to be seen, by cover, where only their parents eat them.
SURVIVAL = {
    "open": Constant(0.06, "1", "from memory: 5 to 50 % of the young live in planted tanks", 0.02, 0.15),
    "some": Constant(0.15, "1", "from memory: 5 to 50 % of the young live in planted tanks", 0.05, 0.35),
    "dense": Constant(0.35, "1", "from memory: 5 to 50 % of the young live in planted tanks", 0.15, 0.60),
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
#: The forecast's horizon.
HORIZON_MONTHS = 6


class FryForecast(NamedTuple):
    """Young that live: each month from the females as planned, and how many there are after six months."""

    per_month: Interval
    after_six_months: Interval


def raised_young(females: float, brood: float, interval_days: float, survival: float, months: int) -> float:
    """Young alive after some months when nobody takes any out: mothers as planned, then their daughters.

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
    return sum(born)


def forecast(
    females: int, brood: Interval, interval_days: Interval, survival: Interval, left: Interval
) -> FryForecast:
    """Young per month and after six months, with their 90 % intervals."""

    def model(inputs: Mapping[str, float]) -> dict[str, float]:
        lives = inputs["survival"] * inputs["left"]
        month = raised_young(females, inputs["brood"], inputs["interval"], lives, 1)
        half_year = raised_young(females, inputs["brood"], inputs["interval"], lives, HORIZON_MONTHS)
        return {"month": month, "half year": half_year}

    inputs = {"brood": brood, "interval": interval_days, "survival": survival, "left": left}
    results, _ = propagate(model, inputs)
    return FryForecast(results["month"], results["half year"])


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


def _left_by(facts: Facts, parent: Species) -> tuple[Interval, str]:
    others = [group.species for group in facts.groups if group.species.slug != parent.slug]
    hunters = [species for species in others if species.piscivore in ("small", "yes")]
    if hunters:
        return LEFT_BY_HUNTERS.interval, f"{names_of(hunters[0])} hunt them down"
    nibblers = [species for species in others if species.piscivore == "fry"]
    if nibblers:
        return LEFT_BY_COMPANIONS.interval, f"{names_of(nibblers[0])} take some"
    return Interval.exact(1.0), "only their parents eat them"


@rule(
    "company/fry",
    trips="""
[[animals]]
species = "Poecilia reticulata"
males = 2
females = 6
""",
    clears="""
[[animals]]
species = "Poecilia reticulata"
males = 8
""",
    sources=(GUPPY_BROOD, GUPPY_INTERVAL, REZNICK),
)
def fry(facts: Facts) -> Iterator[Finding]:
    """How many young will there be?

    Mechanism.  A livebearer female drops a brood every few weeks.  Cover decides how many the parents leave,
    companions how many of those live; daughters breed at three months.  Females from a mixed shop tank carry
    sperm for months, so females alone are not without young at first.

    Evidence.  Guppies: broods of 20 to 40 every 20 to 30 days; sperm kept for at least ten months (Reznick
    group).  Brood sizes of the table where there are any.

    Limits.  Survival is from memory (5 to 50 % in planted tanks) and the widest part of the interval.  A full
    tank slows breeding, which the forecast does not know.
    """
    for keeping in keepings(facts):
        breeds = keeping.species.reproduction == "livebearer" and keeping.species.kind == "fish"
        mothers = keeping.females + keeping.unsexed // 2
        if breeds and mothers:
            yield _young(facts, keeping, mothers)


def _young(facts: Facts, keeping: Keeping, mothers: int) -> Finding:
    species = keeping.species
    left, eaters = _left_by(facts, species)
    result = forecast(
        mothers, brood_of(species), interval_of(species), SURVIVAL[keeping.cover].interval, left
    )
    low, value, high = result.per_month
    alone = not keeping.males and not keeping.unsexed
    months = f"for up to {STORED_SPERM_MONTHS:.0f} months" if alone else "all year"
    why = "Females from a mixed tank carry sperm. " if alone else ""
    message = (
        f"{why}{some(mothers, species, 'female')} will have young {months}: "
        f"some {value:.0f} a month that live (90 % {low:.0f} to {high:.0f}); {eaters}. "
        f"{_after_six_months(facts, keeping, result)}"
    )
    remedy = (
        "Have a taker for the young, or keep males only."
        if not alone
        else "Ask for females that were never with males, or have a taker for the young."
    )
    return Finding(
        "company/fry",
        "watch",
        sentence(message),
        remedy,
        (species.slug,),
        "C" if species.band("brood_size") else "D",
        (GUPPY_BROOD, GUPPY_INTERVAL, REZNICK),
        WATCH,
    )


def _after_six_months(facts: Facts, keeping: Keeping, result: FryForecast) -> str:
    """What the young add to the animals' mass, on which the waste depends."""
    young = result.after_six_months.value
    text = f"After {HORIZON_MONTHS} months, if none leave, {young:.0f} more fish"
    masses = [(group, group.mass_g.value * group.count) for group in facts.groups if group.mass_g]
    own = [(mass, group.count) for group, mass in masses if group.species.slug == keeping.species.slug]
    total = sum(mass for _, mass in masses)
    if not own or not total:
        return text + "."
    one = sum(mass for mass, _ in own) / sum(count for _, count in own)
    return f"{text}; grown, {young * one / total:.0f} times the animals' mass of today, and its waste."
