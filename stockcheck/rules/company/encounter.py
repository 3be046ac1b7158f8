"""One taxon meeting another: what a mechanism says of the two, in a plan or in the table alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import permutations
from typing import NamedTuple

from stockcheck.facts.model import Facts, Group
from stockcheck.language import say
from stockcheck.rules.core import Finding, level_of
from stockcheck.rules.wording import listed, names_of
from stockcheck.table.model import GRADES, Species


@dataclass(frozen=True, slots=True)
class Side:
    """One taxon at a meeting: how many, and the adult length of its smallest and largest sex, mm."""

    species: Species
    count: int
    smallest_mm: float | None
    largest_mm: float | None
    males: int = 0
    females: int = 0
    unsexed: int = 0
    growing: bool = False  # some of them are still young

    @property
    def may_be_male(self) -> int:
        return self.males + self.unsexed


class Place(NamedTuple):
    """Where they meet; ``None`` is unknown (the table alone)."""

    cover: str = "some"
    floor_cm2: float | None = None
    length_cm: float | None = None
    moss: bool = False


class Encounter(NamedTuple):
    """What one mechanism says of an actor and a target."""

    mechanism: str  # in a word or two, as a cell of the pair table names it
    actor: Species
    target: Species
    headroom: float
    message: str = ""
    remedy: str = ""
    grade: str = "D"
    sources: tuple[str, ...] = ()
    mutual: bool = False  # it goes both ways, so nobody is named as the one who bears it
    unlike: bool = False  # not what they do to one another: they want different water or current

    @property
    def level(self) -> str:
        return level_of(self.headroom)

    def finding(self, rule: str) -> Finding:
        return finding_of([self], rule)


#: What one taxon does to another in a place; ``None`` where the question does not arise.
Mechanism = Callable[[Side, Side, Place], Encounter | None]


def finding_of(encounters: list[Encounter], rule: str) -> Finding:
    """Encounters of one level as one finding: the worst in full, the others by name.

    They have the same actor and differ in the target, or the other way round.
    """
    worst, *others = sorted(encounters, key=lambda encounter: encounter.headroom)
    message = worst.message
    taxa = [taxon for encounter in others for taxon in (encounter.actor, encounter.target)]
    told = (worst.actor.slug, worst.target.slug)
    also = list(dict.fromkeys(names_of(taxon) for taxon in taxa if taxon.slug not in told))
    if also and message:
        message += say(" The same goes for {also}.", also=listed(also))
    slugs = (*told, *(taxon.slug for taxon in taxa))
    return Finding(
        rule,
        worst.level,
        message,
        worst.remedy,
        tuple(dict.fromkeys(slugs)),
        max((encounter.grade for encounter in encounters), key=GRADES.index),
        tuple(dict.fromkeys(source for encounter in encounters for source in encounter.sources)),
        worst.headroom,
    )


def findings(
    rule: str,
    facts: Facts,
    mechanism: Mechanism,
    *,
    by: str = "actor",
    apart: Callable[[Encounter], object] = lambda encounter: None,
) -> Iterator[Finding]:
    """What one mechanism says of every two taxa of a plan.

    One finding for each level and each ``actor`` (or ``target``): a keeper reads of a nipper once, with all
    whom it nips.  ``apart`` keeps those apart that need other words.
    """
    where = place(facts)
    alike: dict[object, list[Encounter]] = {}
    for actor, target in ordered_pairs(facts):
        encounter = mechanism(actor, target, where)
        if encounter is not None:
            shared = encounter.actor if by == "actor" else encounter.target
            alike.setdefault((shared.slug, encounter.level, apart(encounter)), []).append(encounter)
    for encounters in alike.values():
        yield finding_of(encounters, rule)


def adult_side(species: Species) -> Side:
    """A taxon in its smallest proper group, both sexes grown: what the table alone can say."""
    lengths = [length for length in (species.adult_male_mm, species.adult_female_mm) if length]
    count = species.group_min or 1
    return Side(
        species, count, min(lengths, default=None), max(lengths, default=None), males=1, unsexed=count - 1
    )


def sides(facts: Facts) -> list[Side]:
    """Every taxon of the plan, its entries merged, in the plan's order."""
    by_slug: dict[str, list[Group]] = {}
    for group in facts.groups:
        by_slug.setdefault(group.species.slug, []).append(group)
    return [_side(groups) for groups in by_slug.values()]


def _side(groups: list[Group]) -> Side:
    species = groups[0].species
    males = sum(group.males for group in groups)
    females = sum(group.females for group in groups)
    unsexed = sum(group.unsexed for group in groups)
    lengths = [
        length
        for length, present in (
            (species.adult_male_mm, males + unsexed),
            (species.adult_female_mm, females + unsexed),
        )
        if length and present
    ] or [group.length_mm.value for group in groups if group.length_mm]
    return Side(
        species,
        males + females + unsexed,
        min(lengths, default=None),
        max(lengths, default=None),
        males,
        females,
        unsexed,
        growing=any(group.entry.stage == "juvenile" for group in groups),
    )


def place(facts: Facts) -> Place:
    """The tank as a place to meet."""
    moss = any(planting.species.habit == "moss" for planting in facts.plantings)
    return Place(facts.plan.tank.cover, facts.floor_cm2, facts.length_cm, moss)


def ordered_pairs(facts: Facts) -> Iterator[tuple[Side, Side]]:
    """Every taxon as actor with every other as target."""
    return permutations(sides(facts), 2)


#: The layers of the water, from the floor up.
LAYERS = ("bottom", "lower", "middle", "upper", "surface")


def shared_layers(one: Species, other: Species) -> list[str]:
    """The layers that both use, from the floor up."""
    return [layer for layer in LAYERS if layer in one.zone and layer in other.zone]


def share_hours(one: Species, other: Species) -> bool:
    """Whether both are about at the same time (a crepuscular animal meets either)."""
    return one.activity == other.activity or "crepuscular" in (one.activity, other.activity)
