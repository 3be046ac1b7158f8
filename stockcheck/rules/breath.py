"""The breath axis: is there oxygen through the night, in a hot spell, in a power cut?"""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.breath_model import HORIZON
from stockcheck.facts.model import Facts
from stockcheck.facts.plain import duration, plain, span
from stockcheck.language import say
from stockcheck.physics.oxygen import COMFORT, DANGER, GUIDELINE, RIPPLE, STILL, STRONG
from stockcheck.physics.quantity import Constant
from stockcheck.physics.respiration import AIR_SHARE, FISH_INTERCEPT
from stockcheck.rules.core import WATCH, Finding, headroom_between, level_of, rule
from stockcheck.rules.wording import listed, name_of, not_stated, once_grown

_PRACTICE = "common practice, no source"
HOT_STOP = Constant(1.0, "mg/L", f"{_PRACTICE}: a few warm nights, so a lower line than for every night")
HOT_SAFE = Constant(7.0, "mg/L", f"{_PRACTICE}: puts the guideline of 5 mg/L where a watch ends")
OUTAGE_HOLDS = Constant(3.0, "h", f"{_PRACTICE}: most power cuts are shorter")
OUTAGE_SAFE = Constant(12.0, "h", f"{_PRACTICE}: a night's sleep and some")
AIR_GAP = Constant(2.0, "cm", f"{_PRACTICE}: room for a labyrinth fish to come up and gulp")
_AIR_STONE = say(
    "Run an air stone through the night; keep a drip loop in the air pump's lead and a check valve in its "
    "hose."
)
_MORE_AIR = say(
    "Let the filter's outlet break the surface well, or run an air stone through the night; keep "
    "a drip loop in the air pump's lead and a check valve in its hose."
)


@rule(
    "breath/night",
    trips="""
[filter]
surface = "still"
[[animals]]
species = "Carassius auratus"
count = 8
""",
    clears="",
    sources=(FISH_INTERCEPT.source, GUIDELINE.source, DANGER.source),
)
def night(facts: Facts) -> Iterator[Finding]:
    """Is there enough oxygen at the end of the night?

    Mechanism.  In the dark nobody makes oxygen and everybody uses it: animals, plants, the bacteria of the
    filter and of whatever rots, the floor.  The surface passes some in from the air, the faster the more it
    moves.  The lowest level comes just before the lights.

    Evidence.  Uptake of fish by mass and temperature after Clarke & Johnston 1999, which lies between the
    rates measured on single and on grouped zebrafish (Lucas & Priede 1992).  Warm-water fish do well at 5
    mg/L and more; few survive below 3.

    Limits.  Nobody has published the surface transfer of an aquarium: the figures come from calm lakes, and
    are good to a factor of two.  Watch the fish before the lights come on: gasping at the surface is the
    measure.
    """
    figure, held = facts.figures.get("oxygen_night_mg_per_l"), facts.figures.get("oxygen_saturation_mg_per_l")
    if figure is None or held is None:
        yield Finding(
            "breath/night",
            "unknown",
            say("Without the tank's measures and its temperature nothing can be said about oxygen."),
            say("State what of these is missing: {missing}.", missing=not_stated(facts)),
        )
        return
    dawn = figure.interval.value
    headroom = headroom_between(dawn, DANGER, GUIDELINE, COMFORT)
    if figure.interval.high >= GUIDELINE:
        headroom = max(headroom, 1.0)  # so loosely known a figure is no stop while its good end holds
    if dawn > 0:
        told = say(
            "Before the lights come on oxygen is down to about {interval}, of {held} mg/L that the water can "
            "hold; fish want {guideline:g} mg/L and more.",
            interval=span(figure.interval, "mg/L"),
            held=plain(held.interval.value),
            guideline=GUIDELINE,
        )
    else:
        told = say(
            "Before the lights come on oxygen has run out; fish want {guideline:g} mg/L and more, and the "
            "water can hold {held}.",
            held=plain(held.interval.value),
            guideline=GUIDELINE,
        )
    yield Finding(
        "breath/night",
        level_of(headroom),
        told + once_grown(facts),
        _more_exchange(facts),
        _heaviest_breathers(facts),
        "C",
        headroom=headroom,
    )


@rule(
    "breath/heat-wave",
    trips="""
[filter]
surface = "strong"
[room]
high = "34 degC"
[[animals]]
species = "Carassius auratus"
count = 2
""",
    clears="",
    sources=(FISH_INTERCEPT.source,),
)
def heat_wave(facts: Facts) -> Iterator[Finding]:
    """Does oxygen last through a night as warm as the room gets?

    Mechanism.  Warm water holds less oxygen while every animal in it uses more: 2.4 times as much for 10 K.

    Evidence.  Saturation after Benson & Krause; the rise within a species is the median of 14 (Clarke &
    Johnston 1999).

    Limits.  The water is taken to be as warm as the room.  Evaporation keeps an open tank 1 to 3 K cooler.
    """
    figure, usual = facts.figures.get("oxygen_hot_night_mg_per_l"), facts.figures.get("oxygen_night_mg_per_l")
    if figure is None or usual is None or usual.interval.value < GUIDELINE:
        return  # not even a usual night holds: another rule's matter
    dawn, high = figure.interval.value, facts.plan.room.high_c
    left = (
        say("falls to about {interval}", interval=span(figure.interval, "mg/L"))
        if dawn > 0
        else say("runs out")
    )
    headroom = max(1.0, headroom_between(dawn, HOT_STOP, DANGER, HOT_SAFE))
    yield Finding(
        "breath/heat-wave",
        level_of(headroom),
        say(
            "In a hot spell, with the water at the room's {high:g} °C, oxygen {left} by morning.",
            high=high,
            left=left,
        ),
        say(
            "Have an air stone ready for such nights, feed little and keep the water moving. {more_air}",
            more_air=_MORE_AIR,
        ),
        _heaviest_breathers(facts),
        "C",
        headroom=headroom,
    )


@rule(
    "breath/power-cut",
    sources=(
        "Cole et al. 2010: gas transfer of lakes without wind",
        "Clarke & Johnston 1999, J. Anim. Ecol. 68:893",
    ),
    trips="""
[[animals]]
species = "Carassius auratus"
count = 2
[filter]
surface = "strong"
""",
    clears="",
)
def power_cut(facts: Facts) -> Iterator[Finding]:
    """How long would the animals have if the power went off in the evening?

    Mechanism.  The surface goes still and passes a third to a half of what it did.  The bacteria in a
    stopped filter use up the oxygen in it within an hour or so and then start to die.

    Evidence.  The same balance as for the night, with the surface of a windless lake.

    Limits.  At worst a thing to watch: it may never happen.  Cooling water, which would help, is not counted.
    """
    to_five = facts.figures.get("outage_hours_to_5_mg_per_l")
    to_three = facts.figures.get("outage_hours_to_3_mg_per_l")
    if to_five is None or to_three is None or to_five.interval.value <= 0:
        return  # short of oxygen even with the power on: another rule's matter
    hours = to_three.interval.value
    headroom = max(WATCH, headroom_between(hours, 0.0, OUTAGE_HOLDS, OUTAGE_SAFE))
    yield Finding(
        "breath/power-cut",
        level_of(headroom) if hours < HORIZON else "clear",
        say(
            "In a power cut at night oxygen is down to {guideline:g} mg/L after {to_five} and to "
            "{danger:g} mg/L after {hours} (as little as {to_three_low}).",
            guideline=GUIDELINE,
            to_five=duration(to_five.interval.value),
            danger=DANGER,
            hours=duration(hours),
            to_three_low=duration(to_three.interval.low),
        ),
        say(
            "Keep a battery air pump in the cupboard. Don't feed until the power is back, stir the "
            "surface with a jug, and rinse a filter that stood for hours before it runs again."
        ),
        grade="C",
        headroom=headroom,
    )


@rule(
    "breath/air-gap",
    trips="""
[tank]
fill_gap = "0 cm"
[[animals]]
species = "Trichopodus leerii"
males = 1
females = 2
""",
    clears="""
[[animals]]
species = "Trichopodus leerii"
males = 1
females = 2
""",
    sources=(AIR_SHARE.source,),
)
def air_gap(facts: Facts) -> Iterator[Finding]:
    """Can air breathers reach air?

    Mechanism.  Labyrinth fish, and catfish and loaches that breathe with the gut, come up for air.  Under a
    lid that lies on the water they cannot, however much oxygen the water holds.

    Evidence.  Common practice, no source.

    Limits.  The gap is taken from the water line to the rim, as if the lid lay on the rim.
    """
    tank = facts.plan.tank
    breathers = {g.species.slug: name_of(g.species) for g in facts.groups if g.species.air_breather}
    if not breathers or not tank.lid:
        return
    headroom = max(25.0, headroom_between(tank.fill_gap_cm, 0.0, AIR_GAP / 2, AIR_GAP))
    yield Finding(
        "breath/air-gap",
        level_of(headroom),
        say(
            "Only {fill_gap_cm} cm of air under the lid for {breathers}, which must come up to breathe.",
            fill_gap_cm=plain(tank.fill_gap_cm),
            breathers=listed(list(breathers.values())),
        ),
        say(
            "Leave {air_gap:g} cm or more between water and lid; the lid keeps that air warm and damp.",
            air_gap=AIR_GAP,
        ),
        tuple(breathers),
        headroom=headroom,
    )


def _heaviest_breathers(facts: Facts) -> tuple[str, ...]:
    """The species that weighs most in all: what to have fewer of."""
    weights = {g.species.slug: g.mass_g.value * g.count for g in facts.groups if g.mass_g}
    return (max(weights, key=weights.__getitem__),) if weights else ()


def _more_exchange(facts: Facts) -> str:
    """How much more the surface must pass to hold the guideline, in the steps a keeper can take."""
    uptake = facts.figures["oxygen_uptake_mg_per_h"].interval.value
    passed = facts.figures["oxygen_transfer_l_per_h"].interval.value
    spare = facts.figures["oxygen_saturation_mg_per_l"].interval.value - GUIDELINE
    if spare <= 0:
        return say(
            "Water this warm cannot hold {guideline:g} mg/L for long: cool it first.", guideline=GUIDELINE
        )
    needed = uptake / spare / passed
    moved = facts.plan.filter.surface if facts.plan.filter else "still"
    gain = STRONG / {"still": STILL, "ripple": RIPPLE, "strong": STRONG}[moved]
    advice = _AIR_STONE if moved == "strong" else _MORE_AIR
    if needed <= gain * 1.05:  # what the surface gives is not known to a twentieth
        more = (
            say("a little more exchange than")
            if needed < 1.1
            else say("{needed:.1f} times the exchange of", needed=needed)
        )
        told = say("{advice} It takes {more} now.", advice=advice, more=more)
        if moved != "strong":
            told += say(" A well stirred surface passes {gain:.1f} times as much as this one.", gain=gain)
        return told
    grams = sum(group.mass_g.value * group.count for group in facts.groups if group.mass_g)
    return say(
        "It takes {needed} times the exchange of now: stir the surface well, and even then it "
        "bears about {bears} g of these {grams} g of animals. {advice}",
        needed=plain(needed),
        bears=plain(grams * gain / needed),
        grams=plain(grams),
        advice=advice,
    )
