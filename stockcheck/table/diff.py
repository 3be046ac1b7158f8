"""What changed between two built tables: taxa that came or went, and bands that moved."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from stockcheck.table.model import Band, PlantSpecies, Species
from stockcheck.table.read import Table


@dataclass(frozen=True, slots=True)
class BandMove:
    """One band that came, went or moved; ``before`` or ``after`` is ``None`` where there is none."""

    slug: str
    scientific_name: str
    field: str
    unit: str
    before: Band | None
    after: Band | None

    def __str__(self) -> str:
        return f"{self.scientific_name}, {self.field}: {_told(self.before)} -> {_told(self.after)}"


@dataclass(frozen=True, slots=True)
class TableDiff:
    """Slugs that came and went, and the bands that moved, sorted by taxon and field."""

    added: tuple[str, ...]
    removed: tuple[str, ...]
    moves: tuple[BandMove, ...]

    def __bool__(self) -> bool:
        return bool(self.added or self.removed or self.moves)


def _ends(low: float | None, high: float | None) -> str:
    if low is None and high is None:
        return "open"
    if low is None:
        return f"up to {high:g}"
    return f"from {low:g}" if high is None else f"{low:g} to {high:g}"


def _told(band: Band | None) -> str:
    if band is None:
        return "none"
    comfort = _ends(band.comfort_low, band.comfort_high)
    tolerance = _ends(band.tolerance_low, band.tolerance_high)
    unit = "" if band.unit == "pH" else f" {band.unit}"
    return f"{comfort}{unit} (tolerance {tolerance}, grade {band.grade})"


def _shape(band: Band | None) -> tuple[object, ...]:
    """What counts as a move: the four ends and the grade, not who says so."""
    if band is None:
        return ()
    return (band.comfort_low, band.comfort_high, band.tolerance_low, band.tolerance_high, band.grade)


def _bands(path: Path) -> dict[str, tuple[str, dict[str, Band]]]:
    table = Table.open(path)
    try:
        taxa: list[Species | PlantSpecies] = [*table.all_species(), *table.all_plants()]
        return {taxon.slug: (taxon.scientific_name, taxon.bands) for taxon in taxa}
    finally:
        table.close()


def diff(old: Path, new: Path) -> TableDiff:
    """Compare two built databases.

    Raises
    ------
    TableError
        When either cannot be read, or is of another version.
    """
    before, after = _bands(old), _bands(new)
    moves = []
    for slug in sorted(before.keys() & after.keys()):
        name, bands = after[slug]
        was = before[slug][1]
        for field in sorted(was.keys() | bands.keys()):
            one, other = was.get(field), bands.get(field)
            if _shape(one) != _shape(other):
                unit = (other or one).unit  # type: ignore[union-attr]
                moves.append(BandMove(slug, name, field, unit, one, other))
    return TableDiff(
        tuple(sorted(after.keys() - before.keys())),
        tuple(sorted(before.keys() - after.keys())),
        tuple(moves),
    )
