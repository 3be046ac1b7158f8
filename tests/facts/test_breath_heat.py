"""Oxygen and heat of whole plans: questions a keeper asks, and intervals against a Monte Carlo run."""

from __future__ import annotations

import tomllib
from typing import Any

import numpy as np
import pytest

from stockcheck.facts import breath_model
from stockcheck.facts.breath import _inputs, _setting, animal_uptake
from stockcheck.facts.build import build_facts
from stockcheck.facts.heat import vessel_of
from stockcheck.facts.model import Facts
from stockcheck.physics import heat
from stockcheck.physics.quantity import Interval
from stockcheck.plan.reader import read_document
from stockcheck.rules.examples import BASE, merge
from stockcheck.table.read import Table


def facts(table: Table, fragment: str = "", without: tuple[str, ...] = ()) -> Facts:
    """The base example with a fragment laid over it."""
    document: dict[str, Any] = merge(tomllib.loads(BASE), tomllib.loads(fragment))
    for key in without:
        del document[key]
    reading = read_document(document, "example")
    assert reading.plan is not None and not reading.faults, reading.faults
    return build_facts(reading.plan, table)


def value(found: Facts, name: str) -> float:
    return found.figures[name].interval.value


def test_surface_movement_raises_the_dawn(table: Table) -> None:
    still, ripple, strong = (
        value(facts(table, f'[filter]\nsurface = "{surface}"'), "oxygen_night_mg_per_l")
        for surface in ("still", "ripple", "strong")
    )
    assert still < ripple < strong
    assert value(facts(table, "air_stone = true"), "oxygen_night_mg_per_l") > ripple


def test_a_longer_night_is_never_better(table: Table) -> None:
    short, long = (
        value(
            facts(table, f'[light]\nhours = "{hours} hour"\n[filter]\nsurface = "still"'),
            "oxygen_night_mg_per_l",
        )
        for hours in (12, 4)
    )
    assert long <= short


def test_plants_raise_the_evening_and_floaters_screen_the_surface(table: Table) -> None:
    fish = '[filter]\nsurface = "still"\n[[animals]]\nspecies = "Danio rerio"\ncount = 30\n'
    bare = facts(table, fish, without=("plants",))
    planted = facts(table, fish + '[[plants]]\nspecies = "Vallisneria spiralis"\ncover = "60 %"')
    floating = facts(table, fish + '[[plants]]\nspecies = "Lemna minor"\ncover = "80 %"')
    assert value(planted, "oxygen_evening_mg_per_l") > value(bare, "oxygen_evening_mg_per_l")
    assert value(floating, "oxygen_transfer_l_per_h") < value(bare, "oxygen_transfer_l_per_h")


def test_air_breathers_draw_less_on_the_water(table: Table) -> None:
    found = facts(table, '[[animals]]\nspecies = "Trichopodus leerii"\ncount = 4')
    group = found.groups[0]
    uptake = animal_uptake(group, 24.5)
    assert uptake is not None and group.species.air_breather
    step = next(s for s in found.figures["oxygen_night_mg_per_l"].steps if "air breathers" in s.formula)
    assert step.value == pytest.approx(uptake.value * 0.7)


def test_thirty_zebrafish_breathe_as_measured(table: Table) -> None:
    """Lucas & Priede 1992: 421 (alone) to 560 (in sixes) mg/kg/h at 24 degC; the model is good to 1.6."""
    found = facts(table, '[heater]\nsetpoint = "24 degC"\n[[animals]]\nspecies = "Danio rerio"\ncount = 30')
    group = found.groups[0]
    uptake = animal_uptake(group, 24.0)
    assert uptake is not None and group.mass_g is not None
    per_kg = uptake.value / (group.mass_g.value * 30) * 1000
    assert 421 / 1.6 < per_kg < 560 * 1.6


def test_no_oxygen_figures_without_measures(table: Table) -> None:
    found = facts(table, '[tank]\nwater_volume = "120 L"')
    bare = tomllib.loads(BASE)
    for key in ("length", "width", "height"):
        del bare["tank"][key]
    bare["tank"]["water_volume"] = "120 L"
    reading = read_document(bare, "example")
    assert reading.plan is not None
    assert "oxygen_night_mg_per_l" in found.figures
    assert "oxygen_night_mg_per_l" not in build_facts(reading.plan, table).figures


def test_heater_power_agrees_with_the_rule_of_volume(table: Table) -> None:
    """0.40 W/K per L^(2/3) with a lid, 0.73 open (fits of whole-tank balances), over 6.5 K."""
    for lid, rule in (("true", 0.40), ("false", 0.73)):
        found = facts(table, f"[tank]\nlid = {lid}")
        water_to_line = value(found, "floor_cm2") * value(found, "water_height_cm") / 1000
        expected = rule * water_to_line ** (2 / 3) * 6.5
        assert value(found, "heater_power_w") == pytest.approx(expected, rel=0.15)


def test_two_smaller_heaters_stop_earlier_than_one(table: Table) -> None:
    one = facts(table)
    two = facts(table, '[heater]\npower = "75 W"\ncount = 2')
    assert value(two, "stuck_on_temperature_c") == pytest.approx(value(one, "stuck_on_of_two_temperature_c"))
    assert value(two, "stuck_on_temperature_c") < value(one, "stuck_on_temperature_c")
    assert value(two, "full_power_temperature_c") == pytest.approx(value(one, "full_power_temperature_c"))
    assert "stuck_on_of_two_temperature_c" not in two.figures


def test_full_power_in_the_cold_holds_what_the_need_says(table: Table) -> None:
    """A heater of just the power needed holds just the setpoint."""
    need = value(facts(table), "heater_power_w")
    found = facts(table, f'[heater]\npower = "{need} W"')
    assert value(found, "full_power_temperature_c") == pytest.approx(24.5, abs=0.01)


def test_more_water_cools_more_slowly(table: Table) -> None:
    cold = '[room]\nlow = "12 degC"\n'
    small = facts(table, cold + '[tank]\nlength = "40 cm"\nwidth = "25 cm"\nheight = "25 cm"')
    assert value(small, "failed_hours") < value(facts(table, cold), "failed_hours")


def test_unheated_tanks_have_no_heater_figures(table: Table) -> None:
    found = facts(table, without=("heater",))
    assert "heat_loss_w_per_k" in found.figures
    assert not {"heater_power_w", "stuck_on_temperature_c"} & set(found.figures)


def _draws(interval: Interval, random: np.random.Generator, size: int) -> np.ndarray:
    """Samples with the interval as 5 to 95 %: two half log-normals where positive, else half normals."""
    z = random.standard_normal(size)
    low, middle, high = interval
    if low > 0:
        down, up = np.log(middle / low), np.log(high / middle)
        return middle * np.exp(np.where(z < 0, down, up) * z / 1.645)
    return middle + np.where(z < 0, middle - low, high - middle) * z / 1.645


def test_oxygen_interval_against_monte_carlo(table: Table) -> None:
    found = facts(table, '[[animals]]\nspecies = "Danio rerio"\ncount = 30')
    random = np.random.default_rng(5)
    litres = found.figures["net_volume_l"].interval
    animals = animal_uptake(found.groups[0], 24.5)
    assert animals is not None
    setting = _setting(found, value(found, "surface_cm2"), 0.0)
    inputs = _inputs(found, table, setting, litres, animals)
    sampled = {name: _draws(interval, random, 4000) for name, interval in inputs.items()}
    nights = [
        breath_model.night_and_outage(setting, {name: draws[i] for name, draws in sampled.items()})
        for i in range(4000)
    ]
    for name in ("oxygen_night_mg_per_l", "oxygen_uptake_mg_per_h", "oxygen_transfer_l_per_h"):
        low, high = np.quantile([night[name] for night in nights], [0.05, 0.95])
        figure = found.figures[name].interval
        width = high - low
        assert figure.low == pytest.approx(low, abs=0.2 * width)
        assert figure.high == pytest.approx(high, abs=0.2 * width)


def test_heat_interval_against_monte_carlo(table: Table) -> None:
    found = facts(table)
    random = np.random.default_rng(6)
    figures = found.figures["heater_power_w"].interval
    vessel = vessel_of(found)
    assert vessel is not None
    siting, leak = (_draws(c.interval, random, 4000) for c in (heat.SITING, heat.LID_LEAK))
    power = [heat.loss(24.5, 18.0, vessel, 0.5, s, e) for s, e in zip(siting, leak, strict=True)]
    low, high = np.quantile(power, [0.05, 0.95])
    assert figures.low == pytest.approx(low, rel=0.05)
    assert figures.high == pytest.approx(high, rel=0.05)
