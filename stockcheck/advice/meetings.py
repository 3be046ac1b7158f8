"""What every mechanism of company says of two taxa, in a plan or from the table alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import inf

from stockcheck.rules.bands import comfort_of, common, tolerance_of
from stockcheck.rules.company.encounter import Encounter, Place, Side, adult_side
from stockcheck.rules.company.health import infected, medicated
from stockcheck.rules.company.hybrids import crossed
from stockcheck.rules.company.invertebrates import shrimps_hunted, snails_hunted
from stockcheck.rules.company.lookalikes import mistaken
from stockcheck.rules.company.nipping import nipped
from stockcheck.rules.company.predation import clawed, swallowed
from stockcheck.rules.company.temper import (
    bullied,
    disturbed_at_night,
    outcompeted,
    unlike_flow,
    unsettled,
)
from stockcheck.rules.company.territory import guarded, neighbours
from stockcheck.rules.company.wording import names_of
from stockcheck.rules.core import FIX, STOP
from stockcheck.table.model import Species

Mechanism = Callable[[Side, Side, Place], Encounter | None]

#: What one does to the other.
ONE_WAY: tuple[Mechanism, ...] = (
    swallowed,
    clawed,
    shrimps_hunted,
    snails_hunted,
    nipped,
    bullied,
    guarded,
    unsettled,
    outcompeted,
    unlike_flow,
    disturbed_at_night,
    infected,
    medicated,
)
#: What they are to each other.
MUTUAL: tuple[Mechanism, ...] = (mistaken, neighbours, crossed)

_FIELDS = (("temperature", "temperature"), ("pH", "pH"), ("GH", "hardness"))


def meet(one: Side, other: Side, where: Place | None = None) -> list[Encounter]:
    """All that the mechanisms of company have to say of two taxa, the worst first."""
    where = where or Place()
    return sorted(_encounters(one, other, where), key=lambda encounter: encounter.headroom)


def _encounters(one: Side, other: Side, where: Place) -> Iterator[Encounter]:
    for mutual in MUTUAL:
        if (encounter := mutual(one, other, where)) and encounter.level != "clear":
            yield encounter
    for one_way in ONE_WAY:
        for actor, target in ((one, other), (other, one)):
            if (encounter := one_way(actor, target, where)) and encounter.level != "clear":
                yield encounter


def unlike_water(one: Species, other: Species) -> Encounter | None:
    """The field in which two taxa's bands are furthest from meeting, if any are apart."""
    apart = []
    for field, word in _FIELDS:
        bands = one.band(field), other.band(field)
        if bands[0] is None or bands[1] is None:
            continue
        if common([tolerance_of(bands[0]), tolerance_of(bands[1])]).empty:
            apart.append((STOP, word))
        elif common([comfort_of(bands[0]), comfort_of(bands[1])]).empty:
            apart.append((FIX, word))
    headroom, word = min(apart, default=(inf, ""))
    if not word:
        return None
    manner = "bear no common" if headroom == STOP else "are at ease in no common"
    message = f"{names_of(one)} and {names_of(other)} {manner} {word}."
    return Encounter(f"unlike {word}", one, other, headroom, message, grade="C")


def meet_in_general(one: Species, other: Species) -> list[Encounter]:
    """Two taxa in their smallest proper groups, grown up, in a tank of some cover: water first, then
    company.
    """
    water = unlike_water(one, other)
    company = meet(adult_side(one), adult_side(other))
    return sorted(([water] if water else []) + company, key=lambda encounter: encounter.headroom)
