"""What is known of two taxa together, from the table: hybrids, look-alikes, carriers of disease."""

from __future__ import annotations

import csv
from functools import cache
from typing import NamedTuple

from stockcheck.table.location import data_dir
from stockcheck.table.model import Species


class Relation(NamedTuple):
    """One line of ``hybrids.csv`` or ``lookalikes.csv``: why two taxa belong together, and who says so."""

    remarks: str
    basis: str


class Carried(NamedTuple):
    """One line of ``carriers.csv``: a disease that one taxon may bring to another."""

    disease: str
    remedy: str
    basis: str


@cache
def _relations(name: str) -> dict[frozenset[str], Relation]:
    with (data_dir() / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return {
            frozenset((row["slug"], row["other"])): Relation(row["remarks"], row["basis"])
            for row in csv.DictReader(file)
        }


def hybrid_of(one: Species, other: Species) -> Relation | None:
    """Whether two taxa are known, or said, to interbreed in one tank."""
    return _relations("hybrids").get(frozenset((one.slug, other.slug)))


def lookalike_of(one: Species, other: Species) -> Relation | None:
    """Whether the males of two taxa take one another for rivals."""
    return _relations("lookalikes").get(frozenset((one.slug, other.slug)))


@cache
def _carriers() -> dict[str, list[tuple[str, str, Carried]]]:
    found: dict[str, list[tuple[str, str, Carried]]] = {}
    with (data_dir() / "carriers.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            carried = Carried(row["disease"], row["remedy"], row["basis"])
            found.setdefault(row["slug"], []).append((row["susceptibleRank"], row["susceptible"], carried))
    return found


def carried_between(carrier: Species, susceptible: Species) -> Carried | None:
    """The disease that the first taxon is known, or said, to bring to the second."""
    names = {
        "slug": susceptible.slug,
        "genus": susceptible.scientific_name.split()[0],
        "family": susceptible.family,
    }
    for rank, name, carried in _carriers().get(carrier.slug, []):
        if names[rank] == name:
            return carried
    return None
