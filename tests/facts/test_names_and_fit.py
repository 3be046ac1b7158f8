"""From a plan and the table to facts: names that do not resolve are told with the line they stand on."""

from __future__ import annotations

import pytest

from stockcheck.check import check_text
from stockcheck.plan.faults import PlanError
from stockcheck.table.read import Table

PLAN = """name = "Shelf"
[tank]
length = "60 cm"
width = "30 cm"
height = "30 cm"
[[substrate]]
kind = "fluffy gravel"
front = "3 cm"
[[animals]]
species = "guppy"
males = 3
[[animals]]
species = "no such fish"
count = 3
[[plants]]
species = "no such plant"
"""


def test_every_name_that_does_not_resolve_is_told_with_its_line(table: Table) -> None:
    with pytest.raises(PlanError) as caught:
        check_text(PLAN, table)
    assert [(fault.line, fault.key) for fault in caught.value.faults] == [
        (7, "substrate[1].kind"),
        (13, "animals[2].species"),
        (16, "plants[1].species"),
    ]


SMALL = PLAN[: PLAN.index("[[substrate]]")] + '[[animals]]\nspecies = "guppy"\nmales = 3\n'


@pytest.mark.parametrize(
    ("added", "key", "word"),
    [
        ('[[hardscape]]\nkind = "slate"\nmass = "120 kg"\n', "hardscape[1]", "slate does not fit"),
        ('[[hardscape]]\nkind = "granite"\nmass = "2000 kg"\n', "hardscape[1]", "granite does not fit"),
        (
            '[[substrate]]\nkind = "gravel"\nfront = "25 cm"\nback = "28 cm"\n',
            "substrate[1]",
            "gravel does not fit",
        ),
    ],
)
def test_what_does_not_fit_into_the_tank_is_a_fault(table: Table, added: str, key: str, word: str) -> None:
    """A box of 60 x 30 x 30 cm is 54 L; slate is 2.6 to 2.9 kg/L (any table of rocks)."""
    with pytest.raises(PlanError) as caught:
        check_text(SMALL + added, table)
    (fault,) = caught.value.faults
    assert (fault.key, fault.line) == (key, 9)
    assert word in fault.problem


def test_what_does_fit_is_none(table: Table) -> None:
    added = '[[substrate]]\nkind = "gravel"\nfront = "4 cm"\nback = "6 cm"\n'
    report = check_text(SMALL + added + '[[hardscape]]\nkind = "slate"\nmass = "10 kg"\n', table)
    assert not [finding for finding in report.findings if finding.rule == "room/furnishing"]


def test_much_furnishing_is_a_finding(table: Table) -> None:
    """A bed of 11 cm under 27 of water, and stones that heap up to 17 of its 48 L."""
    added = '[[substrate]]\nkind = "gravel"\nfront = "10 cm"\nback = "12 cm"\n'
    report = check_text(SMALL + added + '[[hardscape]]\nkind = "slate"\nmass = "30 kg"\n', table)
    (finding,) = [finding for finding in report.findings if finding.rule == "room/furnishing"]
    assert finding.level == "fix"
    assert finding.remedy
