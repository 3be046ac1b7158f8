"""Males of two taxa that take one another for rivals."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.company.encounter import Encounter, Place, Side, place, sides
from stockcheck.rules.company.pressure import BASE, PRACTICE, Rivals, rivalry
from stockcheck.rules.company.relations import lookalike_of
from stockcheck.rules.company.rivalry import shown
from stockcheck.rules.core import NO_STOP, Finding, rule
from stockcheck.rules.wording import name_of, names_of, sentence

#: Tempers from mild to fierce; the fiercer of two sets the tone.
_TEMPERS = tuple(BASE)


def mistaken(one: Side, other: Side, where: Place) -> Encounter | None:
    """Males of two look-alike taxa as rivals of one another."""
    relation = lookalike_of(one.species, other.species)
    if relation is None or not one.may_be_male or not other.may_be_male:
        return None
    fiercer, milder = sorted((one, other), key=_temper, reverse=True)
    if _temper(fiercer) < 0:
        return None
    lengths = [side.species.adult_male_mm or side.largest_mm or 0.0 for side in (one, other)]
    pressure = rivalry(
        Rivals(
            trait=fiercer.species.male_male,
            count=max(2, _males(one) + _males(other)),
            body_cm=max(lengths) / 10 or None,
            floor_cm2=where.floor_cm2,
            run_cm=where.length_cm,
            cover=where.cover,
            sharing=fiercer.species.social == "shoal",
            nipped_fins=milder.species.long_fins,
            lookalikes=True,
            other_trait=milder.species.male_male,
        )
    )
    message = say(
        "{one} and {other}: {remarks}. {shown}",
        one=sentence(names_of(fiercer.species)),
        other=names_of(milder.species),
        remarks=relation.remarks,
        shown=shown(pressure),
    )
    remedy = say(
        "Choose one of the two: {one} or {other}",
        one=names_of(fiercer.species),
        other=names_of(milder.species),
    )
    if milder.species.female_female not in ("territorial", "lethal"):
        remedy += say("; or only females of the {species}", species=name_of(milder.species))
    remedy += "."
    headroom = pressure.headroom
    if fiercer.species.male_male != milder.species.male_male:  # one that gives way is chased, not killed
        headroom = max(headroom, NO_STOP)
    return Encounter(
        say("rival males"),
        fiercer.species,
        milder.species,
        headroom,
        message,
        remedy,
        "D",
        (PRACTICE,),
        mutual=True,
    )


def _temper(side: Side) -> int:
    return _TEMPERS.index(side.species.male_male) if side.species.male_male in BASE else -1


def _males(side: Side) -> int:
    """Males as stated, and half of the unsexed."""
    return side.males + (side.unsexed + 1) // 2


@rule(
    "company/lookalike-males",
    trips="""
[[animals]]
species = "Betta splendens"
males = 1
[[animals]]
species = "Trichogaster lalius"
males = 1
""",
    clears="""
[[animals]]
species = "Betta splendens"
males = 1
[[animals]]
species = "Pangio kuhlii"
count = 8
""",
)
def lookalike_males(facts: Facts) -> Iterator[Finding]:
    """Do males of two taxa take one another for rivals?

    Mechanism.  A male answers colour, fins and posture, not a name.  Livebearers of one genus court and chase
    across species; labyrinth fish contest the same nest sites; sharks of like shape attack one another.  The
    pressure is that of rivals of the fiercer taxon, counted together, times a likeness of 0.6, and less where
    the other gives way sooner: a fight takes two.

    Evidence.  Common practice, no source; the pairs are listed in ``data/lookalikes.csv``.

    Limits.  A missing pair is not a promise: watch any two that look alike to you.
    """
    for one, other in combinations(sides(facts), 2):
        encounter = mistaken(one, other, place(facts))
        if encounter is not None:
            yield encounter.finding("company/lookalike-males")
