"""Shrimps and snails as food."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.company.encounter import Encounter, Place, Side, findings
from stockcheck.rules.core import FIX, NO_STOP, WATCH, Finding, headroom_between, rule
from stockcheck.rules.wording import grade_of, names_of, sentence, softly

PRACTICE = "common practice, no source"

#: Shrimp length over fish length, for fish that eat grown shrimps: bitten to pieces as well as swallowed.
SHRIMP_SURE = Constant(0.20, "1", PRACTICE)
SHRIMP_AT_RISK = Constant(0.50, "1", PRACTICE)
SHRIMP_POSSIBLE = Constant(0.90, "1", PRACTICE)
#: Dense cover and moss spare some shrimps.
HIDDEN = Constant(1.2, "1", PRACTICE, 1.0, 1.5)


#: What an eater of grown shrimps takes for one; a crab only when it is small enough to swallow.
_SHRIMP_LIKE = ("shrimp", "crab")


def shrimps_hunted(actor: Side, target: Side, where: Place) -> Encounter | None:
    """Shrimps and small crabs before a fish, frog or crayfish."""
    eater, prey = actor.species, target.species
    if prey.kind not in _SHRIMP_LIKE or eater.eats_shrimp == "no":
        return None
    if prey.kind == "crab" and eater.eats_shrimp != "adults":
        return None
    grade = grade_of((eater, "eats_shrimp"))
    if eater.eats_shrimp == "adults":
        return _grown_shrimps(actor, target, where, grade)
    if eater.group == "puffer" or eater.temperament == "aggressive":
        message = say(
            "{eater} {verb} even grown {prey} to pieces and eat the young.",
            eater=sentence(names_of(eater)),
            verb=softly(grade, say("bite"), say("are said to bite")),
            prey=names_of(prey),
        )
        return Encounter(say("shrimps bitten"), eater, prey, FIX, message, say("Keep them apart."), grade)
    hidden = where.cover == "dense" or where.moss
    message = say(
        "{eater} {verb} the young of {prey} and leave the grown ones alone: the colony keeps but "
        "hardly grows.",
        eater=sentence(names_of(eater)),
        verb=softly(grade, say("eat"), say("are said to eat")),
        prey=names_of(prey),
    )
    remedy = say("Dense moss where the young can stay out of sight.")
    return Encounter(say("shrimplets eaten"), eater, prey, 80.0 if hidden else WATCH, message, remedy, grade)


def _grown_shrimps(actor: Side, target: Side, where: Place, grade: str) -> Encounter | None:
    eater, prey = actor.species, target.species
    if actor.largest_mm is None or target.smallest_mm is None:
        return None
    ratio = target.smallest_mm / actor.largest_mm
    effective = ratio * (HIDDEN if where.cover == "dense" or where.moss else 1.0)
    headroom = headroom_between(effective, SHRIMP_SURE, SHRIMP_AT_RISK, 2 * SHRIMP_POSSIBLE - SHRIMP_AT_RISK)
    if grade == "D" and eater.piscivore != "yes":  # said of a fish that is no hunter: not enough to stop
        headroom = max(headroom, NO_STOP)
    verb = say("eat") if headroom < 50 else say("may pick at")
    message = say(
        "{eater} {verb} grown {prey}: {smallest_mm:.0f} mm of shrimp before {largest_mm:.0f} mm.",
        eater=sentence(names_of(eater)),
        verb=softly(grade, verb, say("are said to eat")),
        prey=names_of(prey),
        smallest_mm=target.smallest_mm,
        largest_mm=actor.largest_mm,
    )
    remedy = say("Keep them apart; in a planted tank larger shrimps may last longer, not for good.")
    return Encounter(say("shrimps eaten"), eater, prey, headroom, message, remedy, grade)


@rule(
    "company/shrimps",
    trips="""
[[animals]]
species = "Carinotetraodon travancoricus"
count = 6
[[animals]]
species = "Neocaridina davidi"
count = 20
""",
    clears="""
[[animals]]
species = "Otocinclus vittatus"
count = 6
[[animals]]
species = "Neocaridina davidi"
count = 20
""",
)
def shrimps(facts: Facts) -> Iterator[Finding]:
    """Will the shrimps be eaten?

    Mechanism.  Fish that eat grown shrimps do so by size: a fifth of the fish's length is a mouthful, up to
    half is bitten to pieces.  Puffers crush and aggressive fish bite even what they cannot swallow.  Most
    other fish eat only the young; dense moss keeps enough of those out of sight.

    Evidence.  The table's trait; common practice, no source, for the cuts.

    Limits.  A single fish may learn what its kind does not do.
    """
    yield from findings("company/shrimps", facts, shrimps_hunted, by="target")


def snails_hunted(actor: Side, target: Side, where: Place) -> Encounter | None:
    """Snails before a fish or snail that eats them."""
    del where
    eater, prey = actor.species, target.species
    if prey.kind not in ("snail", "bivalve") or not eater.eats_snails:
        return None
    grade = grade_of((eater, "eats_snails"))
    big = (target.largest_mm or 0) > 0.5 * (actor.largest_mm or 0)
    opens = eater.group in SHELL_OPENERS or (eater.kind == "snail" and eater.diet == "carnivore")
    whom, prey_names = sentence(names_of(eater)), names_of(prey)
    verb = softly(grade, say("eat"), say("are said to eat"))
    if big:
        message = say(
            "{whom} {verb} snails: {prey_names} are large for them, but lose feelers and young.",
            whom=whom,
            verb=verb,
            prey_names=prey_names,
        )
    elif opens:
        message = say(
            "{whom} {verb} snails: {prey_names} will go.", whom=whom, verb=verb, prey_names=prey_names
        )
    else:
        message = say(
            "{whom} {verb} snails with a thin shell and young ones: {prey_names} may become fewer.",
            whom=whom,
            verb=verb,
            prey_names=prey_names,
        )
    remedy = say("Keep the snails elsewhere, unless they are meant as food.")
    return Encounter(
        say("snails eaten"), eater, prey, FIX if opens and not big else WATCH, message, remedy, grade
    )


#: Groups that suck snails from the shell or crush it.
SHELL_OPENERS = ("loach", "puffer")


@rule(
    "company/snails",
    trips="""
[[animals]]
species = "Anentome helena"
count = 5
[[animals]]
species = "Planorbella duryi"
count = 10
""",
    clears="""
[[animals]]
species = "Corydoras panda"
count = 8
[[animals]]
species = "Vittina natalensis"
count = 3
""",
)
def snails(facts: Facts) -> Iterator[Finding]:
    """Will the snails be eaten?

    Mechanism.  Loaches suck snails from the shell, puffers crush them, assassin snails drill after them.  A
    snail more than half as long as its hunter survives longer, with feelers bitten.

    Evidence.  The table's trait.

    Limits.  Fed fish may ignore snails for months.
    """
    yield from findings("company/snails", facts, snails_hunted)
