"""Ammonia and nitrite: what poisons within days."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.facts.plain import plain, span
from stockcheck.language import say
from stockcheck.physics.ammonia import (
    FOUR_DAY_PER_CCC,
    NH3_ACT,
    NH3_AIM,
    NH3_STOP,
    acute_criterion,
    chronic_criterion,
)
from stockcheck.physics.nitrification import NITRITE_ACT, NITRITE_AIM, NITRITE_STOP, nitrite_line
from stockcheck.physics.quantity import Constant
from stockcheck.rules.core import Finding, headroom_between, rule
from stockcheck.rules.waste.words import feed_at_most, judged

_PRACTICE = "common practice, no source"
CRITERION_MARGIN = Constant(0.25, "1", f"{_PRACTICE}: a quarter of the criterion leaves room for a bad day")
WORST_PH = Constant(8.0, "1", f"{_PRACTICE}: stands for a pH that nobody measured")
UNKNOWN_C = Constant(25.0, "degC", f"{_PRACTICE}: stands for a temperature that nobody stated")

_TOO_MANY_FISH = """
without = ["filter", "substrate", "plants"]
[tank]
length = "40 cm"
width = "25 cm"
height = "25 cm"
[[animals]]
species = "Carassius auratus"
count = 4
"""


def nh3_headroom(nh3_n_mg_l: float) -> float:
    return headroom_between(nh3_n_mg_l, NH3_STOP, NH3_ACT, NH3_AIM)


def tan_headroom(facts: Facts, tan_mg_l: float) -> float:
    limit = criterion(facts)
    return headroom_between(tan_mg_l, FOUR_DAY_PER_CCC * limit, limit, CRITERION_MARGIN * limit)


def tan_peak_headroom(facts: Facts, tan_mg_l: float) -> float:
    """Of a peak of some days: the four-day limit holds, the one-hour limit stops."""
    pH, temperature = pH_and_temperature(facts)
    chronic = chronic_criterion(pH, temperature)
    return headroom_between(tan_mg_l, acute_criterion(pH, temperature), FOUR_DAY_PER_CCC * chronic, chronic)


def nitrite_headroom(facts: Facts, nitrite_n_mg_l: float) -> float:
    line = nitrite_line(facts.plan.water.chloride_mg_l)
    return headroom_between(nitrite_n_mg_l, line, NITRITE_ACT, NITRITE_AIM)


def criterion(facts: Facts) -> float:
    """The chronic criterion at the tank's pH and temperature, mg TAN-N/L."""
    return chronic_criterion(*pH_and_temperature(facts))


def pH_and_temperature(facts: Facts) -> tuple[float, float]:
    """Of the tank; what stands for them where they are not stated."""
    pH = facts.plan.water.pH
    return (
        WORST_PH if pH is None else pH,
        UNKNOWN_C if facts.temperature_c is None else facts.temperature_c,
    )


@rule(
    "waste/ammonia",
    trips=_TOO_MANY_FISH + "[water]\npH = 8.2",
    clears="",
    sources=(NH3_AIM.source, NH3_ACT.source, NH3_STOP.source),
)
def ammonia(facts: Facts) -> Iterator[Finding]:
    """Does un-ionised ammonia, the poisonous share of TAN, stay low?

    Mechanism.  The share grows tenfold from pH 7 to pH 8, and with warmth; where plants draw CO2 by day and
    KH is low, the afternoon's pH counts.

    Evidence.  0.02 mg/L is the usual aim in fish culture, harm is expected from 0.05 (UF/IFAS FA-16), and a
    tenth of cardinal tetras died within four days at 0.076 mg NH3-N/L.

    Limits.  Small tetras are among the most sensitive of fish: the lines are cautious for hardier ones.  An
    error of 0.2 in pH moves the figure by half.
    """
    figure = facts.figures.get("nh3_n_mg_per_l")
    if figure is None:
        return
    value = figure.interval.value
    yield judged(
        "waste/ammonia",
        nh3_headroom(value),
        say(
            "Un-ionised ammonia settles near {interval}; {nh3_aim} is the aim, and fish suffer from "
            "{nh3_act}.",
            interval=span(figure.interval, "mg N/L"),
            nh3_aim=NH3_AIM,
            nh3_act=NH3_ACT,
        ),
        lambda: say(
            "{feed_at_most}. More filter media helps too.", feed_at_most=feed_at_most(facts, value / NH3_AIM)
        ),
        facts,
        "C",
        (NH3_AIM.source, NH3_ACT.source, NH3_STOP.source),
    )


@rule(
    "waste/total-ammonia",
    trips=_TOO_MANY_FISH,
    clears="",
    sources=("EPA 2013, EPA-822-R-13-001",),
)
def total_ammonia(facts: Facts) -> Iterator[Finding]:
    """Does total ammonia stay under the chronic criterion for this pH and temperature?

    Mechanism.  At low pH little of the ammonia is un-ionised, and yet ammonium burdens the gills.

    Evidence.  The EPA's 2013 continuous criterion (30-day mean) and its four-day limit of 2.5 times that.

    Limits.  Mussels and snails set it: cautious for fish alone, right where there are snails.  Where the pH
    is not given it is taken as 8.
    """
    figure = facts.figures.get("tan_mg_per_l")
    if figure is None:
        return
    value, limit = figure.interval.value, criterion(facts)
    yield judged(
        "waste/total-ammonia",
        tan_headroom(facts, value),
        say(
            "Total ammonia settles near {interval}; in the long run more than {limit} harms at this "
            "pH and temperature.",
            interval=span(figure.interval, "mg/L"),
            limit=plain(limit),
        ),
        lambda: say(
            "{feed_at_most}. More filter media helps too.",
            feed_at_most=feed_at_most(facts, value / (CRITERION_MARGIN * limit)),
        ),
        facts,
        "B",
        ("EPA 2013, EPA-822-R-13-001",),
    )


@rule(
    "waste/nitrite",
    trips=_TOO_MANY_FISH,
    clears="",
    sources=(NITRITE_ACT.source, NITRITE_STOP.source),
)
def nitrite(facts: Facts) -> Iterator[Finding]:
    """Does nitrite, the half-way house of nitrification, stay low?

    Mechanism.  Nitrite enters by the gills in place of chloride and turns blood brown.  In a grown-in filter
    its oxidisers keep it well below TAN.

    Evidence.  Well-run culture stays under 0.1 mg N/L; half of guppies died within four days at 9.2.  Ten
    times as much chloride as nitrite protects most fish, so where the chloride is given, the line follows it.

    Limits.  Sunfish and bass lack that protection.  How fast the second step runs is known to a factor of
    two.
    """
    figure = facts.figures.get("nitrite_n_mg_per_l")
    if figure is None:
        return
    value = figure.interval.value
    yield judged(
        "waste/nitrite",
        nitrite_headroom(facts, value),
        say(
            "Nitrite settles near {interval}; well-run culture stays under {nitrite_act}.",
            interval=span(figure.interval, "mg N/L"),
            nitrite_act=NITRITE_ACT,
        ),
        lambda: say(
            "{feed_at_most}. Add filter media, and change water at once when a test shows nitrite.",
            feed_at_most=feed_at_most(facts, value / NITRITE_AIM),
        ),
        facts,
        "C",
        (NITRITE_ACT.source, NITRITE_STOP.source),
    )
