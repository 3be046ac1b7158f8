"""What each table and column of the built database means, for people and for datasette."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from stockcheck.table.bands import WATER_FIELDS

_UNITS = {"temperature": "degC", "pH": "pH", "GH": "dGH", "KH": "dKH"}
_SUFFIXES = {"_mm": "mm", "_cm": "cm", "_L": "L"}

#: Tables and columns that the build adds to those of ``datapackage.json``.
_TABLES = {
    "taxa": "Every taxon, animal or plant: the hub that names, evidence and bands refer to",
    "bands": "The consensus of the evidence, one row a taxon and field",
    "pairs": "What speaks against keeping two animals together, by the table alone; no row: nothing does",
    "company": "The pairs read from either side: all that speaks against one animal's companions",
    "column_descriptions": "What each column means",
    "build_stamp": "Which state of the open table this database was built from",
}
_COLUMNS = {
    ("taxa", "slug"): "Stable, readable key of the taxon",
    ("taxa", "scientificName"): "Accepted scientific name",
    ("taxa", "taxonRank"): "Rank of the row",
    ("taxa", "vernacularName"): "Preferred common name",
    ("taxa", "family"): "Family",
    ("taxa", "taxonRemarks"): "What a reader should know of the taxon",
    ("taxa", "domain"): "animal or plant",
    ("taxa", "kind"): "Kind of animal, or plant",
    ("bands", "slug"): "Taxon",
    ("bands", "field"): "What the band is of",
    ("bands", "unit"): "Unit of the four ends",
    ("bands", "comfortLow"): "Lower end of what most sources agree on; empty when none states one",
    ("bands", "comfortHigh"): "Upper end of what most sources agree on; empty when none states one",
    (
        "bands",
        "toleranceLow",
    ): "Lowest that any source accepts, the single most extreme of four or more left out",
    (
        "bands",
        "toleranceHigh",
    ): "Highest that any source accepts, the single most extreme of four or more left out",
    ("bands", "grade"): "A three or more independent sources, B two, C one, D none",
    ("bands", "origins"): "Number of independent sources behind the band",
    ("bands", "sources"): "Their keys, joined by |",
    ("bands", "note"): "A curator's reason, where one decided",
    **{
        (table, column): meaning
        for table in ("pairs", "company")
        for column, meaning in (
            ("slug", "One animal"),
            ("other", "The other animal"),
            ("level", "The worst that is said of the two: watch, fix or stop"),
            ("mechanisms", "What happens between them, the worst first; a name before it is who bears it"),
        )
    },
    ("names", "nameKey"): "The name in the form used for look-up",
}


def _unit(column: str) -> str:
    return next((unit for suffix, unit in _SUFFIXES.items() if column.endswith(suffix)), "")


def _derived(table: str) -> Iterator[tuple[str, str, str, str]]:
    if table == "species":
        yield table, "adultLength_mm", "mm", "Usual adult length of the larger sex"
        yield (
            table,
            "sizeClass",
            "",
            "tiny below 30 mm, small below 60, medium below 120, large below 250, giant",
        )
    for field in WATER_FIELDS:
        unit = _UNITS[field]
        for end in ("Low", "High"):
            yield table, f"{field}Comfort{end}", unit, f"{end} end of the {field} that most sources agree on"
            yield table, f"{field}Tolerance{end}", unit, f"{end}est {field} that sources accept"
        yield table, f"{field}Width", unit, f"Width of the {field} comfort; empty where an end is open"
        yield table, f"{field}Grade", "", f"How well the {field} band is known: A, B, C or D"
    yield table, "minTankLength_cm", "cm", "Shortest tank that most sources accept"
    yield table, "minTankVolume_L", "L", "Smallest tank that most sources accept"
    yield table, "grade", "", "The weakest grade among temperature, pH and GH"


def descriptions(package: dict[str, Any]) -> Iterator[tuple[str, str, str, str]]:
    """Table, column, unit and meaning of every column; a table's own meaning has an empty column name."""
    for resource in package["resources"]:
        table = resource["name"]
        yield table, "", "", f"{resource['title']}: {resource['description'].lower()}"
        for field in resource["schema"]["fields"]:
            yield table, field["name"], _unit(field["name"]), field["description"]
        if table in ("species", "plants"):
            yield from _derived(table)
    for table, text in _TABLES.items():
        yield table, "", "", text
    for (table, column), text in _COLUMNS.items():
        yield table, column, "", text
