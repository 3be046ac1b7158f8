"""Nitrate between water changes: a sawtooth that settles to a steady height.

Between two changes nitrate rises by a gain; a change of a share f replaces that share by tap water.  Once as
much is carried off as is gained, it stands at tap + gain/f before a change, whatever it started from.
Plants that take more than is given bring it below the tap, never below nothing.  Without changes nothing
settles, and the level after twelve weeks stands for it.

Concentrations are mg/L of whatever is counted (here nitrate as NO3), gains mg/L between two changes, shares
0 to 1.
"""

from __future__ import annotations

from math import floor
from typing import NamedTuple

from stockcheck.physics.quantity import Constant

NITRATE_LIMIT = Constant(
    40.0,
    "mg/L",
    "Camargo, Alonso & Salamanca 2005, Chemosphere 58:1255: 10 mg nitrate-N/L (44 mg/L as nitrate) can harm "
    "sensitive "
    "freshwater animals in the long run; rounded down",
)
NITRATE_AIM = Constant(20.0, "mg/L", "common practice, no source: half the limit")
NITRATE_STOP = Constant(
    200.0,
    "mg/L",
    "from memory: twice the level without effect on larval rare minnow (20 mg N/L, 10.1002/etc.3283)",
)
TAP_UNKNOWN = Constant(
    10.0,
    "mg/L",
    "common practice, no source: tap water of unknown nitrate, up to near the legal limit of 50",
    0.0,
    45.0,
)
DENITRIFIED_SHARE = Constant(
    0.10, "1", "from memory: the share that mud, soil and the inside of porous media turn to gas", 0.0, 0.30
)
NO_CHANGE_DAYS = Constant(
    84.0, "day", "twelve weeks: how far the check looks ahead where no water is changed"
)


class Sawtooth(NamedTuple):
    """Just before and just after a change, mg/L."""

    before: float
    after: float

    @property
    def peak(self) -> float:
        return max(self)

    @property
    def trough(self) -> float:
        return min(self)


def sawtooth(gain: float, share: float, tap: float) -> Sawtooth:
    """The steady sawtooth: before = tap + gain/share, after = before less what the change replaced.

    A negative gain (plants take more than the animals give) empties the water at most.

    Parameters
    ----------
    gain : float
        Rise between two changes.
    share : float
        Of the water replaced at each change, above 0 and at most 1.
    tap : float
        In the water that is added.
    """
    before = max(0.0, tap + gain / share)
    return Sawtooth(before, before + share * (tap - before))


def smallest_share(gain: float, tap: float, limit: float) -> float | None:
    """The least share at each change that keeps the peak at the limit; above 1 or ``None`` where none can."""
    if tap >= limit:
        return 0.0 if gain <= 0 and tap == limit else None
    return max(0.0, gain / (limit - tap))


def longest_interval(gain_per_day: float, share: float, tap: float, limit: float) -> float | None:
    """The most whole days between changes of ``share`` that keep the peak at the limit; ``None`` where any
    will do."""
    if gain_per_day <= 0:
        return None
    return float(max(0, floor(share * (limit - tap) / gain_per_day)))
