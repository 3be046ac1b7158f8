"""The plan's own water: what is stated of it, and where that comes from."""

from __future__ import annotations

from typing import NamedTuple

from stockcheck.facts.model import Facts


class Own(NamedTuple):
    """The plan's own value of a field, from its lowest to its highest, and where it comes from."""

    low: float
    high: float
    origin: str  # as a sentence begins with it: "the tank's", "the tap's"


def own_temperature(facts: Facts) -> Own | None:
    heater, room = facts.plan.heater, facts.plan.room
    if heater is not None:
        if heater.setpoint_c is None:
            return None
        return Own(heater.setpoint_c - heater.swing_c, heater.setpoint_c + heater.swing_c, "the heater's")
    if room.low_c is None or room.high_c is None:
        return None
    return Own(room.low_c, room.high_c, "the room's")


def own_ph(facts: Facts) -> Own | None:
    for water, origin in ((facts.plan.water, "the tank's"), (facts.plan.tap, "the tap's")):
        if water.pH is not None:
            return Own(water.pH, water.pH, origin)
    return None


def own_hardness(facts: Facts, attribute: str) -> Own | None:
    """The tank's hardness, else the one wanted from mixing, else the tap's."""
    plan = facts.plan
    for water, origin in ((plan.water, "the tank's"), (plan.target, "the target"), (plan.tap, "the tap's")):
        value = getattr(water, attribute)
        if value is not None:
            return Own(value, value, origin)
    return None
