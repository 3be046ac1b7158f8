"""Dissolved oxygen: how much water can hold, how fast the surface passes it, and the balance through a night.

The balance is one well-mixed tank: dC/dt = kL/H (Cs - C) - R/V, with kL the transfer velocity of the surface,
H the mean depth V/A, Cs saturation and R what breathes.  C runs towards Cs - R/(kL A).
"""

from __future__ import annotations

from math import exp, log

from stockcheck.physics.quantity import Constant
from stockcheck.physics.water import ATMOSPHERE, HOURS_PER_DAY, KELVIN, vapour_pressure

_APHA = "APHA Standard Methods 4500-O after Benson & Krause 1984; SWAT+ documentation prints it"
SATURATION = (
    Constant(-139.34411, "1", _APHA),
    Constant(1.575701e5, "K", _APHA),
    Constant(-6.642308e7, "K2", _APHA),
    Constant(1.243800e10, "K3", _APHA),
    Constant(-8.621949e11, "K4", _APHA),
)
_RAYMOND = "Raymond et al. 2012, as coded in LakeMetabolizer"
SCHMIDT = (
    Constant(1568.0, "1", _RAYMOND),
    Constant(-86.04, "1/K", _RAYMOND),
    Constant(2.142, "1/K2", _RAYMOND),
    Constant(-0.0216, "1/K3", _RAYMOND),
)
SCHMIDT_WARMEST = Constant(35.0, "degC", "upper end of the polynomial's range")
SCHMIDT_600 = Constant(600.0, "1", "definition of k600: CO2 at 20 degC in fresh water")
SCHMIDT_EXPONENT = Constant(
    0.5, "1", "Cole & Caraco 1998: 1/2 for a moving surface, 2/3 for a smooth one", 0.5, 0.667
)
TWENTY_FIVE = Constant(25.0, "degC", "reference temperature of the transfer velocities here")

_LAKES = "from memory, no aquarium measurement found"
#: Transfer velocity of oxygen at 25 degC by how the surface moves.
STILL = Constant(
    0.5, "m/day", "Cole et al. 2010: k600 0.35 to 0.74 in small lakes under 3 m/s of wind", 0.3, 0.9
)
STILL_UNDER_LID = Constant(0.27, "m/day", _LAKES + ": still, with a lid or a film of dust", 0.15, 0.4)
RIPPLE = Constant(1.2, "m/day", _LAKES, 0.8, 2.0)
STRONG = Constant(2.5, "m/day", _LAKES, 1.5, 5.0)
AIR_STONE = Constant(3.2, "m/day", _LAKES + ": on the patch of surface it stirs", 2.0, 5.0)
AIR_STONE_PATCH = Constant(150.0, "cm2", "common practice, no source", 50.0, 400.0)
#: Share of the transfer that a surface closed by floating plants loses.
FLOATER_SCREEN = Constant(0.5, "1", "common practice, no source", 0.2, 0.9)

_EPA = "from memory: US EPA 1986, warm-water criteria"
GUIDELINE = Constant(
    5.0, "mg/L", "water-test guide adbio.com: warm-water fish grow and do well at 5 mg/L and more"
)
DANGER = Constant(
    3.0, "mg/L", _EPA + ", 1-day minimum; an ichthyology dictionary: most fish do not survive below"
)
COMFORT = Constant(6.5, "mg/L", "common practice, no source: a dawn that leaves something to spare")
CM_PER_M = Constant(100.0, "cm/m", "definition")
CM2_PER_M2 = Constant(1e4, "cm2/m2", "definition")
LITRES_PER_M3 = Constant(1000.0, "L/m3", "definition")


def saturation(temperature_c: float, pressure_kpa: float = ATMOSPHERE) -> float:
    """Oxygen that fresh water holds in equilibrium with moist air, mg/L (0 to 40 degC, within 0.1 %)."""
    inverse = 1 / (temperature_c + KELVIN)
    a, b, c, d, e = SATURATION
    at_sea_level = exp(a + inverse * (b + inverse * (c + inverse * (d + inverse * e))))
    if pressure_kpa == ATMOSPHERE:
        return at_sea_level
    vapour = vapour_pressure(temperature_c)
    return at_sea_level * (pressure_kpa - vapour) / (ATMOSPHERE - vapour)


def schmidt(temperature_c: float) -> float:
    """Schmidt number of oxygen in fresh water; 0 to 35 degC, the ends hold beyond."""
    a, b, c, d = SCHMIDT
    t = min(max(temperature_c, 0.0), SCHMIDT_WARMEST)
    return a + t * (b + t * (c + t * d))


def transfer_at(velocity: float, temperature_c: float, reference: float | None = None) -> float:
    """A transfer velocity of oxygen carried to a temperature, same unit as given.

    ``velocity`` is that of oxygen at 25 degC, or at a stated Schmidt number (600 for k600).
    """
    base = schmidt(TWENTY_FIVE) if reference is None else reference
    return float(velocity * (base / schmidt(temperature_c)) ** SCHMIDT_EXPONENT)


def conductance(velocity_m_day: float, surface_cm2: float) -> float:
    """What a surface passes per mg/L of deficit, L/h: kL A."""
    return velocity_m_day * surface_cm2 / CM2_PER_M2 * LITRES_PER_M3 / HOURS_PER_DAY


def steady(saturation_mg_l: float, uptake_mg_h: float, conductance_l_h: float) -> float:
    """Level that the balance runs towards, mg/L; below zero means that the tank runs out of oxygen."""
    return saturation_mg_l - uptake_mg_h / conductance_l_h


def after(start: float, steady_level: float, hours: float, conductance_l_h: float, litres: float) -> float:
    """Oxygen some hours on, mg/L, never below zero."""
    return max(0.0, steady_level + (start - steady_level) * exp(-conductance_l_h / litres * hours))


def hours_until(
    level: float, start: float, steady_level: float, conductance_l_h: float, litres: float
) -> float:
    """Hours until oxygen has fallen from ``start`` to ``level``: 0 if it is there, inf if it stays above."""
    if start <= level:
        return 0.0
    if steady_level >= level:
        return float("inf")
    return litres / conductance_l_h * log((start - steady_level) / (level - steady_level))
