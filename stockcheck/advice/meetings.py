"""What every mechanism of company says of two taxa, in a plan or from the table alone."""

from __future__ import annotations

from collections.abc import Iterator
from math import isinf

from stockcheck.language import say
from stockcheck.rules.bands import Span, common, limits
from stockcheck.rules.comfort import GH, PH, TEMPERATURE, best_compromise
from stockcheck.rules.company.encounter import Encounter, Mechanism, Place, Side, adult_side
from stockcheck.rules.company.health import infected, medicated
from stockcheck.rules.company.hybrids import crossed
from stockcheck.rules.company.invertebrates import shrimps_hunted, snails_hunted
from stockcheck.rules.company.lookalikes import mistaken
from stockcheck.rules.company.nipping import nipped, plumes_bitten
from stockcheck.rules.company.predation import clawed, swallowed
from stockcheck.rules.company.temper import (
    bullied,
    disturbed_at_night,
    outcompeted,
    unlike_flow,
    unsettled,
)
from stockcheck.rules.company.territory import guarded, neighbours
from stockcheck.rules.core import level_of
from stockcheck.rules.wording import names_of
from stockcheck.table.model import Species

#: What one does to the other.
ONE_WAY: tuple[Mechanism, ...] = (
    swallowed,
    clawed,
    shrimps_hunted,
    snails_hunted,
    nipped,
    plumes_bitten,
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

#: Fields of water in which two taxa must meet, the word for each, its unit as written.
_FIELDS = ((TEMPERATURE, "temperature", " \N{DEGREE SIGN}C"), (PH, "pH", ""), (GH, "hardness", " dGH"))


def meet(one: Side, other: Side, where: Place) -> list[Encounter]:
    """All that the mechanisms of company have to say against two taxa."""
    return list(_encounters(one, other, where))


def _encounters(one: Side, other: Side, where: Place) -> Iterator[Encounter]:
    for mutual in MUTUAL:
        if (encounter := mutual(one, other, where)) and encounter.level != "clear":
            yield encounter
    for one_way in ONE_WAY:
        for actor, target in ((one, other), (other, one)):
            if (encounter := one_way(actor, target, where)) and encounter.level != "clear":
                yield encounter


def unlike_water(one: Species, other: Species) -> Encounter | None:
    """The field in which two taxa's comforts are furthest apart; ``None`` where all meet.

    The headroom is that of the value that leaves the worse off of the two the most, as in ``water/together``.
    """
    apart = []
    for field, word, unit in _FIELDS:
        found = limits((one, other), field.name)
        if len(found) == 2 and common([limit.comfort for limit in found]).empty:
            _, headroom = best_compromise(found, field)
            if level_of(headroom) != "clear":
                comforts = [limit.comfort for limit in found]
                apart.append((headroom, word, _comforts((one, other), comforts, unit)))
    if not apart:
        return None
    headroom, word, message = min(apart, key=lambda found: found[0])
    remedy = say("Choose one of the two.")
    return Encounter(
        say("unlike {what}", what=word),
        one,
        other,
        headroom,
        message,
        remedy,
        grade="C",
        mutual=True,
        unlike=True,
    )


def _comforts(taxa: tuple[Species, Species], comforts: list[Span], unit: str) -> str:
    first, second = (
        say("{taxon} are at ease at {span}{unit}", taxon=names_of(taxon), span=_span(comfort), unit=unit)
        for taxon, comfort in zip(taxa, comforts, strict=True)
    )
    return f"{first}, {second}."


def _span(comfort: Span) -> str:
    if isinf(comfort.low):
        return say("up to {comfort_high:g}", comfort_high=comfort.high)
    return (
        say("{comfort_low:g} and more", comfort_low=comfort.low)
        if isinf(comfort.high)
        else say("{comfort_low:g} to {comfort_high:g}", comfort_low=comfort.low, comfort_high=comfort.high)
    )


def meet_in_plan(one: Side, other: Side, where: Place) -> list[Encounter]:
    """Two taxa as a plan keeps them: their water and their company, the worst first."""
    water = unlike_water(one.species, other.species)
    found = ([water] if water else []) + meet(one, other, where)
    return sorted(found, key=lambda encounter: encounter.headroom)


def meet_in_general(one: Species, other: Species) -> list[Encounter]:
    """Two taxa from the table alone: grown up, in their smallest proper groups, in a tank of some cover."""
    return meet_in_plan(adult_side(one), adult_side(other), Place())
