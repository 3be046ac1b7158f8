"""Every rule's own examples: the one trips it, the other does not."""

from __future__ import annotations

import pytest
from planning import facts_of, told

import stockcheck.rules  # noqa: F401  (registers the rules)
from stockcheck.rules.core import LEVELS, RULES, Rule
from stockcheck.rules.examples import example_document
from stockcheck.table.read import Table

BY_NAME = [pytest.param(rule, id=name) for name, rule in sorted(RULES.items())]


@pytest.mark.parametrize("rule", BY_NAME)
def test_trips(rule: Rule, table: Table) -> None:
    findings = told(rule.name, facts_of(example_document(rule.trips), table))
    assert findings, "the example that should trip the rule does not"
    for finding in findings:
        assert finding.rule == rule.name
        assert finding.level in LEVELS
        assert finding.message.startswith("pH") or not finding.message[0].islower()
        assert finding.message.endswith((".", "!", "?")), finding.message
        assert finding.remedy.endswith("."), finding.remedy


@pytest.mark.parametrize("rule", BY_NAME)
def test_clears(rule: Rule, table: Table) -> None:
    assert told(rule.name, facts_of(example_document(rule.clears), table)) == []


@pytest.mark.parametrize("rule", BY_NAME)
def test_has_a_page(rule: Rule) -> None:
    assert rule.page.splitlines()[0].endswith((".", "?")), "a first line that says what the rule looks for"
    assert len(rule.page.split()) > 20, "mechanism, evidence and limits"
