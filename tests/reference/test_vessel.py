"""Volumes, floors, panes and conditioner against geometry, printed tables and molar masses."""

from __future__ import annotations

import pytest

from stockcheck.physics import conditioner, structure, volume
from stockcheck.physics.hardness import IMPERIAL_GALLON, US_GALLON
from stockcheck.physics.volume import Box
from tests.reference.models import Models, assert_complete, assert_row
from tests.reference.published import rows


def _net(length: float, width: float, water_height: float, bed: float, porosity: float) -> float:
    box = Box(length, width, water_height)
    return volume.box_litres(*box) - volume.bed_litres(box, bed, bed) * (1 - porosity)


def _next_row(length_cm: float, water_height_cm: float) -> float:
    """Length that puts a pane on the next higher row of beta, as printed tables do."""
    ratio = length_cm / water_height_cm
    return next(float(row) for row, _ in structure.BETA if row >= ratio) * water_height_cm


MODELS: Models = {
    "net": _net,
    "floor_load": lambda mass_kg, length, width: structure.floor_load(mass_kg, length * width),
    "pane_thickness": structure.pane_thickness_mm,
    "pane_safety": structure.pane_safety_factor,
    "pane_safety_by_next_row": lambda thickness_mm, length_cm, water_height_cm: structure.pane_safety_factor(
        thickness_mm, _next_row(length_cm, water_height_cm), water_height_cm
    ),
    "beta": structure.bending_coefficient,
    "gallon": lambda which: float(US_GALLON if which == "us" else IMPERIAL_GALLON),
    "thiosulfate": conditioner.thiosulfate_mg,
    "thiosulfate_to_sulfate": lambda chlorine_mg_l, litres: conditioner.thiosulfate_mg(
        chlorine_mg_l, litres, conditioner.TETRATHIONATE.low
    ),
    "ammonia_left": conditioner.ammonia_left,
}
VALUES = rows("vessel")


@pytest.mark.parametrize("row", VALUES, ids=lambda row: row["id"])
def test_published_value(row: dict[str, str]) -> None:
    assert_row(row, MODELS)


def test_every_model_has_a_row() -> None:
    assert_complete(VALUES, MODELS)


def test_forty_pounds_a_square_foot_is_a_dwelling_floor() -> None:
    """40 psf (ASCE 7 dwelling floors) is 1.915 kN/m2, between the 1.5 and 2.0 of EN 1991-1-1 category A."""
    psf = 40 * 0.45359237 * 9.80665 / 0.3048**2 / 1000
    assert psf == pytest.approx(1.915, rel=1e-3)
    assert structure.FLOOR_A.low <= psf <= structure.FLOOR_A.high


def test_an_outside_box_is_what_the_trade_calls_it() -> None:
    """Common practice, no source: 100 x 40 x 40 cm is 160 L, 42 US gallon; 14 buckets of 9 L are 33.3."""
    assert volume.box_litres(100, 40, 40) == pytest.approx(160)
    assert pytest.approx(42, abs=0.5) == 160 / US_GALLON
    assert pytest.approx(33.3, abs=0.05) == 14 * 9 / US_GALLON


def test_beds() -> None:
    """Trapezium, two trapezia, and a step: by hand for a floor of 100 x 40 cm."""
    box = Box(100, 40, 40)
    assert volume.bed_litres(box, 5, 8) == pytest.approx(26.0)
    assert volume.bed_litres(box, 2, 10, 4) == pytest.approx(100 * (20 * 3 + 20 * 7) / 1000)
    assert volume.bed_litres(box, 3, 12, None, 25) == pytest.approx(100 * (25 * 3 + 15 * 12) / 1000)
    assert volume.bed_litres(box, 3, 12, 5, 25) == pytest.approx(100 * (25 * 4 + 15 * 12) / 1000)


def test_a_brace_displaces_only_where_it_dips() -> None:
    box = Box(100, 40, 40)
    assert volume.brace_litres(box, 10, 3) == 0
    assert volume.brace_litres(box, 10, 0, 5) == pytest.approx((4000 - 90 * 30) * 1 / 1000)


def test_panes_of_a_box() -> None:
    """Outer less inner box; inside and outside undo one another."""
    inner = volume.inside(100, 40, 40, 10)
    assert inner == pytest.approx((98, 38, 39))
    assert volume.outside(inner, 10) == pytest.approx((100, 40, 40))
    assert volume.glass_litres(inner, 10) == pytest.approx(160 - 98 * 38 * 39 / 1000)
