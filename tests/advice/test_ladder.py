"""The ladder of limits, and the smallest water change."""

from __future__ import annotations

import pytest

from stockcheck.advice.change import change_advice
from stockcheck.advice.ladder import Limit, ladder
from stockcheck.physics.nitrate import NITRATE_LIMIT
from stockcheck.physics.oxygen import GUIDELINE
from stockcheck.table.read import Table
from tests.facts.tanks import COMMUNITY, EXTERNAL, QUIET, WEEKLY, animal, report, value


def rungs(table: Table, plan: str) -> dict[str, Limit]:
    return {limit.name: limit for limit in ladder(report(table, plan).facts, table)}


def test_the_nearest_limit_comes_first(table: Table) -> None:
    limits = ladder(report(table, COMMUNITY).facts, table)
    counts = [limit.animals for limit in limits if limit.animals is not None]
    assert counts == sorted(counts)
    assert {limit.name for limit in limits} >= {"bacteria", "flow", "oxygen", "nitrate", "KH", "space"}


def test_bacteria_are_seldom_first(table: Table) -> None:
    """In a grown-in tank nitrate, space or oxygen give out before the bacteria; common practice, no
    source."""
    limits = ladder(report(table, COMMUNITY).facts, table)
    names = [limit.name for limit in limits]
    assert names.index("bacteria") > max(names.index("nitrate"), 0)
    assert names[0] != "bacteria"


@pytest.mark.parametrize(
    ("name", "figure", "line"),
    [("nitrate", "nitrate_mg_per_l", NITRATE_LIMIT), ("oxygen", "oxygen_night_mg_per_l", GUIDELINE)],
)
def test_as_many_animals_as_it_says_just_hold(table: Table, name: str, figure: str, line: float) -> None:
    """Check the plan again with that many more of the same, and with one more still."""
    more = rungs(table, COMMUNITY)[name].animals
    assert more is not None and more > 0

    def checked(extra: int) -> float:
        return value(report(table, COMMUNITY.replace("count = 6", f"count = {6 + extra}")), figure)

    within, beyond = checked(more), checked(more + 1)
    if within < beyond:
        assert within <= line < beyond
    else:
        assert within >= line * 0.995 and beyond < line * 1.005


def test_the_feed_it_names_reaches_the_limit(table: Table) -> None:
    feed = rungs(table, COMMUNITY)["nitrate"].feed_g_per_day
    assert feed is not None
    fed = report(table, COMMUNITY, f'[feeding]\namount = "{feed} g/day"\n')
    assert value(fed, "nitrate_mg_per_l") == pytest.approx(NITRATE_LIMIT, rel=1e-6)


def test_a_limit_already_passed_says_how_many_fewer(table: Table) -> None:
    crowded = COMMUNITY.replace("count = 6", "count = 40")
    limit = rungs(table, crowded)["nitrate"]
    assert limit.animals is not None and limit.animals < 0
    assert "already" in limit.text
    mended = crowded.replace("count = 40", f"count = {40 + limit.animals}")
    assert value(report(table, mended), "nitrate_mg_per_l") <= NITRATE_LIMIT


def test_a_new_filter_is_a_rung_of_its_own(table: Table) -> None:
    new = EXTERNAL.replace('flow = "650 L/hour"', 'flow = "650 L/hour"\nmatured = "0 day"')
    limit = rungs(table, COMMUNITY.replace(EXTERNAL, new))["maturity"]
    assert limit.animals is not None and limit.animals < 0
    assert "days" in limit.text
    assert "maturity" not in rungs(table, COMMUNITY)


def test_without_a_tap_hardness_the_rung_asks_for_it(table: Table) -> None:
    limit = rungs(table, COMMUNITY.replace('KH = "6 dKH"\n[room]', "[room]"))["KH"]
    assert limit.animals is None
    assert "KH" in limit.text


def test_no_animals_no_ladder(table: Table) -> None:
    facts = report(table, COMMUNITY).facts
    facts.groups.clear()
    assert ladder(facts, table) == []


def test_the_smallest_change_just_holds(table: Table) -> None:
    found = report(table, COMMUNITY)
    advice = change_advice(found.facts)
    assert advice is not None and advice.share is not None and advice.share_by == "nitrate"
    plan = COMMUNITY.replace('water_change = "30 %"', f'water_change = "{100 * advice.share} %"')
    assert value(report(table, plan), "nitrate_mg_per_l") == pytest.approx(NITRATE_LIMIT, rel=0.02)


def test_the_longest_interval_just_holds(table: Table) -> None:
    advice = change_advice(report(table, COMMUNITY).facts)
    assert advice is not None and advice.days is not None
    within, beyond = (
        value(
            report(table, COMMUNITY.replace('every = "7 day"', f'every = "{days} day"')), "nitrate_mg_per_l"
        )
        for days in (advice.days, advice.days + 1)
    )
    assert within <= NITRATE_LIMIT * 1.005
    assert beyond > NITRATE_LIMIT * 0.995


def test_no_change_mends_water_that_is_past_the_limit(table: Table) -> None:
    plan = COMMUNITY.replace('nitrate = "10 mg/L"', 'nitrate = "48 mg/L"')
    advice = change_advice(report(table, plan).facts)
    assert advice is not None
    assert "added water by itself is over the limit: nitrate" in advice.text


def test_an_overstocked_tank_gets_no_false_comfort(table: Table) -> None:
    plan = COMMUNITY.replace(QUIET, animal("Carassius auratus", 12)).replace(WEEKLY, "")
    advice = change_advice(report(table, plan).facts)
    assert advice is not None and advice.share is None
    assert "No change" in advice.text


def test_a_fasting_tank_has_a_ladder_all_the_same(table: Table) -> None:
    limits = rungs(table, COMMUNITY + '[feeding]\namount = "0 g/day"\n')
    assert limits["bacteria"].animals is None and "no limit in sight" in limits["bacteria"].text
    assert limits["space"].animals is not None and "0 g of feed" not in limits["space"].text


def test_nobody_is_told_to_wait_for_months(table: Table) -> None:
    quiet = COMMUNITY.replace(QUIET, animal("Neocaridina davidi", 5))
    advice = change_advice(report(table, quiet).facts)
    assert advice is not None and advice.days is not None and advice.days > 28
    assert "longer than the 28 days" in advice.text
