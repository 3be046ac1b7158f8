"""Carbonate hardness that nitrification uses up.

Each mole of ammonium that becomes nitrate takes two equivalents of alkalinity (7.14 g CaCO3 per g N, 0.400
dKH per mg N/L); each mole of nitrate that plants take or that turns to gas gives one back, and excreted
ammonia itself brings one along, which the low end of the interval counts.  Nitrogen is mg N/day, KH dKH,
volumes L.
"""

from __future__ import annotations

from stockcheck.physics.quantity import Constant

KH_PER_N = Constant(
    0.4004,
    "dKH per mg N/L",
    "stoichiometry, two equivalents a mole: 7.146 g CaCO3 per g N over 17.848 mg CaCO3/L per dKH; "
    "the low end counts the equivalent that excreted ammonia itself brings",
    0.2002,
    0.4004,
)
KH_BACK_PER_N = Constant(
    0.2002,
    "dKH per mg N/L",
    "stoichiometry, one equivalent a mole: nitrate taken by plants or turned to gas gives it back",
)
DAYS_PER_WEEK = Constant(7.0, "day", "definition")


def kh_use_per_week(
    nitrified: float, nitrate_lost: float, volume_l: float, kh_per_n: float = KH_PER_N
) -> float:
    """Carbonate hardness lost in a week, dKH; never less than nothing.

    Parameters
    ----------
    nitrified : float
        Nitrogen that becomes nitrate, mg N/day.
    nitrate_lost : float
        Nitrate nitrogen that plants take or that turns to gas, mg N/day.
    """
    used = nitrified * kh_per_n - nitrate_lost * KH_BACK_PER_N
    return max(0.0, used) * DAYS_PER_WEEK / volume_l
