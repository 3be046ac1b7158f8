"""Breath, heater, vessel and chemistry rules: levels, numbers in messages, silence where all is well."""

from __future__ import annotations

import tomllib

import pytest
from planning import facts_of, level, told

from stockcheck.facts.model import Facts
from stockcheck.rules.core import RULES
from stockcheck.rules.examples import BASE, example_document, merge
from stockcheck.table.read import Table


def facts(table: Table, fragment: str) -> Facts:
    return facts_of(merge(tomllib.loads(BASE), tomllib.loads(fragment)), table)


MINE = [
    name
    for name, rule in sorted(RULES.items())
    if rule.check.__module__.rpartition(".")[2] in ("breath", "chemistry", "heater", "vessel")
]


def test_all_of_them_are_registered() -> None:
    assert {"breath/night", "water/conditioner", "water/heater-power", "room/floor-load"} <= set(MINE)


@pytest.mark.parametrize("name", MINE)
def test_a_rule_holds_its_tongue_on_a_plan_that_says_little(name: str, table: Table) -> None:
    """A tank of which only the water is known: no rule crashes, none claims more than unknown."""
    document = {"tank": {"water_volume": "100 L"}, "animals": [{"species": "Danio rerio", "count": 8}]}
    assert {finding.level for finding in RULES[name].check(facts_of(document, table))} <= {"clear", "unknown"}


def test_no_measures_is_an_unknown_breath(table: Table) -> None:
    unmeasured = "without = ['tank.length', 'tank.width', 'tank.height']\n[tank]\nwater_volume = '120 L'"
    document = example_document(unmeasured)
    found = told("breath/night", facts_of(document, table))
    assert [finding.level for finding in found] == ["unknown"]


def test_a_crowd_in_still_water_is_a_stop_with_the_way_out_in_grams(table: Table) -> None:
    crowd = '[filter]\nsurface = "still"\n[[animals]]\nspecies = "Carassius auratus"\ncount = 8'
    (finding,) = told("breath/night", facts(table, crowd))
    assert finding.level == "stop"
    assert " g of these " in finding.remedy
    assert finding.species == ("carassius-auratus",)


def test_headroom_of_the_night_falls_with_the_crowd(table: Table) -> None:
    rooms = [
        min(
            finding.headroom
            for finding in RULES["breath/night"].check(
                facts(table, f'[[animals]]\nspecies = "Danio rerio"\ncount = {count}')
            )
        )
        for count in (10, 80, 160)
    ]
    assert rooms[0] > rooms[1] > rooms[2]


def test_conditioner_levels(table: Table) -> None:
    """Harm from 0.02 mg/L, most fish dead at 0.3: a change brings its share of the tap's chlorine."""
    bare = "[routine]\nconditioner = false\nwater_change = '10 %'\n[tap]\n"
    assert level("water/conditioner", facts(table, bare + 'chlorine = "0.1 mg/L"')) == "clear"
    assert level("water/conditioner", facts(table, bare + 'chlorine = "0.5 mg/L"')) == "fix"
    assert level("water/conditioner", facts(table, bare + 'chlorine = "2 mg/L"')) == "stop"
    assert told("water/conditioner", facts(table, bare))[0].level == "unknown"
    safe = bare.replace("false", "true")
    assert told("water/conditioner", facts(table, safe + 'chlorine = "2 mg/L"')) == []


def test_conditioned_chloramine_leaves_ammonia_to_watch(table: Table) -> None:
    (finding,) = told("water/conditioner", facts(table, '[tap]\nchloramine = "3 mg/L"'))
    assert finding.level == "watch"
    assert "label" in finding.remedy


def test_heater_levels(table: Table) -> None:
    """70 W are needed: 75 are a watch, 50 sag below what a rasbora bears, 150 are plenty."""
    cold = '[room]\nlow = "16 degC"\n[heater]\npower = "%s W"'
    assert level("water/heater-power", facts(table, cold % 150)) == "clear"
    assert level("water/heater-power", facts(table, cold % 90)) == "watch"
    assert level("water/heater-power", facts(table, cold % 25)) == "fix"


@pytest.mark.parametrize("name", ["water/heater-power", "water/heater-stuck", "water/heater-failed"])
def test_heater_remedies_carry_the_mains_caution(name: str, table: Table) -> None:
    for finding in told(name, facts_of(example_document(RULES[name].trips), table)):
        assert "earth-leakage breaker" in finding.remedy


def test_floor_and_glass_defer_to_those_who_know(table: Table) -> None:
    heavy = facts_of(example_document(RULES["room/floor-load"].trips), table)
    (finding,) = told("room/floor-load", heavy)
    assert finding.level == "watch"
    assert "licensed structural engineer" in finding.remedy
    thin = facts_of(example_document(RULES["room/glass"].trips), table)
    assert "maker" in told("room/glass", thin)[0].remedy


def test_glass_that_is_not_stated_is_not_judged(table: Table) -> None:
    document = example_document("without = ['tank.glass']")
    assert told("room/glass", facts_of(document, table)) == []


def test_volume_names_what_would_close_the_gap(table: Table) -> None:
    (finding,) = told("room/volume", facts(table, '[tank]\nwater_volume = "105 L"'))
    assert "below the rim" in finding.remedy


def test_injected_carbon_dioxide_is_judged_harder_than_a_reading(table: Table) -> None:
    """The same readings: with a CO2 bottle they are believed, without one they are first a test to repeat."""
    readings = '[water]\npH = 6.3\nKH = "6 dKH"\n'
    assert level("water/CO2", facts(table, readings + "[light]\nco2 = true")) in ("fix", "stop")
    assert level("water/CO2", facts(table, readings)) == "watch"


def test_a_soft_tap_is_a_fix_and_blackwater_on_purpose_a_watch(table: Table) -> None:
    soft = '[tap]\nKH = "0.5 dKH"\n'
    assert level("water/pH-stability", facts(table, soft)) == "fix"
    assert level("water/pH-stability", facts(table, soft + "[water]\nhumic = true")) == "watch"
