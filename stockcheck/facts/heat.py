"""What the tank loses to its room, the power it takes, and what a heater that fails would do."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

from stockcheck.facts import heat_model as h
from stockcheck.facts.heat_steps import heat_steps
from stockcheck.facts.model import Facts, Figure, Steps
from stockcheck.language import say
from stockcheck.physics import heat
from stockcheck.physics.heat import Vessel
from stockcheck.physics.quantity import Interval, propagate

if TYPE_CHECKING:
    from stockcheck.table.read import Table

_LABELS = {
    "heat_loss_w_per_k": (say("heat lost for each degree over the room"), "W/K"),
    "heater_power_w": (say("heater power needed in the coldest room"), "W"),
    "heating_kwh_per_month": (say("heating in the room's middle temperature"), "kWh/month"),
    "full_power_temperature_c": (say("warmest water that full power holds in the coldest room"), "degC"),
    "stuck_on_temperature_c": (say("water with one heater stuck on, in the warmest room"), "degC"),
    "stuck_on_of_two_temperature_c": (say("the same with one stuck out of two of half the power"), "degC"),
    "stuck_on_hours": (say("hours until a stuck heater passes what the animals tolerate, 72 at most"), "h"),
    "failed_temperature_c": (say("water without its heater in the coldest room"), "degC"),
    "failed_hours": (say("hours without heater until the animals' lower limit, 72 at most"), "h"),
    "evaporation_l_per_day": (say("water that evaporates"), "L/day"),
}


def tolerated(facts: Facts) -> h.Edges:
    """The range of temperature that every animal tolerates; an end is ``None`` where no animal states it."""
    low: tuple[float, str] | None = None
    high: tuple[float, str] | None = None
    for group in facts.groups:
        band = group.species.band("temperature")
        if band is None:
            continue
        name = group.species.common_name or group.species.scientific_name
        bottom = band.tolerance_low if band.tolerance_low is not None else band.comfort_low
        top = band.tolerance_high if band.tolerance_high is not None else band.comfort_high
        if bottom is not None and (low is None or bottom > low[0]):
            low = bottom, name
        if top is not None and (high is None or top < high[0]):
            high = top, name
    return h.Edges(*(low or (None, "")), *(high or (None, "")))


def vessel_of(facts: Facts) -> Vessel | None:
    """What loses heat, from the volume figures; ``None`` without the tank's measures."""
    height, floor, glass = (facts.figures.get(name) for name in ("water_height_cm", "floor_cm2", "glass_mm"))
    if height is None or floor is None or glass is None or not facts.length_cm:
        return None
    if height.interval.value <= 0:
        return None
    width = floor.interval.value / facts.length_cm
    return Vessel(facts.length_cm, width, height.interval.value, glass.interval.value, facts.plan.tank.lid)


def heat_figures(facts: Facts, table: Table) -> dict[str, Figure]:
    """Heat figures; none where the measures, the water's temperature or the room's range are unknown."""
    prepared = _setting_and_inputs(facts)
    if prepared is None:
        return {}
    setting, inputs = prepared

    def model(x: Mapping[str, float]) -> dict[str, float]:
        return h.balance(setting, x)

    results, influences = propagate(model, inputs)
    point = {name: interval.value for name, interval in inputs.items()}
    steps = Steps(lambda: heat_steps(setting, point))
    return {
        name: Figure(name, label, _followed(results[name], unit), unit, influences[name], steps.of(name))
        for name, (label, unit) in _LABELS.items()
        if name in results
    }


def power_to_hold(facts: Facts, water_c: float) -> Interval | None:
    """Heater power that holds a temperature (degC) in the coldest room, W; ``None`` where that is unknown."""
    prepared, cold_c = _setting_and_inputs(facts), facts.plan.room.low_c
    if prepared is None or cold_c is None:
        return None
    setting, inputs = prepared

    def model(x: Mapping[str, float]) -> dict[str, float]:
        return {"power": max(0.0, h.loss(setting, x, water_c, cold_c))}

    del inputs[h.VOLUME]  # how much water there is does not change what holds it
    return propagate(model, inputs)[0]["power"]


def _setting_and_inputs(facts: Facts) -> tuple[h.Setting, dict[str, Interval]] | None:
    """What the plan fixes and what is uncertain; ``None`` where measures, water or room are unknown."""
    vessel, litres = vessel_of(facts), facts.figures.get("net_volume_l")
    room, heater = facts.plan.room, facts.plan.heater
    if vessel is None or litres is None or facts.temperature_c is None:
        return None
    if room.low_c is None and room.high_c is None:
        return None
    setting = h.Setting(
        vessel=vessel,
        water_c=facts.temperature_c,
        humidity=room.humidity,
        cold_c=room.low_c,
        warm_c=room.high_c,
        power_w=heater.power_w if heater else None,
        heaters=heater.count if heater else 0,
        edges=tolerated(facts),
        held=lru_cache(heat.held_temperature),  # the volume's error moves hours, not where the balance lies
    )
    return setting, {
        h.SITING: heat.SITING.interval,
        h.EVAPORATION: heat.evaporation_scale(vessel.lid).interval,
        h.VOLUME: litres.interval,
    }


def _followed(interval: Interval, unit: str) -> Interval:
    """Hours end at the horizon, whatever the combination of errors says."""
    return Interval(*(min(h.HORIZON, end) for end in interval)) if unit == "h" else interval
