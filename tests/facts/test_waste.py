"""The waste figures of whole plans: an engineer's orders of magnitude, and every way to leave something
out."""

from __future__ import annotations

import pytest

from stockcheck.facts.waste import waste_figures
from stockcheck.rules.waste.nitrate import NITRATE_GOAL
from stockcheck.table.read import Table
from tests.facts.tanks import (
    COMMUNITY,
    EXTERNAL,
    FIFTY_FOUR_LITRES,
    HEATED,
    INTERNAL,
    PLANTED,
    QUIET,
    TWENTY_LITRES,
    TWO_HUNDRED_LITRES,
    WATER,
    WEEKLY,
    animal,
    report,
    value,
    worst,
)

LEVELS = ("clear", "unknown", "watch", "fix", "stop")


def test_a_lightly_stocked_mature_tank(table: Table) -> None:
    """TAN well under 0.1 mg/L, a few mg/L of nitrate a week, KH hardly touched; common practice, no
    source."""
    found = report(table, COMMUNITY)
    assert 0.02 < value(found, "tan_mg_per_l") < 0.1
    assert value(found, "nh3_n_mg_per_l") < 0.005
    assert value(found, "nitrite_n_mg_per_l") < 0.05
    assert 2.0 < value(found, "nitrate_gain_mg_per_l_per_week") < 7.0
    assert 10.0 < value(found, "nitrate_mg_per_l") < 40.0
    assert 0.1 < value(found, "kh_use_dkh_per_week") < 1.0
    assert 0.3 < value(found, "feed_g_per_day") < 1.2


@pytest.mark.parametrize("rule", ["waste/ammonia", "waste/total-ammonia", "waste/nitrite", "waste/nitrate"])
def test_the_peaceful_community_is_clear_or_watch(table: Table, rule: str) -> None:
    """Six corydoras, twelve small rasboras, a dozen shrimps in 200 L; common practice, no source."""
    found = report(table, COMMUNITY)
    assert LEVELS.index(worst(found, rule)) <= LEVELS.index("watch")
    assert LEVELS.index(worst(found, "waste/removal")) <= LEVELS.index("watch")


def test_goldfish_in_twenty_litres_without_a_filter(table: Table) -> None:
    """Fix or stop; common practice, no source."""
    found = report(table, TWENTY_LITRES, WATER, WEEKLY, animal("Carassius auratus", 2))
    assert any(item.axis == "waste" and item.level in ("fix", "stop") for item in found.findings)


def test_sixty_neons_in_fifty_four_litres(table: Table) -> None:
    """At least watch; common practice, no source."""
    found = report(
        table, FIFTY_FOUR_LITRES, WATER, HEATED, INTERNAL, WEEKLY, animal("Paracheirodon innesi", 60)
    )
    assert any(item.axis == "waste" and item.level in ("watch", "fix", "stop") for item in found.findings)


def test_without_a_filter_surfaces_still_work(table: Table) -> None:
    with_filter, without = (
        report(table, TWO_HUNDRED_LITRES, WATER, HEATED, box, WEEKLY, QUIET) for box in (EXTERNAL, "")
    )
    assert (
        0 < value(without, "removal_capacity_mg_per_day") < value(with_filter, "removal_capacity_mg_per_day")
    )
    assert value(without, "tan_mg_per_l") > value(with_filter, "tan_mg_per_l")
    assert "flow_cap_mg_per_day" not in without.facts.figures


def test_a_filter_of_unknown_filling_counts_for_nothing_and_says_so(table: Table) -> None:
    empty = '[filter]\nflow = "650 L/hour"\n'
    found = report(table, TWO_HUNDRED_LITRES, WATER, HEATED, empty, WEEKLY, QUIET)
    without = report(table, TWO_HUNDRED_LITRES, WATER, HEATED, WEEKLY, QUIET)
    assert value(found, "tan_mg_per_l") == pytest.approx(value(without, "tan_mg_per_l"))
    assert any("filled with" in item.message for item in found.at_level("unknown"))


def test_without_a_pH_there_is_no_ammonia_figure_but_a_request(table: Table) -> None:
    found = report(table, COMMUNITY.replace("pH = 7.2", ""))
    assert "nh3_n_mg_per_l" not in found.facts.figures
    assert any("pH" in item.remedy for item in found.findings if item.rule == "waste/unmeasured")
    assert "tan_mg_per_l" in found.facts.figures


def test_without_a_water_change_nitrate_climbs(table: Table) -> None:
    changed, unchanged = report(table, COMMUNITY), report(table, COMMUNITY.replace(WEEKLY, ""))
    assert value(unchanged, "nitrate_mg_per_l") > value(changed, "nitrate_mg_per_l")
    assert "twelve weeks" in unchanged.facts.figures["nitrate_mg_per_l"].label


def test_a_plan_without_plants_takes_up_nothing(table: Table) -> None:
    found = report(table, COMMUNITY.replace(PLANTED, ""))
    assert found.facts.figures["plant_uptake_mg_per_day"].interval == (0.0, 0.0, 0.0)


def test_plants_can_bring_nitrate_below_the_tap_but_never_below_nothing(table: Table) -> None:
    lawn = "".join(
        f'[[plants]]\nspecies = "{name}"\ncover = "90 %"\n'
        for name in ("Limnophila sessiliflora", "Egeria densa")
    )
    found = report(table, COMMUNITY, lawn)
    interval = found.facts.figures["nitrate_mg_per_l"].interval
    assert 0 <= value(found, "nitrate_trough_mg_per_l") < 10.0
    assert interval.value <= 10.0


def test_own_grams_replace_the_ration(table: Table) -> None:
    own = report(table, COMMUNITY, '[feeding]\namount = "0.5 g/day"\n')
    assert value(own, "feed_g_per_day") == pytest.approx(0.5)
    assert value(own, "ration_g_per_day") == pytest.approx(value(report(table, COMMUNITY), "feed_g_per_day"))
    spread = own.facts.figures["feed_g_per_day"].interval
    assert spread.high / spread.low < 2


def test_feeding_three_times_the_ration_is_seen(table: Table) -> None:
    found = report(table, COMMUNITY, '[feeding]\namount = "2.5 g/day"\n')
    assert worst(found, "waste/feeding") in ("watch", "fix")
    assert worst(report(table, COMMUNITY, '[feeding]\namount = "0.6 g/day"\n'), "waste/feeding") == "clear"
    assert worst(report(table, COMMUNITY, '[feeding]\namount = "0.05 g/day"\n'), "waste/feeding") == "watch"


def test_frozen_food_is_given_by_the_gram_of_water(table: Table) -> None:
    flake, frozen = report(table, COMMUNITY), report(table, COMMUNITY, '[feeding]\nfeed = "frozen"\n')
    assert value(frozen, "feed_g_per_day") > 5 * value(flake, "feed_g_per_day")
    assert 0.5 < value(frozen, "tan_mg_per_l") / value(flake, "tan_mg_per_l") < 2.0


def test_juveniles_load_less_today_and_grow(table: Table) -> None:
    young = QUIET.replace("count = 6", 'count = 6\nstage = "juvenile"')
    found = report(table, COMMUNITY.replace(QUIET, young))
    grown = report(table, COMMUNITY)
    assert value(found, "nitrogen_load_now_mg_per_day") < value(found, "nitrogen_load_mg_per_day")
    assert value(found, "nitrogen_load_mg_per_day") == pytest.approx(value(grown, "nitrogen_load_mg_per_day"))
    assert 2 < value(found, "months_to_adult_size") < 36
    assert "nitrogen_load_now_mg_per_day" not in grown.facts.figures


def test_the_media_fill_counts_by_volume_or_by_mass(table: Table) -> None:
    by_mass = EXTERNAL.replace('volume = "1 L"', 'mass = "0.6 kg"')
    found = report(table, COMMUNITY.replace(EXTERNAL, by_mass))
    assert value(found, "tan_mg_per_l") == pytest.approx(
        value(report(table, COMMUNITY), "tan_mg_per_l"), rel=0.02
    )


def test_clogged_media_clear_less(table: Table) -> None:
    clogged = EXTERNAL.replace('volume = "0.5 L"', 'volume = "0.5 L"\nstate = "clogged"')
    assert value(report(table, COMMUNITY.replace(EXTERNAL, clogged)), "tan_mg_per_l") > value(
        report(table, COMMUNITY), "tan_mg_per_l"
    )


def test_a_new_filter_stops_a_full_stock_and_seeding_mends_it(table: Table) -> None:
    new = EXTERNAL.replace('flow = "650 L/hour"', 'flow = "650 L/hour"\nmatured = "0 day"')
    seeded = new.replace('"0 day"', '"0 day"\nseeded = "50 %"')
    old = new.replace('"0 day"', '"200 day"')
    found = {
        name: report(table, COMMUNITY.replace(EXTERNAL, box))
        for name, box in (("new", new), ("seeded", seeded), ("old", old))
    }
    assert worst(found["new"], "waste/new-filter") == "stop"
    assert worst(found["seeded"], "waste/new-filter") in ("clear", "watch")
    assert "tan_peak_mg_per_l" not in found["old"].facts.figures
    assert value(found["new"], "tan_peak_mg_per_l") > 3 * value(found["new"], "tan_mg_per_l")
    assert value(found["new"], "tan_in_a_month_mg_per_l") < value(found["new"], "tan_peak_mg_per_l")
    assert 14 < value(found["new"], "days_to_grow_in") < 49


def test_soft_water_and_plants_swing_the_pH(table: Table) -> None:
    jungle = '[[plants]]\nspecies = "Egeria densa"\ncover = "80 %"\n'
    hard, soft = (
        report(table, COMMUNITY.replace('KH = "6 dKH"\n[tap]', f'KH = "{kh} dKH"\n[tap]'), jungle)
        for kh in (8, 1)
    )
    per_tan = [value(found, "nh3_n_mg_per_l") / value(found, "tan_mg_per_l") for found in (hard, soft)]
    assert per_tan[1] > 1.1 * per_tan[0]


def test_no_animals_no_waste(table: Table) -> None:
    found = report(table, COMMUNITY)
    found.facts.groups.clear()
    figures = waste_figures(found.facts, table)
    assert figures["tan_mg_per_l"].interval == (0.0, 0.0, 0.0)
    assert figures["feed_g_per_day"].interval == (0.0, 0.0, 0.0)


def test_every_figure_shows_its_arithmetic_and_what_moves_it(table: Table) -> None:
    found = report(table, COMMUNITY)
    figures = waste_figures(found.facts, table)
    assert len(figures) >= 14
    for name, figure in figures.items():
        assert figure.interval.low <= figure.interval.value <= figure.interval.high, name
        assert figure.steps and figure.influences, name
        result = pytest.approx(figure.interval.value, rel=1e-9)
        assert any(step.value == result for step in figure.steps), name
        for step in figure.steps:
            assert step.source.strip() and step.formula.strip() and "{" not in step.formula, (name, step)


def test_the_remedy_for_nitrate_mends_it(table: Table) -> None:
    many = COMMUNITY.replace("count = 6", "count = 16")
    found = report(table, many)
    assert worst(found, "waste/nitrate") in ("watch", "fix")
    remedy = next(item.remedy for item in found.findings if item.rule == "waste/nitrate")
    share = float(remedy.split("at least ")[1].split("%")[0])
    mended = report(table, many.replace('water_change = "30 %"', f'water_change = "{share} %"'))
    assert value(mended, "nitrate_mg_per_l") == pytest.approx(NITRATE_GOAL, rel=0.05)
