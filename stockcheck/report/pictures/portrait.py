"""All animals of the table at once: each a thin upright line over the temperatures it is comfortable at."""

from __future__ import annotations

from collections.abc import Sequence

from stockcheck.report.pictures.scale import Scale, plain
from stockcheck.report.pictures.svg import ON_PAGE, Ink, line, path, picture, words
from stockcheck.report.text_catalogue import text
from stockcheck.table.model import Species

WIDTH = 900.0
HEIGHT = 250.0
_LEFT, _TOP, _BOTTOM = 40.0, 8.0, 10.0


def portrait(taxa: Sequence[Species], ink: Ink = ON_PAGE) -> str:
    """Comfort (heavy) on tolerance (thin) in degC, from the cool-water to the warm-water animals."""
    drawn = []
    for taxon in taxa:
        band = taxon.band("temperature")
        if band is not None and band.comfort_low is not None and band.comfort_high is not None:
            drawn.append((band.comfort_low + band.comfort_high, band.comfort_low, band.comfort_high, band))
    drawn.sort(key=lambda entry: entry[:3])
    if not drawn:
        return ""
    up = Scale(4, 36, HEIGHT - _BOTTOM, _TOP)
    across = Scale(0, len(drawn), _LEFT, WIDTH - 4)
    comfort, tolerance = [], []
    for n, (_, low, high, band) in enumerate(drawn):
        x = across(n + 0.5)
        comfort.append(f"M{x:.1f} {up(low):.1f}V{up(high):.1f}")
        least = band.tolerance_low if band.tolerance_low is not None else low
        most = band.tolerance_high if band.tolerance_high is not None else high
        tolerance.append(f"M{x:.1f} {up(least):.1f}V{up(most):.1f}")
    marks = []
    for tick in (10, 15, 20, 25, 30):
        y = up(tick)
        marks.append(line(_LEFT, y, WIDTH, y, stroke=ink.ink, stroke_opacity=0.15))
        marks.append(words(_LEFT - 6, y + 4, f"{tick} °C", text_anchor="end", font_size=11))
    return picture(
        WIDTH,
        HEIGHT,
        text("portrait.title", count=len(drawn)),
        text(
            "portrait.description", low=plain(min(e[1] for e in drawn)), high=plain(max(e[2] for e in drawn))
        ),
        *marks,
        path("".join(tolerance), stroke=ink.ink, stroke_opacity=0.35, stroke_width=0.7, fill="none"),
        path("".join(comfort), stroke=ink.accent, stroke_width=1.4, fill="none"),
        ink=ink,
        kind="portrait",
    )
