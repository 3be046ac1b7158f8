"""The water a plan's tank really holds, its surface and floor, and what it weighs."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot
from typing import TYPE_CHECKING, NamedTuple

from stockcheck.facts.contents import Body, bodies_of
from stockcheck.facts.model import Figure, Step, Steps, given
from stockcheck.language import say
from stockcheck.physics import structure, volume
from stockcheck.physics.quantity import Constant, Interval, propagate
from stockcheck.physics.volume import Box
from stockcheck.physics.water import DENSITY_A5, density
from stockcheck.plan.faults import Fault
from stockcheck.plan.model import Plan, Tank

if TYPE_CHECKING:
    from stockcheck.table.read import Table

#: Names of the uncertain inputs, as a reader of the report sees them.
_LENGTH, _WIDTH, _HEIGHT = say("length"), say("width"), say("height")
_MEASURED = say("measured volume")
_GLASS = say("glass thickness")
_GAP = say("water line below the rim")
_GEOMETRY = "geometry of a box"
_ROOM_TEMPERATURE = Constant(25.0, "degC", "common practice, no source: a tropical tank")
_LITRES_PER_M3 = Constant(1000.0, "L/m3", "definition")
_NAMES = {
    "gross_volume_l": (say("inside volume to the rim"), "L"),
    "geometry_volume_l": (say("water volume by geometry"), "L"),
    "net_volume_l": (say("net water volume"), "L"),
    "water_height_cm": (say("water height over the bottom pane"), "cm"),
    "floor_cm2": (say("floor"), "cm2"),
    "open_share": (say("share of the tank that bed and stones leave to swim in"), "1"),
    "surface_cm2": (say("water surface"), "cm2"),
    "filled_mass_kg": (say("mass of the filled tank, without its stand"), "kg"),
    "floor_load_kn_m2": (say("load on its own footprint"), "kN/m2"),
    "glass_safety_factor": (say("safety factor of the front pane"), "1"),
}


#: The step that says which water line would explain a measured volume.
WATER_LINE_STEP = say("explained by a water line below the rim of")


class Measured(NamedTuple):
    """Water that was measured while it went in."""

    litres: Interval
    step: Step


def measured_volume(tank: Tank) -> Measured | None:
    """The measured water volume: a figure of the keeper's own, else buckets, else a timed fill."""
    litres = tank.measured_l
    if litres is None:
        return None
    if tank.water_volume_l is not None:
        error, formula = volume.MEASURED_ERROR, say("{litres:g} L measured while filling", litres=litres)
    elif tank.buckets is not None:
        error, formula = (
            volume.BUCKET_ERROR,
            say("{count} buckets x {each:g} L", count=tank.buckets[0], each=tank.buckets[1]),
        )
    else:
        assert tank.fill is not None
        error, formula = (
            volume.TIMED_ERROR,
            say("{rate:g} L/min x {minutes:g} min", rate=tank.fill[0], minutes=tank.fill[1]),
        )
    return Measured(error.interval.scaled(litres), Step(_MEASURED, formula, litres, "L", error.source))


def volume_figures(plan: Plan, table: Table) -> dict[str, Figure]:
    """Net volume and what hangs on the vessel.

    A measured volume wins over geometry; where there are both, ``volume_difference_l`` says how far apart
    they are and what would explain it.  Without measures there are no floor, surface and mass.
    """
    tank = plan.tank
    measured = measured_volume(tank)
    if tank.length_cm is None or tank.width_cm is None or tank.height_cm is None:
        return {"net_volume_l": _measured_figure(measured)} if measured else {}
    bodies = bodies_of(tank, table)
    glass = glass_thickness(tank)
    inputs = {
        _LENGTH: _around(tank.length_cm, volume.TAPE_ERROR),
        _WIDTH: _around(tank.width_cm, volume.TAPE_ERROR),
        _HEIGHT: _around(tank.height_cm, volume.TAPE_ERROR),
        _GLASS: glass,
        _GAP: _around(tank.fill_gap_cm, volume.GAP_ERROR, least=0.0),
    }
    for body in bodies:
        inputs.update(body.inputs)
    if measured:
        inputs[_MEASURED] = measured.litres

    def model(x: Mapping[str, float]) -> dict[str, float]:
        return _vessel(tank, bodies, x)

    results, influences = propagate(model, inputs)
    point = {name: interval.value for name, interval in inputs.items()}
    steps = Steps(lambda: _steps(tank, bodies, point, measured))
    figures = {
        name: Figure(name, label, results[name], unit, influences[name], steps.of(name))
        for name, (label, unit) in _NAMES.items()
    }
    figures["glass_mm"] = Figure(
        "glass_mm", say("thickness of the panes"), glass, "mm", [], given([_glass_step(tank, glass)])
    )
    if measured:
        figures["net_volume_l"] = _measured_figure(measured)
        figures["volume_difference_l"] = _difference(
            tank, bodies, point, results["geometry_volume_l"], measured
        )
    return figures


def overfull(plan: Plan, table: Table, figures: Mapping[str, Figure]) -> Fault | None:
    """The fault of a tank that its bed and stones leave nothing to swim in; ``None`` where there is room."""
    left, height = figures.get("open_share"), figures.get("water_height_cm")
    if left is None or height is None or left.interval.value >= volume.LEAST_OPEN:
        return None
    tank, bodies = plan.tank, bodies_of(plan.tank, table)
    point = {name: each.value for body in bodies for name, each in body.inputs.items()}
    point[_GLASS] = glass_thickness(tank).value
    point |= {_LENGTH: tank.length_cm or 0.0, _WIDTH: tank.width_cm or 0.0, _HEIGHT: tank.height_cm or 0.0}
    box = _box(tank, point)
    there = volume.box_litres(box.length, box.width, height.interval.value)
    largest = max(bodies, key=lambda body: body.room(point, box))
    return Fault(
        plan.path,
        None,
        largest.where,
        say(
            "so much {largest_label} does not fit: as it lies it takes {room:.0f} L, and there are "
            "{there:.0f} L up to the water line",
            largest_label=largest.label,
            room=largest.room(point, box),
            there=there,
        ),
        say("Look at its depth, size or mass, and at the tank's measures."),
    )


def glass_thickness(tank: Tank) -> Interval:
    """Thickness of the panes, mm: as stated, else what such a tank is usually made of."""
    if tank.glass_mm is not None:
        return Interval.exact(tank.glass_mm)
    assert tank.length_cm and tank.height_cm
    return volume.GLASS_GUESS.interval.scaled(structure.usual_glass_mm(tank.length_cm, tank.height_cm))


def _around(value: float, error: Constant, least: float | None = None) -> Interval:
    low = value + error.low
    return Interval(low if least is None else max(least, low), value, value + error.high)


def _measured_figure(measured: Measured) -> Figure:
    return Figure("net_volume_l", _NAMES["net_volume_l"][0], measured.litres, "L", [], given([measured.step]))


def _box(tank: Tank, x: Mapping[str, float]) -> Box:
    if tank.measured == "inside":
        return Box(x[_LENGTH], x[_WIDTH], x[_HEIGHT])
    return volume.inside(x[_LENGTH], x[_WIDTH], x[_HEIGHT], x[_GLASS])


def _vessel(tank: Tank, bodies: list[Body], x: Mapping[str, float]) -> dict[str, float]:
    """Everything that follows from the measures, from one set of inputs."""
    box, glass, gap = _box(tank, x), x[_GLASS], x[_GAP]
    outer = volume.outside(box, glass)
    water_height = max(box.height - gap, 0.0)
    braced = tank.brace == "euro"
    brace = volume.brace_litres(box, glass, gap) if braced else 0.0
    open_water = box.floor_cm2 - (volume.brace_area_cm2(box) if brace > 0 else 0.0)
    displaced = sum(body.displaced(x, box) for body in bodies) + tank.equipment_l + brace
    column = volume.box_litres(box.length, box.width, water_height)
    geometry = max(column - displaced, volume.LEAST_LITRES)
    taken = sum([body.room(x, box) for body in bodies])
    net = x.get(_MEASURED, geometry)
    panes = volume.glass_litres(box, glass)
    strips = volume.brace_area_cm2(box) * glass / volume.MM_PER_CM / volume.CM3_PER_L if braced else 0.0
    mass = (
        net * density(_ROOM_TEMPERATURE) / _LITRES_PER_M3
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


def _glass_step(tank: Tank, glass: Interval) -> Step:
    if tank.glass_mm is not None:
        return Step(say("panes"), say("as stated"), glass.value, "mm", "the plan")
    source = say("{source}; next stock thickness", source=structure.SAFETY_FACTOR.source)
    return Step(say("panes"), say("not stated: usual for such a tank"), glass.value, "mm", source)


def _steps(
    tank: Tank, bodies: list[Body], x: Mapping[str, float], measured: Measured | None
) -> dict[str, list[Step]]:
    """The arithmetic of every figure at its middle value."""
    results = _vessel(tank, bodies, x)
    box = _box(tank, x)
    sides = f"{box.length:.1f} x {box.width:.1f}"
    sizes = f"{tank.length_cm:g} x {tank.width_cm:g} x {tank.height_cm:g} cm {tank.measured}"
    glass, gap, height = x[_GLASS], x[_GAP], results["water_height_cm"]
    panes = say(", panes of {glass:g} mm", glass=glass) if tank.measured == "outside" else ""
    rim = Step(
        say("inside box"),
        f"{sizes}{panes}: {sides} x {box.height:.1f} cm",
        results["gross_volume_l"],
        "L",
        _GEOMETRY,
    )
    line = Step(
        say("water height"),
        say("{height:.1f} cm - {gap:g} cm to the water line", height=box.height, gap=gap),
        height,
        "cm",
        "the plan",
    )
    floor = Step(say("floor"), f"{sides} cm", results["floor_cm2"], "cm2", _GEOMETRY)
    to_line = Step(
        say("box to the water line"),
        f"{sides} x {height:.1f} cm",
        volume.box_litres(box.length, box.width, height),
        "L",
        _GEOMETRY,
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
        say("open"), say("1 - all that / box to the water line"), results["open_share"], "1", _GEOMETRY
    )
    chain = [rim, line, to_line, *_displacement_steps(tank, bodies, x, box)]
    chain.append(
        Step(
            say("water"),
            say("box to the water line less all that"),
            results["geometry_volume_l"],
            "L",
            _GEOMETRY,
        )
    )
    net = measured.litres.value if measured else results["geometry_volume_l"]
    mass = results["filled_mass_kg"]
    weight = [
        Step(
            say("water"),
            say("{net:.0f} L at 25 °C", net=net),
            net * density(_ROOM_TEMPERATURE) / _LITRES_PER_M3,
            "kg",
            DENSITY_A5.source,
        ),
        *(
            Step(
                body.label,
                "dry" if body.bed_depth else say("as it lies there"),
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
        litres = volume.brace_litres(box, x[_GLASS], x[_GAP])
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


def _difference(
    tank: Tank, bodies: list[Body], x: dict[str, float], geometry: Interval, measured: Measured
) -> Figure:
    """Measured less geometric volume, and what each measure would have to be to explain it alone."""
    gap = measured.litres.value - geometry.value
    low = gap - hypot(measured.litres.value - measured.litres.low, geometry.high - geometry.value)
    high = gap + hypot(measured.litres.high - measured.litres.value, geometry.value - geometry.low)
    steps = [
        measured.step,
        Step(say("by geometry"), say("see geometry_volume_l"), geometry.value, "L", _GEOMETRY),
        Step(say("difference"), say("measured less geometry"), gap, "L", "arithmetic"),
    ]
    box = _box(tank, x)
    rise = gap * volume.CM3_PER_L / box.floor_cm2
    line = tank.fill_gap_cm - rise
    if line >= 0:
        steps.append(
            Step(
                WATER_LINE_STEP,
                f"{tank.fill_gap_cm:g} - {rise:.1f} cm",
                line,
                "cm",
                _GEOMETRY,
            )
        )
    for body in bodies:
        litres = body.displaced(x, box)
        scale = 1 - gap / litres if litres else -1.0
        if body.bed_depth and scale >= 0:
            text = say("its depths x {scale:.2f}, if all else holds", scale=scale)
            steps.append(
                Step(
                    say("explained by {body_label} that is thicker or thinner", body_label=body.label),
                    text,
                    scale,
                    "1",
                    _GEOMETRY,
                )
            )
    return Figure(
        "volume_difference_l",
        say("measured less geometric volume"),
        Interval(low, gap, high),
        "L",
        [],
        given(steps),
    )
