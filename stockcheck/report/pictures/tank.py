"""The tank seen from the front, to scale: substrate, plants, and the animals in the zones they live in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockcheck.report.pictures.creatures import silhouette
from stockcheck.report.pictures.scale import plain
from stockcheck.report.pictures.svg import ON_PAGE, Ink, group, line, path, picture, words
from stockcheck.report.text_catalogue import term, text

WIDTH = 620.0
_MARGIN = 14.0
_MOST_DRAWN = 60
#: The golden ratio's fraction spreads points evenly however many there are.
_GOLDEN = 0.6180339887


@dataclass(frozen=True, slots=True)
class Swimmer:
    """A group of animals as drawn: how many, how long (mm), where they live."""

    name: str
    count: int
    length_mm: float
    kind: str
    shape: str
    zones: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TankShape:
    """Inside of the tank in cm; ``cover`` is the share of the floor under plants (0 to 1)."""

    length_cm: float
    height_cm: float
    fill_gap_cm: float
    substrate_front_cm: float
    substrate_back_cm: float
    lid: bool
    cover: float = 0.0
    floating: float = 0.0


def _zone_span(zones: tuple[str, ...]) -> tuple[float, float]:
    """The part of the open water that a group uses, 0 at the surface and 1 at the substrate."""
    spans = {
        "surface": (0.02, 0.14),
        "upper": (0.06, 0.34),
        "middle": (0.34, 0.66),
        "lower": (0.6, 0.88),
        "bottom": (0.88, 0.99),
    }
    used = [spans[zone] for zone in zones if zone in spans] or [(0.04, 0.95)]
    return min(top for top, _ in used), max(bottom for _, bottom in used)


def _plants(shape: TankShape, left: float, width: float, floor: float, water: float, ink: Ink) -> str:
    """Tufts on the substrate, more of them the more of the floor they cover; rosettes on the surface."""
    blades = []
    for n in range(round(shape.cover * 22)):
        root = left + 10 + (width - 20) * ((0.13 + n * _GOLDEN) % 1)
        tall = (floor - water) * (0.22 + 0.5 * ((n * 0.37) % 1))
        for k in range(5):
            sway = (k - 2) * tall * 0.16 + 6 * (((n + k) * 0.53) % 1 - 0.5)
            reach = tall * (1 - 0.09 * abs(k - 2))
            blades.append(
                f"M{root - 2:.1f} {floor:.1f}Q{root + sway * 0.1:.1f} {floor - reach * 0.6:.1f}"
                f" {root + sway:.1f} {floor - reach:.1f}"
                f"Q{root + sway * 0.3 + 3:.1f} {floor - reach * 0.5:.1f}"
                f" {root + 2:.1f} {floor:.1f}Z"
            )
    for n in range(round(shape.floating * 24)):
        x = left + 12 + (width - 24) * ((0.4 + n * _GOLDEN) % 1)
        blades.append(f"M{x - 9:.1f} {water:.1f}q9 -6 18 0zM{x - 1:.1f} {water:.1f}v12h1v-12z")
    return path("".join(blades), fill=ink.ink, fill_opacity=0.22) if blades else ""


def tank_view(shape: TankShape, swimmers: Sequence[Swimmer], ink: Ink = ON_PAGE) -> str:
    """The tank from the front with every animal at adult size (a crowd is thinned beyond sixty)."""
    scale = (WIDTH - 2 * _MARGIN) / shape.length_cm
    scale = min(scale, 360 / shape.height_cm)
    width, tall = shape.length_cm * scale, shape.height_cm * scale
    left, top = (WIDTH - width) / 2, 26.0
    bottom = top + tall
    water = top + shape.fill_gap_cm * scale
    front = bottom - shape.substrate_front_cm * scale
    back = bottom - shape.substrate_back_cm * scale
    floor = min(front, back)
    total = sum(swimmer.count for swimmer in swimmers)
    share = min(1.0, _MOST_DRAWN / total) if total else 1.0
    animals = []
    for index, swimmer in enumerate(swimmers):
        high, low = _zone_span(swimmer.zones)
        long = swimmer.length_mm / 10 * scale
        drawn = max(1, round(swimmer.count * share))
        for n in range(drawn):
            x = left + 4 + max(width - long - 8, 0) * ((0.31 * index + 0.17 + n * _GOLDEN) % 1)
            depth = high + (low - high) * ((0.11 + n * 0.7548776662) % 1)
            y = water + (floor - water) * depth
            half = long * (0.45 if swimmer.shape == "short-deep" else 0.24)
            y = max(min(y, floor - long * 0.08), water + half)
            facing = group(silhouette(x, y, long, swimmer.kind, swimmer.shape))
            if n % 3 == 1:
                facing = group(facing, transform=f"matrix(-1 0 0 1 {2 * x + long:.1f} 0)")
            animals.append(facing)
    rim = (
        line(left - 4, top - 4, left + width + 4, top - 4, stroke=ink.ink, stroke_width=4)
        if shape.lid
        else ""
    )
    body = [
        path(
            f"M{left:.1f} {back:.1f}H{left + width:.1f}V{bottom:.1f}H{left:.1f}Z",
            fill=ink.ink,
            fill_opacity=0.1,
        ),
        path(
            f"M{left:.1f} {front:.1f}H{left + width:.1f}V{bottom:.1f}H{left:.1f}Z",
            fill=ink.ink,
            fill_opacity=0.22,
        ),
        _plants(shape, left, width, floor, water, ink),
        group(*animals, fill=ink.accent, stroke=ink.accent, stroke_width=0.6),
        line(left, water, left + width, water, stroke=ink.accent, stroke_width=1.5),
        path(
            f"M{left:.1f} {top:.1f}V{bottom:.1f}H{left + width:.1f}V{top:.1f}",
            fill="none",
            stroke=ink.ink,
            stroke_width=2.5,
        ),
        rim,
        words(
            left + width / 2,
            bottom + 18,
            text("tank.measures", length=plain(shape.length_cm), height=plain(shape.height_cm)),
            text_anchor="middle",
        ),
    ]
    listed = "; ".join(
        text(
            "tank.swimmer",
            count=swimmer.count,
            name=swimmer.name,
            length=plain(swimmer.length_mm / 10),
            zone=", ".join(term("zone", zone) for zone in swimmer.zones) or term("zone", "all"),
        )
        for swimmer in swimmers
    )
    return picture(
        WIDTH,
        bottom + 28,
        text("tank.title"),
        text("tank.description", length=plain(shape.length_cm), height=plain(shape.height_cm)) + " " + listed,
        *body,
        ink=ink,
        kind="tank",
    )
