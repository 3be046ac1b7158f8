"""Closed forms and time steps against scipy's solvers and plain simulations."""

from __future__ import annotations

from math import inf

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from stockcheck.physics import startup
from stockcheck.physics.nitrate import longest_interval, sawtooth, smallest_share
from stockcheck.physics.nitrification import steady_tan
from stockcheck.physics.quantity import Interval, propagate

#: Load mg/day, filter and other clearance L/day, plant uptake mg/day, half-saturation mg/L, cap mg/day.
TANKS = [
    (28.7, 65.7, 313.0, 1.38, 0.1, inf),
    (28.7, 65.7, 313.0, 60.0, 0.1, inf),
    (300.0, 400.0, 50.0, 10.0, 0.1, 120.0),
    (300.0, 400.0, 50.0, 0.0, 0.1, 120.0),
    (5.0, 0.0, 40.0, 0.0, 0.1, 0.0),
    (5.0, 0.0, 1e-6, 30.0, 0.1, 0.0),
    (1e-3, 1e4, 1e4, 1e3, 0.4, inf),
]


@pytest.mark.parametrize("tank", TANKS)
def test_steady_tan_is_where_removal_equals_load(tank: tuple[float, ...]) -> None:
    load, media, other, uptake, half, cap = tank

    def surplus(tan: float) -> float:
        return min(media * tan, cap) + other * tan + uptake * tan / (half + tan) - load

    root = brentq(surplus, 0.0, 1e9, xtol=1e-14, rtol=1e-14)
    assert steady_tan(load, media, other, uptake, half, cap) == pytest.approx(root, rel=1e-9)


@pytest.mark.parametrize("tank", TANKS[:4])
def test_steady_tan_is_where_the_tank_ends_up(tank: tuple[float, ...]) -> None:
    load, media, other, uptake, half, cap = tank
    volume = 200.0

    def change(_: float, state: np.ndarray) -> list[float]:
        tan = state[0]
        return [(load - min(media * tan, cap) - other * tan - uptake * tan / (half + tan)) / volume]

    run = solve_ivp(change, (0.0, 2000.0), [0.0], method="LSODA", rtol=1e-9, atol=1e-12)
    assert steady_tan(load, media, other, uptake, half, cap) == pytest.approx(run.y[0, -1], rel=1e-5)


@pytest.mark.parametrize("gain", [-30.0, -2.0, 0.5, 4.9, 40.0])
@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 1.0])
@pytest.mark.parametrize("tap", [0.0, 10.0, 45.0])
def test_sawtooth_against_a_day_by_day_simulation(gain: float, share: float, tap: float) -> None:
    """Forty weeks or more of days and changes; what plants cannot find they do not take."""
    nitrate, before, after = 60.0, 0.0, 0.0
    for _ in range(600):
        for _ in range(7):
            nitrate = max(0.0, nitrate + gain / 7)
        before = nitrate
        nitrate += share * (tap - nitrate)
        after = nitrate
    saw = sawtooth(gain, share, tap)
    assert (saw.before, saw.after) == pytest.approx((before, after), abs=1e-6)


@pytest.mark.parametrize(("gain", "tap", "limit"), [(5.0, 10.0, 40.0), (20.0, 0.0, 40.0), (1.0, 39.0, 40.0)])
def test_smallest_share_reaches_the_limit_exactly(gain: float, tap: float, limit: float) -> None:
    share = smallest_share(gain, tap, limit)
    assert share is not None
    assert sawtooth(gain, share, tap).peak == pytest.approx(limit)


def test_longest_interval_is_the_last_whole_day_that_holds() -> None:
    days = longest_interval(0.7, 0.3, 10.0, 40.0)
    assert days is not None
    assert sawtooth(0.7 * days, 0.3, 10.0).peak <= 40.0 < sawtooth(0.7 * (days + 1), 0.3, 10.0).peak


def test_no_change_helps_where_the_tap_stands_above_the_limit() -> None:
    assert smallest_share(5.0, 50.0, 40.0) is None
    assert longest_interval(-1.0, 0.3, 10.0, 40.0) is None


NEW_TANK = startup.Tank(
    volume_l=208.0,
    load=28.7,
    ammonia_clearance=370.0,
    nitrite_clearance=740.0,
    change_clearance=8.9,
    plant_uptake=1.4,
    plant_half_saturation=0.1,
)


@pytest.mark.parametrize("temperature", [20.0, 25.0])
@pytest.mark.parametrize("first", [1e-4, 1e-2])
def test_start_up_against_an_ode_solver(temperature: float, first: float) -> None:
    """Two-step growth by logistic steps against the same equations in LSODA: peaks within 6 %, their days
    within 1."""
    begin = startup.State(0.0, 0.0, 0.0, first, first)
    ours = startup.start_up(NEW_TANK, temperature, begin, 84.0)
    ammonia_rate, nitrite_rate = startup.net_growth(startup.USUAL, temperature)
    half = startup.HALF_SATURATION
    tank = NEW_TANK

    def change(_: float, state: np.ndarray) -> list[float]:
        tan, nitrite, ammonia, nitrites = state
        cleared = ammonia * tank.ammonia_clearance * tan
        plants = tank.plant_uptake * tan / (tank.plant_half_saturation + tan)
        return [
            (tank.load - cleared - plants - tank.change_clearance * tan) / tank.volume_l,
            (cleared - nitrites * tank.nitrite_clearance * nitrite - tank.change_clearance * nitrite)
            / tank.volume_l,
            ammonia_rate * tan / (half + tan) * ammonia * (1 - ammonia),
            nitrite_rate * nitrite / (half + nitrite) * nitrites * (1 - nitrites),
        ]

    days = np.linspace(0.0, 84.0, 841)
    run = solve_ivp(change, (0.0, 84.0), list(begin[1:]), method="LSODA", t_eval=days, rtol=1e-8, atol=1e-12)
    for row, name in ((0, "tan"), (1, "nitrite")):
        peak = max(ours, key=lambda state: getattr(state, name))
        assert getattr(peak, name) == pytest.approx(run.y[row].max(), rel=0.06)
        assert peak.day == pytest.approx(days[run.y[row].argmax()], abs=1.0)
    assert ours[-1].tan == pytest.approx(run.y[0, -1], rel=0.01)


def test_a_new_filter_takes_the_weeks_that_are_seen() -> None:
    """FAO glossary 1 to 6 weeks, Mnyoro et al. 2022 6 to 7 weeks: both steps low again in that time."""
    settled = []
    for pace in (startup.FAST, startup.USUAL, startup.SLOW):
        begin = startup.State(0.0, 0.0, 0.0, startup.FIRST_SHARE, startup.FIRST_SHARE)
        course = startup.start_up(NEW_TANK, 25.0, begin, 84.0, pace.lag, pace)
        settled.append(max(state.day for state in course if state.nitrite > 0.1 or state.tan > 0.25))
    fast, usual, slow = settled
    assert 7.0 <= fast < usual < slow <= 7 * 9
    assert 14.0 <= usual <= 42.0


def test_propagate_against_monte_carlo() -> None:
    """Log-normal inputs through a tank's chain: ends of the 90 % interval within 12 % of 200 000 draws."""
    inputs = {
        "load": Interval.factor(30.0, 2.0),
        "rate": Interval.factor(0.35, 2.1),
        "area": Interval.factor(1.2, 1.5),
        "volume": Interval.factor(200.0, 1.03),
    }

    def model(v: dict[str, float]) -> dict[str, float]:
        clearance = v["rate"] * v["area"] * 1000 + 0.04 * v["volume"]
        return {"tan": v["load"] / clearance, "gain": v["load"] * 7 / v["volume"]}

    results, influences = propagate(model, inputs)  # type: ignore[arg-type]
    generator = np.random.default_rng(20_240_229)
    draws = {
        name: interval.value
        * np.exp(generator.standard_normal(200_000) * np.log(interval.high / interval.value) / 1.645)
        for name, interval in inputs.items()
    }
    sampled = model(draws)  # type: ignore[arg-type]
    for name, interval in results.items():
        low, high = np.percentile(sampled[name], [5, 95])
        assert interval.low == pytest.approx(low, rel=0.12)
        assert interval.high == pytest.approx(high, rel=0.12)
    assert influences["tan"][0].name in ("rate", "load")
