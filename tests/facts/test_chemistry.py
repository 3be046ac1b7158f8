"""The water's chemistry of whole plans: buffer, carbon dioxide, top-up, mixing, chlorine."""

from __future__ import annotations

import tomllib

import pytest

from stockcheck.facts.build import build_facts
from stockcheck.facts.model import Facts
from stockcheck.physics.carbonate import co2_mg_per_l
from stockcheck.plan.reader import read_document
from stockcheck.rules.examples import BASE, merge
from stockcheck.table.read import Table


def facts(table: Table, fragment: str = "") -> Facts:
    reading = read_document(merge(tomllib.loads(BASE), tomllib.loads(fragment)), "example")
    assert reading.plan is not None and not reading.faults, reading.faults
    return build_facts(reading.plan, table)


def value(found: Facts, name: str) -> float:
    return found.figures[name].interval.value


def test_kh_before_a_change_against_week_by_week(table: Table) -> None:
    """Tap water in, use and top-up through the week, until the weeks repeat."""
    found = facts(table, '[[animals]]\nspecies = "Danio rerio"\ncount = 40')
    use, tap, share = value(found, "kh_use_dkh_per_week"), 4.0, 0.3
    top_up = value(found, "evaporation_l_per_day") * 7 / value(found, "net_volume_l") * tap
    level = tap
    for _ in range(300):
        before = level + top_up - use
        level = before + share * (tap - before)
    assert value(found, "kh_before_change_dkh") == pytest.approx(before, rel=1e-6)


def test_kh_is_never_below_nothing(table: Table) -> None:
    found = facts(table, '[tap]\nKH = "0.2 dKH"\n[[animals]]\nspecies = "Carassius auratus"\ncount = 6')
    low, middle, _ = found.figures["kh_before_change_dkh"].interval
    assert low == middle == 0


def test_more_changes_keep_more_kh(table: Table) -> None:
    fish = '[[animals]]\nspecies = "Danio rerio"\ncount = 40\n'
    little, much = (
        value(facts(table, f'{fish}[routine]\nwater_change = "{share} %"'), "kh_before_change_dkh")
        for share in (10, 50)
    )
    assert little < much


def test_humic_water_has_no_carbon_dioxide_figure(table: Table) -> None:
    assert "co2_mg_per_l" in facts(table).figures
    assert "co2_mg_per_l" not in facts(table, "[water]\nhumic = true").figures


def test_standing_water_loses_its_carbon_dioxide(table: Table) -> None:
    """At pH 6.9 and 4 dKH there are some 17 mg/L; a room of 700 uatm leaves about 1."""
    found = facts(table)
    assert value(found, "co2_mg_per_l") == pytest.approx(17, abs=1)
    standing = value(found, "standing_ph")
    assert 8.0 < standing < 8.3
    assert co2_mg_per_l(4.0, standing, 24.5) == pytest.approx(1.06, rel=0.03)


def test_pure_top_up_builds_up_nothing(table: Table) -> None:
    open_tank = '[tank]\nlid = false\n[routine]\nwater_change = "10 %"\nevery = "14 day"\n'
    tap = facts(table, open_tank + 'top_up = "tap"')
    pure = facts(table, open_tank + 'top_up = "pure"')
    assert value(tap, "gh_before_change_dgh") > 7.5
    assert value(pure, "gh_before_change_dgh") == pytest.approx(7.0)
    assert value(pure, "gh_gain_dgh_per_week") == 0


def test_mixing_to_a_target(table: Table) -> None:
    """Tap 7 dGH and 4 dKH to 3.5 and 3: half pure water, and baking soda for the KH that is missing."""
    found = facts(table, '[target]\nGH = "3.5 dGH"\nKH = "3 dKH"')
    litres = value(found, "net_volume_l") * 0.3
    assert value(found, "mix_pure_l_per_change") == pytest.approx(litres / 2)
    assert value(found, "mix_tap_l_per_change") == pytest.approx(litres / 2)
    assert value(found, "gh_mineral_g_per_change") == pytest.approx(0.0, abs=1e-9)
    # 1 g of NaHCO3 in 100 L adds 0.334 dKH (molar masses)
    assert value(found, "kh_mineral_g_per_change") == pytest.approx(1.0 / 0.334 * litres / 100, rel=1e-3)


def test_a_target_above_the_tap_takes_no_pure_water(table: Table) -> None:
    found = facts(table, '[target]\nGH = "10 dGH"')
    assert value(found, "mix_pure_l_per_change") == 0
    # gypsum, 172.17 g/mol: 3 dGH are 0.535 mmol/L
    litres = value(found, "net_volume_l") * 0.3
    assert value(found, "gh_mineral_g_per_change") == pytest.approx(3 * 0.17832 * 0.17217 * litres, rel=1e-3)


def test_chlorine_of_a_change(table: Table) -> None:
    """0.5 mg/L, 30 % changed: 0.15 in the tank; 7 mg of thiosulfate for each mg of chlorine that goes in."""
    found = facts(table, '[tap]\nchlorine = "0.5 mg/L"')
    assert value(found, "chlorine_after_change_mg_per_l") == pytest.approx(0.15)
    chlorine_mg = 0.5 * value(found, "net_volume_l") * 0.3
    assert value(found, "thiosulfate_mg_per_change") == pytest.approx(7.0 * chlorine_mg, rel=1e-3)
    assert "chloramine_tan_mg_per_l" not in found.figures


def test_chloramine_leaves_ammonia(table: Table) -> None:
    """3 mg/L as Cl2 hold 0.593 mg N/L (molar masses); a change of 30 % brings 0.18."""
    found = facts(table, '[tap]\nchloramine = "3 mg/L"')
    assert value(found, "chloramine_tan_mg_per_l") == pytest.approx(0.593 * 0.3, rel=1e-3)


def test_conductivity_of_this_hardness(table: Table) -> None:
    """Common practice, no source: some 30 to 45 uS/cm to the degree of GH."""
    assert 7 * 30 < value(facts(table), "conductivity_estimate_us_cm") < 7 * 50
