"""Changes that would lower a taxon's pressure, each tried by computing the pressure anew."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from stockcheck.language import say
from stockcheck.rules.company.keeping import Keeping, male_pressure, worst_pressure
from stockcheck.rules.company.pressure import COVER_STEP, FLOOR_MOST, Pressure
from stockcheck.rules.wording import count_word

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
    caves: int | None = None


class Remedy(NamedTuple):
    """A change in words, the highest pressure that is left after it, and how big a step it is (1 small)."""

    words: str
    change: Change
    left: Pressure
    effort: float

    @property
    def settles(self) -> bool:
        return self.left.level == "clear"


#: What to try: in words, as a change, and how big a step it is.
Candidate = tuple[str, Change, float]


def apply(keeping: Keeping, change: Change) -> Keeping:
    """The keeping after a change; a longer tank keeps its shape of floor."""
    altered = keeping
    if change.males is not None:
        altered = replace(altered, males=change.males)
    if change.females is not None:
        altered = replace(altered, females=change.females)
    if change.cover is not None:
        altered = replace(altered, cover=change.cover)
    if change.caves is not None:
        altered = replace(altered, caves=change.caves)
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


def _candidates(keeping: Keeping) -> Iterator[Candidate]:
    alone = [
        *_more_cover(keeping),
        *_more_caves(keeping),
        *_more_males(keeping),
        *_fewer_males(keeping),
        *_more_females(keeping),
        *_other_mix(keeping),
        *_one_sex(keeping),
        *_fewer_females(keeping),
        *_longer_tank(keeping),
    ]
    yield from alone
    if keeping.cover != "dense":
        yield from _with_dense_cover(keeping)


def _settled(keeping: Keeping, change: Change) -> bool:
    return worst_pressure(apply(keeping, change)).level == "clear"


def _least(keeping: Keeping) -> int:
    """The smallest group that the taxon may be kept in."""
    sociable = keeping.species.social in ("shoal", "group")
    return (keeping.species.group_min or 1) if sociable else 1


def _packed(keeping: Keeping) -> bool:
    """Whether the males have so little floor that the model no longer tells more of them apart."""
    parts = male_pressure(keeping).parts
    return any(part.name == "floor" and part.factor.value >= FLOOR_MOST for part in parts)


def _effort(changed: int) -> float:
    """Animals bought or given away, as a step: the fewer the smaller."""
    return 1.5 + changed / 4


def _more_cover(keeping: Keeping) -> Iterator[Candidate]:
    step = COVER_STEP[keeping.cover]
    for cover, reach in COVER_STEP.items():
        if reach > step:
            yield (
                say("cover from {now} to {then}", now=keeping.cover, then=cover),
                Change(cover=cover),
                1.0 + (reach - step),
            )


def _more_caves(keeping: Keeping) -> Iterator[Candidate]:
    if keeping.species.reproduction == "cave-spawner" and keeping.caves < keeping.males:
        words = say("{males} caves (one for each male)", males=count_word(keeping.males))
        yield words, Change(caves=keeping.males), 1.2


def _more_males(keeping: Keeping) -> Iterator[Candidate]:
    """A crowd shares the chasing out, where the taxon lives in groups."""
    if keeping.males < 2 or keeping.species.social not in ("shoal", "group"):
        return

    def helps(added: int) -> bool:
        change = Change(males=keeping.males + added)
        return _settled(keeping, change) and not _packed(apply(keeping, change))

    more = _first(range(1, MOST_ADDED + 1), helps)
    if more:
        words = say("{more} more male{plural}", more=count_word(more), plural="s" * (more > 1))
        yield words, Change(males=keeping.males + more), _effort(more)


def _fewer_males(keeping: Keeping) -> Iterator[Candidate]:
    males = keeping.males
    fewest = max(_least(keeping) - keeping.females, 1)
    keep = _first(range(males - 1, fewest - 1, -1), lambda n: _settled(keeping, Change(males=n)))
    if keep:
        words = say(
            "{keep} male{plural} instead of {males}",
            keep=count_word(keep),
            plural="s" * (keep > 1),
            males=count_word(males),
        )
        yield words, Change(males=keep), _effort(males - keep)


def _more_females(keeping: Keeping) -> Iterator[Candidate]:
    if not keeping.males or not keeping.females:
        return
    more = _first(range(1, MOST_ADDED + 1), lambda n: _settled(keeping, Change(females=keeping.females + n)))
    if more:
        words = say("{more} more female{plural}", more=count_word(more), plural="s" * (more > 1))
        yield words, Change(females=keeping.females + more), _effort(more)


def _other_mix(keeping: Keeping) -> Iterator[Candidate]:
    """As many animals (or the smallest proper group), with fewer of them males."""
    if not keeping.males or not keeping.females:
        return
    total = max(keeping.males + keeping.females, _least(keeping))
    males = _first(
        range(keeping.males - 1, 0, -1), lambda n: _settled(keeping, Change(males=n, females=total - n))
    )
    if males:
        words = say(
            "{males} male{plural} and {total} females",
            males=count_word(males),
            plural="s" * (males > 1),
            total=count_word(total - males),
        )
        yield words, Change(males, total - males), _effort(2 * (keeping.males - males))


def _one_sex(keeping: Keeping) -> Iterator[Candidate]:
    if not keeping.males:
        return
    females = max(_least(keeping), keeping.females, 1 if keeping.females else keeping.males)
    changed = keeping.males + females - keeping.females
    carry = say(", which may carry young") if keeping.species.reproduction == "livebearer" else ""
    words = (
        say("the female alone")
        if females == 1
        else say("females only, {females} of them", females=count_word(females))
    )
    yield f"{words}{carry}", Change(0, females), _effort(changed)
    if keeping.females:
        males = max(_least(keeping), keeping.males)
        changed = keeping.females + males - keeping.males
        if males == 1:
            yield say("the male alone"), Change(1, 0), _effort(changed)
            return
        yield say("males only, {males} of them", males=count_word(males)), Change(males, 0), _effort(changed)


def _fewer_females(keeping: Keeping) -> Iterator[Candidate]:
    females = keeping.females
    fewest = max(_least(keeping) - keeping.males, 1)
    keep = _first(range(females - 1, fewest - 1, -1), lambda n: _settled(keeping, Change(females=n)))
    if keep:
        words = say(
            "{keep} female{plural} instead of {females}",
            keep=count_word(keep),
            plural="s" * (keep > 1),
            females=count_word(females),
        )
        yield words, Change(females=keep), _effort(females - keep)


def _longer_tank(keeping: Keeping) -> Iterator[Candidate]:
    if keeping.length_cm is None:
        return
    longer = [length for length in TANK_LENGTHS_CM if length > keeping.length_cm * 1.05]
    enough = _first(longer, lambda length: _settled(keeping, Change(tank_length_cm=length)))
    length = enough or max(longer, default=None)
    if length:
        words = say("a tank of {length} cm, its floor as wide in proportion", length=length)
        yield words, Change(tank_length_cm=length), 5.0 + length / keeping.length_cm


def _with_dense_cover(keeping: Keeping) -> Iterator[Candidate]:
    """Dense cover and one change of numbers, where neither does alone."""
    thick = replace(keeping, cover="dense")
    for candidates in (_more_males, _fewer_males, _more_females, _other_mix, _fewer_females, _longer_tank):
        already = [effort for _, change, effort in candidates(keeping) if _settled(keeping, change)]
        for words, change, effort in candidates(thick):
            if not already or effort + 1.5 < min(already):
                yield (
                    say("{words}, and cover from {cover} to dense", words=words, cover=keeping.cover),
                    change._replace(cover="dense"),
                    effort + 1.5,
                )


def _first(numbers: Iterable[int], fits: Callable[[int], bool]) -> int | None:
    return next((number for number in numbers if fits(number)), None)
