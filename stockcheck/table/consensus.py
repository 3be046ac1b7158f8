"""From what each source states to the one band that the checks use.

Figures are first collapsed to one interval per independent origin, so that copies of one text count once.
``comfort`` runs from the median of the lows to the median of the highs, reference works counting twice;
``tolerance`` from the lowest low to the highest high, leaving out the single most extreme on each side
where four or more origins state that side.  Rows of survival or of the wild habitat feed tolerance only.
A curator's own row, which must give a reason, replaces the ends it states.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import NamedTuple

CURATOR = "curator"
#: Kinds of source that count twice in the medians.
REFERENCE_KINDS = frozenset({"database", "encyclopaedia", "specialist", "scholarly"})
USES = ("comfort", "tolerance", "none")
#: From this many origins on, the most extreme of each side is left out of the tolerance.
TRIM_FROM = 4


@dataclass(frozen=True, slots=True)
class Evidence:
    """One figure as one source states it.  ``use`` is what a curator lets it speak for, ``reason`` why."""

    slug: str
    field: str
    low: float | None
    high: float | None
    unit: str
    sex: str
    as_stated: str
    source: str
    url: str
    use: str
    reason: str
    source_kind: str = "page"


class Consensus(NamedTuple):
    """The two intervals, the origins that back them, and a curator's reason where one decided."""

    comfort: tuple[float | None, float | None]
    tolerance: tuple[float | None, float | None]
    origins: tuple[str, ...]
    note: str


def grade_of(origins: int) -> str:
    """A three or more independent origins, B two, C one, D none."""
    return "DCBA"[min(origins, 3)]


def _by_origin(rows: Sequence[Evidence]) -> dict[str, list[Evidence]]:
    origins: dict[str, list[Evidence]] = {}
    for row in rows:
        origins.setdefault(row.source, []).append(row)
    return origins


def _comfort(rows: Sequence[Evidence]) -> tuple[float | None, float | None]:
    lows: list[float] = []
    highs: list[float] = []
    for group in _by_origin(rows).values():
        weight = 2 if group[0].source_kind in REFERENCE_KINDS else 1
        for ends, values in (
            (lows, [row.low for row in group if row.low is not None]),
            (highs, [row.high for row in group if row.high is not None]),
        ):
            if values:
                ends.extend([median(values)] * weight)
    low = median(lows) if lows else None
    high = median(highs) if highs else None
    if low is not None and high is not None and low > high:
        return high, low
    return low, high


def _tolerance(rows: Sequence[Evidence]) -> tuple[float | None, float | None]:
    groups = _by_origin(rows).values()
    lows = sorted(
        min(values) for group in groups if (values := [row.low for row in group if row.low is not None])
    )
    highs = sorted(
        max(values) for group in groups if (values := [row.high for row in group if row.high is not None])
    )
    low = lows[1 if len(lows) >= TRIM_FROM else 0] if lows else None
    high = highs[-2 if len(highs) >= TRIM_FROM else -1] if highs else None
    return low, high


def _replaced(
    ends: tuple[float | None, float | None], rows: Sequence[Evidence]
) -> tuple[float | None, float | None]:
    low, high = ends
    for row in rows:
        low = row.low if row.low is not None else low
        high = row.high if row.high is not None else high
    return low, high


def _outer(
    tolerance: tuple[float | None, float | None], comfort: tuple[float | None, float | None]
) -> tuple[float | None, float | None]:
    """The tolerance, widened where the comfort reaches beyond it; an end that nobody states stays open."""
    comfortable = [end for end in comfort if end is not None]
    low, high = tolerance
    if low is not None and high is not None and low > high:
        low, high = high, low
    if low is not None or comfort[0] is not None:
        low = min(end for end in (low, *comfortable) if end is not None)
    if high is not None or comfort[1] is not None:
        high = max(end for end in (high, *comfortable) if end is not None)
    return low, high


def _backs(row: Evidence, band: tuple[float | None, float | None]) -> bool:
    """Whether a source agrees with a curator: it overlaps, or is as strict where one end is open."""
    low, high = band
    if low is not None and high is not None:
        return (row.high is None or row.high >= low) and (row.low is None or row.low <= high)
    if low is not None:
        return row.low is not None and row.low >= low
    return row.high is not None and high is not None and row.high <= high


def consensus(rows: Sequence[Evidence]) -> Consensus:
    """The band that one taxon's evidence for one field supports.

    Parameters
    ----------
    rows : sequence of Evidence
        All rows of one taxon and field, in one unit; those with ``use == "none"`` are passed over.

    Returns
    -------
    Consensus
        An end is ``None`` where no source states it.  ``origins`` are those of the comfort band (under a
        curator's row only those that back it), or of the tolerance where there is no comfort band.
    """
    stated = [row for row in rows if row.source != CURATOR]
    curated = [row for row in rows if row.source == CURATOR and row.use != "none"]
    for_comfort = [row for row in stated if row.use == "comfort"]
    for_tolerance = [row for row in stated if row.use != "none"]
    decided = [row for row in curated if row.use == "comfort"]
    comfort = _replaced(_comfort(for_comfort), decided)
    tolerance = _replaced(_tolerance(for_tolerance), [row for row in curated if row.use == "tolerance"])
    backing = (
        [row for row in for_comfort if _backs(row, comfort)] if decided else for_comfort or for_tolerance
    )
    return Consensus(
        comfort,
        _outer(tolerance, comfort),
        tuple(sorted({row.source for row in backing})),
        "; ".join(dict.fromkeys(row.reason for row in curated)),
    )
