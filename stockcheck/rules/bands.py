"""Bands of several taxa against one another: what all share, and the largest groups that share something."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import inf, isfinite
from typing import NamedTuple

from stockcheck.table.model import Band, PlantSpecies, Species

Taxon = Species | PlantSpecies


class Span(NamedTuple):
    """A closed interval; an end that no source states is infinite."""

    low: float
    high: float

    @property
    def empty(self) -> bool:
        return self.low > self.high

    @property
    def width(self) -> float:
        return self.high - self.low

    def holds(self, x: float) -> bool:
        return self.low <= x <= self.high

    def beyond(self, x: float) -> float:
        """How far ``x`` is outside; 0 inside."""
        return max(self.low - x, x - self.high, 0.0)


class Limit(NamedTuple):
    """A taxon with its comfort and tolerance in one field."""

    taxon: Taxon
    band: Band
    comfort: Span
    tolerance: Span


class Party(NamedTuple):
    """Taxa whose comfort bands have a stretch in common."""

    members: tuple[Limit, ...]
    span: Span


def finite(end: float) -> float | None:
    """An end of a span; ``None`` where it is open."""
    return end if isfinite(end) else None


def comfort_of(band: Band) -> Span:
    return Span(
        -inf if band.comfort_low is None else band.comfort_low,
        inf if band.comfort_high is None else band.comfort_high,
    )


def tolerance_of(band: Band) -> Span:
    """Tolerance, which never is narrower than comfort."""
    comfort = comfort_of(band)
    return Span(
        comfort.low if band.tolerance_low is None else min(band.tolerance_low, comfort.low),
        comfort.high if band.tolerance_high is None else max(band.tolerance_high, comfort.high),
    )


def limits(taxa: Sequence[Taxon], field: str) -> list[Limit]:
    """Each taxon once, where the table has a comfort of ``field`` for it."""
    once = {taxon.slug: taxon for taxon in taxa}
    return [
        Limit(taxon, band, comfort_of(band), tolerance_of(band))
        for taxon in once.values()
        if (band := taxon.band(field)) is not None and not (band.comfort_low is band.comfort_high is None)
    ]


def common(spans: Sequence[Span]) -> Span:
    """What all spans share; ``empty`` where that is nothing."""
    return Span(max((s.low for s in spans), default=-inf), min((s.high for s in spans), default=inf))


def parties(found: Sequence[Limit]) -> list[Party]:
    """The maximal groups whose comfort bands share a point, the largest first, the widest band next.

    Intervals that meet pairwise share a point, and some member's low end is such a point; so the groups are
    those alive at each low end, less the ones inside another (a sweep over interval starts).
    """
    return parties_at(found, [limit.comfort.low for limit in found])


def parties_at(found: Sequence[Limit], points: Iterable[float], room: float = 0.0) -> list[Party]:
    """The maximal groups that are comfortable at one of some points, ordered as ``parties`` orders them.

    ``room`` is how far inside its comfort a taxon has to be there.
    """
    alive = {
        tuple(
            i
            for i, limit in enumerate(found)
            if limit.comfort.low + room <= point <= limit.comfort.high - room
        )
        for point in points
    }
    alive.discard(())
    maximal = [group for group in alive if not any(set(group) < set(other) for other in alive)]
    grouped = [
        Party(tuple(found[i] for i in group), common([found[i].comfort for i in group]))
        for group in sorted(maximal)
    ]
    return sorted(grouped, key=lambda party: (-len(party.members), -party.span.width))


def name_of(taxon: Taxon) -> str:
    """As a keeper says it."""
    return taxon.common_name or taxon.scientific_name
