"""The open table as the audit sees it, and what it reports."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from stockcheck.table.bands import Bands, bands_of, evidence_of
from stockcheck.table.consensus import CURATOR, Evidence
from stockcheck.table.package import Row, read_package, read_rows

#: A reason that begins so keeps the figure: a curator has looked at it and found it right.
CHECKED = "checked"
LEVELS = ("error", "question", "gap")


class Doubt(NamedTuple):
    """One thing to look at."""

    level: str
    slug: str
    field: str
    text: str
    source: str = ""
    line: int = 0  # of evidence.csv
    check: str = ""


@dataclass(frozen=True, slots=True)
class OpenTable:
    """Taxa, names, what a taxonomy says of them, evidence by taxon and field, and the bands that it gives."""

    taxa: dict[str, Row]
    animals: dict[str, Row]
    names: list[Row]
    taxonomy: list[Row]
    evidence: list[Evidence]
    bands: Bands
    grouped: dict[tuple[str, str], list[tuple[int, Evidence]]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for line, row in enumerate(self.evidence, start=2):
            self.grouped.setdefault((row.slug, row.field), []).append((line, row))

    def stated(self) -> list[tuple[int, Evidence]]:
        """Rows of sources, with their line; a curator's own rows are left out."""
        return [(n, row) for n, row in enumerate(self.evidence, start=2) if row.source != CURATOR]


def read_open_table(data: Path) -> OpenTable:
    """Read the CSV files of the open table and compute its bands."""
    files = {item["name"]: item for item in read_package(data)["resources"]}
    read = {
        name: read_rows(data, files[name])
        for name in ("species", "plants", "names", "taxonomy", "sources", "evidence")
    }
    kinds = {str(row["key"]): str(row["kind"]) for row in read["sources"]}
    evidence = evidence_of(read["evidence"], kinds)
    animals = {str(row["slug"]): row for row in read["species"]}
    plants = {str(row["slug"]): row for row in read["plants"]}
    return OpenTable(animals | plants, animals, read["names"], read["taxonomy"], evidence, bands_of(evidence))


def settled(table: OpenTable, slug: str, field: str) -> bool:
    """Whether a curator has decided on a band: by a row of their own, or a reason that begins "checked"."""
    rows = table.grouped.get((slug, field), [])
    return any(row.source == CURATOR or row.reason.startswith(CHECKED) for _, row in rows)


def row_doubt(level: str, line: int, row: Evidence, text: str) -> Doubt:
    """A doubt about one row."""
    return Doubt(level, row.slug, row.field, text, row.source, line)
