"""The vessel as a pure function of its uncertain inputs: inside box, water, weight, load, strength."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from stockcheck.facts.contents import Body
from stockcheck.facts.model import Step
from stockcheck.language import say
from stockcheck.physics import structure, volume
from stockcheck.physics.quantity import Constant, Interval
from stockcheck.physics.volume import Box
from stockcheck.physics.water import density
from stockcheck.plan.model import Tank

#: Names of the uncertain inputs, as a reader of the report sees them.
LENGTH, WIDTH, HEIGHT = say("length"), say("width"), say("height")
MEASURED = say("measured volume")
GLASS = say("glass thickness")
GAP = say("water line below the rim")
GEOMETRY = "geometry of a box"
ROOM_TEMPERATURE = Constant(25.0, "degC", "common practice, no source: a tropical tank")
LITRES_PER_M3 = Constant(1000.0, "L/m3", "definition")


class Measured(NamedTuple):
    """Water that was measured while it went in."""

    litres: Interval
    step: Step


def box_of(tank: Tank, x: Mapping[str, float]) -> Box:
    if tank.measured == "inside":
        return Box(x[LENGTH], x[WIDTH], x[HEIGHT])
    return volume.inside(x[LENGTH], x[WIDTH], x[HEIGHT], x[GLASS])


def vessel(tank: Tank, bodies: list[Body], x: Mapping[str, float]) -> dict[str, float]:
    """Everything that follows from the measures, from one set of inputs."""
    box, glass, gap = box_of(tank, x), x[GLASS], x[GAP]
    outer = volume.outside(box, glass)
    water_height = max(box.height - gap, 0.0)
    braced = tank.brace == "euro"
    brace = volume.brace_litres(box, glass, gap) if braced else 0.0
    open_water = box.floor_cm2 - (volume.brace_area_cm2(box) if brace > 0 else 0.0)
    displaced = sum(body.displaced(x, box) for body in bodies) + tank.equipment_l + brace
    column = volume.box_litres(box.length, box.width, water_height)
    geometry = max(column - displaced, volume.LEAST_LITRES)
    taken = sum([body.room(x, box) for body in bodies])
    net = x.get(MEASURED, geometry)
    panes = volume.glass_litres(box, glass)
    strips = volume.brace_area_cm2(box) * glass / volume.MM_PER_CM / volume.CM3_PER_L if braced else 0.0
    mass = (
        net * density(ROOM_TEMPERATURE) / LITRES_PER_M3
        + (panes + strips) * structure.GLASS_DENSITY
        + sum(body.mass_kg(x, box) for body in bodies)
    )
    load = structure.floor_load(mass, outer.floor_cm2)
    return {
        "gross_volume_l": volume.box_litres(*box),
        "geometry_volume_l": geometry,
        "net_volume_l": net,
        "water_height_cm": water_height,
        "floor_cm2": box.floor_cm2,
        "open_share": 1 - taken / column if column > 0 else 0.0,
        "surface_cm2": max(open_water, volume.LEAST_AREA),
        "filled_mass_kg": mass,
        "floor_load_kn_m2": load,
        "glass_safety_factor": structure.pane_safety_factor(glass, outer.length, max(water_height, 1.0)),
    }
