"""The audit finds what is wrong, and leaves in peace what was settled."""

from __future__ import annotations

import csv
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from stockcheck.table.audit import Doubt, audit
from stockcheck.table.audit.reproduce import printed_figures, reproduces

ROOT = Path(__file__).resolve().parent.parent.parent


@pytest.fixture
def with_row(tmp_path: Path, data_folder: Path) -> Callable[[str], list[Doubt]]:
    """What the audit says of one added row."""

    def run(line: str) -> list[Doubt]:
        copy = tmp_path / "data"
        shutil.copytree(data_folder, copy, ignore=shutil.ignore_patterns("plans"), dirs_exist_ok=True)
        with (copy / "evidence.csv").open("a", encoding="utf-8") as lines:
            lines.write(line + "\n")
        number = len((copy / "evidence.csv").read_text(encoding="utf-8").splitlines())
        return [doubt for doubt in audit(copy) if doubt.line == number]

    return run


def test_the_shipped_table_has_no_unsettled_error(data_folder: Path) -> None:
    errors = [doubt for doubt in audit(data_folder) if doubt.level == "error"]
    assert errors == []


def test_an_end_that_nobody_comes_near_is_a_question(with_row: Callable[[str], list[Doubt]]) -> None:
    line = "paracheirodon-innesi,temperature,14,35,degC,,14-35 C,wikipedia,https://example.org/x,comfort,"
    found = with_row(line)
    assert {doubt.check for doubt in found} >= {"beyond all others"} or any(
        doubt.level == "error" for doubt in found
    )


def test_two_sources_that_exclude_one_another_are_a_question(with_row: Callable[[str], list[Doubt]]) -> None:
    line = "betta-imbellis,temperature,10,12,degC,,10-12 C,fishbase,https://example.org/x,comfort,"
    assert "contradiction" in {doubt.check for doubt in with_row(line)}


def test_sexes_of_which_one_is_twice_the_other_are_a_question(tmp_path: Path, data_folder: Path) -> None:
    copy = tmp_path / "data"
    shutil.copytree(data_folder, copy, ignore=shutil.ignore_patterns("plans"))
    with (copy / "species.csv").open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    guppy = next(row for row in rows if row["slug"] == "poecilia-reticulata")
    guppy["adultMale_mm"] = f"{float(guppy['adultMale_mm']) / 10:g}"  # centimetres where millimetres belong
    with (copy / "species.csv").open("w", encoding="utf-8", newline="") as lines:
        writer = csv.DictWriter(lines, list(guppy), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    told = [doubt for doubt in audit(copy) if doubt.check == "sexes unlike in size"]
    assert [(doubt.slug, doubt.level) for doubt in told] == [("poecilia-reticulata", "question")]


NEON = "paracheirodon-innesi"


@pytest.mark.parametrize(
    ("line", "check"),
    [
        (f"{NEON},temperature,72,78,degC,,72-78,example,,comfort,", "unit slip"),
        (f"{NEON},adult_length,,3.8,mm,,3.8 cm,example,,comfort,", "unit slip"),
        ("danio-rerio,adult_length,,127,mm,,12.7 cm,example,,comfort,", "outlier"),
        (f"{NEON},pH,9,9.5,pH,,9-9.5,example,,comfort,", "outlier"),
        (f"{NEON},GH,2,44,dGH,,2-12,example,,comfort,", "does not reproduce"),
        (f"{NEON},adult_length,,33,mm,,33 mm SL,example,,comfort,", "standard for total length"),
    ],
)
def test_a_bad_row_is_an_error_until_it_is_settled(
    with_row: Callable[[str], list[Doubt]], line: str, check: str
) -> None:
    line = line.replace("example", "fishlab.com")
    found = with_row(line)
    assert check in {doubt.check for doubt in found}
    assert all(doubt.level == "error" for doubt in found)


def test_a_reason_settles_a_row(with_row: Callable[[str], list[Doubt]]) -> None:
    line = f"{NEON},temperature,72,78,degC,,72-78,fishlab.com,,none,unit slip: these are degF"
    assert with_row(line) == []


def test_a_good_row_raises_nothing(with_row: Callable[[str], list[Doubt]]) -> None:
    assert with_row(f"{NEON},temperature,21,25,degC,,21-25 C,fishlab.com,,comfort,") == []


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("6,5 bis 7", [6.5, 7]),
        ("3/4 inch", [0.75]),
        ("4 1/2 in", [4.5]),
        ("over 1,000 eggs", [1000]),
        (".8 in", [0.8]),
        ("2½ in", [2.5]),
        ("twenty five", [25]),
        ("half a dozen", [6]),
        ("5/6,5", [5, 6.5]),
    ],
)
def test_printed_figures_are_read(text: str, figures: list[float]) -> None:
    assert set(figures) <= set(printed_figures(text))


def test_conversions_reproduce_and_slips_do_not() -> None:
    assert reproduces("temperature", 22.2, "72 F")
    assert reproduces("adult_length", 152, "6 in")
    assert reproduces("min_tank_volume", 76, "20 gal")
    assert reproduces("GH", 5.6, "100 mg/l")
    assert not reproduces("adult_length", 149, "4.9 foot")
    assert not reproduces("pH", 8.5, "6.5-7.5")


def run_script(*arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, str(ROOT / "scripts" / "audit-data"), *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_the_script_reports_and_returns_its_status(tmp_path: Path, data_folder: Path) -> None:
    good = run_script("--gaps", "--taxon", "danio-feegradei")
    assert good.returncode == 0
    assert "no source states it" in good.stdout
    copy = tmp_path / "data"
    shutil.copytree(data_folder, copy, ignore=shutil.ignore_patterns("plans"))
    with (copy / "evidence.csv").open("a", encoding="utf-8") as lines:
        lines.write(f"{NEON},temperature,72,78,degC,,72-78,fishlab.com,,comfort,\n")
    bad = run_script("--data", str(copy))
    assert bad.returncode == 1
    assert "error: unit slip (1)" in bad.stdout
    missing = run_script("--data", str(tmp_path / "nowhere"))
    assert missing.returncode == 2
    assert "Traceback" not in missing.stderr
