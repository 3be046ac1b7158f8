"""The company axis in figures: each pressure of each taxon with its parts, and the young to come."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts, Figure, Step, given
from stockcheck.physics.quantity import Influence, Interval
from stockcheck.rules.company.broods import (
    BROOD,
    BROOD_INTERVAL,
    DAYS_PER_MONTH,
    HORIZONS,
    LEFT_BY_COMPANIONS,
    SURVIVAL,
    Brooding,
    brooding_of,
    left_by,
)
from stockcheck.rules.company.fry import fry_forecast, mothers_in
from stockcheck.rules.company.keeping import (
    Keeping,
    courting_pressure,
    female_pressure,
    keepings,
    male_pressure,
)
from stockcheck.rules.company.pressure import HOLDS_AT, STOP_AT, Pressure
from stockcheck.rules.company.unsexed import calmest_split, rank_pressure, sexes_alike
from stockcheck.rules.wording import count_word, name_of, names_of
from stockcheck.table.model import Species


def company_figures(facts: Facts) -> list[Figure]:
    """Every pressure that a plan's animals put on their own kind, and the forecast of young, in plan order.

    A pressure (unit 1) just holds at 0.5 and stops at 1; its steps are the parts that multiply to it, each
    with what it rests on.  Where sexes are not stated it is that of the calmest mix they can turn out to be.
    """
    return [figure for keeping in keepings(facts) for figure in _figures(facts, keeping)]


def _figures(facts: Facts, keeping: Keeping) -> Iterator[Figure]:
    slug = keeping.species.slug.replace("-", "_")
    several, one = names_of(keeping.species), name_of(keeping.species)
    if keeping.unsexed and sexes_alike(keeping.species):
        pressures = [("rivalry", f"rivalry among {several}", rank_pressure(keeping))]
    else:
        sexed = calmest_split(keeping)
        mix = f" (if {sexed.males} of them are males)" if keeping.unsexed else ""
        pressures = [
            ("male_rivalry", f"rivalry among male {several}{mix}", male_pressure(sexed)),
            ("female_rivalry", f"rivalry among female {several}{mix}", female_pressure(sexed)),
            ("courting", f"pressure of courting males on female {several}{mix}", courting_pressure(sexed)),
        ]
    for name, label, pressure in pressures:
        if pressure.parts:
            yield _pressure_figure(f"{name}_{slug}", label, pressure)
    mothers = mothers_in(keeping)
    if mothers:
        yield from _fry_figures(facts, keeping, mothers, slug, one)


def _pressure_figure(name: str, label: str, pressure: Pressure) -> Figure:
    value = pressure.value
    influences = [
        Influence(
            part.why,
            value * part.factor.low / part.factor.value,
            value * part.factor.high / part.factor.value,
        )
        for part in pressure.parts
        if part.factor.low < part.factor.high
    ]
    steps = [Step(part.name, part.why, part.factor.value, "1", part.source) for part in pressure.parts]
    product = " x ".join(f"{part.factor.value:.2f}" for part in pressure.parts)
    limits = f"{HOLDS_AT:g} just holds, {STOP_AT:g} stops: {HOLDS_AT.source}"
    steps.append(Step("pressure", product, value, "1", limits))
    influences.sort(key=lambda influence: -influence.reach)
    return Figure(name, label, pressure.interval, "1", influences, given(steps))


def _fry_figures(facts: Facts, keeping: Keeping, mothers: int, slug: str, one: str) -> Iterator[Figure]:
    brooding = brooding_of(facts, keeping.species, mothers, keeping.cover)
    result = fry_forecast(facts, keeping, mothers)
    steps = _brood_steps(facts, keeping.species, brooding, result.per_month)
    label = f"young {names_of(keeping.species)} that live"
    yield Figure(
        f"fry_per_month_{slug}", f"{label}, a month", result.per_month, "young/month", told=given(steps)
    )
    for months, young in zip(HORIZONS, result.after, strict=True):
        text = f"{label}, after {count_word(months)} months if none leave"
        yield Figure(f"fry_after_{months}_months_{slug}", text, young, "young")
    for months, times in zip(HORIZONS, result.feed_times, strict=False):
        text = f"feed over today's, after {count_word(months)} months if no young {one} leaves"
        yield Figure(f"feed_with_fry_after_{months}_months_{slug}", text, times, "1")


def _brood_steps(facts: Facts, species: Species, brooding: Brooding, per_month: Interval) -> list[Step]:
    _, eater = left_by(facts, species)
    cover = facts.plan.tank.cover
    taken = f"{names_of(eater)} take the rest" if eater else "no other fish takes any"
    left = LEFT_BY_COMPANIONS.source if eater else "the plan"
    brood = "the table" if species.band("brood_size") else BROOD.source
    interval = "the table" if species.band("brood_interval") else BROOD_INTERVAL.source
    females, young, days = brooding.females, brooding.brood.value, brooding.interval_days.value
    lives, leave = brooding.survival.value, brooding.left.value
    product = f"{females} x {young:.3g} / {days:.3g} x {DAYS_PER_MONTH:g} x {lives:.2g} x {leave:.2g}"
    return [
        Step("mothers", "females as planned, and half of the unsexed", females, "1", "the plan"),
        Step("brood", "young of one brood", young, "young", brood),
        Step("interval", "days from brood to brood", days, "day", interval),
        Step("cover", f"share that their parents leave, cover {cover}", lives, "1", SURVIVAL[cover].source),
        Step("companions", f"share of those that other fish leave: {taken}", leave, "1", left),
        Step("young a month", product, per_month.value, "young/month", DAYS_PER_MONTH.source),
    ]
