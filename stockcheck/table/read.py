"""The reading side of the built table: names to taxa, taxa with their bands, evidence, materials."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import Any, NamedTuple

from stockcheck.errors import reason
from stockcheck.language import say
from stockcheck.table.consensus import Evidence
from stockcheck.table.location import database_path
from stockcheck.table.model import Band, Material, PlantSpecies, Species
from stockcheck.table.names import name_key, plain_name
from stockcheck.table.rows import band_from, material_from, plant_from, species_from

#: Goes up with every change of the database's shape; a database of another number is refused.
SCHEMA_VERSION = 1
MATERIAL_TABLES = ("media", "substrates", "rocks", "feeds", "treatments")
#: A shorthand for the beginning of a name has at least so many letters.
_SHORTHAND = 4
#: Names less alike than this (per cent) are not offered.
_ALIKE = 55.0
#: Sharing all words counts a little less than being spelled alike.
_SUBSET = 0.9
_REMEDY = say("Run `stockcheck build` to make it anew.")


class TableError(Exception):
    """The built table is missing, damaged or of another version; the message says what to do."""


class Match(NamedTuple):
    """A taxon that a name may mean.  ``kind`` is animal or plant; ``matched_name`` the name in the table.

    ``partial`` matches come from a shorthand (cory, convict, a genus) rather than a whole name.
    """

    slug: str
    kind: str
    scientific_name: str
    matched_name: str
    partial: bool = False


class Source(NamedTuple):
    """Where figures come from: its key and what kind of source it is."""

    key: str
    kind: str


class Stamp(NamedTuple):
    """Which state of the open table a database was built from."""

    data_hash: str
    data_version: str
    animals: int
    plants: int
    figures: int
    bands: int


def _connect(path: Path) -> sqlite3.Connection:
    if path.is_dir():
        raise TableError(
            say("The species table cannot be read: {path} is a folder. Name the file in it.", path=path)
        )
    if not path.is_file():
        raise TableError(
            say("The species table is missing: {path} does not exist. {remedy}", path=path, remedy=_REMEDY)
        )
    try:
        with path.open("rb") as file:
            header = file.read(100)
        page_size, pages = int.from_bytes(header[16:18], "big"), int.from_bytes(header[28:32], "big")
        if header.startswith(b"SQLite format 3") and path.stat().st_size < page_size * pages:
            raise TableError(
                say("The species table is cut short: {path}. {remedy}", path=path, remedy=_REMEDY)
            )
        # Only whole files are ever moved into place, so an opened one never changes: immutable is safe.
        uri = f"{path.resolve().as_uri()}?mode=ro&immutable=1"
        connection = sqlite3.connect(uri, uri=True, check_same_thread=False)
        connection.row_factory = sqlite3.Row
        (version,) = connection.execute("SELECT schemaVersion FROM build_stamp").fetchone()
    except (OSError, sqlite3.Error, TypeError) as error:
        raise TableError(
            say(
                "The species table cannot be read: {path}: {reason}. {remedy}",
                path=path,
                reason=reason(error),
                remedy=_REMEDY,
            )
        ) from error
    if version != SCHEMA_VERSION:
        raise TableError(
            say(
                "The species table {path} is of version {version}; this program reads {schema_version}. ",
                path=path,
                version=version,
                schema_version=SCHEMA_VERSION,
            )
            + _REMEDY
        )
    return connection


def _matches(rows: list[sqlite3.Row], partial: bool) -> list[Match]:
    """One match a taxon, under the first of its names that fits."""
    found: dict[str, Match] = {}
    for row in rows:
        match = Match(row["slug"], row["kind"], row["scientificName"], row["name"], partial)
        found.setdefault(row["slug"], match)
    return list(found.values())


def _without_own_forms(rows: list[sqlite3.Row]) -> list[sqlite3.Row]:
    """The rows less the trade forms of a species that is among them: its slug is the start of theirs."""
    species = tuple(f"{row['slug']}-" for row in rows if row["taxonRank"] != "trade form")
    return [row for row in rows if row["taxonRank"] != "trade form" or not row["slug"].startswith(species)]


class Table:
    """The built table, read-only.  Use :meth:`open`.

    Raises
    ------
    TableError
        From any method, when the database turns out to be damaged.
    """

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self.path = path
        self._connection = connection
        self._species: dict[str, Species] = {}
        self._plants: dict[str, PlantSpecies] = {}
        self._materials: dict[str, dict[str, Material]] = {}

    @classmethod
    def open(cls, path: Path | None = None) -> Table:
        """Open the database at ``path``, by default the one of :func:`database_path`.

        Raises
        ------
        TableError
            When it is missing, damaged, or built for another version.
        """
        path = path or database_path()
        return cls(_connect(path), path)

    def close(self) -> None:
        self._connection.close()

    def _rows(self, query: str, *values: Any) -> list[sqlite3.Row]:
        try:
            return self._connection.execute(query, values).fetchall()
        except sqlite3.Error as error:
            raise TableError(
                say(
                    "The species table cannot be read: {path}: {error}. {remedy}",
                    path=self.path,
                    error=error,
                    remedy=_REMEDY,
                )
            ) from error

    # Names

    def find(self, name: str) -> list[Match]:
        """The taxa that a name may mean: none, one, or several to choose from.

        Scientific names, synonyms and common names count alike, save that an accepted name wins over
        the same name as a synonym of another taxon, and a species over its own trade forms.
        Case, accents, punctuation, spaces and the plural do not matter.  Failing a whole name, the words
        that names begin with ("convict", a genus) or end with ("cory", "tetra") give all that they fit;
        an ending that fits one taxon alone is too vague and gives none.
        """
        key = name_key(name)
        if not key:
            return []
        rows = self._named("n.nameKey = ?", key)
        rows = rows or self._named("replace(n.nameKey, ' ', '') = ?", key.replace(" ", ""))
        if rows:
            accepted = [row for row in rows if row["nameType"] == "accepted"]
            scientific = [row for row in rows if row["nameType"] != "vernacular"]
            species = [row for row in scientific if row["taxonRank"] != "trade form"]
            return _matches(accepted or species or _without_own_forms(rows), partial=False)
        opening = []
        if len(key) >= _SHORTHAND:
            opening = _matches(self._named("n.nameKey LIKE ? || ' %'", plain_name(name)), partial=True)
        ending = _matches(self._named("n.nameKey LIKE '% ' || ?", key), partial=True)
        shorthand = {match.slug: match for match in opening + ending}
        return list(shorthand.values()) if opening or len(shorthand) > 1 else []

    def _named(self, condition: str, key: str) -> list[sqlite3.Row]:
        return self._rows(
            "SELECT n.slug, t.domain AS kind, t.scientificName, n.name, n.nameType, t.taxonRank "
            f"FROM names n JOIN taxa t USING (slug) WHERE {condition} ORDER BY n.id",
            key,
        )

    def nearest(self, name: str, limit: int = 5) -> list[str]:
        """Names in the table that are spelled most like ``name``, one a taxon, the nearest first."""
        from rapidfuzz import fuzz

        key = name_key(name)
        scored = [
            (max(fuzz.ratio(key, row["nameKey"]), _SUBSET * fuzz.token_set_ratio(key, row["nameKey"])), row)
            for row in self._rows("SELECT slug, name, nameKey FROM names ORDER BY id")
        ]
        found: dict[str, str] = {}
        for score, row in sorted(scored, key=lambda item: -item[0]):
            if score < _ALIKE or len(found) == limit:
                break
            if row["name"] not in found.values():
                found.setdefault(row["slug"], row["name"])
        return list(found.values())

    def names(self, slug: str) -> dict[str, list[str]]:
        """All names of one taxon, by type: accepted, synonym, vernacular."""
        names: dict[str, list[str]] = {"accepted": [], "synonym": [], "vernacular": []}
        for row in self._rows("SELECT name, nameType FROM names WHERE slug = ? ORDER BY id", slug):
            names[row["nameType"]].append(row["name"])
        return names

    # Taxa

    def taxa(self) -> list[sqlite3.Row]:
        """Every taxon in short, by slug: names, rank, family, domain, kind, remarks."""
        return self._rows("SELECT * FROM taxa ORDER BY slug")

    def species(self, slug: str) -> Species:
        """One animal with its bands.

        Raises
        ------
        KeyError
            When no animal has this slug.
        """
        if slug not in self._species:
            rows = self._rows("SELECT * FROM species WHERE slug = ?", slug)
            if not rows:
                raise KeyError(slug)
            self._species[slug] = species_from(rows[0], self._bands(slug))
        return self._species[slug]

    def plant(self, slug: str) -> PlantSpecies:
        """One plant with its bands.

        Raises
        ------
        KeyError
            When no plant has this slug.
        """
        if slug not in self._plants:
            rows = self._rows("SELECT * FROM plants WHERE slug = ?", slug)
            if not rows:
                raise KeyError(slug)
            self._plants[slug] = plant_from(rows[0], self._bands(slug))
        return self._plants[slug]

    def all_species(self) -> list[Species]:
        """Every animal, by slug."""
        return [self.species(row["slug"]) for row in self._rows("SELECT slug FROM species ORDER BY slug")]

    def all_plants(self) -> list[PlantSpecies]:
        """Every plant, by slug."""
        return [self.plant(row["slug"]) for row in self._rows("SELECT slug FROM plants ORDER BY slug")]

    def _bands(self, slug: str) -> dict[str, Band]:
        rows = self._rows("SELECT * FROM bands WHERE slug = ? ORDER BY field", slug)
        return {row["field"]: band_from(row) for row in rows}

    # Evidence and sources

    def evidence(self, slug: str, field: str | None = None) -> list[Evidence]:
        """The evidence rows of one taxon, of one field where given, in the order of the file."""
        rows = self._rows(
            "SELECT e.*, s.kind AS source_kind FROM evidence e JOIN sources s ON s.key = e.source "
            "WHERE e.slug = ?1 AND (?2 IS NULL OR e.field = ?2) ORDER BY e.id",
            slug,
            field,
        )
        return [Evidence(*tuple(row)[1:]) for row in rows]

    def source(self, key: str) -> Source:
        """One source.

        Raises
        ------
        KeyError
            When there is none of this key.
        """
        rows = self._rows("SELECT key, kind FROM sources WHERE key = ?", key)
        if not rows:
            raise KeyError(key)
        return Source(*rows[0])

    # Materials

    def material(self, table: str, name: str) -> Material | None:
        """A filter medium, substrate, rock, feed or treatment by any of its names; ``None`` if there is none.

        Parameters
        ----------
        table : str
            ``media``, ``substrates``, ``rocks``, ``feeds`` or ``treatments``.
        """
        return self._material_index(table).get(name_key(name))

    def materials(self, table: str) -> list[Material]:
        """All materials of one table, by slug."""
        return list({material.slug: material for material in self._material_index(table).values()}.values())

    def _material_index(self, table: str) -> dict[str, Material]:
        """Every name of every material of one table, in its look-up form."""
        if table not in MATERIAL_TABLES:
            raise ValueError(f"{table} is none of {', '.join(MATERIAL_TABLES)}")
        if table not in self._materials:
            index: dict[str, Material] = {}
            for row in self._rows("SELECT * FROM materials WHERE use = ? ORDER BY slug", table):
                properties = self._rows(
                    f"SELECT * FROM {table} WHERE slug = ? ORDER BY property", row["slug"]
                )
                material = material_from(row, properties)
                for name in (row["name"], row["slug"], *row["alternativeNames"].split("|")):
                    if key := name_key(name):
                        index.setdefault(key, material)
            self._materials[table] = index
        return self._materials[table]

    # The database itself

    def descriptions(self) -> dict[str, dict[str, tuple[str, str]]]:
        """Unit and meaning of every column by table; a table's own meaning stands under the empty name."""
        tables: dict[str, dict[str, tuple[str, str]]] = {}
        for row in self._rows("SELECT * FROM column_descriptions ORDER BY rowid"):
            tables.setdefault(row["tableName"], {})[row["columnName"]] = (row["unit"], row["description"])
        return tables

    def stamp(self) -> Stamp:
        """Which state of the open table this database was built from."""
        row = self._rows("SELECT * FROM build_stamp")[0]
        return Stamp(
            row["dataHash"], row["dataVersion"], row["animals"], row["plants"], row["figures"], row["bands"]
        )
