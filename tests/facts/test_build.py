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
