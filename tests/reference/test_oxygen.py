"""Oxygen: saturation against tables and gsw, respiration against animals, the balance against scipy."""

from __future__ import annotations

import gsw
import pytest
from scipy.integrate import solve_ivp

from stockcheck.physics import oxygen, respiration
from tests.reference.models import Models, assert_complete, assert_row
from tests.reference.published import rows

MODELS: Models = {
    "saturation": oxygen.saturation,
    "fifty_gram_fish": lambda temperature_c: (
        respiration.resting_fish(50.0, temperature_c) / respiration.OXYGEN_MOLAR_MASS
    ),
    "resting_per_kg": lambda mass_g, temperature_c: (
        respiration.resting_fish(mass_g, temperature_c) / mass_g * 1000
    ),
    "routine_per_kg": lambda mass_g, temperature_c: respiration.fish(mass_g, temperature_c) / mass_g * 1000,
    "warm_over_cold": lambda cold_c, warm_c: (
        respiration.resting_fish(50.0, warm_c) / respiration.resting_fish(50.0, cold_c)
    ),
    "schmidt": oxygen.schmidt,
    "over_k600": lambda temperature_c: oxygen.transfer_at(1.0, temperature_c, oxygen.SCHMIDT_600),
    "from_k600": lambda k600, temperature_c: oxygen.transfer_at(k600, temperature_c, oxygen.SCHMIDT_600),
    "inflow": lambda velocity, surface_m2, deficit: oxygen.conductance(velocity, surface_m2 * 1e4) * deficit,
    "per_nitrogen": lambda nitrogen_mg_day: respiration.nitrification(nitrogen_mg_day) * 24,
    "shrimp": lambda temperature_c: (
        respiration.shrimp(respiration.SHRIMP_MASS, temperature_c) / respiration.SHRIMP_MASS
    ),
}
VALUES = rows("oxygen")


@pytest.mark.parametrize("row", VALUES, ids=lambda row: row["id"])
def test_published_value(row: dict[str, str]) -> None:
    assert_row(row, MODELS)


def test_every_model_has_a_row() -> None:
    assert_complete(VALUES, MODELS)


@pytest.mark.parametrize("temperature_c", [5, 12, 18, 22, 26, 30, 34])
def test_saturation_against_gsw(temperature_c: float) -> None:
    """Garcia & Gordon 1992, through the TEOS-10 library."""
    per_kg = gsw.O2sol_SP_pt(0.0, temperature_c)  # umol/kg
    kg_per_m3 = gsw.rho_t_exact(0.0, temperature_c, 0.0)
    assert oxygen.saturation(temperature_c) == pytest.approx(per_kg * 31.9988e-6 * kg_per_m3, rel=5e-4)


def test_the_general_equation_without_temperature_is_a_cold_one() -> None:
    """ln R = 0.80 ln M - 5.43 (Clarke & Johnston 1999) equals their Arrhenius fit near 6 degC, not at 15."""
    general = 0.1002  # mmol/h at 50 g
    at_6 = respiration.resting_fish(50.0, 5.7) / respiration.OXYGEN_MOLAR_MASS
    at_15 = respiration.resting_fish(50.0, 15.0) / respiration.OXYGEN_MOLAR_MASS
    assert at_6 == pytest.approx(general, rel=0.02)
    assert at_15 > 1.7 * general


@pytest.mark.parametrize("uptake,start,hours", [(20.0, 8.0, 16.0), (120.0, 8.3, 10.0), (40.0, 5.0, 6.0)])
def test_a_night_against_scipy(uptake: float, start: float, hours: float) -> None:
    litres, passed, saturation = 120.0, 18.0, 8.3
    expected = solve_ivp(
        lambda _, level: passed / litres * (saturation - level) - uptake / litres,
        (0.0, hours),
        [start],
        rtol=1e-9,
        atol=1e-9,
    ).y[0, -1]
    level = oxygen.steady(saturation, uptake, passed)
    assert oxygen.after(start, level, hours, passed, litres) == pytest.approx(expected, rel=1e-6)


def test_hours_until_is_the_inverse_of_after() -> None:
    passed, litres, level = 6.0, 120.0, -4.0
    hours = oxygen.hours_until(3.0, 8.0, level, passed, litres)
    assert oxygen.after(8.0, level, hours, passed, litres) == pytest.approx(3.0)
    assert oxygen.hours_until(3.0, 8.0, 5.0, passed, litres) == float("inf")
    assert oxygen.hours_until(3.0, 2.5, level, passed, litres) == 0.0


def test_still_water_moves_as_in_small_lakes() -> None:
    """k600 of small lakes under 3 m/s of wind: 0.35 to 0.74 m/day (Cole et al. 2010)."""
    as_k600 = oxygen.STILL * (oxygen.schmidt(25.0) / 600.0) ** 0.5
    assert 0.35 <= as_k600 <= 0.74
