"""From facts and the table to the setting and the uncertain inputs of the nitrogen model."""

from __future__ import annotations

from math import exp, hypot, log
from typing import TYPE_CHECKING

from stockcheck.facts import waste_model as w
from stockcheck.facts.model import Facts, Planting
from stockcheck.language import say
from stockcheck.physics.alkalinity import KH_PER_N
from stockcheck.physics.ammonia import NH3_AIM, un_ionised_fraction
from stockcheck.physics.feeding import OWN_WEIGHING, RATION_AT_1_G
from stockcheck.physics.nitrate import DENITRIFIED_SHARE, TAP_UNKNOWN
from stockcheck.physics.nitrification import (
    AREAL_RATE,
    BED_PER_FLOOR,
    CAPACITY_TAN,
    FIRST_MEDIUM,
    FLOW_CLOGGED,
    FLOW_IN_USE,
    NITRITE_SPEED,
    OXYGEN_SHARE,
    SURFACE_RATE,
)
from stockcheck.physics.nitrogen import RELEASED_SHARE, TAN_PER_PROTEIN
from stockcheck.physics.quantity import Constant, Interval
from stockcheck.physics.uptake import DRAWDOWN, LEAF_AREA, LIGHT, UPTAKE, plant_class, uptake
from stockcheck.plan.model import Media
from stockcheck.table.model import Material

if TYPE_CHECKING:
    from stockcheck.table.read import Table

_PRACTICE = "common practice, no source"
PH_READING = Constant(0.0, "1", f"{_PRACTICE}: drop tests and probes of a home", -0.2, 0.2)
TEMPERATURE_READING = Constant(
    0.0, "K", f"{_PRACTICE}: a tank over its day, a thermometer of a home", -1.0, 1.0
)
TEMPERATURE_UNKNOWN = Constant(
    24.0, "degC", f"{_PRACTICE}: a heated tank of which nothing else is known", 21.0, 27.0
)
NITRATE_READING = Constant(1.0, "1", f"{_PRACTICE}: a drop test or the water supplier's figure", 0.8, 1.25)
CM2_PER_M2 = Constant(1e4, "cm2/m2", "definition")
CM3_PER_L = Constant(1000.0, "cm3/L", "definition of the litre")
HOURS_PER_DAY = Constant(24.0, "h/day", "definition")
#: 8 (V/2)^(2/3) for an open box of 2 : 1 : 1.
WET_WALLS = Constant(
    0.0504, "m2/L^(2/3)", "geometry: floor and walls of a box of 2 : 1 : 1, for a tank without measures"
)
TWO_THIRDS = Constant(2 / 3, "1", "geometry")


def product(*factors: Interval) -> Interval:
    """The product of independent positive intervals, in logarithms."""
    value = low = high = 1.0
    for factor in factors:
        value *= factor.value
    low = hypot(*(log(factor.value / factor.low) for factor in factors))
    high = hypot(*(log(factor.high / factor.value) for factor in factors))
    return Interval(value * exp(-low), value, value * exp(high))


def setting_and_inputs(facts: Facts, table: Table) -> tuple[w.Setting, dict[str, Interval]] | None:
    """What ``nitrogen_flow`` needs; ``None`` where the water volume is not known."""
    volume = facts.figures.get("net_volume_l")
    if volume is None:
        return None
    plan = facts.plan
    temperature = _temperature(facts)
    inputs: dict[str, Interval] = {w.VOLUME: volume.interval, w.TEMPERATURE: temperature}
    feeders = _feeders(facts, inputs)
    _feed_inputs(facts, table, inputs)
    media = _media_inputs(facts, table, inputs)
    surfaces = _surfaces_m2(facts, volume.interval.value)
    inputs[w.SURFACE_RATE] = SURFACE_RATE.interval
    stands = _stands(facts, inputs)
    inputs[w.NITRITE_SPEED] = NITRITE_SPEED.interval
    inputs[w.GAS] = DENITRIFIED_SHARE.interval
    inputs[w.TAP] = _tap(plan.tap.nitrate_mg_l)
    inputs[w.KH_PER_N] = KH_PER_N.interval
    pH = plan.water.pH
    if pH is not None:
        inputs[w.PH] = Interval(pH + PH_READING.low, pH, pH + PH_READING.high)
    changing = plan.routine.water_change > 0 and plan.routine.every_days > 0
    setting = w.Setting(
        feeders=feeders,
        own_feed_g=plan.feeding.g_per_day,
        media=media,
        surfaces_m2=surfaces,
        stands=stands,
        change=plan.routine.water_change if changing else 0.0,
        every_days=plan.routine.every_days if changing else 1.0,
        start_nitrate=plan.water.nitrate_mg_l,
        tan_limit=tan_limit(pH, temperature.value),
        pH=pH,
        kh_dkh=None if plan.light.co2 or plan.water.humic else plan.water.KH_dkh,
    )
    return setting, inputs


def tan_limit(pH: float | None, temperature_c: float) -> float:
    """The TAN at which a capacity is quoted: what a test kit shows, or less where ammonia would pass its aim
    first."""
    if pH is None:
        return float(CAPACITY_TAN)
    return min(float(CAPACITY_TAN), NH3_AIM / un_ionised_fraction(pH, temperature_c))


def _temperature(facts: Facts) -> Interval:
    if facts.temperature_c is None:
        return TEMPERATURE_UNKNOWN.interval
    t = facts.temperature_c
    return Interval(t + TEMPERATURE_READING.low, t, t + TEMPERATURE_READING.high)


def _feeders(facts: Facts, inputs: dict[str, Interval]) -> tuple[w.Feeder, ...]:
    feeders = []
    for group in facts.groups:
        if group.mass_g is None or not group.count:
            continue
        name = say("mass of one {scientific_name}", scientific_name=group.species.scientific_name)
        if name in inputs:
            name = f"{name} ({group.entry.where})"
        inputs[name] = group.mass_g
        now = None
        if group.mass_now_g is not None and group.mass_now_g != group.mass_g:
            now = say("{name} today", name=name)
            inputs[now] = group.mass_now_g
        feeders.append(w.Feeder(name, group.count, group.species.kind, group.entry.where, now))
    return tuple(feeders)


def _feed_inputs(facts: Facts, table: Table, inputs: dict[str, Interval]) -> None:
    feed = feed_material(facts, table)
    inputs[w.FEED_GIVEN] = RATION_AT_1_G.interval.scaled(1 / RATION_AT_1_G)
    if facts.plan.feeding.g_per_day is not None:
        inputs[w.OWN_FEED] = OWN_WEIGHING.interval
    inputs[w.PROTEIN] = Interval(*feed.properties["protein_share"])
    inputs[w.MOISTURE] = Interval(*feed.properties["moisture_share"])
    inputs[w.UNEATEN] = Interval(*feed.properties["uneaten_share"])
    inputs[w.EXCRETED] = TAN_PER_PROTEIN.interval
    inputs[w.RELEASED] = RELEASED_SHARE.interval


def feed_material(facts: Facts, table: Table) -> Material:
    feed = table.material("feeds", facts.plan.feeding.feed)
    if feed is None:
        raise KeyError(f"no feed {facts.plan.feeding.feed!r} in the table")
    return feed


def _media_inputs(facts: Facts, table: Table, inputs: dict[str, Interval]) -> tuple[str, ...]:
    """Inputs of a filter with its media; a filter of which no media are listed counts for nothing."""
    box = facts.plan.filter
    if box is None:
        return ()
    names = []
    for place, medium in enumerate(box.media, 1):
        area = _medium_area(medium, table)
        if area is None:
            continue
        name = say("surface of {kind}", kind=medium.kind)
        if name in inputs:
            name = f"{name} ({place})"
        inputs[name] = area
        names.append(name)
    if names:
        inputs[w.MEDIA_RATE] = AREAL_RATE.interval
        inputs[w.FIRST_RATE] = FIRST_MEDIUM.interval
        inputs[w.OXYGEN_SHARE] = OXYGEN_SHARE.interval
        clogged = any(medium.state == "clogged" for medium in box.media)
        flow = product(FLOW_IN_USE.interval, FLOW_CLOGGED.interval) if clogged else FLOW_IN_USE.interval
        inputs[w.FLOW] = flow.scaled(box.flow_l_h * HOURS_PER_DAY)
    return tuple(names)


def _medium_area(medium: Media, table: Table) -> Interval | None:
    """Effective surface of one medium, m2, by its volume (or mass over bulk density) and its state."""
    material = table.material("media", medium.kind)
    if material is None:
        return None
    known = {name: Interval(*ends) for name, ends in material.properties.items()}
    factors = [known["specific_surface_m2_m3"].scaled(1 / CM3_PER_L)]
    if medium.state != "clean":
        factors.append(known["share_clogged" if medium.state == "clogged" else "share_in_use"])
    if medium.volume_l is not None:
        return product(*factors).scaled(medium.volume_l)
    if medium.mass_kg is None:
        return None
    density = known["bulk_density_kg_l"]
    per_kg = Interval(1 / density.high, 1 / density.value, 1 / density.low)
    return product(*factors, per_kg).scaled(medium.mass_kg)


def _surfaces_m2(facts: Facts, volume_l: float) -> float:
    """Glass, bed and leaves as so much smooth wall, m2."""
    return _walls_m2(facts, volume_l) + sum(
        cover_m2(planting, facts, volume_l) * LEAF_AREA for planting in facts.plantings
    )


def _walls_m2(facts: Facts, volume_l: float) -> float:
    floor = facts.floor_cm2
    if not floor or not facts.length_cm:
        return float(WET_WALLS * volume_l**TWO_THIRDS)
    depth = volume_l * CM3_PER_L / floor
    panes = 2 * (facts.length_cm + floor / facts.length_cm) * depth
    bed = BED_PER_FLOOR if facts.plan.tank.substrate else 1
    return (panes + floor * bed) / CM2_PER_M2


def cover_m2(planting: Planting, facts: Facts, volume_l: float) -> float:
    """Floor that a planting covers, or surface when it floats, m2."""
    floor = facts.floor_cm2 or WET_WALLS * volume_l**TWO_THIRDS * CM2_PER_M2 / (2 * 2)
    surface = facts.figures.get("surface_cm2")
    floats = planting.species.habit == "floating" and surface is not None
    return planting.entry.cover * (surface.interval.value if floats and surface else floor) / CM2_PER_M2


def _stands(facts: Facts, inputs: dict[str, Interval]) -> tuple[w.Stand, ...]:
    """What each planting takes; their spread goes in as one factor, classes of plants together."""
    light, volume = facts.plan.light, inputs[w.VOLUME].value
    stands, low, high = [], 0.0, 0.0
    for planting in facts.plantings:
        kind = plant_class(planting.species.habit, planting.species.growth)
        cover = cover_m2(planting, facts, volume)
        taken = uptake(kind, cover, light.level, light.hours, light.co2)
        spread = product(UPTAKE[kind].interval, LIGHT[light.level].interval)
        stands.append(w.Stand(planting.species.scientific_name, kind, cover, taken))
        low += taken * spread.low / spread.value
        high += taken * spread.high / spread.value
    total = sum(stand.uptake for stand in stands)
    if total <= 0:
        return ()
    inputs[w.PLANTS] = Interval(low / total, 1.0, high / total)
    inputs[w.DRAWDOWN] = DRAWDOWN.interval
    return tuple(stands)


def _tap(nitrate_mg_l: float | None) -> Interval:
    if nitrate_mg_l is None:
        return TAP_UNKNOWN.interval
    return NITRATE_READING.interval.scaled(nitrate_mg_l)
