"""Rivalry and courtship pressure: how hard animals of one taxon press on one another in this tank.

A pressure is a product of named, bounded parts.  At 1 an animal is likely to be harmed, at 0.5 the group
just holds, at 0.1 there is nothing to see.  The directions of the parts are published or plain practice;
their sizes are judgement and carry wide intervals.  The literature is not of one mind: sight barriers did not
always calm (Woodward, Winder & Watt 2019, 10.3390/fishes4010022, saw the opposite), nor did numbers
(Oldfield 2011, 10.1080/10888705.2011.600664).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from math import exp, log, prod, sqrt
from typing import NamedTuple

from stockcheck.language import say
from stockcheck.physics.quantity import Constant, Interval
from stockcheck.rules.core import headroom_between, level_of

PRACTICE = "common practice, no source"
BASQUILL = "Basquill & Grant 1998, Can. J. Zool. 76:770 (direction); size from memory"
SAXBY = "Saxby et al. 2010, Appl. Anim. Behav. Sci. 125:195 (direction); size: common practice, no source"
PRICE = "Price & Rodd 2006, 10.1111/j.1439-0310.2006.01142.x (direction); size: common practice, no source"
OLDFIELD = "Oldfield 2011, 10.1080/10888705.2011.600664 (only much more room helped); size: from memory"

#: Where a pressure stops, just holds, and is of no concern.
STOP_AT = Constant(1.0, "1", PRACTICE)
HOLDS_AT = Constant(0.5, "1", PRACTICE)
SAFE_AT = Constant(0.1, "1", PRACTICE)

#: A pair of equals in open view, each with as much floor as it wants.
BASE = {
    "display": Constant(0.15, "1", PRACTICE, 0.08, 0.3),
    "spar": Constant(0.40, "1", PRACTICE, 0.25, 0.65),
    "territorial": Constant(0.55, "1", PRACTICE, 0.35, 0.85),
    "lethal": Constant(3.0, "1", PRACTICE, 1.8, 5.0),
}
#: Floor that one male keeps others from, per cm of his length.
FLOOR_WANTED = {
    "display": Constant(50.0, "cm2/cm", PRACTICE, 25.0, 100.0),
    "spar": Constant(130.0, "cm2/cm", PRACTICE, 65.0, 260.0),
    "territorial": Constant(250.0, "cm2/cm", PRACTICE, 150.0, 420.0),
    "lethal": Constant(400.0, "cm2/cm", PRACTICE, 240.0, 670.0),
}
#: Members of a shoal or a settled group share room that loners would not.
GROUP_SHARE = Constant(0.5, "1", PRACTICE, 0.3, 0.8)
#: Bounds of the floor part.
FLOOR_LEAST = Constant(0.5, "1", OLDFIELD)
FLOOR_MOST = Constant(2.0, "1", PRACTICE)
#: In a crowd nobody gets to hold a territory, so less floor makes it no worse.
FLOOR_CRAMMED = Constant(8.0, "times less floor than wanted", PRACTICE)
FLOOR_CRAMMED_POWER = Constant(0.5, "1", PRACTICE)
FLOOR_CROWDED = Constant(1.0, "1", PRACTICE)

#: Attacks behind dense cover for each attack in open view; "some" cover stands half way between.
SIGHT_BARRIER = Constant(0.65, "1", BASQUILL, 0.40, 1.20)
COVER_STEP = {"open": -0.5, "some": 0.0, "dense": 0.5}

#: Crowd curve: most at two, falling toward a floor that differs with how hard the taxon fights.
CROWD_POWER = Constant(1.2, "1", SAXBY, 0.8, 1.8)
PAIR_TOP = Constant(1.4, "1", PRACTICE, 1.1, 1.8)
CROWD_FLOOR = {
    "display": Constant(0.5, "1", SAXBY, 0.3, 0.8),
    "spar": Constant(0.5, "1", SAXBY, 0.3, 0.8),
    "territorial": Constant(0.4, "1", PRACTICE, 0.25, 0.8),
    "lethal": Constant(0.15, "1", PRACTICE, 0.08, 0.5),
}

#: Males without females in sight, by what is said of all-male groups of the taxon, and by cover.
ALL_MALE = {
    "fits": {
        "open": Constant(1.0, "1", PRACTICE, 0.75, 1.3),
        "some": Constant(0.85, "1", PRACTICE, 0.6, 1.1),
        "dense": Constant(0.7, "1", PRACTICE, 0.5, 0.95),
    },
    "needs-cover": {
        "open": Constant(1.6, "1", PRACTICE, 1.2, 2.1),
        "some": Constant(1.25, "1", PRACTICE, 0.9, 1.6),
        "dense": Constant(1.0, "1", PRACTICE, 0.7, 1.3),
    },
    "unsafe": dict.fromkeys(COVER_STEP, Constant(1.35, "1", PRACTICE, 1.0, 1.8)),
    "unknown": dict.fromkeys(COVER_STEP, Constant(1.2, "1", PRACTICE, 0.7, 1.8)),
}
#: Females in sight, too few to go round.
FEMALES_SHORT = Constant(1.25, "1", PRACTICE, 0.9, 1.7)

#: A cave for each male that holds one takes the reason for the fight away.
CAVE_EACH = Constant(0.5, "1", PRACTICE, 0.3, 0.9)

#: Males that grew up together.
RAISED_TOGETHER = Constant(0.75, "1", PRICE, 0.5, 1.0)
#: Unequal rivals settle sooner; very unequal ones leave the small one beaten.
UNEQUAL = Constant(0.85, "1", "from memory: contests escalate between equals", 0.6, 1.2)
VERY_UNEQUAL = Constant(1.2, "1", PRACTICE, 0.8, 1.7)
UNEQUAL_FROM, VERY_UNEQUAL_FROM = Constant(0.1, "1", PRACTICE), Constant(0.3, "1", PRACTICE)
#: Long fins are what a nipping rival bites.
LONG_FINS = Constant(1.15, "1", PRACTICE, 1.0, 1.4)
#: Males of a look-alike taxon, for each of one's own.
LIKENESS = Constant(0.6, "1", PRACTICE, 0.3, 1.0)
#: A straight run of this many body lengths lets the beaten one get away.
RUN_WANTED = Constant(15.0, "body lengths", PRACTICE, 8.0, 25.0)
RUN_POWER = Constant(0.3, "1", PRACTICE)
RUN_LEAST, RUN_MOST = Constant(0.9, "1", PRACTICE), Constant(1.25, "1", PRACTICE)

#: Courting males, with as many females as the taxon wants for each.
COURTSHIP_BASE = {
    "harass": Constant(
        0.27, "1", "Darden et al. 2009, PMC2686652 (direction); size: " + PRACTICE, 0.15, 0.45
    ),
    "territorial": Constant(0.40, "1", PRACTICE, 0.25, 0.65),
    "risky": Constant(0.70, "1", PRACTICE, 0.4, 1.1),  # may kill, and lives in pairs or groups all the same
    "lethal": Constant(2.0, "1", PRACTICE, 1.2, 3.3),
}
COURTSHIP_POWER = Constant(0.7, "1", PRACTICE, 0.4, 1.0)
COURTSHIP_LEAST, COURTSHIP_MOST = Constant(0.6, "1", PRACTICE), Constant(4.0, "1", PRACTICE)
#: Females wanted for each male where the table does not say.
FEMALES_WANTED = Constant(2.0, "1", PRACTICE, 1.0, 3.0)


class Part(NamedTuple):
    """One factor of a pressure: what it stands for, its 90 % interval, and why.

    Splits of a group by sex are tried by the dozen, so a reason with numbers in it waits to be asked for.
    """

    name: str
    factor: Interval
    reason: str | Callable[[], str]
    source: str

    @property
    def why(self) -> str:
        return self.reason if isinstance(self.reason, str) else self.reason()


@dataclass(frozen=True)
class Pressure:
    """A pressure with the parts it is the product of."""

    parts: tuple[Part, ...]

    @cached_property
    def value(self) -> float:
        return prod([part.factor.value for part in self.parts]) if self.parts else 0.0

    @property
    def interval(self) -> Interval:
        """90 % interval: the parts' own, combined in quadrature of logarithms."""
        value = self.value
        if not self.parts:
            return Interval.exact(0.0)
        fall = sqrt(sum(log(part.factor.low / part.factor.value) ** 2 for part in self.parts))
        rise = sqrt(sum(log(part.factor.high / part.factor.value) ** 2 for part in self.parts))
        return Interval(value * exp(-fall), value, value * exp(rise))

    @property
    def headroom(self) -> float:
        return headroom_between(self.value, STOP_AT, HOLDS_AT, SAFE_AT)

    @property
    def level(self) -> str:
        return level_of(self.headroom)

    def strongest(self, count: int = 3) -> list[Part]:
        """The parts that raise the pressure most, the base apart."""
        raising = [part for part in self.parts[1:] if part.factor.value > 1.02]
        return sorted(raising, key=lambda part: -part.factor.value)[:count]


CALM = Pressure(())


@dataclass(frozen=True, slots=True)
class Rivals:
    """Animals of one sex that may contest one another, as kept in one tank.  Lengths cm, floor cm2."""

    trait: str  # display | spar | territorial | lethal; anything else does not contest
    count: int
    body_cm: float | None
    floor_cm2: float | None
    run_cm: float | None
    cover: str
    opposite: int = 0
    opposite_wanted: float = 1.0
    single_sex: str | None = None  # what is said of all-male groups; None for females
    sharing: bool = False
    crowding: bool = False  # a fighter that is kept in crowds, so that no one is singled out
    nipped_fins: bool = False
    size_spread: float = 0.0  # (largest - smallest) / largest
    raised_together: bool = False
    lookalikes: bool = False
    other_trait: str = ""  # of the look-alike taxon, which is no fiercer
    cave_each: bool = False


def rivalry(rivals: Rivals) -> Pressure:
    """The pressure among rivals of one sex: base x number x floor x run x cover x the rest."""
    if rivals.trait not in BASE or rivals.count < 2:
        return CALM
    base = BASE[rivals.trait]
    parts = [
        Part(
            say("temper"),
            base.interval,
            lambda: say("rivals of this kind {temper}", temper=_TEMPER[rivals.trait]),
            base.source,
        )
    ]
    parts += _number(rivals) + _floor(rivals) + _run(rivals) + [_cover(rivals.cover)] + _company(rivals)
    parts += _bodies(rivals)
    return Pressure(tuple(parts))


_TEMPER = {
    "display": say("display"),
    "spar": say("spar"),
    "territorial": say("hold territories"),
    "lethal": say("fight to the end"),
}


def _bounded(value: float, low: float, high: float, doubt: float) -> Interval:
    middle = min(max(value, low), high)
    return Interval(max(middle / doubt, min(low, middle)), middle, min(middle * doubt, max(high, middle)))


def _number(rivals: Rivals) -> list[Part]:
    dilutes = rivals.trait in ("display", "spar") or rivals.crowding
    if not dilutes:
        return []
    floor = CROWD_FLOOR[rivals.trait]
    top = PAIR_TOP if rivals.trait in ("display", "spar") else 1.0

    def curve(floor: float, power: float) -> float:
        return floor + (top - floor) * float((2 / rivals.count) ** power)

    factor = Interval(
        curve(floor.low, CROWD_POWER.high), curve(floor, CROWD_POWER), curve(floor.high, CROWD_POWER.low)
    )
    return [Part(say("number"), factor, lambda: _shared_out(rivals.count, factor.value), SAXBY)]


def _shared_out(count: int, factor: float) -> str:
    if count == 2:
        return say("two have only each other to pick on")
    if factor < 1:
        return say("{count} share the chasing out", count=count)
    return say("{count} is few to share the chasing", count=count)


def floor_wanted(trait: str, body_cm: float, sharing: bool = False) -> Interval:
    """Floor that one rival keeps others from, cm2, by its temper and length."""
    wanted = FLOOR_WANTED[trait].interval.scaled(body_cm)
    return wanted.scaled(GROUP_SHARE) if sharing and trait != "lethal" else wanted


def _floor(rivals: Rivals) -> list[Part]:
    if rivals.floor_cm2 is None or rivals.body_cm is None:
        factor = Interval(FLOOR_LEAST, 1.0, FLOOR_MOST)
        return [Part(say("floor"), factor, say("the floor or the length is not known"), PRACTICE)]
    wanted = floor_wanted(rivals.trait, rivals.body_cm, rivals.sharing)
    there = rivals.floor_cm2 / rivals.count
    most = FLOOR_CROWDED if rivals.crowding else FLOOR_MOST
    short = wanted.value / there
    factor = _bounded(short, FLOOR_LEAST, most, wanted.high / wanted.value)
    if short > FLOOR_CRAMMED:  # dilution in a crowd ends where nobody can get out of anybody's way
        factor = factor.scaled(float((short / FLOOR_CRAMMED) ** FLOOR_CRAMMED_POWER))

    def why() -> str:
        return say("{there:.0f} cm2 of floor each, {wanted:.0f} wanted", there=there, wanted=wanted.value)

    return [Part(say("floor"), factor, why, FLOOR_WANTED[rivals.trait].source)]


def _run(rivals: Rivals) -> list[Part]:
    if rivals.run_cm is None or rivals.body_cm is None:
        return []
    lengths = rivals.run_cm / rivals.body_cm
    factor = min(max(float((RUN_WANTED / lengths) ** RUN_POWER), RUN_LEAST), RUN_MOST)

    def why() -> str:
        return say("{lengths:.0f} body lengths to get away in", lengths=lengths)

    return [Part(say("run"), Interval(factor / 1.1, factor, factor * 1.1), why, RUN_WANTED.source)]


_SIGHT = {
    "open": say("every rival in view"),
    "some": say("some lines of sight broken"),
    "dense": say("sight lines well broken"),
}


def _cover(cover: str) -> Part:
    step = COVER_STEP[cover]
    ends = [float(x**step) for x in (SIGHT_BARRIER.low, float(SIGHT_BARRIER), SIGHT_BARRIER.high)]
    return Part(say("cover"), Interval(min(ends), ends[1], max(ends)), _SIGHT[cover], SIGHT_BARRIER.source)


_SINGLE_SEX = {
    "fits": say("without females they are said to settle, if they can get out of sight"),
    "needs-cover": say("all-male groups are said to need cover"),
    "unsafe": say("all-male groups are said to be unsafe"),
    "unknown": say("nothing is known of all-male groups"),
}


def _company(rivals: Rivals) -> list[Part]:
    """What the other sex, its absence, or a look-alike taxon does."""
    parts = []
    if rivals.lookalikes:
        parts.append(
            Part(
                say("likeness"),
                LIKENESS.interval,
                say("of two taxa that take one another for rivals"),
                PRACTICE,
            )
        )
        parts += _answer(rivals)
    if rivals.single_sex is None:
        return parts
    if rivals.opposite:
        if rivals.opposite < rivals.count * rivals.opposite_wanted:
            females = say(
                "{opposite} female{plural}",
                opposite=rivals.opposite,
                plural="s" if rivals.opposite > 1 else "",
            )
            why = say("{females} for {count} males to contest", females=females, count=rivals.count)
            parts.append(Part(say("females"), FEMALES_SHORT.interval, why, PRACTICE))
        return parts
    constant = ALL_MALE[rivals.single_sex][rivals.cover]
    parts.append(Part(say("single sex"), constant.interval, _SINGLE_SEX[rivals.single_sex], constant.source))
    return parts


def _answer(rivals: Rivals) -> list[Part]:
    """A milder opponent: a fight takes two, so the geometric mean of both tempers counts."""
    other, own = BASE.get(rivals.other_trait, BASE["display"]), BASE[rivals.trait]
    factor = sqrt(other / own)
    if factor >= 1:
        return []
    doubt = Interval(factor / 1.5, factor, min(factor * 1.5, 1.0))
    return [Part(say("answer"), doubt, say("the milder of the two gives way"), PRACTICE)]


def _bodies(rivals: Rivals) -> list[Part]:
    parts = []
    if rivals.nipped_fins and rivals.trait != "display":
        parts.append(Part(say("fins"), LONG_FINS.interval, say("long fins to bite"), LONG_FINS.source))
    if rivals.size_spread >= VERY_UNEQUAL_FROM:
        parts.append(
            Part(say("size"), VERY_UNEQUAL.interval, say("the smallest is far smaller"), VERY_UNEQUAL.source)
        )
    elif rivals.size_spread >= UNEQUAL_FROM:
        parts.append(Part(say("size"), UNEQUAL.interval, say("unequal sizes settle sooner"), UNEQUAL.source))
    if rivals.cave_each:
        parts.append(Part(say("caves"), CAVE_EACH.interval, say("a cave for each"), CAVE_EACH.source))
    if rivals.raised_together:
        parts.append(
            Part(say("kin"), RAISED_TOGETHER.interval, say("raised together"), RAISED_TOGETHER.source)
        )
    return parts


_COURTING = {
    "harass": say("court without rest"),
    "territorial": say("drive females off"),
    "risky": say("attack females that are not ready"),
    "lethal": say("attack females"),
}


def courtship(trait: str, males: int, females: int, wanted: float, cover: str) -> Pressure:
    """The pressure of courting or aggressive males on the females: base x (females short) x cover."""
    if trait not in COURTSHIP_BASE or not males or not females:
        return CALM
    base = COURTSHIP_BASE[trait]
    per_male = females / males
    short = (wanted / per_male) ** float(COURTSHIP_POWER)
    factor = _bounded(short, COURTSHIP_LEAST, COURTSHIP_MOST, 1.3)
    return Pressure(
        (
            Part(
                say("temper"),
                base.interval,
                lambda: say("males {courting}", courting=_COURTING[trait]),
                base.source,
            ),
            Part(
                say("sex ratio"),
                factor,
                lambda: say(
                    "{per_male:.1f} females per male, {wanted:.0f} wanted", per_male=per_male, wanted=wanted
                ),
                PRACTICE,
            ),
            _cover(cover),
        )
    )
