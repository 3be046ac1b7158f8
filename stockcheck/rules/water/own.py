"""The plan's own water: what is stated of it, and where that comes from."""

from __future__ import annotations

from typing import NamedTuple

from stockcheck.facts.model import Facts
from stockcheck.language import say

#: Where a value may come from, as a sentence begins with it.
HEATER, ROOM = say("the heater's"), say("the room's")
TANK, TARGET, TAP = say("the tank's"), say("the target"), say("the tap's")


class Own(NamedTuple):
    """The plan's own value of a field, from its lowest to its highest, and where it comes from."""

    low: float
    high: float
    origin: str


def own_temperature(facts: Facts) -> Own | None:
    heater, room = facts.plan.heater, facts.plan.room
    if heater is not None:
        if heater.setpoint_c is None:
            return None
        return Own(heater.setpoint_c - heater.swing_c, heater.setpoint_c + heater.swing_c, HEATER)
    if room.low_c is None or room.high_c is None:
        return None
    return Own(room.low_c, room.high_c, ROOM)


def own_ph(facts: Facts) -> Own | None:
    for water, origin in ((facts.plan.water, TANK), (facts.plan.tap, TAP)):
        if water.pH is not None:
            return Own(water.pH, water.pH, origin)
    return None


def own_hardness(facts: Facts, attribute: str) -> Own | None:
    """The tank's hardness, else the one wanted from mixing, else the tap's."""
    plan = facts.plan
    for water, origin in (
        (plan.water, TANK),
        (plan.target, TARGET),
        (plan.tap, TAP),
    ):
        value = getattr(water, attribute)
        if value is not None:
            return Own(value, value, origin)
    return None
