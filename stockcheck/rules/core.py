"""Findings, headroom, and the register of rules.

A rule is a function from facts to findings, registered under ``axis/name``.  Its docstring is its page:
first line what it looks for, then the mechanism, the evidence and the limits.  It carries two examples,
one that trips it and one that does not; both run as tests.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stockcheck.facts.model import Facts

AXES = ("water", "waste", "company", "room", "breath")
#: From best to worst; a verdict is the worst level found.
LEVELS = ("clear", "unknown", "watch", "fix", "stop")

#: Headroom that stands for a level where a rule has no continuous measure.
STOP, FIX, WATCH, CLEAR = 0.0, 25.0, 60.0, 100.0
#: The least headroom of a finding that is not known well enough to stop a plan: it asks for a change.
NO_STOP = 10.0


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing the check has to say.

    ``headroom`` is 0 for a stop, below 50 for a fix, 50 to under 100 for a watch; ``clear`` findings are
    never shown, they only carry the headroom of a measure that holds.
    """

    rule: str
    level: str
    message: str
    remedy: str = ""
    species: tuple[str, ...] = ()  # slugs
    grade: str = "D"
    sources: tuple[str, ...] = ()
    headroom: float = CLEAR

    @property
    def axis(self) -> str:
        return self.rule.partition("/")[0]


@dataclass(frozen=True, slots=True)
class Rule:
    """A registered rule: its name, its function, and TOML plans that trip it and that do not."""

    name: str
    check: Callable[[Facts], Iterable[Finding]]
    trips: str
    clears: str
    sources: tuple[str, ...] = field(default=())

    @property
    def axis(self) -> str:
        return self.name.partition("/")[0]

    @property
    def page(self) -> str:
        return self.check.__doc__ or ""


RULES: dict[str, Rule] = {}


def rule(
    name: str, *, trips: str, clears: str, sources: tuple[str, ...] = ()
) -> Callable[[Callable[[Facts], Iterable[Finding]]], Callable[[Facts], Iterable[Finding]]]:
    """Register a rule under ``axis/name`` with an example plan that trips it and one that does not."""

    def register(
        check: Callable[[Facts], Iterable[Finding]],
    ) -> Callable[[Facts], Iterable[Finding]]:
        RULES[name] = Rule(name, check, trips, clears, sources)
        return check

    return register


def headroom_between(value: float, stop: float, holds: float, safe: float) -> float:
    """Place a measure on the headroom scale: 0 at ``stop``, 50 at ``holds``, 100 at ``safe``, linear between.

    Works for measures that are better small (stop > holds > safe) and better large (stop < holds < safe).
    """
    if (holds - stop) * (value - holds) >= 0:  # on the good side of "holds"
        share = (value - holds) / (safe - holds) if safe != holds else 1.0
        return min(100.0, 50.0 + 50.0 * share)
    share = (value - stop) / (holds - stop)
    return max(0.0, 50.0 * share)


def level_of(headroom: float) -> str:
    """The level that a headroom stands for: stop at 0, fix below 50, watch below 75, clear above."""
    if headroom <= 0:
        return "stop"
    if headroom < 50:
        return "fix"
    return "watch" if headroom < 75 else "clear"
