"""The nitrogen of one tank as a pure function: from animals, feed, media, plants and water changes to what
is left.

``Setting`` holds what the plan fixes, the inputs what is uncertain; ``nitrogen_flow`` is run by
``propagate``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from stockcheck.language import say
from stockcheck.physics.alkalinity import DAYS_PER_WEEK, kh_use_per_week
from stockcheck.physics.ammonia import NO3_PER_N, un_ionised_fraction
from stockcheck.physics.carbonate import co2_mg_per_l
from stockcheck.physics.feeding import DRY_MATTER, feed_g_per_day
from stockcheck.physics.nitrate import NO_CHANGE_DAYS, Sawtooth, sawtooth
from stockcheck.physics.nitrification import (
    at_temperature,
    clearance,
    oxygen_cap,
    steady_tan,
    through_flow,
)
from stockcheck.physics.nitrogen import nitrogen_in_feed, solids, tan_from_feed
from stockcheck.physics.oxygen import saturation
from stockcheck.physics.uptake import HALF_SATURATION, day_rise_of_pH
from stockcheck.physics.uptake import at_temperature as plant_warmth

# Names of the uncertain inputs, as a reader of the report sees them.
VOLUME = say("water volume")
TEMPERATURE = say("water temperature")
FEED_GIVEN = say("feed given")
OWN_FEED = say("weighing of the feed")
PROTEIN = say("protein in the feed")
MOISTURE = say("water in the feed")
EXCRETED = say("ammonia excreted per protein eaten")
UNEATEN = say("feed left uneaten")
RELEASED = say("nitrogen not kept as growth or siphoned off")
MEDIA_RATE = say("areal rate of the media")
FIRST_RATE = say("rate lost to dirt in the first medium")
FLOW = say("real flow of the filter")
SURFACE_RATE = say("bacteria on glass, gravel and leaves")
PLANTS = say("uptake of the plants")
NITRITE_SPEED = say("speed of the nitrite oxidisers")
GAS = say("nitrate turned to gas")
TAP = say("nitrate of the tap water")
KH_PER_N = say("hardness used per nitrogen")
PH = "pH"
DRAWDOWN = say("CO2 that plants draw from the water by day")
OXYGEN_SHARE = say("oxygen reaching the filter")


@dataclass(frozen=True, slots=True)
class Feeder:
    """Animals of one entry: the input that holds one's adult mass, how many, their kind; its mass today if
    less."""

    mass: str
    count: int
    kind: str
    where: str = ""
    mass_now: str | None = None


@dataclass(frozen=True, slots=True)
class Stand:
    """Plants of one entry: their name, class of ``UPTAKE``, cover in m2, uptake in mg N/day at 25 degC."""

    name: str
    kind: str
    cover_m2: float
    uptake: float


@dataclass(frozen=True, slots=True)
class Setting:
    """What the plan fixes.

    Parameters
    ----------
    feeders : tuple of Feeder
    own_feed_g : float or None
        The keeper's grams a day, as the feed is sold; else the animals' ration.
    media : tuple of str
        Inputs that hold the effective area of each medium, m2, in order of flow.
    surfaces_m2 : float
        Glass, bed and leaves, as smooth wall.
    stands : tuple of Stand
    change, every_days : float
        Share of the water changed, and how often; 0 for none.
    start_nitrate : float
        mg/L now, where no water is changed.
    tan_limit : float
        mg N/L at which the capacity is quoted.
    pH : float or None
    kh_dkh : float or None
        For the day's swing of pH; not used where CO2 is added, which holds it.
    """

    feeders: tuple[Feeder, ...]
    own_feed_g: float | None
    media: tuple[str, ...]
    surfaces_m2: float
    stands: tuple[Stand, ...]
    change: float
    every_days: float
    start_nitrate: float | None
    tan_limit: float
    pH: float | None
    kh_dkh: float | None


def nitrogen_flow(setting: Setting, v: Mapping[str, float]) -> dict[str, float]:
    """Feed to nitrate, all per day and mg N unless the name says otherwise."""
    results = _from_feed(setting, v)
    results |= _removal(setting, v, results["load"])
    results |= _to_nitrate(setting, v, results)
    if setting.pH is not None:
        rise = _pH_rise(setting, v, results["plants_most"])
        share = un_ionised_fraction(v[PH] + rise, v[TEMPERATURE])
        results |= {"pH_rise": rise, "nh3": results["tan"] * share}
    return results


def _from_feed(setting: Setting, v: Mapping[str, float]) -> dict[str, float]:
    """Feed, g/day, and the nitrogen and solids that come of it."""
    feed, uneaten = _feed(setting, v), v[UNEATEN]
    in_feed = nitrogen_in_feed(feed, v[PROTEIN])
    rotting = in_feed * uneaten
    excreted = tan_from_feed(feed * (1 - uneaten), v[PROTEIN], v[EXCRETED])
    load = excreted + rotting
    results = {
        "feed": feed,
        "in_feed": in_feed,
        "excreted": excreted,
        "rotting": rotting,
        "load": load,
        "released": max(load, rotting + in_feed * (1 - uneaten) * v[RELEASED]),
        "solids": solids(feed * (1 - v[MOISTURE]), uneaten),
    }
    if setting.own_feed_g is not None:
        results["ration"] = _ration(setting, v)
    if any(feeder.mass_now for feeder in setting.feeders):
        results["load_now"] = load * _feed(setting, v, today=True) / feed if feed > 0 else 0.0
    return results


def _removal(setting: Setting, v: Mapping[str, float], load: float) -> dict[str, float]:
    """Clearances, L/day, and the TAN and nitrite at which what they remove equals the load, mg/L."""
    temperature, half, limit = v[TEMPERATURE], HALF_SATURATION, setting.tan_limit
    warmth = at_temperature(temperature)
    media, cap = _filter(setting, v, temperature, warmth)
    walls = clearance(setting.surfaces_m2, v[SURFACE_RATE] * warmth)
    exchange = v[VOLUME] * setting.change / setting.every_days
    plants = sum(stand.uptake for stand in setting.stands) * v.get(PLANTS, 1.0) * plant_warmth(temperature)
    tan = steady_tan(load, media, walls + exchange, plants, half, cap)
    by_media, by_walls = min(media * tan, cap), walls * tan
    results = {
        "temperature": temperature,
        "media_clearance": media,
        "walls_clearance": walls,
        "exchange": exchange,
        "plants_most": plants,
        "capacity": min(media * limit, cap) + walls * limit + plants * limit / (half + limit),
        "tan": tan,
        "by_media": by_media,
        "by_walls": by_walls,
        "tan_to_plants": plants * tan / (half + tan),
        "nitrite_speed": v[NITRITE_SPEED],
        "nitrite": (by_media + by_walls) / (v[NITRITE_SPEED] * (media + walls) + exchange),
    }
    if setting.media:
        results |= {"flow_cap": v[FLOW] * limit, "oxygen_cap": cap}
    return results


def _to_nitrate(setting: Setting, v: Mapping[str, float], r: Mapping[str, float]) -> dict[str, float]:
    """What becomes nitrate and where it goes; nitrate itself in mg/L."""
    volume, wanted = v[VOLUME], r["plants_most"] - r["tan_to_plants"]
    made = max(0.0, r["released"] - r["tan_to_plants"] - r["exchange"] * (r["tan"] + r["nitrite"]))
    gas = made * v[GAS]
    saw, to_plants, gain = _sawtooth(setting, v, made - gas, wanted)
    return {
        "to_nitrate": made,
        "gas": gas,
        "nitrate_wanted": wanted,
        "nitrate_to_plants": to_plants,
        "plants": r["tan_to_plants"] + to_plants,
        "gain_per_week": gain * DAYS_PER_WEEK,
        "before": saw.before,
        "after": saw.after,
        "peak": saw.peak,
        "trough": saw.trough,
        "kh_use": kh_use_per_week(made, gas + to_plants, volume, v[KH_PER_N]),
    }


def _pH_rise(setting: Setting, v: Mapping[str, float], plants: float) -> float:
    if setting.kh_dkh is None or plants <= 0:
        return 0.0
    co2 = co2_mg_per_l(setting.kh_dkh, v[PH], v[TEMPERATURE])
    return day_rise_of_pH(plants, v[VOLUME], co2, v[DRAWDOWN])


def _feed(setting: Setting, v: Mapping[str, float], today: bool = False) -> float:
    """Feed as sold, g/day."""
    if setting.own_feed_g is not None:
        return setting.own_feed_g * v[OWN_FEED]
    return _ration(setting, v, today)


def _ration(setting: Setting, v: Mapping[str, float], today: bool = False) -> float:
    """The animals' ration, g/day: dry matter as of dry feed, so ten times the mass of a frozen one."""
    dry_feed = 0.0
    for feeder in setting.feeders:
        mass = v[feeder.mass_now] if today and feeder.mass_now else v[feeder.mass]
        dry_feed += feed_g_per_day(mass, feeder.count, feeder.kind, v[TEMPERATURE])
    return dry_feed * v[FEED_GIVEN] * DRY_MATTER / (1 - v[MOISTURE])


def _filter(
    setting: Setting, v: Mapping[str, float], temperature: float, warmth: float
) -> tuple[float, float]:
    """Clearance of the media in their flow, L/day, and the most their oxygen allows, mg N/day."""
    if not setting.media:
        return 0.0, 0.0
    rate = v[MEDIA_RATE] * warmth
    rates = [rate * v[FIRST_RATE], *([rate] * (len(setting.media) - 1))]
    clearances = [clearance(v[area], speed) for area, speed in zip(setting.media, rates, strict=True)]
    oxygen = saturation(temperature) * v[OXYGEN_SHARE]
    return through_flow(clearances, v[FLOW]), oxygen_cap(v[FLOW], oxygen)


def _sawtooth(
    setting: Setting, v: Mapping[str, float], made: float, wanted: float
) -> tuple[Sawtooth, float, float]:
    """The sawtooth, mg/L as nitrate; what plants get of it, mg N/day; the gain, mg/L/day."""
    volume = v[VOLUME]
    gain = (made - wanted) / volume * NO3_PER_N
    if setting.change <= 0:
        start = v[TAP] if setting.start_nitrate is None else setting.start_nitrate
        end = max(0.0, start + gain * NO_CHANGE_DAYS)
        there = made + start / NO3_PER_N * volume / NO_CHANGE_DAYS
        return Sawtooth(end, start), min(wanted, there), gain
    saw = sawtooth(gain * setting.every_days, setting.change, v[TAP])
    brought = setting.change * (v[TAP] - saw.before) / NO3_PER_N * volume / setting.every_days
    return saw, max(0.0, min(wanted, made + brought)), gain
