"""A species' good and bad company, told shortly enough for its page."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from stockcheck.advice.meetings import meet_in_general
from stockcheck.report.text_catalogue import text
from stockcheck.rules.bands import name_of
from stockcheck.rules.company.encounter import Encounter
from stockcheck.rules.room.surroundings import LAND_CRABS
from stockcheck.rules.wording import sentence
from stockcheck.table.model import Species
from stockcheck.table.read import Table

_MOST_GOOD = 24
#: Tempers that want company of their own kind of temper.
_ROUGH = ("aggressive", "predatory")
#: Company is not named where one is more than so many times as long as the other.
_OF_A_SIZE = 3.5
_MOST_NAMES = 12


class Other(NamedTuple):
    """Another taxon, to link to."""

    slug: str
    name: str


class Reason(NamedTuple):
    """What speaks against some: the mechanism, who bears it, one case in full, and the taxa concerned."""

    heading: str
    level: str
    example: str
    others: list[Other]
    more: int


class Company(NamedTuple):
    """Some companions that nothing speaks against, how many there are, and what speaks against the worst."""

    good: list[Other]
    good_count: int
    bad: list[Reason]


def companions(species: Species, table: Table) -> Company:
    """Whom it gets on with and whom not, by the table alone (both grown, in their proper groups).

    Those that only the water rules out are left to the overlap and not named.
    """
    return _companions(species.slug, table)


@lru_cache(maxsize=512)
def _companions(slug: str, table: Table) -> Company:
    species = table.species(slug)
    good: list[Other] = []
    bad: dict[tuple[str, str], list[tuple[Encounter, Other]]] = {}
    for other in table.all_species():
        if other.slug == species.slug:
            continue
        met = meet_in_general(species, other)
        linked = Other(other.slug, name_of(other))
        if not met:
            if _alike(species, other):
                good.append(linked)
            continue
        worst = next((one for one in met if not one.unlike), None)
        if worst is not None and worst.level in ("stop", "fix"):
            bad.setdefault((worst.level, _heading(worst, species)), []).append((worst, linked))
    good.sort(key=lambda other: other.name.lower())
    reasons = [_reason(level, heading, found) for (level, heading), found in bad.items()]
    reasons.sort(key=lambda reason: (reason.level != "stop", -len(reason.others) - max(reason.more, 0)))
    return Company(_spread(good), len(good), reasons)


def _alike(one: Species, other: Species) -> bool:
    """Whether two that nothing speaks against are also of one temper and scale; else they go unnamed."""
    if one.family in LAND_CRABS or other.family in LAND_CRABS:
        return False
    tempers = {one.temperament in _ROUGH, other.temperament in _ROUGH}
    bites = {one.fin_nipper == "yes", other.fin_nipper == "yes"}
    lengths = sorted(length for length in (one.adult_length_mm, other.adult_length_mm) if length)
    of_a_size = len(lengths) < 2 or lengths[1] <= _OF_A_SIZE * lengths[0]
    both_fish = one.kind == other.kind == "fish"
    return len(tempers) == 1 and of_a_size and not (both_fish and len(bites) == 2)


def _heading(worst: Encounter, species: Species) -> str:
    if worst.mutual:
        return worst.mechanism
    key = "company.bears" if worst.target.slug == species.slug else "company.does"
    return text(key, mechanism=worst.mechanism)


def _reason(level: str, heading: str, found: list[tuple[Encounter, Other]]) -> Reason:
    found = sorted(found, key=lambda one: (one[0].headroom, one[1].name.lower()))
    others = [other for _, other in found]
    return Reason(
        heading, level, sentence(found[0][0].message), others[:_MOST_NAMES], len(others) - _MOST_NAMES
    )


def _spread(good: list[Other]) -> list[Other]:
    """A handful from all over the list, not only the first letters of the alphabet."""
    step = max(len(good) / _MOST_GOOD, 1.0)
    return [good[int(n * step)] for n in range(min(_MOST_GOOD, len(good)))]
