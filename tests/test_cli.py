"""The terminal command as a user meets it: answers, exit status, and what it says to input it cannot use."""

from __future__ import annotations

import csv
import json
import os
import shutil
import sqlite3
import subprocess
import sys
import zipfile
from contextlib import closing
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from stockcheck.cli import main

PLANS = Path(__file__).resolve().parent.parent / "data" / "plans"


@pytest.fixture
def run(database: Path):  # type: ignore[no-untyped-def]
    def invoke(*arguments: str) -> Result:
        return CliRunner().invoke(main, [*arguments], env={"STOCKCHECK_DATABASE": str(database)})

    return invoke


@pytest.mark.parametrize(
    ("plan", "status"),
    [("reading-room", 0), ("bachelor-hall", 1), ("cool-corridor", 0), ("mismatch", 1)],
)
def test_demo_plans_end_as_their_comments_say(run, plan: str, status: int) -> None:  # type: ignore[no-untyped-def]
    result = run("check", str(PLANS / f"{plan}.toml"))
    assert result.exit_code == status, result.output


def test_json_has_the_shape_that_was_promised(run) -> None:  # type: ignore[no-untyped-def]
    document = json.loads(run("check", str(PLANS / "reading-room.toml"), "--format", "json").stdout)
    assert document["schema"] == "stockcheck/report/1"
    assert set(document["headroom"]) == {"overall", "water", "waste", "company", "room", "breath"}
    assert document["headroom"]["overall"] == min(
        v for k, v in document["headroom"].items() if k != "overall"
    )
    assert set(document["setpoint"]) >= {"value_c", "low_c", "high_c", "limited_by"}
    promised = {
        "net_volume_l",
        "nitrogen_load_mg_per_day",
        "removal_capacity_mg_per_day",
        "tan_mg_per_l",
        "nh3_n_mg_per_l",
        "nitrate_mg_per_l",
        "oxygen_night_mg_per_l",
        "heater_power_w",
    }
    assert promised <= set(document["figures"])
    for name, figure in document["figures"].items():
        assert figure["low"] <= figure["value"] <= figure["high"], name
        assert "missing" not in figure
    for finding in document["findings"]:
        assert set(finding) == {"rule", "level", "species", "message", "remedy", "grade", "sources"}


def test_a_figure_that_the_plan_does_not_allow_is_null_with_its_reason(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    plan = tmp_path / "bare.toml"
    plan.write_text('[tank]\nwater_volume = "50 L"\n[[animals]]\nspecies = "guppy"\nmales = 3\n')
    document = json.loads(run("check", str(plan), "--format", "json").stdout)
    assert document["figures"]["net_volume_l"]["value"] == 50
    oxygen = document["figures"]["oxygen_night_mg_per_l"]
    assert oxygen["value"] is None and oxygen["unit"] == "mg/L"
    assert "unknown" in oxygen["missing"]
    assert "no heater" in document["figures"]["heater_power_w"]["missing"]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device without room")
def test_output_without_room_ends_with_a_word(database: Path) -> None:
    command = [sys.executable, "-m", "stockcheck", "check", str(PLANS / "reading-room.toml")]
    with open("/dev/full", "w") as full:
        result = subprocess.run(
            [*command, "--database", str(database)],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert result.returncode == 2
    assert "could not be written" in result.stderr and "Traceback" not in result.stderr


def test_piped_output_is_plain_and_fits_the_asked_width(run) -> None:  # type: ignore[no-untyped-def]
    output = run("check", str(PLANS / "reading-room.toml"), "--width", "72").stdout
    assert "\x1b" not in output
    assert max(len(line) for line in output.splitlines()) <= 72


def test_many_plans_give_a_list_and_the_worst_status(run) -> None:  # type: ignore[no-untyped-def]
    result = run("check", str(PLANS / "reading-room.toml"), str(PLANS / "mismatch.toml"), "--format", "json")
    assert [d["plan"] for d in json.loads(result.stdout)] and result.exit_code == 1


def bad_files(folder: Path) -> dict[str, Path]:
    texts: dict[str, bytes] = {
        "empty": b"",
        "binary": bytes(range(256)) * 20,
        "huge": b"# padding\n" * 5_300_000,
        "syntax": b'name = "x"\n[tank\nlength = "1 m"\n',
        "no-animals": b'name = "x"\n[tank]\nlength = "60 cm"\nwidth = "30 cm"\nheight = "30 cm"\n',
    }
    for name, content in texts.items():
        (folder / f"{name}.toml").write_bytes(content)
    return {name: folder / f"{name}.toml" for name in texts}


@pytest.mark.parametrize("name", ["empty", "binary", "huge", "syntax", "no-animals", "missing", "folder"])
def test_a_plan_that_cannot_be_used_is_told_so(run, tmp_path: Path, name: str) -> None:  # type: ignore[no-untyped-def]
    files = bad_files(tmp_path) | {"missing": tmp_path / "nowhere.toml", "folder": tmp_path}
    page = tmp_path / "report.html"
    result = run("check", str(files[name]), "--html", str(page))
    assert result.exit_code == 2
    assert str(files[name]) in result.stderr
    assert "Traceback" not in result.output
    assert not page.exists()


def test_all_faults_of_a_plan_are_told_at_once(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    plan = tmp_path / "faulty.toml"
    plan.write_text(
        'name = "Faulty"\n[tank]\nlength = "60 parsnip"\nwidth = -3\nheight = "nan cm"\n'
        '[water]\npH = 19\n[[animals]]\nspecies = "guppi"\ncount = 1000000000\n'
    )
    result = run("check", str(plan))
    assert result.exit_code == 2
    for place in ("tank.length", "tank.width", "tank.height", "water.pH", "species", "count"):
        assert place in result.stderr, place
    assert "guppy" in result.stderr


def test_a_missing_or_corrupt_table_is_told_so(tmp_path: Path) -> None:
    plan = str(PLANS / "reading-room.toml")
    corrupt = tmp_path / "corrupt.db"
    corrupt.write_bytes(b"not a database at all" * 100)
    for path, word in ((tmp_path / "missing.db", "build"), (corrupt, "build"), (tmp_path, "is a folder")):
        result = CliRunner().invoke(main, ["check", plan, "--database", str(path)])
        assert result.exit_code == 2
        assert str(path) in result.stderr and word in result.stderr
        assert "Errno" not in result.stderr
        assert "Traceback" not in result.output


def test_a_table_that_lacks_a_part_is_told_so(database: Path, tmp_path: Path) -> None:
    partial = tmp_path / "partial.db"
    shutil.copy(database, partial)
    with closing(sqlite3.connect(partial)) as connection:
        connection.execute("DROP TABLE media")
        connection.execute("VACUUM")
    plan = str(PLANS / "reading-room.toml")
    result = CliRunner().invoke(main, ["check", plan, "--database", str(partial)])
    assert result.exit_code == 2, result.output
    assert str(partial) in result.stderr and "build" in result.stderr


def test_a_home_that_cannot_be_written_does_not_matter(database: Path, tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.mkdir(mode=0o500)
    environment = {**os.environ, "HOME": str(home), "STOCKCHECK_DATABASE": str(database)}
    for variable in ("XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME"):
        environment.pop(variable, None)
    command = [sys.executable, "-m", "stockcheck", "check", str(PLANS / "reading-room.toml")]
    result = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stderr
    assert list(home.iterdir()) == []


def test_a_name_that_fits_several_taxa_asks_which(run) -> None:  # type: ignore[no-untyped-def]
    result = run("species", "yoyo loach")
    assert result.exit_code == 2
    assert "Botia almorhae" in result.stderr and "Botia lohachata" in result.stderr


def test_one_taxon_is_shown_with_bands_and_sources(run) -> None:  # type: ignore[no-untyped-def]
    result = run("species", "Lebistes reticulatus")  # a synonym
    assert result.exit_code == 0
    assert "Poecilia reticulata" in result.stdout
    assert "wikipedia" in result.stdout


def test_a_water_lists_what_it_suits(run) -> None:  # type: ignore[no-untyped-def]
    result = run(
        "species", "--temperature", "22 degC", "--GH", "15 dGH", "--kind", "fish", "--format", "json"
    )
    taxa = {taxon["slug"]: taxon["fit"] for taxon in json.loads(result.stdout)["taxa"]}
    assert taxa["xiphophorus-maculatus"] == "comfort"  # platies take cool, hard water: common practice
    assert "symphysodon-aequifasciatus" not in taxa


def test_setpoint_for_bare_names(run) -> None:  # type: ignore[no-untyped-def]
    result = run("setpoint", "neon tetra", "Corydoras paleatus", "--format", "json")
    assert result.exit_code == 0, result.output
    answer = json.loads(result.stdout)
    assert answer["low_c"] <= answer["value_c"] <= answer["high_c"]
    none = run("setpoint", "Carassius auratus", "Symphysodon aequifasciatus")
    assert none.exit_code == 1


def test_a_corrected_figure_shows_as_a_moved_band_and_a_changed_verdict(
    run, database: Path, tmp_path: Path
) -> None:  # type: ignore[no-untyped-def]
    """The way of a contributor: correct the figures of one taxon, build, read what that did."""
    data = tmp_path / "data"
    shutil.copytree(PLANS.parent, data)
    with (data / "evidence.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    for row in rows:  # make the peppered cory a fish of hot water
        if (row["slug"], row["field"]) == ("corydoras-paleatus", "temperature"):
            row["low"], row["high"] = "29", "32"
    with (data / "evidence.csv").open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    result = run("build", "--data", str(data), "--output", str(tmp_path / "new.db"), "--diff", str(database))
    assert result.exit_code == 0, result.output
    assert "One band moved" in result.stdout
    assert "Corydoras paleatus, temperature" in result.stdout
    assert "reading-room.toml: watch ->" in result.stdout


def test_the_table_can_be_passed_on(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    result = run("build", "--output", str(tmp_path / "new.db"), "--export", str(tmp_path / "out"))
    assert result.exit_code == 0, result.output
    names = {path.name for path in (tmp_path / "out").iterdir()}
    archives = {"stockcheck-data-package.zip", "stockcheck-darwin-core-archive.zip"}
    assert names == {"stockcheck.db", "LICENCE.txt", "CITATION.txt", *archives}
    with sqlite3.connect(tmp_path / "out" / "stockcheck.db") as database:
        (licence, citation) = database.execute("SELECT licence, citation FROM build_stamp").fetchone()
    assert "CC BY 4.0" in licence and "stockcheck contributors" in citation
    with zipfile.ZipFile(tmp_path / "out" / "stockcheck-darwin-core-archive.zip") as archive:
        assert "meta.xml" in archive.namelist()


def test_every_command_has_a_help_page(run) -> None:  # type: ignore[no-untyped-def]
    for name in main.commands:
        assert run(name, "--help").exit_code == 0


@pytest.mark.parametrize(
    "arguments",
    [
        ("setpoint", "guppy", "--step", "0 K"),
        ("setpoint", "guppy", "--step", "nan K"),
        ("setpoint", "guppy", "--step", "1000 K"),
        ("setpoint", "guppy", "--swing", "nan K"),
        ("setpoint", "guppy", "--swing", "-3 K"),
        ("species", "--temperature", "nan degC"),
        ("species", "--pH", "nan"),
        ("species", "--pH", "99"),
        ("species", "xyzzy"),
    ],
)
def test_senseless_options_are_told_so(run, arguments: tuple[str, ...]) -> None:  # type: ignore[no-untyped-def]
    result = run(*arguments)
    assert result.exit_code == 2, result.output
    assert result.stderr.strip() and "Nearest names: ." not in result.stderr
    assert result.exception is None or isinstance(result.exception, SystemExit)


def test_what_no_source_says_is_not_called_comfortable(run) -> None:  # type: ignore[no-untyped-def]
    document = json.loads(run("species", "--pH", "2.5", "--format", "json").stdout)
    unstated = [taxon for taxon in document["taxa"] if taxon["unstated"] == ["pH"]]
    assert unstated
    assert all((taxon["fit"] == "unknown") == (taxon in unstated) for taxon in document["taxa"])


@pytest.mark.parametrize("figure", ["nan", "inf", "-inf"])
def test_a_figure_that_is_no_number_is_not_built(run, tmp_path: Path, figure: str) -> None:  # type: ignore[no-untyped-def]
    data, target = tmp_path / "data", tmp_path / "new.db"
    shutil.copytree(PLANS.parent, data)
    with (data / "media.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    rows[0]["value"] = figure
    with (data / "media.csv").open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    result = run("build", "--data", str(data), "--output", str(target))
    assert result.exit_code == 2, result.output
    assert "media.csv" in result.stderr and figure in result.stderr
    assert not target.exists()
