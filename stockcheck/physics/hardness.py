"""Hardness: degrees and what they stand for, mixing waters, minerals, and what evaporation leaves behind.

General hardness (GH) counts calcium and magnesium, carbonate hardness (KH) counts alkalinity; both in German
degrees here (dGH, dKH).  One degree is 10 mg/L of calcium oxide, or as much of anything as takes its place.
"""

from __future__ import annotations

from typing import NamedTuple

from stockcheck.physics.quantity import Constant

_IUPAC = "IUPAC standard atomic weights, abridged"
CALCIUM = Constant(40.078, "g/mol", _IUPAC)
MAGNESIUM = Constant(24.305, "g/mol", _IUPAC)
CALCIUM_OXIDE = Constant(56.077, "g/mol", _IUPAC)
CALCIUM_CARBONATE = Constant(100.087, "g/mol", _IUPAC)
BICARBONATE = Constant(61.016, "g/mol", _IUPAC)
DEGREE = Constant(10.0, "mg CaO/L", "definition of the German degree (DIN 19640, since withdrawn)")
FRENCH_DEGREE = Constant(10.0, "mg CaCO3/L", "definition of the French degree")
GRAIN = Constant(64.79891, "mg", "definition of the grain")
IMPERIAL_GALLON = Constant(4.54609, "L", "definition of the imperial gallon")
US_GALLON = Constant(3.785411784, "L", "definition of the US gallon, 231 cubic inches")
MG_PER_G = Constant(1000.0, "mg/g", "definition")

_NONE = Constant(0.0, "mol/mol", "stoichiometry")
_ONE = Constant(1.0, "mol/mol", "stoichiometry")
_TWO = Constant(2.0, "mol/mol", "stoichiometry")


class Mineral(NamedTuple):
    """A salt: molar mass, and the moles of alkaline earths and of alkalinity that one mole brings."""

    name: str
    molar_mass: float
    earths: float
    alkalinity: float


CALCIUM_CHLORIDE = Mineral("calcium chloride dihydrate", Constant(147.01, "g/mol", _IUPAC), _ONE, _NONE)
CALCIUM_SULFATE = Mineral(
    "calcium sulfate dihydrate (gypsum)", Constant(172.17, "g/mol", _IUPAC), _ONE, _NONE
)
MAGNESIUM_SULFATE = Mineral("magnesium sulfate heptahydrate", Constant(246.47, "g/mol", _IUPAC), _ONE, _NONE)
BAKING_SODA = Mineral("sodium hydrogen carbonate", Constant(84.007, "g/mol", _IUPAC), _NONE, _ONE)
POTASSIUM_BICARBONATE = Mineral(
    "potassium hydrogen carbonate", Constant(100.115, "g/mol", _IUPAC), _NONE, _ONE
)
LIMESTONE = Mineral("calcium carbonate", Constant(100.087, "g/mol", _IUPAC), _ONE, _TWO)
MINERALS = (
    CALCIUM_CHLORIDE,
    CALCIUM_SULFATE,
    MAGNESIUM_SULFATE,
    BAKING_SODA,
    POTASSIUM_BICARBONATE,
    LIMESTONE,
)


def mmol_from_dgh(dgh: float) -> float:
    """Alkaline earths, mmol/L."""
    return dgh * DEGREE / CALCIUM_OXIDE


def dgh_from_mmol(mmol: float) -> float:
    """German degrees of general hardness from alkaline earths, mmol/L."""
    return mmol * CALCIUM_OXIDE / DEGREE


def meq_from_dkh(dkh: float) -> float:
    """Alkalinity, meq/L (two equivalents per mole of CaO)."""
    return 2 * mmol_from_dgh(dkh)


def dkh_from_meq(meq: float) -> float:
    """German degrees of carbonate hardness from alkalinity, meq/L."""
    return dgh_from_mmol(meq / 2)


def caco3_from_degrees(degrees: float) -> float:
    """Hardness or alkalinity as calcium carbonate, mg/L."""
    return mmol_from_dgh(degrees) * CALCIUM_CARBONATE


def degrees_from_caco3(mg_per_l: float) -> float:
    """German degrees from mg CaCO3/L."""
    return dgh_from_mmol(mg_per_l / CALCIUM_CARBONATE)


def degrees_from_french(french: float) -> float:
    """German degrees from French degrees."""
    return degrees_from_caco3(french * FRENCH_DEGREE)


def degrees_from_english(english: float) -> float:
    """German degrees from English (Clark) degrees: a grain of CaCO3 per imperial gallon."""
    return degrees_from_caco3(english * GRAIN / IMPERIAL_GALLON)


def degrees_from_us_grains(grains: float) -> float:
    """German degrees from grains of CaCO3 per US gallon."""
    return degrees_from_caco3(grains * GRAIN / US_GALLON)


def dgh_from_ions(calcium_mg_l: float, magnesium_mg_l: float) -> float:
    """General hardness from the two figures on a water analysis, mg/L each."""
    return dgh_from_mmol(calcium_mg_l / CALCIUM + magnesium_mg_l / MAGNESIUM)


def bicarbonate_mg_l(dkh: float) -> float:
    """Bicarbonate that such alkalinity amounts to, mg/L, where nothing else buffers."""
    return meq_from_dkh(dkh) * BICARBONATE


def mixed(first: float, second: float, share_of_second: float) -> float:
    """Hardness of a mixture; it mixes in proportion to volume."""
    return first * (1 - share_of_second) + second * share_of_second


def share_for_target(target: float, first: float, second: float = 0.0) -> float | None:
    """Share of the second water that brings the mixture to ``target``; None where no mixture reaches it.

    The second is pure water (rain or reverse osmosis) unless its hardness is given.
    """
    if first == second:
        return 0.0 if target == first else None
    share = (first - target) / (first - second)
    return share if 0 <= share <= 1 else None


def mineral_effect(mineral: Mineral, grams: float, litres: float) -> tuple[float, float]:
    """Rise of (GH, KH) in degrees when ``grams`` of a mineral dissolve in ``litres``."""
    mmol = grams * MG_PER_G / mineral.molar_mass / litres
    return dgh_from_mmol(mmol * mineral.earths), dkh_from_meq(mmol * mineral.alkalinity)


def mineral_grams(mineral: Mineral, rise: float, litres: float, of: str = "GH") -> float:
    """Grams of a mineral that raise GH or KH (``of``) by ``rise`` degrees; inf where it brings none."""
    per_gram = mineral_effect(mineral, 1.0, litres)[0 if of == "GH" else 1]
    return rise / per_gram if per_gram else float("inf")


def before_change(added: float, gain: float, share: float) -> float:
    """Steady level just before a water change: that added, plus an interval's gain over the share.

    A loss is a negative gain.  Without changes (share 0) there is no steady level: inf, with the gain's sign.
    """
    if share <= 0:
        return added if gain == 0 else float("inf") * (1 if gain > 0 else -1)
    return added + gain / share
