"""A row of published values held against the model it names."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import pytest

from tests.reference.published import inputs

Models = Mapping[str, Callable[..., float]]


def assert_row(row: dict[str, str], models: Models) -> None:
    """The model's value lies within the row's own tolerance."""
    computed = models[row["model"]](**inputs(row))
    relative = float(row["relative"]) if row["relative"] else None
    absolute = float(row["absolute"]) if row["absolute"] else None
    assert relative or absolute, "a row needs a tolerance"
    assert computed == pytest.approx(float(row["expected"]), rel=relative or 0.0, abs=absolute or 0.0)


def assert_complete(found: list[dict[str, str]], models: Models) -> None:
    """Every model listed is held against at least one row, and every row has its model."""
    assert {row["model"] for row in found} == set(models)
    assert all(row["source"].strip() for row in found)
