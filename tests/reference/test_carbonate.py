"""Carbonate chemistry and hardness: printed tables, definitions, PyCO2SYS and PHREEQC."""

from __future__ import annotations

from math import log10

import phreeqpython
import PyCO2SYS
import pytest

from stockcheck.physics import alkalinity, carbonate, conductivity, hardness
from tests.reference.models import Models, assert_complete, assert_row
from tests.reference.published import rows


def _ideal_co2_per_caco3(pH: float, temperature_c: float) -> float:
    """The printed factors take no account of ionic strength: so little KH that it plays no part."""
    trace = 1e-3
    return carbonate.co2_mg_per_l(hardness.degrees_from_caco3(trace), pH, temperature_c) / trace


CARBONATE: Models = {
    "co2_per_caco3": _ideal_co2_per_caco3,
    "co2_from_caco3": lambda caco3, pH, temperature_c: _ideal_co2_per_caco3(pH, temperature_c) * caco3,
    "co2": carbonate.co2_mg_per_l,
    "pk1": carbonate.pk1,
    "pk2": carbonate.pk2,
    "ph_with_air": lambda kh_dkh, pressure_uatm, temperature_c: carbonate.ph_from_co2(
        kh_dkh, carbonate.co2_with_air(pressure_uatm, temperature_c), temperature_c
    ),
}
HARDNESS: Models = {
    "caco3": hardness.caco3_from_degrees,
    "calcium_of_degree": lambda degrees: hardness.mmol_from_dgh(degrees) * hardness.CALCIUM,
    "magnesium_of_degree": lambda degrees: hardness.mmol_from_dgh(degrees) * hardness.MAGNESIUM,
    "bicarbonate": lambda degrees: hardness.bicarbonate_mg_l(degrees),
    "dkh_from_meq": hardness.dkh_from_meq,
    "dgh_from_mmol": hardness.dgh_from_mmol,
    "french": hardness.degrees_from_french,
    "french_as_caco3": lambda french: hardness.caco3_from_degrees(hardness.degrees_from_french(french)),
    "french_as_calcium": lambda french: (
        hardness.mmol_from_dgh(hardness.degrees_from_french(french)) * hardness.CALCIUM
    ),
    "french_as_magnesium": lambda french: (
        hardness.mmol_from_dgh(hardness.degrees_from_french(french)) * hardness.MAGNESIUM
    ),
    "french_as_meq": lambda french: hardness.meq_from_dkh(hardness.degrees_from_french(french)),
    "french_as_mmol": lambda french: hardness.mmol_from_dgh(hardness.degrees_from_french(french)),
    "english_as_caco3": lambda english: hardness.caco3_from_degrees(hardness.degrees_from_english(english)),
    "us_grain_as_caco3": lambda grains: hardness.caco3_from_degrees(hardness.degrees_from_us_grains(grains)),
    "mixed": hardness.mixed,
    "baking_soda_kh": lambda grams, litres: hardness.mineral_effect(hardness.BAKING_SODA, grams, litres)[1],
    "kh_per_n": lambda: float(alkalinity.KH_PER_N),
}
CARBONATE_VALUES, HARDNESS_VALUES = rows("carbonate"), rows("hardness")


@pytest.mark.parametrize("row", CARBONATE_VALUES, ids=lambda row: row["id"])
def test_published_carbonate_value(row: dict[str, str]) -> None:
    assert_row(row, CARBONATE)


@pytest.mark.parametrize("row", HARDNESS_VALUES, ids=lambda row: row["id"])
def test_published_hardness_value(row: dict[str, str]) -> None:
    assert_row(row, HARDNESS)


def test_every_model_has_a_row() -> None:
    assert_complete(CARBONATE_VALUES, CARBONATE)
    assert_complete(HARDNESS_VALUES, HARDNESS)


@pytest.mark.parametrize("temperature_c", [15.0, 20.0, 25.0, 30.0])
def test_constants_against_pyco2sys(temperature_c: float) -> None:
    """Millero 1979 in fresh water (opt_k_carbonic 8), on the NBS scale."""
    found = PyCO2SYS.sys(
        par1=1000.0,
        par2=7.5,
        par1_type=1,
        par2_type=3,
        salinity=0,
        temperature=temperature_c,
        opt_k_carbonic=8,
        opt_pH_scale=4,
    )
    assert carbonate.pk1(temperature_c) == pytest.approx(-log10(found["k_carbonic_1"]), abs=0.003)
    assert carbonate.pk2(temperature_c) == pytest.approx(-log10(found["k_carbonic_2"]), abs=0.003)


@pytest.fixture(scope="module")
def phreeqc() -> phreeqpython.PhreeqPython:
    return phreeqpython.PhreeqPython(database="phreeqc.dat")


@pytest.mark.parametrize(
    "kh,pH,temperature_c", [(1, 6.2, 22), (3, 6.8, 24), (6, 7.2, 26), (10, 7.6, 25), (15, 7.9, 18)]
)
def test_carbon_dioxide_against_phreeqc(
    phreeqc: phreeqpython.PhreeqPython, kh: float, pH: float, temperature_c: float
) -> None:
    """With its ionic strength counted the model follows PHREEQC more closely than the ideal formula does."""
    alkalinity_meq = hardness.meq_from_dkh(kh)
    solution = phreeqc.add_solution(
        {
            "pH": pH,
            "temp": temperature_c,
            "units": "mmol/L",
            "Na": alkalinity_meq,
            "Alkalinity": alkalinity_meq,
        }
    )
    expected = solution.species["CO2"] * 44009
    assert carbonate.co2_mg_per_l(kh, pH, temperature_c) == pytest.approx(expected, rel=0.03)


@pytest.mark.parametrize("kh,co2", [(0.5, 3.0), (4.0, 15.0), (12.0, 2.0), (8.0, 0.6)])
def test_ph_and_carbon_dioxide_are_inverse(kh: float, co2: float) -> None:
    pH = carbonate.ph_from_co2(kh, co2, 24.0)
    assert carbonate.co2_mg_per_l(kh, pH, 24.0) == pytest.approx(co2, rel=1e-9)


@pytest.mark.parametrize("gh,kh", [(5, 3), (10, 7), (18, 12), (4, 8)])
def test_conductivity_against_phreeqc(phreeqc: phreeqpython.PhreeqPython, gh: float, kh: float) -> None:
    """Calcium and magnesium 3 : 1 with bicarbonate, chloride and sulfate, or sodium where KH exceeds GH."""
    earths, carbonates = hardness.mmol_from_dgh(gh), hardness.meq_from_dkh(kh)
    rest = max(0.0, 2 * earths - carbonates)
    solution = phreeqc.add_solution(
        {
            "pH": 7.5,
            "temp": 25,
            "units": "mmol/L",
            "Ca": 0.75 * earths,
            "Mg": 0.25 * earths,
            "Alkalinity": carbonates,
            "Cl": rest / 2,
            "S(6)": rest / 4,
            "Na": max(0.0, carbonates - 2 * earths),
        }
    )
    assert conductivity.conductivity(gh, kh, background=0.0) == pytest.approx(solution.sc, rel=0.05)


def test_factor_of_solids_lies_among_the_printed_scales() -> None:
    """Meter manual, appendix B, at 447 uS/cm: 0.48 (NaCl), 0.50 (KCl), 0.67 (442)."""
    assert 0.4822 < conductivity.dissolved_solids(1.0) < 0.6712


def test_mixing_to_a_target_and_back() -> None:
    share = hardness.share_for_target(6.0, 18.0)
    assert share == pytest.approx(2 / 3)
    assert hardness.mixed(18.0, 0.0, share) == pytest.approx(6.0)
    assert hardness.share_for_target(20.0, 18.0) is None


def test_a_mineral_dose_and_the_grams_for_it() -> None:
    """Epsom salt, 246.47 g/mol: 1 dGH (0.17832 mmol/L) in 100 L takes 4.395 g."""
    grams = hardness.mineral_grams(hardness.MAGNESIUM_SULFATE, 1.0, 100.0)
    assert grams == pytest.approx(0.17832 * 0.24647 * 100, rel=1e-3)
    assert hardness.mineral_grams(hardness.MAGNESIUM_SULFATE, 1.0, 100.0, "KH") == float("inf")


def test_hardness_before_a_change_against_day_by_day() -> None:
    """Top-up of 2 % a day with water of 12 dGH, a third changed each week."""
    level = 12.0
    for _ in range(200):
        level += 7 * 0.02 * 12.0
        peak = level
        level += (12.0 - level) / 3
    assert hardness.before_change(12.0, 7 * 0.02 * 12.0, 1 / 3) == pytest.approx(peak, rel=1e-9)
