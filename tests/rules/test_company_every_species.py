"""Every animal of the table through every company rule: no crash, no broken sentence."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from planning import community

import stockcheck.rules  # noqa: F401  (registers the rules)
from stockcheck.facts.groups import group_of
from stockcheck.plan.model import Animals
from stockcheck.rules.core import RULES
from stockcheck.table.read import Table

COMPANY = [rule for name, rule in RULES.items() if name.startswith("company/")]
GROUPS = ({"count": 1}, {"count": 7}, {"males": 3}, {"females": 3}, {"males": 2, "females": 3})
BROKEN = re.compile(r"None|nan|  |\.\.|\{|\}| ,| \.")
HEADROOM = {
    "clear": (50, 100),
    "unknown": (0, 100),
    "watch": (50, 99.99),
    "fix": (0.01, 49.99),
    "stop": (0, 0),
}


@pytest.mark.parametrize("group", GROUPS, ids=str)
def test_sound_findings(group: dict[str, int], table: Table) -> None:
    """Beside neon tetras and cherry shrimps, each species kept in this way."""
    base = community(table, ["10 Paracheirodon innesi", "10 Neocaridina davidi"])
    for species in table.all_species():
        entry = Animals(species.scientific_name, "animals[3]", **group)
        facts = replace(base, groups=[*base.groups, group_of(entry, species)])
        for finding in (finding for rule in COMPANY for finding in rule.check(facts)):
            low, high = HEADROOM[finding.level]
            text = f"{finding.rule} {finding.level} {finding.headroom}: {finding.message} {finding.remedy}"
            assert low <= finding.headroom <= high, text
            assert finding.species, text
            if finding.level != "clear":
                assert not BROKEN.search(text), text
                assert finding.message.endswith(".") and finding.remedy.endswith("."), text
