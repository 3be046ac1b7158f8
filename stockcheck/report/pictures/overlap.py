"""Several taxa on one chart: each one's band, the band they share hatched, the setpoint and its swing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stockcheck.report.pictures.bands import axis, axis_scale, band_bar
from stockcheck.report.pictures.fields import Field
from stockcheck.report.pictures.scale import Scale, plain
from stockcheck.report.pictures.svg import (
    ON_PAGE,
    Ink,
    box,
    group,
    hatching,
    line,
    path,
    picture,
    title,
    words,
)
from stockcheck.report.text_catalogue import text
from stockcheck.table.model import Band

_ROW = 38.0
_NAMES = 190.0
_COLUMN = 190.0
_GAP = 22.0
_HEAD = 44.0
_FOOT = 42.0
PANEL_WIDTH = 350.0


@dataclass(frozen=True, slots=True)
class Row:
    """One taxon of the chart."""

    name: str
    scientific_name: str
    bands: Mapping[str, Band]


@dataclass(frozen=True, slots=True)
class Setpoint:
    """Where the heater is set, and how far the thermostat lets the water swing either way (degC)."""

    value_c: float
    swing_c: float


@dataclass(frozen=True, slots=True)
class Common:
    """Where the comfort bands of one field meet (``low <= high``), or the gap between where they do not."""

    low: float | None
    high: float | None
    low_by: str
    high_by: str
    missing: tuple[str, ...]

    @property
    def exists(self) -> bool:
        return self.low is None or self.high is None or self.low <= self.high

    @property
    def known(self) -> bool:
        return self.low is not None or self.high is not None


def common_band(rows: Sequence[Row], field: str) -> Common:
    """The interval that lies inside every row's comfort band, and which row sets each end."""
    lows: list[tuple[float, str]] = []
    highs: list[tuple[float, str]] = []
    missing = []
    for row in rows:
        band = row.bands.get(field)
        if band is None or (band.comfort_low is None and band.comfort_high is None):
            missing.append(row.name)
            continue
        if band.comfort_low is not None:
            lows.append((band.comfort_low, row.name))
        if band.comfort_high is not None:
            highs.append((band.comfort_high, row.name))
    low, low_by = max(lows) if lows else (None, "")
    high, high_by = min(highs) if highs else (None, "")
    return Common(low, high, low_by, high_by, tuple(missing))


def common_words(field: Field, common: Common, count: int) -> str:
    """The common band in one sentence."""
    if not common.known:
        return text("overlap.nothing_known", field=field.label)
    if not common.exists:
        return text(
            "overlap.no_common",
            field=field.label,
            low=field.value(common.low or 0.0),
            low_by=common.low_by,
            high=field.value(common.high or 0.0),
            high_by=common.high_by,
        )
    key = "overlap.one_band" if count == 1 else "overlap.common"
    sentence = text(key, field=field.label, band=field.interval(common.low, common.high))
    if common.missing:
        sentence += " " + text("overlap.without", names=", ".join(common.missing))
    return sentence


def _field_scale(rows: Sequence[Row], field: Field, start: float, end: float) -> Scale:
    ends = [
        value
        for row in rows
        if (band := row.bands.get(field.name))
        for value in (band.tolerance_low, band.tolerance_high, band.comfort_low, band.comfort_high)
    ]
    return axis_scale(field, ends, start, end)


def _shared(common: Common, scale: Scale, top: float, bottom: float, ink: Ink) -> str:
    """The common band, hatched from top to bottom; where there is none, the gap between dotted lines."""
    if not common.known:
        return ""
    low = scale(common.low) if common.low is not None else scale.start
    high = scale(common.high) if common.high is not None else scale.end
    if common.exists:
        width = max(high - low, 2.0)
        return group(
            box(low, top, width, bottom - top, fill=ink.accent, fill_opacity=0.09),
            hatching(low, top, width, bottom - top, ink.accent),
            line(low, top, low, bottom, stroke=ink.accent, stroke_width=1.2),
            line(low + width, top, low + width, bottom, stroke=ink.accent, stroke_width=1.2),
        )
    return group(
        *(
            line(x, top, x, bottom, stroke=ink.ink, stroke_width=1.2, stroke_dasharray="2 4")
            for x in (low, high)
        )
    )


def _setpoint_mark(setpoint: Setpoint, scale: Scale, top: float, bottom: float, ink: Ink) -> str:
    """A heavy line at the setpoint, a bracket of the thermostat's swing on top of it."""
    x = scale(setpoint.value_c)
    left, right = scale(setpoint.value_c - setpoint.swing_c), scale(setpoint.value_c + setpoint.swing_c)
    return group(
        title(text("overlap.setpoint_at", value=plain(setpoint.value_c), swing=plain(setpoint.swing_c))),
        line(x, top, x, bottom, stroke=ink.ink, stroke_width=2),
        path(
            f"M{left:.1f} {top + 6:.1f}V{top:.1f}H{right:.1f}V{top + 6:.1f}",
            stroke=ink.ink,
            stroke_width=1.5,
            fill="none",
        ),
        words(x, bottom + 32, f"{plain(setpoint.value_c)} °C", text_anchor="middle", font_weight=600),
    )


def _column(
    rows: Sequence[Row], field: Field, left: float, width: float, tops: Sequence[float], ink: Ink,
    head: float, bottom: float, setpoint: Setpoint | None,
) -> str:  # fmt: skip
    """One field's bars at the given heights, over its common band and axis."""
    scale = _field_scale(rows, field, left, left + width)
    common = common_band(rows, field.name)
    parts = [
        _shared(common, scale, head, bottom, ink),
        axis(scale, bottom, ink, about=4, top=head),
    ]
    for row, y in zip(rows, tops, strict=True):
        band = row.bands.get(field.name)
        if band is None or (band.comfort_low is None and band.comfort_high is None):
            parts.append(words(left, y + 4, text("picture.not_known"), font_size=11, font_style="italic"))
        else:
            parts.append(
                group(
                    title(f"{row.name}: {field.interval(band.comfort_low, band.comfort_high)}"),
                    band_bar(band, scale, y, ink),
                )
            )
    if setpoint is not None and field.name == "temperature":
        parts.append(_setpoint_mark(setpoint, scale, head - 4, bottom, ink))
    return group(*parts)


def _column_head(rows: Sequence[Row], field: Field, x: float, y: float) -> str:
    common = common_band(rows, field.name)
    if not common.known:
        said = text("picture.not_known")
    elif common.exists:
        said = field.interval(common.low, common.high)
    else:
        said = text("overlap.none_short")
    return group(
        words(x, y, field.label, font_size=12, font_weight=600),
        words(x, y + 15, said, font_size=12),
    )


def _describe(rows: Sequence[Row], fields: Sequence[Field], setpoint: Setpoint | None) -> str:
    sentences = [common_words(field, common_band(rows, field.name), len(rows)) for field in fields]
    if setpoint is not None:
        sentences.append(
            text("overlap.setpoint_at", value=plain(setpoint.value_c), swing=plain(setpoint.swing_c))
        )
    return " ".join(sentences)


def overlap_sheet(
    rows: Sequence[Row], fields: Sequence[Field], setpoint: Setpoint | None = None, ink: Ink = ON_PAGE
) -> str:
    """All taxa as rows and all fields as columns: the chart for a wide page, and the one to keep."""
    head = _HEAD + 14
    bottom = head + _ROW * len(rows) + 4
    tops = [head + _ROW * (n + 0.5) + 2 for n in range(len(rows))]
    names = [
        words(0, y - 3, row.name, font_size=13, font_weight=600)
        + words(0, y + 12, row.scientific_name, font_size=11, font_style="italic")
        for row, y in zip(rows, tops, strict=True)
    ]
    rules = [
        line(0, head + _ROW * n, _NAMES - 12, head + _ROW * n, stroke=ink.ink, stroke_opacity=0.2)
        for n in range(1, len(rows))
    ]
    columns = []
    for n, field in enumerate(fields):
        left = _NAMES + n * (_COLUMN + _GAP)
        columns.append(_column_head(rows, field, left, 16))
        columns.append(_column(rows, field, left, _COLUMN, tops, ink, head, bottom, setpoint))
    margin = 10.0
    width = _NAMES + len(fields) * (_COLUMN + _GAP) + margin
    return picture(
        width + margin,
        bottom + _FOOT,
        text("overlap.chart_title", names=", ".join(row.name for row in rows)),
        _describe(rows, fields, setpoint),
        group(*rules, *names, *columns, transform=f"translate({margin:.0f} 0)"),
        ink=ink,
        kind="overlap-sheet",
    )


def overlap_panel(
    rows: Sequence[Row], field: Field, setpoint: Setpoint | None = None, ink: Ink = ON_PAGE
) -> str:
    """One field only, names above the bars: the chart for a narrow page."""
    head, pitch, margin = _HEAD + 8, 36.0, 10.0
    bottom = head + pitch * len(rows) + 6
    tops = [head + pitch * n + 26 for n in range(len(rows))]
    names = [words(margin, y - 11, row.name, font_size=12) for row, y in zip(rows, tops, strict=True)]
    return picture(
        PANEL_WIDTH,
        bottom + _FOOT,
        field.label,
        _describe(rows, [field], setpoint),
        _column_head(rows, field, margin, 16),
        _column(rows, field, margin, PANEL_WIDTH - 2 * margin, tops, ink, head, bottom, setpoint),
        *names,
        ink=ink,
        kind="overlap-panel",
    )
