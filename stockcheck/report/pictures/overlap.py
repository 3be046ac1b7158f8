"""Several taxa on one chart: each one's band, the band they share hatched, the setpoint and its swing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import isfinite

from stockcheck.report.pictures.bands import axis, axis_scale, band_bar
from stockcheck.report.pictures.fields import Field
from stockcheck.report.pictures.scale import Scale, plain
from stockcheck.report.pictures.svg import (
    ON_PAGE,
    Ink,
    box,
    fitted,
    group,
    haloed,
    hatching,
    line,
    path,
    picture,
    title,
    words,
)
from stockcheck.report.text_catalogue import text
from stockcheck.rules.bands import Span, Taxon, common, limits, name_of

_ROW = 38.0
_NAMES = 190.0
_COLUMN = 190.0
_GAP = 22.0
_HEAD = 44.0
_FOOT = 42.0
_MARGIN = 10.0
PANEL_WIDTH = 350.0


@dataclass(frozen=True, slots=True)
class Dial:
    """Where the heater is set, and how far the thermostat lets the water swing either way (degC)."""

    value_c: float
    swing_c: float

    def __str__(self) -> str:
        return text("overlap.setpoint_at", value=plain(self.value_c), swing=plain(self.swing_c))


@dataclass(frozen=True, slots=True)
class Common:
    """Where the comfort bands of one field meet: ``span``, empty where they do not, ``None`` where unknown.

    ``low_by`` and ``high_by`` name the taxa that set its ends; ``missing`` those of whom nothing is known.
    """

    span: Span | None
    low_by: str
    high_by: str
    missing: tuple[str, ...]
    grade: str = "D"  # of the least known band

    @property
    def ends(self) -> tuple[float | None, float | None]:
        """Its ends, ``None`` for one that nobody limits."""
        low, high = self.span or (float("-inf"), float("inf"))
        return (low if isfinite(low) else None, high if isfinite(high) else None)


def common_band(taxa: Sequence[Taxon], field: str) -> Common:
    """The interval that lies inside every taxon's comfort band, and who sets each end."""
    found = [
        limit for limit in limits(taxa, field) if isfinite(limit.comfort.low) or isfinite(limit.comfort.high)
    ]
    known = {limit.taxon.slug for limit in found}
    missing = tuple(name_of(taxon) for taxon in taxa if taxon.slug not in known)
    if not found:
        return Common(None, "", "", missing)
    span = common([limit.comfort for limit in found])
    low_by = next(name_of(limit.taxon) for limit in found if limit.comfort.low == span.low)
    high_by = next(name_of(limit.taxon) for limit in found if limit.comfort.high == span.high)
    return Common(span, low_by, high_by, missing, max(limit.band.grade for limit in found))


def common_words(field: Field, shared: Common, count: int) -> str:
    """The common band in one sentence."""
    if shared.span is None:
        return text("overlap.nothing_known", field=field.label)
    low, high = shared.ends
    if shared.span.empty:
        sentence = text(
            "overlap.no_common",
            field=field.label,
            low=field.value(shared.span.low),
            low_by=shared.low_by,
            high=field.value(shared.span.high),
            high_by=shared.high_by,
            grade=shared.grade,
        )
    else:
        key = "overlap.one_band" if count == 1 else "overlap.common"
        if shared.missing and count > 1:
            key = "overlap.common_known"
        sentence = text(key, field=field.label, band=field.interval(low, high), grade=shared.grade)
    if shared.missing:
        sentence += " " + text("overlap.without", names=", ".join(shared.missing))
    return sentence


@dataclass(frozen=True, slots=True)
class Chart:
    """What a chart of several taxa shows.

    Attributes
    ----------
    taxa : sequence of Species or PlantSpecies
    dial : Dial, optional
        Drawn across the temperature bands.
    own : mapping, optional
        The water there is: low and high by field, drawn as thin lines, one where both are the same.
    ink : Ink
    """

    taxa: Sequence[Taxon]
    dial: Dial | None = None
    own: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    ink: Ink = ON_PAGE

    def describe(self, fields: Sequence[Field]) -> str:
        """The chart in words."""
        sentences = [
            common_words(field, common_band(self.taxa, field.name), len(self.taxa)) for field in fields
        ]
        if self.dial is not None and any(field.name == "temperature" for field in fields):
            sentences.append(str(self.dial))
        return " ".join(sentences)

    def scale(self, field: Field, start: float, end: float) -> Scale:
        ends = [
            value
            for taxon in self.taxa
            if (band := taxon.band(field.name))
            for value in (band.tolerance_low, band.tolerance_high, band.comfort_low, band.comfort_high)
        ]
        return axis_scale(field, [*ends, *self.own.get(field.name, ())], start, end)


def _hatched_or_gap(shared: Common, scale: Scale, top: float, bottom: float, ink: Ink) -> str:
    """The common band, hatched from top to bottom; where there is none, the gap between dotted lines."""
    if shared.span is None:
        return ""
    low, high = scale(shared.span.low), scale(shared.span.high)
    if shared.span.empty:
        dotted = {"stroke": ink.ink, "stroke_width": 1.2, "stroke_dasharray": "2 4"}
        return group(*(line(x, top, x, bottom, **dotted) for x in (low, high)))
    width = max(high - low, 2.0)
    return group(
        box(low, top, width, bottom - top, fill=ink.accent, fill_opacity=0.09),
        hatching(low, top, width, bottom - top, ink.accent),
        line(low, top, low, bottom, stroke=ink.accent, stroke_width=1.2),
        line(low + width, top, low + width, bottom, stroke=ink.accent, stroke_width=1.2),
    )


def _dial_mark(dial: Dial, scale: Scale, top: float, bottom: float, ink: Ink) -> str:
    """A heavy line at the setpoint under a bracket as wide as the thermostat's swing."""
    x = scale(dial.value_c)
    left, right = scale(dial.value_c - dial.swing_c), scale(dial.value_c + dial.swing_c)
    bracket = f"M{left:.1f} {top + 6:.1f}V{top:.1f}H{right:.1f}V{top + 6:.1f}"
    return group(
        title(str(dial)),
        line(x, top, x, bottom, stroke=ink.ink, stroke_width=2),
        path(bracket, stroke=ink.ink, stroke_width=1.5, fill="none"),
        words(x, bottom + 32, f"{plain(dial.value_c)} °C", text_anchor="middle", font_weight=600),
    )


def _own_mark(own: tuple[float, float], scale: Scale, top: float, bottom: float, ink: Ink) -> str:
    """The water there is, as thin dashed lines with a diamond at the foot."""
    drawn = []
    for value in sorted(set(own)):
        x = scale(value)
        drawn.append(line(x, top, x, bottom, stroke=ink.ink, stroke_width=1.2, stroke_dasharray="6 3"))
        drawn.append(path(f"M{x:.1f} {bottom - 6:.1f}l5 6-5 6-5-6z", fill=ink.ink))
    return group(title(text("overlap.own")), *drawn)


def _column(chart: Chart, field: Field, left: float, width: float, tops: Sequence[float], foot: float) -> str:
    """One field's heading, axis, common band and bars, the bars at the given heights."""
    ink, head = chart.ink, _HEAD + 8
    scale = chart.scale(field, left, left + width)
    shared = common_band(chart.taxa, field.name)
    parts = [
        words(left, 16, field.label, font_weight=600),
        words(left, 31, _said_of(field, shared)),
        _hatched_or_gap(shared, scale, head, foot, ink),
        axis(scale, foot, ink, about=4, top=head),
    ]
    for taxon, y in zip(chart.taxa, tops, strict=True):
        band = taxon.band(field.name)
        if band is None or (band.comfort_low is None and band.comfort_high is None):
            parts.append(haloed(left, y + 4, text("picture.not_known"), ink, font_size=11))
        else:
            said = f"{name_of(taxon)}: {field.interval(band.comfort_low, band.comfort_high)}"
            parts.append(group(title(said), band_bar(band, scale, y, ink)))
    if own := chart.own.get(field.name):
        parts.append(_own_mark(own, scale, head, foot, ink))
    if chart.dial is not None and field.name == "temperature":
        parts.append(_dial_mark(chart.dial, scale, head - 4, foot, ink))
    return group(*parts)


def _said_of(field: Field, shared: Common) -> str:
    if shared.span is None:
        return text("picture.not_known")
    return text("overlap.none_short") if shared.span.empty else field.interval(*shared.ends)


def overlap_sheet(chart: Chart, fields: Sequence[Field]) -> str:
    """All taxa as rows and all fields as columns: the chart for a wide page, and the one to keep."""
    head = _HEAD + 14
    foot = head + _ROW * len(chart.taxa) + 4
    tops = [head + _ROW * (n + 0.5) + 2 for n in range(len(chart.taxa))]
    names = [
        fitted(_MARGIN, y - 3, name_of(taxon), _NAMES - 12, 13, font_weight=600)
        + fitted(_MARGIN, y + 12, taxon.scientific_name, _NAMES - 12, 11, font_style="italic")
        for taxon, y in zip(chart.taxa, tops, strict=True)
    ]
    rules = [
        line(_MARGIN, y, _NAMES - 4, y, stroke=chart.ink.ink, stroke_opacity=0.2)
        for y in (head + _ROW * n for n in range(1, len(chart.taxa)))
    ]
    lefts = [_MARGIN + _NAMES + n * (_COLUMN + _GAP) for n in range(len(fields))]
    return picture(
        _NAMES + len(fields) * (_COLUMN + _GAP) + 2 * _MARGIN,
        foot + _FOOT,
        text("overlap.chart_title", names=", ".join(name_of(taxon) for taxon in chart.taxa)),
        chart.describe(fields),
        *rules,
        *names,
        *(_column(chart, field, x, _COLUMN, tops, foot) for field, x in zip(fields, lefts, strict=True)),
        ink=chart.ink,
        kind="overlap-sheet",
    )


def overlap_panel(chart: Chart, field: Field) -> str:
    """One field only, names above the bars: the chart for a narrow page."""
    head, pitch = _HEAD + 8, 36.0
    foot = head + pitch * len(chart.taxa) + 6
    tops = [head + pitch * n + 26 for n in range(len(chart.taxa))]
    names = [
        haloed(_MARGIN, y - 11, name_of(taxon), chart.ink) for taxon, y in zip(chart.taxa, tops, strict=True)
    ]
    return picture(
        PANEL_WIDTH,
        foot + _FOOT,
        field.label,
        chart.describe([field]),
        _column(chart, field, _MARGIN, PANEL_WIDTH - 2 * _MARGIN, tops, foot),
        *names,
        ink=chart.ink,
        kind="overlap-panel",
    )
