"""Where the nitrogen of the feed goes: ribbons as wide as the milligrams they carry."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from stockcheck.report.pictures.scale import plain
from stockcheck.report.pictures.svg import ON_PAGE, Ink, box, group, hatching, path, picture, words
from stockcheck.report.text_catalogue import text

WIDTH = 460.0
_LEFT, _BEND, _RIGHT = 128.0, 164.0, 264.0
_TALL = 150.0


class Stream(NamedTuple):
    """One way out: its words, mg of nitrogen a day, and whether the keeper must do it by hand."""

    label: str
    mg_per_day: float
    hatched: bool = False


def _ribbon(top: float, thick: float, to_top: float, colour: str, opacity: float) -> str:
    middle = (_BEND + _RIGHT) / 2
    return path(
        f"M{_BEND:.0f} {top:.1f}C{middle:.0f} {top:.1f} {middle:.0f} {to_top:.1f} {_RIGHT:.0f} {to_top:.1f}"
        f"V{to_top + thick:.1f}C{middle:.0f} {to_top + thick:.1f} {middle:.0f} {top + thick:.1f}"
        f" {_BEND:.0f} {top + thick:.1f}Z",
        fill=colour,
        fill_opacity=opacity,
    )


def nitrogen_flow(load_mg_per_day: float, streams: Sequence[Stream], ink: Ink = ON_PAGE) -> str:
    """Nitrogen from feed to where it ends.

    Parameters
    ----------
    load_mg_per_day : float
        Total ammonia nitrogen that the animals give off, mg/day.
    streams : sequence of Stream
        Where it goes; drawn in order from the top.
    """
    total = max(load_mg_per_day, sum(stream.mg_per_day for stream in streams), 1e-9)
    per_mg = _TALL / total
    apart = 34.0
    shown = [stream for stream in streams if stream.mg_per_day > 0]
    top = 24.0
    start = top + apart * (len(shown) - 1) / 2
    tall = load_mg_per_day * per_mg
    body = [
        words(0, start + tall / 2 - 12, text("flow.feed"), font_weight=600),
        words(0, start + tall / 2 + 4, text("flow.feed_when")),
        words(0, start + tall / 2 + 20, text("flow.per_day", mg=plain(load_mg_per_day, 0))),
        box(_LEFT, start, _BEND - _LEFT, tall, fill=ink.ink, fill_opacity=0.28),
    ]
    at, to = start, top
    for stream in shown:
        thick = max(stream.mg_per_day * per_mg, 1.0)
        body.append(_ribbon(at, thick, to, ink.accent, 0.55 if not stream.hatched else 0.25))
        body.append(box(_RIGHT, to, 8, thick, fill=ink.accent))
        if stream.hatched:
            body.append(hatching(_RIGHT, to, 8, thick, ink.ink, gap=4))
        body.append(words(_RIGHT + 16, to + thick / 2, stream.label, font_weight=600))
        body.append(
            words(_RIGHT + 16, to + thick / 2 + 15, text("flow.per_day", mg=plain(stream.mg_per_day, 0)))
        )
        at += thick
        to += thick + apart
    said = (
        text("flow.description", load=plain(load_mg_per_day, 0))
        + " "
        + ", ".join(f"{stream.label} {plain(stream.mg_per_day, 0)} mg" for stream in shown)
    )
    return picture(
        WIDTH, max(to, start + tall) + 8, text("flow.title"), said, group(*body), ink=ink, kind="flow"
    )
