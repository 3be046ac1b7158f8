"""What a tank loses to its room, what a heater can do about it, and what a heater that fails does.

Panes lose heat through the water film, the glass, and the room's film of rising air and radiation.  An open
surface also evaporates, which often costs more than all panes together, and goes on at equal temperatures.
Temperatures are degC, lengths cm, powers W.
"""

from __future__ import annotations

from math import log
from typing import NamedTuple

from stockcheck.physics.quantity import Constant
from stockcheck.physics.water import HEAT_CAPACITY, KELVIN, density, evaporation, latent_heat

_AIR = "from memory: dry air at 300 K and 1 atm, Incropera & DeWitt table A.4"
AIR_CONDUCTIVITY = Constant(0.0260, "W/m/K", _AIR)
AIR_VISCOSITY = Constant(1.57e-5, "m2/s", _AIR)
AIR_DIFFUSIVITY = Constant(2.22e-5, "m2/s", _AIR)
AIR_PRANDTL = Constant(0.707, "1", _AIR)
GRAVITY = Constant(9.80665, "m/s2", "definition of standard gravity")

_CHURCHILL = "Churchill & Chu 1975, vertical plate"
CHURCHILL_BASE = Constant(0.825, "1", _CHURCHILL)
CHURCHILL_FACTOR = Constant(0.387, "1", _CHURCHILL)
CHURCHILL_POWER = Constant(1 / 6, "1", _CHURCHILL)
CHURCHILL_PRANDTL = Constant(0.492, "1", _CHURCHILL)
CHURCHILL_INNER = Constant(9 / 16, "1", _CHURCHILL)
CHURCHILL_OUTER = Constant(8 / 27, "1", _CHURCHILL)
_MCADAMS = "McAdams 1954, warm horizontal plate facing up"
MCADAMS_LAMINAR = Constant(0.54, "1", _MCADAMS)
MCADAMS_LAMINAR_POWER = Constant(1 / 4, "1", _MCADAMS)
MCADAMS_TURBULENT = Constant(0.15, "1", _MCADAMS)
MCADAMS_TURBULENT_POWER = Constant(1 / 3, "1", _MCADAMS)
MCADAMS_LIMIT = Constant(1e7, "1", _MCADAMS)

STEFAN_BOLTZMANN = Constant(5.670374419e-8, "W/m2/K4", "CODATA 2018")
GLASS_EMISSIVITY = Constant(0.84, "1", "EN 673, uncoated glass")
WATER_EMISSIVITY = Constant(0.95, "1", "from memory: water")
GLASS_CONDUCTIVITY = Constant(1.0, "W/m/K", "EN 673, soda-lime glass")
WATER_FILM = Constant(200.0, "W/m2/K", "common practice, no source: still water on a pane", 100.0, 300.0)
#: A wall behind the back pane, air trapped in a hood, a draught: loss over that of free panes in still air.
SITING = Constant(1.0, "1", "whole-tank balances span 0.28 to 0.45 around 0.40 W/K per L^(2/3)", 0.70, 1.12)
BASE = Constant(1.6, "W/m2/K", "common practice, no source: glass on foam and wood, cabinet below", 0.8, 2.5)
#: Under a lid vapour condenses on the glass and ties it closely to the water.
UNDER_LID = Constant(20.0, "W/m2/K", "common practice, no source: condensing film and radiation", 10.0, 40.0)
LID_GLASS = Constant(4.0, "mm", "common practice, no source")
LID_LEAK = Constant(0.12, "1", "common practice, no source: open evaporation that gets past a lid", 0.05, 0.3)
OPEN = Constant(1.0, "1", "spread between Shah 2014 and 0.74 of the ASHRAE formula", 0.75, 1.3)
RULE_WITH_LID = Constant(0.40, "W/K per L^(2/3)", "fit of whole-tank balances, glass lid", 0.28, 0.45)
RULE_OPEN = Constant(
    0.73, "W/K per L^(2/3)", "fit of whole-tank balances, open top, 50 % humidity", 0.55, 0.90
)
TWO_THIRDS = Constant(2 / 3, "1", "surface goes with volume to the two thirds")

CM_PER_M = Constant(100.0, "cm/m", "definition")
MM_PER_M = Constant(1000.0, "mm/m", "definition")
LITRES_PER_M3 = Constant(1000.0, "L/m3", "definition")
SECONDS_PER_HOUR = Constant(3600.0, "s/h", "definition")
JOULES_PER_KJ = Constant(1000.0, "J/kJ", "definition")
SECANT_STEPS = Constant(24.0, "1", "numerical choice: far more than a nearly straight line needs")
HOTTEST = Constant(90.0, "degC", "limit of the vapour relation; nothing is alive long before")
FIRST_LOSS = Constant(7.0, "W/m2/K", "first guess of the iteration: loss over the whole outside")
SECANT_END = Constant(1e-2, "W", "numerical choice: a thousandth of a degree")
FILM_SHARE = Constant(0.8, "1", "first guess of the iteration: share of the difference over the air film")


class Vessel(NamedTuple):
    """What loses heat: inside length and width, water height, pane thickness, lid or none."""

    length_cm: float
    width_cm: float
    water_height_cm: float
    glass_mm: float
    lid: bool

    @property
    def sides_m2(self) -> float:
        return 2 * (self.length_cm + self.width_cm) * self.water_height_cm / CM_PER_M**2

    @property
    def floor_m2(self) -> float:
        return self.length_cm * self.width_cm / CM_PER_M**2


def radiation_film(surface_c: float, room_c: float, emissivity: float = GLASS_EMISSIVITY) -> float:
    """Radiative film coefficient of a surface in a room, W/m2/K, from the fourth-power law."""
    surface, room = surface_c + KELVIN, room_c + KELVIN
    return emissivity * STEFAN_BOLTZMANN * (surface**2 + room**2) * (surface + room)


_BUOYANCY = float(GRAVITY / (AIR_VISCOSITY * AIR_DIFFUSIVITY))


def rayleigh(difference_k: float, room_c: float, size_m: float) -> float:
    """Rayleigh number of room air along a surface."""
    expansion = 1 / (room_c + difference_k / 2 + KELVIN)
    cube = size_m * size_m * size_m
    return _BUOYANCY * expansion * abs(difference_k) * cube


_PRANDTL_TERM = (1 + (CHURCHILL_PRANDTL / AIR_PRANDTL) ** CHURCHILL_INNER) ** CHURCHILL_OUTER


def vertical_film(difference_k: float, room_c: float, height_m: float) -> float:
    """Natural convection from a pane to still air, W/m2/K (Churchill & Chu 1975)."""
    rise = CHURCHILL_FACTOR * rayleigh(difference_k, room_c, height_m) ** CHURCHILL_POWER / _PRANDTL_TERM
    return float((CHURCHILL_BASE + rise) ** 2 * AIR_CONDUCTIVITY / height_m)


def horizontal_film(difference_k: float, room_c: float, size_m: float) -> float:
    """Natural convection from a warm surface facing up, W/m2/K; ``size_m`` is its area over its rim."""
    number = rayleigh(difference_k, room_c, size_m)
    if number < MCADAMS_LIMIT:
        nusselt = MCADAMS_LAMINAR * number**MCADAMS_LAMINAR_POWER
    else:
        nusselt = MCADAMS_TURBULENT * number**MCADAMS_TURBULENT_POWER
    return float(nusselt * AIR_CONDUCTIVITY / size_m)


def pane_u(
    water_c: float, room_c: float, height_cm: float, glass_mm: float, water_film: float = WATER_FILM
) -> float:
    """Heat passed by a free upright pane from water to still room air, W/m2/K.

    7.1, 7.0 and 6.9 for 6, 8 and 10 mm at 5 K.  Catalogue values of single glazing (5.75) hold an outdoor
    film besides and mislead here.
    """
    inside = 1 / water_film + glass_mm / MM_PER_M / GLASS_CONDUCTIVITY
    difference = water_c - room_c
    share: float = FILM_SHARE
    for _ in range(2):
        surface = room_c + share * difference
        film = vertical_film(share * difference, room_c, height_cm / CM_PER_M) + radiation_film(
            surface, room_c
        )
        share = 1 / film / (inside + 1 / film)
    return 1 / (inside + 1 / film)


def surface_loss(water_c: float, room_c: float, humidity: float, vessel: Vessel, evaporating: float) -> float:
    """Loss through the top, W: open water, or a glass lid; ``evaporating`` scales the open evaporation."""
    area = vessel.floor_m2
    difference = water_c - room_c
    size = area * CM_PER_M / (2 * (vessel.length_cm + vessel.width_cm))
    if vessel.lid:
        inside = 1 / UNDER_LID + LID_GLASS / MM_PER_M / GLASS_CONDUCTIVITY
        lid = FILM_SHARE * difference
        film = horizontal_film(lid, room_c, size) + radiation_film(room_c + lid, room_c)
        dry = difference / (inside + 1 / film)
    else:
        film = horizontal_film(difference, room_c, size) + radiation_film(water_c, room_c, WATER_EMISSIVITY)
        dry = difference * film
    return area * dry + evaporation_loss(water_c, room_c, humidity, area, evaporating)


def evaporation_loss(water_c: float, room_c: float, humidity: float, area_m2: float, scale: float) -> float:
    """Heat that evaporation takes, W."""
    per_hour = evaporation(water_c, room_c, humidity) * area_m2 * scale
    return per_hour * latent_heat(water_c) * JOULES_PER_KJ / SECONDS_PER_HOUR


def evaporation_scale(lid: bool) -> Constant:
    """How much of the open evaporation there is."""
    return LID_LEAK if lid else OPEN


def loss(
    water_c: float,
    room_c: float,
    vessel: Vessel,
    humidity: float,
    siting: float = SITING,
    evaporating: float | None = None,
) -> float:
    """Heat that a tank loses to its room, W (a gain is negative).

    Parameters
    ----------
    water_c, room_c : float
        degC.
    vessel : Vessel
    humidity : float
        Of the room, 0 to 1.
    siting : float
        Factor on panes and base for a wall behind, trapped air or a draught.
    evaporating : float, optional
        Factor on the evaporation of an open surface; by the lid when left out.
    """
    scale = evaporation_scale(vessel.lid) if evaporating is None else evaporating
    sides = pane_u(water_c, room_c, vessel.water_height_cm, vessel.glass_mm) * vessel.sides_m2
    dry = (sides + BASE * vessel.floor_m2) * (water_c - room_c) * siting
    return dry + surface_loss(water_c, room_c, humidity, vessel, scale)


def per_kelvin(
    water_c: float,
    room_c: float,
    vessel: Vessel,
    humidity: float,
    siting: float = SITING,
    evaporating: float | None = None,
) -> float:
    """Slope of the loss with the water's temperature, W/K."""
    above = loss(water_c + 1, room_c, vessel, humidity, siting, evaporating)
    return above - loss(water_c, room_c, vessel, humidity, siting, evaporating)


def held_temperature(
    power_w: float,
    room_c: float,
    vessel: Vessel,
    humidity: float,
    siting: float = SITING,
    evaporating: float | None = None,
) -> float:
    """Temperature at which a constant power balances the loss, degC, 90 at most (secant steps).

    Without power an open tank ends below its room: evaporation cools it.
    """

    def surplus(water_c: float) -> float:
        return power_w - loss(water_c, room_c, vessel, humidity, siting, evaporating)

    first, at_first = room_c, surplus(room_c)
    guess = room_c + at_first / (FIRST_LOSS * (vessel.sides_m2 + 2 * vessel.floor_m2))
    second = min(HOTTEST, guess)
    at_second = surplus(second)
    for _ in range(int(SECANT_STEPS)):
        if abs(at_second) < SECANT_END or at_second == at_first:
            break
        third = min(HOTTEST, second - at_second * (second - first) / (at_second - at_first))
        first, at_first, second, at_second = second, at_second, third, surplus(third)
    return second


def heat_capacity_wh(litres: float, temperature_c: float) -> float:
    """Heat that warms so much water by one kelvin, Wh/K; bed and glass, not counted, slow it further."""
    return litres / LITRES_PER_M3 * density(temperature_c) * HEAT_CAPACITY / SECONDS_PER_HOUR


def hours_to_reach(
    edge_c: float, start_c: float, end_c: float, capacity_wh_k: float, surplus_w: float
) -> float:
    """Hours from ``start_c`` to ``edge_c`` towards ``end_c``: 0 if past it already, inf if never there.

    The loss is taken as straight between start and end, which is within a few per cent of the full balance.

    Parameters
    ----------
    capacity_wh_k : float
        Heat that warms the water by one kelvin.
    surplus_w : float
        Power less loss at the start; negative where the water cools.
    """
    if end_c == start_c:
        return 0.0 if edge_c == start_c else float("inf")
    share = (edge_c - start_c) / (end_c - start_c)
    if share <= 0:
        return 0.0
    if share >= 1:
        return float("inf")
    per_kelvin_w = surplus_w / (end_c - start_c)
    return -capacity_wh_k / per_kelvin_w * log(1 - share)


def rule_of_volume(litres: float, lid: bool) -> float:
    """Cross-check of the whole-tank loss from the volume alone, W/K."""
    return float((RULE_WITH_LID if lid else RULE_OPEN) * litres**TWO_THIRDS)
