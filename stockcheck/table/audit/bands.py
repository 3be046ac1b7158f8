"""Bands that do not fit their own evidence, the taxon's other figures, or its relatives."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from stockcheck.table.audit.model import Doubt, OpenTable, settled
from stockcheck.table.consensus import CURATOR
from stockcheck.table.package import Row

WATER = ("temperature", "pH", "GH")
#: How far the middle of a band may stand from the middle of its relatives' ...
_UNLIKE = {"temperature": 3.0, "pH": 0.8, "GH": 8.0}
#: ... and how far in terms of the relatives' own median deviation.
_SPREADS = 3.0
#: Relatives are the genus where so many of it are known, else the family.
_ENOUGH = {"genus": 3, "family": 5}
_SIZE_SHORT, _SIZE_LONG = 0.7, 1.4
#: No sexes in the table are this unlike in length; a slip of a digit or a unit is.
_SEXES_UNLIKE = 2.0
_NARROW = 0.5
_TANK_LENGTHS = 3.0


def _closed(table: OpenTable, slug: str, field: str) -> tuple[float, float] | None:
    """The comfort band, where it has both ends."""
    band = table.bands.get(slug, {}).get(field)
    if band is None or band.comfort_low is None or band.comfort_high is None:
        return None
    return band.comfort_low, band.comfort_high


def _unsettled(table: OpenTable) -> Iterator[tuple[str, str, tuple[float, float]]]:
    """Closed water bands that no curator has decided on."""
    for slug in table.bands:
        for field in WATER:
            band = _closed(table, slug, field)
            if band and not settled(table, slug, field):
                yield slug, field, band


def _longest(taxon: Row) -> float:
    return max((float(x) for x in (taxon["adultMale_mm"], taxon["adultFemale_mm"]) if x), default=0.0)


def sizes_no_source_shares(table: OpenTable) -> Iterator[Doubt]:
    """Adult lengths in species.csv that lie outside all that sources state."""
    for slug, taxon in table.animals.items():
        rows = [row for _, row in table.grouped.get((slug, "adult_length"), []) if row.use != "none"]
        stated = [end for row in rows for end in (row.low, row.high) if end is not None]
        longest = _longest(taxon)
        if not stated or not longest or settled(table, slug, "adult_length"):
            continue
        if not min(stated) * _SIZE_SHORT <= longest <= max(stated) * _SIZE_LONG:
            text = f"{longest:g} mm in species.csv, sources say {min(stated):g} to {max(stated):g}"
            yield Doubt("error", slug, "adult_length", text)


def sexes_unlike_in_size(table: OpenTable) -> Iterator[Doubt]:
    """Adult lengths of male and female of which one is twice the other: a slip, or worth a remark."""
    for slug, taxon in table.animals.items():
        male, female = float(taxon["adultMale_mm"] or 0), float(taxon["adultFemale_mm"] or 0)
        if male and female and max(male, female) >= _SEXES_UNLIKE * min(male, female):
            yield Doubt("question", slug, "adult_length", f"male {male:g} mm, female {female:g} mm")


def _relatives(table: OpenTable, slug: str, field: str) -> tuple[str, list[float]]:
    """Who the relatives are, and the middles of their bands."""

    def kin(row: Row, rank: str) -> str:
        return str(row["scientificName"]).split()[0] if rank == "genus" else str(row["family"])

    for rank, enough in _ENOUGH.items():
        name = kin(table.taxa[slug], rank)
        middles = [
            sum(band) / 2
            for other, row in table.taxa.items()
            if other != slug and kin(row, rank) == name and (band := _closed(table, other, field))
        ]
        if len(middles) >= enough:
            return f"{rank} {name}", middles
    return "", []


def unlike_relatives(table: OpenTable) -> Iterator[Doubt]:
    """Bands far from those of the genus or family: often right, always worth a look."""
    for slug, field, band in _unsettled(table):
        kin, middles = _relatives(table, slug, field)
        if not middles:
            continue
        centre = median(middles)
        spread = median([abs(middle - centre) for middle in middles])
        middle = sum(band) / 2
        if abs(middle - centre) > max(_UNLIKE[field], _SPREADS * spread):
            yield Doubt("question", slug, field, f"middle {middle:.4g}, {kin} {centre:.4g} ({len(middles)})")


def narrower_than_sources(table: OpenTable) -> Iterator[Doubt]:
    """Comfort bands less than half as wide as their own sources usually state, or of no width."""
    for slug, field, (low, high) in _unsettled(table):
        widths = [
            row.high - row.low
            for _, row in table.grouped[slug, field]
            if row.use == "comfort" and row.source != CURATOR and row.low is not None and row.high is not None
        ]
        if high - low < _NARROW * median(widths) or high == low:
            text = f"{low:g} to {high:g}, sources are {median(widths):.3g} wide"
            yield Doubt("question", slug, field, text)


def tanks_too_small(table: OpenTable) -> Iterator[Doubt]:
    """Smallest tanks shorter than three times the adult: advice on juveniles, most often."""
    for slug, taxon in table.animals.items():
        band = table.bands.get(slug, {}).get("min_tank_length")
        shortest = (band.comfort_low or band.comfort_high) if band else None
        longest = _longest(taxon) / 10
        if shortest and shortest < _TANK_LENGTHS * longest and not settled(table, slug, "min_tank_length"):
            yield Doubt(
                "question", slug, "min_tank_length", f"{shortest:g} cm for an animal of {longest:g} cm"
            )


def single_source(table: OpenTable) -> Iterator[Doubt]:
    """Water bands that rest on one origin."""
    for slug in table.animals:
        for field in WATER:
            band = table.bands.get(slug, {}).get(field)
            if band and band.origins == 1:
                yield Doubt("gap", slug, field, f"only {band.sources[0]}")


def common_practice_bands(table: OpenTable) -> Iterator[Doubt]:
    """Water bands that rest on no source at all."""
    for slug in table.animals:
        for field in WATER:
            band = table.bands.get(slug, {}).get(field)
            if band and band.origins == 0:
                yield Doubt("gap", slug, field, band.note)


#: How far a row's adult size may stand outside the comfort of its adult-length band, as a ratio.
_SIZE_OFF = 1.15


def sizes_unlike_their_band(table: OpenTable) -> Iterator[Doubt]:
    """Adult sizes in species.csv that lie outside what the evidence of adult length says."""
    for slug, taxon in table.animals.items():
        longest, band = _longest(taxon), _closed(table, slug, "adult_length")
        if band is None or not longest:
            continue
        if longest > _SIZE_OFF * band[1] or longest * _SIZE_OFF < band[0]:
            text = f"{longest:g} mm in species.csv, {band[0]:g} to {band[1]:g} by the evidence"
            yield Doubt("question", slug, "adult_length", text)


def groups_unlike_their_band(table: OpenTable) -> Iterator[Doubt]:
    """Smallest groups in species.csv that are smaller than any source accepts."""
    for slug, taxon in table.animals.items():
        band, least = table.bands.get(slug, {}).get("group_min"), taxon["groupMin"]
        if band is None or least in (None, "") or band.tolerance_low is None:
            continue
        if float(str(least)) < band.tolerance_low - 1:
            text = f"{least} in species.csv, {band.tolerance_low:g} or more by the evidence"
            yield Doubt("question", slug, "group_min", text)
