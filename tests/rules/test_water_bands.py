"""The water axis on the shipped table.  Common practice, no source, unless a test says otherwise."""

from __future__ import annotations

import pytest
from planning import facts_of

from stockcheck.facts.model import Facts
from stockcheck.rules.core import LEVELS, RULES, Finding
from stockcheck.rules.examples import example_document
from stockcheck.table.read import Table


def found(rule: str, fragment: str, table: Table) -> list[Finding]:
    facts: Facts = facts_of(example_document(fragment), table)
    return [finding for finding in RULES[rule].check(facts) if finding.level != "clear"]


def worst(findings: list[Finding]) -> str:
    return max((finding.level for finding in findings), key=LEVELS.index, default="clear")


def fish(*names: str) -> str:
    return "".join(f'[[animals]]\nspecies = "{name}"\ncount = 6\n' for name in names)


@pytest.mark.parametrize(
    ("name", "setpoint", "level"),
    [
        ("discus", 28, "clear"),
        ("discus", 24, "fix"),
        ("discus", 18, "stop"),
        ("white cloud mountain minnow", 20, "clear"),
        ("white cloud mountain minnow", 28, "stop"),
        ("guppy", 24, "clear"),
        ("neon tetra", 24, "clear"),
        ("goldfish", 20, "clear"),
    ],
)
def test_setpoints(table: Table, name: str, setpoint: int, level: str) -> None:
    fragment = f'[heater]\nsetpoint = "{setpoint} degC"\n{fish(name)}'
    findings = [f for f in found("water/temperature", fragment, table) if "melt" not in f.message]
    assert worst(findings) == level, findings


@pytest.mark.parametrize(
    ("name", "water", "rule", "allowed"),
    [
        ("guppy", 'pH = 7.5\nGH = "15 dGH"', "water/GH", {"clear"}),
        ("guppy", 'pH = 7.5\nGH = "1 dGH"', "water/GH", {"fix"}),
        ("cherry shrimp", 'GH = "10 dGH"', "water/GH", {"clear", "watch"}),
        ("discus", 'GH = "30 dGH"', "water/GH", {"fix"}),
        ("neon tetra", "pH = 6.5", "water/pH", {"clear"}),
        ("neon tetra", "pH = 7.3", "water/pH", {"watch"}),
        ("neon tetra", "pH = 9.2", "water/pH", {"stop"}),
        ("guppy", 'KH = "5 dKH"', "water/KH", {"clear", "watch"}),
    ],
)
def test_waters(table: Table, name: str, water: str, rule: str, allowed: set[str]) -> None:
    fragment = f"[water]\n{water}\n{fish(name)}"
    findings = [f for f in found(rule, fragment, table) if "melt" not in f.message]
    assert worst(findings) in allowed, findings


def test_a_single_source_does_not_speak_for_what_is_tolerated(table: Table) -> None:
    """Every band that rests on one source, two degrees past it and far past it."""
    alone = [
        s for s in table.all_species() if (b := s.band("temperature")) and b.origins == 1 and b.comfort_high
    ]
    told_alone = 0
    for species in alone:
        limit = species.bands["temperature"].comfort_high
        assert limit is not None
        for setpoint in (min(limit + 2, 39), min(limit + 6, 39)):
            fragment = f'[heater]\nsetpoint = "{setpoint} degC"\n' + fish(species.scientific_name)
            for finding in found("water/temperature", fragment, table):
                if species.slug in finding.species and len(finding.species) == 1:
                    told_alone += 1
                    assert "outside what the one source states" in finding.message, finding
                    assert "by one source" in finding.message and "tolerate" not in finding.message
    assert told_alone > 5


def test_the_band_that_was_left_is_printed(table: Table) -> None:
    """Beyond tolerance the message tells tolerance, not only comfort."""
    minnow = table.species("tanichthys-albonubes").bands["temperature"]
    (told,) = found(
        "water/temperature", '[heater]\nsetpoint = "26 degC"\n' + fish("white cloud mountain minnow"), table
    )[:1]
    assert f"tolerates {minnow.tolerance_low:.3g} to {minnow.tolerance_high:.3g}" in told.message
    assert "outside what is tolerated" in told.message


def test_several_of_one_mind_are_one_finding(table: Table) -> None:
    fragment = f'[heater]\nsetpoint = "29 degC"\n{fish("neon tetra", "peppered cory")}'
    findings = [
        f for f in found("water/temperature", fragment, table) if f.level == "fix" and len(f.species) == 2
    ]
    assert len(findings) == 1
    assert "29.5 °C" in findings[0].message and "20 to 26 °C" in findings[0].message
    assert findings[0].remedy.startswith("Set the heater between 20.5 and 25.5 °C")
    assert findings[0].sources and findings[0].grade == "A"


@pytest.mark.parametrize("tap", [20.0, 24.0])
def test_the_share_of_pure_water_brings_it_down_to_comfort(table: Table, tap: float) -> None:
    """Mass balance: what the advised dilution leaves of the tap is the end of discus comfort, 8 dGH."""
    water = f'[water]\nGH = "20 dGH"\n[tap]\nGH = "{tap} dGH"\n'
    (finding,) = found("water/GH", f'{water}{fish("discus")}\n[[plants]]\nspecies = "Java fern"\n', table)
    share = float(finding.remedy.split("Mix ")[1].split("%")[0]) / 100
    assert tap * (1 - share) == pytest.approx(8.0, abs=0.2)


def test_a_tap_that_suits_needs_no_mixing(table: Table) -> None:
    water = '[water]\nGH = "20 dGH"\n[tap]\nGH = "6 dGH"\n'
    told = found("water/GH", water + fish("discus") + '[[plants]]\nspecies = "Java fern"\n', table)
    assert "Changes with the tap's own 6 dGH bring it there" in told[0].remedy


def test_hard_tap_water_undoes_a_soft_tank(table: Table) -> None:
    """Mass balance: a third changed at a time leaves less than a tenth of the difference after six times."""
    routine = '[routine]\nwater_change = "33.4 %"\nevery = "7 day"\n'
    water = '[water]\nGH = "5 dGH"\n[tap]\nGH = "25 dGH"\n'
    (told,) = found("water/drift", routine + water + fish("neon tetra"), table)
    assert (1 - 0.334) ** 6 < 0.1 < (1 - 0.334) ** 5
    assert "within 6 changes (42 days)" in told.message and told.level == "fix"
    target = '[target]\nGH = "5 dGH"\n'
    assert found("water/drift", routine + water + target + fish("neon tetra"), table) == []
    assert found("water/drift", routine + water.replace("25", "6") + fish("neon tetra"), table) == []


def test_unheated_water_follows_the_room(table: Table) -> None:
    warm = 'without = ["heater"]\n[room]\nlow = "12 degC"\nhigh = "22 degC"\n' + fish("neon tetra")
    findings = found("water/temperature", warm, table)
    assert worst(findings) in ("fix", "stop")
    assert findings[0].message.startswith("Unheated, the water goes with the room to 12 °C")
    assert findings[0].remedy == "Add a heater that holds at least 20 °C."


def test_goldfish_with_discus_are_told_who_shares_what(table: Table) -> None:
    (finding,) = found("water/together", fish("goldfish", "discus"), table)
    assert finding.level in ("fix", "stop")
    assert set(finding.species) == {"carassius-auratus", "symphysodon-aequifasciatus"}
    assert "discus (26 to 30 °C)" in finding.remedy


def test_summer_names_only_those_that_the_dial_suits(table: Table) -> None:
    hot = '[room]\nhigh = "33 degC"\n[heater]\nsetpoint = "24 degC"\n' + fish("neon tetra", "goldfish")
    (finding,) = found("water/summer-heat", hot, table)
    assert finding.species == ("paracheirodon-innesi",)
    assert worst(found("water/summer-heat", hot.replace("33", "25"), table)) == "clear"


def test_brackish_and_fresh_do_not_mix(table: Table) -> None:
    assert worst(found("water/brackish", fish("spotted scat", "neon tetra"), table)) == "stop"
    assert worst(found("water/brackish", fish("spotted scat"), table)) == "fix"
    salty = '[water]\nchloride = "3000 mg/L"\n'
    assert worst(found("water/brackish", salty + fish("neon tetra"), table)) == "fix"
    assert found("water/brackish", salty + fish("spotted scat"), table) == []


def test_the_tap_stands_in_for_a_tank_not_yet_filled(table: Table) -> None:
    fragment = 'without = ["water"]\n[tap]\npH = 8.8\nGH = "7 dGH"\nKH = "4 dKH"\n' + fish("neon tetra")
    assert found("water/unmeasured", fragment, table) == []
    assert "The tap's pH of 8.8" in found("water/pH", fragment, table)[0].message


def test_what_is_not_said_is_asked_for(table: Table) -> None:
    fragment = 'without = ["water", "tap", "heater.setpoint"]\n'
    findings = found("water/unmeasured", fragment, table)
    assert [finding.level for finding in findings] == ["unknown"] * 4
    assert [
        next(word for word in ("setpoint", "pH", "GH", "KH") if word in finding.message)
        for finding in findings
    ] == ["setpoint", "pH", "GH", "KH"]
    unheated = found("water/unmeasured", 'without = ["heater", "room"]\n', table)
    assert ["how cold and warm the room gets" in finding.message for finding in unheated] == [True]


def test_a_missing_carbonate_hardness_of_a_species_is_no_question(table: Table) -> None:
    silent = table.species("corydoras-paleatus")
    assert silent.band("KH") is None
    assert found("water/no-band", fish("peppered cory"), table) == []


def test_plants_are_never_a_stop(table: Table) -> None:
    fragment = '[heater]\nsetpoint = "10 degC"\n'
    plants = [f for f in found("water/temperature", fragment, table) if "cryptocoryne-wendtii" in f.species]
    assert [finding.level for finding in plants] == ["fix"]


def test_a_kh_finding_says_for_how_many_kinds_a_kh_is_known(table: Table) -> None:
    stock = '[[animals]]\nspecies = "Poecilia reticulata"\nmales = 6\n'
    stock += '[[animals]]\nspecies = "Corydoras aeneus"\ncount = 8\n'
    (finding,) = [
        f for f in found("water/KH", f'[water]\nKH = "1 dKH"\n{stock}', table) if "guppy" in f.message
    ]
    assert "Sources state a KH for " in finding.message and " kinds here." in finding.message
    missing = found("water/unmeasured", f'without = ["water.KH", "tap.KH"]\n{stock}', table)
    assert any("water's KH. Sources state a KH for " in finding.message for finding in missing)
