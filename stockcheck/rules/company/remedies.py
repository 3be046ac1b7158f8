"""Changes that would lower a taxon's pressure, each tried by computing the pressure anew."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import ceil
from typing import NamedTuple

from stockcheck.rules.company.keeping import Keeping, worst_pressure
from stockcheck.rules.company.pressure import BASE, COVER_STEP, Pressure
from stockcheck.rules.company.wording import names_of

#: Lengths tanks are sold in, cm.
TANK_LENGTHS_CM = (60, 80, 100, 120, 150, 180, 200)
#: The most animals a remedy adds.
MOST_ADDED = 12


class Change(NamedTuple):
    """What to alter in a plan; ``None`` leaves a thing as it is."""

    males: int | None = None
    females: int | None = None
    cover: str | None = None
    tank_length_cm: float | None = None


class Remedy(NamedTuple):
    """A change in words, the highest pressure that is left after it, and how big a step it is (1 small)."""

    words: str
    change: Change
    left: Pressure
    effort: float

    @property
    def settles(self) -> bool:
        return self.left.level == "clear"


def apply(keeping: Keeping, change: Change) -> Keeping:
    """The keeping after a change; a longer tank keeps its shape of floor."""
    altered = keeping
    if change.males is not None:
        altered = replace(altered, males=change.males)
    if change.females is not None:
        altered = replace(altered, females=change.females)
    if change.cover is not None:
        altered = replace(altered, cover=change.cover)
    if change.tank_length_cm is not None and keeping.floor_cm2 and keeping.length_cm:
        floor = keeping.floor_cm2 * change.tank_length_cm / keeping.length_cm
        altered = replace(altered, floor_cm2=floor, length_cm=change.tank_length_cm)
    return altered


def remedies(keeping: Keeping) -> list[Remedy]:
    """Changes that lower the highest pressure of a taxon: those that settle it, the smallest first.

    Those that only help follow, the most helpful first.  Each is tried on the model with everything else as
    it is, so the first one does settle what it says it settles, as far as the model goes.
    """
    now = worst_pressure(keeping).value
    found = [
        Remedy(words, change, left, effort)
        for words, change, effort in _candidates(keeping)
        if (left := worst_pressure(apply(keeping, change))).value < 0.97 * now
    ]
    settling = sorted((remedy for remedy in found if remedy.settles), key=lambda remedy: remedy.effort)
    helping = sorted((remedy for remedy in found if not remedy.settles), key=lambda remedy: remedy.left.value)
    return settling + helping


def _candidates(keeping: Keeping) -> Iterator[tuple[str, Change, float]]:
    yield from _more_cover(keeping)
    yield from _other_numbers(keeping)
    yield from _longer_tank(keeping)
    yield from _more_cover_and_females(keeping)


def _more_cover(keeping: Keeping) -> Iterator[tuple[str, Change, float]]:
    step = COVER_STEP[keeping.cover]
    for cover, reach in COVER_STEP.items():
        if reach > step:
            yield f"cover from {keeping.cover} to {cover}", Change(cover=cover), 1.0 + (reach - step)


def _other_numbers(keeping: Keeping) -> Iterator[tuple[str, Change, float]]:
    species, males, females = keeping.species, keeping.males, keeping.females
    names = names_of(species)
    sociable = species.social in ("shoal", "group")
    least = (species.group_min or 1) if sociable else 1

    def settled(change: Change) -> bool:
        return worst_pressure(apply(keeping, change)).level == "clear"

    if species.male_male in BASE and males > 1:
        more = _first(range(1, MOST_ADDED + 1), lambda n: settled(Change(males=males + n)))
        if more and sociable:
            yield f"{more} more male{'s' * (more > 1)}", Change(males=males + more), 2.0 + more / 6
        fewest = max(least - females, 1)
        keep = _first(range(males - 1, fewest - 1, -1), lambda n: settled(Change(males=n)))
        if keep:
            words = f"only {'one male' if keep == 1 else f'{keep} males'} instead of {males}"
            yield words, Change(males=keep), 2.0 + (males - keep) / 6
    if females:
        wanted = ceil(males * keeping.females_wanted)
        for total in {wanted, wanted + males}:
            if total > females:
                yield f"{total - females} more females", Change(females=total), 2.5 + (total - females) / 6
        if females > 1 and males == 0:
            keep = _first(range(females - 1, max(least, 1) - 1, -1), lambda n: settled(Change(females=n)))
            if keep:
                yield (
                    f"only {keep} {names} instead of {females}",
                    Change(females=keep),
                    2.0 + (females - keep) / 6,
                )
        if males:
            yield (
                f"females only: rehome the males and keep {max(females, least)}",
                Change(0, max(females, least)),
                4.0,
            )
    elif males > 1:
        yield f"females only: {max(males, least)} of them", Change(0, max(males, least)), 4.0
    if not sociable and keeping.count > 1:
        yield "one alone", Change(males=1, females=0) if males else Change(females=1), 4.5


def _longer_tank(keeping: Keeping) -> Iterator[tuple[str, Change, float]]:
    if keeping.length_cm is None:
        return
    longer = [length for length in TANK_LENGTHS_CM if length > keeping.length_cm * 1.05]
    enough = _first(
        longer,
        lambda length: worst_pressure(apply(keeping, Change(tank_length_cm=length))).level == "clear",
    )
    for length in {enough or max(longer, default=0)} - {0}:
        words = f"a tank of {length} cm (floor in proportion)"
        yield words, Change(tank_length_cm=length), 5.0 + length / keeping.length_cm


def _more_cover_and_females(keeping: Keeping) -> Iterator[tuple[str, Change, float]]:
    """Two small changes at once, where one alone may not do."""
    if keeping.cover == "dense":
        return
    for words, change, effort in list(_other_numbers(replace(keeping, cover="dense"))):
        yield (
            f"{words}, and cover from {keeping.cover} to dense",
            change._replace(cover="dense"),
            effort + 1.5,
        )


def _first(numbers: range | list[int], fits: Callable[[int], bool]) -> int | None:
    return next((number for number in numbers if fits(number)), None)
