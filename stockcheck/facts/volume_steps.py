"""The arithmetic of the volume figures with this plan's own numbers, each line with its source."""

from __future__ import annotations

from collections.abc import Mapping

from stockcheck.facts.contents import Body
from stockcheck.facts.model import Step
from stockcheck.facts.volume_model import (
    GAP,
    GEOMETRY,
    GLASS,
    LITRES_PER_M3,
    ROOM_TEMPERATURE,
    Measured,
    box_of,
    vessel,
)
from stockcheck.language import say
from stockcheck.physics import structure, volume
from stockcheck.physics.quantity import Interval
from stockcheck.physics.volume import Box
from stockcheck.physics.water import DENSITY_A5, density
from stockcheck.plan.model import Tank

#: The step that says which water line would explain a measured volume.
WATER_LINE_STEP = say("explained by a water line below the rim of")


def glass_step(tank: Tank, glass: Interval) -> Step:
    if tank.glass_mm is not None:
        return Step(say("panes"), say("as stated"), glass.value, "mm", "the plan")
    source = say("{source}; next stock thickness", source=structure.SAFETY_FACTOR.source)
    return Step(say("panes"), say("not stated: usual for such a tank"), glass.value, "mm", source)


def volume_steps(
    tank: Tank, bodies: list[Body], x: Mapping[str, float], measured: Measured | None
) -> dict[str, list[Step]]:
    """The arithmetic of every figure at its middle value."""
    results = vessel(tank, bodies, x)
    box = box_of(tank, x)
    sides = f"{box.length:.1f} x {box.width:.1f}"
    sizes = f"{tank.length_cm:g} x {tank.width_cm:g} x {tank.height_cm:g} cm {tank.measured}"
    glass, gap, height = x[GLASS], x[GAP], results["water_height_cm"]
    panes = say(", panes of {glass:g} mm", glass=glass) if tank.measured == "outside" else ""
    rim = Step(
        say("inside box"),
        f"{sizes}{panes}: {sides} x {box.height:.1f} cm",
        results["gross_volume_l"],
        "L",
        GEOMETRY,
    )
    line = Step(
        say("water height"),
        say("{height:.1f} cm - {gap:g} cm to the water line", height=box.height, gap=gap),
        height,
        "cm",
        "the plan",
    )
    floor = Step(say("floor"), f"{sides} cm", results["floor_cm2"], "cm2", GEOMETRY)
    to_line = Step(
        say("box to the water line"),
        f"{sides} x {height:.1f} cm",
        volume.box_litres(box.length, box.width, height),
        "L",
        GEOMETRY,
    )
    rooms = [
        Step(
            say("room for {body_label}", body_label=body.label),
            say("as it lies, its gaps counted"),
            body.room(x, box),
            "L",
            body.source,
        )
        for body in bodies
    ]
    open_share = Step(
        say("open"), say("1 - all that / box to the water line"), results["open_share"], "1", GEOMETRY
    )
    chain = [rim, line, to_line, *_displacement_steps(tank, bodies, x, box)]
    chain.append(
        Step(
            say("water"),
            say("box to the water line less all that"),
            results["geometry_volume_l"],
            "L",
            GEOMETRY,
        )
    )
    net = measured.litres.value if measured else results["geometry_volume_l"]
    mass = results["filled_mass_kg"]
    weight = [
        Step(
            say("water"),
            say("{net:.0f} L at 25 °C", net=net),
            net * density(ROOM_TEMPERATURE) / LITRES_PER_M3,
            "kg",
            DENSITY_A5.source,
        ),
        *(
            Step(
                body.label,
                say("dry") if body.bed_depth else say("as it lies there"),
                body.mass_kg(x, box),
                "kg",
                body.source,
            )
            for body in bodies
        ),
        Step(
            say("filled"),
            say("water, panes of glass at 2.5 kg/L, and all that"),
            mass,
            "kg",
            structure.GLASS_DENSITY.source,
        ),
    ]
    outer = volume.outside(box, glass)
    load = Step(
        say("load"),
        f"{mass:.0f} kg x 9.81 m/s2 / ({outer.length:.0f} x {outer.width:.0f} cm)",
        results["floor_load_kn_m2"],
        "kN/m2",
        structure.GRAVITY.source,
    )
    compare = Step(
        say("dwelling floor"),
        say("what such a floor carries spread over the room"),
        structure.FLOOR_A,
        "kN/m2",
        structure.FLOOR_A.source,
    )
    strength = Step(
        say("safety factor"),
        say(
            "19.2 N/mm2 x ({glass:g} mm)2 / bending of {length:.0f} cm under {height:.1f} cm of water",
            glass=glass,
            length=outer.length,
            height=height,
        ),
        results["glass_safety_factor"],
        "1",
        structure.SAFETY_FACTOR.source,
    )
    return {
        "gross_volume_l": [rim],
        "geometry_volume_l": chain,
        "net_volume_l": chain,
        "water_height_cm": [line],
        "floor_cm2": [floor],
        "open_share": [to_line, *rooms, open_share],
        "surface_cm2": [floor],
        "filled_mass_kg": weight,
        "floor_load_kn_m2": [*weight, load, compare],
        "glass_safety_factor": [strength],
    }


def _displacement_steps(tank: Tank, bodies: list[Body], x: Mapping[str, float], box: Box) -> list[Step]:
    steps = [
        Step(
            say("displaced by {body_label}", body_label=body.label),
            body.formula(x, box),
            body.displaced(x, box),
            "L",
            body.source,
        )
        for body in bodies
    ]
    if tank.equipment_l:
        steps.append(Step(say("displaced by equipment"), say("as stated"), tank.equipment_l, "L", "the plan"))
    if tank.brace == "euro":
        litres = volume.brace_litres(box, x[GLASS], x[GAP])
        steps.append(
            Step(
                say("displaced by the brace"),
                say("strips of 5 cm, as far as they dip in"),
                litres,
                "L",
                volume.BRACE_WIDTH.source,
            )
        )
    return steps
