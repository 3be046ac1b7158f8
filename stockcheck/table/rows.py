"""Rows of the database as the objects of :mod:`stockcheck.table.model`."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from dataclasses import fields
from typing import Any

from stockcheck.table.model import Band, Material, PlantSpecies, Species

#: Attributes whose column is not simply the camelCase of their name.
_RENAMED = {"common_name": "vernacularName", "adult_male_mm": "adultMale_mm",
            "adult_female_mm": "adultFemale_mm", "height_mm": "height_mm",
            "remarks": "taxonRemarks"}  # fmt: skip
_NOT_COLUMNS = frozenset({"basis", "bands"})
#: Columns that say what a taxon is, not how it lives; they have no basis of their own.
_IDENTITY = frozenset(
    {"slug", "scientific_name", "common_name", "kind", "group", "family", "grade", "remarks"}
)


def column_of(attribute: str) -> str:
    """The column of an attribute of a taxon."""
    first, *rest = attribute.split("_")
    return _RENAMED.get(attribute) or first + "".join(word.capitalize() for word in rest)


def _column_map(model: type) -> dict[str, tuple[str, bool]]:
    """Attribute to column, and whether it is a yes or no."""
    return {
        item.name: (column_of(item.name), item.type == "bool")
        for item in fields(model)
        if item.name not in _NOT_COLUMNS
    }


_SPECIES = _column_map(Species)
_PLANT = _column_map(PlantSpecies)


def _values(row: sqlite3.Row, columns: dict[str, tuple[str, bool]]) -> dict[str, Any]:
    seen = set(row["basisSeen"].split("|"))
    values: dict[str, Any] = {
        name: bool(row[column]) if yes_no else row[column] for name, (column, yes_no) in columns.items()
    }
    values["basis"] = {
        name: "seen" if column in seen else "common practice"
        for name, (column, _) in columns.items()
        if name not in _IDENTITY
    }
    return values


def species_from(row: sqlite3.Row, bands: dict[str, Band]) -> Species:
    values = _values(row, _SPECIES)
    values["zone"] = tuple(values["zone"].split("|"))
    return Species(**values, bands=bands)


def plant_from(row: sqlite3.Row, bands: dict[str, Band]) -> PlantSpecies:
    return PlantSpecies(**_values(row, _PLANT), bands=bands)


def band_from(row: sqlite3.Row) -> Band:
    return Band(
        row["field"],
        row["unit"],
        row["comfortLow"],
        row["comfortHigh"],
        row["toleranceLow"],
        row["toleranceHigh"],
        row["grade"],
        row["origins"],
        tuple(row["sources"].split("|")) if row["sources"] else (),
        row["note"],
    )


def material_from(row: sqlite3.Row, properties: Iterable[sqlite3.Row]) -> Material:
    """A material's grade is that of its worst known property, its source that of all of them."""
    listed = list(properties)
    return Material(
        row["slug"],
        row["name"],
        {item["property"]: (item["low"], item["value"], item["high"]) for item in listed},
        {item["property"]: item["unit"] for item in listed},
        "; ".join(dict.fromkeys(f"{item['property']}: {item['source']}" for item in listed)),
        max((item["grade"] for item in listed), default="D"),
    )
