"""Fins as food: nippers beside long-finned companions."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.company.encounter import Encounter, Place, Side, findings
from stockcheck.rules.core import FIX, Finding, headroom_between, rule
from stockcheck.rules.wording import grade_of, names_of, sentence, softly
from stockcheck.table.model import Species

PRACTICE = "common practice, no source"
SAXBY = "Saxby et al. 2010, Appl. Anim. Behav. Sci. 125:195"

#: How hard a group of the usual size nips at long fins; 0.5 just holds, 1 stops.
NIPS = {
    "yes": Constant(0.80, "1", PRACTICE, 0.5, 1.2),
    "sometimes": Constant(0.40, "1", PRACTICE, 0.2, 0.7),
}
#: Too few to chase one another, and well more than enough.
TOO_FEW = Constant(1.2, "1", SAXBY + " (tiger barbs: better in larger groups); size from memory", 1.0, 2.0)
PLENTY = Constant(0.8, "1", SAXBY + " (tiger barbs: better in larger groups); size from memory", 0.6, 1.0)
PLENTY_FROM = Constant(1.5, "times the smallest group", PRACTICE)
#: A victim more than twice the nipper's length, or quick enough, is bothered less.
SLOW = Constant(1.1, "1", PRACTICE)


def nipped(actor: Side, target: Side, where: Place) -> Encounter | None:
    """Long fins within reach of a nipper."""
    del where
    nipper, victim = actor.species, target.species
    if nipper.fin_nipper not in NIPS or not victim.long_fins or victim.kind == "snail":
        return None
    least = nipper.group_min or 1
    few, plenty = actor.count < least, actor.count >= PLENTY_FROM * least and least > 1
    strength = NIPS[nipper.fin_nipper] * (TOO_FEW if few else PLENTY if plenty else 1.0)
    if victim.flow == "still":
        strength *= SLOW
    headroom = headroom_between(strength, 1.0, 0.5, 0.1)
    grade = grade_of((nipper, "fin_nipper"))
    sociable = nipper.social in ("shoal", "group")
    number = say("one is not enough") if actor.count == 1 else say("{count} are too few", count=actor.count)
    too_few = say("; {number} to keep it among themselves", number=number) if few and sociable else ""
    message = say(
        "{nipper} {verb} fins, and {victim} have long ones{too_few}.",
        nipper=sentence(names_of(nipper)),
        verb=softly(grade, say("nip"), say("are said to nip")),
        victim=names_of(victim),
        too_few=too_few,
    )
    remedy = _nipping_remedy(nipper, plenty)
    return Encounter(say("fins nipped"), nipper, victim, headroom, message, remedy, grade, (SAXBY,))


#: Families whose adults carry their gills outside, as plumes.
EXTERNAL_GILLS = ("Ambystomatidae",)


def plumes_bitten(actor: Side, target: Side, where: Place) -> Encounter | None:
    """Gill plumes within reach of fish."""
    del where
    biter, victim = actor.species, target.species
    if biter.kind != "fish" or victim.family not in EXTERNAL_GILLS:
        return None
    plumed = names_of(victim)
    message = say(
        "{plumes} carry their gills outside, and fish bite at them, {biter} too; {they} in "
        "turn snap at whatever moves near them.",
        plumes=sentence(plumed),
        biter=names_of(biter),
        they=plumed,
    )
    remedy = say("Keep {plumed} with their own kind.", plumed=plumed)
    return Encounter(say("gills bitten"), biter, victim, FIX, message, remedy, "D", (PRACTICE,))


#: Tempers of which more only makes it worse.
_NOT_MORE_OF = ("predatory", "aggressive", "territorial")


def _nipping_remedy(nipper: Species, plenty: bool) -> str:
    least = nipper.group_min or 1
    if plenty or nipper.social not in ("shoal", "group") or nipper.temperament in _NOT_MORE_OF:
        return say("Part them.")
    crowd = int(PLENTY_FROM * least + 0.5)
    if nipper.fin_nipper == "sometimes":
        return say("Part them, or raise the nippers to {crowd}: a crowd chases its own.", crowd=crowd)
    return say("Part them. A crowd of {crowd} chases its own more, but not only.", crowd=crowd)


@rule(
    "company/fin-nipping",
    trips="""
[[animals]]
species = "Puntigrus tetrazona"
count = 6
[[animals]]
species = "Pterophyllum scalare"
count = 1
""",
    clears="""
[[animals]]
species = "Puntigrus tetrazona"
count = 12
[[animals]]
species = "Botia striata"
count = 5
""",
    sources=(SAXBY,),
)
def fin_nipping(facts: Facts) -> Iterator[Finding]:
    """Are there fin-nippers beside long fins?

    Mechanism.  Some fish bite at anything that trails.  In a group of their own they spend it on one another;
    too few of them turn to their companions.  Slow, long-finned fish pay for it with fins, then with fungus.

    Evidence.  Tiger barbs behaved better in larger groups (Saxby et al. 2010).  Who nips is the table's
    trait.

    Limits.  No study measured fins lost; the sizes are judgement.
    """
    yield from findings("company/fin-nipping", facts, nipped)


@rule(
    "company/gill-plumes",
    trips="""
[heater]
setpoint = "18 degC"
[[animals]]
species = "Ambystoma mexicanum"
count = 1
[[animals]]
species = "Carassius auratus"
count = 3
""",
    clears="""
[heater]
setpoint = "18 degC"
[[animals]]
species = "Ambystoma mexicanum"
count = 2
""",
    sources=(PRACTICE,),
)
def gill_plumes(facts: Facts) -> Iterator[Finding]:
    """Are there fish beside an animal that carries its gills outside?

    Mechanism.  Gill plumes look like food and cannot be drawn in; what is bitten grows back slowly and goes
    mouldy meanwhile.  The plumed animal snaps at movement and swallows what fits, spines and all.

    Evidence.  Common practice, no source.

    Limits.  Which fish bites is chance: some tanks go well for months.
    """
    yield from findings("company/gill-plumes", facts, plumes_bitten, by="target")
