"""Ground that is held: territories packed into the floor, pairs that breed, caves to go round."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.company.encounter import (
    Encounter,
    Place,
    Side,
    place,
    share_hours,
    shared_layers,
    sides,
)
from stockcheck.rules.company.keeping import crowds
from stockcheck.rules.company.pressure import floor_wanted
from stockcheck.rules.core import NO_STOP, WATCH, Finding, headroom_between, level_of, rule
from stockcheck.rules.wording import grade_of, listed, name_of, names_of, sentence, softly
from stockcheck.table.model import Species

PRACTICE = "common practice, no source"
OLDFIELD = "Oldfield 2011, 10.1080/10888705.2011.600664"

#: Floor wanted by all territory holders over the floor there is.
PACKED_STOP = Constant(4.0, "1", PRACTICE)
PACKED_HOLDS = Constant(1.2, "1", PRACTICE)
PACKED_SAFE = Constant(0.5, "1", PRACTICE)

#: Tank length over the breeding fish's own, where companions can still keep out of the way.
BREEDING_STOP = Constant(2.0, "body lengths", PRACTICE)
BREEDING_HOLDS = Constant(7.0, "body lengths", PRACTICE)
BREEDING_SAFE = Constant(14.0, "body lengths", PRACTICE)
#: A companion this many times the parents' length is not driven.
LARGE_NEIGHBOUR = Constant(2.0, "1", PRACTICE)
#: Fierce parents want this much more of it.
FIERCE = Constant(1.4, "1", PRACTICE)

GUARDS = ("cave-spawner", "substrate-spawner", "bubble-nest", "bubble-nester")
FLOOR_LAYERS, OPEN_LAYERS = ("bottom", "lower"), ("middle", "upper", "surface")


class Holding(NamedTuple):
    """The territories of one taxon: how many, and the floor that each wants (cm2)."""

    side: Side
    number: int
    each_cm2: float

    @property
    def total_cm2(self) -> float:
        return self.number * self.each_cm2


def holding_of(side: Side) -> Holding | None:
    """A taxon's territories: one a male (half of the unsexed), or one a female where females hold them.

    None in a crowd of fighters, in which nobody gets to hold one.
    """
    species = side.species
    if species.kind in ("snail", "shrimp", "bivalve"):
        return None
    holders = side.males + (side.unsexed + 1) // 2
    trait = species.male_male
    if not holders:
        holders, trait = side.females, species.female_female
    if trait not in ("territorial", "lethal") or not holders or side.largest_mm is None:
        return None
    if crowds(species) and side.count >= (species.group_min or 1):
        return None
    return Holding(side, holders, floor_wanted(trait, side.largest_mm / 10).value)


def stratum(species: Species) -> str:
    """Whether a taxon holds ground or open water: by the first, most used layer of its zone.

    Cichlids hold ground wherever they reach it.
    """
    reach = species.zone if species.family == "Cichlidae" else species.zone[:1]
    return "floor" if set(reach) & set(FLOOR_LAYERS) else "open water"


def ground(species: Species) -> str:
    """What a taxon contests: the floor, whoever lives on it; open water only with its own family."""
    return "floor" if stratum(species) == "floor" else species.family


def neighbours(one: Side, other: Side, where: Place) -> Encounter | None:
    """Two taxa that hold territories in the same part of the tank at the same hours."""
    if ground(one.species) != ground(other.species) or not share_hours(one.species, other.species):
        return None
    holdings = holding_of(one), holding_of(other)
    if holdings[0] is None or holdings[1] is None:
        return None
    wanted = holdings[0].total_cm2 + holdings[1].total_cm2
    headroom = WATCH
    room = say("{wanted:.0f} cm2 of floor keeps them apart", wanted=wanted)
    if where.floor_cm2:
        headroom = headroom_between(wanted / where.floor_cm2, PACKED_STOP, PACKED_HOLDS, PACKED_SAFE)
        room += say(", the tank has {floor_cm2:.0f}", floor_cm2=where.floor_cm2)
    message = say(
        "{one} and {other} both hold territories {where}: {room}.",
        one=sentence(names_of(one.species)),
        other=names_of(other.species),
        where=say("on the floor") if stratum(one.species) == "floor" else say("in the open water"),
        room=room,
    )
    remedy = say("One territorial kind in each layer, or a longer tank broken up by rocks and wood.")
    grade = grade_of((one.species, "male_male"), (other.species, "male_male"))
    return Encounter(
        say("rival territories"), one.species, other.species, headroom, message, remedy, grade, mutual=True
    )


@rule(
    "company/territories",
    trips="""
[tank]
length = "60 cm"
width = "30 cm"
height = "30 cm"
[[animals]]
species = "Mikrogeophagus ramirezi"
males = 1
females = 1
[[animals]]
species = "Apistogramma cacatuoides"
males = 1
females = 2
""",
    clears="""
[tank]
length = "120 cm"
width = "50 cm"
height = "50 cm"
glass = "10 mm"
[[animals]]
species = "Mikrogeophagus ramirezi"
males = 1
females = 1
""",
    sources=(OLDFIELD,),
)
def territories(facts: Facts) -> Iterator[Finding]:
    """Do the territories of several taxa fit on the floor?

    Mechanism.  Fish that hold ground at the same hours in the same part of the tank must fit beside one
    another.  Each male (or pair) wants floor in proportion to his length; what all want is set against the
    floor there is: up to half of it is easy, more than 1.2 times it does not hold.

    Evidence.  In Midas cichlids only much more room with structure lowered aggression (Oldfield 2011); the
    floor each kind wants is common practice.

    Open water is contested within a family only: a gourami's nest is nothing to a swordtail.

    Limits.  Rivals of one taxon are judged by the rivalry rules.  Sight lines count for more than area.
    """
    if not facts.floor_cm2:
        return
    held = [holding for side in sides(facts) if (holding := holding_of(side))]
    for part in dict.fromkeys(ground(holding.side.species) for holding in held):
        for hours in ("diurnal", "nocturnal"):
            present = [
                holding
                for holding in held
                if ground(holding.side.species) == part
                and holding.side.species.activity in (hours, "crepuscular")
            ]
            if len(present) > 1:
                yield _packing(present, part, facts.floor_cm2)


def _packing(present: list[Holding], part: str, floor_cm2: float) -> Finding:
    wanted = sum(holding.total_cm2 for holding in present)
    headroom = headroom_between(wanted / floor_cm2, PACKED_STOP, PACKED_HOLDS, PACKED_SAFE)
    species = [holding.side.species for holding in present]
    sums = ", ".join(
        say(
            "{number} of {each_cm2:.0f} cm2 ({species})",
            number=holding.number,
            each_cm2=holding.each_cm2,
            species=name_of(holding.side.species),
        )
        for holding in present
    )
    grade = grade_of(*((taxon, "male_male") for taxon in species))
    if grade == "D":
        headroom = max(headroom, NO_STOP)
    where = say("on the floor") if part == "floor" else say("in the open water")
    return Finding(
        "company/territories",
        level_of(headroom),
        say(
            "{names} {verb} territories {where}: {sums} make {wanted:.0f} cm2, and the tank has "
            "{floor_cm2:.0f}.",
            names=sentence(listed([names_of(taxon) for taxon in species])),
            verb=softly(grade, say("hold"), say("are said to hold")),
            where=where,
            sums=sums,
            wanted=wanted,
            floor_cm2=floor_cm2,
        ),
        say(
            "Keep one territorial kind in each layer, or take a longer tank broken up by rocks and "
            "wood ({wanted:.0f} cm2 of floor just holds).",
            wanted=wanted / float(PACKED_HOLDS),
        ),
        tuple(taxon.slug for taxon in species),
        grade,
        (OLDFIELD,),
        headroom,
    )


def breeds_fiercely(species: Species) -> bool:
    """Whether parents of this taxon guard eggs or young against everyone."""
    guards = species.reproduction in GUARDS or "mouthbrooder" not in species.reproduction
    temper = species.male_male in ("territorial", "lethal") or species.temperament in (
        "territorial",
        "aggressive",
    )
    return species.family == "Cichlidae" and guards and temper and species.kind == "fish"


def guarded(actor: Side, target: Side, where: Place) -> Encounter | None:
    """A pair with eggs or young, and a companion in the same layers."""
    parents, neighbour = actor.species, target.species
    if not breeds_fiercely(parents) or neighbour.kind != "fish" or actor.largest_mm is None:
        return None
    if (target.smallest_mm or 0.0) > LARGE_NEIGHBOUR * actor.largest_mm:
        return None
    paired = (actor.males and actor.females) or actor.unsexed > 1
    layers = shared_layers(parents, neighbour)
    if not paired or not layers:
        return None
    layer = "layer" if len(layers) == 1 else "layers"
    headroom = WATCH
    room = ""
    fierce = float(FIERCE) if parents.temperament == "aggressive" else 1.0
    if where.length_cm:
        lengths = where.length_cm / (actor.largest_mm / 10)
        headroom = headroom_between(
            lengths / fierce, float(BREEDING_STOP), float(BREEDING_HOLDS), float(BREEDING_SAFE)
        )
        room = say(
            " The tank is {lengths:.0f} of their lengths long; {holds:.0f} just holds, {easy:.0f} is easy.",
            lengths=lengths,
            holds=fierce * BREEDING_HOLDS,
            easy=fierce * BREEDING_SAFE,
        )
    grade = grade_of((parents, "reproduction"), (parents, "temperament"))
    message = say(
        "A pair of {parents} with eggs or young {verb} {neighbour} out of the {layers} {layer}.{room}",
        parents=names_of(parents),
        verb=softly(grade, say("drives"), say("is said to drive")),
        neighbour=names_of(neighbour),
        layers=listed(layers),
        layer=layer,
        room=room,
    )
    needed = fierce * BREEDING_SAFE * actor.largest_mm / 10
    remedy = say(
        "A tank of {needed:.0f} cm, or no companions in those layers, or one sex of {parents}.",
        needed=needed,
        parents=names_of(parents),
    )
    return Encounter(say("drives off when breeding"), parents, neighbour, headroom, message, remedy, grade)


@rule(
    "company/breeding-pairs",
    trips="""
[tank]
length = "60 cm"
width = "30 cm"
height = "30 cm"
[[animals]]
species = "Pelvicachromis pulcher"
males = 1
females = 1
[[animals]]
species = "Corydoras panda"
count = 6
""",
    clears="""
[[animals]]
species = "Pelvicachromis pulcher"
males = 1
[[animals]]
species = "Corydoras panda"
count = 6
""",
)
def breeding_pairs(facts: Facts) -> Iterator[Finding]:
    """Will a breeding pair leave room for the others?

    Mechanism.  Cichlids that guard eggs or young clear the ground around them of everyone, large or
    small.  How far they can drive is a matter of their length and temper; where the tank ends there, the
    companions sit in a corner.

    Evidence.  Common practice, no source: 7 body lengths of tank just hold, 14 are easy, fierce parents want
    1.4 times that.

    Limits.  A pair may never spawn; a keeper should plan for the day it does.
    """
    present = sides(facts)
    where = place(facts)
    for parents in present:
        others = [side for side in present if side is not parents]
        met = [encounter for other in others if (encounter := guarded(parents, other, where))]
        if met:
            driven = listed([names_of(encounter.target) for encounter in met])
            message = met[0].message.replace(f"{names_of(met[0].target)} out of", f"{driven} out of")
            finding = met[0]._replace(message=message).finding("company/breeding-pairs")
            yield replace(finding, species=(parents.species.slug, *(one.target.slug for one in met)))


@rule(
    "company/caves",
    trips="""
[[animals]]
species = "Hypancistrus zebra"
males = 3
females = 3
""",
    clears="""
[tank]
caves = 4
[[animals]]
species = "Hypancistrus zebra"
males = 3
females = 3
""",
)
def caves(facts: Facts) -> Iterator[Finding]:
    """Is there a cave for each that holds one?

    Mechanism.  Cave spawners fight over the cave, not over the floor; a cave or more for each male takes the
    reason away.

    Evidence.  Common practice, no source.

    Limits.  A cave that fits one kind (its own width and height) does not fit another.
    """
    holders = [
        holding
        for side in sides(facts)
        if side.species.reproduction == "cave-spawner" and (holding := holding_of(side))
    ]
    wanted = sum(holding.number for holding in holders)
    there = facts.plan.tank.caves
    if wanted < 2:
        return
    headroom = WATCH if there < wanted else 100.0
    who = listed([f"{names_of(holding.side.species)} ({holding.number})" for holding in holders])
    yield Finding(
        "company/caves",
        "watch" if there < wanted else "clear",
        say(
            "{who} want caves, {wanted} in all, and the plan has {there}.",
            who=sentence(who),
            wanted=wanted,
            there=there or "none",
        ),
        say("{wanted} more caves, each just wide enough for one, openings apart.", wanted=wanted - there),
        tuple(holding.side.species.slug for holding in holders),
        headroom=headroom,
    )
