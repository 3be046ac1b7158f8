"""The remedy that a finding puts first really clears it when the plan is changed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from planning import community, told

from stockcheck.check import report_on
from stockcheck.facts.build import build_facts
from stockcheck.facts.model import Facts
from stockcheck.plan.model import Plan
from stockcheck.plan.reader import read_plan
from stockcheck.rules.company.keeping import keepings
from stockcheck.rules.company.remedies import Change, remedies
from stockcheck.table.read import Table

ROOT = Path(__file__).resolve().parents[2]
RIVALRY = ("company/male-rivalry", "company/female-rivalry", "company/harassment")


def changed(plan: Plan, change: Change) -> Plan:
    """A plan with one taxon, changed as a remedy says (its first entry takes all the animals)."""
    tank, entry = plan.tank, plan.animals[0]
    if change.cover is not None:
        tank = replace(tank, cover=change.cover)
    if change.caves is not None:
        tank = replace(tank, caves=change.caves)
    if change.tank_length_cm is not None and tank.length_cm and tank.width_cm:
        walls = 0.2 * (tank.glass_mm or 0.0) if tank.measured == "outside" else 0.0
        inside = tank.length_cm - walls
        factor = change.tank_length_cm / inside
        tank = replace(tank, length_cm=change.tank_length_cm + walls)
        assert factor > 1
    males = sum(animals.males for animals in plan.animals) if change.males is None else change.males
    females = sum(animals.females for animals in plan.animals) if change.females is None else change.females
    return replace(plan, tank=tank, animals=[replace(entry, males=males, females=females)])


def rivalry_told(facts: Facts) -> list[str]:
    return [f"{finding.rule} {finding.level}" for rule in RIVALRY for finding in told(rule, facts)]


def test_bachelor_hall_names_the_males_and_the_change_that_settles_it(table: Table) -> None:
    plan = read_plan(ROOT / "data/plans/bachelor-hall.toml").plan
    assert plan is not None
    facts = build_facts(plan, table)
    (finding,) = told("company/male-rivalry", facts)
    assert finding.level in ("fix", "stop")
    assert "8 male guppies" in finding.message and "212 cm2 of floor each" in finding.message
    first = remedies(keepings(facts)[0])[0]
    assert finding.remedy.startswith(f"The smallest change that settles it: {first.words}.")
    settled = build_facts(changed(plan, first.change), table)
    assert told("company/male-rivalry", settled) == []
    assert [f for f in report_on(settled, table).at_level("stop", "fix") if f.axis == "company"] == []


@pytest.mark.parametrize(
    ("animals", "tank", "cover"),
    [
        (["8 male Poecilia reticulata"], "45 x 30 x 30", "open"),
        (["2 male Betta splendens"], "100 x 40 x 40", "some"),
        (["4 male Xiphophorus hellerii"], "100 x 40 x 40", "some"),
        (["4 male Xiphophorus hellerii"], "100 x 40 x 40", "open"),
        (["3 male Trichogaster lalius"], "80 x 35 x 40", "some"),
        (["2 male Apistogramma cacatuoides"], "60 x 30 x 30", "some"),
        (["3 male Hypancistrus zebra", "3 female Hypancistrus zebra"], "100 x 40 x 40", "some"),
        (["6 male Poecilia reticulata", "2 female Poecilia reticulata"], "100 x 40 x 40", "some"),
        (["5 male Xiphophorus maculatus", "1 female Xiphophorus maculatus"], "80 x 35 x 40", "open"),
        (["1 male Betta splendens", "1 female Betta splendens"], "60 x 30 x 30", "dense"),
        (["5 female Betta splendens"], "60 x 30 x 30", "some"),
        (["3 male Chindongo demasoni", "3 female Chindongo demasoni"], "120 x 50 x 50", "some"),
    ],
)
def test_every_settling_remedy_settles(animals: list[str], tank: str, cover: str, table: Table) -> None:
    facts = community(table, animals, tank, cover)
    assert rivalry_told(facts), "the group should be in trouble to begin with"
    settling = [remedy for remedy in remedies(keepings(facts)[0]) if remedy.settles]
    assert settling, "there is always a way out"
    assert [remedy.effort for remedy in settling] == sorted(remedy.effort for remedy in settling)
    for remedy in settling:
        if remedy.change.tank_length_cm is None:  # a longer tank is also wider in the model: tested below
            after = build_facts(changed(facts.plan, remedy.change), table)
            assert rivalry_told(after) == [], remedy.words


def test_a_longer_tank_is_offered_where_room_is_what_lacks(table: Table) -> None:
    facts = community(table, ["3 male Trichopodus leerii"], "60 x 30 x 30", "dense")
    lengths = [remedy.change.tank_length_cm for remedy in remedies(keepings(facts)[0]) if remedy.settles]
    (length,) = [length for length in lengths if length]
    roomy = community(table, ["3 male Trichopodus leerii"], f"{length} x 30 x 30", "dense")
    assert told("company/male-rivalry", roomy) == []


def test_more_males_are_offered_where_a_crowd_helps(table: Table) -> None:
    """Two sparring males of a group-living kind in a large tank: company for them dilutes it."""
    facts = community(table, ["2 male Poecilia sphenops"], "150 x 50 x 50", "open")
    words = [remedy.words for remedy in remedies(keepings(facts)[0])]
    assert rivalry_told(facts) and any("more male" in text for text in words)


def test_more_males_are_not_offered_where_the_floor_is_full(table: Table) -> None:
    facts = community(table, ["8 male Poecilia reticulata"], "45 x 30 x 30", "open")
    assert not any("more male" in remedy.words for remedy in remedies(keepings(facts)[0]))
