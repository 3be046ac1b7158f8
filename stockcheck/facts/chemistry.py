"""Carbon dioxide, buffering, and what top-up leaves behind."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from stockcheck.facts.change_water import chlorine, figure_of, mixing
from stockcheck.facts.model import Facts, Figure, Step
from stockcheck.language import say
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
#: Names of the uncertain inputs, as a reader of the report sees them.
_PH = say("pH reading")
_KH = say("KH reading")
_AIR = say("CO2 of the room")
_USE = say("KH use")
_TAP_KH = say("tap KH")
_TOP_UP = say("top-up")
_TAP_GH = say("tap GH")
_GH = say("GH reading")
_SALTS = say("other salts")
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
        _PH: Interval(pH + PH_READING.low, pH, pH + PH_READING.high),
        _KH: _reading(kh),
    }
    source = say("{source}; bicarbonate alone makes up the KH", source=carbonate.K1[0].source)
    co2 = carbonate.co2_mg_per_l(kh, pH, celsius)
    constant = say("pK1 {pk1:.2f} at {celsius:.1f} °C", pk1=carbonate.pk1(celsius), celsius=celsius)
    shown = Step(say("carbon dioxide"), f"KH {kh:g} dKH, pH {pH:g}, {constant}", co2, "mg/L", source)
    figures = figure_of(
        "co2_mg_per_l",
        say("carbon dioxide by KH and pH"),
        "mg/L",
        inputs,
        lambda x: carbonate.co2_mg_per_l(x[_KH], x[_PH], celsius),
        [shown],
    )
    aired = carbonate.co2_with_air(carbonate.ROOM_CO2, celsius)
    air = Step(
        say("in step with room air"),
        say("{ROOM_CO2:g} uatm", ROOM_CO2=carbonate.ROOM_CO2),
        aired,
        "mg/L",
        carbonate.ROOM_CO2.source,
    )
    stood = Step(
        say("pH"),
        say("KH {kh:g} dKH with that", kh=kh),
        carbonate.ph_from_co2(kh, aired, celsius),
        "pH",
        source,
    )
    return figures | figure_of(
        "standing_ph",
        say("what the pH becomes once this water has stood in a room"),
        "pH",
        {_KH: inputs[_KH], _AIR: carbonate.ROOM_CO2.interval},
        lambda x: carbonate.ph_from_co2(x[_KH], carbonate.co2_with_air(x[_AIR], celsius), celsius),
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
    weekly = Step(say("used up a week"), say("see kh_use_dkh_per_week"), use.interval.value, "dKH", _BALANCE)
    if plan.water.KH_dkh is not None and plan.water.KH_dkh > LEAST_KH and use.interval.low > 0:
        kh = plan.water.KH_dkh
        weeks = min(YEAR, (kh - LEAST_KH) / use.interval.value)
        step = Step(
            say("weeks"),
            say("({kh:g} - {least_kh:g} dKH) / use", kh=kh, least_kh=LEAST_KH),
            weeks,
            "week",
            LEAST_KH.source,
        )
        figures |= figure_of(
            "kh_weeks_without_change",
            say("weeks without a change until KH is down to {least_kh:g} dKH, 52 at most", least_kh=LEAST_KH),
            "week",
            {_USE: use.interval, _KH: _reading(kh)},
            lambda x: min(YEAR, max(0.0, x[_KH] - LEAST_KH) / x[_USE]),
            [weekly, step],
        )
    if plan.tap.KH_dkh is None or not routine.water_change:
        return figures
    tap, weeks_between = plan.tap.KH_dkh, routine.every_days / DAYS_PER_WEEK
    top_up = _top_up_per_interval(facts) if routine.top_up == "tap" else None
    inputs = {_USE: use.interval, _TAP_KH: _reading(tap), _TOP_UP: top_up or Interval.exact(0.0)}

    def before(x: _Inputs) -> float:
        gain = x[_TOP_UP] * x[_TAP_KH] - x[_USE] * weeks_between
        return max(0.0, hardness.before_change(x[_TAP_KH], gain, routine.water_change))

    middle = {name: interval.value for name, interval in inputs.items()}
    brought = middle[_TOP_UP] * tap
    formula = say(
        "{tap:g} + ({brought:.2f} by top-up - {use:.2f} used) / {water_change:.0%} changed, not below 0",
        tap=tap,
        brought=brought,
        use=use.interval.value * weeks_between,
        water_change=routine.water_change,
    )
    step = Step(say("KH before a change"), formula, before(middle), "dKH", _BALANCE)
    return figures | figure_of(
        "kh_before_change_dkh",
        say("carbonate hardness before a change"),
        "dKH",
        inputs,
        before,
        [weekly, step],
    )


def _topped_up(facts: Facts) -> dict[str, Figure]:
    """GH that evaporation and top-up build up."""
    plan, top_up = facts.plan, _top_up_per_interval(facts)
    tap, routine = plan.tap.GH_dgh, plan.routine
    if top_up is None or tap is None:
        return {}
    from_tap = routine.top_up == "tap"
    share = top_up if from_tap else Interval.exact(0.0)
    inputs = {_TOP_UP: share, _TAP_GH: _reading(tap)}
    per_week = DAYS_PER_WEEK / routine.every_days
    water = say("tap water") if from_tap else say("pure water, which leaves nothing behind")
    gain = Step(
        say("gain a week"),
        say(
            "{share:.1%} of the tank topped up with {water}, at {tap:g} dGH",
            share=share.value * per_week,
            water=water,
            tap=tap,
        ),
        share.value * tap * per_week,
        "dGH",
        _BALANCE,
    )
    figures = figure_of(
        "gh_gain_dgh_per_week",
        say("general hardness that top-up adds a week"),
        "dGH",
        inputs,
        lambda x: x[_TOP_UP] * x[_TAP_GH] * per_week,
        [gain],
    )
    if not routine.water_change:
        return figures

    def before(x: _Inputs) -> float:
        return hardness.before_change(x[_TAP_GH], x[_TOP_UP] * x[_TAP_GH], routine.water_change)

    middle = {name: interval.value for name, interval in inputs.items()}
    formula = say(
        "{tap:g} + {share:.2f} a time / {water_change:.0%} changed",
        tap=tap,
        share=share.value * tap,
        water_change=routine.water_change,
    )
    step = Step(say("GH before a change"), formula, before(middle), "dGH", _BALANCE)
    return figures | figure_of(
        "gh_before_change_dgh", say("general hardness before a change"), "dGH", inputs, before, [gain, step]
    )


def _conductivity(facts: Facts) -> dict[str, Figure]:
    """Conductivity that the hardness alone would give."""
    water = facts.plan.water
    if water.GH_dgh is None or water.KH_dkh is None:
        return {}
    gh, kh = water.GH_dgh, water.KH_dkh
    value = conductivity.conductivity(gh, kh)
    step = Step(
        say("conductivity"),
        say("ions of {gh:g} dGH and {kh:g} dKH, and a little else", gh=gh, kh=kh),
        value,
        "uS/cm",
        conductivity.SODIUM.source,
    )
    return figure_of(
        "conductivity_estimate_us_cm",
        say("conductivity that this hardness would give"),
        "uS/cm",
        {
            _GH: _reading(gh),
            _KH: _reading(kh),
            _SALTS: conductivity.BACKGROUND.interval,
        },
        lambda x: conductivity.conductivity(x[_GH], x[_KH], x[_SALTS]),
        [step],
    )
