"""The company axis in figures: each pressure of each taxon with its parts, and the young to come."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts, Figure, Step, given
from stockcheck.language import say
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
        pressures = [("rivalry", say("rivalry among {several}", several=several), rank_pressure(keeping))]
    else:
        sexed = calmest_split(keeping)
        mix = say(" (if {males} of them are males)", males=sexed.males) if keeping.unsexed else ""
        pressures = [
            (
                "male_rivalry",
                say("rivalry among male {several}{mix}", several=several, mix=mix),
                male_pressure(sexed),
            ),
            (
                "female_rivalry",
                say("rivalry among female {several}{mix}", several=several, mix=mix),
                female_pressure(sexed),
            ),
            (
                "courting",
                say("pressure of courting males on female {several}{mix}", several=several, mix=mix),
                courting_pressure(sexed),
            ),
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
    limits = say(
        "{holds_at:g} just holds, {stop_at:g} stops: {source}",
        holds_at=HOLDS_AT,
        stop_at=STOP_AT,
        source=HOLDS_AT.source,
    )
    steps.append(Step(say("pressure"), product, value, "1", limits))
    influences.sort(key=lambda influence: -influence.reach)
    return Figure(name, label, pressure.interval, "1", influences, given(steps))


def _fry_figures(facts: Facts, keeping: Keeping, mothers: int, slug: str, one: str) -> Iterator[Figure]:
    brooding = brooding_of(facts, keeping.species, mothers, keeping.cover)
    result = fry_forecast(facts, keeping, mothers)
    steps = _brood_steps(facts, keeping.species, brooding, result.per_month)
    label = say("young {young} that live", young=names_of(keeping.species))
    yield Figure(
        f"fry_per_month_{slug}",
        say("{label}, a month", label=label),
        result.per_month,
        "young/month",
        told=given(steps),
    )
    for months, young in zip(HORIZONS, result.after, strict=True):
        text = say("{label}, after {months} months if none leave", label=label, months=count_word(months))
        yield Figure(f"fry_after_{months}_months_{slug}", text, young, "young")
    for months, times in zip(HORIZONS, result.feed_times, strict=False):
        text = say(
            "feed over today's, after {months} months if no young {one} leaves",
            months=count_word(months),
            one=one,
        )
        yield Figure(f"feed_with_fry_after_{months}_months_{slug}", text, times, "1")


def _brood_steps(facts: Facts, species: Species, brooding: Brooding, per_month: Interval) -> list[Step]:
    _, eater = left_by(facts, species)
    cover = facts.plan.tank.cover
    taken = say("{eater} take the rest", eater=names_of(eater)) if eater else say("no other fish takes any")
    left = LEFT_BY_COMPANIONS.source if eater else "the plan"
    brood = say("the table") if species.band("brood_size") else BROOD.source
    interval = say("the table") if species.band("brood_interval") else BROOD_INTERVAL.source
    females, young, days = brooding.females, brooding.brood.value, brooding.interval_days.value
    lives, leave = brooding.survival.value, brooding.left.value
    product = f"{females} x {young:.3g} / {days:.3g} x {DAYS_PER_MONTH:g} x {lives:.2g} x {leave:.2g}"
    return [
        Step(say("mothers"), say("females as planned, and half of the unsexed"), females, "1", "the plan"),
        Step(say("brood"), say("young of one brood"), young, "young", brood),
        Step(say("interval"), say("days from brood to brood"), days, "day", interval),
        Step(
            say("cover"),
            say("share that their parents leave, cover {cover}", cover=cover),
            lives,
            "1",
            SURVIVAL[cover].source,
        ),
        Step(
            say("companions"),
            say("share of those that other fish leave: {taken}", taken=taken),
            leave,
            "1",
            left,
        ),
        Step(say("young a month"), product, per_month.value, "young/month", DAYS_PER_MONTH.source),
    ]
