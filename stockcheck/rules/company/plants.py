"""Animals against plants, and plants against the light and CO2 they are given."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts, Planting
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.company.encounter import sides
from stockcheck.rules.core import FIX, WATCH, Finding, rule
from stockcheck.rules.wording import grade_of, listed, names_of, sentence, softly
from stockcheck.table.model import PlantSpecies, Species

PRACTICE = "common practice, no source"

#: Leaves too tough or bitter for most plant eaters.
TOUGH = ("epiphyte",)
#: Soft growth that nibblers go for.
SOFT = ("stem", "floating", "moss")
ROOTED = ("stem", "rosette", "carpet", "bulb")
#: Plants of such a habit that have no roots to lose: hornworts, at most pushed into the ground.
ROOTLESS_GENERA = ("Ceratophyllum",)
#: Diggers of this length uproot whatever is rooted; smaller ones only a young carpet.
UPROOTS_MM = Constant(120.0, "mm", PRACTICE, 90.0, 160.0)
LIFTS_CARPET_MM = Constant(60.0, "mm", PRACTICE, 40.0, 80.0)
#: Share of the surface under floating leaves at which plants below go short of light.
SHADED = Constant(0.5, "1", PRACTICE, 0.35, 0.7)
LIGHT = ("low", "medium", "high")


def eats(species: Species, plant: PlantSpecies) -> bool:
    """Whether an animal eats a plant, or nibbles at it when hungry."""
    if species.eats_plants == "yes":
        return plant.habit not in TOUGH
    return species.eats_plants == "nibbles" and plant.habit in SOFT


def digs(species: Species, length_mm: float) -> bool:
    """Whether an animal of this length moves the ground enough to unsettle plants."""
    return species.digs and length_mm >= LIFTS_CARPET_MM and species.kind not in ("snail", "bivalve")


def comes_loose(plant: PlantSpecies, large: bool) -> bool:
    """Whether a digger, large (``UPROOTS_MM``) or small, unsettles a plant."""
    habits = ROOTED if large else ("carpet",)
    return plant.habit in habits and not plant.scientific_name.startswith(ROOTLESS_GENERA)


def _plant_name(species: PlantSpecies) -> str:
    return species.common_name or species.scientific_name


def _plant_names(plantings: list[Planting]) -> str:
    return listed([_plant_name(planting.species) for planting in plantings])


@rule(
    "company/plants-eaten",
    trips="""
[[animals]]
species = "Metynnis hypsauchen"
count = 5
[[plants]]
species = "Hygrophila polysperma"
cover = "20 %"
""",
    clears="""
[[animals]]
species = "Corydoras panda"
count = 8
[[plants]]
species = "Hygrophila polysperma"
cover = "20 %"
""",
)
def plants_eaten(facts: Facts) -> Iterator[Finding]:
    """Will the plants be eaten?

    Mechanism.  Plant eaters take soft stems and leaves first, tough leaves last or not at all; nibblers trim
    soft growth when they are hungry.

    Evidence.  The table's trait; which growth is soft is common practice.

    Limits.  Fed with greens, many leave plants alone.
    """
    for side in sides(facts):
        species = side.species
        taken = [planting for planting in facts.plantings if eats(species, planting.species)]
        if not taken:
            continue
        wholly, grade = species.eats_plants == "yes", grade_of((species, "eats_plants"))
        verb = softly(grade, say("eat"), say("are said to eat")) if wholly else say("may nibble")
        yield Finding(
            "company/plants-eaten",
            "fix" if wholly else "watch",
            say(
                "{species} {verb} plants: {plant_names}.",
                species=sentence(names_of(species)),
                verb=verb,
                plant_names=_plant_names(taken),
            ),
            say("Tough leaves on wood and stone instead (anubias, Java fern), and greens as feed.")
            if wholly
            else say("Feed them greens, and plant densely from the start."),
            (species.slug, *(planting.species.slug for planting in taken)),
            grade,
            headroom=FIX if wholly else WATCH,
        )


@rule(
    "company/plants-dug-up",
    trips="""
[[animals]]
species = "Geophagus altifrons"
count = 5
[[plants]]
species = "Cryptocoryne wendtii"
cover = "20 %"
""",
    clears="""
[[animals]]
species = "Geophagus altifrons"
count = 5
[[plants]]
species = "Anubias barteri"
cover = "20 %"
""",
)
def plants_dug_up(facts: Facts) -> Iterator[Finding]:
    """Will the plants be dug up?

    Mechanism.  Fish that sift or dig move the ground around roots: large ones uproot what is planted, smaller
    ones lift a carpet before it holds.

    Evidence.  The table's trait; the lengths are common practice.

    Limits.  Grown-in roots and a collar of stones hold against most.
    """
    alike: dict[tuple[bool, str], list[Species]] = {}
    for side in sides(facts):
        species, length = side.species, side.largest_mm or 0.0
        if digs(species, length):
            alike.setdefault((length >= UPROOTS_MM, grade_of((species, "digs"))), []).append(species)
    for (large, grade), diggers in alike.items():
        moved = [planting for planting in facts.plantings if comes_loose(planting.species, large)]
        if moved:
            yield _dug_up(diggers, moved, large, grade)


def _dug_up(diggers: list[Species], moved: list[Planting], large: bool, grade: str) -> Finding:
    """Large diggers uproot; small ones, and those that are only said to dig, may."""
    sure = large and grade != "D"
    who = sentence(listed([names_of(species) for species in diggers]))
    return Finding(
        "company/plants-dug-up",
        "fix" if sure else "watch",
        say(
            "{who} {verb}: {plant_names} {will_not} stay rooted.",
            who=who,
            verb=softly(grade, say("dig"), say("are said to dig")),
            plant_names=_plant_names(moved),
            will_not=say("will not") if sure else say("may not"),
        ),
        say("Plants on wood and stone, or in pots with stones around the stem."),
        tuple(species.slug for species in diggers) + tuple(planting.species.slug for planting in moved),
        grade,
        headroom=FIX if sure else WATCH,
    )


@rule(
    "company/plants-in-shade",
    trips="""
[[plants]]
species = "Limnobium laevigatum"
cover = "70 %"
[[plants]]
species = "Alternanthera reineckii"
cover = "10 %"
""",
    clears="""
[[plants]]
species = "Limnobium laevigatum"
cover = "20 %"
[[plants]]
species = "Anubias barteri"
cover = "10 %"
""",
)
def plants_in_shade(facts: Facts) -> Iterator[Finding]:
    """Do floating plants take the light from those below?

    Mechanism.  Floating leaves close over the water in weeks; what wants strong light goes under in their
    shade.

    Evidence.  Common practice, no source: half of the surface covered is where it shows.

    Limits.  A strong lamp at the edges helps; fish that want shade are glad of it.
    """
    floating = [planting for planting in facts.plantings if planting.species.habit == "floating"]
    cover = sum(planting.entry.cover for planting in floating)
    if cover < SHADED:
        return
    for wants, level, headroom in (("high", "fix", FIX), ("medium", "watch", WATCH)):
        under = [
            planting
            for planting in facts.plantings
            if planting.species.light == wants and planting.species.habit != "floating"
        ]
        if under:
            yield Finding(
                "company/plants-in-shade",
                level,
                say(
                    "Floating plants cover {cover:.0%} of the surface, and {plant_names} want{plural} "
                    "{wants} light.",
                    cover=cover,
                    plant_names=_plant_names(under),
                    plural="s" if len(under) == 1 else "",
                    wants=wants,
                ),
                say(
                    "Keep the floating plants under {shaded:.0%} of the surface, behind a ring of airline.",
                    shaded=SHADED,
                ),
                tuple(planting.species.slug for planting in (*floating, *under)),
                headroom=headroom,
            )


@rule(
    "company/plants-light",
    trips="""
[light]
level = "low"
[[plants]]
species = "Alternanthera reineckii"
cover = "10 %"
""",
    clears="""
[light]
level = "low"
[[plants]]
species = "Anubias barteri"
cover = "10 %"
""",
)
def plants_light(facts: Facts) -> Iterator[Finding]:
    """Is there light enough for the plants?

    Mechanism.  A plant that wants more light than the lamp gives thins out from below and dies back.

    Evidence.  The table's trait.

    Limits.  ``low``, ``medium`` and ``high`` are the trade's words, not a measurement.
    """
    there = LIGHT.index(facts.plan.light.level)
    for planting in facts.plantings:
        gap = LIGHT.index(planting.species.light) - there
        if gap > 0 and planting.species.habit != "floating":
            yield Finding(
                "company/plants-light",
                "fix" if gap > 1 else "watch",
                say(
                    "{plant_name} wants {light} light; the plan has {level}.",
                    plant_name=sentence(_plant_name(planting.species)),
                    light=planting.species.light,
                    level=facts.plan.light.level,
                ),
                say("A stronger lamp (more light needs CO2 and feed to match), or a plant for less light."),
                (planting.species.slug,),
                planting.species.grade,
                headroom=FIX if gap > 1 else WATCH,
            )


@rule(
    "company/plants-co2",
    trips="""
[light]
co2 = false
level = "high"
[[plants]]
species = "Hemianthus callitrichoides"
cover = "30 %"
""",
    clears="""
[light]
co2 = false
[[plants]]
species = "Cryptocoryne wendtii"
cover = "20 %"
""",
)
def plants_co2(facts: Facts) -> Iterator[Finding]:
    """Do plants that need CO2 get it?

    Mechanism.  A few plants live under water only with carbon dioxide added; without it they melt.

    Evidence.  The table's trait.

    Limits.  With CO2 the fish need watching: gasping at the surface means too much.
    """
    if facts.plan.light.co2:
        return
    for planting in facts.plantings:
        if planting.species.co2 == "needed":
            yield Finding(
                "company/plants-co2",
                "fix",
                say(
                    "CO2 is needed by {plant_name}, and the plan adds none.",
                    plant_name=_plant_name(planting.species),
                ),
                say("Add CO2 with a check valve and a timer, or choose a plant that does without."),
                (planting.species.slug,),
                planting.species.grade,
                headroom=FIX,
            )
