"""Panes and floors: how thick the glass should be, and what a filled tank weighs on the floor.

Both are rough checks for a keeper, not a design: a structural judgement is a licensed engineer's, and a
tank's glass is its maker's business (DIN 32622 for all-glass tanks).
"""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

from stockcheck.physics.quantity import Constant

_PRACTICE = "common practice, no source"
_STILWELL = (
    "Stilwell 2001 after Roark's plate formulas (pane held on all edges), fnzas.org.nz glass calculations"
)
#: Length over water height, and the bending coefficient beta for a pane under water pressure.
BETA = (
    (Constant(0.5, "1", _STILWELL), Constant(0.085, "1", _STILWELL)),
    (Constant(0.666, "1", _STILWELL), Constant(0.1156, "1", _STILWELL)),
    (Constant(1.0, "1", _STILWELL), Constant(0.16, "1", _STILWELL)),
    (Constant(1.5, "1", _STILWELL), Constant(0.26, "1", _STILWELL)),
    (Constant(2.0, "1", _STILWELL), Constant(0.32, "1", _STILWELL)),
    (Constant(2.5, "1", _STILWELL), Constant(0.35, "1", _STILWELL)),
    (Constant(3.0, "1", _STILWELL), Constant(0.37, "1", _STILWELL)),
)
WATER_LOAD = Constant(1e-5, "N/mm3", _STILWELL)
GLASS_STRENGTH = Constant(19.2, "N/mm2", _STILWELL, 19.2, 28.4)
SAFETY_FACTOR = Constant(3.8, "1", _STILWELL)
#: Thicknesses that float glass is sold in.
STOCK_GLASS_MM = (
    Constant(4.0, "mm", _PRACTICE),
    Constant(5.0, "mm", _PRACTICE),
    Constant(6.0, "mm", _PRACTICE),
    Constant(8.0, "mm", _PRACTICE),
    Constant(10.0, "mm", _PRACTICE),
    Constant(12.0, "mm", _PRACTICE),
    Constant(15.0, "mm", _PRACTICE),
    Constant(19.0, "mm", _PRACTICE),
)
GLASS_DENSITY = Constant(2.5, "kg/L", "from memory: EN 572-1, soda-lime float glass")
GRAVITY = Constant(9.80665, "m/s2", "definition of standard gravity")
FLOOR_A = Constant(
    2.0, "kN/m2", "from memory: EN 1991-1-1 table 6.2, category A floors of dwellings, 1.5 to 2.0", 1.5, 2.0
)
ENGINEER_MASS = Constant(300.0, "kg", _PRACTICE)
MM_PER_CM = Constant(10.0, "mm/cm", "definition")
CM2_PER_M2 = Constant(1e4, "cm2/m2", "definition")
NEWTONS = Constant(1e3, "N/kN", "definition")


def bending_coefficient(length_over_height: float) -> float:
    """Beta for a pane, by linear interpolation of the table; its ends hold beyond it."""
    if length_over_height <= BETA[0][0]:
        return BETA[0][1]
    for (low, beta_low), (high, beta_high) in pairwise(BETA):
        if length_over_height <= high:
            share = (length_over_height - low) / (high - low)
            return beta_low + share * (beta_high - beta_low)
    return BETA[-1][1]


def pane_thickness_mm(length_cm: float, water_height_cm: float, safety: float = SAFETY_FACTOR) -> float:
    """Thickness of a front pane for a safety factor, mm: t = sqrt(beta H^3 1e-5 SF / strength)."""
    height = water_height_cm * MM_PER_CM
    beta = bending_coefficient(length_cm / water_height_cm)
    return sqrt(beta * height * height * height * WATER_LOAD * safety / GLASS_STRENGTH)


def pane_safety_factor(thickness_mm: float, length_cm: float, water_height_cm: float) -> float:
    """Safety factor of a front pane: strength over bending stress."""
    height = water_height_cm * MM_PER_CM
    beta = bending_coefficient(length_cm / water_height_cm)
    return GLASS_STRENGTH * thickness_mm**2 / (beta * height * height * height * WATER_LOAD)


def usual_glass_mm(length_cm: float, water_height_cm: float) -> float:
    """The stock thickness at or above the formula's: what such a tank is usually made of, mm."""
    needed = pane_thickness_mm(length_cm, water_height_cm)
    return next((mm for mm in STOCK_GLASS_MM if mm >= needed), needed)


def floor_load(mass_kg: float, footprint_cm2: float) -> float:
    """Pressure of a tank on its own footprint, kN/m2."""
    return mass_kg * GRAVITY / NEWTONS / (footprint_cm2 / CM2_PER_M2)
