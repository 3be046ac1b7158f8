"""Vessel rules of the room axis: weight on the floor, glass, measures against measured water."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.facts.plain import plain, span
from stockcheck.facts.volume_steps import WATER_LINE_STEP
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.physics.structure import ENGINEER_MASS, FLOOR_A, SAFETY_FACTOR
from stockcheck.rules.core import CLEAR, NO_STOP, WATCH, Finding, headroom_between, level_of, rule

_PRACTICE = "common practice, no source"
#: Computed strength that is used up: a pane that breaks where it is not better than the formula.
GLASS_BREAKS = Constant(1.0, "1", "definition of the safety factor")
#: Share of the tank that bed and stones leave: where it just holds, and where there is plenty.
JUST_OPEN = Constant(1 / 3, "1", _PRACTICE)
PLENTY_OPEN = Constant(0.5, "1", _PRACTICE)


@rule(
    "room/floor-load",
    trips="""
[tank]
length = "150 cm"
width = "60 cm"
height = "60 cm"
glass = "12 mm"
""",
    clears="",
    sources=(FLOOR_A.source, ENGINEER_MASS.source),
)
def floor_load(facts: Facts) -> Iterator[Finding]:
    """Is the filled tank a heavy load for a floor?

    Mechanism.  Water, glass, substrate and stone bear on the small area of the stand for decades, which
    floors of dwellings, planned for people and furniture spread over the room, are not made for everywhere.

    Evidence.  EN 1991-1-1 plans such floors for 1.5 to 2.0 kN/m2 over the room, and calls heavy equipment a
    matter outside those values.

    Limits.  The line of 300 kg is common practice.  Whether a floor carries a tank hangs on its joists, its
    span and where the tank stands: that is a licensed structural engineer's judgement, never this program's.
    """
    mass, load = facts.figures.get("filled_mass_kg"), facts.figures.get("floor_load_kn_m2")
    if mass is None or load is None:
        return
    heavy = mass.interval.value > ENGINEER_MASS
    yield Finding(
        "room/floor-load",
        "watch" if heavy else "clear",
        say(
            "Filled, the tank weighs about {interval} without its stand and puts {load} kN/m2 on its "
            "own footprint; floors of dwellings are planned for {floor_a_low:g} to {floor_a_high:g} "
            "kN/m2 spread over the room.",
            interval=span(mass.interval, "kg"),
            load=plain(load.interval.value),
            floor_a_low=FLOOR_A.low,
            floor_a_high=FLOOR_A.high,
        ),
        say(
            "Stand it across the joists near a bearing wall, and ask a licensed structural engineer "
            "first; local codes and the lease decide."
        ),
        grade="C",
        headroom=WATCH if heavy else CLEAR,
    )


@rule(
    "room/glass",
    trips="""
[tank]
length = "120 cm"
height = "60 cm"
glass = "6 mm"
""",
    clears="",
    sources=(SAFETY_FACTOR.source,),
)
def glass(facts: Facts) -> Iterator[Finding]:
    """Is the stated glass thin for the height of the water?

    Mechanism.  Water presses on the panes with its height; stress grows with height cubed and falls with
    thickness squared.  Glass under lasting load is given a safety factor of 3.8.

    Evidence.  Stilwell 2001 after Roark's plate formulas; usual thicknesses printed by Rother 1983 lie within
    7 %.

    Limits.  The formula takes the pane as held on all four edges, so a rimless pane bends more than it says.
    A tank bought whole is its maker's business (DIN 32622).  Nothing here replaces a maker's or an engineer's
    word.
    """
    factor, stated = facts.figures.get("glass_safety_factor"), facts.plan.tank.glass_mm
    if factor is None or stated is None:
        return
    headroom = headroom_between(factor.interval.value, GLASS_BREAKS, SAFETY_FACTOR / 2, SAFETY_FACTOR)
    if factor.interval.value < SAFETY_FACTOR:
        headroom = min(headroom, WATCH)
    yield Finding(
        "room/glass",
        level_of(headroom),
        say(
            "Panes of {stated:g} mm have a safety factor of about {factor} under this water; "
            "{safety_factor:g} is usual, and that with a braced rim.",
            stated=stated,
            factor=plain(factor.interval.value),
            safety_factor=SAFETY_FACTOR,
        ),
        say(
            "Do not fill it before that is settled: check the thickness with a rule, and if it is right ask "
            "the maker what it may be filled to."
        ),
        grade="C",
        headroom=headroom,
    )


@rule(
    "room/furnishing",
    trips="""
[[hardscape]]
kind = "granite"
mass = "140 kg"
""",
    clears="",
    sources=(_PRACTICE,),
)
def furnishing(facts: Facts) -> Iterator[Finding]:
    """Do bed and stones leave room to swim?

    Mechanism.  A bed takes its whole depth and a heap of stones the gaps in it, so the space that fish swim
    in shrinks faster than the water does; what is left is also harder to clean and to catch animals in.

    Evidence.  Geometry; loose stones leave some 36 % of a heap to the water (random close packing).

    Limits.  How much furnishing is too much is common practice: half the tank open is plenty, a third just
    holds.  Animals that live in rubble want more of it.  A deep bed may also rot below; that is not judged.
    """
    figure = facts.figures.get("open_share")
    if figure is None:
        return
    share = max(0.0, figure.interval.value)
    headroom = max(NO_STOP, headroom_between(share, stop=0.0, holds=JUST_OPEN, safe=PLENTY_OPEN))
    yield Finding(
        "room/furnishing",
        level_of(headroom),
        say(
            "Bed and stones take {taken:.0%} of the tank; {left:.0%} is left to swim in.",
            taken=1 - share,
            left=share,
        ),
        say("Take out stones or make the bed shallower, until about half the tank is open."),
        grade="D",
        headroom=headroom,
    )


@rule(
    "room/volume",
    sources=("geometry of the box; common practice, no source, for how well it is measured",),
    trips="""
[tank]
water_volume = "90 L"
""",
    clears="""
[tank]
water_volume = "123 L"
""",
)
def volume(facts: Facts) -> Iterator[Finding]:
    """Do the water that was measured and the tank's measures agree?

    Mechanism.  The measured volume wins for every figure.  Where it lies outside what the measures allow, one
    of the two is wrong, and it matters which: doses, hardness and heat all hang on it.

    Evidence.  Geometry.

    Limits.  Tape, depth of the bed and the water line are taken as known as well as a keeper knows them.
    """
    figure, geometry = facts.figures.get("volume_difference_l"), facts.figures.get("geometry_volume_l")
    if figure is None or geometry is None:
        return
    apart = figure.interval.low > 0 or figure.interval.high < 0
    gap = figure.interval.value
    measured = geometry.interval.value + gap
    line = next((s for s in figure.steps if s.name == WATER_LINE_STEP), None)
    if line:
        question = say("With a water line {line} cm below the rim both would agree. ", line=plain(line.value))
    elif gap > 0:
        question = say("Even filled to the rim it would not hold that much. ")
    else:
        question = ""
    yield Finding(
        "room/volume",
        "watch" if apart else "clear",
        say(
            "{measured} L were measured, but the tank's measures make {interval}.",
            measured=plain(measured, 3),
            interval=span(geometry.interval, "L", 3),
        ),
        say(
            "{question}Look at the measures first, then at the depth of the bed and whether all the "
            "water was counted.",
            question=question,
        ),
        grade="B",
        headroom=WATCH if apart else CLEAR,
    )
