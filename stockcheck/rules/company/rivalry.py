"""Rivals of one sex: males among males, females among females."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.company.keeping import (
    Keeping,
    female_pressure,
    keepings,
    male_pressure,
    worst_pressure,
)
from stockcheck.rules.company.pressure import HOLDS_AT, PRICE, SAXBY, SIGHT_BARRIER, Pressure
from stockcheck.rules.company.remedies import Remedy, remedies
from stockcheck.rules.core import Finding, rule
from stockcheck.rules.wording import grade_of, sentence, softly, some

RIVALRY_SOURCES = (SIGHT_BARRIER.source, SAXBY, PRICE)


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
    sources=RIVALRY_SOURCES,
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
    sources=RIVALRY_SOURCES,
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
    message = contest(some(count, species, sex), level, grade, pressure)
    return Finding(
        rule=name,
        level=level,
        message=message,
        remedy=advised(keeping),
        species=(species.slug,),
        grade=grade,
        sources=RIVALRY_SOURCES,
        headroom=pressure.headroom,
    )


def contest(rivals: str, level: str, grade: str, pressure: Pressure) -> str:
    """What is to be expected of rivals, why, and how high the pressure is."""
    return say(
        "{rivals} {outlook}: {reasons}. {shown}",
        rivals=rivals,
        outlook=_outlook(level, grade),
        reasons=reasons(pressure),
        shown=shown(pressure),
    )


def _outlook(level: str, grade: str) -> str:
    """What the level means for rivals, said with the confidence that the grade allows."""
    plain = {
        "stop": say("will fight until one is hurt"),
        "fix": say("will fight"),
        "watch": say("will squabble"),
    }
    soft = {
        "stop": say("are said to fight until one is hurt"),
        "fix": say("are said to fight when kept like this"),
        "watch": say("are said to squabble"),
    }
    return softly(grade, plain[level], soft[level])


def reasons(pressure: Pressure) -> str:
    """The temper, then the parts that raise the pressure most."""
    raising = pressure.strongest()
    return "; ".join(part.why for part in (pressure.parts[0], *raising))


def shown(pressure: Pressure, kind: str = "rivalry") -> str:
    """A pressure and where it stands, in one sentence; its parts are figures of their own."""
    low, value, high = pressure.interval
    return say(
        "{kind} pressure {value:.2f}, {low:.2f} to {high:.2f}; {holds_at:g} just holds, 1 stops.",
        kind=sentence(kind),
        value=value,
        low=low,
        high=high,
        holds_at=HOLDS_AT,
    )


def advised(keeping: Keeping, choices: int = 3) -> str:
    """The smallest change that settles a taxon's pressure and a few others, or the one that helps most."""
    found = remedies(keeping)
    settling = [remedy for remedy in found if remedy.settles]
    if settling:
        first, *others = settling[:choices]
        text = say("The smallest change that settles it: {first_words}.", first_words=first.words)
        if others:
            text += say(" Or: {others}.", others="; ".join(other.words for other in others))
        return text + _halfway(keeping, found, first)
    if found:
        best = found[0]
        words = say(
            "{best_words} (leaves a pressure of {left:.2f})", best_words=best.words, left=best.left.value
        )
        return say("No single change settles it; what helps most: {words}. Else part them.", words=words)
    return say("Keep one only, or part them.")


def _halfway(keeping: Keeping, found: list[Remedy], first: Remedy) -> str:
    """A smaller change that makes the group hold, if it does not hold now."""
    if worst_pressure(keeping).level not in ("fix", "stop"):
        return ""
    holding = [remedy for remedy in found if remedy.left.level == "watch" and remedy.effort < first.effort]
    if not holding:
        return ""
    best = min(holding, key=lambda remedy: remedy.left.value)
    return say(
        " {best_words} alone makes it hold (pressure {left:.2f}), with an eye on it.",
        best_words=sentence(best.words),
        left=best.left.value,
    )
