"""The water a plan's tank really holds, its surface and floor, and what it weighs."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot
from typing import TYPE_CHECKING

from stockcheck.facts.contents import Body, bodies_of
from stockcheck.facts.model import Figure, Step, Steps, given
from stockcheck.facts.volume_model import (
    GAP,
    GEOMETRY,
    GLASS,
    HEIGHT,
    LENGTH,
    MEASURED,
    WIDTH,
    Measured,
    box_of,
    vessel,
)
from stockcheck.facts.volume_steps import WATER_LINE_STEP, glass_step, volume_steps
from stockcheck.language import say
from stockcheck.physics import structure, volume
from stockcheck.physics.quantity import Constant, Interval, propagate
from stockcheck.plan.faults import Fault
from stockcheck.plan.model import Plan, Tank

if TYPE_CHECKING:
    from stockcheck.table.read import Table

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
    return Measured(error.interval.scaled(litres), Step(MEASURED, formula, litres, "L", error.source))


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
        LENGTH: _around(tank.length_cm, volume.TAPE_ERROR),
        WIDTH: _around(tank.width_cm, volume.TAPE_ERROR),
        HEIGHT: _around(tank.height_cm, volume.TAPE_ERROR),
        GLASS: glass,
        GAP: _around(tank.fill_gap_cm, volume.GAP_ERROR, least=0.0),
    }
    for body in bodies:
        inputs.update(body.inputs)
    if measured:
        inputs[MEASURED] = measured.litres

    def model(x: Mapping[str, float]) -> dict[str, float]:
        return vessel(tank, bodies, x)

    results, influences = propagate(model, inputs)
    point = {name: interval.value for name, interval in inputs.items()}
    steps = Steps(lambda: volume_steps(tank, bodies, point, measured))
    figures = {
        name: Figure(name, label, results[name], unit, influences[name], steps.of(name))
        for name, (label, unit) in _NAMES.items()
    }
    figures["glass_mm"] = Figure(
        "glass_mm", say("thickness of the panes"), glass, "mm", [], given([glass_step(tank, glass)])
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
    point[GLASS] = glass_thickness(tank).value
    point |= {LENGTH: tank.length_cm or 0.0, WIDTH: tank.width_cm or 0.0, HEIGHT: tank.height_cm or 0.0}
    box = box_of(tank, point)
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


def _difference(
    tank: Tank, bodies: list[Body], x: dict[str, float], geometry: Interval, measured: Measured
) -> Figure:
    """Measured less geometric volume, and what each measure would have to be to explain it alone."""
    gap = measured.litres.value - geometry.value
    low = gap - hypot(measured.litres.value - measured.litres.low, geometry.high - geometry.value)
    high = gap + hypot(measured.litres.high - measured.litres.value, geometry.value - geometry.low)
    steps = [
        measured.step,
        Step(say("by geometry"), say("see geometry_volume_l"), geometry.value, "L", GEOMETRY),
        Step(say("difference"), say("measured less geometry"), gap, "L", "arithmetic"),
    ]
    box = box_of(tank, x)
    rise = gap * volume.CM3_PER_L / box.floor_cm2
    line = tank.fill_gap_cm - rise
    if line >= 0:
        steps.append(
            Step(
                WATER_LINE_STEP,
                f"{tank.fill_gap_cm:g} - {rise:.1f} cm",
                line,
                "cm",
                GEOMETRY,
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
                    GEOMETRY,
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
