"""What there is to say of a setpoint, in whole sentences: whom it leaves out, what room and heater allow."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf, isfinite

from stockcheck.advice.setpoint_model import Choice, PartyChoice, Setpoint, Shortfall, degrees, named
from stockcheck.facts.heat import power_to_hold
from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Interval
from stockcheck.plan.model import Heater, Plan
from stockcheck.rules.bands import Limit, Span, name_of
from stockcheck.rules.heater import MAINS, power_to_buy
from stockcheck.rules.wording import sentence

#: No heater is made weaker; a need below it is none (common practice, no source).
LEAST_HEATER_W = 5.0


def gap_note(found: Sequence[Limit], span: Span, swing_c: float) -> str:
    """Who wants it how much warmer than whom, or how little room is left between them."""
    warm = next(limit.taxon for limit in found if limit.comfort.low == span.low)
    cool = next(limit.taxon for limit in found if limit.comfort.high == span.high)
    if not span.empty:
        return say(
            "{warm} is comfortable from {span_low:.3g} °C, {cool} up to {span_high:.3g} °C: {width:.2g} K, "
            "and the thermostat strays {swing_c:g} K either way.",
            warm=sentence(name_of(warm)),
            span_low=span.low,
            cool=name_of(cool),
            span_high=span.high,
            width=span.width,
            swing_c=swing_c,
        )
    return say(
        "{warm} is comfortable from {span_low:.3g} °C, {cool} only up to {span_high:.3g} °C: "
        "{width:.2g} K are missing.",
        warm=sentence(name_of(warm)),
        span_low=span.low,
        cool=name_of(cool),
        span_high=span.high,
        width=-span.width,
    )


def compromise_note(shortfalls: Sequence[Shortfall], at_c: float) -> str:
    parts = [
        say(
            "{kelvin:.2g} K too {cold_or_warm} for {taxon}",
            kelvin=abs(short.kelvin),
            cold_or_warm=say("cold") if short.kelvin > 0 else say("warm"),
            taxon=name_of(short.taxon),
        )
        + ("" if short.tolerated else say(", beyond what it tolerates"))
        for short in sorted(shortfalls, key=lambda short: -abs(short.kelvin))
        if short.kelvin
    ]
    if not parts:
        return say("The best compromise is {degrees}.", degrees=degrees(at_c))
    return say(
        "The best compromise, {degrees}, is {shortfalls}.", degrees=degrees(at_c), shortfalls="; ".join(parts)
    )


def party_note(party: PartyChoice) -> str:
    names = ", ".join(name_of(taxon) for taxon in party.taxa)
    return say("{degrees} suits {names}.", degrees=degrees(party.choice.value_c), names=names)


def choice_notes(
    choice: Choice, share: Sequence[Limit], swing_c: float, left_out: Sequence[Limit]
) -> list[str]:
    notes = []
    if choice.cramped:
        notes.append(
            say(
                "The common band is only {width:.2g} K wide, and the thermostat strays {swing_c:g} K "
                "either way: the middle is the best it can do, a steadier thermostat would help.",
                width=choice.span.width,
                swing_c=swing_c,
            )
        )
    if choice.off_step:
        notes.append(
            say("The dial has no mark inside the common band; set it between two marks by thermometer.")
        )
    if left_out:
        plants = ", ".join(name_of(limit.taxon) for limit in left_out)
        notes.append(say("The animals decide; it is not what {plants} would choose.", plants=plants))
    for limit, end in ((_limiting(share, 0), "low"), (_limiting(share, 1), "high")):
        if limit is not None and limit.band.origins <= 1:
            notes.append(
                say(
                    "The {end} end rests on a single source for {taxon}.", end=end, taxon=name_of(limit.taxon)
                )
            )
    return notes


def _limiting(share: Sequence[Limit], side: int) -> Limit | None:
    """Who sets the low (0) or the high (1) end."""
    limit = max(share, key=lambda x: x.comfort.low) if side == 0 else min(share, key=lambda x: x.comfort.high)
    return limit if isfinite(limit.comfort[side]) else None


def room_notes(found: Setpoint, plan: Plan) -> list[str]:
    if found.value_c is None:
        return []
    notes = []
    high, low = plan.room.high_c, plan.room.low_c
    if high is not None and found.high_c is not None and high > found.high_c:
        notes.append(
            say(
                "The room reaches {high:.3g} °C and a heater cannot cool: on such days the water is "
                "above the {high_c:.3g} °C that {name} is comfortable in.",
                high=high,
                high_c=found.high_c,
                name=named(found.high_by),
            )
        )
    elif high is not None and high > found.value_c + found.swing_c:
        notes.append(
            say(
                "The room reaches {high:.3g} °C; the water follows it then, and that suits all of them.",
                high=high,
            )
        )
    if plan.heater is None and low is not None and found.low_c is not None:
        if low < found.low_c:
            notes.append(
                say(
                    "The water falls to the room's {low:.3g} °C, below the {low_c:.3g} °C that {name} is "
                    "comfortable from.",
                    low=low,
                    low_c=found.low_c,
                    name=named(found.low_by),
                )
            )
        else:
            notes.append(say("As the room stands none is needed."))
    return notes


def heater_notes(found: Setpoint, facts: Facts) -> list[str]:
    """How the plan's own setpoint does, and the power that the answer takes against the power there is."""
    if found.value_c is None:
        return []
    heater, notes = facts.plan.heater, []
    if heater and heater.setpoint_c is not None:
        low, high = found.low_c or -inf, found.high_c or inf
        planned = heater.setpoint_c
        if abs(planned - found.value_c) >= found.step_c / 2:
            inside = low + found.swing_c <= planned <= high - found.swing_c
            fit = say("suits all of them too") if inside else say("strays from the comfort that all share")
            notes.append(say("The plan's own {degrees} {fit}.", degrees=degrees(planned), fit=fit))
    need, cold = power_to_hold(facts, found.value_c), facts.plan.room.low_c
    if need is None:
        if cold is None:
            notes.append(
                say("How cold the room gets is not in the plan; with it the heater's power can be told.")
            )
    elif need.high < LEAST_HEATER_W:
        if heater:
            notes.append(
                say("The room keeps the water at {value_c:.3g} °C or above by itself.", value_c=found.value_c)
            )
    else:
        notes.append(_power_note(need, found.value_c, cold, heater))
        if heater is None or heater.total_w is None or heater.total_w < need.value:  # one is to be bought
            notes.append(MAINS)
    return notes


def _power_note(need: Interval, water_c: float, cold_c: float | None, heater: Heater | None) -> str:
    held = say(
        "Holding {water_c:.3g} °C in a room of {cold_c:.3g} °C takes about {need:.0f} W "
        "({need_low:.0f} to {need_high:.0f})",
        water_c=water_c,
        cold_c=cold_c,
        need=need.value,
        need_low=need.low,
        need_high=need.high,
    )
    there = heater.total_w if heater else None
    to_buy = power_to_buy(need.value)
    if there is None:
        return say("{held}: choose a heater of {to_buy} W, which has a margin.", held=held, to_buy=to_buy)
    if there >= need.high:
        verdict = say("enough")
    elif there >= need.value:
        verdict = say("probably enough")
    elif there >= need.low:
        verdict = say("perhaps just enough, with nothing to spare; {to_buy} W would do", to_buy=to_buy)
    else:
        verdict = say("too little, {to_buy} W would do", to_buy=to_buy)
    return say("{held}; there are {there:.0f} W: {verdict}.", held=held, there=there, verdict=verdict)
