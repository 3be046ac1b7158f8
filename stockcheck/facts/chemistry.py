"""Carbon dioxide, buffering, and what top-up leaves behind."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from stockcheck.facts.change_water import chlorine, figure_of, mixing
from stockcheck.facts.model import Facts, Figure, Step
from stockcheck.physics import carbonate, conductivity, hardness
from stockcheck.physics.quantity import Constant, Interval

if TYPE_CHECKING:
    from stockcheck.table.read import Table

PH_READING = Constant(0.0, "1", "common practice, no source: drop tests and probes of a home", -0.2, 0.2)
HARDNESS_READING = Constant(
    0.0, "degree", "common practice, no source: one drop of a test is a degree", -0.5, 0.5
)
DAYS_PER_WEEK = Constant(7.0, "day", "definition")
#: KH below which pH hangs on little.
LEAST_KH = Constant(1.0, "dKH", "common practice, no source: below it a day's acid moves the pH")
YEAR = Constant(52.0, "week", "common practice, no source: followed no further than a year")
_LEAST = Constant(0.05, "degree", "numerical floor of a reading")
_BALANCE = "mass balance"
_Inputs = Mapping[str, float]


def chemistry_figures(facts: Facts, table: Table) -> dict[str, Figure]:
    """Every figure of the water's chemistry that the plan's statements allow."""
    figures: dict[str, Figure] = {}
    for part in (_carbon_dioxide, _buffer, _topped_up, _conductivity, mixing, chlorine):
        figures.update(part(facts))
    return figures


def _reading(value: float, error: Constant = HARDNESS_READING) -> Interval:
    return Interval(max(_LEAST, value + error.low), max(_LEAST, value), max(_LEAST, value + error.high))


def _carbon_dioxide(facts: Facts) -> dict[str, Figure]:
    """CO2 from KH and pH, and the pH once it has stood; nothing where humic acids or buffers mislead."""
    water, temperature = facts.plan.water, facts.temperature_c
    if water.pH is None or water.KH_dkh is None or temperature is None or water.humic or water.KH_dkh <= 0:
        return {}
    pH, kh, celsius = water.pH, water.KH_dkh, temperature
    inputs = {
        "pH reading": Interval(pH + PH_READING.low, pH, pH + PH_READING.high),
        "KH reading": _reading(kh),
    }
    source = f"{carbonate.K1[0].source}; bicarbonate alone makes up the KH"
    co2 = carbonate.co2_mg_per_l(kh, pH, celsius)
    constant = f"pK1 {carbonate.pk1(celsius):.2f} at {celsius:.1f} degC"
    shown = Step("carbon dioxide", f"KH {kh:g} dKH, pH {pH:g}, {constant}", co2, "mg/L", source)
    figures = figure_of(
        "co2_mg_per_l",
        "carbon dioxide by KH and pH",
        "mg/L",
        inputs,
        lambda x: carbonate.co2_mg_per_l(x["KH reading"], x["pH reading"], celsius),
        [shown],
    )
    aired = carbonate.co2_with_air(carbonate.ROOM_CO2, celsius)
    air = Step(
        "in step with room air", f"{carbonate.ROOM_CO2:g} uatm", aired, "mg/L", carbonate.ROOM_CO2.source
    )
    stood = Step("pH", f"KH {kh:g} dKH with that", carbonate.ph_from_co2(kh, aired, celsius), "pH", source)
    return figures | figure_of(
        "standing_ph",
        "what the pH becomes once this water has stood in a room",
        "pH",
        {"KH reading": inputs["KH reading"], "CO2 of the room": carbonate.ROOM_CO2.interval},
        lambda x: carbonate.ph_from_co2(
            x["KH reading"], carbonate.co2_with_air(x["CO2 of the room"], celsius), celsius
        ),
        [air, stood],
    )


def _top_up_per_interval(facts: Facts) -> Interval | None:
    """Water topped up between two changes, as a share of the tank."""
    evaporated, litres = facts.figures.get("evaporation_l_per_day"), facts.figures.get("net_volume_l")
    if evaporated is None or litres is None:
        return None
    return evaporated.interval.scaled(facts.plan.routine.every_days / litres.interval.value)


def _buffer(facts: Facts) -> dict[str, Figure]:
    """KH just before a change, and how long the tank's KH lasts without one."""
    plan, use = facts.plan, facts.figures.get("kh_use_dkh_per_week")
    if use is None:
        return {}
    routine = plan.routine
    figures: dict[str, Figure] = {}
    weekly = Step("used up a week", "see kh_use_dkh_per_week", use.interval.value, "dKH", _BALANCE)
    if plan.water.KH_dkh is not None and plan.water.KH_dkh > LEAST_KH and use.interval.low > 0:
        kh = plan.water.KH_dkh
        weeks = min(YEAR, (kh - LEAST_KH) / use.interval.value)
        step = Step("weeks", f"({kh:g} - {LEAST_KH:g} dKH) / use", weeks, "week", LEAST_KH.source)
        figures |= figure_of(
            "kh_weeks_without_change",
            f"weeks without a change until KH is down to {LEAST_KH:g} dKH, 52 at most",
            "week",
            {"KH use": use.interval, "KH reading": _reading(kh)},
            lambda x: min(YEAR, max(0.0, x["KH reading"] - LEAST_KH) / x["KH use"]),
            [weekly, step],
        )
    if plan.tap.KH_dkh is None or not routine.water_change:
        return figures
    tap, weeks_between = plan.tap.KH_dkh, routine.every_days / DAYS_PER_WEEK
    top_up = _top_up_per_interval(facts) if routine.top_up == "tap" else None
    inputs = {"KH use": use.interval, "tap KH": _reading(tap), "top-up": top_up or Interval.exact(0.0)}

    def before(x: _Inputs) -> float:
        gain = x["top-up"] * x["tap KH"] - x["KH use"] * weeks_between
        return max(0.0, hardness.before_change(x["tap KH"], gain, routine.water_change))

    middle = {name: interval.value for name, interval in inputs.items()}
    brought = middle["top-up"] * tap
    formula = (
        f"{tap:g} + ({brought:.2f} by top-up - {use.interval.value * weeks_between:.2f} used) "
        f"/ {routine.water_change:.0%} changed, not below 0"
    )
    step = Step("KH before a change", formula, before(middle), "dKH", _BALANCE)
    return figures | figure_of(
        "kh_before_change_dkh", "carbonate hardness before a change", "dKH", inputs, before, [weekly, step]
    )


def _topped_up(facts: Facts) -> dict[str, Figure]:
    """GH that evaporation and top-up build up."""
    plan, top_up = facts.plan, _top_up_per_interval(facts)
    tap, routine = plan.tap.GH_dgh, plan.routine
    if top_up is None or tap is None:
        return {}
    from_tap = routine.top_up == "tap"
    share = top_up if from_tap else Interval.exact(0.0)
    inputs = {"top-up": share, "tap GH": _reading(tap)}
    per_week = DAYS_PER_WEEK / routine.every_days
    water = "tap water" if from_tap else "pure water, which leaves nothing behind"
    gain = Step(
        "gain a week",
        f"{share.value * per_week:.1%} of the tank topped up with {water}, at {tap:g} dGH",
        share.value * tap * per_week,
        "dGH",
        _BALANCE,
    )
    figures = figure_of(
        "gh_gain_dgh_per_week",
        "general hardness that top-up adds a week",
        "dGH",
        inputs,
        lambda x: x["top-up"] * x["tap GH"] * per_week,
        [gain],
    )
    if not routine.water_change:
        return figures

    def before(x: _Inputs) -> float:
        return hardness.before_change(x["tap GH"], x["top-up"] * x["tap GH"], routine.water_change)

    middle = {name: interval.value for name, interval in inputs.items()}
    formula = f"{tap:g} + {share.value * tap:.2f} a time / {routine.water_change:.0%} changed"
    step = Step("GH before a change", formula, before(middle), "dGH", _BALANCE)
    return figures | figure_of(
        "gh_before_change_dgh", "general hardness before a change", "dGH", inputs, before, [gain, step]
    )


def _conductivity(facts: Facts) -> dict[str, Figure]:
    """Conductivity that the hardness alone would give."""
    water = facts.plan.water
    if water.GH_dgh is None or water.KH_dkh is None:
        return {}
    gh, kh = water.GH_dgh, water.KH_dkh
    value = conductivity.conductivity(gh, kh)
    step = Step(
        "conductivity",
        f"ions of {gh:g} dGH and {kh:g} dKH, and a little else",
        value,
        "uS/cm",
        conductivity.SODIUM.source,
    )
    return figure_of(
        "conductivity_estimate_us_cm",
        "conductivity that this hardness would give",
        "uS/cm",
        {
            "GH reading": _reading(gh),
            "KH reading": _reading(kh),
            "other salts": conductivity.BACKGROUND.interval,
        },
        lambda x: conductivity.conductivity(x["GH reading"], x["KH reading"], x["other salts"]),
        [step],
    )
