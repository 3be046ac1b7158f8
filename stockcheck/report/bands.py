"""Bands drawn with characters: one line a taxon, comfort solid inside tolerance dotted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockcheck.language import say
from stockcheck.report.wording import number
from stockcheck.rules.bands import comfort_of, common
from stockcheck.table.model import Band

UNITS = {"temperature": "°C", "pH": "pH", "GH": "dGH", "KH": "dKH"}
COMFORT, TOLERANCE, OWN, SHARED = "━", "·", "|", "="


@dataclass(frozen=True, slots=True)
class BandRow:
    """A label and the band to draw for it."""

    label: str
    band: Band | None


@dataclass(frozen=True, slots=True)
class _Scale:
    low: float
    high: float
    cells: int

    def column(self, x: float) -> int:
        inside = min(max(x, self.low), self.high)
        return round((inside - self.low) / (self.high - self.low) * (self.cells - 1))

    def paint(self, canvas: list[str], start: float | None, end: float | None, mark: str) -> None:
        """Fill from start to end (``None``: to the edge) with a mark."""
        first = 0 if start is None else self.column(start)
        last = self.cells - 1 if end is None else self.column(end)
        canvas[first : last + 1] = mark * (last + 1 - first)


def draw_bands(
    rows: Sequence[BandRow], own: tuple[float, float] | None, width: int, label_width: int
) -> list[str]:
    """Draw bands of one field on a shared scale; no lines where there is nothing to draw.

    ``own`` is the plan's own value or range: columns of ``|`` at its ends, through every line.  The last
    line is the comfort that all share, where there is one.
    """
    bands = [row.band for row in rows if row.band is not None]
    ends = [
        end
        for band in bands
        for end in (band.tolerance_low, band.tolerance_high, band.comfort_low, band.comfort_high)
        if end is not None
    ] + list(own or ())
    if not bands or len(ends) < 2 or max(ends) == min(ends):
        return []
    scale = _Scale(min(ends), max(ends), max(20, width - label_width - 2))
    lines = [_line("", _heading(scale, own), label_width)]
    for row in rows:
        canvas = [" "] * scale.cells
        if row.band is not None:
            scale.paint(canvas, row.band.tolerance_low, row.band.tolerance_high, TOLERANCE)
            scale.paint(canvas, row.band.comfort_low, row.band.comfort_high, COMFORT)
        else:
            canvas = list(say("no source states it").ljust(scale.cells))
        if own and row.band is not None:
            for end in own:
                canvas[scale.column(end)] = OWN
        lines.append(_line(row.label, "".join(canvas), label_width))
    if len(bands) > 1:
        shared = common([comfort_of(band) for band in bands])
        canvas = [" "] * scale.cells
        if shared.empty:
            canvas = list(say("no comfort that all share").ljust(scale.cells))
        else:
            scale.paint(canvas, *shared, SHARED)
        lines.append(_line(say("all of them"), "".join(canvas), label_width))
    return lines


def _heading(scale: _Scale, own: tuple[float, float] | None) -> str:
    """The scale's two ends, with the plan's own value named over its column."""
    left, right = number(scale.low), number(scale.high)
    middle = ""
    if own:
        middle = say("| here: {own}", own=number(own[0])) + (
            say(" to {own}", own=number(own[1])) if own[0] != own[1] else ""
        )
    free = scale.cells - len(left) - len(middle) - len(right)
    start = min(max(1, scale.column(own[0]) - len(left)), max(1, free - 1)) if own else 1
    return f"{left}{' ' * start}{middle}{' ' * max(1, free - start)}{right}"


def _line(label: str, body: str, width: int) -> str:
    fitted = label if len(label) <= width else label[: width - 1] + "…"
    return f"{fitted:{width}}  {body}".rstrip()
