"""What lies in the tank's water: beds of substrate, rock and wood; what each displaces and weighs."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, NamedTuple

from stockcheck.language import say
from stockcheck.physics import volume
from stockcheck.physics.quantity import Interval
from stockcheck.physics.volume import Box
from stockcheck.plan.model import Substrate, Tank

if TYPE_CHECKING:
    from stockcheck.table.model import Material
    from stockcheck.table.read import Table


class Body(NamedTuple):
    """A layer of substrate or a load of hardscape: how it displaces water, what it weighs, and in words.

    ``room`` is what it takes of the space to swim, L: a bed with the water in it, stones as a heap.
    """

    where: str  # in the plan: hardscape[1]
    label: str
    bed_depth: str | None  # the input that is its depth, where it is a bed
    inputs: dict[str, Interval]
    displaced: Callable[[Mapping[str, float], Box], float]
    room: Callable[[Mapping[str, float], Box], float]
    mass_kg: Callable[[Mapping[str, float], Box], float]
    formula: Callable[[Mapping[str, float], Box], str]
    source: str


def bodies_of(tank: Tank, table: Table) -> list[Body]:
    """The beds and stones of a plan whose kinds the table knows."""
    bodies: list[Body] = []
    for number, layer in enumerate(tank.substrate, 1):
        material = table.material("substrates", layer.kind)
        if material:
            twice = sum(other.kind == layer.kind for other in tank.substrate) > 1
            label = f"{layer.kind} {number}" if twice else layer.kind
            bodies.append(_layer(f"substrate[{number}]", layer, material, label))
    for number, piece in enumerate(tank.hardscape, 1):
        material = table.material("rocks", piece.kind)
        if material is None:
            continue
        twice = sum(other.kind == piece.kind for other in tank.hardscape) > 1
        label, where = f"{piece.kind} {number}" if twice else piece.kind, f"hardscape[{number}]"
        if piece.mass_kg is not None:
            bodies.append(_weighed(where, piece.mass_kg, material, label))
        elif piece.size_cm is not None:
            bodies.append(_sized(where, piece.size_cm, piece.count, material, label))
    return bodies


def property_source(material: Material, name: str) -> str:
    """Where one property of a material comes from, out of the sources of them all."""
    found = re.search(rf"(?:^|; ){name}: (.*?)(?=; \w+: |$)", material.source)
    return found[1] if found else material.source


def _layer(where: str, layer: Substrate, material: Material, label: str) -> Body:
    depth, share, bulk = (
        say("depth of the {label}", label=label),
        say("solid share of the {label}", label=label),
        say("density of the {label}", label=label),
    )

    def litres(x: Mapping[str, float], box: Box) -> float:
        front, back = layer.front_cm * x[depth], layer.back_cm * x[depth]
        middle = None if layer.middle_cm is None else layer.middle_cm * x[depth]
        return volume.bed_litres(box, front, back, middle, layer.wall_cm)

    def formula(x: Mapping[str, float], box: Box) -> str:
        middle = "" if layer.middle_cm is None else say(", {middle_cm:g} half way", middle_cm=layer.middle_cm)
        wall = (
            ""
            if layer.wall_cm is None
            else say(", a terrace behind a wall at {wall_cm:g} cm", wall_cm=layer.wall_cm)
        )
        depths = say(
            "{front_cm:g} cm in front{middle}, {back_cm:g} behind{wall}",
            front_cm=layer.front_cm,
            middle=middle,
            back_cm=layer.back_cm,
            wall=wall,
        )
        return say(
            "{litres:.1f} L of bed ({depths}) x {solid:.2f} solid",
            litres=litres(x, box),
            depths=depths,
            solid=x[share],
        )

    return Body(
        where=where,
        label=label,
        bed_depth=depth,
        inputs={
            depth: volume.DEPTH_ERROR.interval,
            share: Interval(*material.properties["displaced_share"]),
            bulk: Interval(*material.properties["bulk_density_kg_l"]),
        },
        displaced=lambda x, box: litres(x, box) * x[share],
        room=litres,
        mass_kg=lambda x, box: litres(x, box) * x[bulk],
        formula=formula,
        source=property_source(material, "displaced_share"),
    )


def _weighed(where: str, mass_kg: float, material: Material, label: str) -> Body:
    mass, bulk, pores = (
        say("mass of the {label}", label=label),
        say("density of the {label}", label=label),
        say("porosity of the {label}", label=label),
    )
    return Body(
        where=where,
        label=label,
        bed_depth=None,
        inputs={
            mass: volume.STONE_MASS_ERROR.interval.scaled(mass_kg),
            bulk: Interval(*material.properties["density_kg_l"]),
            pores: Interval(*material.properties["porosity"]),
        },
        displaced=lambda x, box: x[mass] / x[bulk] * (1 - x[pores]),
        room=lambda x, box: volume.heap_litres(x[mass] / x[bulk]),
        mass_kg=lambda x, box: x[mass],
        formula=lambda x, box: say(
            "{mass:g} kg / {density:.2f} kg/L x (1 - {pores:.2f} pores)",
            mass=x[mass],
            density=x[bulk],
            pores=x[pores],
        ),
        source=property_source(material, "density_kg_l"),
    )


def _sized(
    where: str, size_cm: tuple[float, float, float], count: int, material: Material, label: str
) -> Body:
    fills, bulk, pores = (
        say("share of its box the {label} fills", label=label),
        say("density of the {label}", label=label),
        say("porosity of the {label}", label=label),
    )
    around = " x ".join(f"{side:g}" for side in size_cm)

    def litres(x: Mapping[str, float]) -> float:
        return count * volume.stone_litres(size_cm, x[fills])

    return Body(
        where=where,
        label=label,
        bed_depth=None,
        inputs={
            fills: Interval(*material.properties["box_share"]),
            bulk: Interval(*material.properties["density_kg_l"]),
            pores: Interval(*material.properties["porosity"]),
        },
        displaced=lambda x, box: litres(x) * (1 - x[pores]),
        room=lambda x, box: volume.heap_litres(litres(x)),
        mass_kg=lambda x, box: litres(x) * x[bulk],
        formula=lambda x, box: say(
            "{count} x {around} cm x {fills:.2f} of the box x (1 - {pores:.2f} pores)",
            count=count,
            around=around,
            fills=x[fills],
            pores=x[pores],
        ),
        source=property_source(material, "box_share"),
    )
