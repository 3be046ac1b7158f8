"""From values to places on paper, and the round numbers to mark."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, log10


@dataclass(frozen=True, slots=True)
class Scale:
    """Maps ``low..high`` linearly to ``start..end``; values beyond are held at the ends."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, value: float) -> float:
        share = (value - self.low) / (self.high - self.low)
        return self.start + min(max(share, 0.0), 1.0) * (self.end - self.start)

    def ticks(self, about: int = 5) -> list[float]:
        """Round values inside the scale, roughly ``about`` of them."""
        step = round_step(self.high - self.low, about)
        first = ceil(self.low / step - 1e-9)
        last = floor(self.high / step + 1e-9)
        return [round(n * step, 10) for n in range(first, last + 1)]


def round_step(span: float, about: int) -> float:
    """The step of 1, 2 or 5 times a power of ten that divides ``span`` into roughly ``about`` parts."""
    rough = span / about
    power = 10.0 ** floor(log10(rough))
    return next(factor * power for factor in (1, 2, 5, 10) if factor * power >= rough * 0.999)


def plain(value: float, decimals: int = 1) -> str:
    """A value as a person writes it: no trailing zeros."""
    written = f"{value:.{decimals}f}"
    return written.rstrip("0").rstrip(".") if "." in written else written


def extent(low: float, high: float, values: list[float]) -> tuple[float, float]:
    """``low..high`` widened to hold every value."""
    return min([low, *values]), max([high, *values])
