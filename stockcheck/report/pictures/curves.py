"""Two curves of a running tank: nitrate between water changes, oxygen through a night."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp

from stockcheck.physics.quantity import Interval
from stockcheck.report.pictures.scale import Scale, plain
from stockcheck.report.pictures.svg import (
    ON_PAGE,
    Ink,
    group,
    haloed,
    hatching,
    line,
    node,
    path,
    picture,
    polyline,
    words,
)
from stockcheck.report.text_catalogue import text

WIDTH = 460.0
HEIGHT = 220.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 44.0, 12.0, 30.0, 36.0


def _frame(
    scale_x: Scale, scale_y: Scale, unit: str, along: str, marks: Sequence[tuple[float, str]], ink: Ink
) -> str:
    strokes = [words(_LEFT - 6, _TOP - 12, unit, text_anchor="end", font_size=11)]
    for tick in scale_y.ticks(4):
        y = scale_y(tick)
        strokes.append(line(_LEFT, y, WIDTH - _RIGHT, y, stroke=ink.ink, stroke_opacity=0.12))
        strokes.append(words(_LEFT - 6, y + 4, plain(tick), text_anchor="end", font_size=11))
    floor = HEIGHT - _BOTTOM
    strokes.append(line(_LEFT, floor, WIDTH - _RIGHT, floor, stroke=ink.ink))
    for value, said in marks:
        x = scale_x(value)
        strokes.append(line(x, floor, x, floor + 4, stroke=ink.ink))
        strokes.append(words(x, floor + 16, said, text_anchor="middle", font_size=11))
    strokes.append(words((_LEFT + WIDTH - _RIGHT) / 2, HEIGHT - 4, along, text_anchor="middle", font_size=11))
    return group(*strokes)


def nitrate_sawtooth(
    trough: Interval, peak: Interval, every_days: float, tap: float | None, ink: Ink = ON_PAGE
) -> str:
    """Nitrate (mg/L) over four settled periods: a climb to the peak, a change down to the trough.

    Parameters
    ----------
    trough, peak : Interval
        Nitrate as NO3 just after and just before a change, mg/L; the 90 % interval is hatched.
    every_days : float
        Days between changes.
    tap : float, optional
        Nitrate of the tap water, mg/L, drawn as a dashed floor.
    """
    periods = 4
    top = max(peak.high, tap or 0.0, 1.0) * 1.1
    across = Scale(0, periods * every_days, _LEFT, WIDTH - _RIGHT)
    up = Scale(0, top, HEIGHT - _BOTTOM, _TOP)
    marks = [(n * every_days, plain(n * every_days)) for n in range(periods + 1)]

    def teeth(low: float, high: float) -> list[tuple[float, float]]:
        points = []
        for n in range(periods):
            points.append((across(n * every_days), up(low)))
            points.append((across((n + 1) * every_days), up(high)))
        return points

    upper, lower = teeth(trough.high, peak.high), teeth(trough.low, peak.low)
    outline = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in [*upper, *reversed(lower)]) + "Z"
    body = [
        _frame(across, up, "mg/L", text("nitrate.days"), marks, ink),
        path(outline, fill=ink.accent, fill_opacity=0.14),
        polyline([*teeth(trough.value, peak.value)], fill="none", stroke=ink.accent, stroke_width=2.2),
    ]
    if tap is not None:
        y = up(tap)
        body.append(line(_LEFT, y, WIDTH - _RIGHT, y, stroke=ink.ink, stroke_dasharray="5 4"))
        body.append(words(WIDTH - _RIGHT, y - 5, text("nitrate.tap"), text_anchor="end", font_size=11))
    said = text(
        "nitrate.description",
        days=plain(every_days),
        trough=plain(trough.value),
        peak=plain(peak.value),
        low=plain(peak.low),
        high=plain(peak.high),
    )
    return picture(WIDTH, HEIGHT, text("nitrate.title"), said, *body, ink=ink, kind="curve")


def oxygen_night(
    evening: Interval, dawn: Interval, rate_per_h: float, least: float, hours: float, ink: Ink = ON_PAGE
) -> str:
    """Oxygen (mg/L) from lights out to dawn, against the level the animals need.

    Parameters
    ----------
    evening, dawn : Interval
        Oxygen when the light goes out and at the end of the night, mg/L.
    rate_per_h : float
        How fast the water nears its night's steady state, 1/h (surface transfer over volume).
    least : float
        The level below which the animals do less well, mg/L; hatched below.
    hours : float
        Length of the night.
    """
    top = max(evening.high, dawn.high, least) * 1.15
    across = Scale(0, hours, _LEFT, WIDTH - _RIGHT)
    up = Scale(0, top, HEIGHT - _BOTTOM, _TOP)
    marks = [(hours * n / 4, text("oxygen.hour", hours=plain(hours * n / 4))) for n in range(5)]
    whole = rate_per_h * hours

    def fall(start: float, end: float) -> list[tuple[float, float]]:
        # an exponential approach to the steady state, through both known ends
        left = [(exp(-whole * n / 24) - exp(-whole)) / (1 - exp(-whole)) for n in range(25)]
        return [(across(hours * n / 24), up(end + (start - end) * left[n])) for n in range(25)]

    upper, lower = fall(evening.high, dawn.high), fall(evening.low, dawn.low)
    outline = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in [*upper, *reversed(lower)]) + "Z"
    floor = HEIGHT - _BOTTOM
    limit = up(least)
    body = [
        hatching(_LEFT, limit, WIDTH - _RIGHT - _LEFT, floor - limit, ink.ink, gap=12),
        _frame(across, up, "mg/L", text("oxygen.hours"), marks, ink),
        line(_LEFT, limit, WIDTH - _RIGHT, limit, stroke=ink.ink, stroke_width=1.4),
        path(outline, fill=ink.accent, fill_opacity=0.14),
        polyline(fall(evening.value, dawn.value), fill="none", stroke=ink.accent, stroke_width=2.2),
        node("circle", cx=across(hours), cy=up(dawn.value), r=3.5, fill=ink.accent),
        haloed(_LEFT + 6, limit + 16, text("oxygen.least"), ink, font_size=11),
    ]
    said = text(
        "oxygen.description",
        evening=plain(evening.value),
        dawn=plain(dawn.value),
        low=plain(dawn.low),
        high=plain(dawn.high),
        least=plain(least),
    )
    return picture(WIDTH, HEIGHT, text("oxygen.title"), said, *body, ink=ink, kind="curve")
