"""The lists of pairs in the table name taxa that are there."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from stockcheck.rules.company.relations import carried_between, hybrid_of, lookalike_of
from stockcheck.table.read import Table


def rows(folder: Path, name: str) -> list[dict[str, str]]:
    with (folder / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("name", ["hybrids", "lookalikes"])
def test_both_of_a_pair_are_in_the_table_once(name: str, data_folder: Path, table: Table) -> None:
    known = {species.slug for species in table.all_species()}
    pairs = [(row["slug"], row["other"]) for row in rows(data_folder, name)]
    assert pairs and all(one < other for one, other in pairs)
    assert len(set(pairs)) == len(pairs)
    assert {slug for pair in pairs for slug in pair} <= known


def test_carriers_and_those_they_infect_are_in_the_table(data_folder: Path, table: Table) -> None:
    species = table.all_species()
    known = {
        "slug": {taxon.slug for taxon in species},
        "genus": {taxon.scientific_name.split()[0] for taxon in species},
        "family": {taxon.family for taxon in species},
    }
    for row in rows(data_folder, "carriers"):
        assert row["slug"] in known["slug"]
        assert row["susceptible"] in known[row["susceptibleRank"]], row
        assert row["remedy"].endswith(".") and row["basis"]


def test_relations_hold_either_way_but_carrying_does_not(table: Table) -> None:
    guppy, endler = table.species("poecilia-reticulata"), table.species("poecilia-wingei")
    assert hybrid_of(guppy, endler) == hybrid_of(endler, guppy) is not None
    assert lookalike_of(guppy, endler) == lookalike_of(endler, guppy) is not None
    angelfish, discus = table.species("pterophyllum-scalare"), table.species("symphysodon-aequifasciatus")
    assert carried_between(angelfish, discus) is not None
    assert carried_between(discus, angelfish) is None
