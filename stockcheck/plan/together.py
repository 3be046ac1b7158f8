"""Faults that no key shows alone: keys that contradict one another, or that need one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from stockcheck.language import say
from stockcheck.plan.model import Plan, Tank

_CM3_PER_L = 1000.0  # definition of the litre
_SURELY_TOO_MUCH = 1.1  # a tape and a bucket together are not that far out

Conflict = tuple[str, str, str]  # key, problem, remedy


def conflicts(plan: Plan, document: Mapping[str, Any]) -> Iterator[Conflict]:
    """Key, problem and remedy of each; ``document`` tells what was written from what is a default."""
    yield from _tank(plan, document)
    yield from _heat(plan)
    yield from _pieces(document)
    yield from _animals(plan, document)


def _tank(plan: Plan, document: Mapping[str, Any]) -> Iterator[Conflict]:
    written = document.get("tank")
    if not isinstance(written, Mapping):
        return
    tank = plan.tank
    measures = [name for name in ("length", "width", "height") if name in written]
    measured = any(name in written for name in ("water_volume", "buckets", "fill"))
    missing = [name for name in ("length", "width", "height") if name not in written]
    if missing and (measures or not measured):
        yield (
            "tank",
            say(
                "{measures} {is_are} missing",
                measures=" and ".join(missing),
                is_are="is" if len(missing) == 1 else "are",
            ),
            say('Give length, width and height, or how much water it holds: water_volume = "187 L".'),
        )
    if tank.height_cm is not None and tank.fill_gap_cm >= tank.height_cm:
        yield (
            "tank.fill_gap",
            say("the water line is below the bottom"),
            say("fill_gap is the distance from the rim down."),
        )
    yield from _more_than_it_holds(tank, written)
    walls = 2 * (tank.glass_mm or 0) / 10
    shortest = min((x for x in (tank.length_cm, tank.width_cm) if x is not None), default=None)
    if tank.measured == "outside" and shortest is not None and walls >= shortest:
        yield (
            "tank.glass",
            say("the glass is thicker than the tank"),
            say("glass is the thickness of one pane."),
        )
    for layer in tank.substrate:
        deepest = max(layer.front_cm, layer.back_cm, layer.middle_cm or 0)
        if tank.height_cm is not None and deepest >= tank.height_cm:
            yield (
                layer.where,
                say("the substrate is deeper than the tank is high"),
                say("Look at its depths."),
            )
        if layer.wall_cm is not None and tank.width_cm is not None and layer.wall_cm >= tank.width_cm:
            yield (
                f"{layer.where}.wall",
                say("the wall stands behind the tank"),
                say("wall is its distance from the front."),
            )


def _more_than_it_holds(tank: Tank, written: Mapping[str, Any]) -> Iterator[Conflict]:
    """Water that was measured while filling, against the whole box: to the rim, panes and all."""
    poured = tank.measured_l
    if poured is None or tank.length_cm is None or tank.width_cm is None or tank.height_cm is None:
        return
    box = tank.length_cm * tank.width_cm * tank.height_cm / _CM3_PER_L
    if poured > box * _SURELY_TOO_MUCH:
        key = next(name for name in ("water_volume", "buckets", "fill") if name in written)
        yield (
            f"tank.{key}",
            say("{poured:.0f} L of water do not go into a box of {box:.0f} L", poured=poured, box=box),
            say("Look at what was measured, and at length, width and height."),
        )


def _heat(plan: Plan) -> Iterator[Conflict]:
    room = plan.room
    if room.low_c is not None and room.high_c is not None and room.low_c > room.high_c:
        yield (
            "room.low",
            say("the room's low is above its high"),
            say("low is the coldest it gets, high the warmest."),
        )


def _pieces(document: Mapping[str, Any]) -> Iterator[Conflict]:
    """Pieces and media of no amount; one whose amount was refused has its fault already."""
    for number, piece in enumerate(_entries(document, "hardscape"), 1):
        if not piece.keys() & {"mass", "size"}:
            yield (
                f"hardscape[{number}]",
                say("neither mass nor size is given"),
                say('Add mass = "3 kg", or size = ["20 cm", "12 cm", "10 cm"].'),
            )
    for number, media in enumerate(_entries(document.get("filter"), "media"), 1):
        if not media.keys() & {"mass", "volume"}:
            yield (
                f"filter.media[{number}]",
                say("neither volume nor mass is given"),
                say('Add volume = "1.5 L", or mass.'),
            )


def _entries(section: Any, name: str) -> list[Mapping[str, Any]]:
    """The tables of a list as written; none where it is no such list, which is a fault of its own."""
    tables = section.get(name) if isinstance(section, Mapping) else None
    if not isinstance(tables, list) or not all(isinstance(table, Mapping) for table in tables):
        return []
    return tables


def _animals(plan: Plan, document: Mapping[str, Any]) -> Iterator[Conflict]:
    written = document.get("animals", [])
    for animals in plan.animals:
        entry = written[int(animals.where.partition("[")[2].rstrip("]")) - 1]
        sexed = "males" in entry or "females" in entry
        if "count" in entry and sexed:
            yield (
                f"{animals.where}.count",
                say("count stands beside males or females"),
                say("Count is for animals whose sex is unknown; list sexed and unsexed ones as two entries."),
            )
        elif "count" not in entry and not sexed:
            yield (
                animals.where,
                say("how many is missing"),
                say("Add count = 6, or males = 2 and females = 4."),
            )
        elif sexed and not animals.total and {entry.get("males", 0), entry.get("females", 0)} == {0}:
            yield (
                animals.where,
                say("there are no animals in it"),
                say("Write how many, or take the entry out."),
            )
    cover = sum(plants.cover for plants in plan.plants)
    if cover > 2:
        yield (
            "plants",
            say("the plants cover {cover:.0%} of the floor", cover=cover),
            say("cover is each kind's share of the floor."),
        )
