"""Groups of which the plan does not say who is male and who female."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import comb
from typing import NamedTuple

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.company.keeping import Keeping, female_pressure, keepings, worst_pressure
from stockcheck.rules.company.pressure import HOLDS_AT, Pressure
from stockcheck.rules.company.remedies import Change, remedies
from stockcheck.rules.company.rivalry import RIVALRY_SOURCES, contest, reasons, shown
from stockcheck.rules.core import Finding, level_of, rule
from stockcheck.rules.wording import grade_of, listed, name_of, names_of, sentence, some
from stockcheck.table.model import GRADES, Species

#: Headroom of what just holds.
HEADROOM_THAT_HOLDS = 50.0
#: Chance of a mix at odds, bought unsexed, from which it is worth a word; by the finding's grade.
_WORTH_A_WORD = {"C": 0.10, "D": 0.30}
#: Unsexed groups above this size are judged at this size: the share of a mix hardly changes.
_MOST_SPLITS = 60
#: Odds past this are no longer told in percent: both outcomes can come.
_NEARLY = 0.99


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

    Where males fight to the end, two that are not sexed are a stop whatever the odds.

    Limits.  Odds assume that each animal is as likely male as female; shops that sort by colour sell mostly
    males.
    """
    open_questions = []
    for keeping in keepings(facts):
        if not keeping.unsexed:
            continue
        if keeping.species.male_male == "lethal" and keeping.unsexed > 1:
            yield _may_kill(keeping)
        elif sexes_alike(keeping.species):
            yield from _one_rank(keeping)
        else:
            outcomes = _outcomes(keeping)
            males = _calmest(keeping, outcomes)
            best = _split(keeping, males)
            if outcomes[males].value > HOLDS_AT:
                yield _at_odds(keeping, best, outcomes[males])
            elif (odds := _odds(outcomes)) >= _WORTH_A_WORD[_grade(keeping.species)]:
                open_questions.append(Question(keeping, odds, best))
    if open_questions:
        yield _depends(open_questions)


def _may_kill(keeping: Keeping) -> Finding:
    """Where two males fight to the end, the chance of two males is reason enough."""
    species = keeping.species
    return Finding(
        "company/unsexed",
        "stop",
        say(
            "Any two of the {unsexed} may be males, and males of this kind fight to the end.",
            unsexed=some(keeping.unsexed, species),
        ),
        say(
            "Do not put them together before they are sexed: {how_to_sex} Then keep one male at most.",
            how_to_sex=how_to_sex(species),
        ),
        (species.slug,),
        _grade(species),
        RIVALRY_SOURCES,
        headroom=0.0,
    )


class Question(NamedTuple):
    """A group whose peace depends on its sexes: the odds of a bad mix, and the calmest one."""

    keeping: Keeping
    odds: float
    best: Keeping

    @property
    def species(self) -> Species:
        return self.keeping.species


def _grade(species: Species) -> str:
    return grade_of((species, "male_male"))


def sexes_alike(species: Species) -> bool:
    """Whether males and females of a group contest one another alike, so that no matter who is who."""
    alike = species.male_male == species.female_female and species.male_female == "none"
    return alike and species.social in ("shoal", "group")


def rank_pressure(keeping: Keeping) -> Pressure:
    """The pressure in a group of one order of rank: all are rivals."""
    return female_pressure(replace(keeping, males=0, females=keeping.count, unsexed=0))


def _one_rank(keeping: Keeping) -> Iterator[Finding]:
    pressure, species = rank_pressure(keeping), keeping.species
    if not pressure.parts:
        return
    headroom = pressure.headroom
    spars = species.male_male in ("display", "spar")
    if spars:
        headroom = max(headroom, HEADROOM_THAT_HOLDS)
    level, slugs = level_of(headroom), (species.slug,)
    if level == "clear":
        yield Finding("company/unsexed", "clear", "", species=slugs, headroom=headroom)
        return
    grade = grade_of((species, "male_male"), (species, "female_female"))
    several = some(keeping.count, species)
    if spars:
        why = "; ".join(part.why for part in pressure.strongest()) or say(
            "in a group there is always one above"
        )
        message = say(
            "{several} spar for rank: {why}. It ends when that is settled.", several=several, why=why
        )
        remedy = say("Sight lines broken by wood and plants, and feed in several places, keep it short.")
    else:
        message = contest(several, level, grade, pressure)
        remedy = say(
            "A longer tank with the sight lines broken, or another species than {species}.",
            species=names_of(species),
        )
    yield Finding("company/unsexed", level, message, remedy, slugs, grade, RIVALRY_SOURCES, headroom)


def _odds(outcomes: list[Pressure]) -> float:
    """How likely a group bought at random is one that does not hold."""
    bad = sum(
        comb(len(outcomes) - 1, males) for males, worst in enumerate(outcomes) if worst.value > HOLDS_AT
    )
    return bad / float(2 ** (len(outcomes) - 1))


def _share(odds: float) -> str:
    """Odds in whole percent, but never all."""
    if odds > _NEARLY:
        return say("more than {nearly:.0%}", nearly=_NEARLY)
    return f"{odds:.0%}"


def _depends(questions: list[Question]) -> Finding:
    """One open question for all groups whose peace depends on their sexes."""
    names = listed([names_of(question.species) for question in questions])
    odds = listed([_share(question.odds) for question in questions])
    mixes = [
        _mix(question.best.males, question.best.females)
        + (f" ({names_of(question.species)})" if len(questions) > 1 else "")
        for question in questions
        if question.keeping.unsexed <= _MOST_SPLITS
    ]
    best = say(" The calmest mix here: {mixes}.", mixes="; ".join(mixes)) if mixes else ""
    hints = dict.fromkeys(sentence(how_to_sex(question.species)) for question in questions)
    return Finding(
        "company/unsexed",
        "unknown",
        say(
            "Whether the {names} get on depends on their sexes, which the plan does not say: bought "
            "at random they fight, or wear their females out, {odds} of the time.",
            names=names,
            odds=odds,
        ),
        say(
            "Sex them and write males and females into the plan. {hints}{best}",
            hints=" ".join(hints),
            best=best,
        ),
        tuple(question.species.slug for question in questions),
        max((_grade(question.species) for question in questions), key=GRADES.index),
    )


def calmest_split(keeping: Keeping) -> Keeping:
    """The keeping, had the sexes of its unsexed animals fallen out best; itself where all are sexed."""
    if not keeping.unsexed:
        return keeping
    return _split(keeping, _calmest(keeping, _outcomes(keeping)))


def _outcomes(keeping: Keeping) -> list[Pressure]:
    """The worst pressure by the number of its unsexed animals that turn out male, from none to all."""
    return [worst_pressure(_split(keeping, males)) for males in range(_open_sexes(keeping) + 1)]


def _calmest(keeping: Keeping, outcomes: list[Pressure]) -> int:
    """How many males make the calmest group; both sexes, where that is calm enough."""

    def rank(males: int) -> tuple[bool, float]:
        both = keeping.males + males > 0 and keeping.females + len(outcomes) - 1 > males
        return not (both and outcomes[males].level == "clear"), outcomes[males].value

    return min(range(len(outcomes)), key=rank)


def _open_sexes(keeping: Keeping) -> int:
    """How many animals the splits tell apart."""
    return min(keeping.unsexed, _MOST_SPLITS)


def _split(keeping: Keeping, males: int) -> Keeping:
    """The keeping, had ``males`` of its unsexed animals turned out male."""
    females = keeping.females + _open_sexes(keeping) - males
    return replace(keeping, males=keeping.males + males, females=females, unsexed=0)


def _at_odds(keeping: Keeping, best: Keeping, pressure: Pressure) -> Finding:
    """A group that does not hold even when its sexes fall out best."""
    species = keeping.species
    room = [remedy for remedy in remedies(best) if remedy.settles and _leaves_sexes(remedy.change)]
    if room and "lethal" not in (species.male_male, species.female_female, species.male_female):
        remedy = say("The smallest change that can settle it: {words}.", words=room[0].words)
    else:
        remedy = say("Keep one {species} alone, or another species in its place.", species=name_of(species))
    return Finding(
        "company/unsexed",
        pressure.level,
        say(
            "{count} will not get on here, whichever sexes they turn out to be: {reasons}. {shown}",
            count=some(keeping.count, species),
            reasons=reasons(pressure),
            shown=shown(pressure),
        ),
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
        return say("the male's anal fin is a thin rod, the female's a fan.")
    if species.family == "Cichlidae" and species.reproduction == "substrate-spawner":
        return say(
            "they are hard to tell apart before they pair: raise six young, part the rest when two have."
        )
    if species.kind == "crayfish":
        return say("turn one over: only the male has hard swimmerets that lie forward between his legs.")
    if species.kind != "fish" or species.group == "puffer" or species.slug.startswith("carassius"):
        return say("they are hard to tell apart outside breeding; ask the breeder.")
    return say(
        "males usually show more colour and longer, pointed fins, females are rounder; ask the shop to pick."
    )
