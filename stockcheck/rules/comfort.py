"""How well a value sits in a taxon's band, on the headroom scale.

Inside comfort is clear, outside it a watch; beyond what the taxon tolerates a fix that grows into a stop with
the distance.  Poorly known bands are widened, so that a single source speaks more softly than three.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, log2

from stockcheck.rules.bands import Limit, common
from stockcheck.rules.core import CLEAR, NO_STOP

#: Headroom at the edge of comfort: the least that is clear.
AT_COMFORT = 75.0
#: Headroom at the edge of tolerance: the least that holds.
AT_TOLERANCE = 50.0


@dataclass(frozen=True, slots=True)
class Field:
    """One measure of the water and how distances in it weigh; all widths are common practice, no source.

    ``grace`` is how far beyond a well-known tolerance a value still holds, ``harm`` how far beyond that it
    stops, ``margin`` how far inside comfort it is at its best; ``floor`` the least headroom it can lead to.
    Hardness weighs by ratio (``offset`` dGH keeps very soft waters alike), the others by difference.
    """

    name: str
    unit: str
    grace: float
    harm: float
    margin: float
    floor: float = 0.0
    offset: float | None = None

    def scale(self, x: float) -> float:
        """The value where distances weigh alike: as it is, or in doublings of hardness."""
        if self.offset is None or not isfinite(x):
            return x
        return log2(max(x, 0.0) + self.offset)


TEMPERATURE = Field("temperature", "°C", grace=0.5, harm=4.5, margin=1.0)
PH = Field("pH", "", grace=0.3, harm=1.7, margin=0.3)
# An adult's kidneys and gills adjust to hardness far better than its eggs do: it alone never stops a plan.
# Carbonate hardness, which few sources state, at most asks to be watched.
GH = Field("GH", "dGH", grace=0.6, harm=2.4, margin=0.3, floor=NO_STOP, offset=4.0)
KH = Field("KH", "dKH", grace=0.8, harm=2.4, margin=0.3, floor=AT_TOLERANCE, offset=4.0)
FIELDS = (TEMPERATURE, PH, GH, KH)

#: By what a grade widens a band: the share of ``grace`` added to comfort, and the factor on ``grace``.
_SOFTNESS = {"A": (0.0, 1.0), "B": (0.25, 1.25), "C": (0.6, 1.6), "D": (1.0, 2.0)}


def headroom_low(limit: Limit, field: Field, x: float) -> float:
    """Headroom of a value against the low ends of a band."""
    return _headroom(limit, field, field.scale(limit.comfort.low) - field.scale(x), _below(limit, field))


def headroom_high(limit: Limit, field: Field, x: float) -> float:
    """Headroom of a value against the high ends of a band."""
    return _headroom(limit, field, field.scale(x) - field.scale(limit.comfort.high), _above(limit, field))


def headroom_at(limit: Limit, field: Field, x: float) -> float:
    return min(headroom_low(limit, field, x), headroom_high(limit, field, x))


def best_compromise(found: Sequence[Limit], field: Field) -> tuple[float, float]:
    """The value that leaves the worst-off taxon the most headroom, and that headroom.

    Headroom against the low ends rises with the value and against the high ends falls, so the two lines'
    crossing is found by halving, from the middle of the common comfort where there is one; a value that
    nobody minds ends the search.
    """
    ends = [end for limit in found for end in (*limit.comfort, *limit.tolerance) if isfinite(end)]
    if not ends:
        return 0.0, CLEAR
    low, high = min(ends), max(ends)
    shared = common([limit.comfort for limit in found])
    middle = (shared.low + shared.high) / 2 if isfinite(shared.width) else (low + high) / 2
    for _ in range(15):
        x = middle
        rising = min([headroom_low(limit, field, x) for limit in found])
        falling = min([headroom_high(limit, field, x) for limit in found])
        if rising == falling == CLEAR:
            break
        if rising < falling:
            low = x
        else:
            high = x
        middle = (low + high) / 2
    return x, min(rising, falling)


def _below(limit: Limit, field: Field) -> float:
    """How far tolerance reaches below comfort."""
    if not isfinite(limit.tolerance.low):
        return 0.0
    return field.scale(limit.comfort.low) - field.scale(limit.tolerance.low)


def _above(limit: Limit, field: Field) -> float:
    if not isfinite(limit.tolerance.high):
        return 0.0
    return field.scale(limit.tolerance.high) - field.scale(limit.comfort.high)


def _headroom(limit: Limit, field: Field, outside: float, tolerated: float) -> float:
    """Headroom of a value ``outside`` comfort (negative: inside), ``tolerated`` of it being accepted."""
    widened, factor = _SOFTNESS[limit.band.grade]
    outside -= widened * field.grace
    if outside <= 0:
        share = 1.0 if not isfinite(outside) else min(1.0, -outside / field.margin)
        return AT_COMFORT + (CLEAR - AT_COMFORT) * share
    holds = max(tolerated - widened * field.grace, 0.0) + factor * field.grace
    if outside <= holds:
        return AT_COMFORT - (AT_COMFORT - AT_TOLERANCE) * outside / holds
    return max(field.floor, AT_TOLERANCE * (1 - (outside - holds) / field.harm))
