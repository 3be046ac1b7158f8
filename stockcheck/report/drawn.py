"""The pictures of a report: each from its facts, and left out where what it needs is not known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stockcheck.physics.oxygen import GUIDELINE
from stockcheck.report.pictures.curves import nitrate_sawtooth, oxygen_night
from stockcheck.report.pictures.fields import WATER_FIELDS
from stockcheck.report.pictures.flow import Stream, nitrogen_flow
from stockcheck.report.pictures.marks import headroom_rule
from stockcheck.report.pictures.overlap import Chart, Dial, overlap_panel, overlap_sheet
from stockcheck.report.pictures.tank import Swimmer, TankShape, tank_view
from stockcheck.report.text_catalogue import text
from stockcheck.rules.bands import Taxon, name_of

if TYPE_CHECKING:
    from stockcheck.check import Report
    from stockcheck.facts.model import Facts
    from stockcheck.physics.quantity import Interval

HOURS_PER_DAY = 24.0


def draw(report: Report) -> dict[str, str]:
    """Every picture that the report's facts allow, by name: bands (wide), bands_narrow, tank, flow ..."""
    facts = report.facts
    chart = _chart(report)
    drawn = {
        "headroom": headroom_rule(
            {axis: value for axis, value in report.headroom.items() if value is not None}
        ),
        "bands": overlap_sheet(chart, WATER_FIELDS) if chart.taxa else "",
        "bands_narrow": "".join(overlap_panel(chart, field) for field in WATER_FIELDS) if chart.taxa else "",
        "tank": _tank(facts),
        "flow": _flow(facts),
        "nitrate": _nitrate(facts),
        "oxygen": _oxygen(facts),
    }
    return {name: svg for name, svg in drawn.items() if svg}


def _chart(report: Report) -> Chart:
    facts = report.facts
    taxa: list[Taxon] = [group.species for group in facts.groups]
    taxa += [planting.species for planting in facts.plantings]
    dial = None
    if report.setpoint.value_c is not None:
        dial = Dial(report.setpoint.value_c, report.setpoint.swing_c)
    return Chart(list({taxon.slug: taxon for taxon in taxa}.values()), dial, own_water(facts))


def own_water(facts: Facts) -> dict[str, tuple[float, float]]:
    """The plan's own water by field; the temperature as the heater or the room has it."""
    plan = facts.plan
    own = {
        name: (value, value)
        for name, value in (
            ("pH", plan.water.pH),
            ("GH", plan.water.GH_dgh),
            ("KH", plan.water.KH_dkh),
            ("temperature", plan.heater.setpoint_c if plan.heater else None),
        )
        if value is not None
    }
    if plan.heater is None and plan.room.low_c is not None and plan.room.high_c is not None:
        own["temperature"] = (plan.room.low_c, plan.room.high_c)
    return own


def _interval(facts: Facts, name: str) -> Interval | None:
    figure = facts.figures.get(name)
    return figure.interval if figure else None


def _tank(facts: Facts) -> str:
    tank = facts.plan.tank
    if tank.length_cm is None or tank.height_cm is None:
        return ""
    glass_cm = 0.0
    if tank.measured == "outside":
        known = _interval(facts, "glass_mm")
        glass_cm = known.value / 10 if known else (tank.glass_mm or 0.0) / 10
    rooted = [p for p in facts.plantings if p.species.habit != "floating"]
    floating = [p for p in facts.plantings if p.species.habit == "floating"]
    shape = TankShape(
        tank.length_cm - 2 * glass_cm,
        tank.height_cm - glass_cm,
        tank.fill_gap_cm,
        max((layer.front_cm for layer in tank.substrate), default=0.0),
        max((layer.back_cm for layer in tank.substrate), default=0.0),
        tank.lid,
        min(sum(p.entry.cover for p in rooted), 1.0),
        min(sum(p.entry.cover for p in floating), 1.0),
    )
    swimmers = [
        Swimmer(
            name_of(group.species),
            group.count,
            group.length_mm.value,
            group.species.kind,
            group.species.body_shape,
            group.species.zone,
        )
        for group in facts.groups
        if group.length_mm is not None and group.count
    ]
    return tank_view(shape, swimmers)


def _flow(facts: Facts) -> str:
    released, plants = (
        _interval(facts, "nitrogen_released_mg_per_day"),
        _interval(facts, "plant_uptake_mg_per_day"),
    )
    if released is None or released.value <= 0:
        return ""
    taken = min(plants.value if plants else 0.0, released.value)
    rest = "flow_out.change" if facts.plan.routine.water_change > 0 else "flow_out.stays"
    streams = [
        Stream(text("flow_out.plants"), taken),
        Stream(text(rest), released.value - taken, hatched=True),
    ]
    return nitrogen_flow(released.value, streams)


def _nitrate(facts: Facts) -> str:
    peak, trough = _interval(facts, "nitrate_mg_per_l"), _interval(facts, "nitrate_trough_mg_per_l")
    routine = facts.plan.routine
    if peak is None or trough is None or routine.water_change <= 0:
        return ""
    return nitrate_sawtooth(trough, peak, routine.every_days, facts.plan.tap.nitrate_mg_l)


def _oxygen(facts: Facts) -> str:
    evening, dawn = _interval(facts, "oxygen_evening_mg_per_l"), _interval(facts, "oxygen_night_mg_per_l")
    passed, volume = _interval(facts, "oxygen_transfer_l_per_h"), _interval(facts, "net_volume_l")
    dark_hours = HOURS_PER_DAY - facts.plan.light.hours
    if not (evening and dawn and passed and volume) or dark_hours <= 0:
        return ""
    return oxygen_night(evening, dawn, passed.value / volume.value, GUIDELINE, dark_hours)
