"""Levels as shapes and headroom as a rule: severity without colour."""

from __future__ import annotations

from stockcheck.report.pictures.svg import ON_PAGE, Ink, box, line, picture, words
from stockcheck.report.text_catalogue import text

_SHAPES = {
    "stop": '<path d="M5 1h10l4 4v10l-4 4H5l-4-4V5z"/><path d="M5 10h10" class="bar"/>',
    "fix": '<path d="M10 1l9 9-9 9-9-9z"/>',
    "watch": '<circle cx="10" cy="10" r="8" class="open"/><circle cx="10" cy="10" r="2.5"/>',
    "unknown": '<circle cx="10" cy="10" r="8" class="open dashed"/>',
    "clear": '<path d="M2 11l5 6L18 4" class="open"/>',
}


def level_mark(level: str) -> str:
    """A level's shape, to stand beside its word: the heavier the shape, the graver the level."""
    return (
        f'<svg class="mark mark-{level}" viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">'
        f"{_SHAPES[level]}</svg>"
    )


def headroom_rule(axes: dict[str, float], ink: Ink = ON_PAGE) -> str:
    """Headroom of each axis on one rule from 0 (a stop) over 50 (it just holds) to 100 (margin to spare)."""
    width, left, pitch, top = 460.0, 92.0, 26.0, 24.0
    reach = width - left - 44

    def place(value: float) -> float:
        return left + reach * value / 100

    bottom = top + pitch * len(axes)
    body = [
        line(
            place(mark),
            top - 6,
            place(mark),
            bottom,
            stroke=ink.ink,
            stroke_opacity=0.35,
            stroke_dasharray=dash,
        )
        for mark, dash in ((0, None), (50, "3 3"), (100, None))
    ]
    for mark, key in ((0, "headroom.stop"), (50, "headroom.holds"), (100, "headroom.spare")):
        anchor = {0: "start", 50: "middle", 100: "end"}[mark]
        body.append(words(place(mark), top - 10, text(key), text_anchor=anchor, font_size=11))
    for n, (axis, value) in enumerate(axes.items()):
        y = top + pitch * n + 6
        body.append(words(0, y + 11, text(f"axis.{axis}"), font_size=13))
        body.append(box(left, y, reach * value / 100, 14, fill=ink.accent, rx=2))
        body.append(line(place(0), y + 7, place(100), y + 7, stroke=ink.ink, stroke_opacity=0.25))
        body.append(words(width, y + 11, f"{value:.0f}", text_anchor="end", font_size=13, font_weight=600))
    said = ", ".join(f"{text(f'axis.{axis}')} {value:.0f}" for axis, value in axes.items())
    return picture(width, bottom + 6, text("headroom.title"), said, *body, ink=ink, kind="headroom")
