"""Uncertain numbers: cited constants, 90 % intervals, and how they pass through a model."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import exp, log, sqrt
from typing import NamedTuple


class Interval(NamedTuple):
    """A figure with its 90 % interval, all three in one unit."""

    low: float
    value: float
    high: float

    @classmethod
    def exact(cls, value: float) -> Interval:
        """An interval without width."""
        return cls(value, value, value)

    @classmethod
    def factor(cls, value: float, factor: float) -> Interval:
        """``value`` known to within a factor, either way (``factor`` >= 1)."""
        return cls(value / factor, value, value * factor)

    def scaled(self, by: float) -> Interval:
        """All three multiplied by a known, non-negative number (a change of unit, say)."""
        return Interval(self.low * by, self.value * by, self.high * by)


class Constant(float):
    """A number that a model uses, with where it comes from.

    It is a float, so formulas read as in the handbook; ``low`` and ``high`` bound it (90 %).

    Parameters
    ----------
    value : float
    unit : str
    source : str
        The publication, standard or definition; ``common practice, no source`` or ``from memory: ...``
        where there is none to cite.
    low, high : float, optional
        90 % interval; the value itself when left out.
    """

    unit: str
    source: str
    low: float
    high: float

    def __new__(
        cls,
        value: float,
        unit: str,
        source: str,
        low: float | None = None,
        high: float | None = None,
    ) -> Constant:
        self = super().__new__(cls, value)
        self.unit, self.source = unit, source
        self.low = value if low is None else low
        self.high = value if high is None else high
        return self

    @property
    def interval(self) -> Interval:
        return Interval(self.low, float(self), self.high)


class Influence(NamedTuple):
    """How far one input's own interval moves one result (low and high end, in the result's unit)."""

    name: str
    down: float
    up: float

    @property
    def reach(self) -> float:
        return abs(self.up - self.down)


def _combine(centre: float, moves: list[Influence]) -> Interval:
    """Quadrature of one-at-a-time moves, in logarithms where every result is positive."""
    pairs = [(down, up) if down < up else (up, down) for _, down, up in moves]
    if centre > 0 and all([low > 0 for low, _ in pairs]):
        rise = sqrt(sum([log(high / centre) ** 2 for _, high in pairs if high > centre]))
        fall = sqrt(sum([log(low / centre) ** 2 for low, _ in pairs if low < centre]))
        return Interval(centre * exp(-fall), centre, centre * exp(rise))
    rise = sqrt(sum([(high - centre) ** 2 for _, high in pairs if high > centre]))
    fall = sqrt(sum([(centre - low) ** 2 for low, _ in pairs if low < centre]))
    lowest = centre - fall
    if lowest < 0 <= min([centre, *(low for low, _ in pairs)]):
        lowest = 0.0  # what is never negative alone is not negative together
    return Interval(lowest, centre, centre + rise)


def propagate(
    model: Callable[[Mapping[str, float]], Mapping[str, float]],
    inputs: Mapping[str, Interval],
) -> tuple[dict[str, Interval], dict[str, list[Influence]]]:
    """Carry 90 % intervals of independent inputs through a model.

    Each input in turn is set to its low and its high end; the moves of every result are combined in
    quadrature, upward and downward moves apart, in logarithms where the results are all positive
    (exact for products of log-normal inputs, to first order otherwise; JCGM 100:2008, 5.1.2).

    Parameters
    ----------
    model : callable
        From a mapping of input values to a mapping of named results.
    inputs : mapping of Interval
        Independent inputs; one without width costs no evaluation.

    Returns
    -------
    results : dict of Interval
    influences : dict of list of Influence
        Per result, the inputs that move it, the strongest first.
    """
    point = {name: interval.value for name, interval in inputs.items()}
    centre = model(point)
    swings: list[tuple[str, Mapping[str, float], Mapping[str, float]]] = []
    for name, interval in inputs.items():
        if interval.low == interval.value == interval.high:
            continue
        ends = []
        for end in (interval.low, interval.high):
            ends.append(model({**point, name: end}) if end != interval.value else centre)
        swings.append((name, ends[0], ends[1]))
    results: dict[str, Interval] = {}
    influences: dict[str, list[Influence]] = {}
    for key, middle in centre.items():
        moves = [
            Influence(name, low[key], high[key])
            for name, low, high in swings
            if low[key] != middle or high[key] != middle
        ]
        results[key] = _combine(middle, moves)
        influences[key] = sorted(moves, key=lambda influence: -influence.reach)
    return results, influences
