"""Everyday cases that experienced keepers agree on (``cases.toml``).  Common practice, no source."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from planning import community, level

import stockcheck.rules  # noqa: F401  (registers the rules)
from stockcheck.rules.core import LEVELS
from stockcheck.table.read import Table

CASES = tomllib.loads((Path(__file__).parent / "cases.toml").read_text(encoding="utf-8"))["case"]


def test_there_are_forty_or_more() -> None:
    assert len(CASES) >= 40


@pytest.mark.parametrize("case", [pytest.param(case, id=case["because"]) for case in CASES])
def test_trips(case: dict[str, Any], table: Table) -> None:
    facts = community(
        table,
        case["trips"],
        case.get("tank", "100 x 40 x 40"),
        case.get("cover", "some"),
        case.get("plants"),
        case.get("intake_guard", True),
    )
    assert LEVELS.index(level(case["rule"], facts)) >= LEVELS.index(case.get("at_least", "fix"))


@pytest.mark.parametrize("case", [pytest.param(case, id=case["because"]) for case in CASES])
def test_twin_does_not(case: dict[str, Any], table: Table) -> None:
    facts = community(
        table,
        case["twin"],
        case.get("twin_tank", "100 x 40 x 40"),
        case.get("twin_cover", "some"),
        case.get("twin_plants"),
    )
    assert LEVELS.index(level(case["rule"], facts)) <= LEVELS.index(case.get("at_most", "clear"))
