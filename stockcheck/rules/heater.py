"""Heater rules of the water axis: strong enough, not too strong, and what its failure would do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from stockcheck.facts.heat import tolerated
from stockcheck.facts.heat_model import HORIZON
from stockcheck.facts.model import Facts
from stockcheck.facts.plain import duration, plain, span
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.bands import limits
from stockcheck.rules.comfort import TEMPERATURE, headroom_low
from stockcheck.rules.core import CLEAR, WATCH, Finding, headroom_between, level_of, rule
from stockcheck.rules.wording import not_stated

_PRACTICE = "common practice, no source"
_BALANCE = "heat balance of panes, base, top and evaporation; Smith, Jones & Lof 1993 for quiet water"
POWER_STOP = Constant(0.3, "1", f"{_PRACTICE}: a third of the power needed hardly warms at all")
POWER_SAFE = Constant(1.4, "1", f"{_PRACTICE}: a margin for draughts and a cold day")
COOK_WORST = Constant(6.0, "1", f"{_PRACTICE}: six times the power that the coldest day takes")
COOK_HOLDS = Constant(3.0, "1", f"{_PRACTICE}: three times that power")
COOK_SAFE = Constant(1.0, "1", f"{_PRACTICE}: no more power than the coldest day takes")
COOK_SPARE = Constant(3.0, "K", f"{_PRACTICE}: what most animals bear for a day past what is tolerated")
COOLING_HOLDS = Constant(2.0, "h", f"{_PRACTICE}")
COOLING_SAFE = Constant(10.0, "h", f"{_PRACTICE}: found in the morning")
AT_ONCE = Constant(0.1, "h", "a matter of wording: six minutes")
SOLD_STEP = Constant(25.0, "W", f"{_PRACTICE}: heaters come in 25, 50, 75, 100 W and so on")
MAINS = say(
    "Mains electricity and water: an earth-leakage breaker (RCD, GFCI) on the socket, a drip "
    "loop in the lead, and the plug out before a hand goes in."
)


@rule(
    "water/heater-power",
    sources=(_BALANCE,),
    trips="""
[heater]
power = "25 W"
[room]
low = "14 degC"
""",
    clears="",
)
def heater_power(facts: Facts) -> Iterator[Finding]:
    """Is the heater strong enough for the coldest day?

    Mechanism.  Panes, base and surface lose heat in step with the difference to the room, an open surface
    also by evaporation.  A heater below that loss runs all day and the water sags to where loss and power
    balance.

    Evidence.  Natural convection after Churchill & Chu and McAdams, radiation, glass; evaporation after Shah
    2014.  The balance agrees with 0.40 W/K per L^(2/3) for lidded tanks and 0.73 for open ones.

    Limits.  Lamp and pump, which help, are not counted.  A wall behind the tank or a draught move the loss by
    a fifth.
    """
    heater, need = facts.plan.heater, facts.figures.get("heater_power_w")
    if heater is None:
        return
    if need is None:
        yield Finding(
            "water/heater-power",
            "unknown",
            say(
                "Whether the heater is strong enough depends on the tank's measures and the coldest the "
                "room gets."
            ),
            say("State what of these is missing: {missing}.", missing=not_stated(facts, room_low=True)),
        )
        return
    power, needed = heater.total_w, need.interval
    if power is None:
        yield Finding(
            "water/heater-power",
            "unknown",
            say(
                "The plan does not say how strong the heater is; holding {temperature_c:.3g} °C in the "
                "coldest room takes {needed}.",
                temperature_c=facts.temperature_c,
                needed=span(needed, "W"),
            ),
            say(
                "Take {sold} W and write it under [heater]. {mains}",
                sold=power_to_buy(needed.value),
                mains=MAINS,
            ),
        )
        return
    ratio = power / needed.value if needed.value else POWER_SAFE
    headroom = headroom_between(ratio, POWER_STOP, 1.0, POWER_SAFE)
    held, edge = facts.figures["full_power_temperature_c"].interval, tolerated(facts).low_c
    bearable = edge is None or held.value >= edge
    headroom = max(headroom, 50.0 if bearable else 1.0)
    animals = limits([group.species for group in facts.groups], TEMPERATURE.name)
    if animals:  # a cold spell, as a hot one, is shorter than a life
        spell = replace(TEMPERATURE, grace=TEMPERATURE.grace + 2.0)
        headroom = min(headroom, *(headroom_low(limit, spell, held.value) for limit in animals))
    yield Finding(
        "water/heater-power",
        level_of(headroom),
        say(
            "{power} W of heater hold {held:.1f} °C in the coldest room ({low_c:.3g} °C); holding "
            "{temperature_c:.3g} °C takes {needed}.",
            power=plain(power),
            held=held.value,
            low_c=facts.plan.room.low_c,
            temperature_c=facts.temperature_c,
            needed=span(needed, "W"),
        ),
        say(
            "Take {sold} W, best as two heaters of half that; a lid saves most. {mains}",
            sold=power_to_buy(needed.value),
            mains=MAINS,
        ),
        grade="C",
        headroom=headroom,
    )


@rule(
    "water/heater-stuck",
    sources=(_BALANCE,),
    trips="""
[heater]
power = "500 W"
""",
    clears="""
[heater]
power = "75 W"
""",
)
def heater_stuck(facts: Facts) -> Iterator[Finding]:
    """Could a thermostat that sticks cook the tank?

    Mechanism.  Contacts weld shut more often than heaters burn out.  Full power then warms the water to where
    the loss balances it: the room's temperature plus watts over watts per kelvin.

    Evidence.  The same balance as for the heater's power, in the warmest room.

    Limits.  At worst a thing to watch, and raised only where less power would do: any heater that copes with
    a cold day can overheat the tank on a warm one.  Counted is one heater, the others switch off.
    """
    stuck, need = facts.figures.get("stuck_on_temperature_c"), facts.figures.get("heater_power_w")
    edges, heater = tolerated(facts), facts.plan.heater
    if stuck is None or need is None or edges.high_c is None or heater is None or need.interval.high <= 0:
        return
    if heater.power_w is None:
        return
    if _is_past(facts):
        return  # too warm or too cold as it is: another rule's matter
    too_strong = heater.power_w / need.interval.high
    past = say("the {high_c:g} °C that the {high_by} tolerates", high_c=edges.high_c, high_by=edges.high_by)
    headroom = CLEAR
    if stuck.interval.value > edges.high_c + COOK_SPARE:
        headroom = max(WATCH, headroom_between(too_strong, COOK_WORST, COOK_HOLDS, COOK_SAFE))
    yield Finding(
        "water/heater-stuck",
        level_of(headroom),
        say(
            "A heater stuck on would take the water to {interval} in the warmest room{hours}.",
            interval=span(stuck.interval, "°C"),
            hours=_hours(facts, "stuck_on_hours", past),
        ),
        say(
            "{smaller}A thermostat plug set a degree above the heater's own cuts such a failure off. {mains}",
            smaller=_smaller(facts),
            mains=MAINS,
        ),
        grade="C",
        headroom=headroom,
    )


@rule(
    "water/heater-failed",
    sources=(_BALANCE,),
    trips="""
[tank]
length = "30 cm"
width = "20 cm"
height = "20 cm"
lid = false
[room]
low = "10 degC"
""",
    clears="",
)
def heater_failed(facts: Facts) -> Iterator[Finding]:
    """How long would the animals have if the heater died in the cold?

    Mechanism.  The water cools towards the room, fast at first; the more water, the slower.

    Evidence.  Newton's law of cooling with the balance's watts per kelvin and the heat in the water.

    Limits.  At worst a thing to watch: it may never happen.  Glass, gravel and stones slow the cooling a
    little more.
    """
    failed, edges = facts.figures.get("failed_temperature_c"), tolerated(facts)
    hours = facts.figures.get("failed_hours")
    if failed is None or edges.low_c is None or hours is None or _is_past(facts):
        return
    past = say("the {low_c:g} °C that the {low_by} needs", low_c=edges.low_c, low_by=edges.low_by)
    headroom = CLEAR
    if failed.interval.value < edges.low_c:
        headroom = max(WATCH, headroom_between(hours.interval.value, 0.0, COOLING_HOLDS, COOLING_SAFE))
    yield Finding(
        "water/heater-failed",
        level_of(headroom),
        say(
            "Without its heater the tank cools to {failed:.1f} °C in the coldest room{hours}.",
            failed=failed.interval.value,
            hours=_hours(facts, "failed_hours", past),
        ),
        say(
            "Two heaters of half the power rarely fail together; look at the thermometer daily. {mains}",
            mains=MAINS,
        ),
        grade="C",
        headroom=headroom,
    )


def _is_past(facts: Facts) -> bool:
    """Whether the water as planned is outside what some animal tolerates."""
    edges, water = tolerated(facts), facts.temperature_c
    assert water is not None
    return (edges.low_c is not None and water < edges.low_c) or (
        edges.high_c is not None and water > edges.high_c
    )


def _hours(facts: Facts, name: str, what: str) -> str:
    """``, and within 6 hours past the 28 °C that the guppy tolerates``; empty where it takes days."""
    figure = facts.figures.get(name)
    if figure is None or figure.interval.value >= HORIZON:
        return ""
    if figure.interval.value < AT_ONCE:
        return say(", and at once past {what}", what=what)
    return say(", and within {figure} past {what}", figure=duration(figure.interval.value), what=what)


def _smaller(facts: Facts) -> str:
    """What a smaller heater, or two, would change."""
    heater, need = facts.plan.heater, facts.figures.get("heater_power_w")
    assert heater is not None and heater.total_w is not None
    parts = []
    total = heater.total_w
    if need and power_to_buy(need.interval.value) < total:
        parts.append(say("{sold} W in all would do. ", sold=power_to_buy(need.interval.value)))
    halved = facts.figures.get("stuck_on_of_two_temperature_c")
    if halved:
        reached = f"{halved.interval.value:.0f} °C"
        parts.append(
            say("Two of half the power would stop at {reached} with one of them stuck. ", reached=reached)
        )
    return "".join(parts)


def power_to_buy(needed_w: float) -> int:
    """Power to buy for a need, with its margin, in the steps that heaters come in."""
    return ceil(needed_w * POWER_SAFE / SOLD_STEP) * int(SOLD_STEP)
