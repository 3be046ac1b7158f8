"""A filter that is not grown in: what its bacteria can do today, in a month, and what happens until they
keep up."""

from __future__ import annotations

from collections.abc import Mapping

from stockcheck.facts.model import Facts, Figure, Step, Steps
from stockcheck.facts.plain import plain
from stockcheck.facts.waste_model import Setting
from stockcheck.language import say
from stockcheck.physics.ammonia import PKA_OFFSET, un_ionised_fraction
from stockcheck.physics.nitrification import NITRITE_ACT
from stockcheck.physics.quantity import Interval, propagate
from stockcheck.physics.startup import (
    AHEAD_DAYS,
    AMMONIA_GROWTH,
    GROWN_IN_DAYS,
    LAG,
    MONTH_DAYS,
    NITRITE_GROWTH,
    State,
    Tank,
    oxidisers,
    pace_between,
    start_up,
)
from stockcheck.physics.uptake import HALF_SATURATION

PACE = say("pace of the bacteria")
LOAD = say("ammonia nitrogen from feed")

_LABELS = {
    "tan_peak_mg_per_l": (say("highest TAN while the filter grows in"), "mg/L"),
    "nh3_n_peak_mg_per_l": (say("highest un-ionised ammonia nitrogen while the filter grows in"), "mg/L"),
    "nitrite_n_peak_mg_per_l": (say("highest nitrite nitrogen while the filter grows in"), "mg/L"),
    "tan_in_a_month_mg_per_l": (say("TAN in a month"), "mg/L"),
    "nitrite_n_in_a_month_mg_per_l": (say("nitrite nitrogen in a month"), "mg/L"),
    "grown_in_share": (say("bacteria today, as a share of a grown-in filter's"), "1"),
    "days_to_grow_in": (say("days until TAN and nitrite stay low, 56 at most"), "day"),
}


def is_grown_in(facts: Facts) -> bool:
    """Whether the filter's bacteria count in full, or there is none to wait for."""
    box = facts.plan.filter
    return box is None or box.matured_days is None or box.matured_days >= GROWN_IN_DAYS


def startup_figures(
    facts: Facts, setting: Setting, flow: Mapping[str, float], results: Mapping[str, Interval]
) -> dict[str, Figure]:
    """Figures of the coming eight weeks; none for a grown-in filter, or none at all.

    The animals of the plan are in the tank from today, at the size they have today.
    """
    box = facts.plan.filter
    if box is None or box.matured_days is None or is_grown_in(facts):
        return {}
    temperature = flow["temperature"]
    matured, seeded = box.matured_days, box.seeded
    inputs = {PACE: Interval(-1.0, 0.0, 1.0), LOAD: results.get("load_now", results["load"])}

    def course(values: Mapping[str, float]) -> dict[str, float]:
        return _course(facts, setting, flow, values, matured, seeded, temperature)

    found, influences = propagate(course, inputs)
    steps = Steps(lambda: _steps(setting, matured, seeded, temperature, found))
    return {
        name: Figure(name, label, found[name], unit, influences[name], steps.of(name))
        for name, (label, unit) in _LABELS.items()
        if name in found
    }


def _course(
    facts: Facts,
    setting: Setting,
    flow: Mapping[str, float],
    values: Mapping[str, float],
    matured: float,
    seeded: float,
    temperature: float,
) -> dict[str, float]:
    pace = pace_between(values[PACE])
    ammonia_share, nitrite_share = oxidisers(matured, temperature, seeded, pace)
    bacteria = flow["media_clearance"] + flow["walls_clearance"]
    tank = Tank(
        volume_l=facts.figures["net_volume_l"].interval.value,
        load=values[LOAD],
        ammonia_clearance=bacteria,
        nitrite_clearance=bacteria * flow["nitrite_speed"],
        change_clearance=flow["exchange"],
        plant_uptake=flow["plants_most"],
        plant_half_saturation=HALF_SATURATION,
    )
    water = facts.plan.water
    begin = State(0.0, water.tan_mg_l or 0.0, water.nitrite_n_mg_l or 0.0, ammonia_share, nitrite_share)
    lag_left = 0.0 if seeded else max(0.0, pace.lag - matured)
    days = start_up(tank, temperature, begin, AHEAD_DAYS, lag_left, pace)
    month = min(days, key=lambda state: abs(state.day - MONTH_DAYS))
    tan_peak = max(state.tan for state in days)
    high = [state.day for state in days if state.tan > setting.tan_limit or state.nitrite > NITRITE_ACT]
    course = {
        "tan_peak_mg_per_l": tan_peak,
        "nitrite_n_peak_mg_per_l": max(state.nitrite for state in days),
        "tan_in_a_month_mg_per_l": month.tan,
        "nitrite_n_in_a_month_mg_per_l": month.nitrite,
        "grown_in_share": ammonia_share,
        "days_to_grow_in": max(high, default=0.0),
    }
    if setting.pH is not None:
        course["nh3_n_peak_mg_per_l"] = tan_peak * un_ionised_fraction(setting.pH, temperature)
    return course


def _steps(
    setting: Setting, matured: float, seeded: float, temperature: float, found: Mapping[str, Interval]
) -> dict[str, list[Step]]:
    """Per figure, its arithmetic; all but the first two begin with the bacteria there are today."""
    seed = say(", {seeded} of the media from a mature filter", seeded=plain(seeded)) if seeded else ""
    today = Step(
        say("bacteria today"),
        say(
            "{matured} days in use at {temperature} °C after a lag of {lag}{seed}",
            matured=plain(matured),
            temperature=plain(temperature, 3),
            lag=plain(LAG),
            seed=seed,
        ),
        found["grown_in_share"].value,
        say("of grown in"),
        f"{AMMONIA_GROWTH.source}; {LAG.source}",
    )
    rate = say("dC/dt = (load - bacteria x C - plants - changes) / volume while the bacteria grow")
    second = say("the same for the second step, which starts when there is nitrite to live on")
    told = {
        "tan_peak_mg_per_l": (rate + say(", its highest"), AMMONIA_GROWTH.source),
        "nitrite_n_peak_mg_per_l": (second + say(", its highest"), NITRITE_GROWTH.source),
        "tan_in_a_month_mg_per_l": (
            rate + say(", on day {month_days:g}", month_days=MONTH_DAYS),
            AMMONIA_GROWTH.source,
        ),
        "nitrite_n_in_a_month_mg_per_l": (
            second + say(", on day {month_days:g}", month_days=MONTH_DAYS),
            NITRITE_GROWTH.source,
        ),
        "days_to_grow_in": (
            say(
                "the last day with TAN over {tan_limit} or nitrite over {nitrite_act:g} mg N/L",
                tan_limit=plain(setting.tan_limit),
                nitrite_act=NITRITE_ACT,
            ),
            NITRITE_GROWTH.source,
        ),
    }
    if setting.pH is not None:
        tan, share = found["tan_peak_mg_per_l"].value, un_ionised_fraction(setting.pH, temperature)
        formula = say(
            "{tan} mg/L TAN x {share} un-ionised at pH {pH:g}",
            tan=plain(tan),
            share=plain(share),
            pH=setting.pH,
        )
        told["nh3_n_peak_mg_per_l"] = (formula, PKA_OFFSET.source)
    steps = {
        name: [today, Step(_LABELS[name][0], formula, found[name].value, _LABELS[name][1], source)]
        for name, (formula, source) in told.items()
    }
    return {"grown_in_share": [today], **steps}
