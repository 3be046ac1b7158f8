"""What is around the tank: the lid above it, the law of the place, pets and children."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.bands import Taxon, name_of
from stockcheck.rules.core import Finding, rule
from stockcheck.rules.wording import listed, names_of, sentence

#: Headroom of a reminder that says nothing against the plan.
_REMINDER = 95.0
_ESCAPERS = ("crab", "crayfish")


@rule(
    "room/open-lid",
    trips="""
[tank]
lid = false
[[animals]]
species = "Danio rerio"
count = 10
""",
    clears="""
[tank]
lid = true
[[animals]]
species = "Danio rerio"
count = 10
""",
)
def open_lid(facts: Facts) -> Iterator[Finding]:
    """Do jumpers or climbers have an open tank above them?

    Mechanism.  Startled fish leap, crabs and crayfish climb hoses; both end on the floor.

    Evidence.  The table's trait; where a source says so the rule asks for a change, where only common
    practice does it asks to be watched.

    Limits.  A wide rim above the water or dense floating plants hold many back, none surely.
    """
    if facts.plan.tank.lid:
        return
    leavers = [
        group.species for group in facts.groups if group.species.jumper or group.species.kind in _ESCAPERS
    ]
    for seen, level, headroom in ((True, "fix", 40.0), (False, "watch", 60.0)):
        species = [s for s in leavers if (s.basis.get("jumper") == "seen") == seen]
        if species:
            verb = say("leave") if seen else say("may leave")
            yield Finding(
                "room/open-lid",
                level,
                say(
                    "The tank is open, and {names} {verb} it over the rim.",
                    names=listed([names_of(s) for s in species]),
                    verb=verb,
                ),
                say("Cover it with a lid, glass or a fine net, and close the gaps round hoses and cables."),
                tuple(s.slug for s in species),
                grade="C" if seen else "D",
                headroom=headroom,
            )


#: Families of crabs that live beside the water and only dip into it.
LAND_CRABS = ("Sesarmidae",)


@rule(
    "room/land",
    trips="""
[[animals]]
species = "Geosesarma dennerle"
males = 1
females = 2
""",
    clears="""
[[animals]]
species = "Limnopilos naiyanetri"
count = 4
""",
)
def land(facts: Facts) -> Iterator[Finding]:
    """Are there animals that live on land beside the water?

    Mechanism.  Land crabs breathe air over wet gills.  In a tank that is full of water they find nowhere to
    stay out of it, and drown or climb out.

    Evidence.  Common practice, no source; the family is the table's.

    Limits.  A plan describes a tank full of water; a paludarium is another thing and not checked here.
    """
    ashore = {g.species.slug: g.species for g in facts.groups if g.species.family in LAND_CRABS}
    if ashore:
        yield Finding(
            "room/land",
            "stop",
            say(
                "{crabs} live on land beside the water: in a full tank they drown or climb out.",
                crabs=sentence(listed([names_of(species) for species in ashore.values()])),
            ),
            say("Keep them in a paludarium, most of it land, with a lid that shuts; not in this tank."),
            tuple(ashore),
            headroom=0.0,
        )


@rule(
    "room/law",
    trips="""
[[animals]]
species = "Carassius auratus"
count = 3
""",
    clears="""
[[animals]]
species = "Trigonostigma heteromorpha"
count = 10
[[plants]]
species = "Vallisneria spiralis"
cover = "20 %"
""",
)
def law(facts: Facts) -> Iterator[Finding]:
    """May these animals and plants be bought, kept and passed on where you live?

    Mechanism.  Some taxa are listed as invasive, protected or injurious, and what is sold freely in one
    country is an offence in another.  Nothing that has lived in a tank belongs outdoors: it spreads, or
    carries disease.

    Evidence.  The table's notes, with a date and a place at best.

    Limits.  They are hints: laws change, and the authority of the place decides.
    """
    taxa: list[Taxon] = [group.species for group in facts.groups]
    taxa += [planting.species for planting in facts.plantings]
    noted = list({taxon.slug: taxon for taxon in taxa if taxon.restricted}.values())
    if noted:
        notes = "; ".join(f"{name_of(taxon)} ({taxon.restricted})" for taxon in noted)
        yield Finding(
            "room/law",
            "watch",
            say("Sale or keeping may be limited where you live: {notes}.", notes=notes),
            say(
                "Check your local law before you buy. Never release animals, plants or their water outdoors."
            ),
            tuple(taxon.slug for taxon in noted),
            headroom=_REMINDER,
        )


@rule(
    "room/poisonous-plants",
    trips="""
[[plants]]
species = "Anubias barteri"
cover = "10 %"
""",
    clears="""
[[plants]]
species = "Vallisneria spiralis"
cover = "20 %"
""",
)
def poisonous_plants(facts: Facts) -> Iterator[Finding]:
    """Are there plants that are poisonous to the cat, the dog or the child beside the tank?

    Mechanism.  Arums and some others hold calcium oxalate needles or bitter sap; harmless under water to
    fish, they burn the mouth of whoever chews a leaf.

    Evidence.  The table's trait.

    Limits.  Which part and how much is seldom known; a vet or the poisons service decides in a case.
    """
    plants = list({p.species.slug: p.species for p in facts.plantings if p.species.pet_toxic}.values())
    if plants:
        yield Finding(
            "room/poisonous-plants",
            "watch",
            say(
                "{names} {is_are} poisonous to pets and children that chew the leaves.",
                names=sentence(listed([name_of(plant) for plant in plants])),
                is_are="is" if len(plants) == 1 else "are",
            ),
            say("Keep leaves and cuttings out of their reach; wash your hands after trimming."),
            tuple(plant.slug for plant in plants),
            headroom=_REMINDER,
        )
