"""The smallest water change, and the longest wait between two, that keep the water within bounds."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, inf

from stockcheck.facts.chemistry import LEAST_KH
from stockcheck.facts.model import Facts
from stockcheck.facts.plain import plain
from stockcheck.language import say
from stockcheck.physics.alkalinity import DAYS_PER_WEEK
from stockcheck.physics.nitrate import NITRATE_LIMIT
from stockcheck.physics.quantity import Constant

USUAL_CHANGE = Constant(0.3, "1", "common practice, no source: stands for a change that is not planned")
LONGEST_WAIT = Constant(
    28.0,
    "day",
    "common practice, no source: what no figure here counts (dyes, hormones, trace salts) builds up too",
)
MOST_AT_ONCE = Constant(0.6, "1", "common practice, no source: more at once shakes the tank's chemistry")


@dataclass(frozen=True, slots=True)
class Bound:
    """Something that drifts from what the added water brings towards a limit.

    ``per_day`` is the drift and ``room`` the distance from the added water to the limit, both in ``unit`` and
    positive towards the limit.  Without room the added water itself is past the limit, and no change mends
    it.
    """

    name: str
    unit: str
    limit: float
    per_day: float
    room: float

    @property
    def line(self) -> str:
        return say("{what} at {limit} {unit}", what=self.name, limit=plain(self.limit), unit=self.unit)

    def share(self, every_days: float) -> float:
        """The least share of the water at each change that holds it; above 1 where none does."""
        if self.per_day <= 0:
            return 0.0
        return self.per_day * every_days / self.room if self.room > 0 else inf

    def days(self, share: float) -> float:
        """The longest time between changes of that share that holds it; inf where any will do."""
        if self.per_day <= 0:
            return inf
        return share * max(0.0, self.room) / self.per_day


@dataclass(frozen=True, slots=True)
class ChangeAdvice:
    """What the tank's routine could be.

    Parameters
    ----------
    share, share_by : float or None, str
        Least share at the plan's interval (``None``: more than six tenths, or none), and what asks for it.
    days, days_by : float or None, str
        Longest interval in whole days at the plan's share (``None``: any), and what asks for it.
    text : str
        Both in a sentence or two.
    """

    share: float | None
    share_by: str
    days: float | None
    days_by: str
    text: str


def bounds(facts: Facts) -> list[Bound]:
    """Nitrate, KH and GH, each where the plan gives what it takes."""
    return [bound for bound in (_nitrate(facts), _kh(facts), _gh(facts)) if bound is not None]


def change_advice(facts: Facts) -> ChangeAdvice | None:
    """The smallest change and the longest interval; ``None`` where nothing is known to drift."""
    found = bounds(facts)
    held = [bound for bound in found if bound.room > 0]
    past = "".join(
        say(" The added water by itself is over the limit: {line}.", line=bound.line)
        for bound in found
        if bound.room <= 0
    )
    if not held:
        return ChangeAdvice(None, found[0].name, 0.0, found[0].name, past.strip()) if found else None
    routine = facts.plan.routine
    every = routine.every_days if routine.every_days > 0 else float(DAYS_PER_WEEK)
    planned = routine.water_change if routine.water_change > 0 else float(USUAL_CHANGE)
    most = max(held, key=lambda bound: bound.share(every))
    least = min(held, key=lambda bound: bound.days(planned))
    share, days = most.share(every), least.days(planned)
    text = f"{_in_shares(share, most, every)}{_in_days(days, least, planned)}{past}"
    return ChangeAdvice(
        share if share <= MOST_AT_ONCE else None,
        most.name,
        float(floor(days)) if days < inf else None,
        least.name,
        text,
    )


def _in_shares(share: float, bound: Bound, every: float) -> str:
    if share > MOST_AT_ONCE:
        return say(
            "No change of up to {most_at_once:.0%} every {every} days holds {line}.",
            most_at_once=MOST_AT_ONCE,
            every=plain(every),
            line=bound.line,
        )
    if share <= 0:
        return say("Nothing drifts out of bounds, {line} neither.", line=bound.line)
    return say(
        "A change of {percent}% every {every} days just holds {line}.",
        percent=ceil(100 * share),
        every=plain(every),
        line=bound.line,
    )


def _in_days(days: float, bound: Bound, planned: float) -> str:
    if days == inf:
        return ""
    if days < 1:
        return say(
            " Changes of {planned:.0%} do not hold {line}, not even daily.", planned=planned, line=bound.line
        )
    if days > LONGEST_WAIT:
        return say(
            " Changes of {planned:.0%} hold {line} for longer than the {longest_wait:.0f} days that "
            "a tank should wait for other reasons.",
            planned=planned,
            line=bound.line,
            longest_wait=LONGEST_WAIT,
        )
    if days < 2:
        return say(" Changes of {planned:.0%} hold {line} only when daily.", planned=planned, line=bound.line)
    return say(
        " Changes of {planned:.0%} hold {line} up to {days} days apart.",
        planned=planned,
        line=bound.line,
        days=floor(days),
    )


def _nitrate(facts: Facts) -> Bound | None:
    gain, tap = facts.figures.get("nitrate_gain_mg_per_l_per_week"), facts.plan.tap.nitrate_mg_l
    if gain is None or tap is None:
        return None
    per_day = gain.interval.value / DAYS_PER_WEEK
    return Bound("nitrate", "mg/L", NITRATE_LIMIT, per_day, NITRATE_LIMIT - tap)


def _kh(facts: Facts) -> Bound | None:
    use, tap = facts.figures.get("kh_use_dkh_per_week"), facts.plan.tap.KH_dkh
    if use is None or tap is None:
        return None
    brought = _top_up_share(facts) * tap if facts.plan.routine.top_up == "tap" else 0.0
    return Bound("KH", "dKH", LEAST_KH, use.interval.value / DAYS_PER_WEEK - brought, tap - LEAST_KH)


def _gh(facts: Facts) -> Bound | None:
    """GH that evaporation and top-up raise, towards the least comfortable upper end among the animals."""
    tap = facts.plan.tap.GH_dgh
    if tap is None or "evaporation_l_per_day" not in facts.figures:
        return None
    bands = [band for group in facts.groups if (band := group.species.band("GH"))]
    highs = [band.comfort_high for band in bands if band.comfort_high is not None]
    if not highs:
        return None
    gain = _top_up_share(facts) * tap if facts.plan.routine.top_up == "tap" else 0.0
    return Bound("GH", "dGH", min(highs), gain, min(highs) - tap)


def _top_up_share(facts: Facts) -> float:
    """Water topped up each day, as a share of the tank."""
    evaporated, litres = facts.figures.get("evaporation_l_per_day"), facts.figures.get("net_volume_l")
    if evaporated is None or litres is None:
        return 0.0
    return evaporated.interval.value / litres.interval.value
