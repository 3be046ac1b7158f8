"""Evidence rows to bands, and bands to the columns a person browses."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from stockcheck.language import say
from stockcheck.table.consensus import CURATOR, Evidence, consensus, grade_of
from stockcheck.table.model import Band
from stockcheck.table.package import BuildError, Row

#: Fields whose bands stand in the species table itself, with the stem of their column names.
WATER_FIELDS = ("temperature", "pH", "GH", "KH")
#: A taxon's grade is the weakest of these.
GRADED_FIELDS = ("temperature", "pH", "GH")
#: Upper limits of the size classes, mm.
SIZE_CLASSES = (("tiny", 30.0), ("small", 60.0), ("medium", 120.0), ("large", 250.0), ("giant", float("inf")))

_NO_BAND = Band("", "", None, None, None, None, "D", 0)

Bands = dict[str, dict[str, Band]]


def evidence_of(rows: Iterable[Row], source_kinds: Mapping[str, str]) -> list[Evidence]:
    """Typed evidence from the rows of evidence.csv.

    Raises
    ------
    BuildError
        For a low above its high, a row without any figure, an unknown source, or a row that is set aside,
        or a curator's own, without a reason.
    """
    evidence = []
    for number, row in enumerate(rows, start=2):
        place = say(
            "evidence.csv, line {number} ({slug}, {field}, {source})",
            number=number,
            slug=row["slug"],
            field=row["field"],
            source=row["source"],
        )
        item = Evidence(**row, source_kind=source_kinds.get(str(row["source"]), ""))  # type: ignore[arg-type]
        if not item.source_kind:
            raise BuildError(say("{place}: the source is not in sources.csv", place=place))
        if item.low is None and item.high is None:
            raise BuildError(say("{place}: gives neither low nor high", place=place))
        if item.low is not None and item.high is not None and item.low > item.high and item.use != "none":
            raise BuildError(
                say(
                    "{place}: low {item_low:g} is above high {item_high:g}",
                    place=place,
                    item_low=item.low,
                    item_high=item.high,
                )
            )
        if not item.reason and (item.use == "none" or item.source == CURATOR):
            raise BuildError(say("{place}: needs a reason", place=place))
        evidence.append(item)
    return evidence


def bands_of(evidence: Iterable[Evidence]) -> Bands:
    """The consensus band of every taxon and field, sorted by both."""
    grouped: dict[tuple[str, str], list[Evidence]] = {}
    for item in evidence:
        grouped.setdefault((item.slug, item.field), []).append(item)
    bands: Bands = {}
    for (slug, field), rows in sorted(grouped.items()):
        if band := band_from(rows):
            bands.setdefault(slug, {})[field] = band
    return bands


def band_from(rows: Sequence[Evidence]) -> Band | None:
    """One band, or ``None`` when every row is set aside."""
    result = consensus(rows)
    if result.tolerance == (None, None):
        return None
    return Band(
        rows[0].field,
        rows[0].unit,
        _rounded(result.comfort[0]),
        _rounded(result.comfort[1]),
        _rounded(result.tolerance[0]),
        _rounded(result.tolerance[1]),
        grade=grade_of(len(result.origins)),
        origins=len(result.origins),
        sources=result.origins,
        note=result.note,
    )


def _rounded(end: float | None) -> float | None:
    return None if end is None else round(end, 3)


def taxon_grade(bands: Mapping[str, Band]) -> str:
    """The weakest grade among temperature, pH and GH; D when one of them is missing."""
    return max((bands[field].grade if field in bands else "D") for field in GRADED_FIELDS)


def size_class(length_mm: float | None) -> str | None:
    """tiny below 30 mm, small below 60, medium below 120, large below 250, giant from there."""
    if length_mm is None:
        return None
    return next(name for name, limit in SIZE_CLASSES if length_mm < limit)


def _width(band: Band) -> float | None:
    """How wide the comfort is, where both ends are known."""
    if band.comfort_low is None or band.comfort_high is None:
        return None
    return round(band.comfort_high - band.comfort_low, 3)


def band_columns(bands: Mapping[str, Band]) -> Row:
    """The water bands of one taxon as columns, and its smallest tank where sources state one."""
    columns: Row = {}
    for field in WATER_FIELDS:
        band = bands.get(field, _NO_BAND)
        columns[f"{field}ComfortLow"] = band.comfort_low
        columns[f"{field}ComfortHigh"] = band.comfort_high
        columns[f"{field}ToleranceLow"] = band.tolerance_low
        columns[f"{field}ToleranceHigh"] = band.tolerance_high
        columns[f"{field}Width"] = _width(band)
        columns[f"{field}Grade"] = band.grade
    for field, column in (("min_tank_length", "minTankLength_cm"), ("min_tank_volume", "minTankVolume_L")):
        band = bands.get(field, _NO_BAND)
        columns[column] = band.comfort_high if band.comfort_low is None else band.comfort_low
    return columns
