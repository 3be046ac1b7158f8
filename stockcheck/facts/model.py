"""Everything the rules may ask: the plan, the animals and plants it names, the figures computed from them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import NamedTuple

from stockcheck.physics.quantity import Influence, Interval
from stockcheck.plan.model import Animals, Plan, Plants
from stockcheck.table.model import PlantSpecies, Species


@dataclass(slots=True)
class Group:
    """The animals of one plan entry; ``mass_g`` is one animal's adult mass, ``mass_now_g`` its mass today."""

    entry: Animals
    species: Species
    length_mm: Interval | None  # adult, of the sexes present
    length_now_mm: Interval | None
    mass_g: Interval | None
    mass_now_g: Interval | None

    @property
    def males(self) -> int:
        return self.entry.males

    @property
    def females(self) -> int:
        return self.entry.females

    @property
    def unsexed(self) -> int:
        return self.entry.count or 0

    @property
    def count(self) -> int:
        return self.entry.total


@dataclass(slots=True)
class Planting:
    """One plant entry with its taxon."""

    entry: Plants
    species: PlantSpecies


class Step(NamedTuple):
    """One line of shown arithmetic: what, by which formula (in this plan's numbers), result, source."""

    name: str
    formula: str
    value: float
    unit: str
    source: str


class Steps:
    """The steps of several figures, written together when the first of them is asked for."""

    def __init__(self, write: Callable[[], Mapping[str, list[Step]]]) -> None:
        self._written = cache(write)

    def of(self, name: str) -> Callable[[], list[Step]]:
        """What gives the steps of one figure; none where none are written."""
        return lambda: self._written().get(name, [])


def given(steps: list[Step]) -> Callable[[], list[Step]]:
    """Steps that are written already."""
    return lambda: steps


@dataclass(slots=True)
class Figure:
    """A computed quantity: its interval, unit, what moves it most, and the steps that led to it.

    A check reads intervals; the arithmetic is written only where it is shown, so ``told`` waits to be called.
    """

    name: str  # as in the report's JSON: tan_mg_per_l
    label: str  # as a person reads it: total ammonia nitrogen
    interval: Interval
    unit: str
    influences: list[Influence] = field(default_factory=list)
    told: Callable[[], list[Step]] = list

    @property
    def steps(self) -> list[Step]:
        return self.told()


@dataclass(slots=True)
class Facts:
    """What rules are given.  A figure that could not be computed is absent from ``figures``."""

    plan: Plan
    groups: list[Group]
    plantings: list[Planting]
    temperature_c: float | None  # the water's, for rates: setpoint, or the room's where there is no heater
    floor_cm2: float | None
    length_cm: float | None
    figures: dict[str, Figure] = field(default_factory=dict)
