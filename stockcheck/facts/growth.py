"""How long young animals take to their adult size, and so to their adult waste."""

from __future__ import annotations

from stockcheck.facts.model import Facts, Figure, Group, Step, given
from stockcheck.facts.plain import plain
from stockcheck.language import say
from stockcheck.physics.growth import GROWTH_PERFORMANCE, MM_PER_CM, MONTHS_PER_YEAR, years_to_adult
from stockcheck.physics.quantity import Influence, Interval


def growth_figures(facts: Facts) -> dict[str, Figure]:
    """Months until the slowest kind is grown; none where every animal is."""
    months = {group.entry.where: (group, _months(group)) for group in facts.groups if _is_young(group)}
    if not months:
        return {}
    slowest = max((interval for _, interval in months.values()), key=lambda interval: interval.value)
    name = "months_to_adult_size"
    influence = Influence(say("growth of the species"), slowest.high, slowest.low)
    steps = [_step(group, interval) for group, interval in months.values()]
    return {
        name: Figure(
            name, say("months until the youngest are grown"), slowest, "month", [influence], given(steps)
        )
    }


def _is_young(group: Group) -> bool:
    """Smaller than adult; fish only, others have no growth model here."""
    now, adult = group.length_now_mm, group.length_mm
    return group.species.kind == "fish" and bool(now and adult and now.value < adult.value)


def _months(group: Group) -> Interval:
    assert group.length_now_mm is not None and group.length_mm is not None
    now, adult = group.length_now_mm.value / MM_PER_CM, group.length_mm.value / MM_PER_CM
    return years_to_adult(now, adult).scaled(MONTHS_PER_YEAR)


def _step(group: Group, months: Interval) -> Step:
    assert group.length_now_mm is not None and group.length_mm is not None
    now, adult = plain(group.length_now_mm.value), plain(group.length_mm.value)
    formula = say("from {now} to {adult} mm by dL/dt = K (L_inf - L)", now=now, adult=adult)
    return Step(group.species.scientific_name, formula, months.value, "month", GROWTH_PERFORMANCE.source)
