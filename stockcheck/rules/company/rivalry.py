"""Rivals of one sex: males among males, females among females, and what an unsexed group may turn into."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import comb

from stockcheck.facts.model import Facts
from stockcheck.rules.company.keeping import (
    Keeping,
    female_pressure,
    keepings,
    male_pressure,
    worst_pressure,
)
from stockcheck.rules.company.pressure import HOLDS_AT, PRICE, SAXBY, SIGHT_BARRIER, Pressure
from stockcheck.rules.company.remedies import Change, Remedy, remedies
from stockcheck.rules.core import Finding, level_of, rule
from stockcheck.rules.wording import grade_of, name_of, names_of, sentence, softly, some
from stockcheck.table.model import Species

_SOURCES = (SIGHT_BARRIER.source, SAXBY, PRICE)

#: Headroom of what just holds.
HEADROOM_THAT_HOLDS = 50.0
#: Chance of a mix at odds, bought unsexed, from which it is worth a word; by the finding's grade.
_WORTH_A_WORD = {"C": 0.10, "D": 0.30}
#: Unsexed groups above this size are judged at this size: the share of a mix hardly changes.
_MOST_SPLITS = 24


@rule(
    "company/male-rivalry",
    trips="""
[[animals]]
species = "Betta splendens"
males = 2
""",
    clears="""
[tank]
cover = "dense"
[[animals]]
species = "Poecilia reticulata"
males = 8
""",
    sources=_SOURCES,
)
def male_rivalry(facts: Facts) -> Iterator[Finding]:
    """Do the males of one taxon fight?

    Mechanism.  Males contest mates, food and floor.  How hard depends on the taxon's temper (display, spar,
    hold a territory, fight to the end), on how many share the chasing out (two is often the worst number), on
    the floor each one has against the floor he wants, on the length of run to get away in, on broken lines
    of sight, on whether females are in sight and go round, on long fins, unequal sizes and being raised
    together.  The rivalry pressure is the product of these parts: 0.5 just holds, 1 stops.

    Evidence.  Zebrafish dominants attacked less among plants (Basquill & Grant 1998), half of the pearl
    cichlid pairs fought in furnished tanks and all in bare ones (Kadry & Barreto 2010); neon tetras and white
    clouds were calmer in tens (Saxby et al. 2010); unfamiliar male guppies nipped and chased more than
    tank mates (Price & Rodd 2006).  The tempers are those of the table.

    Limits.  Sizes of the effects are judgement (from 60 % fewer to 20 % more attacks behind cover), and
    some studies saw none (Oldfield 2011: group size in Midas cichlids) or the opposite (Woodward, Winder &
    Watt 2019).  Single animals differ more than any average: keep a divider at hand.
    """
    for keeping in keepings(facts):
        pressure = male_pressure(keeping)
        if pressure.parts:
            yield _finding("company/male-rivalry", keeping, pressure, "male")


@rule(
    "company/female-rivalry",
    trips="""
[tank]
length = "60 cm"
width = "30 cm"
height = "30 cm"
[[animals]]
species = "Betta splendens"
females = 5
""",
    clears="""
[[animals]]
species = "Xiphophorus maculatus"
females = 6
""",
    sources=_SOURCES,
)
def female_rivalry(facts: Facts) -> Iterator[Finding]:
    """Do the females of one taxon fight?

    Mechanism.  As for males, from what the table says of females: in many cichlids they defend a cave or a
    brood, in the Siamese fighting fish a rank.  A group of females is not always the peaceful way out.

    Evidence.  The table's trait; otherwise as for male rivalry.

    Limits.  Little is published on females of aquarium fish; expect single animals to differ.
    """
    for keeping in keepings(facts):
        pressure = female_pressure(keeping)
        if pressure.parts:
            yield _finding("company/female-rivalry", keeping, pressure, "female")


def _finding(name: str, keeping: Keeping, pressure: Pressure, sex: str) -> Finding:
    species = keeping.species
    trait = "male_male" if sex == "male" else "female_female"
    grade = grade_of((species, trait))
    level = pressure.level
    if level == "clear":
        return Finding(name, level, "", species=(species.slug,), grade=grade, headroom=pressure.headroom)
    count = keeping.males if sex == "male" else keeping.females
    message = f"{some(count, species, sex)} {_outlook(level, grade)}: {_reasons(pressure)}. {shown(pressure)}"
    return Finding(
        rule=name,
        level=level,
        message=message,
        remedy=advised(keeping),
        species=(species.slug,),
        grade=grade,
        sources=_SOURCES,
        headroom=pressure.headroom,
    )


def _outlook(level: str, grade: str) -> str:
    """What the level means for rivals, said with the confidence that the grade allows."""
    plain = {"stop": "will fight until one is hurt", "fix": "will fight", "watch": "will squabble"}
    soft = {
        "stop": "are said to fight until one is hurt",
        "fix": "are said to fight when kept like this",
        "watch": "are said to squabble",
    }
    return softly(grade, plain[level], soft[level])


def _reasons(pressure: Pressure) -> str:
    """The temper, then the parts that raise the pressure most."""
    raising = pressure.strongest()
    return "; ".join(part.why for part in (pressure.parts[0], *raising))


def shown(pressure: Pressure, kind: str = "rivalry") -> str:
    """A pressure and where it stands, in one sentence; its parts are figures of their own."""
    low, value, high = pressure.interval
    return (
        f"{sentence(kind)} pressure {value:.2f}, {low:.2f} to {high:.2f}; {HOLDS_AT:g} just holds, 1 stops."
    )


def advised(keeping: Keeping, choices: int = 3) -> str:
    """The smallest change that settles a taxon's pressure and a few others, or the one that helps most."""
    found = remedies(keeping)
    settling = [remedy for remedy in found if remedy.settles]
    if settling:
        first, *others = settling[:choices]
        text = f"The smallest change that settles it: {first.words}."
        if others:
            text += f" Or: {'; '.join(other.words for other in others)}."
        return text + _halfway(keeping, found, first)
    if found:
        best = found[0]
        words = f"{best.words} (leaves a pressure of {best.left.value:.2f})"
        return f"No single change settles it; what helps most: {words}. Else part them."
    return "Keep one only, or part them."


def _halfway(keeping: Keeping, found: list[Remedy], first: Remedy) -> str:
    """A smaller change that makes the group hold, if it does not hold now."""
    if worst_pressure(keeping).level not in ("fix", "stop"):
        return ""
    holding = [remedy for remedy in found if remedy.left.level == "watch" and remedy.effort < first.effort]
    if not holding:
        return ""
    best = min(holding, key=lambda remedy: remedy.left.value)
    return f" {sentence(best.words)} alone makes it hold (pressure {best.left.value:.2f}), with an eye on it."


@rule(
    "company/unsexed",
    trips="""
[[animals]]
species = "Xiphophorus hellerii"
count = 4
""",
    clears="""
[[animals]]
species = "Paracheirodon innesi"
count = 12
""",
)
def unsexed(facts: Facts) -> Iterator[Finding]:
    """Could a group of unknown sexes turn into one that fights?

    Mechanism.  Every way the group can fall into males and females is tried.  Where even the best one does
    not hold, the finding has that one's level; where it depends on the sexes, the answer is ``unknown`` with
    the odds when bought at random, and the mix to ask for.  Where males and females contest one another alike
    (loaches with one order of rank), all count as rivals.

    Evidence.  That of male rivalry, female rivalry and harassment.

    Limits.  Odds assume that each animal is as likely male as female; shops that sort by colour sell mostly
    males.
    """
    for keeping in keepings(facts):
        if keeping.unsexed and _sexes_alike(keeping.species):
            yield from _one_rank(keeping)
        elif keeping.unsexed:
            yield from _unsexed(keeping)


def _sexes_alike(species: Species) -> bool:
    """Whether males and females of a group contest one another alike, so that no matter who is who."""
    alike = species.male_male == species.female_female and species.male_female == "none"
    return alike and species.social in ("shoal", "group")


def _one_rank(keeping: Keeping) -> Iterator[Finding]:
    """A group of one order of rank: all are rivals."""
    pressure = female_pressure(replace(keeping, males=0, females=keeping.count, unsexed=0))
    species = keeping.species
    if not pressure.parts:
        return
    headroom = pressure.headroom
    if species.male_male in ("display", "spar"):  # who spars for rank stops when it is settled
        headroom = max(headroom, HEADROOM_THAT_HOLDS)
    level = level_of(headroom)
    if level == "clear":
        yield Finding("company/unsexed", "clear", "", species=(species.slug,), headroom=headroom)
        return
    grade = grade_of((species, "male_male"), (species, "female_female"))
    remedy = "Sight lines broken by wood and plants, and feed in several places, spread it out."
    if level != "watch":
        remedy = f"A longer tank with the sight lines broken, or another species than {names_of(species)}."
    reasons = f"{_outlook(level, grade)}: {_reasons(pressure)}"
    message = f"{some(keeping.count, species)} {reasons}. {shown(pressure)}"
    slugs = (species.slug,)
    yield Finding("company/unsexed", level, message, remedy, slugs, grade, _SOURCES, headroom)


def _unsexed(keeping: Keeping) -> Iterator[Finding]:
    count = min(keeping.unsexed, _MOST_SPLITS)
    outcomes = [worst_pressure(_split(keeping, count, males)) for males in range(count + 1)]
    best = _calmest(keeping, count, outcomes)
    species = keeping.species
    grade = grade_of((species, "male_male"))
    if outcomes[best].value > HOLDS_AT:
        yield _at_odds(keeping, _split(keeping, count, best), outcomes[best])
        return
    odds = (
        sum(comb(count, males) for males in range(count + 1) if outcomes[males].value > HOLDS_AT) / 2**count
    )
    if odds >= _WORTH_A_WORD[grade]:
        mix = _mix(keeping.males + best, keeping.females + count - best)
        yield Finding(
            "company/unsexed",
            "unknown",
            f"The sexes of the {names_of(species)} are not stated, and it depends on them: bought at random, "
            f"{count} would be a mix that fights or wears its females out {odds:.0%} of the time.",
            "Sex them and write males and females into the plan. "
            f"{sentence(how_to_sex(species))} The calmest mix here: {mix}.",
            (species.slug,),
            grade,
        )


def calmest_split(keeping: Keeping) -> Keeping:
    """The keeping, had the sexes of its unsexed animals fallen out best; itself where all are sexed."""
    count = min(keeping.unsexed, _MOST_SPLITS)
    if not count:
        return keeping
    outcomes = [worst_pressure(_split(keeping, count, males)) for males in range(count + 1)]
    return _split(keeping, count, _calmest(keeping, count, outcomes))


def _calmest(keeping: Keeping, count: int, outcomes: list[Pressure]) -> int:
    """How many males make the calmest group; both sexes, where that is calm enough."""

    def rank(males: int) -> tuple[bool, float]:
        both = keeping.males + males > 0 and keeping.females + count > males
        return not (both and outcomes[males].level == "clear"), outcomes[males].value

    return min(range(count + 1), key=rank)


def _split(keeping: Keeping, count: int, males: int) -> Keeping:
    """The keeping, had ``males`` of its unsexed animals turned out male."""
    return replace(keeping, males=keeping.males + males, females=keeping.females + count - males, unsexed=0)


def _at_odds(keeping: Keeping, best: Keeping, pressure: Pressure) -> Finding:
    """A group that does not hold even when its sexes fall out best."""
    species = keeping.species
    room = [remedy for remedy in remedies(best) if remedy.settles and _leaves_sexes(remedy.change)]
    if room and "lethal" not in (species.male_male, species.female_female, species.male_female):
        remedy = f"The smallest change that can settle it: {room[0].words}."
    else:
        remedy = f"Keep one {name_of(species)} alone, or another species in its place."
    return Finding(
        "company/unsexed",
        pressure.level,
        f"{some(keeping.count, species)} will not get on here, whichever sexes they turn out to be: "
        f"{_reasons(pressure)}. {shown(pressure)}",
        remedy,
        (species.slug,),
        grade_of((species, "male_male")),
        headroom=pressure.headroom,
    )


def _leaves_sexes(change: Change) -> bool:
    return change.males is None and change.females is None


def _mix(males: int, females: int) -> str:
    parts = [f"{n} {sex}{'s' * (n != 1)}" for n, sex in ((males, "male"), (females, "female")) if n]
    return " and ".join(parts)


def how_to_sex(species: Species) -> str:
    """How keepers tell the sexes, by kind and way of breeding (common practice, no source)."""
    if species.reproduction == "livebearer":
        return "the male's anal fin is a thin rod, the female's a fan."
    if species.family == "Cichlidae" and species.reproduction == "substrate-spawner":
        return "they are hard to tell apart before they pair: raise six young, part the rest when two have."
    return (
        "males usually show more colour and longer, pointed fins, females are rounder; ask the shop to pick."
    )
