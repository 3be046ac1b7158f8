"""Unlike ways of life in one tank: bullies beside the meek, fast eaters beside slow, stream beside pond."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.company.encounter import (
    Encounter,
    Place,
    Side,
    findings,
    share_hours,
    shared_layers,
)
from stockcheck.rules.core import FIX, NO_STOP, WATCH, Finding, headroom_between, rule
from stockcheck.rules.wording import grade_of, listed, names_of, sentence, softly
from stockcheck.table.model import Species

PRACTICE = "common practice, no source"

#: A companion this much of a bully's length, or more, is left alone.
BULLY_STOP = Constant(0.10, "1", PRACTICE)
BULLY_HOLDS = Constant(0.80, "1", PRACTICE)
BULLY_SAFE = Constant(1.40, "1", PRACTICE)
#: Restless fish trouble quiet ones under this share of their length.
RESTLESS_UNDER = Constant(0.6, "1", PRACTICE)

FLOWS = ("still", "gentle", "moderate", "strong")


#: Tempers that do not answer an attack; a territorial animal does, unless it is this much smaller.
_MEEK = ("peaceful", "boisterous")
STANDS_ITS_GROUND = Constant(0.8, "1", PRACTICE)


def bullied(actor: Side, target: Side, where: Place) -> Encounter | None:
    """An aggressive animal beside one that does not answer back."""
    del where
    bully, meek = actor.species, target.species
    if bully.temperament != "aggressive" or meek.temperament not in (*_MEEK, "territorial"):
        return None
    if meek.kind not in ("fish", "amphibian") or bully.kind != "fish":
        return None
    layers = shared_layers(bully, meek)
    if not layers or actor.largest_mm is None or target.smallest_mm is None:
        return None
    ratio = target.smallest_mm / actor.largest_mm
    if meek.temperament not in _MEEK and ratio > STANDS_ITS_GROUND:
        return None
    headroom = max(headroom_between(ratio, BULLY_STOP, BULLY_HOLDS, BULLY_SAFE), NO_STOP)
    grade = grade_of((bully, "temperament"))
    message = say(
        "{bully} {verb} what shares the {layers} {layer} with them, and {meek} are {smaller} "
        "({smallest_mm:.0f} mm beside {largest_mm:.0f} mm).",
        bully=sentence(names_of(bully)),
        verb=softly(grade, say("bully"), say("are said to bully")),
        layers=listed(layers),
        layer=say("layer") if len(layers) == 1 else say("layers"),
        meek=names_of(meek),
        smaller=say("smaller") if ratio < 1 else say("no larger than they can drive"),
        smallest_mm=target.smallest_mm,
        largest_mm=actor.largest_mm,
    )
    remedy = say("Choose sturdier companions for the {bully}, or none.", bully=names_of(bully))
    return Encounter(say("bullied"), bully, meek, headroom, message, remedy, grade, (PRACTICE,))


@rule(
    "company/bullying",
    trips="""
[[animals]]
species = "Amatitlania nigrofasciata"
males = 1
females = 1
[[animals]]
species = "Desmopuntius pentazona"
count = 8
""",
    clears="""
[[animals]]
species = "Cleithracara maronii"
males = 1
females = 1
[[animals]]
species = "Desmopuntius pentazona"
count = 8
""",
)
def bullying(facts: Facts) -> Iterator[Finding]:
    """Is an aggressive fish put with meek ones?

    Mechanism.  Some fish drive whatever shares their layer, breeding or not.  Companions of their own size
    and temper stand up to it; smaller, peaceful ones stop eating and get sick.

    Evidence.  The table's temperament; common practice, no source, for the lengths.

    Limits.  Single animals differ widely.
    """
    yield from findings("company/bullying", facts, bullied)


def unsettled(actor: Side, target: Side, where: Place) -> Encounter | None:
    """A restless shoal around small, quiet fish."""
    del where
    restless, quiet = actor.species, target.species
    if restless.temperament != "boisterous" or quiet.temperament != "peaceful":
        return None
    if restless.family == quiet.family and restless.reproduction == "livebearer" == quiet.reproduction:
        return None  # livebearers are all of one temper beside one another
    if quiet.kind != "fish" or quiet.flow not in ("still", "gentle") or not shared_layers(restless, quiet):
        return None
    if actor.largest_mm is None or target.largest_mm is None:
        return None
    ratio = target.largest_mm / actor.largest_mm
    shy = quiet.flow == "still"
    if (ratio >= RESTLESS_UNDER and not shy) or ratio >= 1:
        return None
    grade = grade_of((restless, "temperament"), (quiet, "temperament"))
    message = say(
        "{restless} are restless and {restless_mm:.0f} mm long; {quiet} ({quiet_mm:.0f} mm) "
        "{verb} quiet beside them.",
        restless=sentence(names_of(restless)),
        restless_mm=actor.largest_mm,
        quiet=names_of(quiet),
        quiet_mm=target.largest_mm,
        verb=softly(grade, say("want"), say("are said to want")),
    )
    remedy = say("Calmer company for the quiet ones, or plants thick enough to leave them a corner.")
    return Encounter(say("unsettled"), restless, quiet, WATCH, message, remedy, grade, (PRACTICE,))


@rule(
    "company/boisterous",
    trips="""
[[animals]]
species = "Devario aequipinnatus"
count = 8
[[animals]]
species = "Trichogaster chuna"
males = 1
females = 2
""",
    clears="""
[[animals]]
species = "Trigonostigma heteromorpha"
count = 10
[[animals]]
species = "Trichogaster chuna"
males = 1
females = 2
""",
)
def boisterous(facts: Facts) -> Iterator[Finding]:
    """Are restless fish put with small, quiet ones?

    Mechanism.  Fast, large shoalers crowd slow, small fish out of the open water and from the food; stress
    shows in pale colours and hiding long before anything is bitten.

    Evidence.  Common practice, no source; temperament and flow are the table's traits.

    Limits.  Large, thickly planted tanks let both live.
    """
    yield from findings("company/boisterous", facts, unsettled)


def outcompeted(actor: Side, target: Side, where: Place) -> Encounter | None:
    """A slow feeder beside fast ones of the same hours."""
    del where
    fast, slow = actor.species, target.species
    if not eats_slowly(slow) or not eats_fast(fast):
        return None
    if not shared_layers(fast, slow) and "bottom" not in slow.zone:
        return None
    grade = grade_of((slow, "diet"), (fast, "temperament"))
    message = say(
        "{slow} feed slowly; {fast} {verb} them little.",
        slow=sentence(names_of(slow)),
        fast=names_of(fast),
        verb=softly(grade, say("leave"), say("are said to leave")),
    )
    remedy = say(
        "Feed the {slow} apart: by tongs, in the dark, or in a corner of their own.", slow=names_of(slow)
    )
    return Encounter(say("outcompeted"), fast, slow, WATCH, message, remedy, grade, (PRACTICE,))


def eats_slowly(species: Species) -> bool:
    """Frogs, fancy goldfish, and still-water hunters of small live food that take their time."""
    if species.group == "amphibian":
        return True
    if species.long_fins and species.family == "Cyprinidae" and species.flow == "gentle":
        return species.group_min == 2
    return species.flow == "still" and species.diet == "carnivore" and species.temperament == "peaceful"


def eats_fast(species: Species) -> bool:
    """Restless fish, and shoals that are at the food first."""
    return species.kind == "fish" and (
        species.temperament == "boisterous" or (species.social == "shoal" and species.flow == "strong")
    )


@rule(
    "company/slow-feeders",
    trips="""
[[animals]]
species = "Danio rerio"
count = 10
[[animals]]
species = "Hymenochirus boettgeri"
count = 4
""",
    clears="""
[[animals]]
species = "Boraras brigittae"
count = 12
[[animals]]
species = "Hymenochirus boettgeri"
count = 4
""",
)
def slow_feeders(facts: Facts) -> Iterator[Finding]:
    """Do slow feeders get their share?

    Mechanism.  A frog finds food by smell, a licorice gourami looks at each morsel; a shoal of danios has
    eaten by then.  The slow one starves amid plenty.

    Evidence.  Common practice, no source; the table has no trait for it, so it is told from diet, flow,
    build.

    Limits.  Target feeding settles it.
    """
    yield from findings("company/slow-feeders", facts, outcompeted, by="target")


def unlike_flow(actor: Side, target: Side, where: Place) -> Encounter | None:
    """A fish of streams and one of still water."""
    del where
    swift, still = actor.species, target.species
    gap = FLOWS.index(swift.flow) - FLOWS.index(still.flow)
    grade = grade_of((swift, "flow"), (still, "flow"))
    if gap < 2 or (swift.flow == "moderate" and grade == "D"):
        return None
    message = say(
        "{swift} {verb} {swift_flow} current, {still} {still_flow} water.",
        swift=sentence(names_of(swift)),
        verb=softly(grade, say("need"), say("are said to need")),
        swift_flow=swift.flow,
        still=names_of(still),
        still_flow=still.flow,
    )
    remedy = say(
        "A strong outlet at one end with a planted lee at the other, in a long tank; else choose one."
    )
    headroom = FIX if gap > 2 else WATCH
    return Encounter(
        say("unlike current"), swift, still, headroom, message, remedy, grade, mutual=True, unlike=True
    )


@rule(
    "company/current",
    trips="""
[[animals]]
species = "Sewellia lineolata"
count = 5
[[animals]]
species = "Sphaerichthys osphromenoides"
count = 6
""",
    clears="""
[[animals]]
species = "Sewellia lineolata"
count = 5
[[animals]]
species = "Tanichthys albonubes"
count = 10
""",
)
def current(facts: Facts) -> Iterator[Finding]:
    """Do fish of streams and of still water share a tank?

    Mechanism.  Stream fish breathe by current and lie short of oxygen without it; still-water fish tire in
    it.

    Evidence.  The table's trait.

    Limits.  A long tank can have both ends.
    """
    yield from findings("company/current", facts, unlike_flow)


def disturbed_at_night(actor: Side, target: Side, where: Place) -> Encounter | None:
    """A large animal of the night on the floor where small day fish rest."""
    del where
    night, day = actor.species, target.species
    if night.activity != "nocturnal" or day.activity != "diurnal" or share_hours(night, day):
        return None
    if night.temperament not in ("aggressive", "territorial", "boisterous") or "bottom" not in night.zone:
        return None
    if "bottom" not in day.zone or day.kind != "fish" or day.temperament != "peaceful":
        return None
    if actor.largest_mm is None or target.smallest_mm is None or target.smallest_mm > actor.largest_mm / 2:
        return None
    grade = grade_of((night, "activity"), (day, "activity"))
    message = say(
        "{night} are about at night and rough; {day}, half their length, {verb} on the same floor.",
        night=sentence(names_of(night)),
        day=names_of(day),
        verb=softly(grade, say("rest"), say("are said to rest")),
    )
    remedy = say(
        "Caves for the {night} at one end and shelter at the other, or another floor dweller.",
        night=names_of(night),
    )
    return Encounter(say("disturbed at night"), night, day, WATCH, message, remedy, grade, (PRACTICE,))


@rule(
    "company/night-and-day",
    trips="""
[[animals]]
species = "Synodontis eupterus"
count = 1
[[animals]]
species = "Corydoras aeneus"
count = 8
""",
    clears="""
[[animals]]
species = "Ancistrus cirrhosus"
males = 1
[[animals]]
species = "Corydoras aeneus"
count = 8
""",
)
def night_and_day(facts: Facts) -> Iterator[Finding]:
    """Does a rough animal of the night share the floor with small sleepers?

    Mechanism.  What rests on the floor after dark is pushed about by what wakes then, and cannot see it come.

    Evidence.  Common practice, no source; hours, zone and temperament are the table's traits.

    Limits.  With shelters enough most settle.
    """
    yield from findings("company/night-and-day", facts, disturbed_at_night)
