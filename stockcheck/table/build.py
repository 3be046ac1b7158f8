"""The open table to SQLite: consensus bands, keys, full-text search over names, column descriptions.

The same files give the same bytes: rows are written in a fixed order and nothing of the clock or the
machine goes in.  The new database replaces the old one in a single step or not at all.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stockcheck.errors import reason
from stockcheck.language import say
from stockcheck.table.bands import (
    Bands,
    band_columns,
    bands_of,
    evidence_of,
    size_class,
    taxon_grade,
)
from stockcheck.table.describe import descriptions
from stockcheck.table.names import name_key
from stockcheck.table.package import BuildError, Row, data_hash, read_package, read_rows
from stockcheck.table.read import SCHEMA_VERSION

if TYPE_CHECKING:
    from sqlite_utils import Database
    from sqlite_utils.db import Table

#: Tables whose slug is that of an animal or a plant, which a CSV schema cannot say.
_OF_TAXA = ("species", "plants", "names", "taxonomy", "evidence")
_TYPES: dict[str, type] = {"string": str, "number": float, "integer": int, "boolean": int}


@dataclass(frozen=True, slots=True)
class BuildSummary:
    """What a build wrote."""

    database: Path
    animals: int
    plants: int
    figures: int
    bands: int
    data_hash: str

    def __str__(self) -> str:
        return say(
            "{database}: {animals} animals and {plants} plants, {bands} bands from {figures} figures",
            database=self.database,
            animals=self.animals,
            plants=self.plants,
            bands=self.bands,
            figures=self.figures,
        )


def build(data: Path, database: Path, extend: Callable[[Path], object] | None = None) -> BuildSummary:
    """Build the database from the open table in ``data`` and put it in place of ``database``.

    ``extend`` may add to the new file before it is put in place.

    Raises
    ------
    BuildError
        When a file of the table cannot be used, or the database cannot be written; an existing database
        then stays as it was.
    """
    package = read_package(data)
    tables = {resource["name"]: read_rows(data, resource) for resource in package["resources"]}
    kinds = {str(row["key"]): str(row["kind"]) for row in tables["sources"]}
    evidence = evidence_of(tables["evidence"], kinds)
    _check_slugs(tables)
    bands = bands_of(evidence)
    summary = BuildSummary(
        database,
        animals=len(tables["species"]),
        plants=len(tables["plants"]),
        figures=len(tables["evidence"]),
        bands=sum(len(fields) for fields in bands.values()),
        data_hash=data_hash(data),
    )

    def write(draft: Path) -> None:
        _write(draft, package, tables, bands, summary)
        if extend is not None:
            extend(draft)

    _replace(database, write)
    return summary


def _check_slugs(tables: dict[str, list[Row]]) -> None:
    known = [row["slug"] for name in ("species", "plants") for row in tables[name]]
    if len(known) != len(set(known)):
        twice = sorted({str(slug) for slug in known if known.count(slug) > 1})
        raise BuildError(say("species.csv and plants.csv: {join} stands there twice", join=", ".join(twice)))
    slugs = set(known)
    for name in ("names", "taxonomy", "evidence"):
        for number, row in enumerate(tables[name], start=2):
            if row["slug"] not in slugs:
                raise BuildError(
                    say(
                        "{name}.csv, line {number}: no taxon has the slug {slug!r}",
                        name=name,
                        number=number,
                        slug=row["slug"],
                    )
                )


def _replace(database: Path, write: Callable[[Path], None]) -> None:
    """Write beside the target, flush to disk, then move into place; leave nothing behind on failure."""
    draft = database.with_name(f".{database.name}.{os.getpid()}.new")
    try:
        database.parent.mkdir(parents=True, exist_ok=True)
        draft.unlink(missing_ok=True)
        draft.touch()
    except OSError as error:
        raise BuildError(
            say(
                "{database} cannot be written: {reason}. Set STOCKCHECK_DATABASE to a place that can be "
                "written to.",
                database=database,
                reason=reason(error),
            )
        ) from error
    try:
        write(draft)
        with draft.open("rb") as written:
            os.fsync(written.fileno())
        os.replace(draft, database)
    except (OSError, sqlite3.Error) as error:
        raise BuildError(
            say("{database} cannot be written: {reason}", database=database, reason=reason(error))
        ) from error
    finally:
        for leftover in (draft, draft.with_name(draft.name + "-journal")):
            leftover.unlink(missing_ok=True)


def _write(
    path: Path, package: dict[str, Any], tables: dict[str, list[Row]], bands: Bands, summary: BuildSummary
) -> None:
    from sqlite_utils import Database

    db = Database(path)
    try:
        _write_taxa(db, tables)
        for resource in package["resources"]:
            _write_resource(db, resource, tables, bands)
        _write_bands(db, bands)
        _write_names(db)
        _write_descriptions(db, package, summary)
        faults = list(db.query("PRAGMA foreign_key_check"))
        if faults:
            raise BuildError(
                say(
                    "a row of {table}.csv refers to a missing row: {faults}",
                    table=faults[0]["table"],
                    faults=faults[0],
                )
            )
        db.conn.commit()
        db.conn.execute(f"PRAGMA user_version = {SCHEMA_VERSION}")
        db.conn.execute("VACUUM")
    finally:
        db.close()


def _table(db: Database, name: str) -> Table:
    from sqlite_utils.db import Table

    return Table(db, name)


def _write_taxa(db: Database, tables: dict[str, list[Row]]) -> None:
    shared = ("slug", "scientificName", "taxonRank", "vernacularName", "family", "taxonRemarks")
    rows = [
        {column: row[column] for column in shared} | {"domain": domain, "kind": row.get("kind", "plant")}
        for name, domain in (("species", "animal"), ("plants", "plant"))
        for row in tables[name]
    ]
    _table(db, "taxa").insert_all(sorted(rows, key=lambda row: str(row["slug"])), pk="slug")


def _write_resource(
    db: Database, resource: dict[str, Any], tables: dict[str, list[Row]], bands: Bands
) -> None:
    """One CSV file as one table; animals and plants get their bands as columns."""
    name, schema = resource["name"], resource["schema"]
    columns = {field["name"]: _TYPES[field["type"]] for field in schema["fields"]}
    key = schema.get("primaryKey")
    rows = (
        sorted(tables[name], key=lambda row: tuple(str(row[column]) for column in key))
        if key
        else tables[name]
    )
    if name in ("species", "plants"):
        rows = [_with_bands(row, bands.get(str(row["slug"]), {})) for row in rows]
        derived = {
            column: str if column.endswith(("Grade", "grade", "Class")) else float for column in rows[0]
        }
        columns = derived | columns
    if name == "names":
        key, columns = None, columns | {"nameKey": str}
        rows = [{**row, "nameKey": name_key(str(row["name"]))} for row in rows]
    if key is None:
        columns = {"id": int} | columns
        rows = [{"id": number, **row} for number, row in enumerate(rows, start=1)]
    links = [
        (link["fields"][0], link["reference"]["resource"], link["reference"]["fields"][0])
        for link in schema.get("foreignKeys", [])
    ]
    if name in _OF_TAXA:
        links.append(("slug", "taxa", "slug"))
    _table(db, name).create(
        columns,
        pk=tuple(key) if key and len(key) > 1 else (key[0] if key else "id"),
        foreign_keys=links,
    )
    _table(db, name).insert_all(rows)


def _with_bands(row: Row, bands: dict[str, Any]) -> Row:
    lengths = [float(x) for x in (row.get("adultMale_mm"), row.get("adultFemale_mm")) if x]
    columns: Row = {"adultLength_mm": max(lengths) if lengths else None}
    columns["sizeClass"] = size_class(columns["adultLength_mm"])  # type: ignore[arg-type]
    if "height_mm" in row:
        columns = {}
    return {**row, **columns, **band_columns(bands), "grade": taxon_grade(bands)}


def _write_bands(db: Database, bands: Bands) -> None:
    rows = [
        {
            "slug": slug,
            "field": band.field,
            "unit": band.unit,
            "comfortLow": band.comfort_low,
            "comfortHigh": band.comfort_high,
            "toleranceLow": band.tolerance_low,
            "toleranceHigh": band.tolerance_high,
            "grade": band.grade,
            "origins": band.origins,
            "sources": "|".join(band.sources),
            "note": band.note,
        }
        for slug, fields in bands.items()
        for band in fields.values()
    ]
    _table(db, "bands").create(
        {
            "slug": str, "field": str, "unit": str,
            "comfortLow": float, "comfortHigh": float, "toleranceLow": float, "toleranceHigh": float,
            "grade": str, "origins": int, "sources": str, "note": str,
        },
        pk=("slug", "field"),
        foreign_keys=[("slug", "taxa", "slug")],
    )  # fmt: skip
    _table(db, "bands").insert_all(rows)
    _table(db, "evidence").create_index(["slug", "field"])


def _write_names(db: Database) -> None:
    """Look-up by key, and full-text search without accents."""
    _table(db, "names").create_index(["nameKey"])
    _table(db, "names").enable_fts(["name"], tokenize="unicode61 remove_diacritics 2")


def _write_descriptions(db: Database, package: dict[str, Any], summary: BuildSummary) -> None:
    _table(db, "column_descriptions").insert_all(
        (
            {"tableName": table, "columnName": column, "unit": unit, "description": text}
            for table, column, unit, text in descriptions(package)
        ),
        pk=("tableName", "columnName"),
    )
    _table(db, "build_stamp").insert(
        {
            "schemaVersion": SCHEMA_VERSION,
            "dataHash": summary.data_hash,
            "dataVersion": package["version"],
            "animals": summary.animals,
            "plants": summary.plants,
            "figures": summary.figures,
            "bands": summary.bands,
            "licence": "CC BY 4.0, https://creativecommons.org/licenses/by/4.0/",
            "citation": f"stockcheck contributors. {package['title']}. Version {package['version']}.",
        },
        pk="dataHash",
    )
