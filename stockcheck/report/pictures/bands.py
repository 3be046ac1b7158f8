"""Bands of one taxon: the consensus on top, every source's own interval under it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from stockcheck.report.pictures.fields import Field
from stockcheck.report.pictures.scale import Scale, extent, plain
from stockcheck.report.pictures.svg import ON_PAGE, Ink, box, group, line, node, picture, title, words
from stockcheck.report.text_catalogue import text
from stockcheck.table.model import Band

WIDTH = 380.0
_MARGIN = 12.0


@dataclass(frozen=True, slots=True)
class Stated:
    """One source's interval for one field; ``tolerance_only`` marks survival or wild habitat."""

    low: float | None
    high: float | None
    source: str
    tolerance_only: bool = False


def axis_scale(field: Field, values: Sequence[float | None], start: float, end: float) -> Scale:
    """The field's own scale between two places, grown to hold ``values``."""
    low, high = extent(field.low, field.high, [value for value in values if value is not None])
    return Scale(low, high, start, end)


def axis(scale: Scale, y: float, ink: Ink, about: int = 6, top: float | None = None) -> str:
    """A ruled axis at ``y`` with numbers under it; faint lines up to ``top`` where one is given."""
    strokes = [line(scale.start, y, scale.end, y, stroke=ink.ink, stroke_width=1)]
    for tick in scale.ticks(about):
        x = scale(tick)
        strokes.append(line(x, y, x, y + 4, stroke=ink.ink, stroke_width=1))
        if top is not None:
            strokes.append(line(x, top, x, y, stroke=ink.ink, stroke_opacity=0.12))
        strokes.append(words(x, y + 16, plain(tick), text_anchor="middle", font_size=11))
    return group(*strokes)


def band_bar(band: Band, scale: Scale, y: float, ink: Ink, thick: float = 10.0) -> str:
    """Comfort as a solid bar on the thin line of tolerance, ends capped; an open end fades into dots."""
    low = band.tolerance_low if band.tolerance_low is not None else band.comfort_low
    high = band.tolerance_high if band.tolerance_high is not None else band.comfort_high
    strokes = []
    left = scale(low) if low is not None else scale.start
    right = scale(high) if high is not None else scale.end
    strokes.append(line(left, y, right, y, stroke=ink.ink, stroke_width=1.5))
    for end, x in ((low, left), (high, right)):
        if end is not None:
            strokes.append(line(x, y - thick / 2, x, y + thick / 2, stroke=ink.ink, stroke_width=1.5))
    comfort_left = scale(band.comfort_low) if band.comfort_low is not None else scale.start
    comfort_right = scale(band.comfort_high) if band.comfort_high is not None else scale.end
    if band.comfort_low is not None or band.comfort_high is not None:
        strokes.append(
            box(
                comfort_left,
                y - thick / 2,
                max(comfort_right - comfort_left, 2.5),
                thick,
                rx=2,
                fill=ink.accent,
            )
        )
    for end, x, step in ((band.comfort_low, comfort_left, 1), (band.comfort_high, comfort_right, -1)):
        if end is None and (band.comfort_low is not None or band.comfort_high is not None):
            strokes.extend(
                box(x + step * (2 + 6 * n), y - thick / 2, 2, thick, fill=ink.paper_or("var(--paper, #fff)"))
                for n in range(3)
            )
    return group(*strokes)


def band_words(field: Field, band: Band) -> str:
    """What a band says, as one sentence for those who cannot see it."""
    return text(
        "picture.band_words",
        comfort=field.interval(band.comfort_low, band.comfort_high),
        tolerance=field.interval(band.tolerance_low, band.tolerance_high),
        origins=band.origins,
        grade=band.grade,
    )


def _stated_line(stated: Stated, field: Field, scale: Scale, y: float, ink: Ink) -> str:
    low = scale(stated.low) if stated.low is not None else scale.start
    high = scale(stated.high) if stated.high is not None else scale.end
    dashes = "2 3" if stated.tolerance_only else None
    strokes = [title(f"{stated.source}: {field.interval(stated.low, stated.high)}")]
    if high - low < 3:
        strokes.append(node("circle", cx=(low + high) / 2, cy=float(y), r=2.2))
    else:
        strokes.append(line(low, y, high, y, stroke=ink.ink, stroke_width=1.6, stroke_dasharray=dashes))
    for end, x in ((stated.low, low), (stated.high, high)):
        if end is not None and high - low >= 3:
            strokes.append(line(x, y - 2, x, y + 2, stroke=ink.ink, stroke_width=1.2))
    return group(*strokes)


def one_band(field: Field, band: Band, stated: Sequence[Stated], ink: Ink = ON_PAGE) -> str:
    """The band of one taxon in one field, with every source's interval as a line under it.

    Parameters
    ----------
    field : Field
    band : Band
    stated : sequence of Stated
        In the field's unit; drawn from the lowest to the highest.
    """
    ends = [end for s in stated for end in (s.low, s.high)]
    scale = axis_scale(
        field,
        [*ends, band.tolerance_low, band.tolerance_high, band.comfort_low, band.comfort_high],
        _MARGIN,
        WIDTH - _MARGIN,
    )
    pitch = 6.0 if len(stated) <= 24 else 4.5
    first = 58.0
    bottom = first + pitch * len(stated) + 6
    ordered = sorted(stated, key=lambda s: (s.low if s.low is not None else -1e9, s.high or 1e9))
    guides = [
        line(scale(end), 42, scale(end), bottom, stroke=ink.accent, stroke_width=1, stroke_dasharray="1 3")
        for end in (band.comfort_low, band.comfort_high)
        if end is not None
    ]
    body = [
        words(_MARGIN, 16, field.label, font_weight=600, font_size=13),
        words(
            WIDTH - _MARGIN,
            16,
            field.interval(band.comfort_low, band.comfort_high),
            text_anchor="end",
            font_weight=600,
            font_size=13,
        ),
        axis(scale, bottom, ink, top=30),
        *guides,
        band_bar(band, scale, 38, ink, thick=12),
        *(_stated_line(s, field, scale, first + pitch * n, ink) for n, s in enumerate(ordered)),
    ]
    return picture(
        WIDTH,
        bottom + 24,
        field.label,
        band_words(field, band) + " " + text("picture.sources_drawn", count=len(stated)),
        *body,
        ink=ink,
        kind="band",
    )


def thumbnail(
    field: Field, low: float | None, high: float | None, least: float | None, most: float | None
) -> str:
    """A band small enough for a table cell: comfort on tolerance, on the field's own axis.

    Written out by hand, since a page of the table holds hundreds; colours come from the page's style sheet.
    """
    span = field.high - field.low

    def place(value: float) -> float:
        return min(max((value - field.low) / span, 0.0), 1.0) * 88 + 1

    left, right = place(field.low if low is None else low), place(field.high if high is None else high)
    thin_left = place(field.low if least is None else least)
    thin_right = place(field.high if most is None else most)
    return (
        f'<svg class="thumb" viewBox="0 0 90 12" width="90" height="12" aria-hidden="true">'
        f'<path d="M1 11.5H89"/><path d="M{thin_left:.1f} 5.5H{thin_right:.1f}"/>'
        f'<rect x="{left:.1f}" y="2" width="{max(right - left, 2):.1f}" height="7"/></svg>'
        f"<span>{escape(field.interval(low, high))}</span>"
    )
