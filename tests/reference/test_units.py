"""Units against their published definitions.

Sources: the international yard and pound agreement of 1959 (inch 25.4 mm, pound 0.45359237 kg); US gallon 231
cubic inches; UK Weights and Measures Act 1985 (gallon 4.54609 L); DIN 38409-6 (German degree: 10 mg CaO per
litre); the Brussels water utility's table (French degree: 10 mg CaCO3/L, 0.1 mmol/L, 0.2 meq/L, 0.56 German
degrees); FAO glossary of aquaculture (1 meq/L = 50 mg/L CaCO3 = 28 mg/L CaO); molar masses after IUPAC 2021.
"""

from __future__ import annotations

import subprocess
import sys
from math import isfinite

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockcheck import units
from stockcheck.units import Dimension, UnitError, parse

EXACT = 1e-9
DIMENSIONS = [value for value in vars(units).values() if isinstance(value, Dimension)]


@pytest.mark.parametrize(
    ("text", "dimension", "expected"),
    [
        ("1 inch", units.LENGTH, 2.54),
        ("1 foot", units.LENGTH, 30.48),
        ("3/8 inch", units.THICKNESS, 9.525),
        ("1 1/2 in", units.THICKNESS, 38.1),
        ("1 pound", units.MASS, 0.45359237),
        ("1 gallon", units.VOLUME, 3.785411784),
        ("1 US gallon", units.VOLUME, 231 * 2.54**3 / 1000),
        ("1 imperial gallon", units.VOLUME, 4.54609),
        ("1 gallon/hour", units.FLOW, 3.785411784),
        ("100 GPH", units.FLOW, 378.5411784),
        ("100 gallons per hour", units.FLOW, 378.5411784),
        ("32 degF", units.TEMPERATURE, 0.0),
        ("212 °F", units.TEMPERATURE, 100.0),
        ("9 degF", units.TEMPERATURE_STEP, 5.0),
        ("24 °C", units.TEMPERATURE, 24.0),
        ("24C", units.TEMPERATURE, 24.0),
        ("30 %", units.SHARE, 0.3),
        ("2 weeks", units.TIME, 14.0),
    ],
)
def test_exact_definitions(text: str, dimension: Dimension, expected: float) -> None:
    assert parse(text, dimension) == pytest.approx(expected, rel=EXACT, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "dimension", "expected", "tolerance"),
    [
        ("17.848 mg/L", units.HARDNESS, 1.0, 2e-4),  # DIN degree by molar mass
        ("10 mg/L as CaO", units.HARDNESS, 1.0, 1e-6),  # DIN 38409-6, the definition
        ("1 fH", units.HARDNESS, 0.56, 5e-3),  # water utility
        ("10 ppm", units.HARDNESS, 0.56, 5e-3),
        ("0.1 mmol/L", units.HARDNESS, 0.56, 5e-3),
        ("0.2 meq/L", units.HARDNESS, 0.56, 5e-3),
        ("1 mmol/L", units.HARDNESS, 5.61, 1e-3),
        ("1 meq/L", units.ALKALINITY, 2.805, 1e-3),  # FAO glossary
        ("1 mmol/L", units.ALKALINITY, 2.805, 1e-3),  # acid capacity: one proton each
        ("21.761 mg/L as HCO3", units.ALKALINITY, 1.0, 5e-4),
        ("1 Clark", units.HARDNESS, 14.2538 / 17.848, 1e-3),  # a grain per imperial gallon
        ("1 gpg", units.HARDNESS, 17.1181 / 17.848, 1e-3),  # a grain per US gallon
        ("214 mg/L", units.HARDNESS, 12.0, 2e-3),
        ("1 mg/L as N", units.NITRATE, 4.427, 1e-3),
        ("3.284 mg/L", units.NITRITE_N, 1.0, 1e-3),
        ("1.288 mg/L as NH4", units.AMMONIA_N, 1.0, 1e-3),
    ],
)
def test_degrees_and_bases(text: str, dimension: Dimension, expected: float, tolerance: float) -> None:
    assert parse(text, dimension) == pytest.approx(expected, rel=tolerance)


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda d: d.name)
def test_the_everyday_factors_are_what_pint_makes_of_them(dimension: Dimension) -> None:
    if dimension is units.PH:
        return
    for unit, factor in dimension.everyday.items():
        assert units._by_pint(2.0, unit, dimension) == pytest.approx(2.0 * factor, rel=1e-12), unit


def test_what_hardness_is_counted_as_may_follow_the_unit_in_any_way() -> None:
    """1 dGH is 17.85 mg/L CaCO3 (definition: 10 mg/L CaO), so 214 mg/L are 12 degrees."""
    for text in ("214 mg/L as CaCO3", "214 mg/L CaCO3", "214 mg/L (as CaCO3)", "214 mg/L"):
        assert parse(text, units.HARDNESS) == pytest.approx(12.0, abs=0.02), text


def test_common_practice() -> None:
    """Common practice, no source: 160 L is about 42 US gallon, 126 L about 33.3, 73 degF about 23 degC."""
    assert parse("42 gallon", units.VOLUME) == pytest.approx(160, abs=1.5)
    assert parse("33.3 gallon", units.VOLUME) == pytest.approx(126, abs=0.2)
    assert parse("73 degF", units.TEMPERATURE) == pytest.approx(23, abs=0.3)


@given(st.floats(0.01, 1e5), st.sampled_from(["gallon", "imperial_gallon", "L", "mL"]))
def test_volumes_come_back(value: float, unit: str) -> None:
    litres = parse(f"{value!r} {unit}", units.VOLUME)
    back = units.registry().Quantity(litres, "liter").to(unit).magnitude
    assert back == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "dimension", "problem", "remedy"),
    [
        ("160", units.VOLUME, "has no unit", "160 L"),
        ("12 stone", units.MASS, "not a known unit", "kg"),
        ("12 L", units.MASS, "no unit of mass", "pound"),
        ("5 dGH", units.TEMPERATURE, "no unit of temperature", "degF"),
        ("1,5 L", units.VOLUME, "comma", "point"),
        ("abc", units.VOLUME, "does not start with a number", "L"),
        ("", units.VOLUME, "does not start with a number", "L"),
        ("5 L**9999999", units.VOLUME, "is not a unit", "L"),
        ("5 __import__('os')", units.VOLUME, "is not a unit", "L"),
        ("5 mg/L as Fe", units.NITRATE, "not known for nitrate", "as NO3"),
        ("1/0 inch", units.LENGTH, "is not a unit", "cm"),
        ("nan L", units.VOLUME, "not a finite quantity", "L"),
        ("-inf kg", units.MASS, "not a finite quantity", "kg"),
        ("1e999 gallon", units.VOLUME, "not a finite quantity", "L"),
        ("7.2 mg", units.PH, "no unit of pH", "plain number, as 7.2"),
    ],
)
def test_bad_quantities_say_what_would_be_right(
    text: str, dimension: Dimension, problem: str, remedy: str
) -> None:
    with pytest.raises(UnitError) as caught:
        parse(text, dimension)
    assert problem in caught.value.problem
    assert remedy in caught.value.remedy


@given(st.text(max_size=40), st.sampled_from(DIMENSIONS))
def test_any_text_is_a_number_or_a_unit_error(text: str, dimension: Dimension) -> None:
    try:
        assert isfinite(parse(text, dimension))
    except UnitError as error:
        assert error.problem and error.remedy.endswith(".")


def test_a_metric_plan_never_loads_pint() -> None:
    code = (
        "import sys; from stockcheck.units import *; parse('160 L', VOLUME); parse('24 degC', TEMPERATURE);"
        "parse('8 dGH', HARDNESS); sys.exit('pint' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
