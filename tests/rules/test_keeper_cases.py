"""What an experienced keeper sees at once.  Common practice, no source, unless a test says otherwise."""

from __future__ import annotations

import pytest

from stockcheck.check import Report, check_text
from stockcheck.plan.faults import PlanError
from stockcheck.rules.core import LEVELS
from stockcheck.table.read import Table

BOX = '[tank]\nlength = "{0} cm"\nwidth = "{1} cm"\nheight = "{2} cm"\nlid = true\n{3}\n'


def check(text: str, table: Table) -> Report:
    return check_text('name = "Case"\n' + text, table)


def level(report: Report, rule: str) -> str:
    found = [finding.level for finding in report.findings if finding.rule == rule]
    return max(found, key=LEVELS.index, default="clear")


def animals(name: str, **numbers: int) -> str:
    return f'[[animals]]\nspecies = "{name}"\n' + "".join(f"{key} = {n}\n" for key, n in numbers.items())


def test_a_tank_known_by_its_water_alone_is_still_too_small(table: Table) -> None:
    report = check('[tank]\nwater_volume = "30 L"\nlid = true\n' + animals("oscar", count=2), table)
    told = [finding for finding in report.findings if finding.rule == "room/tank-size"]
    assert {finding.level for finding in told} == {"fix", "unknown"}
    assert any("30 L of water" in finding.message for finding in told)
    assert any("length" in finding.remedy for finding in told)


def test_panes_that_the_formula_breaks_are_a_stop(table: Table) -> None:
    """Stilwell's formula gives 4 mm under 80 cm of water a fifth of the strength it takes."""
    thin = check(BOX.format(200, 60, 80, 'glass = "4 mm"') + animals("guppy", males=3), table)
    assert level(thin, "room/glass") == "stop"
    stout = check(BOX.format(200, 60, 80, 'glass = "19 mm"') + animals("guppy", males=3), table)
    assert level(stout, "room/glass") in ("clear", "watch")


def test_no_crowd_is_so_large_that_it_is_calm(table: Table) -> None:
    crammed = check(BOX.format(100, 40, 40, 'cover = "dense"') + animals("guppy", males=400), table)
    assert level(crammed, "company/male-rivalry") in ("fix", "stop")


HEATED = '[room]\nlow = "{0} degC"\nhigh = "25 degC"\n[heater]\npower = "{1} W"\nsetpoint = "28 degC"\n'


def test_a_hopeless_heater_is_no_small_thing(table: Table) -> None:
    """The water ends ten kelvin below what discus bear."""
    cold = check(BOX.format(120, 50, 50, "") + HEATED.format(10, 100) + animals("discus", count=6), table)
    assert level(cold, "water/heater-power") == "stop"
    warm = check(BOX.format(120, 50, 50, "") + HEATED.format(18, 400) + animals("discus", count=6), table)
    assert level(warm, "water/heater-power") in ("clear", "watch")


def test_a_heater_of_unknown_power_is_a_question(table: Table) -> None:
    heated = HEATED.format(18, 1).replace('power = "1 W"\n', "")
    report = check(BOX.format(120, 50, 50, "") + heated + animals("discus", count=6), table)
    (told,) = [finding for finding in report.findings if finding.rule == "water/heater-power"]
    assert told.level == "unknown" and "Take " in told.remedy
    assert "heater_power_w" in report.facts.figures
    assert "stuck_on_temperature_c" not in report.facts.figures


def test_water_that_nobody_measured_has_no_headroom(table: Table) -> None:
    report = check(BOX.format(60, 30, 36, "") + animals("guppy", males=3) + animals("platy", males=3), table)
    assert report.headroom["water"] is None


def test_ammonia_of_the_tap_is_told(table: Table) -> None:
    """A third of 3 mg/L is 1 mg/L; EPA 2013 bears no such peak for days at pH 8."""
    water = (
        '[water]\npH = 8.0\n[tap]\nammonia = "3 mg/L"\n[routine]\nwater_change = "33 %"\nevery = "7 day"\n'
    )
    report = check(BOX.format(60, 30, 36, "") + water + animals("guppy", males=3), table)
    assert level(report, "waste/tap-water") in ("fix", "stop")
    clean = check(
        BOX.format(60, 30, 36, "") + water.replace("3 mg", "0 mg") + animals("guppy", males=3), table
    )
    assert level(clean, "waste/tap-water") == "clear"


def test_an_animal_longer_than_its_kind_grows_is_a_slip(table: Table) -> None:
    plan = BOX.format(60, 30, 36, "") + animals("neon tetra", count=8) + 'length = "30 cm"\n'
    with pytest.raises(PlanError) as caught:
        check(plan, table)
    (fault,) = caught.value.faults
    assert fault.key == "animals[1].length" and "neon tetra" in fault.problem
