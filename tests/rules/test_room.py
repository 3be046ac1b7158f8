"""The room axis on the shipped table.  Common practice, no source, unless a test says otherwise."""

from __future__ import annotations

from math import exp, log
from statistics import linear_regression, median

import pytest
from planning import facts_of

from stockcheck.rules.core import LEVELS, RULES, Finding
from stockcheck.rules.examples import example_document
from stockcheck.rules.room.space import DEMAND_AT_1_CM, DEMAND_EXPONENT
from stockcheck.table.read import Table


def found(rule: str, fragment: str, table: Table) -> list[Finding]:
    facts = facts_of(example_document(fragment), table)
    return [finding for finding in RULES[rule].check(facts) if finding.level != "clear"]


def level(rule: str, fragment: str, table: Table) -> str:
    findings = found(rule, fragment, table)
    return max((finding.level for finding in findings), key=LEVELS.index, default="clear")


def tank(length: int, width: int, height: int) -> str:
    return (
        f'[tank]\nlength = "{length} cm"\nwidth = "{width} cm"\nheight = "{height} cm"\nmeasured = "inside"\n'
    )


def fish(name: str, count: int) -> str:
    return f'[[animals]]\nspecies = "{name}"\ncount = {count}\n'


@pytest.mark.parametrize(
    ("size", "name", "count", "expected"),
    [
        ((60, 30, 35), "neon tetra", 8, {"clear"}),
        ((20, 15, 20), "neon tetra", 8, {"fix", "stop"}),
        ((100, 40, 40), "oscar", 1, {"fix", "stop"}),
        ((40, 25, 30), "oscar", 1, {"stop"}),
        ((150, 60, 60), "oscar", 1, {"clear", "watch"}),
        ((100, 40, 40), "redtail catfish", 1, {"stop"}),
        ((45, 30, 30), "cherry shrimp", 12, {"clear"}),
        ((100, 40, 40), "goldfish", 3, {"watch", "fix"}),
    ],
)
def test_tank_sizes(
    table: Table, size: tuple[int, int, int], name: str, count: int, expected: set[str]
) -> None:
    fragment = tank(*size) + fish(name, count)
    worst = max(
        (
            level(rule, fragment, table)
            for rule in RULES
            if rule.startswith("room/t") or rule == "room/swimming-space"
        ),
        key=LEVELS.index,
    )
    assert worst in expected


def test_the_fitted_length_runs_through_the_stated_ones(table: Table) -> None:
    """The power law against a regression over the table's own rows."""
    rows = [
        (s.adult_length_mm / 10, band.comfort_low)
        for s in table.all_species()
        if s.kind == "fish" and s.adult_length_mm and (band := s.band("min_tank_length")) and band.comfort_low
    ]
    assert len(rows) > 200
    slope, intercept = linear_regression([log(x) for x, _ in rows], [log(y) for _, y in rows])
    for length in (3.5, 6.0, 10.0, 20.0):
        assert DEMAND_AT_1_CM * length**DEMAND_EXPONENT == pytest.approx(
            exp(intercept) * length**slope, rel=0.15
        )
    ratios = [y / (DEMAND_AT_1_CM * x**DEMAND_EXPONENT) for x, y in rows]
    assert median(ratios) == pytest.approx(1.0, abs=0.1)


def test_more_animals_never_have_more_space(table: Table) -> None:
    rule = RULES["room/swimming-space"]
    headrooms = []
    for count in (5, 15, 30, 60, 120):
        (finding,) = rule.check(facts_of(example_document(fish("harlequin rasbora", count)), table))
        headrooms.append(finding.headroom)
    assert headrooms == sorted(headrooms, reverse=True)
    assert headrooms[0] == 100.0 and headrooms[-1] < 50.0


def test_the_floor_counts_for_bottom_fish(table: Table) -> None:
    (finding,) = found("room/swimming-space", tank(45, 30, 40) + fish("peppered cory", 12), table)
    assert "dm² of floor" in finding.message
    assert finding.level == "fix"


def test_a_body_longer_than_the_tank_is_wide(table: Table) -> None:
    narrow = tank(150, 20, 50)
    assert level("room/turning", narrow + fish("oscar", 1), table) == "fix"
    assert level("room/turning", tank(150, 14, 50) + fish("oscar", 1), table) == "stop"
    assert level("room/turning", tank(150, 60, 50) + fish("oscar", 1), table) == "clear"


def test_jumpers_need_a_lid(table: Table) -> None:
    open_tank = "[tank]\nlid = false\n"
    assert level("room/open-lid", open_tank + fish("marbled hatchetfish", 8), table) == "fix"
    assert level("room/open-lid", open_tank + fish("harlequin rasbora", 8), table) == "watch"
    assert level("room/open-lid", open_tank + fish("peppered cory", 8), table) == "clear"
    assert level("room/open-lid", "[tank]\nlid = true\n" + fish("marbled hatchetfish", 8), table) == "clear"


def test_the_law_and_never_releasing(table: Table) -> None:
    (finding,) = found("room/law", fish("red swamp crayfish", 1), table)
    assert "red swamp crayfish (EU" in finding.message
    assert "local law" in finding.remedy and "Never release" in finding.remedy
    assert finding.headroom > 90  # a reminder, nothing against the plan


def test_without_measures_only_the_stated_volume_counts(table: Table) -> None:
    fragment = 'without = ["tank"]\n'
    document = example_document(fragment + fish("oscar", 1))
    document["tank"] = {"water_volume": "60 L"}
    findings = list(RULES["room/tank-size"].check(facts_of(document, table)))
    assert all("cm long inside" not in finding.message for finding in findings)
