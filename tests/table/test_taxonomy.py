"""Accepted names against the NCBI Taxonomy (a copy of what it says stands in data/taxonomy.csv)."""

from __future__ import annotations

import shutil
from pathlib import Path

from stockcheck.table.audit import audit
from stockcheck.table.package import read_package, read_rows
from stockcheck.table.read import Table


def test_the_name_that_the_taxonomy_uses_resolves_to_the_same_taxon(table: Table, data_folder: Path) -> None:
    files = {item["name"]: item for item in read_package(data_folder)["resources"]}
    rows = read_rows(data_folder, files["taxonomy"])
    assert len(rows) == len(table.taxa())
    found = [row for row in rows if row["acceptedNameUsage"]]
    assert len(found) > 440, "most taxa have a sequence, so most names are there"
    misnamed = {"otocinclus-macrospilus", "macrotocinclus-affinis"}  # the trade calls both by one name
    for row in found:
        slugs = {match.slug for match in table.find(str(row["acceptedNameUsage"]))}
        form_of = any(str(row["slug"]).startswith(f"{slug}-") for slug in slugs)
        assert row["slug"] in slugs or form_of or slugs <= misnamed, row


def test_a_name_that_differs_carries_a_remark(data_folder: Path, tmp_path: Path) -> None:
    assert not [doubt for doubt in audit(data_folder) if doubt.check == "unlike the taxonomy"]
    copy = tmp_path / "data"
    shutil.copytree(data_folder, copy, ignore=shutil.ignore_patterns("plans"))
    lines = (copy / "taxonomy.csv").read_text(encoding="utf-8").splitlines()
    corydoras = next(n for n, line in enumerate(lines) if line.startswith("corydoras-panda,"))
    lines[corydoras] = lines[corydoras].rpartition(",")[0].partition(',"Split')[0] + ","
    guppy = next(n for n, line in enumerate(lines) if line.startswith("poecilia-reticulata,"))
    lines[guppy] = lines[guppy].replace("Poeciliidae", "Cichlidae")
    del lines[next(n for n, line in enumerate(lines) if line.startswith("danio-rerio,"))]
    (copy / "taxonomy.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    told = {
        (doubt.slug, doubt.level, doubt.field)
        for doubt in audit(copy)
        if doubt.check == "unlike the taxonomy"
    }
    assert told == {
        ("corydoras-panda", "question", "scientificName"),
        ("poecilia-reticulata", "question", "family"),
        ("danio-rerio", "gap", "scientificName"),
    }
