"""The 90 % intervals of a whole plan's waste figures against a Monte Carlo run of the same model."""

from __future__ import annotations

from math import exp, log

import numpy as np
import pytest

from stockcheck.facts.waste_inputs import setting_and_inputs
from stockcheck.facts.waste_model import nitrogen_flow
from stockcheck.physics.quantity import Interval, propagate
from stockcheck.table.read import Table
from tests.facts.tanks import COMMUNITY, report

DRAWS = 4000
#: Half-width of a 90 % interval of the normal distribution, in standard deviations.
NINETY = 1.645


def draw(interval: Interval, generator: np.random.Generator) -> float:
    """A split normal with these 5 %, 50 % and 95 % points, in logarithms where all three are positive."""
    z = generator.standard_normal() / NINETY
    low, value, high = interval
    if low > 0:
        step = log(high / value) if z > 0 else log(value / low)
        return value * exp(z * step)
    return max(low, value + z * (high - value if z > 0 else value - low))


@pytest.mark.parametrize(
    ("key", "within"),
    [
        ("feed", 0.15),
        ("load", 0.15),
        ("tan", 0.2),
        ("nh3", 0.2),
        ("nitrite", 0.2),
        ("peak", 0.15),
        ("capacity", 0.15),
    ],
)
def test_intervals_against_monte_carlo(table: Table, key: str, within: float) -> None:
    """One input at a time, combined in quadrature, against all at once: ends agree within a fifth."""
    prepared = setting_and_inputs(report(table, COMMUNITY).facts, table)
    assert prepared is not None
    setting, inputs = prepared
    interval = propagate(lambda values: nitrogen_flow(setting, values), inputs)[0][key]
    generator = np.random.default_rng(160)
    sampled = [
        nitrogen_flow(setting, {name: draw(item, generator) for name, item in inputs.items()})[key]
        for _ in range(DRAWS)
    ]
    low, middle, high = np.percentile(sampled, [5, 50, 95])
    assert interval.low == pytest.approx(low, rel=within)
    assert interval.value == pytest.approx(middle, rel=within)
    assert interval.high == pytest.approx(high, rel=within)
