"""Diseases that one taxon brings to another, and medicines that one bears and another does not."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.company.encounter import Encounter, Place, Side, findings
from stockcheck.rules.company.relations import carried_between
from stockcheck.rules.core import WATCH, Finding, rule
from stockcheck.rules.wording import grade_of, names_of, sentence

ARTHUR = "Arthur & Leonard 1970 (copper: amphipods and snails harmed from 0.02 to 0.04 mg/L)"


def infected(actor: Side, target: Side, where: Place) -> Encounter | None:
    """A disease that the actor may carry to the target."""
    del where
    carried = carried_between(actor.species, target.species)
    if carried is None:
        return None
    grade = "C" if not carried.basis.startswith("common practice") else "D"
    whom, susceptible = sentence(names_of(actor.species)), names_of(target.species)
    message = say(
        "{whom} may bring {susceptible} a disease: {disease}.",
        whom=whom,
        susceptible=susceptible,
        disease=carried.disease,
    )
    return Encounter(
        say("may carry disease"),
        actor.species,
        target.species,
        WATCH,
        message,
        carried.remedy,
        grade,
        (carried.basis,),
    )


@rule(
    "company/carriers",
    trips="""
[[animals]]
species = "Pterophyllum scalare"
count = 5
[[animals]]
species = "Symphysodon aequifasciatus"
count = 6
""",
    clears="""
[[animals]]
species = "Symphysodon aequifasciatus"
count = 6
[[animals]]
species = "Petitella rhodostoma"
count = 12
""",
)
def carriers(facts: Facts) -> Iterator[Finding]:
    """Does one taxon carry what another dies of?

    Mechanism.  A carrier is well with a parasite or virus that a companion has no answer to.  Quarantine
    shows some of them; for a virus there is no cure.

    Evidence.  The lines of ``data/carriers.csv``, each with its basis.

    Limits.  No diagnosis: sick animals are a vet's business.  Home-bred stock of known health carries less.
    """
    yield from findings("company/carriers", facts, infected, apart=lambda met: met.remedy)


def medicated(actor: Side, target: Side, where: Place) -> Encounter | None:
    """A fish that is often treated beside an invertebrate that the treatment kills."""
    del where
    treated, harmed = actor.species, target.species
    if treated.family not in PRONE_FAMILIES or harmed.kind == "fish" or not harmed.copper_sensitive:
        return None
    message = say(
        "{treated} catch white spot easily, and the copper or formalin that cures it kills {harmed}.",
        treated=sentence(names_of(treated)),
        harmed=names_of(harmed),
    )
    remedy = say("Quarantine newcomers, treat in a bare tank apart, and follow the label.")
    grade = grade_of((harmed, "copper_sensitive"))
    return Encounter(say("treated apart"), treated, harmed, 74.0, message, remedy, grade, (ARTHUR,))


#: Families with fine scales that are the first to show white spot (common practice, no source).
PRONE_FAMILIES = ("Botiidae", "Cobitidae")


@rule(
    "company/treatment",
    trips="""
[[animals]]
species = "Ambastaia sidthimunki"
count = 8
[[animals]]
species = "Caridina multidentata"
count = 6
""",
    clears="""
[[animals]]
species = "Corydoras panda"
count = 8
[[animals]]
species = "Caridina multidentata"
count = 6
""",
    sources=(ARTHUR,),
)
def treatment(facts: Facts) -> Iterator[Finding]:
    """Would a likely treatment of one harm another?

    Mechanism.  Copper at the dose that kills white spot (0.15 to 0.3 mg/L, from memory) is far above what
    shrimps and many snails bear (about 0.01 mg/L).  Loaches, fine-scaled and prone to white spot, are those
    most often treated, and themselves bear less of it.

    Evidence.  Copper harmed amphipods from 0.020 and a pond snail from 0.039 mg/L in soft water (Arthur &
    Leonard 1970).

    Limits.  The label and a vet come before any rule.
    """
    yield from findings("company/treatment", facts, medicated)
