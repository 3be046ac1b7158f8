"""Taxa that interbreed in one tank."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.company.encounter import Encounter, Place, Side, finding_of, place, sides
from stockcheck.rules.company.relations import hybrid_of
from stockcheck.rules.core import WATCH, Finding, rule
from stockcheck.rules.wording import listed, names_of, sentence
from stockcheck.table.model import Species


def crossed(one: Side, other: Side, where: Place) -> Encounter | None:
    """Two taxa that may have young together, if there can be a male of one and a female of the other."""
    del where
    relation = hybrid_of(one.species, other.species)
    if relation is None or not _may_meet(one, other):
        return None
    grade = "C" if not relation.basis.startswith("common practice") else "D"
    message = _said([one.species, other.species], relation.remarks)
    remedy = say("Keep one of them, or one sex in all.")
    return Encounter(
        say("may interbreed"),
        one.species,
        other.species,
        WATCH,
        message,
        remedy,
        grade,
        (relation.basis,),
        mutual=True,
    )


def _said(taxa: list[Species], remarks: str) -> str:
    return say(
        "{names}: {remarks}. Hybrids should not be passed on as either.",
        names=sentence(listed([names_of(taxon) for taxon in taxa])),
        remarks=remarks,
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
    alike: dict[str, list[Encounter]] = {}
    for one, other in combinations(sides(facts), 2):
        relation = hybrid_of(one.species, other.species)
        encounter = crossed(one, other, place(facts))
        if encounter is not None and relation is not None:
            alike.setdefault(relation.remarks, []).append(encounter)
    for remarks, encounters in alike.items():
        met = [taxon for encounter in encounters for taxon in (encounter.actor, encounter.target)]
        taxa = list({taxon.slug: taxon for taxon in met}.values())
        finding = finding_of(encounters, "company/hybrids")
        yield replace(finding, message=_said(taxa, remarks), species=tuple(taxon.slug for taxon in taxa))
