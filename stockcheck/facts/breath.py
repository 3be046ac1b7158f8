"""Oxygen through the night, in a heat wave and in a power cut."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot
from typing import TYPE_CHECKING

from stockcheck.facts import breath_model as b
from stockcheck.facts.breath_steps import breath_steps, saturation_step
from stockcheck.facts.model import Facts, Figure, Group, Steps, given
from stockcheck.language import say
from stockcheck.physics import oxygen, respiration
from stockcheck.physics.quantity import Constant, Interval, propagate
from stockcheck.physics.water import HOURS_PER_DAY

if TYPE_CHECKING:
    from stockcheck.table.read import Table

_SURFACES = {"still": oxygen.STILL, "ripple": oxygen.RIPPLE, "strong": oxygen.STRONG}
_LABELS = {
    "oxygen_uptake_mg_per_h": (say("oxygen used in the dark"), "mg/h"),
    "oxygen_transfer_l_per_h": (say("oxygen that the surface passes per mg/L of deficit"), "L/h"),
    "oxygen_steady_mg_per_l": (say("oxygen that an endless night would settle at"), "mg/L"),
    "oxygen_evening_mg_per_l": (say("oxygen at lights-off"), "mg/L"),
    "oxygen_night_mg_per_l": (say("oxygen at the end of the night"), "mg/L"),
    "oxygen_hot_night_mg_per_l": (say("oxygen at the end of a night as warm as the room gets"), "mg/L"),
    "outage_hours_to_5_mg_per_l": (say("hours of a power cut until oxygen falls to 5 mg/L, 72 at most"), "h"),
    "outage_hours_to_3_mg_per_l": (say("hours of a power cut until oxygen falls to 3 mg/L, 72 at most"), "h"),
}


def animal_uptake(group: Group, temperature_c: float) -> Interval | None:
    """Oxygen uptake of a whole group at adult size, mg/h; ``None`` without a mass.

    Fish, and amphibians for want of a better rule, by mass and temperature; shrimps, crayfish and crabs by
    the shrimps' rule; snails and mussels as a share of a fish of their soft mass.
    """
    if group.mass_g is None:
        return None
    rate = {
        "shrimp": respiration.shrimp,
        "crayfish": respiration.shrimp,
        "crab": respiration.shrimp,
        "snail": respiration.snail,
        "bivalve": respiration.snail,
    }.get(group.species.kind, respiration.fish)
    low, value, high = (rate(mass, temperature_c) * group.count for mass in group.mass_g)
    return Interval(low, value, high)


def breath_figures(facts: Facts, table: Table) -> dict[str, Figure]:
    """Oxygen figures; none where volume, surface or temperature is unknown.

    Dawn starts from the evening: the steady state of the lit day, at most saturation, in which plants give
    off some times what they use at night.  A power cut starts at lights-off too, with the surface still and
    the filter's bacteria cut off.
    """
    litres = facts.figures.get("net_volume_l")
    surface = facts.figures.get("surface_cm2")
    if litres is None or surface is None or facts.temperature_c is None or facts.floor_cm2 is None:
        return {}
    uptakes = {
        group.entry.where: (group, uptake)
        for group in facts.groups
        if (uptake := animal_uptake(group, facts.temperature_c))
    }
    animals = _sum([uptake for _, uptake in uptakes.values()])
    by_air = sum(uptake.value for group, uptake in uptakes.values() if group.species.air_breather)
    setting = _setting(facts, surface.interval.value, by_air / animals.value if animals.value else 0.0)
    inputs = _inputs(facts, table, setting, litres.interval, animals)

    def model(x: Mapping[str, float]) -> dict[str, float]:
        return b.night_and_outage(setting, x)

    results, influences = propagate(model, inputs)
    point = {name: interval.value for name, interval in inputs.items()}
    saturation = oxygen.saturation(setting.temperature_c)
    figures = {
        "oxygen_saturation_mg_per_l": Figure(
            "oxygen_saturation_mg_per_l",
            say("oxygen that the water can hold"),
            Interval.exact(saturation),
            "mg/L",
            [],
            given([saturation_step(setting.temperature_c)]),
        )
    }
    steps = Steps(lambda: breath_steps(setting, point, list(uptakes.values())))
    for name, (label, unit) in _LABELS.items():
        if name in results:
            most = saturation if unit == "mg/L" else b.HORIZON if unit == "h" else float("inf")
            interval = Interval(*(min(most, max(0.0, end)) for end in results[name]))
            figures[name] = Figure(name, label, interval, unit, influences[name], steps.of(name))
    return figures


def _sum(intervals: list[Interval]) -> Interval:
    """Sum of independent intervals, ends in quadrature."""
    value = sum(interval.value for interval in intervals)
    fall = hypot(*(interval.value - interval.low for interval in intervals))
    rise = hypot(*(interval.high - interval.value for interval in intervals))
    return Interval(value - fall, value, value + rise)


def _setting(facts: Facts, surface_cm2: float, air_share: float) -> b.Setting:
    plan = facts.plan
    temperature, floor = facts.temperature_c, facts.floor_cm2
    assert temperature is not None and floor is not None
    floating = [planting.species.habit == "floating" for planting in facts.plantings]
    covers = [planting.entry.cover for planting in facts.plantings]
    floaters = min(1.0, sum(cover for cover, floats in zip(covers, floating, strict=True) if floats))
    rooted = sum(cover for cover, floats in zip(covers, floating, strict=True) if not floats)
    room = plan.room.high_c
    return b.Setting(
        temperature_c=temperature,
        hot_c=room if room is not None and room > temperature else None,
        surface_cm2=surface_cm2,
        floor_cm2=floor,
        stone=plan.air_stone,
        dark_hours=HOURS_PER_DAY - plan.light.hours,
        plant_cover_cm2=rooted * floor + floaters * surface_cm2 * respiration.FLOATER_IN_WATER,
        floater_share=floaters,
        air_share=air_share,
    )


def _inputs(
    facts: Facts, table: Table, setting: b.Setting, litres: Interval, animals: Interval
) -> dict[str, Interval]:
    """The uncertain inputs; those that play no part in this plan keep their middle, which costs nothing."""
    plan = facts.plan
    planted, floating = setting.plant_cover_cm2 > 0, setting.floater_share > 0
    still = oxygen.STILL_UNDER_LID if plan.tank.lid else oxygen.STILL
    moved = plan.filter.surface if plan.filter else "still"
    inputs = {
        b.TRANSFER: (still if moved == "still" else _SURFACES[moved]).interval,
        b.STILL: still.interval,
        b.VOLUME: litres,
        b.FLOOR: _floor_demand(facts, table),
        b.MASS: animals,
        b.SPECIES: respiration.SPECIES_SPREAD.interval,
        b.WARMTH: _if(setting.hot_c is not None, respiration.WARMING_WITHIN),
        b.AIR: _if(setting.air_share > 0, respiration.AIR_SHARE),
        b.STONE: _if(setting.stone, oxygen.AIR_STONE),
        b.FLOATERS: _if(floating, oxygen.FLOATER_SCREEN),
        b.PLANT_MASS: _if(planted, respiration.PLANT_MASS),
        b.PLANT_RATE: _if(planted, respiration.PLANT_RATE),
        b.LIGHT: _if(planted, respiration.PLANT_GAIN),
    }
    nitrified, feed = facts.figures.get("nitrified_mg_per_day"), facts.figures.get("feed_g_per_day")
    inputs[b.BACTERIA] = (
        nitrified.interval.scaled(respiration.nitrification(1.0)) if nitrified else Interval.exact(0.0)
    )
    inputs[b.DECAY] = feed.interval.scaled(respiration.decay(1.0)) if feed else Interval.exact(0.0)
    return inputs


def _if(plays: bool, constant: Constant) -> Interval:
    return constant.interval if plays else Interval.exact(constant)


def _floor_demand(facts: Facts, table: Table) -> Interval:
    """Oxygen demand of the hungriest layer, mg/m2/h; a bare floor has a film too thin to count."""
    layers = [table.material("substrates", layer.kind) for layer in facts.plan.tank.substrate]
    demands = [Interval(*layer.properties["oxygen_demand_mg_m2_h"]) for layer in layers if layer]
    return max(demands, key=lambda demand: demand.value, default=Interval.exact(0.0))
