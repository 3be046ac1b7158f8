"""Plans at the ends of what the reader lets through: finite, ordered figures and well-formed findings."""

from __future__ import annotations

import tomllib
from math import isfinite
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import stockcheck.rules  # noqa: F401  (registers the rules)
from stockcheck.facts.build import build_facts
from stockcheck.plan.reader import read_document
from stockcheck.rules.core import LEVELS, RULES
from stockcheck.rules.examples import BASE, merge
from stockcheck.table.read import Table


def _in(unit: str, *values: float) -> st.SearchStrategy[str]:
    return st.sampled_from([f"{value} {unit}" for value in values])


PLANS = st.fixed_dictionaries(
    {
        "tank": st.fixed_dictionaries(
            {
                "length": _in("cm", 5, 30, 100, 2000),
                "width": _in("cm", 5, 30, 1000),
                "height": _in("cm", 5, 40, 500),
                "glass": _in("mm", 2, 10, 60),
                "fill_gap": _in("cm", 0, 3, 100),
                "equipment": _in("L", 0, 1000),
                "lid": st.booleans(),
                "brace": st.sampled_from(["none", "euro"]),
                "measured": st.sampled_from(["inside", "outside"]),
            },
            optional={"buckets": st.just({"count": 500, "volume": "9 L"})},
        ),
        "room": st.fixed_dictionaries(
            {
                "low": _in("degC", -20, 5, 18),
                "high": _in("degC", 18, 30, 50),
                "humidity": _in("%", 0, 50, 100),
            }
        ),
        "heater": st.fixed_dictionaries(
            {
                "power": _in("W", 1, 20_000),
                "setpoint": _in("degC", 5, 24, 45),
                "count": st.sampled_from([1, 20]),
            }
        ),
        "water": st.fixed_dictionaries(
            {
                "pH": st.sampled_from([3.0, 7.0, 11.0]),
                "KH": _in("dKH", 0, 4, 200),
                "GH": _in("dGH", 0, 8, 200),
            }
        ),
        "tap": st.fixed_dictionaries(
            {"KH": _in("dKH", 0, 200), "GH": _in("dGH", 0, 200), "chloramine": _in("mg/L", 0, 20)}
        ),
        "target": st.fixed_dictionaries({"GH": _in("dGH", 0, 200), "KH": _in("dKH", 0, 200)}),
        "light": st.fixed_dictionaries({"hours": _in("hour", 0, 24)}),
        "filter": st.fixed_dictionaries({"surface": st.sampled_from(["still", "strong"])}),
        "routine": st.fixed_dictionaries(
            {"water_change": _in("%", 0, 5, 100), "every": _in("day", 1, 90), "conditioner": st.booleans()}
        ),
        "animals": st.sampled_from([1, 5000]).map(lambda n: [{"species": "Carassius auratus", "count": n}]),
    }
)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(PLANS)
def test_no_plan_breaks_the_sums(table: Table, change: dict[str, Any]) -> None:
    reading = read_document(merge(tomllib.loads(BASE), change), "extreme")
    if reading.plan is None or reading.faults:
        return
    facts = build_facts(reading.plan, table)
    for figure in facts.figures.values():
        low, value, high = figure.interval
        assert isfinite(low) and isfinite(high), figure.name
        assert low <= value <= high, figure.name
    for rule in RULES.values():
        for finding in rule.check(facts):
            assert 0 <= finding.headroom <= 100, rule.name
            assert finding.level in LEVELS, rule.name
