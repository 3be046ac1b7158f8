"""The build: complete, deterministic, atomic, and plain about what is wrong."""

from __future__ import annotations

import csv
import json
import os
import shutil
import sqlite3
from collections import Counter
from pathlib import Path

import pytest

from stockcheck.table.build import build
from stockcheck.table.package import BuildError, data_hash, read_package
from stockcheck.table.read import Table

#: What was gathered at the start; rows are settled, added to, never dropped.
GATHERED = {
    "adult_length": 2305,
    "temperature": 1760,
    "pH": 1481,
    "min_tank_volume": 962,
    "GH": 948,
    "group_min": 581,
    "lifespan": 581,
    "min_tank_length": 417,
    "height": 208,
    "brood_size": 120,
    "KH": 113,
    "brood_interval": 25,
}


@pytest.fixture
def small(tmp_path: Path, data_folder: Path) -> Path:
    """A copy of the open table that a test may break."""
    copy = tmp_path / "data"
    shutil.copytree(data_folder, copy, ignore=shutil.ignore_patterns("plans"))
    return copy


def rewrite(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_frictionless_finds_the_package_valid(data_folder: Path) -> None:
    import frictionless

    report = frictionless.validate(str(data_folder / "datapackage.json"))
    assert report.valid, report.flatten(["path", "rowNumber", "fieldName", "note"])


def test_every_figure_that_was_gathered_is_still_there(data_folder: Path) -> None:
    with (data_folder / "evidence.csv").open(encoding="utf-8", newline="") as lines:
        rows = [row for row in csv.DictReader(lines) if row["source"] != "curator"]
    counts = Counter(row["field"] for row in rows)
    assert {field: counts[field] for field, number in GATHERED.items() if counts[field] < number} == {}


def test_every_taxon_is_there(table: Table) -> None:
    stamp = table.stamp()
    assert stamp.animals >= 418
    assert stamp.plants >= 58
    assert len(table.all_species()) == stamp.animals
    assert len(table.all_plants()) == stamp.plants


def test_same_input_same_bytes(data_folder: Path, tmp_path: Path) -> None:
    one, other = tmp_path / "one.db", tmp_path / "other.db"
    build(data_folder, one)
    build(data_folder, other)
    assert one.read_bytes() == other.read_bytes()


def test_the_stamp_follows_the_data(small: Path, tmp_path: Path, table: Table) -> None:
    assert table.stamp().data_hash == data_hash(small)
    rewrite(small / "species.csv", ",peaceful,", ",boisterous,")
    build(small, tmp_path / "changed.db")
    assert Table.open(tmp_path / "changed.db").stamp().data_hash != table.stamp().data_hash


def test_keys_hold(database: Path) -> None:
    with sqlite3.connect(database) as connection:
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        links = {row[2] for row in connection.execute("PRAGMA foreign_key_list(evidence)")}
    assert links == {"taxa", "sources"}


def test_full_text_search_over_all_names(database: Path) -> None:
    with sqlite3.connect(database) as connection:
        found = connection.execute(
            "SELECT DISTINCT slug FROM names JOIN names_fts ON names.id = names_fts.rowid "
            "WHERE names_fts MATCH 'lohachata'"
        ).fetchall()
    assert ("botia-lohachata",) in found


def test_every_column_is_described(database: Path, table: Table) -> None:
    described = table.descriptions()
    with sqlite3.connect(database) as connection:
        for name in ("species", "plants", "bands", "evidence", "names", "taxa", "media"):
            columns = {row[1] for row in connection.execute(f"PRAGMA table_info({name})")} - {"id"}
            assert columns - described[name].keys() == set()


@pytest.mark.parametrize(
    ("file", "old", "new", "told"),
    [
        ("evidence.csv", "neocaridina-davidi", "neocaridina-davidii", "no taxon has the slug"),
        ("evidence.csv", ",degC,", ",degX,", "is none of"),
        ("species.csv", ",fresh,", ",salt,", "is none of"),
        ("media.csv", ",0.6,", ",much,", "is not a number"),
        ("sources.csv", "fishbase,database", "fishbosh,database", "is not in sources.csv"),
        ("species.csv", "slug,", "slag,", "the columns must be"),
    ],
)
def test_a_wrong_value_is_told_with_its_place(
    small: Path, tmp_path: Path, file: str, old: str, new: str, told: str
) -> None:
    rewrite(small / file, old, new)
    with pytest.raises(BuildError, match=told) as raised:
        build(small, tmp_path / "x.db")
    assert ".csv" in str(raised.value)
    assert not (tmp_path / "x.db").exists()


def test_low_above_high_is_refused_unless_set_aside(small: Path, tmp_path: Path) -> None:
    with (small / "evidence.csv").open("a", encoding="utf-8") as lines:
        lines.write("betta-splendens,temperature,30,20,degC,,30-20,fishbase,https://x.example,comfort,\n")
    with pytest.raises(BuildError, match=r"low 30 is above high 20"):
        build(small, tmp_path / "x.db")


def test_a_curators_row_needs_a_reason(small: Path, tmp_path: Path) -> None:
    with (small / "evidence.csv").open("a", encoding="utf-8") as lines:
        lines.write("betta-splendens,temperature,24,28,degC,,,curator,,comfort,\n")
    with pytest.raises(BuildError, match="needs a reason"):
        build(small, tmp_path / "x.db")


def test_a_failing_build_leaves_the_old_table_and_nothing_else(small: Path, tmp_path: Path) -> None:
    target = tmp_path / "out" / "stockcheck.db"
    build(small, target)
    before = target.read_bytes()
    # A key that points nowhere is only found after everything is written.
    rewrite(small / "hybrids.csv", "ancistrus-cirrhosus,", "ancistrus-nowhere,")
    with pytest.raises(BuildError):
        build(small, target)
    assert target.read_bytes() == before
    assert [path.name for path in target.parent.iterdir()] == ["stockcheck.db"]


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_cannot_be_written(tmp_path: Path, data_folder: Path) -> None:
    closed = tmp_path / "closed"
    closed.mkdir(mode=0o500)
    with pytest.raises(BuildError, match="STOCKCHECK_DATABASE"):
        build(data_folder, closed / "stockcheck.db")


def test_a_target_whose_parent_is_a_file(tmp_path: Path, data_folder: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(BuildError, match="cannot be written"):
        build(data_folder, tmp_path / "file" / "stockcheck.db")


def test_a_folder_without_a_table(tmp_path: Path) -> None:
    with pytest.raises(BuildError, match=r"datapackage\.json is missing"):
        build(tmp_path, tmp_path / "x.db")
    (tmp_path / "datapackage.json").write_text("{")
    with pytest.raises(BuildError, match="cannot be read"):
        read_package(tmp_path)


def test_the_descriptor_states_a_licence(data_folder: Path) -> None:
    package = json.loads((data_folder / "datapackage.json").read_text(encoding="utf-8"))
    assert [licence["name"] for licence in package["licenses"]] == ["CC-BY-4.0"]
