"""What was measured in the tank, held against the same lines as what is computed."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.facts.plain import plain
from stockcheck.language import say
from stockcheck.physics.ammonia import FOUR_DAY_PER_CCC, NH3_ACT, NH3_STOP, un_ionised_fraction
from stockcheck.physics.conditioner import DEADLY, HARMFUL
from stockcheck.physics.nitrate import NITRATE_AIM, NITRATE_LIMIT, NITRATE_STOP
from stockcheck.physics.nitrification import NITRITE_ACT, NITRITE_STOP
from stockcheck.physics.quantity import Constant
from stockcheck.rules.core import CLEAR, Finding, headroom_between, level_of, rule
from stockcheck.rules.waste.ammonia import (
    WORST_PH,
    nh3_headroom,
    nitrite_headroom,
    pH_and_temperature,
    tan_headroom,
    tan_peak_headroom,
)

_CHANGE_NOW = say(
    "Change half the water now, with conditioned water of the same temperature, feed "
    "nothing, and test again tomorrow; look for what died or failed. Animals that gasp or "
    "lie on the ground belong before a vet."
)


@rule(
    "waste/measured",
    trips='[water]\nammonia = "4 mg/L"\nnitrite = "5 mg/L"\nnitrate = "500 mg/L"\nchlorine = "1 mg/L"',
    clears='[water]\nammonia = "0 mg/L"\nnitrite = "0 mg/L"\nnitrate = "10 mg/L"\nchlorine = "0 mg/L"',
)
def measured(facts: Facts) -> Iterator[Finding]:
    """Does a test of the tank's water show what poisons its animals?

    Mechanism.  The computed levels are those of a tank that runs as planned; a test tells what is there
    today, whatever the plan says.

    Evidence.  The lines are those of the computed figures: un-ionised ammonia, the chronic criterion of
    total ammonia, nitrite by chloride, nitrate before a change, chlorine that harms gills.

    Limits.  Drop tests read to about a quarter of their scale.  Where the pH is not given it is taken as 8.
    """
    water = facts.plan.water
    if water.tan_mg_l is not None:
        yield _ammonia(facts, water.tan_mg_l)
    if water.nitrite_n_mg_l is not None:
        message = say(
            "The test shows nitrite at {nitrite_n_mg_l} mg N/L; {nitrite_act:g} is the limit.",
            nitrite_n_mg_l=plain(water.nitrite_n_mg_l),
            nitrite_act=NITRITE_ACT,
        )
        headroom = nitrite_headroom(facts, water.nitrite_n_mg_l)
        yield _judged(headroom, message, _CHANGE_NOW, NITRITE_ACT, NITRITE_STOP)
    if water.nitrate_mg_l is not None:
        found = water.nitrate_mg_l
        message = say(
            "The test shows nitrate at {found} mg/L; {nitrate_limit:g} is the limit.",
            found=plain(found),
            nitrate_limit=NITRATE_LIMIT,
        )
        remedy = say(
            "Change half the water now and again every other day until the test shows half the limit."
        )
        headroom = headroom_between(found, NITRATE_STOP, NITRATE_LIMIT, NITRATE_AIM)
        yield _judged(headroom, message, remedy, NITRATE_LIMIT)
    chlorine = max(water.chlorine_mg_l or 0.0, water.chloramine_mg_l or 0.0)
    if chlorine > 0:
        message = say(
            "The test shows {chlorine} mg/L of chlorine; gills are harmed from {harmful:g}.",
            chlorine=plain(chlorine),
            harmful=HARMFUL,
        )
        remedy = say("Dose a conditioner now, by its own label for the whole volume, and air the water well.")
        yield _judged(headroom_between(chlorine, DEADLY, HARMFUL, 0.0), message, remedy, HARMFUL)


def _ammonia(facts: Facts, tan: float) -> Finding:
    free = tan * un_ionised_fraction(*pH_and_temperature(facts))
    message = say(
        "The test shows {tan} mg N/L of total ammonia, {free} of it un-ionised; fish suffer from "
        "{nh3_act:g}.",
        tan=plain(tan),
        free=plain(free),
        nh3_act=NH3_ACT,
    )
    modelled = facts.figures.get("tan_mg_per_l")
    if modelled is not None and tan > modelled.interval.high:
        message += say(
            " A grown-in tank of this plan would stay near {modelled}: the bacteria are not there, "
            "or something rots.",
            modelled=plain(modelled.interval.value),
        )
    headroom = min(nh3_headroom(free), tan_headroom(facts, tan))
    return _judged(headroom, message, _CHANGE_NOW, NH3_ACT, NH3_STOP, FOUR_DAY_PER_CCC)


def _judged(
    headroom: float, message: str, remedy: str, *lines: Constant, rule: str = "waste/measured"
) -> Finding:
    """A finding with the sources of the lines it is held against."""
    level = level_of(headroom)
    if level == "clear":
        return Finding(rule, level, message, headroom=min(headroom, CLEAR))
    sources = tuple(dict.fromkeys(line.source for line in lines))
    return Finding(rule, level, message, remedy, grade="C", sources=sources, headroom=headroom)


@rule(
    "waste/tap-water",
    trips='[tap]\nammonia = "3 mg/L"\nnitrite = "3 mg/L"',
    clears='[tap]\nammonia = "0 mg/L"\nnitrite = "0 mg/L"',
)
def tap_water(facts: Facts) -> Iterator[Finding]:
    """Does the tap water itself bring ammonia or nitrite into the tank?

    Mechanism.  A change of a share s brings that share of what the tap holds; the filter takes a day or
    so to work it off, and meanwhile the animals bear it.

    Evidence.  Mass balance; a peak of days is held against the EPA's four-day and one-hour limits of total
    ammonia, its un-ionised share and nitrite against the lines of the computed figures.

    Limits.  Where the pH is not given it is taken as 8.  Ammonia that conditioned chloramine leaves is told
    by a rule of its own.
    """
    tap, share = facts.plan.tap, facts.plan.routine.water_change
    ammonia, nitrite = (tap.tan_mg_l or 0.0) * share, (tap.nitrite_n_mg_l or 0.0) * share
    if not ammonia and not nitrite:
        return
    stated = [pH for pH in (facts.plan.water.pH, tap.pH) if pH is not None]
    pH = max(stated, default=WORST_PH)  # changes take the tank's pH towards the tap's
    _, warmth = pH_and_temperature(facts)
    free = ammonia * un_ionised_fraction(pH, warmth)
    parts = [nh3_headroom(free), tan_peak_headroom(facts, ammonia)] if ammonia else []
    parts += [nitrite_headroom(facts, nitrite)] if nitrite else []
    message = say(
        "Each change of {share:.0%} brings {ammonia} mg N/L of ammonia ({free} un-ionised) and {nitrite} mg "
        "N/L of nitrite from the tap into the tank.",
        share=share,
        ammonia=plain(ammonia),
        free=plain(free),
        nitrite=plain(nitrite),
    )
    remedy = say(
        "Measure the tap again and ask the waterworks: drinking water has far less. Until then use other "
        "water, or a conditioner that binds ammonia, by its own label."
    )
    lines = (NH3_ACT, NH3_STOP, FOUR_DAY_PER_CCC, NITRITE_ACT, NITRITE_STOP)
    yield _judged(min(parts), message, remedy, *lines, rule="waste/tap-water")
