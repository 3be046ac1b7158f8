"""The demo plans: whole, plausible, and each showing its point (common practice, no source)."""

from __future__ import annotations

from pathlib import Path

import pytest

from stockcheck.check import Report, check_file
from stockcheck.plan.reader import read_plan
from stockcheck.table.read import Table

NAMES = ("reading-room", "bachelor-hall", "cool-corridor", "mismatch")


def checked(table: Table, data_folder: Path, name: str) -> Report:
    return check_file(data_folder / "plans" / f"{name}.toml", table)


@pytest.mark.parametrize("name", NAMES)
def test_it_has_no_faults_and_states_its_tap_water(data_folder: Path, name: str) -> None:
    reading = read_plan(data_folder / "plans" / f"{name}.toml")
    assert reading.faults == []
    assert reading.plan is not None
    assert None not in (reading.plan.tap.pH, reading.plan.tap.GH_dgh, reading.plan.tap.KH_dkh)


def test_the_reading_room_holds(table: Table, data_folder: Path) -> None:
    report = checked(table, data_folder, "reading-room")
    assert report.verdict in ("clear", "watch"), [f for f in report.findings if f.level in ("fix", "stop")]


def test_the_bachelor_hall_needs_a_change_of_company(table: Table, data_folder: Path) -> None:
    report = checked(table, data_folder, "bachelor-hall")
    assert report.verdict in ("fix", "stop")
    assert "company/male-rivalry" in {finding.rule for finding in report.at_level("fix", "stop")}


def test_the_cool_corridor_follows_its_room(table: Table, data_folder: Path) -> None:
    report = checked(table, data_folder, "cool-corridor")
    assert report.facts.plan.heater is None
    told = [finding for finding in report.findings if finding.rule == "water/temperature"]
    assert told and all("Unheated" in finding.message for finding in told)
    assert not report.at_level("stop")


def test_the_mismatch_has_no_common_band(table: Table, data_folder: Path) -> None:
    report = checked(table, data_folder, "mismatch")
    assert report.setpoint.value_c is None
    assert "water/together" in {finding.rule for finding in report.at_level("fix", "stop")}
    assert len(report.setpoint.parties) > 1
