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
from stockcheck.rules.core import CLEAR, Finding, headroom_between, level_of, rule
from stockcheck.rules.waste.ammonia import (
    UNKNOWN_C,
    WORST_PH,
    nh3_headroom,
    nitrite_headroom,
    tan_headroom,
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
    sources=tuple(
        dict.fromkeys(
            line.source
            for line in (
                NH3_ACT,
                NH3_STOP,
                FOUR_DAY_PER_CCC,
                NITRITE_ACT,
                NITRITE_STOP,
                NITRATE_LIMIT,
                HARMFUL,
            )
        )
    ),
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
        yield _judged(nitrite_headroom(facts, water.nitrite_n_mg_l), message, _CHANGE_NOW)
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
        yield _judged(headroom_between(found, NITRATE_STOP, NITRATE_LIMIT, NITRATE_AIM), message, remedy)
    chlorine = max(water.chlorine_mg_l or 0.0, water.chloramine_mg_l or 0.0)
    if chlorine > 0:
        message = say(
            "The test shows {chlorine} mg/L of chlorine; gills are harmed from {harmful:g}.",
            chlorine=plain(chlorine),
            harmful=HARMFUL,
        )
        remedy = say("Dose a conditioner now, by its own label for the whole volume, and air the water well.")
        yield _judged(headroom_between(chlorine, DEADLY, HARMFUL, 0.0), message, remedy)


def _ammonia(facts: Facts, tan: float) -> Finding:
    pH = WORST_PH if facts.plan.water.pH is None else facts.plan.water.pH
    warmth = UNKNOWN_C if facts.temperature_c is None else facts.temperature_c
    free = tan * un_ionised_fraction(pH, warmth)
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
    return _judged(min(nh3_headroom(free), tan_headroom(facts, tan)), message, _CHANGE_NOW)


def _judged(headroom: float, message: str, remedy: str) -> Finding:
    level = level_of(headroom)
    if level == "clear":
        return Finding("waste/measured", level, message, headroom=min(headroom, CLEAR))
    return Finding("waste/measured", level, message, remedy, grade="C", headroom=headroom)
