"""Adding a figure, comparing two tables, and exporting one."""

from __future__ import annotations

import csv
import io
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest

from stockcheck.table.build import build
from stockcheck.table.contribute import add_figure, faults_of, find_slug
from stockcheck.table.diff import diff
from stockcheck.table.export import export_darwin_core, export_package
from stockcheck.table.package import BuildError, read_package
from stockcheck.table.read import Table, TableError

ROOT = Path(__file__).resolve().parent.parent.parent
FIGURE = {
    "slug": "danio-feegradei",
    "field": "temperature",
    "low": "20",
    "high": "25",
    "unit": "degC",
    "sex": "",
    "as_stated": "20-25 C",
    "source": "fishbase",
    "url": "https://example.org/feegradei",
    "use": "comfort",
    "reason": "",
}


@pytest.fixture
def data(tmp_path: Path, data_folder: Path) -> Path:
    copy = tmp_path / "data"
    shutil.copytree(data_folder, copy, ignore=shutil.ignore_patterns("plans"))
    return copy


def test_one_figure_is_one_line_in_its_place(data: Path) -> None:
    before = (data / "evidence.csv").read_text(encoding="utf-8").splitlines()
    line = add_figure(data, FIGURE)
    after = (data / "evidence.csv").read_text(encoding="utf-8").splitlines()
    assert after[: line - 1] + after[line:] == before
    assert after[line - 1].startswith("danio-feegradei,temperature,20,25,degC")
    with (data / "evidence.csv").open(encoding="utf-8", newline="") as lines:
        slugs = [row["slug"] for row in csv.DictReader(lines)]
    assert slugs == sorted(slugs)
    with pytest.raises(BuildError, match="there already"):
        add_figure(data, FIGURE)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"field": "colour"}, "is none of"),
        ({"low": "warm"}, "is not a number"),
        ({"low": "77", "high": "82"}, "outside"),
        ({"low": "30"}, "above high"),
        ({"low": "", "high": ""}, "one of them is needed"),
        ({"source": "my neighbour"}, "not in sources.csv"),
        ({"url": "somewhere"}, "address"),
        ({"as_stated": ""}, "as the source prints them"),
        ({"source": "curator"}, "needs one"),
    ],
)
def test_a_figure_with_faults_is_not_written(data: Path, change: dict[str, str], told: str) -> None:
    before = (data / "evidence.csv").read_bytes()
    assert any(told in fault for fault in faults_of(data, FIGURE | change))
    with pytest.raises(BuildError, match=r".+"):
        add_figure(data, FIGURE | change)
    assert (data / "evidence.csv").read_bytes() == before


def test_a_taxon_by_any_name_that_is_its_own(data: Path) -> None:
    assert find_slug(data, "Neon Tetra") == find_slug(data, "paracheirodon-innesi") == "paracheirodon-innesi"
    with pytest.raises(BuildError, match="betta-splendens or betta-splendens-long-finned"):
        find_slug(data, "betta")
    with pytest.raises(BuildError, match="no taxon"):
        find_slug(data, "unicorn")


def test_the_script_adds_and_refuses(data: Path) -> None:
    script = [sys.executable, str(ROOT / "scripts" / "add-evidence"), "--data", str(data)]
    options = ["--taxon", "Danio feegradei", "--field", "pH", "--low", "6.5", "--high", "7.5"]
    source = ["--as-stated", "6.5-7.5", "--source", "fishbase", "--url", "https://example.org/x"]
    added = subprocess.run([*script, *options, *source], capture_output=True, text=True, check=False)
    assert added.returncode == 0, added.stderr
    assert "danio-feegradei pH 6.5 to 7.5" in added.stdout
    refused = subprocess.run(
        [*script, *options], capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL
    )
    assert refused.returncode == 2
    assert "Traceback" not in refused.stderr


def test_diff_says_which_band_moved(data: Path, tmp_path: Path, database: Path) -> None:
    assert not diff(database, database)
    add_figure(data, FIGURE)
    build(data, tmp_path / "new.db")
    changes = diff(database, tmp_path / "new.db")
    assert [(move.slug, move.field) for move in changes.moves] == [("danio-feegradei", "temperature")]
    assert str(changes.moves[0]).endswith("temperature: none -> 20 to 25 degC (tolerance 20 to 25, grade C)")
    back = diff(tmp_path / "new.db", database)
    assert back.moves[0].after is None
    assert (changes.added, changes.removed) == ((), ())


def test_diff_needs_two_tables(database: Path, tmp_path: Path) -> None:
    with pytest.raises(TableError):
        diff(tmp_path / "none.db", database)


def test_the_package_zip_is_a_valid_package(data_folder: Path, database: Path, tmp_path: Path) -> None:
    import frictionless

    export_package(data_folder, database, tmp_path / "table.zip")
    export_package(data_folder, database, tmp_path / "again.zip")
    assert (tmp_path / "table.zip").read_bytes() == (tmp_path / "again.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "table.zip") as archive:
        archive.extractall(tmp_path / "unpacked")
        assert "CC BY 4.0" in archive.read("LICENCE.txt").decode()
        assert "Version" in archive.read("CITATION.txt").decode()
    assert frictionless.validate(str(tmp_path / "unpacked" / "datapackage.json")).valid
    named = {resource["path"] for resource in read_package(data_folder)["resources"]}
    assert named <= {path.name for path in (tmp_path / "unpacked").iterdir()}


def test_the_darwin_core_archive_holds_together(
    data_folder: Path, database: Path, table: Table, tmp_path: Path
) -> None:
    """Darwin Core text guide: files and columns as meta.xml says, extension rows point at core rows."""
    for name in ("a.zip", "b.zip"):
        export_darwin_core(data_folder, database, tmp_path / name)
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
    space = {"d": "http://rs.tdwg.org/dwc/text/"}
    with zipfile.ZipFile(tmp_path / "a.zip") as archive:
        meta = ElementTree.fromstring(archive.read("meta.xml"))
        ElementTree.fromstring(archive.read(meta.attrib["metadata"]))
        files = {}
        for part in [*meta.findall("d:core", space), *meta.findall("d:extension", space)]:
            location = part.findtext("d:files/d:location", namespaces=space)
            assert location is not None
            rows = list(csv.reader(io.StringIO(archive.read(location).decode())))
            terms = {
                int(field.attrib["index"]): field.attrib["term"] for field in part.findall("d:field", space)
            }
            for index, term in terms.items():
                assert term.rsplit("/", 1)[1] == rows[0][index]
            files[location] = rows[1:]
    core = {row[0] for row in files["taxon.csv"]}
    accepted = {row[0] for row in files["taxon.csv"] if row[3] == "accepted"}
    assert len(core) == len(files["taxon.csv"]) > len(accepted)
    assert len(accepted) == table.stamp().animals + table.stamp().plants
    assert {row[4] for row in files["taxon.csv"]} == accepted
    assert any(row[1] == "Hyphessobrycon innesi" and row[3] == "synonym" for row in files["taxon.csv"])
    stated = [row for row in files["measurementorfact.csv"] if row[1].endswith(" stated")]
    assert len(stated) > 9000 and all(row[5] for row in stated)
    for name in ("measurementorfact.csv", "vernacularname.csv"):
        assert {row[0] for row in files[name]} <= core
        assert files[name]


def test_an_export_that_cannot_be_written(data_folder: Path, database: Path, tmp_path: Path) -> None:
    with pytest.raises(BuildError, match="cannot be written"):
        export_package(data_folder, database, tmp_path / "no" / "such" / "folder.zip")
