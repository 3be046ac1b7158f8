"""Single published values and worked examples of the waste models, one row of ``values.csv`` each."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from stockcheck.physics import alkalinity, ammonia, mass, nitrate, nitrification, nitrogen, startup
from tests.reference.published import inputs, rows

MOLAR_MASS_N = 14.0067


def _un_ionised(pH: float, temperature_c: float, tan: float) -> float:
    return tan * ammonia.un_ionised_fraction(pH, temperature_c)


def _flow_removal(flow_l_per_day: float, tan: float, share: float) -> float:
    """A filter whose clearance takes the given share per pass."""
    from math import log

    clearance = -flow_l_per_day * log(1 - share)
    return nitrification.through_flow([clearance], flow_l_per_day) * tan


MODELS: dict[str, Callable[..., float]] = {
    "un_ionised_ammonia": _un_ionised,
    "lethal": lambda tan_mmol, pH, temperature_c: _un_ionised(pH, temperature_c, tan_mmol * MOLAR_MASS_N),
    "tan_from_feed": nitrogen.tan_from_feed,
    "grain_area": nitrification.grain_area,
    "at_temperature": nitrification.at_temperature,
    "warmth_ammonia": lambda temperature_c: startup.warmth(startup.AMMONIA_ENERGY, temperature_c),
    "warmth_nitrite": lambda temperature_c: startup.warmth(startup.NITRITE_ENERGY, temperature_c),
    "kh_use_per_week": lambda nitrified, volume_l: alkalinity.kh_use_per_week(nitrified, 0.0, volume_l),
    "fish_mass": lambda shape, length_cm: mass.body_mass(length_cm, mass.FISH[shape]),
    "other_mass": lambda kind, family, length_cm: mass.body_mass(
        length_cm, mass.relation(kind, family, "none")
    ),
    "peak": lambda gain, share, tap: nitrate.sawtooth(gain, share, tap).peak,
    "trough": lambda gain, share, tap: nitrate.sawtooth(gain, share, tap).trough,
    "steady_tan": lambda load, clearance: nitrification.steady_tan(load, clearance, 0.0),
    "flow_removal": _flow_removal,
}
VALUES = rows("values")


@pytest.mark.parametrize("row", VALUES, ids=lambda row: row["id"])
def test_published_value(row: dict[str, str]) -> None:
    computed = MODELS[row["model"]](**inputs(row))
    relative = float(row["relative"]) if row["relative"] else 0.0
    absolute = float(row["absolute"]) if row["absolute"] else 0.0
    assert computed == pytest.approx(float(row["expected"]), rel=relative, abs=absolute)


def test_every_model_has_a_row() -> None:
    assert {row["model"] for row in VALUES} == set(MODELS)


def test_length_weight_priors_at_4_cm() -> None:
    """Froese, Thorson & Reyes 2014, priors as remembered: eel-like to short and deep, g at 4 cm total
    length."""
    expected = {"eel-like": 0.0709, "elongated": 0.2940, "fusiform": 0.7577, "short-deep": 1.2654}
    for shape, grams in expected.items():
        assert mass.body_mass(4.0, mass.FISH[shape]) == pytest.approx(grams, rel=0.01)


def test_spread_of_the_shape_unknown() -> None:
    """FishBase, Austrolebias sp.: a from 0.00244 to 0.04107 (95 %); its 90 % factor is 10^(1.645 x 0.313)."""
    assert mass.SHAPE_UNKNOWN.spread == pytest.approx((0.04107 / 0.00244) ** (0.5 * 1.645 / 1.96), rel=0.01)


def test_spread_of_small_fish() -> None:
    """FishBase: topminnows 0.00591-0.03081 and Characidium 0.00479-0.03160 (95 %) bracket the spread used."""
    topminnows = (0.03081 / 0.00591) ** (0.5 * 1.645 / 1.96)
    characidium = (0.03160 / 0.00479) ** (0.5 * 1.645 / 1.96)
    assert topminnows < mass.FISH_SPREAD < characidium
