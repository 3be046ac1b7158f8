"""The built database described for datasette: titles, column meanings and units, facets, licence."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from stockcheck.table.read import Table

LICENCE = "CC BY 4.0"
LICENCE_URL = "https://creativecommons.org/licenses/by/4.0/"
#: A column, or a facet class of the browser with its column.
_FACETS: dict[str, list[str | dict[str, str]]] = {
    "species": ["kind", "family", "temperament", {"zone": "zone"}, "sizeClass", "grade"],
    "plants": ["habit", "placement", "light", "grade"],
    "evidence": ["field", "use"],
    "bands": ["field", "grade"],
    "sources": ["kind"],
    "names": ["nameType"],
}
_LABELS = {
    "taxa": "scientificName",
    "species": "scientificName",
    "plants": "scientificName",
    "sources": "key",
}
_HIDDEN = ("column_descriptions", "build_stamp")


def datasette_metadata(database: Path) -> dict[str, Any]:
    """Metadata for ``datasette`` of the database at that path, keyed by its file's stem.

    Raises
    ------
    TableError
        When the database cannot be read.
    """
    table = Table.open(database)
    try:
        tables = {name: _table(name, columns) for name, columns in table.descriptions().items()}
    finally:
        table.close()
    return {"databases": {database.stem: {"license": LICENCE, "license_url": LICENCE_URL, "tables": tables}}}


def _table(name: str, columns: dict[str, tuple[str, str]]) -> dict[str, Any]:
    described: dict[str, Any] = {
        "description": columns.get("", ("", ""))[1],
        "columns": {
            column: f"{text} ({unit})" if unit else text for column, (unit, text) in columns.items() if column
        },
        "size": 50,
    }
    if name in _FACETS:
        described["facets"] = _FACETS[name]
    if name in _LABELS:
        described["label_column"] = _LABELS[name]
    if name in _HIDDEN:
        described["hidden"] = True
    return described
