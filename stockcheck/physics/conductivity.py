"""Conductivity of fresh water from its hardness, and back to dissolved solids.

An estimate: what else is dissolved (sodium, chloride, nitrate, humic acids) is guessed from what must
balance.
"""

from __future__ import annotations

from math import sqrt

from stockcheck.physics.hardness import meq_from_dkh
from stockcheck.physics.quantity import Constant

_IONS = "from memory: limiting ionic conductivities at 25 degC, Robinson & Stokes"
CALCIUM_MAGNESIUM = Constant(
    57.8, "uS/cm per meq/L", _IONS + ", 3 parts calcium to 1 part magnesium", 53.1, 59.5
)
SODIUM = Constant(50.1, "uS/cm per meq/L", _IONS)
BICARBONATE = Constant(44.5, "uS/cm per meq/L", _IONS)
OTHER_ANIONS = Constant(77.0, "uS/cm per meq/L", _IONS + ", chloride, sulfate, nitrate", 71.4, 80.0)
KOHLRAUSCH = Constant(
    0.20,
    "1 per sqrt(10 meq/L)",
    "Kohlrausch's square-root law, slope fitted to PHREEQC (phreeqc.dat) for 2 to 25 dGH",
    0.13,
    0.23,
)
TEN_MEQ = Constant(10.0, "meq/L", "scale of that slope")
BACKGROUND = Constant(
    40.0, "uS/cm", "common practice, no source: salts that a hardness test does not see", 0.0, 150.0
)
SOLIDS = Constant(
    0.64, "mg/L per uS/cm", "water-quality explainer for natural waters, 0.55 to 0.80", 0.55, 0.80
)


def conductivity(gh_dgh: float, kh_dkh: float, background: float = BACKGROUND) -> float:
    """Electrical conductivity at 25 degC, uS/cm.

    Hardness is balanced by bicarbonate as far as KH goes and by chloride and sulfate beyond it; KH above GH
    is balanced by sodium.
    """
    earths, carbonate = meq_from_dkh(gh_dgh), meq_from_dkh(kh_dkh)
    anions = max(earths, carbonate)
    ideal = (
        earths * CALCIUM_MAGNESIUM
        + carbonate * BICARBONATE
        + max(0.0, earths - carbonate) * OTHER_ANIONS
        + max(0.0, carbonate - earths) * SODIUM
    )
    return ideal * (1 - KOHLRAUSCH * sqrt(anions / TEN_MEQ)) + background


def dissolved_solids(conductivity_us_cm: float, factor: float = SOLIDS) -> float:
    """Dissolved solids, mg/L; meters disagree on the factor, so uS/cm is the better figure to exchange."""
    return conductivity_us_cm * factor
