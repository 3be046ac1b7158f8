"""Taxa that interbreed in one tank."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from stockcheck.facts.model import Facts
from stockcheck.rules.company.encounter import Encounter, Place, Side, place, sides
from stockcheck.rules.company.relations import hybrid_of
from stockcheck.rules.core import WATCH, Finding, rule
from stockcheck.rules.wording import names_of, sentence


def crossed(one: Side, other: Side, where: Place) -> Encounter | None:
    """Two taxa that may have young together, if there can be a male of one and a female of the other."""
    del where
    relation = hybrid_of(one.species, other.species)
    if relation is None or not _may_meet(one, other):
        return None
    grade = "C" if not relation.basis.startswith("common practice") else "D"
    message = (
        f"{sentence(names_of(one.species))} and {names_of(other.species)}: {relation.remarks}. "
        "Their young are neither, and should not be passed on as either."
    )
    remedy = "Keep one of the two, or one sex in all."
    return Encounter(
        "may interbreed", one.species, other.species, WATCH, message, remedy, grade, (relation.basis,)
    )


def _may_meet(one: Side, other: Side) -> bool:
    def crosses(father: Side, mother: Side) -> bool:
        return bool(father.may_be_male and (mother.females or mother.unsexed))

    return crosses(one, other) or crosses(other, one)


@rule(
    "company/hybrids",
    trips="""
[[animals]]
species = "Poecilia reticulata"
males = 2
females = 4
[[animals]]
species = "Poecilia wingei"
males = 2
females = 4
""",
    clears="""
[[animals]]
species = "Poecilia reticulata"
males = 6
[[animals]]
species = "Poecilia wingei"
males = 6
""",
)
def hybrids(facts: Facts) -> Iterator[Finding]:
    """Would two taxa interbreed?

    Mechanism.  Near relatives court one another, most of all where a mate of their own kind is missing.  The
    young live, look like something, and end up in the trade under one name.

    Evidence.  The pairs of ``data/hybrids.csv``, each with its basis; most are common practice.

    Limits.  A missing pair is not a promise.
    """
    for one, other in combinations(sides(facts), 2):
        encounter = crossed(one, other, place(facts))
        if encounter is not None:
            yield encounter.finding("company/hybrids")
