"""Pure water and the air above it: density, heat capacity, vapour, latent heat, evaporation.

Temperatures are degC, pressures kPa, densities kg/m3.  Valid from 5 to 40 degC at room pressure.
"""

from __future__ import annotations

from math import exp

from stockcheck.physics.quantity import Constant

_TANAKA = "from memory: Tanaka, Girard, Davis, Peuto & Bignell 2001, Metrologia 38:301, eq. 1"
DENSITY_A1 = Constant(-3.983035, "degC", _TANAKA)
DENSITY_A2 = Constant(301.797, "degC", _TANAKA)
DENSITY_A3 = Constant(522528.9, "degC2", _TANAKA)
DENSITY_A4 = Constant(69.34881, "degC", _TANAKA)
DENSITY_A5 = Constant(999.974950, "kg/m3", _TANAKA)

HEAT_CAPACITY = Constant(4181.0, "J/kg/K", "IAPWS formulation at 25 degC, through CoolProp", 4178.0, 4190.0)

_BUCK = "from memory: Buck 1981, J. Appl. Meteorol. 20:1527, revised 1996"
BUCK_BASE = Constant(0.61121, "kPa", _BUCK)
BUCK_A = Constant(18.678, "1", _BUCK)
BUCK_B = Constant(234.5, "degC", _BUCK)
BUCK_C = Constant(257.14, "degC", _BUCK)

LATENT_AT_ZERO = Constant(
    2501.0, "kJ/kg", "from memory: Harrison 1963, as in FAO Irrigation and Drainage Paper 56"
)
LATENT_SLOPE = Constant(
    2.361, "kJ/kg/K", "from memory: Harrison 1963, as in FAO Irrigation and Drainage Paper 56"
)

ATMOSPHERE = Constant(101.325, "kPa", "definition of the standard atmosphere")
KELVIN = Constant(273.15, "K", "definition of the Celsius scale")
VAPOUR_RATIO = Constant(0.62198, "kg/kg", "ratio of molar masses, water to dry air")
DRY_AIR_GAS = Constant(0.287042, "kJ/kg/K", "molar gas constant over the molar mass of dry air")

_SHAH = "from memory: Shah 2014, ASHRAE Transactions 120(2), natural convection over quiet water indoors"
SHAH_C = Constant(35.0, "SI", _SHAH, 28.0, 42.0)
SHAH_C_SMALL = Constant(40.0, "SI", _SHAH, 32.0, 48.0)
SHAH_SMALL_DIFFERENCE = Constant(0.02, "kg/m3", _SHAH)
SHAH_EXPONENT = Constant(1 / 3, "1", _SHAH)
SHAH_FORCED = Constant(5e-5, "kg/m2/h/Pa", _SHAH)
PASCALS = Constant(1000.0, "Pa/kPa", "definition")
HOURS_PER_DAY = Constant(24.0, "h/day", "definition")


def density(temperature_c: float) -> float:
    """Density of pure water, kg/m3 (0 to 40 degC, within 0.001)."""
    t = temperature_c
    return DENSITY_A5 * (1 - (t + DENSITY_A1) ** 2 * (t + DENSITY_A2) / (DENSITY_A3 * (t + DENSITY_A4)))


def vapour_pressure(temperature_c: float) -> float:
    """Saturation vapour pressure over water, kPa (within 0.1 % from 0 to 50 degC)."""
    t = temperature_c
    return BUCK_BASE * exp((BUCK_A - t / BUCK_B) * t / (BUCK_C + t))


def latent_heat(temperature_c: float) -> float:
    """Heat of vaporisation, kJ/kg."""
    return LATENT_AT_ZERO - LATENT_SLOPE * temperature_c


def humidity_ratio(vapour_kpa: float) -> float:
    """Water vapour per dry air, kg/kg, at standard pressure."""
    return VAPOUR_RATIO * vapour_kpa / (ATMOSPHERE - vapour_kpa)


def dry_air_density(temperature_c: float, vapour_kpa: float) -> float:
    """Mass of dry air per volume of moist air, kg/m3: the density of a psychrometric chart, and of Shah."""
    return (ATMOSPHERE - vapour_kpa) / (DRY_AIR_GAS * (temperature_c + KELVIN))


def evaporation(water_c: float, air_c: float, humidity: float) -> float:
    """Evaporation from quiet water in a room without draught, kg/m2/h.

    Moist air at the surface is lighter than the room's and rises; Shah's relation takes the larger of this
    natural convection and a floor for the room's own air movement.  A second method (0.74 of the ASHRAE pool
    formula) differs by 7 to 27 %, most at a small difference of temperature; ripples and filters raise it.

    Parameters
    ----------
    water_c, air_c : float
        degC.
    humidity : float
        Relative humidity of the room, 0 to 1.
    """
    surface = vapour_pressure(water_c)
    room = humidity * vapour_pressure(air_c)
    floor = SHAH_FORCED * PASCALS * (surface - room)
    lift = dry_air_density(air_c, room) - dry_air_density(water_c, surface)
    if lift <= 0:
        return max(floor, 0.0)
    # Shah's constant steps down at a larger difference; holding the lower branch level bridges the step
    lower = SHAH_C_SMALL * min(lift, SHAH_SMALL_DIFFERENCE) ** SHAH_EXPONENT
    stirred = float(max(lower, SHAH_C * lift**SHAH_EXPONENT))
    excess = humidity_ratio(surface) - humidity_ratio(room)
    natural = stirred * dry_air_density(water_c, surface) * excess
    return max(natural, floor, 0.0)
