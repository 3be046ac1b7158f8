"""What every mechanism of company says of two taxa, in a plan or from the table alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import isinf

from stockcheck.rules.bands import Span, comfort_of, common, tolerance_of
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
from stockcheck.rules.core import FIX, STOP
from stockcheck.rules.wording import names_of
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

#: Fields of water in which two taxa must meet: the band, the word for it, its unit as written.
_FIELDS = (("temperature", "temperature", " \N{DEGREE SIGN}C"), ("pH", "pH", ""), ("GH", "hardness", " dGH"))


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
    """The field in which two taxa's bands are apart, tolerance before comfort; ``None`` where all meet."""
    apart = []
    for field, word, unit in _FIELDS:
        bands = one.band(field), other.band(field)
        if bands[0] is None or bands[1] is None:
            continue
        comforts, tolerances = [comfort_of(b) for b in bands if b], [tolerance_of(b) for b in bands if b]
        if common(comforts).empty:
            headroom = STOP if common(tolerances).empty else FIX
            apart.append((headroom, word, _comforts((one, other), comforts, unit)))
    if not apart:
        return None
    headroom, word, message = min(apart, key=lambda found: found[0])
    remedy = "Choose one of the two."
    return Encounter(f"unlike {word}", one, other, headroom, message, remedy, grade="C")


def _comforts(taxa: tuple[Species, Species], comforts: list[Span], unit: str) -> str:
    first, second = (
        f"{names_of(taxon)} are at ease at {_span(comfort)}{unit}"
        for taxon, comfort in zip(taxa, comforts, strict=True)
    )
    return f"{first}, {second}."


def _span(comfort: Span) -> str:
    if isinf(comfort.low):
        return f"up to {comfort.high:g}"
    return f"{comfort.low:g} and more" if isinf(comfort.high) else f"{comfort.low:g} to {comfort.high:g}"


def meet_in_plan(one: Side, other: Side, where: Place) -> list[Encounter]:
    """Two taxa as a plan keeps them: their water and their company, the worst first."""
    water = unlike_water(one.species, other.species)
    found = ([water] if water else []) + meet(one, other, where)
    return sorted(found, key=lambda encounter: encounter.headroom)


def meet_in_general(one: Species, other: Species) -> list[Encounter]:
    """Two taxa from the table alone: grown up, in their smallest proper groups, in a tank of some cover."""
    return meet_in_plan(adult_side(one), adult_side(other), Place())
