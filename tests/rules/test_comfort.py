"""Headroom of a value in a band: monotone, in proportion, softer where little is known."""

from __future__ import annotations

from itertools import pairwise
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockcheck.rules.bands import Limit, comfort_of, tolerance_of
from stockcheck.rules.comfort import (
    AT_COMFORT,
    AT_TOLERANCE,
    FIELDS,
    GH,
    KH,
    PH,
    TEMPERATURE,
    Field,
    best_compromise,
    headroom_at,
    headroom_high,
    headroom_low,
)
from stockcheck.rules.core import level_of
from stockcheck.table.model import Band, Species

NOBODY = Species(
    **{name: "" for name in Species.__dataclass_fields__ if name not in ("zone", "basis", "bands")},  # type: ignore[arg-type]
    zone=(),
)


def limit(
    low: float | None,
    high: float | None,
    tolerance: tuple[float | None, float | None] = (None, None),
    grade: str = "A",
) -> Limit:
    band = Band("temperature", "degC", low, high, *tolerance, grade, {"A": 3, "B": 2}.get(grade, 1))
    return Limit(NOBODY, band, comfort_of(band), tolerance_of(band))


fields = st.sampled_from(FIELDS)
grades = st.sampled_from("ABCD")
edges = st.lists(st.floats(0, 40), min_size=4, max_size=4).map(sorted)


@given(fields, edges, grades, st.floats(0, 50), st.floats(0, 50))
def test_monotone_on_either_side(field: Field, ends: list[float], grade: str, a: float, b: float) -> None:
    held = limit(ends[1], ends[2], (ends[0], ends[3]), grade)
    a, b = sorted((a, b))
    assert headroom_low(held, field, a) <= headroom_low(held, field, b) + 1e-9
    assert headroom_high(held, field, a) >= headroom_high(held, field, b) - 1e-9


@given(fields, edges, grades, st.floats(0, 1))
def test_comfort_is_clear_and_tolerance_holds(
    field: Field, ends: list[float], grade: str, share: float
) -> None:
    held = limit(ends[1], ends[2], (ends[0], ends[3]), grade)
    assert level_of(headroom_at(held, field, ends[1] + share * (ends[2] - ends[1]) * 0.999)) == "clear"
    assert headroom_at(held, field, ends[0] + share * (ends[3] - ends[0])) >= AT_TOLERANCE - 1e-9


@given(fields, edges, st.floats(0, 50))
def test_less_known_speaks_more_softly(field: Field, ends: list[float], value: float) -> None:
    told = [headroom_at(limit(ends[1], ends[2], (ends[0], ends[3]), grade), field, value) for grade in "ABCD"]
    assert all(worse <= softer + 1e-9 for worse, softer in pairwise(told))


def test_levels_grow_with_the_distance() -> None:
    held = limit(22.0, 26.0, (20.0, 28.0))
    values = (24.0, 21.0, 18.0, 14.0)
    assert [level_of(headroom_at(held, TEMPERATURE, x)) for x in values] == ["clear", "watch", "fix", "stop"]


def test_hardness_weighs_by_ratio_and_never_stops() -> None:
    held = limit(2.0, 8.0)
    assert headroom_at(held, GH, 10.0) > AT_TOLERANCE  # a degree or two more is little
    assert headroom_at(limit(10.0, 30.0), GH, 1.0) < AT_TOLERANCE  # livebearers in rain water
    assert headroom_at(held, GH, 200.0) == GH.floor > 0
    assert headroom_at(held, KH, 200.0) >= AT_TOLERANCE


def test_an_open_end_never_objects() -> None:
    assert headroom_high(limit(6.0, None), PH, 14.0) == 100.0
    assert headroom_low(limit(None, 7.0), PH, 0.0) == 100.0


@given(st.lists(st.tuples(st.floats(0, 40), st.floats(0, 10)), min_size=2, max_size=6), fields)
def test_the_best_compromise_is_the_best(pairs: list[tuple[float, float]], field: Field) -> None:
    found = [limit(low, low + width) for low, width in pairs]
    best, headroom = best_compromise(found, field)
    for step in range(101):
        x = step / 2
        assert min(headroom_at(one, field, x) for one in found) <= headroom + 0.1, (best, x)


def test_what_all_share_is_clear() -> None:
    best, headroom = best_compromise([limit(20.0, 25.0), limit(23.0, 28.0)], TEMPERATURE)
    assert 23.0 <= best <= 25.0
    assert headroom >= AT_COMFORT
    assert best_compromise([limit(None, None)], TEMPERATURE)[1] == 100.0


def test_tolerance_is_never_narrower_than_comfort() -> None:
    assert limit(20.0, 25.0, (21.0, 24.0)).tolerance == (20.0, 25.0)
    assert limit(None, 25.0).comfort == (-inf, 25.0)


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: field.name)
def test_widths_are_in_order(field: Field) -> None:
    assert 0 < field.grace < field.harm
