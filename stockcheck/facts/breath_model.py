"""The oxygen balance of one tank as a pure function of its uncertain inputs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from stockcheck.language import say
from stockcheck.physics import oxygen, respiration
from stockcheck.physics.quantity import Constant

TRANSFER = say("surface transfer")
STONE = say("air stone")
STILL = say("transfer of a still surface")
VOLUME = say("water volume")
MASS = say("body mass of the animals")
SPECIES = say("breathing of these species")
WARMTH = say("warmth and breathing")
AIR = say("share breathed from the air")
BACTERIA = say("oxygen for nitrification")
DECAY = say("oxygen for what rots")
PLANT_MASS = say("mass of the plants")
PLANT_RATE = say("breathing of the plants")
LIGHT = say("oxygen gain by light")
FLOATERS = say("screen of floating plants")
FLOOR = say("oxygen demand of the floor")

#: Outages are followed no further than this.
HORIZON = Constant(72.0, "h", "common practice, no source: three days")


class Setting(NamedTuple):
    """What the model takes as known of one tank."""

    temperature_c: float
    hot_c: float | None
    surface_cm2: float
    floor_cm2: float
    stone: bool
    dark_hours: float
    plant_cover_cm2: float  # of rooted plants, plus what floating ones breathe from the water
    floater_share: float  # of the surface
    air_share: float  # of the animals' uptake that is by air breathers


def uptakes(setting: Setting, x: Mapping[str, float], temperature_c: float) -> dict[str, float]:
    """Oxygen used in the dark at a temperature, mg/h, by part."""
    animals = respiration.warmed(x[MASS] * x[SPECIES], setting.temperature_c, temperature_c, x[WARMTH])
    plants = respiration.plants(setting.plant_cover_cm2, temperature_c, x[PLANT_MASS], x[PLANT_RATE])
    return {
        "animals": animals * (1 - setting.air_share * x[AIR]),
        "bacteria": x[BACTERIA],
        "decay": x[DECAY],
        "plants": plants,
        "floor": respiration.floor(setting.floor_cm2, temperature_c, x[FLOOR]),
    }


def surface_conductance(setting: Setting, x: Mapping[str, float], temperature_c: float) -> float:
    """What the moving surface passes, L/h per mg/L of deficit."""
    open_surface = setting.surface_cm2 * (1 - setting.floater_share * x[FLOATERS])
    passed = oxygen.conductance(oxygen.transfer_at(x[TRANSFER], temperature_c), open_surface)
    if setting.stone:
        patch = min(oxygen.AIR_STONE_PATCH, open_surface)
        passed += oxygen.conductance(oxygen.transfer_at(x[STONE], temperature_c), patch)
    return passed


class Night(NamedTuple):
    """Oxygen through a night, mg/L, with the uptake by part, mg/h, and the surface's conductance, L/h."""

    steady: float
    evening: float
    dawn: float
    used: dict[str, float]
    passed: float


def night(setting: Setting, x: Mapping[str, float], temperature_c: float) -> Night:
    """The night at a temperature.

    The evening is the steady state of the lit day, at most saturation: supersaturated water fizzes out.
    """
    saturation = oxygen.saturation(temperature_c)
    used = uptakes(setting, x, temperature_c)
    passed = surface_conductance(setting, x, temperature_c)
    total = sum(used.values())
    by_day = total - used["plants"] * (1 + x[LIGHT])
    evening = max(0.0, min(saturation, oxygen.steady(saturation, by_day, passed)))
    steady = oxygen.steady(saturation, total, passed)
    dawn = oxygen.after(evening, steady, setting.dark_hours, passed, x[VOLUME])
    return Night(steady, evening, dawn, used, passed)


def outage(setting: Setting, x: Mapping[str, float], used: Mapping[str, float]) -> tuple[float, float]:
    """(level that it runs towards, surface conductance) in a power cut, mg/L and L/h.

    The surface goes still, the air stone stops, and the bacteria of a stopped filter no longer draw on the
    tank; ``used`` is the uptake of before.
    """
    temperature = setting.temperature_c
    open_surface = setting.surface_cm2 * (1 - setting.floater_share * x[FLOATERS])
    still = oxygen.conductance(oxygen.transfer_at(x[STILL], temperature), open_surface)
    left = oxygen.steady(oxygen.saturation(temperature), sum(used.values()) - used["bacteria"], still)
    return left, still


def night_and_outage(setting: Setting, x: Mapping[str, float]) -> dict[str, float]:
    """Every oxygen figure of a plan."""
    usual = night(setting, x, setting.temperature_c)
    results = {
        "oxygen_uptake_mg_per_h": sum(usual.used.values()),
        "oxygen_transfer_l_per_h": usual.passed,
        "oxygen_steady_mg_per_l": usual.steady,
        "oxygen_evening_mg_per_l": usual.evening,
        "oxygen_night_mg_per_l": usual.dawn,
    }
    if setting.hot_c is not None:
        results["oxygen_hot_night_mg_per_l"] = night(setting, x, setting.hot_c).dawn
    left, still = outage(setting, x, usual.used)
    for level in (oxygen.GUIDELINE, oxygen.DANGER):
        hours = oxygen.hours_until(level, usual.evening, left, still, x[VOLUME])
        results[f"outage_hours_to_{level:g}_mg_per_l"] = min(hours, HORIZON)
    return results
