"""What must hold for any tank: monotone where nature is, and no nitrogen lost or made."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockcheck.facts import waste_model as w
from stockcheck.facts.waste_model import Feeder, Setting, Stand, nitrogen_flow
from stockcheck.physics.ammonia import NO3_PER_N, un_ionised_fraction
from stockcheck.physics.growth import growth_rate, years_to_reach
from stockcheck.physics.mass import FISH, body_mass
from stockcheck.physics.nitrification import at_temperature, steady_tan, through_flow
from stockcheck.physics.nitrogen import nitrogen_in_feed
from stockcheck.physics.startup import FIRST_SHARE, oxidisers
from stockcheck.physics.uptake import day_rise_of_pH, uptake

amounts = st.floats(0.01, 1e4)
shares = st.floats(0.0, 1.0)
celsius = st.floats(14.0, 32.0)


@st.composite
def tanks(draw: st.DrawFn) -> tuple[Setting, dict[str, float]]:
    """Any tank: one to three kinds of animals, none to two media, with or without plants and changes."""
    feeders = tuple(
        Feeder(f"mass {place}", draw(st.integers(1, 40)), draw(st.sampled_from(["fish", "shrimp", "snail"])))
        for place in range(draw(st.integers(1, 3)))
    )
    media = tuple(f"surface {place}" for place in range(draw(st.integers(0, 2))))
    change = draw(st.sampled_from([0.0, 0.1, 0.3, 0.6]))
    setting = Setting(
        feeders=feeders,
        own_feed_g=draw(st.sampled_from([None, 0.0, 0.5, 5.0])),
        media=media,
        surfaces_m2=draw(st.floats(0.1, 8.0)),
        stands=tuple(
            Stand("plant", "stem", 0.1, taken) for taken in draw(st.sampled_from([(), (3.0,), (3.0, 60.0)]))
        ),
        change=change,
        every_days=draw(st.sampled_from([3.0, 7.0, 14.0])) if change else 1.0,
        start_nitrate=draw(st.sampled_from([None, 0.0, 20.0])),
        tan_limit=0.25,
        pH=draw(st.sampled_from([None, 6.2, 7.4, 8.4])),
        kh_dkh=draw(st.sampled_from([None, 0.5, 6.0])),
    )
    values = {
        w.VOLUME: draw(st.floats(10.0, 600.0)),
        w.TEMPERATURE: draw(celsius),
        w.FEED_GIVEN: draw(st.floats(0.5, 2.0)),
        w.OWN_FEED: draw(st.floats(0.8, 1.25)),
        w.PROTEIN: draw(st.floats(0.05, 0.7)),
        w.MOISTURE: draw(st.floats(0.03, 0.9)),
        w.EXCRETED: draw(st.floats(0.05, 0.11)),
        w.UNEATEN: draw(st.floats(0.0, 0.6)),
        w.RELEASED: draw(st.floats(0.70, 0.95)),
        w.SURFACE_RATE: draw(st.floats(0.04, 0.25)),
        w.NITRITE_SPEED: draw(st.floats(1.0, 4.0)),
        w.GAS: draw(st.floats(0.0, 0.3)),
        w.TAP: draw(st.floats(0.0, 50.0)),
        w.KH_PER_N: draw(st.floats(0.2002, 0.4004)),
        w.MEDIA_RATE: draw(st.floats(0.15, 0.7)),
        w.FIRST_RATE: draw(st.floats(0.4, 1.0)),
        w.FLOW: draw(st.floats(100.0, 40_000.0)),
        w.OXYGEN_SHARE: draw(st.floats(0.65, 0.97)),
        w.PLANTS: draw(st.floats(0.3, 3.0)),
        w.DRAWDOWN: draw(st.floats(0.2, 0.9)),
        w.PH: setting.pH or 7.0,
    }
    values |= {feeder.mass: draw(st.floats(0.05, 200.0)) for feeder in feeders}
    values |= {medium: draw(st.floats(0.01, 5.0)) for medium in media}
    return setting, values


TINY = 1e-9


@given(tanks(), st.integers(1, 30))
def test_more_fish_never_lower_tan_or_nitrate(tank: tuple[Setting, dict[str, float]], more: int) -> None:
    setting, values = tank
    setting = replace(setting, own_feed_g=None)
    first, *rest = setting.feeders
    fuller = replace(setting, feeders=(replace(first, count=first.count + more), *rest))
    before, after = nitrogen_flow(setting, values), nitrogen_flow(fuller, values)
    for key in ("feed", "load", "tan", "nitrite", "peak", "solids"):
        assert after[key] >= before[key] * (1 - TINY)
    assert after["load"] > before["load"]


@given(tanks(), st.floats(1.01, 5.0))
def test_monotone_in_feed(tank: tuple[Setting, dict[str, float]], factor: float) -> None:
    setting, values = tank
    setting = replace(setting, own_feed_g=0.4)
    fatter = replace(setting, own_feed_g=0.4 * factor)
    before, after = nitrogen_flow(setting, values), nitrogen_flow(fatter, values)
    assert after["load"] == pytest.approx(before["load"] * factor)
    for key in ("tan", "nitrite", "peak", "gain_per_week"):
        assert after[key] >= before[key] - TINY * abs(before[key])


@given(tanks(), st.floats(0.01, 5.0), st.booleans())
def test_more_media_never_raise_tan(
    tank: tuple[Setting, dict[str, float]], area: float, in_front: bool
) -> None:
    setting, values = tank
    values = {**values, "surface extra": area}
    media = ("surface extra", *setting.media) if in_front else (*setting.media, "surface extra")
    fuller = replace(setting, media=media)
    assert nitrogen_flow(fuller, values)["tan"] <= nitrogen_flow(setting, values)["tan"] * (1 + TINY)


@given(tanks(), st.floats(1.0, 4.0))
def test_larger_media_surface_and_flow_never_raise_tan(
    tank: tuple[Setting, dict[str, float]], factor: float
) -> None:
    setting, values = tank
    larger = {**values, w.FLOW: values[w.FLOW] * factor}
    larger |= {medium: values[medium] * factor for medium in setting.media}
    assert nitrogen_flow(setting, larger)["tan"] <= nitrogen_flow(setting, values)["tan"] * (1 + TINY)


@given(tanks())
@settings(max_examples=300)
def test_nitrogen_is_neither_lost_nor_made(tank: tuple[Setting, dict[str, float]]) -> None:
    """Feed = kept or siphoned + plants + gas + what changes carry off, nitrate beyond that of the tap."""
    setting, values = tank
    r = nitrogen_flow(setting, values)
    if setting.change == 0:
        return
    per_day = setting.change * values[w.VOLUME] / setting.every_days
    nitrate_out = per_day * (r["before"] - values[w.TAP]) / NO3_PER_N
    carried = r["exchange"] * (r["tan"] + r["nitrite"]) + nitrate_out
    kept = r["in_feed"] - r["released"]
    total = kept + r["plants"] + r["gas"] + carried
    if r["to_nitrate"] > 0:
        scale = max(1.0, r["in_feed"], r["plants"], abs(carried))
        assert abs(total - r["in_feed"]) <= 1e-9 * scale
    assert kept >= -1e-9


@given(tanks())
def test_ammonia_balance_closes(tank: tuple[Setting, dict[str, float]]) -> None:
    setting, values = tank
    r = nitrogen_flow(setting, values)
    out = r["by_media"] + r["by_walls"] + r["tan_to_plants"] + r["exchange"] * r["tan"]
    assert out == pytest.approx(r["load"], rel=1e-9, abs=1e-12)


@given(tanks())
def test_no_figure_is_negative(tank: tuple[Setting, dict[str, float]]) -> None:
    setting, values = tank
    for key, value in nitrogen_flow(setting, values).items():
        if key not in ("gain_per_week", "temperature"):
            assert value >= 0, key


@given(st.floats(6.0, 9.5), celsius, st.floats(0.05, 1.0))
def test_un_ionised_share_grows_with_pH_and_warmth(pH: float, temperature: float, more: float) -> None:
    share = un_ionised_fraction(pH, temperature)
    assert 0 < share < un_ionised_fraction(pH + more, temperature) < 1
    assert share < un_ionised_fraction(pH, temperature + more)


@given(st.lists(amounts, min_size=1, max_size=5), amounts)
def test_a_filter_never_clears_more_than_its_flow(clearances: list[float], flow: float) -> None:
    in_flow = through_flow(clearances, flow)
    assert in_flow <= flow * (1 + TINY)
    assert in_flow <= sum(clearances) * (1 + TINY)
    assert in_flow == pytest.approx(through_flow(clearances[::-1], flow)), "order does not matter"


@given(amounts, amounts, amounts, st.floats(0.0, 1e3), st.floats(0.01, 1.0), amounts)
def test_steady_tan_is_finite_and_exact(
    load: float, media: float, other: float, plants: float, half: float, cap: float
) -> None:
    tan = steady_tan(load, media, other, plants, half, cap)
    removed = min(media * tan, cap) + other * tan + plants * tan / (half + tan)
    assert removed == pytest.approx(load, rel=1e-9)


@given(st.floats(1.0, 30.0), st.sampled_from(sorted(FISH)))
def test_mass_grows_with_length(length: float, shape: str) -> None:
    assert body_mass(length, FISH[shape]) < body_mass(length * 1.1, FISH[shape])


@given(st.floats(0.0, 80.0), celsius, st.floats(0.0, 1.0))
def test_bacteria_only_grow(days: float, temperature: float, seeded: float) -> None:
    ammonia, nitrite = oxidisers(days, temperature, seeded)
    later_ammonia, later_nitrite = oxidisers(days + 1, temperature, seeded)
    assert max(seeded, FIRST_SHARE * (1 - TINY)) <= ammonia <= later_ammonia <= 1
    assert nitrite <= later_nitrite <= 1


@given(st.floats(0.1, 20.0), st.floats(1.0, 100.0))
def test_a_larger_fish_grows_more_slowly(small: float, larger_by: float) -> None:
    assert growth_rate(small + larger_by) < growth_rate(small)
    assert years_to_reach(0.5 * small, 0.5 * small, small, 1.0) == 0


def test_warmth_is_one_where_rates_are_stated() -> None:
    assert at_temperature(25.0) == 1.0


@given(st.floats(0.1, 50.0), st.floats(0.1, 30.0))
def test_day_swing_of_pH_grows_as_the_water_softens(drawn: float, co2: float) -> None:
    swing = day_rise_of_pH(drawn, 100.0, co2)
    assert 0 <= swing <= 1.0
    assert swing <= day_rise_of_pH(drawn, 100.0, co2 / 2) + TINY


def test_co2_helps_only_plants_under_water() -> None:
    assert uptake("stem", 0.1, "medium", 8.0, True) > uptake("stem", 0.1, "medium", 8.0, False)
    assert uptake("floating", 0.1, "medium", 8.0, True) == uptake("floating", 0.1, "medium", 8.0, False)


def test_nitrogen_in_feed_is_protein_over_six_and_a_quarter() -> None:
    assert nitrogen_in_feed(1.0, 0.5) == pytest.approx(1000 * 0.5 / 6.25)
