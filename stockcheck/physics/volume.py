"""How much water a tank really holds: the inside box to the water line, less what lies in it.

Lengths are cm, volumes litres, masses kg.
"""

from __future__ import annotations

from typing import NamedTuple

from stockcheck.physics.quantity import Constant

CM3_PER_L = Constant(1000.0, "cm3/L", "definition of the litre")
MM_PER_CM = Constant(10.0, "mm/cm", "definition")

_PRACTICE = "common practice, no source"
#: How well a keeper's own figures are usually known: a factor, or a length more or less.
MEASURED_ERROR = Constant(1.0, "1", _PRACTICE, 0.97, 1.03)
BUCKET_ERROR = Constant(1.0, "1", _PRACTICE, 0.95, 1.05)
TIMED_ERROR = Constant(1.0, "1", _PRACTICE, 0.93, 1.07)
TAPE_ERROR = Constant(0.0, "cm", _PRACTICE, -0.3, 0.3)
GAP_ERROR = Constant(0.0, "cm", _PRACTICE, -0.7, 0.7)
DEPTH_ERROR = Constant(1.0, "1", _PRACTICE, 0.85, 1.15)
GLASS_GUESS = Constant(1.0, "1", _PRACTICE, 0.75, 1.25)
STONE_MASS_ERROR = Constant(1.0, "1", _PRACTICE, 0.9, 1.1)
#: No tank is smaller; they keep absurd measures from dividing by nothing.
LEAST_LENGTH = Constant(0.5, "cm", "numerical floor")
LEAST_AREA = Constant(1.0, "cm2", "numerical floor")
#: Stones heaped as tight as they go leave the rest to the water between them.
HEAPED_SHARE = Constant(0.64, "1", "from memory: Scott & Kilgour 1969, packed spheres", 0.6, 0.75)
LEAST_OPEN = Constant(0.05, "1", "common practice, no source: share to swim in below which it is no tank")
LEAST_LITRES = Constant(0.1, "L", "numerical floor")
BRACE_WIDTH = Constant(5.0, "cm", _PRACTICE, 4.0, 7.0)


class Box(NamedTuple):
    """The inside of a tank, cm."""

    length: float
    width: float
    height: float

    @property
    def floor_cm2(self) -> float:
        return self.length * self.width


def inside(length_cm: float, width_cm: float, height_cm: float, glass_mm: float) -> Box:
    """The inside box of outside measures: two panes less each way, one bottom pane less in height."""
    glass = glass_mm / MM_PER_CM
    sides = (length_cm - 2 * glass, width_cm - 2 * glass, height_cm - glass)
    return Box(*(max(side, LEAST_LENGTH) for side in sides))


def outside(box: Box, glass_mm: float) -> Box:
    """The outside measures of an inside box."""
    glass = glass_mm / MM_PER_CM
    return Box(box.length + 2 * glass, box.width + 2 * glass, box.height + glass)


def box_litres(length_cm: float, width_cm: float, height_cm: float) -> float:
    """Volume of a box, L."""
    return length_cm * width_cm * height_cm / CM3_PER_L


def bed_litres(
    box: Box, front_cm: float, back_cm: float, middle_cm: float | None = None, wall_cm: float | None = None
) -> float:
    """Bulk volume of a substrate bed, grains and the water between them, L.

    Without a wall the surface runs straight from the front glass to the middle and on to the back.  With a
    retaining wall ``wall_cm`` behind the front glass the bed in front of it runs from ``front_cm`` to
    ``middle_cm`` at the wall's foot (level where no middle is given), and the terrace behind is ``back_cm``
    deep throughout.
    """
    if wall_cm is not None:
        foot = front_cm if middle_cm is None else middle_cm
        reach = min(max(wall_cm, 0.0), box.width)
        profile = reach * (front_cm + foot) / 2 + (box.width - reach) * back_cm
    elif middle_cm is None:
        profile = box.width * (front_cm + back_cm) / 2
    else:
        profile = box.width * (front_cm + 2 * middle_cm + back_cm) / 2 / 2
    return box.length * profile / CM3_PER_L


def brace_litres(box: Box, glass_mm: float, fill_gap_cm: float, strip_cm: float = BRACE_WIDTH) -> float:
    """Water pushed aside by glass strips along the rim, L: none while the water stays below them."""
    dipped = max(0.0, glass_mm / MM_PER_CM - fill_gap_cm)
    return brace_area_cm2(box, strip_cm) * dipped / CM3_PER_L


def brace_area_cm2(box: Box, strip_cm: float = BRACE_WIDTH) -> float:
    """Area of the strips along all four edges of the rim, cm2."""
    open_length = max(0.0, box.length - 2 * strip_cm)
    open_width = max(0.0, box.width - 2 * strip_cm)
    return box.floor_cm2 - open_length * open_width


def glass_litres(box: Box, glass_mm: float) -> float:
    """Volume of the five panes, L."""
    outer = outside(box, glass_mm)
    return box_litres(*outer) - box_litres(*box)


def heap_litres(stone_litres: float) -> float:
    """Room that a heap of loose stones takes, the gaps in it counted, L."""
    return stone_litres / HEAPED_SHARE


def stone_litres(size_cm: tuple[float, float, float], share: float) -> float:
    """Bulk volume of a stone from the size of the box around it and the share of the box that it fills, L."""
    return box_litres(*size_cm) * share
