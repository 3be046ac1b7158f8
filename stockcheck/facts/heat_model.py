"""The heat balance of one tank as a pure function of its uncertain inputs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from stockcheck.language import say
from stockcheck.physics import heat
from stockcheck.physics.heat import Vessel
from stockcheck.physics.quantity import Constant
from stockcheck.physics.water import HOURS_PER_DAY, evaporation

SITING = say("siting of the tank")
EVAPORATION = say("evaporation")
VOLUME = say("water volume")

#: A failure is followed no further than this.
HORIZON = Constant(72.0, "h", "common practice, no source: three days")
HOURS_PER_MONTH = Constant(730.5, "h/month", "definition: a twelfth of 365.25 days")
WATTS_PER_KW = Constant(1000.0, "W/kW", "definition")


class Edges(NamedTuple):
    """The temperatures that all animals tolerate, and who sets each end."""

    low_c: float | None
    low_by: str
    high_c: float | None
    high_by: str


class Setting(NamedTuple):
    vessel: Vessel
    water_c: float
    humidity: float
    cold_c: float | None
    warm_c: float | None
    power_w: float | None  # of one heater; None where it is not stated or there is none
    heaters: int
    edges: Edges
    held: Callable[..., float] = heat.held_temperature


def middle_c(setting: Setting) -> float:
    known = [end for end in (setting.cold_c, setting.warm_c) if end is not None]
    return sum(known) / len(known)


def loss(setting: Setting, x: Mapping[str, float], water_c: float, room_c: float) -> float:
    return heat.loss(water_c, room_c, setting.vessel, setting.humidity, x[SITING], x[EVAPORATION])


def _held(setting: Setting, x: Mapping[str, float], power_w: float, room_c: float) -> float:
    return setting.held(power_w, room_c, setting.vessel, setting.humidity, x[SITING], x[EVAPORATION])


def _hours(
    setting: Setting, x: Mapping[str, float], edge_c: float, end_c: float, room_c: float, power_w: float
) -> float:
    capacity = heat.heat_capacity_wh(x[VOLUME], setting.water_c)
    surplus = power_w - loss(setting, x, setting.water_c, room_c)
    return min(HORIZON, heat.hours_to_reach(edge_c, setting.water_c, end_c, capacity, surplus))


def balance(setting: Setting, x: Mapping[str, float]) -> dict[str, float]:
    """Every heat figure of a plan that its statements allow."""
    water, middle = setting.water_c, middle_c(setting)
    slope = heat.per_kelvin(water, middle, setting.vessel, setting.humidity, x[SITING], x[EVAPORATION])
    area = setting.vessel.floor_m2
    evaporated = evaporation(water, middle, setting.humidity) * area * x[EVAPORATION] * HOURS_PER_DAY
    results = {"heat_loss_w_per_k": slope, "evaporation_l_per_day": evaporated}
    if not setting.heaters:
        return results
    spent = max(0.0, loss(setting, x, water, middle))
    results["heating_kwh_per_month"] = spent * HOURS_PER_MONTH / WATTS_PER_KW
    if setting.cold_c is not None:
        results |= _in_the_cold(setting, x, setting.cold_c)
    if setting.warm_c is not None and setting.power_w is not None:
        results |= _in_the_warm(setting, x, setting.warm_c, setting.power_w)
    return results


def _in_the_cold(setting: Setting, x: Mapping[str, float], room_c: float) -> dict[str, float]:
    failed = _held(setting, x, 0.0, room_c)
    results = {
        "heater_power_w": max(0.0, loss(setting, x, setting.water_c, room_c)),
        "failed_temperature_c": failed,
    }
    if setting.power_w is not None:
        total = setting.power_w * setting.heaters
        results["full_power_temperature_c"] = _held(setting, x, total, room_c)
    if setting.edges.low_c is not None:
        results["failed_hours"] = _hours(setting, x, setting.edges.low_c, failed, room_c, 0.0)
    return results


def _in_the_warm(setting: Setting, x: Mapping[str, float], room_c: float, power_w: float) -> dict[str, float]:
    stuck = _held(setting, x, power_w, room_c)
    results = {"stuck_on_temperature_c": stuck}
    if setting.heaters == 1:
        results["stuck_on_of_two_temperature_c"] = _held(setting, x, power_w / 2, room_c)
    if setting.edges.high_c is not None:
        results["stuck_on_hours"] = _hours(setting, x, setting.edges.high_c, stuck, room_c, power_w)
    return results
