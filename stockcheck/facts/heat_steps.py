"""The arithmetic of the heat figures with one plan's own numbers."""

from __future__ import annotations

from collections.abc import Mapping

from stockcheck.facts import heat_model as h
from stockcheck.facts.heat_model import Setting
from stockcheck.facts.model import Step
from stockcheck.language import say
from stockcheck.physics import heat
from stockcheck.physics.volume import CM3_PER_L
from stockcheck.physics.water import HEAT_CAPACITY, evaporation

_BALANCE = say("heat balance of panes, base, top and evaporation")


def heat_steps(setting: Setting, x: Mapping[str, float]) -> dict[str, list[Step]]:
    """Per figure, its arithmetic at the middle of every input."""
    results, middle = h.balance(setting, x), h.middle_c(setting)
    slope = results["heat_loss_w_per_k"]
    steps = {
        "heat_loss_w_per_k": [*_loss_steps(setting, x, middle), _cross_check(setting, slope)],
        "evaporation_l_per_day": [_evaporation_step(setting, x, middle, results)],
    }
    if not setting.heaters:
        return steps
    steps["heating_kwh_per_month"] = [
        *_loss_steps(setting, x, middle),
        _line(
            say("month"),
            say("that loss x {HOURS_PER_MONTH:g} h", HOURS_PER_MONTH=h.HOURS_PER_MONTH),
            results,
            "heating_kwh_per_month",
            "kWh",
        ),
    ]
    capacity = heat.heat_capacity_wh(x[h.VOLUME], setting.water_c)
    store = Step(
        say("store"),
        say("{volume:.0f} L of water", volume=x[h.VOLUME]),
        capacity,
        "Wh/K",
        HEAT_CAPACITY.source,
    )
    from_to = say(
        "from {water_c:.3g} °C with {capacity:.0f} Wh/K", water_c=setting.water_c, capacity=capacity
    )
    if setting.cold_c is not None:
        where = say("in a room of {cold_c:.3g} °C", cold_c=setting.cold_c)
        steps["heater_power_w"] = _loss_steps(setting, x, setting.cold_c)
        if setting.power_w is not None:
            total = setting.power_w * setting.heaters
            formula = say("loss = {total:g} W {where}", total=total, where=where)
            steps["full_power_temperature_c"] = [
                _line(say("balance"), formula, results, "full_power_temperature_c", "degC")
            ]
        failed = _line(
            say("balance"), say("loss = 0 W {where}", where=where), results, "failed_temperature_c", "degC"
        )
        steps["failed_temperature_c"] = [failed]
        steps["failed_hours"] = [
            store,
            failed,
            *_time(
                results,
                "failed_hours",
                say(
                    "{from_to} to {low_c} °C ({low_by})",
                    from_to=from_to,
                    low_c=setting.edges.low_c,
                    low_by=setting.edges.low_by,
                ),
            ),
        ]
    if setting.warm_c is not None and setting.power_w is not None:
        where = say("in a room of {warm_c:.3g} °C", warm_c=setting.warm_c)
        one, half = (
            say("loss = {power_w:g} W {where}", power_w=setting.power_w, where=where),
            say("loss = {power_w:g} W {where}", power_w=setting.power_w / 2, where=where),
        )
        stuck = _line(say("balance"), one, results, "stuck_on_temperature_c", "degC")
        steps["stuck_on_temperature_c"] = [stuck]
        if setting.heaters == 1:
            steps["stuck_on_of_two_temperature_c"] = [
                _line(say("balance"), half, results, "stuck_on_of_two_temperature_c", "degC")
            ]
        steps["stuck_on_hours"] = [
            store,
            stuck,
            *_time(
                results,
                "stuck_on_hours",
                say(
                    "{from_to} to {high_c} °C ({high_by})",
                    from_to=from_to,
                    high_c=setting.edges.high_c,
                    high_by=setting.edges.high_by,
                ),
            ),
        ]
    return steps


def _line(name: str, formula: str, results: Mapping[str, float], key: str, unit: str) -> Step:
    return Step(name, formula, results[key], unit, _BALANCE)


def _time(results: Mapping[str, float], key: str, formula: str) -> list[Step]:
    return (
        [
            _line(
                say("time"),
                say("{formula}, at most {HORIZON:g} h followed", formula=formula, HORIZON=h.HORIZON),
                results,
                key,
                "h",
            )
        ]
        if key in results
        else []
    )


def _loss_steps(setting: Setting, x: Mapping[str, float], room_c: float) -> list[Step]:
    """Panes, base, top and evaporation at one room temperature."""
    vessel, water = setting.vessel, setting.water_c
    difference = water - room_c
    u = heat.pane_u(water, room_c, vessel.water_height_cm, vessel.glass_mm)
    base = heat.BASE * vessel.floor_m2 * difference * x[h.SITING]
    damp = heat.evaporation_loss(water, room_c, setting.humidity, vessel.floor_m2, x[h.EVAPORATION])
    top = heat.surface_loss(water, room_c, setting.humidity, vessel, 0.0)
    cover = say("under a glass lid") if vessel.lid else say("open")
    gap = say("{difference:.1f} K over a room of {room_c:.1f} °C", difference=difference, room_c=room_c)
    return [
        Step(
            say("panes"),
            f"{u:.1f} W/m2K x {vessel.sides_m2:.2f} m2 x {gap}",
            u * vessel.sides_m2 * difference * x[h.SITING],
            "W",
            heat.CHURCHILL_BASE.source,
        ),
        Step(say("base"), f"{heat.BASE:g} W/m2K x {vessel.floor_m2:.2f} m2", base, "W", heat.BASE.source),
        Step(
            say("top"),
            say("{floor_m2:.2f} m2, {cover}: air and radiation", floor_m2=vessel.floor_m2, cover=cover),
            top,
            "W",
            heat.MCADAMS_LAMINAR.source,
        ),
        Step(
            say("evaporation"),
            say(
                "{evaporation:g} of a quiet open surface, air at {humidity:.0%}",
                evaporation=x[h.EVAPORATION],
                humidity=setting.humidity,
            ),
            damp,
            "W",
            heat.evaporation_scale(vessel.lid).source,
        ),
        Step(say("loss"), say("the sum"), h.loss(setting, x, water, room_c), "W", _BALANCE),
    ]


def _cross_check(setting: Setting, slope: float) -> Step:
    vessel = setting.vessel
    litres = vessel.length_cm * vessel.width_cm * vessel.water_height_cm / CM3_PER_L
    rule = heat.RULE_WITH_LID if vessel.lid else heat.RULE_OPEN
    by_rule = heat.rule_of_volume(litres, vessel.lid)
    formula = say(
        "slope of the loss; {rule:g} x {litres:.0f} L^(2/3) would say {by_rule:.1f}",
        rule=rule,
        litres=litres,
        by_rule=by_rule,
    )
    return Step(say("for each degree"), formula, slope, "W/K", rule.source)


def _evaporation_step(
    setting: Setting, x: Mapping[str, float], room_c: float, results: Mapping[str, float]
) -> Step:
    per_hour = evaporation(setting.water_c, room_c, setting.humidity)
    formula = f"{per_hour:.3f} kg/m2/h x {setting.vessel.floor_m2:.2f} m2 x {x[h.EVAPORATION]:g} x 24 h"
    source = "Shah 2014; " + heat.evaporation_scale(setting.vessel.lid).source
    return Step(say("evaporation"), formula, results["evaporation_l_per_day"], "L/day", source)
