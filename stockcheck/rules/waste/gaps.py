"""What the sums lack: figures that nobody gave."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.facts.waste_inputs import TEMPERATURE_UNKNOWN
from stockcheck.language import say
from stockcheck.physics.nitrate import TAP_UNKNOWN
from stockcheck.rules.core import Finding, rule


@rule(
    "waste/unmeasured",
    trips='without = ["tap.nitrate"]',
    clears="",
)
def unmeasured(facts: Facts) -> Iterator[Finding]:
    """What does the plan not say that the waste of its animals depends on?

    Mechanism.  Every concentration is a mass over a volume; the poisonous share of ammonia hangs on the pH; a
    water change cannot go below the nitrate of the tap; bacteria live on what the filter is filled with.
    What can be allowed for is allowed for with a wide interval, and said here.

    Limits.  None of these is a fault of the tank, only of what is known about it.
    """
    for message, remedy in _gaps(facts):
        yield Finding("waste/unmeasured", "unknown", message, remedy)


def _gaps(facts: Facts) -> Iterator[tuple[str, str]]:
    plan = facts.plan
    if "net_volume_l" not in facts.figures:
        yield (
            say("How much water the tank holds is not known, so nothing can be said about its waste."),
            say("State the tank's length, width and height, or count the litres when you fill it."),
        )
        return
    if plan.water.pH is None:
        yield (
            say("How much of the ammonia is poisonous depends on the pH, which is not given."),
            say("Measure the pH of the tank and add it under [water]."),
        )
    if plan.routine.water_change > 0 and plan.tap.nitrate_mg_l is None:
        yield (
            say(
                "The nitrate of the tap water is not given; up to {tap_unknown_high:.0f} mg/L is allowed "
                "for.",
                tap_unknown_high=TAP_UNKNOWN.high,
            ),
            say("Measure it, or take it from the water supplier's report, and add it under [tap]."),
        )
    if plan.filter is not None and not plan.filter.media:
        yield (
            say("What the filter is filled with is not listed, so only the tank's own surfaces are counted."),
            say("List each medium and its volume under [[filter.media]]."),
        )
    if facts.temperature_c is None:
        low, _, high = TEMPERATURE_UNKNOWN.interval
        yield (
            say(
                "The water's temperature is not known; {low:.0f} to {high:.0f} °C is allowed for.",
                low=low,
                high=high,
            ),
            say("State the heater's setpoint, or the room's range where there is no heater."),
        )
    for group in facts.groups:
        if group.mass_g is None:
            name = group.species.common_name or group.species.scientific_name
            yield (
                say("No adult length of {name} is known, so its waste is left out of the sums.", name=name),
                say("Find out how long it grows and add the figure to the table."),
            )
