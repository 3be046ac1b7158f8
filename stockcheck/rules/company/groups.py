"""Company of one's own kind: shoals too small, loners in company, singles of what lives in pairs."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.company.keeping import Keeping, keepings, worst_pressure
from stockcheck.rules.core import CLEAR, FIX, WATCH, Finding, headroom_between, rule
from stockcheck.rules.wording import count_word, grade_of, listed, name_of, names_of, sentence, softly, some
from stockcheck.table.model import GRADES

SAXBY = "Saxby et al. 2010, Appl. Anim. Behav. Sci. 125:195"

_TOO_SMALL = "company/group-too-small"
#: A shoal of this share of its smallest number is no shoal.
_STOP_SHARE, _HOLDS_SHARE, _SAFE_SHARE = 0.0, 0.6, 1.4


@rule(
    "company/group-too-small",
    trips="""
[[animals]]
species = "Corydoras panda"
count = 2
""",
    clears="""
[[animals]]
species = "Corydoras panda"
count = 8
""",
    sources=(SAXBY,),
)
def group_too_small(facts: Facts) -> Iterator[Finding]:
    """Is a shoaling or social animal short of company?

    Mechanism.  In a shoal each one is safer, eats more boldly and spreads its quarrels over many.  Below the
    smallest number they hide, dart, or turn on one another and on their companions.

    Evidence.  Neon tetras and white clouds showed less aggression and darting up to ten together, tiger barbs
    were better in larger groups, angelfish showed no clear trend (Saxby et al. 2010).  The smallest number is
    the table's, from its sources.

    Limits.  The smallest number is where keepers agree, not a measured edge.
    """
    short: dict[tuple[str, str], list[tuple[float, Keeping]]] = {}
    for keeping in keepings(facts):
        least = keeping.species.group_min or 1
        if keeping.species.social not in ("shoal", "group") or least <= 1:
            continue
        share = keeping.count / least
        headroom = max(headroom_between(share, _STOP_SHARE, _HOLDS_SHARE, _SAFE_SHARE), 5.0)
        if share >= 1:
            slugs = (keeping.species.slug,)
            yield Finding(_TOO_SMALL, "clear", "", species=slugs, headroom=max(headroom, 80))
        else:
            level = "fix" if headroom < 50 else "watch"
            short.setdefault((level, keeping.species.social), []).append((headroom, keeping))
    for (level, social), found in short.items():
        yield _short_of_company(level, social, found)


def _short_of_company(level: str, social: str, found: list[tuple[float, Keeping]]) -> Finding:
    """One finding for all that live alike and are about as short of company."""
    taxa = [keeping.species for _, keeping in found]
    wants = "shoals" if social == "shoal" else "groups"
    least = [taxon.group_min or 1 for taxon in taxa]
    missing = [some(n - k.count, k.species, "more") for n, (_, k) in zip(least, found, strict=True)]
    if len(found) == 1:
        message = say(
            "{taxa} live in {wants} of {least} or more",
            taxa=sentence(names_of(taxa[0])),
            wants=wants,
            least=least[0],
        )
        message += f": {_alone(level, found[0][1].count)}"
    else:
        named = [
            say(
                "{species} ({count} of at least {group_min})",
                species=names_of(k.species),
                count=k.count,
                group_min=k.species.group_min,
            )
            for _, k in found
        ]
        few = say("so few will do for a time") if level == "watch" else say("so few stay timid, or quarrel")
        message = say("{named} live in {wants}; {few}", named=sentence(listed(named)), wants=wants, few=few)
    grades = [
        band.grade if (band := taxon.band("group_min")) else grade_of((taxon, "group_min")) for taxon in taxa
    ]
    return Finding(
        _TOO_SMALL,
        level,
        f"{message}.",
        say("{missing}, if there is room; else none.", missing=sentence(listed(missing))),
        tuple(taxon.slug for taxon in taxa),
        max(grades, key=GRADES.index),
        (SAXBY,),
        min(headroom for headroom, _ in found),
    )


def _alone(level: str, count: int) -> str:
    """What becomes of so few of one kind."""
    if level == "watch":
        return say("{count} will do for a time", count=count_word(count))
    if count == 1:
        return say("one alone stays hidden, pale and off its food, or takes it out on others")
    if count == 2:
        return say("of two, one chases and the other hides")
    return say("{count} stay timid, or turn on one another", count=count_word(count))


@rule(
    "company/solitary",
    trips="""
[[animals]]
species = "Epalzeorhynchos bicolor"
count = 3
""",
    clears="""
[[animals]]
species = "Epalzeorhynchos bicolor"
count = 1
""",
)
def solitary(facts: Facts) -> Iterator[Finding]:
    """Is a loner kept with its own kind?

    Mechanism.  Animals that hold a territory against all of their own kind bear none of it in a tank: the
    beaten one cannot leave.

    Evidence.  The table's traits.

    Limits.  Very large tanks hold several.  Where the sexes are known and the rivalry rules find that they
    fight, this rule leaves it at that.
    """
    for keeping in keepings(facts):
        species = keeping.species
        if species.social != "solitary":
            continue
        fierce = {"territorial", "lethal"} & {species.male_male, species.female_female}
        told = worst_pressure(keeping).level in ("fix", "stop")  # by the rivalry rules, with its reasons
        if keeping.count <= 1 or not fierce or told:
            yield Finding("company/solitary", "clear", "", species=(species.slug,), headroom=CLEAR)
            continue
        grade = grade_of((species, "social"))
        yield Finding(
            "company/solitary",
            "fix",
            say(
                "{species} {verb} alone and drive off their own kind; the plan has {count}.",
                species=sentence(names_of(species)),
                verb=softly(grade, say("live"), say("are said to live")),
                count=some(keeping.count, species),
            ),
            say("Keep one {species}.", species=name_of(species)),
            (species.slug,),
            grade,
            headroom=FIX,
        )


@rule(
    "company/pair-or-harem",
    trips="""
[[animals]]
species = "Mikrogeophagus ramirezi"
males = 1
females = 3
""",
    clears="""
[[animals]]
species = "Mikrogeophagus ramirezi"
males = 1
females = 1
""",
)
def pair_or_harem(facts: Facts) -> Iterator[Finding]:
    """Does a taxon that lives in pairs or harems have the partners it needs?

    Mechanism.  A pair drives off the third of its kind; a harem needs its females, for a single one bears
    all the courting.  A male alone is well off.

    Evidence.  The table's traits.

    Limits.  Young fish bought to find their own pair are a group for a time: part them when two have.
    """
    for keeping in keepings(facts):
        species = keeping.species
        if keeping.unsexed or not keeping.males or not keeping.females:
            continue
        grade = grade_of((species, "social"))
        if species.social == "pair" and keeping.females > keeping.males and species.female_female != "none":
            yield Finding(
                "company/pair-or-harem",
                "watch",
                say(
                    "{species} live in pairs; the {females} left over will be driven off.",
                    species=sentence(names_of(species)),
                    females=count_word(keeping.females - keeping.males),
                ),
                say(
                    "Keep {males} pair{plural}.",
                    males=count_word(keeping.males),
                    plural="s" if keeping.males > 1 else "",
                ),
                (species.slug,),
                grade,
                headroom=WATCH,
            )
        elif species.social in ("pair", "harem"):
            yield Finding("company/pair-or-harem", "clear", "", species=(species.slug,), headroom=CLEAR)
