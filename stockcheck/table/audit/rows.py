"""Single rows that disagree with the other sources of their taxon."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations
from statistics import median

from stockcheck.table.audit.model import Doubt, OpenTable, row_doubt
from stockcheck.table.consensus import CURATOR, Evidence

#: How far an end may stand from the median of the other sources': a difference, or a ratio for sizes.
_FAR = {"temperature": 6.0, "pH": 1.5, "GH": 15.0, "KH": 10.0}
_FAR_RATIO = {
    "adult_length": 1.8,
    "height": 3.0,
    "min_tank_length": 2.5,
    "min_tank_volume": 5.0,
    "lifespan": 3.0,
}
#: Ratios that a forgotten conversion leaves behind.
_LENGTH_SLIPS = {
    "inches taken for cm": 1 / 2.54,
    "cm taken for inches": 2.54,
    "cm for mm": 10.0,
    "mm for cm": 0.1,
}
_SLIPS = {
    "adult_length": _LENGTH_SLIPS,
    "height": _LENGTH_SLIPS,
    "min_tank_length": _LENGTH_SLIPS,
    "min_tank_volume": {"gallons taken for litres": 1 / 3.785, "litres taken for gallons": 3.785},
    "GH": {"mg/L taken for dGH": 17.85, "dGH taken for mg/L": 1 / 17.85},
}
_SLIP_TOLERANCE = 0.08
_MIN_OTHERS = 3


def _ends(row: Evidence) -> list[tuple[str, float]]:
    return [(end, value) for end, value in (("low", row.low), ("high", row.high)) if value is not None]


def _others(rows: list[tuple[int, Evidence]], row: Evidence, end: str) -> list[float]:
    """The same end as the other origins state it, one figure an origin."""
    by_origin: dict[str, list[float]] = {}
    for _, other in rows:
        value = getattr(other, end)
        if value is None or other.source in (row.source, CURATOR) or other.use == "none":
            continue
        if not row.sex or not other.sex or row.sex == other.sex:
            by_origin.setdefault(other.source, []).append(value)
    return [median(values) for values in by_origin.values()]


def low_above_high(table: OpenTable) -> Iterator[Doubt]:
    """Ends the wrong way round (the build refuses them unless the row is set aside)."""
    for line, row in table.stated():
        if row.low is not None and row.high is not None and row.low > row.high and not row.reason:
            yield row_doubt("error", line, row, f"{row.low:g} above {row.high:g}")


def unit_slips(table: OpenTable) -> Iterator[Doubt]:
    """Ends that stand to the other sources' median as two units stand to one another."""
    for line, row in table.stated():
        if row.reason:
            continue
        if row.field == "temperature" and any(value > 45 for _, value in _ends(row)):
            yield row_doubt("error", line, row, f"degF taken for degC? {row.as_stated}")
        for end, value in _ends(row):
            others = _others(table.grouped[row.slug, row.field], row, end)
            if len(others) < _MIN_OTHERS or median(others) == 0:
                continue
            ratio = value / median(others)
            for slip, expected in _SLIPS.get(row.field, {}).items():
                if abs(ratio / expected - 1) < _SLIP_TOLERANCE and _stands_alone(value, others):
                    yield row_doubt(
                        "error", line, row, f"{slip}? {value:g} against {median(others):g}: {row.as_stated}"
                    )


def _stands_alone(value: float, others: list[float]) -> bool:
    """Whether no other source stands near; where sources are spread, distance says nothing."""
    return not any(0.8 <= other / value <= 1.25 for other in others if value)


def outliers(table: OpenTable) -> Iterator[Doubt]:
    """Ends far from the median of the taxon's other sources."""
    for line, row in table.stated():
        if row.reason or row.use == "none":
            continue
        for end, value in _ends(row):
            others = _others(table.grouped[row.slug, row.field], row, end)
            if len(others) < _MIN_OTHERS:
                continue
            middle = median(others)
            if not _far(row.field, value, middle) or not _stands_alone(value, others):
                continue
            spread = f"{min(others):g} to {max(others):g}, median {middle:g}"
            text = f"{end} {value:g} against {spread} of {len(others)} others: {row.as_stated}"
            yield row_doubt("error", line, row, text)


def _far(field: str, value: float, middle: float) -> bool:
    if field in _FAR:
        return abs(value - middle) > _FAR[field]
    ratio = _FAR_RATIO.get(field)
    return ratio is not None and middle > 0 and not 1 / ratio <= value / middle <= ratio


#: How far two sources' intervals may lie apart, and one source's end beyond those of all others.
_APART = {"temperature": 3.0, "pH": 0.7, "GH": 8.0, "KH": 6.0}


def contradictions(table: OpenTable) -> Iterator[Doubt]:
    """Two intervals of one field that lie far apart, where too few sources speak to say which is out."""
    for (_, field), rows in table.grouped.items():
        apart = _APART.get(field)
        told = [(line, row) for line, row in rows if _speaks(row) and None not in (row.low, row.high)]
        if apart is None or not 2 <= len(told) <= _MIN_OTHERS:
            continue
        for (_, one), (line, other) in combinations(told, 2):
            assert one.low is not None and one.high is not None
            assert other.low is not None and other.high is not None
            if max(one.low - other.high, other.low - one.high) > apart:
                text = f"{other.low:g} to {other.high:g}, but {one.source} says {one.low:g} to {one.high:g}"
                yield row_doubt("question", line, other, text)


def beyond_all_others(table: OpenTable) -> Iterator[Doubt]:
    """Ends that no other source comes near, though they are not far enough out to be errors."""
    for line, row in table.stated():
        apart = _APART.get(row.field)
        if apart is None or not _speaks(row):
            continue
        for end, value in _ends(row):
            others = _others(table.grouped[row.slug, row.field], row, end)
            if len(others) < _MIN_OTHERS or _far(row.field, value, median(others)):
                continue
            if value < min(others) - apart or value > max(others) + apart:
                text = f"{end} {value:g} against {min(others):g} to {max(others):g} of {len(others)} others"
                yield row_doubt("question", line, row, f"{text}: {row.as_stated}")


def _speaks(row: Evidence) -> bool:
    """Whether a row counts for comfort and nobody has decided on it."""
    return not row.reason and row.use in ("", "comfort") and row.source != CURATOR


def length_mix_ups(table: OpenTable) -> Iterator[Doubt]:
    """Lengths stated as SL for a taxon whose row is in TL, or the reverse, where no reason says so."""
    for line, row in table.stated():
        if row.field != "adult_length" or row.reason:
            continue
        stated = set(re.findall(r"\b(?:SL|TL)\b", row.as_stated))
        expected = table.taxa[row.slug].get("lengthType")
        if len(stated) == 1 and expected and expected not in stated:
            text = f"{stated.pop()} for a taxon measured in {expected}: {row.as_stated}"
            yield row_doubt("error", line, row, text)
