"""How intervals combine at their edges; tests/reference/test_solvers.py holds them against Monte Carlo."""

from __future__ import annotations

from stockcheck.physics.quantity import Interval, propagate


def test_what_is_never_negative_alone_is_not_negative_together() -> None:
    inputs = {name: Interval(0.0, 1.0, 2.0) for name in "abc"}
    results, _ = propagate(lambda x: {"sum": x["a"] + x["b"] + x["c"] - 2.0}, inputs)
    assert results["sum"].low == 0.0
    assert results["sum"].high > 2.0


def test_a_result_that_can_be_negative_stays_so() -> None:
    results, _ = propagate(lambda x: {"y": x["a"] - 1.0}, {"a": Interval(0.0, 1.0, 2.0)})
    assert results["y"] == Interval(-1.0, 0.0, 1.0)


def test_a_model_without_uncertain_inputs_has_no_width() -> None:
    results, influences = propagate(lambda x: {"y": -x["a"]}, {"a": Interval.exact(3.0)})
    assert results["y"] == Interval(-3.0, -3.0, -3.0)
    assert influences["y"] == []
