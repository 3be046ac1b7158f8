"""The pair table of a plan, one taxon's company, and the pairs of the whole table."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

import pytest

from stockcheck.advice.meetings import meet_in_general, unlike_water
from stockcheck.advice.pairs import pairs, precompute_pairs
from stockcheck.facts.build import build_facts
from stockcheck.plan.reader import read_document
from stockcheck.rules.core import LEVELS
from stockcheck.rules.examples import example_document
from stockcheck.table.read import Table

PLAN = """
[[animals]]
species = "Astronotus ocellatus"
count = 1
[[animals]]
species = "Paracheirodon innesi"
count = 3
[[animals]]
species = "Rineloricaria lanceolata"
males = 1
"""


def test_each_cell_names_the_mechanism(table: Table) -> None:
    reading = read_document(example_document(PLAN), "pairs")
    assert reading.plan is not None
    told = pairs(build_facts(reading.plan, table))
    assert told.names == ("oscar", "neon tetra", "whiptail catfish")
    oscar, neon, whiptail = told.slugs
    assert told.cell(oscar, neon).level == "stop"
    assert "neon tetra: eaten" in told.cell(neon, oscar).words
    assert told.cell(neon, neon).words == "too few"
    assert told.cell(neon, whiptail).level == "clear"
    assert any("35 mm of prey" in message for message in told.cell(oscar, neon).messages)


@pytest.mark.parametrize(
    ("one", "other", "level"),
    [
        ("paracheirodon-innesi", "corydoras-paleatus", ("clear", "watch")),
        ("astronotus-ocellatus", "paracheirodon-innesi", ("stop",)),
        ("betta-splendens", "trichogaster-lalius", ("fix", "stop")),
        ("betta-splendens", "betta-splendens-long-finned", ("stop",)),
        ("maylandia-estherae", "paracheirodon-axelrodi", ("fix", "stop")),
        ("poecilia-reticulata", "xiphophorus-maculatus", ("clear", "watch")),
        ("pterophyllum-scalare", "hyphessobrycon-amandae", ("fix", "stop")),
        ("trichopodus-leerii", "paracheirodon-innesi", ("clear", "watch")),
        ("corydoras-aeneus", "trichogaster-chuna", ("clear", "watch")),
        ("carassius-auratus", "vittina-natalensis", ("clear", "watch")),
        ("carassius-auratus", "symphysodon-aequifasciatus", ("stop", "fix")),
        ("carinotetraodon-travancoricus", "neocaridina-davidi", ("fix", "stop")),
    ],
)
def test_pairs_that_keepers_agree_on(one: str, other: str, level: tuple[str, ...], table: Table) -> None:
    """Common practice, no source."""
    met = meet_in_general(table.species(one), table.species(other))
    assert (met[0].level if met else "clear") in level


def test_goldfish_and_discus_share_no_warmth(table: Table) -> None:
    found = unlike_water(table.species("carassius-auratus"), table.species("symphysodon-aequifasciatus"))
    assert found is not None and found.mechanism == "unlike temperature"


def test_whole_table_precomputed(database: Path, table: Table, tmp_path: Path) -> None:
    copy, twin = tmp_path / "table.db", tmp_path / "twin.db"
    for path in (copy, twin):
        shutil.copy(database, path)
    count = precompute_pairs(copy)
    assert precompute_pairs(twin) == count
    assert copy.read_bytes() == twin.read_bytes(), "the same table gives the same bytes"
    with sqlite3.connect(copy) as connection:
        rows = dict(
            connection.execute(
                "SELECT slug, level FROM company WHERE other = 'paracheirodon-innesi'"
            ).fetchall()
        )
        assert connection.execute("SELECT count(*) FROM pairs").fetchone() == (count,)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    neon = table.species("paracheirodon-innesi")
    live = {
        other.slug: max((met.level for met in found), key=LEVELS.index)
        for other in table.all_species()
        if other.slug != neon.slug and (found := meet_in_general(neon, other))
    }
    assert rows == live
    assert "petitella-rhodostoma" not in rows and rows["astronotus-ocellatus"] == "stop"
    assert Table.open(copy).species("paracheirodon-innesi").common_name == "neon tetra"
