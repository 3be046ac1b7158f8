"""What the water rules cannot judge by bands: salt, values not stated, taxa that no source has a band for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.bands import Limit, Taxon, common, limits, name_of
from stockcheck.rules.comfort import GH, KH, PH, TEMPERATURE, Field
from stockcheck.rules.core import FIX, Finding, rule
from stockcheck.rules.water.own import own_hardness, own_ph, own_temperature
from stockcheck.rules.water.words import kh_known, need, plainly
from stockcheck.rules.wording import listed, sentence

#: From here on water is salty to freshwater animals, and past ``MUCH`` times that they do not live in it.
SALTY_CHLORIDE = Constant(600.0, "mg/L", "common practice, no source: a gram of salt a litre")
SALTY_CONDUCTIVITY = Constant(3000.0, "uS/cm", "common practice, no source: a gram of salt in hard water")
MUCH = Constant(8.0, "1", "common practice, no source")


@rule(
    "water/brackish",
    trips="""
[[animals]]
species = "Scatophagus argus"
count = 3
""",
    clears="""
[[animals]]
species = "Poecilia sphenops"
males = 1
females = 4
""",
)
def brackish(facts: Facts) -> Iterator[Finding]:
    """Are brackish-water animals in fresh water, or freshwater animals in salt?

    Mechanism.  Animals of brackish waters live for months in fresh water and then fail; most freshwater
    animals, and nearly all plants, do not bear the salt that they need.

    Evidence.  The habitat is the table's trait.  Corydoras, tetras and plants are usually spared more than
    1 g of salt a litre (common practice, no source).

    Limits.  Salt is read from the plan's chloride (0.6 g of chloride to the gram of salt) or its conductivity
    (a gram of salt a litre adds about 2 mS/cm to a hard water's one); when neither is stated the water is
    taken to be fresh.
    """
    chloride = facts.plan.water.chloride_mg_l or 0.0
    conductivity = facts.plan.water.conductivity_us_cm or 0.0
    salty = chloride >= SALTY_CHLORIDE or conductivity >= SALTY_CONDUCTIVITY
    deadly = chloride >= MUCH * SALTY_CHLORIDE or conductivity >= MUCH * SALTY_CONDUCTIVITY
    species = {group.species.slug: group.species for group in facts.groups}.values()
    estuarine = [taxon for taxon in species if taxon.water_type == "brackish"]
    fresh = [taxon for taxon in species if taxon.water_type == "fresh"]
    if estuarine and (fresh or not salty):
        beside = (
            say(", beside {names}, which want none", names=listed([name_of(taxon) for taxon in fresh]))
            if fresh
            else ""
        )
        yield Finding(
            "water/brackish",
            "stop" if fresh else "fix",
            say(
                "{plainly} {need} brackish water{beside}.",
                plainly=sentence(plainly(estuarine)),
                need=need(estuarine),
                beside=beside,
            ),
            say("Keep them in a tank of their own, with marine salt by a hydrometer."),
            tuple(taxon.slug for taxon in estuarine),
            headroom=0.0 if fresh else FIX,
        )
    elif salty and fresh:
        yield Finding(
            "water/brackish",
            "stop" if deadly else "fix",
            say(
                "With {salt_shown} the water is salty; {plainly} {need} fresh water.",
                salt_shown=_salt_shown(chloride, conductivity),
                plainly=plainly(fresh),
                need=need(fresh),
            ),
            say("Change it for fresh water, a quarter a day."),
            tuple(taxon.slug for taxon in fresh),
            headroom=0.0 if deadly else FIX,
        )


def _salt_shown(chloride: float, conductivity: float) -> str:
    """The measurement that shows the salt."""
    if chloride >= SALTY_CHLORIDE:
        return say("{chloride:.0f} mg/L of chloride", chloride=chloride)
    return say("a conductivity of {conductivity:.0f} uS/cm", conductivity=conductivity)


@rule(
    "water/unmeasured",
    trips="""
without = ["water.GH", "tap.GH"]
""",
    clears="""
[water]
GH = "7 dGH"
""",
)
def unmeasured(facts: Facts) -> Iterator[Finding]:
    """Which values of the water does the plan not state?

    Mechanism.  Without them the bands have nothing to be held against.

    Evidence.  None needed.

    Limits.  What the tap is said to hold stands in for a tank that does not run yet.
    """
    found = limits([*(g.species for g in facts.groups), *(p.species for p in facts.plantings)], "temperature")
    if own_temperature(facts) is None:
        yield _unknown("water/unmeasured", *_temperature_unstated(facts, found))
    for field, own in (
        (PH, own_ph(facts)),
        (GH, own_hardness(facts, "GH_dgh")),
        (KH, own_hardness(facts, "KH_dkh")),
    ):
        if own is None:
            yield _unknown(
                "water/unmeasured",
                say("The plan does not say the water's {field_name}.", field_name=field.name)
                + (f" {kh_known(facts)}" if field is KH else ""),
                say(
                    "Measure it, or ask the waterworks, and add it under [water] or [tap]: {example}.",
                    example=_example(field),
                ),
            )


@rule(
    "water/no-band",
    trips="""
[[animals]]
species = "Danio feegradei"
count = 6
""",
    clears="""
[[animals]]
species = "Trigonostigma heteromorpha"
count = 10
""",
)
def no_band(facts: Facts) -> Iterator[Finding]:
    """For which animals and plants does no source state a temperature, a pH or a GH?

    Mechanism.  What nobody states cannot be checked, and silence would look like consent.

    Evidence.  None needed.

    Limits.  Carbonate hardness is stated for so few taxa that a missing one is not worth a question.
    """
    taxa: list[Taxon] = [group.species for group in facts.groups]
    taxa += [planting.species for planting in facts.plantings]
    for field in (TEMPERATURE, PH, GH):
        known = {limit.taxon.slug for limit in limits(taxa, field.name)}
        missing = list({taxon.slug: taxon for taxon in taxa if taxon.slug not in known}.values())
        if missing:
            yield _unknown(
                "water/no-band",
                say(
                    "No source in the table states a {field_name} for {plainly}.",
                    field_name=field.name,
                    plainly=plainly(missing),
                ),
                say("Ask who raised them in what water that was, and keep to it."),
                missing,
            )


def _temperature_unstated(facts: Facts, found: Sequence[Limit]) -> tuple[str, str]:
    if facts.plan.heater is None:
        return (
            say("There is no heater, and the plan does not say how cold and warm the room gets."),
            say('Add [room] with low = "17 degC" and high = "26 degC" from a thermometer that keeps both.'),
        )
    shared = common([limit.comfort for limit in found])
    if found and not shared.empty:
        return (
            say("The plan does not say the heater's setpoint."),
            say(
                "Add setpoint under [heater]: all do well from {shared_low:.3g} to {shared_high:.3g} °C.",
                shared_low=shared.low,
                shared_high=shared.high,
            ),
        )
    return say("The plan does not say the heater's setpoint."), say(
        'Add it under [heater]: setpoint = "24 degC".'
    )


def _example(field: Field) -> str:
    return "pH = 7.2" if field is PH else f'{field.name} = "8 {field.unit}"'


def _unknown(name: str, message: str, remedy: str, taxa: Sequence[Taxon] = ()) -> Finding:
    return Finding(name, "unknown", message, remedy, tuple(taxon.slug for taxon in taxa))
