"""Chlorine and chloramine in tap water, and the thiosulfate that removes them.

For understanding only: dose a water conditioner by its own label.
"""

from __future__ import annotations

from stockcheck.physics.quantity import Constant

_IUPAC = "IUPAC standard atomic weights, abridged"
CHLORINE = Constant(70.906, "g/mol", _IUPAC)
NITROGEN = Constant(14.007, "g/mol", _IUPAC)
THIOSULFATE = Constant(248.18, "g/mol", _IUPAC + ", sodium thiosulfate pentahydrate")
#: Moles of thiosulfate per mole of chlorine: 2 ending as tetrathionate, 1/4 oxidised to sulfate.
TETRATHIONATE = Constant(
    2.0, "mol/mol", "2 S2O3-- + Cl2 = S4O6-- + 2 Cl-, koifishponds.com/chlorine.htm", 0.25, 2.0
)
#: Chlorine that fish are harmed by.
HARMFUL = Constant(
    0.02, "mg Cl2/L", "Water Environment Federation, as quoted: toxic even below 0.02 mg/L", 0.003, 0.02
)
DEADLY = Constant(0.3, "mg Cl2/L", "koi society page: 0.3 mg/L combined chlorine kills most fish fast")
USUAL_LOW = Constant(0.5, "mg Cl2/L", "veterinary textbook, range in tap water")
USUAL_HIGH = Constant(3.0, "mg Cl2/L", "veterinary textbook, range in tap water")


def thiosulfate_mg(chlorine_mg_l: float, litres: float, moles: float = TETRATHIONATE) -> float:
    """Sodium thiosulfate pentahydrate that binds the chlorine of so much water, mg (7.0 mg per mg Cl2)."""
    return chlorine_mg_l * litres * moles * THIOSULFATE / CHLORINE


def ammonia_left(chloramine_mg_l: float) -> float:
    """Ammonia nitrogen that stays when monochloramine (as Cl2, mg/L) is split, mg TAN/L."""
    return chloramine_mg_l * NITROGEN / CHLORINE


def after_mixing(chlorine_mg_l: float, share: float) -> float:
    """Chlorine in the tank right after a change of such share, before anything uses it up, mg/L."""
    return chlorine_mg_l * share
