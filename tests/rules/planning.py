"""Plans for tests of rules: example documents and short animal lists as facts."""

from __future__ import annotations

import re
from typing import Any

from stockcheck.facts.build import build_facts
from stockcheck.facts.model import Facts
from stockcheck.plan.reader import read_document
from stockcheck.rules.core import LEVELS, RULES, Finding
from stockcheck.rules.examples import BASE, merge
from stockcheck.table.read import Table

_ANIMALS = re.compile(r"(\d+) (?:(male|female) )?(.+)")


def facts_of(document: dict[str, Any], table: Table) -> Facts:
    """A plan document as facts; a fault in it is a fault of the test."""
    reading = read_document(document, "example")
    assert reading.plan is not None and not reading.faults, reading.faults
    return build_facts(reading.plan, table)


def animals(listed: list[str]) -> list[dict[str, Any]]:
    """``2 male Betta splendens`` as an entry of the animal list."""
    entries = []
    for text in listed:
        found = _ANIMALS.fullmatch(text)
        assert found, text
        number, sex, species = found.groups()
        entries.append({"species": species, f"{sex}s" if sex else "count": int(number)})
    return entries


def community(
    table: Table,
    listed: list[str],
    tank: str = "100 x 40 x 40",
    cover: str = "some",
    plants: list[str] | None = None,
    intake_guard: bool = True,
) -> Facts:
    """A planted tank (inside measures, cm) with these animals, everything else as in the base example."""
    import tomllib

    length, width, height = (f"{side} cm" for side in tank.split(" x "))
    change: dict[str, Any] = {
        "tank": {
            "length": length,
            "width": width,
            "height": height,
            "measured": "inside",
            "cover": cover,
        },
        "filter": {"intake_guard": intake_guard},
        "animals": animals(listed),
    }
    if plants is not None:
        change["plants"] = [{"species": plant, "cover": "20 %"} for plant in plants]
    return facts_of(merge(tomllib.loads(BASE), change), table)


def told(rule: str, facts: Facts) -> list[Finding]:
    """What one rule has to say, ``clear`` findings left out."""
    return [finding for finding in RULES[rule].check(facts) if finding.level != "clear"]


def level(rule: str, facts: Facts) -> str:
    """The worst level that one rule finds."""
    return max((finding.level for finding in told(rule, facts)), key=LEVELS.index, default="clear")
