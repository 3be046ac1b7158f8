"""Net volume of whole plans: what the trade knows, terraces, stones, measured water."""

from __future__ import annotations

import pytest

from stockcheck.facts.volume import volume_figures
from stockcheck.plan.model import Hardscape, Plan, Substrate, Tank
from stockcheck.table.read import Table

METRE = {"length_cm": 100.0, "width_cm": 40.0, "height_cm": 40.0}
SOIL = Substrate("planted soil", 5.0, 8.0)
LAVA = Hardscape("lava rock", mass_kg=6.0)


def figures(table: Table, **tank: object) -> dict[str, float]:
    """The middle of every volume figure."""
    plan = Plan("test", "test", Tank(**tank))  # type: ignore[arg-type]
    return {name: figure.interval.value for name, figure in volume_figures(plan, table).items()}


@pytest.mark.parametrize("glass_mm", [8.0, 10.0])
@pytest.mark.parametrize(
    "stone", [LAVA, Hardscape("lava rock", mass_kg=3.0), Hardscape("pumice", mass_kg=4.0)]
)
def test_a_metre_tank_holds_what_the_trade_finds(table: Table, glass_mm: float, stone: Hardscape) -> None:
    """Common practice, no source: 100 x 40 x 40 cm with soil and porous rock holds 120 to 132 L."""
    found = figures(table, **METRE, glass_mm=glass_mm, substrate=[SOIL], hardscape=[stone])
    assert 120 <= found["net_volume_l"] <= 132


def test_fourteen_buckets_agree_with_that_tank(table: Table) -> None:
    """14 x 9 L = 126 L; the measured water wins, and the difference is within what both are known to."""
    tank = Tank(**METRE, glass_mm=10.0, substrate=[SOIL], hardscape=[LAVA], buckets=(14, 9.0))
    found = volume_figures(Plan("test", "test", tank), table)
    assert found["net_volume_l"].interval.value == pytest.approx(126)
    difference = found["volume_difference_l"].interval
    assert difference.value == pytest.approx(126 - found["geometry_volume_l"].interval.value)
    assert difference.low < 0 < difference.high


def test_a_difference_names_the_water_line_that_explains_it(table: Table) -> None:
    """The water line that is named, put into the plan, closes the gap."""
    tank = Tank(**METRE, glass_mm=10.0, substrate=[SOIL], water_volume_l=115.0)
    found = volume_figures(Plan("test", "test", tank), table)
    line = next(
        s for s in found["volume_difference_l"].steps if s.name.startswith("explained by a water line")
    )
    tank.fill_gap_cm = line.value
    again = volume_figures(Plan("test", "test", tank), table)
    assert again["geometry_volume_l"].interval.value == pytest.approx(115.0, abs=0.01)


def test_ways_of_measuring_rank(table: Table) -> None:
    """A stated volume before buckets before a timed fill; each without the tank's measures too."""
    assert figures(table, water_volume_l=90.0, buckets=(14, 9.0))["net_volume_l"] == 90.0
    assert figures(table, buckets=(14, 9.0), fill=(6.0, 10.0))["net_volume_l"] == 126.0
    assert figures(table, fill=(6.0, 20.0)) == {"net_volume_l": 120.0}
    assert figures(table) == {}


def test_outside_and_inside_measures_of_one_tank_agree(table: Table) -> None:
    outside = figures(table, **METRE, glass_mm=10.0)
    inside = figures(table, length_cm=98.0, width_cm=38.0, height_cm=39.0, measured="inside", glass_mm=10.0)
    for name in ("net_volume_l", "floor_cm2", "filled_mass_kg", "floor_load_kn_m2"):
        assert inside[name] == pytest.approx(outside[name])


def test_a_terrace_holds_less_water_than_the_slope_in_front_of_it(table: Table) -> None:
    slope = figures(table, **METRE, substrate=[Substrate("sand", 3.0, 12.0)])
    terrace = figures(table, **METRE, substrate=[Substrate("sand", 3.0, 12.0, wall_cm=15.0)])
    assert terrace["net_volume_l"] < slope["net_volume_l"]


def test_stone_by_size_and_by_mass_agree(table: Table) -> None:
    """A basalt boulder of 30 x 20 x 20 cm fills 0.45 of its box: 5.4 L, 15.66 kg at 2.9 kg/L."""
    bare = figures(table, **METRE)["net_volume_l"]
    sized = figures(table, **METRE, hardscape=[Hardscape("basalt", size_cm=(30.0, 20.0, 20.0))])
    weighed = figures(table, **METRE, hardscape=[Hardscape("basalt", mass_kg=15.66)])
    assert bare - sized["net_volume_l"] == pytest.approx(5.4 * 0.99, rel=1e-3)
    assert weighed["net_volume_l"] == pytest.approx(sized["net_volume_l"])
    assert weighed["filled_mass_kg"] == pytest.approx(sized["filled_mass_kg"])


def test_an_euro_brace_takes_water_only_when_filled_to_the_rim(table: Table) -> None:
    open_rim, braced = (figures(table, **METRE, glass_mm=10.0, brace=brace) for brace in ("none", "euro"))
    assert braced["net_volume_l"] == pytest.approx(open_rim["net_volume_l"])
    assert braced["filled_mass_kg"] > open_rim["filled_mass_kg"]
    to_the_rim = figures(table, **METRE, glass_mm=10.0, brace="euro", fill_gap_cm=0.0)
    assert (
        to_the_rim["net_volume_l"] < figures(table, **METRE, glass_mm=10.0, fill_gap_cm=0.0)["net_volume_l"]
    )
    assert to_the_rim["surface_cm2"] < to_the_rim["floor_cm2"]


def test_the_parts_weigh_what_they_weigh(table: Table) -> None:
    """Bare: 134 L of water and five panes of 10 mm (14.76 L of glass at 2.5 kg/L)."""
    found = figures(table, **METRE, glass_mm=10.0)
    glass = (160 - 98 * 38 * 39 / 1000) * 2.5
    assert found["filled_mass_kg"] == pytest.approx(98 * 38 * 36 / 1000 * 0.997 + glass, rel=1e-3)
    assert found["floor_load_kn_m2"] == pytest.approx(found["filled_mass_kg"] * 9.80665 / 1000 / 0.4)


def test_glass_not_stated_is_what_such_a_tank_is_made_of(table: Table) -> None:
    """Rother 1983 prints 6.5 mm for 80 x 40 cm; the next stock thickness is 8."""
    assert figures(table, length_cm=80.0, width_cm=40.0, height_cm=45.0)["glass_mm"] == 8.0


def test_every_step_has_a_source(table: Table) -> None:
    tank = Tank(**METRE, substrate=[SOIL], hardscape=[LAVA], buckets=(14, 9.0), equipment_l=1.0, brace="euro")
    for figure in volume_figures(Plan("test", "test", tank), table).values():
        assert figure.steps, figure.name
        for step in figure.steps:
            assert step.source and step.unit and step.formula
    assert "0.30 to 0.40" in str(volume_figures(Plan("t", "t", tank), table)["geometry_volume_l"].steps)
