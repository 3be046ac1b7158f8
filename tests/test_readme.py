"""The README's plan and commands are real."""

from __future__ import annotations

import re
from pathlib import Path

from stockcheck.check import check_text
from stockcheck.cli import main
from stockcheck.table.read import Table

README = (Path(__file__).resolve().parent.parent / "README.md").read_text(encoding="utf-8")


def test_the_plan_shown_is_a_plan_that_holds(table: Table) -> None:
    plans = re.findall(r"```toml\n(.*?)```", README, re.S)
    assert len(plans) == 1
    report = check_text(plans[0], table)
    assert report.verdict in ("clear", "watch"), [f"{f.rule}: {f.message}" for f in report.findings]


def test_the_commands_shown_are_the_commands_there_are() -> None:
    shown = set(re.findall(r"^stockcheck (\w+)", README, re.M))
    assert shown == set(main.commands)
