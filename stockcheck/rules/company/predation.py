"""Who fits into whose mouth, whose claws, and the filter's intake."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.company.encounter import Encounter, Place, Side, findings
from stockcheck.rules.core import NO_STOP, WATCH, Finding, headroom_between, rule
from stockcheck.rules.wording import grade_of, listed, name_of, names_of, seen, sentence, softly
from stockcheck.table.model import Species

PRACTICE = "common practice, no source"
GAETA = "Gaeta et al. 2018, 10.1371/journal.pone.0194092"
DORNER = "Dorner & Wagner 2003, J. Fish Biol. 62"
MIHALITSIS = "Mihalitsis & Bellwood 2017"

#: Prey length over predator length, for hunters of fish: sure to be eaten, at risk up to, possible up to.
#: Median 0.10 to 0.20 and 99th percentile 0.32 to 0.46 over seven freshwater piscivores; a perch took 0.59.
SURE = Constant(0.20, "1", GAETA + " (median of prey lengths); cut from memory", 0.10, 0.25)
AT_RISK = Constant(0.35, "1", GAETA + " (99th percentile); cut from memory", 0.32, 0.46)
POSSIBLE = Constant(0.45, "1", f"{GAETA}; {DORNER}; cut from memory", 0.40, 0.60)
#: The same for fish that take small fish when they come by, and are not built for it.
SURE_CASUAL = Constant(0.12, "1", PRACTICE, 0.08, 0.16)
AT_RISK_CASUAL = Constant(0.25, "1", PRACTICE, 0.20, 0.32)
POSSIBLE_CASUAL = Constant(0.34, "1", PRACTICE, 0.28, 0.45)
#: The same for fish that hunt nothing, and swallow with their food what fits: fry, and the tiniest of fish.
SURE_GULPED = Constant(0.02, "1", PRACTICE, 0.01, 0.03)
AT_RISK_GULPED = Constant(0.08, "1", PRACTICE, 0.06, 0.12)
POSSIBLE_GULPED = Constant(0.15, "1", "from memory: fish that hunt none eat fry to 0.15", 0.12, 0.20)
#: By what the table says of a taxon's taste for fish.
REACH = {
    "yes": (SURE, AT_RISK, POSSIBLE),
    "small": (SURE_CASUAL, AT_RISK_CASUAL, POSSIBLE_CASUAL),
    "fry": (SURE_GULPED, AT_RISK_GULPED, POSSIBLE_GULPED),
}
#: How a prey's build counts against the mouth: a deep body stops it, a long thin one slips in.  What is
#: possible for a deep body agrees with the gape: its depth is about 0.42 of its length, a hunter's gape 0.15.
BUILD = {
    "short-deep": Constant(
        1.35, "1", f"{GAETA} (fusiform taken larger than deep); size from memory", 1.1, 1.6
    ),
    "fusiform": Constant(1.0, "1", "definition"),
    "elongated": Constant(0.85, "1", "from memory: thin prey passes the gape", 0.7, 1.0),
    "eel-like": Constant(0.70, "1", "from memory: eel-like prey up to 0.6 of the predator", 0.55, 0.9),
    "none": Constant(1.0, "1", "definition"),
}
#: Catfish with plates and locking spines stick in a throat, and are mostly left alone.
ARMOUR = Constant(1.3, "1", PRACTICE, 1.0, 1.8)
ARMOURED_FAMILIES = ("Callichthyidae", "Loricariidae", "Doradidae")
#: A hunter of the night takes sleeping prey that it would not catch by day.
NIGHT = Constant(1.15, "1", PRACTICE, 1.0, 1.4)
#: Claws hold what a mouth cannot: prey length over the crayfish's or crab's.
CLAWS_SURE = Constant(0.25, "1", PRACTICE)
CLAWS_AT_RISK = Constant(0.60, "1", PRACTICE)
CLAWS_POSSIBLE = Constant(1.00, "1", PRACTICE)
#: Kinds that hunt with claws.
ARMED = ("crayfish", "crab")


def swallowed(actor: Side, target: Side, where: Place) -> Encounter | None:
    """A fish or amphibian in the mouth of another."""
    del where
    eater, prey = actor.species, target.species
    if eater.piscivore not in REACH or prey.kind not in ("fish", "amphibian"):
        return None
    if eater.kind in ARMED or actor.largest_mm is None or target.smallest_mm is None:
        return None
    ratio = target.smallest_mm / actor.largest_mm
    by_night = eater.activity == "nocturnal" and prey.activity == "diurnal" and eater.piscivore != "fry"
    counts = _build(prey) / (NIGHT if by_night else 1.0)
    sure, risk, possible = _reach(eater)
    headroom = headroom_between(ratio * counts, sure, risk, 2 * possible - risk)
    grade = grade_of((eater, "piscivore"))
    if not _may_stop(eater):
        headroom = max(headroom, NO_STOP)
    message = _eaten(actor, target, headroom, grade, by_night)
    least = _round_up(possible * actor.largest_mm / counts)
    remedy = say("Part them, or choose companions that grow to at least {least:.0f} mm.", least=least)
    return Encounter(say("eaten"), eater, prey, headroom, message, remedy, grade, (GAETA, DORNER, MIHALITSIS))


def _reach(eater: Species) -> tuple[float, float, float]:
    """The cuts for one taxon; at their low ends where a casual hunter is one by common practice alone."""
    cuts = REACH[eater.piscivore]
    if eater.piscivore == "yes" or seen(eater, "piscivore"):
        sure, risk, possible = (float(cut) for cut in cuts)
    else:
        sure, risk, possible = (cut.low for cut in cuts)
    return sure, risk, possible


def _may_stop(eater: Species) -> bool:
    """A hunter of fish, or one that a source says takes small ones."""
    return eater.piscivore == "yes" or (eater.piscivore == "small" and seen(eater, "piscivore"))


def _build(prey: Species) -> float:
    armour = ARMOUR if prey.family in ARMOURED_FAMILIES else 1.0
    return float(BUILD[prey.body_shape] * armour)


def _eaten(actor: Side, target: Side, headroom: float, grade: str, by_night: bool) -> str:
    """What happens, and the two lengths that it rests on."""
    eater, prey = actor.species, target.species
    assert actor.largest_mm and target.smallest_mm
    share = f"{target.smallest_mm / actor.largest_mm:.0%}"
    if eater.piscivore == "fry":
        return say(
            "{eater} hunt no fish, but swallow what fits: {smallest_mm:.0f} mm of {prey} is {share} "
            "of the {largest_mm:.0f} mm that they grow to.",
            eater=sentence(names_of(eater)),
            smallest_mm=target.smallest_mm,
            prey=name_of(prey),
            share=share,
            largest_mm=actor.largest_mm,
        )
    verb = say("will eat") if headroom <= 0 else say("can eat") if headroom < 50 else say("may try to eat")
    verb = softly(grade, verb, verb.replace("will eat", "are said to eat"))
    build = {"short-deep": say(", though deep in the body"), "eel-like": say(", and thin enough to slip in")}
    night = say("; it hunts at night, while they sleep") if by_night else ""
    later = say(" While it is young there may be peace; it will not last.") if actor.growing else ""
    return say(
        "{eater} {verb} {prey}: {smallest_mm:.0f} mm of prey is {share} of a {largest_mm:.0f} mm "
        "hunter{get}{night}.{later}",
        eater=sentence(names_of(eater)),
        verb=verb,
        prey=names_of(prey),
        smallest_mm=target.smallest_mm,
        share=share,
        largest_mm=actor.largest_mm,
        get=build.get(prey.body_shape, ""),
        night=night,
        later=later,
    )


def _round_up(length_mm: float) -> float:
    return 5.0 * -(-length_mm // 5)


@rule(
    "company/eaten",
    trips="""
[[animals]]
species = "Astronotus ocellatus"
count = 1
[[animals]]
species = "Paracheirodon innesi"
count = 12
""",
    clears="""
[[animals]]
species = "Trichogaster chuna"
males = 1
[[animals]]
species = "Paracheirodon innesi"
count = 12
""",
    sources=(GAETA, DORNER, MIHALITSIS),
)
def eaten(facts: Facts) -> Iterator[Finding]:
    """Does one fish fit into another's mouth?

    Mechanism.  A fish that eats fish takes what its gape lets through.  Prey up to a fifth of its length is
    daily bread, up to about a third is at risk, up to 45 % possible.  Fish that take small ones when they
    come by reach a quarter to a third; those that hunt none swallow what fits, up to 15 %.  A deep or
    armoured body counts as longer, an eel-like one as shorter, and a hunter of the night takes sleepers that
    it would miss by day.  Both are taken at adult length, whatever they measure today: a young hunter grows
    past the peace.

    Evidence.  Over 20 000 diets of seven freshwater piscivores: prey of 10 to 20 % of the predator's length
    in the median, 32 to 46 % at the 99th percentile, slender prey larger than deep (Gaeta et al. 2018);
    perch up to 59 % (Dorner & Wagner 2003); the limit is the gape (Mihalitsis & Bellwood 2017).

    Limits.  Which fish hunt at all is the table's trait.  Only a hunter, or a fish that a source says eats
    small ones, can stop a plan; what is common practice alone is read at the low end of each cut.  The cuts
    are lengths, not gapes; well-fed hunters leave more alone, and one day do not.
    """
    yield from findings("company/eaten", facts, swallowed)


def clawed(actor: Side, target: Side, where: Place) -> Encounter | None:
    """Fish, frogs and shrimps within reach of claws."""
    del where
    hunter, prey = actor.species, target.species
    if hunter.kind not in ARMED or hunter.piscivore == "no" or prey.kind not in ("fish", "amphibian"):
        return None
    if actor.largest_mm is None or target.smallest_mm is None:
        return None
    low = "bottom" in prey.zone or "lower" in prey.zone
    casual = hunter.piscivore == "fry"
    ratio = target.smallest_mm / actor.largest_mm * (1.0 if low else 1.5) * (1.6 if casual else 1.0)
    headroom = headroom_between(ratio, CLAWS_SURE, CLAWS_AT_RISK, 2 * CLAWS_POSSIBLE - CLAWS_AT_RISK)
    grade = grade_of((hunter, "piscivore"))
    message = say(
        "{hunter} {verb} {prey} in their claws{where}: {smallest_mm:.0f} mm against {largest_mm:.0f} mm.",
        hunter=sentence(names_of(hunter)),
        verb=softly(grade, say("take"), say("are said to take")),
        prey=names_of(prey),
        where=say(" where they rest on the floor") if low else say(" at night, when they sink to rest"),
        smallest_mm=target.smallest_mm,
        largest_mm=actor.largest_mm,
    )
    remedy = say("Keep the {hunter} with nothing that it can hold, best alone.", hunter=name_of(hunter))
    return Encounter(say("taken in claws"), hunter, prey, headroom, message, remedy, grade)


@rule(
    "company/claws",
    trips="""
[[animals]]
species = "Procambarus clarkii"
count = 1
[[animals]]
species = "Corydoras panda"
count = 8
""",
    clears="""
[[animals]]
species = "Limnopilos naiyanetri"
count = 6
[[animals]]
species = "Boraras brigittae"
count = 12
""",
)
def claws(facts: Facts) -> Iterator[Finding]:
    """Can a crayfish or crab catch its companions?

    Mechanism.  Claws hold what no mouth could swallow: anything up to about the crayfish's own length that
    rests on the floor, which by night most fish do.

    Evidence.  Common practice, no source; which kinds hunt is the table's trait.

    Limits.  Dwarf crayfish rarely catch a grown fish; large ones rarely miss a slow one.
    """
    yield from findings("company/claws", facts, clawed)


#: Animals this small are drawn into an open filter intake.
DRAWN_IN_MM = Constant(30.0, "mm", PRACTICE, 15.0, 40.0)


@rule(
    "company/filter-intake",
    trips="""
[filter]
intake_guard = false
[[animals]]
species = "Neocaridina davidi"
count = 20
""",
    clears="""
[filter]
intake_guard = true
[[animals]]
species = "Neocaridina davidi"
count = 20
""",
)
def filter_intake(facts: Facts) -> Iterator[Finding]:
    """Does the filter draw in small animals?

    Mechanism.  An open intake takes in fry, shrimplets and whatever small animal lingers before it; a
    sponge or fine mesh over it does not.

    Evidence.  Common practice, no source.

    Limits.  Weak filters and sponge filters spare them; the plan does not tell the strainer's slots.
    """
    filter_ = facts.plan.filter
    if filter_ is None or filter_.intake_guard:
        return
    taxa = list({group.species.slug: group.species for group in facts.groups}.values())
    mothers = {g.species.slug for g in facts.groups if g.females + g.unsexed and _bears_young(g.species)}
    small = [taxon for taxon in taxa if _drawn_in(taxon)]
    young = [taxon for taxon in taxa if taxon.slug in mothers and taxon not in small]
    if not small and not young:
        return
    whom = [names_of(taxon) for taxon in small]
    if young:
        whom.append(say("the young of {names}", names=listed([names_of(taxon) for taxon in young])))
    yield Finding(
        "company/filter-intake",
        "watch",
        say("The filter's intake has no guard and draws in {whom}.", whom=listed(whom)),
        say("Put a sponge or a fine mesh over the intake."),
        tuple(taxon.slug for taxon in (*small, *young)),
        headroom=WATCH,
    )


def _bears_young(species: Species) -> bool:
    return species.reproduction == "livebearer"


def _drawn_in(species: Species) -> bool:
    """Whether an open intake takes grown animals of a taxon (shrimps cling to it, and their young go in)."""
    length = species.adult_length_mm or 99.0
    reach = 2 * DRAWN_IN_MM if species.kind == "shrimp" else DRAWN_IN_MM
    return species.kind in ("shrimp", "fish") and length <= reach
