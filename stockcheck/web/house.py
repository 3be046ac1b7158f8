"""Which of datasette's databases is the species table, and the table opened for our own pages."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any
from weakref import WeakKeyDictionary

from stockcheck.rules.bands import Taxon
from stockcheck.table.metadata import datasette_metadata
from stockcheck.table.read import Table, TableError


@dataclass
class House:
    """The species table as one datasette serves it: the database's name there, and our reader of it."""

    database: str
    path: Path
    table: Table

    @cached_property
    def metadata(self) -> dict[str, Any]:
        return datasette_metadata(self.path)

    def meaning(self, table: str) -> str:
        """What one of the tables holds; empty for one that is not described."""
        described = self.metadata["databases"][self.database]["tables"].get(table, {})
        return str(described.get("description", ""))

    @cached_property
    def names(self) -> list[tuple[str, str]]:
        """Common and scientific name of every taxon, for choosing while typing."""
        taxa: list[Taxon] = [*self.table.all_species(), *self.table.all_plants()]
        return sorted((taxon.common_name or taxon.scientific_name, taxon.scientific_name) for taxon in taxa)


_HOUSES: WeakKeyDictionary[Any, House | None] = WeakKeyDictionary()


def house_of(datasette: Any) -> House | None:
    """The species table among a datasette's databases; ``None`` where it serves something else."""
    if datasette not in _HOUSES:
        _HOUSES[datasette] = _find(datasette)
    return _HOUSES[datasette]


def _find(datasette: Any) -> House | None:
    for name, database in datasette.databases.items():
        if database.path is None:
            continue
        path = Path(database.path)
        try:
            return House(name, path, Table.open(path))
        except TableError:
            continue
    return None
