"""Does the water suit every animal and plant, and can any water suit them all?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.bands import Limit, Taxon, common, limits, name_of, parties
from stockcheck.rules.comfort import (
    AT_COMFORT,
    GH,
    KH,
    PH,
    TEMPERATURE,
    Field,
    best_compromise,
    headroom_at,
    headroom_high,
    headroom_low,
)
from stockcheck.rules.core import FIX, Finding, level_of, rule
from stockcheck.rules.water.own import Own, own_hardness, own_ph, own_temperature
from stockcheck.rules.water.words import clear, finding, in_unit, kh_known, off_band, with_spans
from stockcheck.rules.wording import listed


@rule(
    "water/temperature",
    trips="""
[heater]
setpoint = "19 degC"
""",
    clears="""
[heater]
setpoint = "24 degC"
""",
)
def temperature(facts: Facts) -> Iterator[Finding]:
    """Is the water as warm as each animal and plant wants it?

    Mechanism.  The water keeps to the heater's setpoint, give or take the thermostat's swing; unheated
    it follows the room between its coldest and its warmest.  Both ends are held against each taxon's comfort
    and tolerance.  Fish, shrimps and snails take the water's temperature: too warm they use more oxygen and
    age sooner, too cold their digestion and defences fail.

    Evidence.  The bands are the table's, each with its sources; killifish kept 3 to 6 K cooler
    lived 14 to 75 % longer (Keil et al. 2015, table 1).

    Limits.  Half a kelvin beyond what is tolerated still holds, 5 K beyond stops; these widths are common
    practice, and a band with few sources is read more widely; the room's extremes have 1 K more, as the water
    lags behind.  Summer heat is a rule of its own.
    """
    field = TEMPERATURE if facts.plan.heater else replace(TEMPERATURE, grace=TEMPERATURE.grace + 1.0)
    yield from _own_water("water/temperature", facts, field, own_temperature(facts))


@rule(
    "water/pH",
    trips="""
[water]
pH = 8.4
""",
    clears="""
[water]
pH = 6.8
""",
)
def ph(facts: Facts) -> Iterator[Finding]:
    """Does the water's pH suit each animal and plant?

    Mechanism.  pH far from what a taxon's gills are made for disturbs its salt balance, and high pH turns
    ammonia poisonous.  The plan's pH (of the tank, else the tap's) is held against comfort and tolerance.

    Evidence.  The bands are the table's, each with its sources.

    Limits.  Sources repeat one another more often on pH than on anything else, captive-bred stock is wider
    than wild stock, and a steady pH a little off suits better than a chased one: 0.3 beyond
    tolerance still holds.
    """
    yield from _own_water("water/pH", facts, PH, own_ph(facts))


@rule(
    "water/GH",
    trips="""
[water]
GH = "28 dGH"
""",
    clears="""
[water]
GH = "6 dGH"
""",
)
def gh(facts: Facts) -> Iterator[Finding]:
    """Does the general hardness suit each animal and plant?

    Mechanism.  Calcium and magnesium decide how leaky gills are; soft-water fish in hard water spend effort
    on salts, hard-water fish in soft water lose them, shrimps and snails need calcium for their shells.

    Evidence.  The bands are the table's, each with its sources.

    Limits.  Hardness weighs by ratio, not by difference: 8 to 12 degrees is little, 1 to 5 much.  Adults
    adapt, eggs less so; hardness alone is never a stop.
    """
    yield from _own_water("water/GH", facts, GH, own_hardness(facts, "GH_dgh"))


@rule(
    "water/KH",
    trips="""
[water]
KH = "30 dKH"
""",
    clears="""
[water]
KH = "4 dKH"
""",
)
def kh(facts: Facts) -> Iterator[Finding]:
    """Does the carbonate hardness suit those few taxa whose sources state one?

    Mechanism.  Carbonate hardness buffers pH; an animal feels it through pH far more than by itself.

    Evidence.  The table has it for one animal in six; taxa without it are left out here: their
    pH and GH say enough.

    Limits.  It rests on single sources nearly everywhere: this rule asks to keep an eye on it and no more.
    """
    for finding_ in _own_water("water/KH", facts, KH, own_hardness(facts, "KH_dkh")):
        told = f"{finding_.message} {kh_known(facts)}".rstrip() if finding_.message else ""
        yield replace(finding_, message=told)


@rule(
    "water/together",
    trips="""
[[animals]]
species = "Carassius auratus"
count = 3
[[animals]]
species = "Symphysodon aequifasciatus"
count = 6
""",
    clears="""
[[animals]]
species = "Trigonostigma heteromorpha"
count = 10
[[animals]]
species = "Trigonostigma hengeli"
count = 10
""",
)
def together(facts: Facts) -> Iterator[Finding]:
    """Is there any water that suits all the animals?

    Mechanism.  For temperature, pH and GH the rule finds the value that leaves the worst-off animal the most
    headroom.  Where even that value lies outside somebody's comfort, no setting of the dial and no
    mixing of waters settles it: the company has to change.

    Evidence.  The bands are the table's, each with its sources.

    Limits.  Plants do not count here: one that wilts is replaced.
    """
    animals: list[Taxon] = [group.species for group in facts.groups]
    own = {TEMPERATURE: own_temperature(facts), PH: own_ph(facts), GH: own_hardness(facts, "GH_dgh")}
    for field, known in own.items():
        found = limits(animals, field.name)
        if len(found) > 1:
            finding_ = _together(found, field)
            if known is not None or finding_.level != "clear":  # a water that nobody measured has no headroom
                yield finding_


@rule(
    "water/summer-heat",
    trips="""
[room]
high = "35 degC"
""",
    clears="""
[room]
high = "25 degC"
""",
)
def summer_heat(facts: Facts) -> Iterator[Finding]:
    """Does the room get warmer than the animals can bear?

    Mechanism.  A heater cannot cool: on the warmest days the water ends up near the room's temperature.  A
    hot spell is shorter than a life, so it is held against tolerance with 2 K more leave than the
    setpoint has.

    Evidence.  The bands are the table's, each with its sources.

    Limits.  Evaporation keeps open water 1 to 3 K below the room and lamps warm it; neither is counted.
    An unheated tank is judged by its whole range in ``water/temperature``.
    """
    high, heater = facts.plan.room.high_c, facts.plan.heater
    if high is None or heater is None or (heater.setpoint_c is not None and high <= heater.setpoint_c):
        return
    spell = replace(TEMPERATURE, grace=TEMPERATURE.grace + 2.0)
    found = limits([group.species for group in facts.groups], "temperature")
    dial = heater.setpoint_c
    if dial is not None:  # those that the dial already makes too warm are told so by water/temperature
        usual = dial + heater.swing_c
        found = [limit for limit in found if headroom_high(limit, TEMPERATURE, usual) >= AT_COMFORT]
    scored = [(headroom_high(limit, spell, high), limit) for limit in found]
    yield from clear("water/summer-heat", scored)
    hurt = [(headroom, limit) for headroom, limit in scored if headroom < AT_COMFORT]
    if hurt:
        worst = min(headroom for headroom, _ in hurt)
        message = say(
            "The room reaches {high:.3g} °C, and a heater cannot cool. In a hot spell that is too "
            "warm for {with_spans}.",
            high=high,
            with_spans=with_spans([limit for _, limit in hurt], TEMPERATURE),
        )
        remedy = say(
            "Plan for it: lid open a hand's width under a net, a fan over the surface (2 to 4 K "
            "cooler), lamp off at noon, more surface movement; keep mains leads in a drip loop."
        )
        yield finding("water/summer-heat", worst, message, remedy, [limit for _, limit in hurt])


def _own_water(name: str, facts: Facts, field: Field, own: Own | None) -> Iterator[Finding]:
    """One finding for each side and level of the animals, one for each side of the plants."""
    if own is None:
        return
    for found, plants in (
        (limits([group.species for group in facts.groups], field.name), False),
        (limits([planting.species for planting in facts.plantings], field.name), True),
    ):
        for too in ("low", "high"):
            measure = headroom_low if too == "low" else headroom_high
            value = own.low if too == "low" else own.high
            scored = [(max(measure(limit, field, value), FIX if plants else 0.0), limit) for limit in found]
            yield from clear(name, scored)
            for level in ("stop", "fix", "watch"):
                hit = [(headroom, limit) for headroom, limit in scored if level_of(headroom) == level]
                if hit:
                    yield off_band(name, facts, field, own, too, hit, plants)


def _together(found: Sequence[Limit], field: Field) -> Finding:
    shared = common([limit.comfort for limit in found])
    best, headroom = best_compromise(found, field)
    rule_name = "water/together"
    if not shared.empty or headroom >= AT_COMFORT:
        return Finding(rule_name, "clear", "", headroom=max(headroom, AT_COMFORT))
    wants_more = max(found, key=lambda limit: limit.comfort.low)
    wants_less = min(found, key=lambda limit: limit.comfort.high)
    unit = f" {field.unit}" if field.unit else ""
    message = say(
        "No {field_name} is comfortable for all: {warm} from {comfort_low:.3g}{unit}, {cool} "
        "up to {comfort_high:.3g}{unit}. The best compromise is {best:.3g}{unit}.",
        field_name=field.name,
        warm=name_of(wants_more.taxon),
        comfort_low=wants_more.comfort.low,
        unit=unit,
        cool=name_of(wants_less.taxon),
        comfort_high=wants_less.comfort.high,
        best=best,
    )
    apart = [
        f"{listed([name_of(member.taxon) for member in party.members])} ({in_unit(party.span, field)})"
        for party in parties(found)
        if party.span.width > 0 or len(party.members) == 1
    ]
    remedy = say("Keep those together that share a band: {groups}.", groups="; or ".join(apart[:3]))
    worst_off = [limit for limit in found if headroom_at(limit, field, best) < headroom + 1.0]
    return finding(rule_name, headroom, message, remedy, worst_off)
