"""Words and numbers shared by every form of the report."""

from __future__ import annotations

from inspect import cleandoc
from typing import TYPE_CHECKING

from stockcheck.facts.plain import plain
from stockcheck.physics.quantity import Interval
from stockcheck.rules.wording import count_word

if TYPE_CHECKING:
    from stockcheck.check import Report

#: Severity by shape and word, never by colour alone.
MARKS = {"stop": "■", "fix": "◆", "watch": "○", "unknown": "?"}
HEADINGS = {
    "stop": "Stop: an animal is likely to be harmed",
    "fix": "Fix: works only after a change",
    "watch": "Watch: acceptable, keep an eye on it",
    "unknown": "Unknown: find out before buying",
}
AXIS_WORDS = {
    "water": "parameters that suit all",
    "waste": "waste against filter and plants",
    "company": "aggression, sex, predation",
    "room": "space",
    "breath": "oxygen",
}
GRADE_WORDS = {
    "A": "three or more independent sources",
    "B": "two independent sources",
    "C": "one source",
    "D": "common practice, no source",
}
#: The same of a finding, which is no better known than the weakest figure it rests on.
FINDING_GRADES = {
    "A": "three or more independent sources for every figure",
    "B": "two independent sources for the least known figure",
    "C": "one source for the least known figure",
    "D": "the least known figure is common practice, without a source",
}


def counted(number: int, one: str, many: str) -> str:
    """``two changes``; small numbers in words."""
    return f"{count_word(number)} {one if number == 1 else many}"


def number(value: float) -> str:
    """Three significant digits, no exponent, no trailing zeros: 0.0123, 4.57, 131, 2040."""
    return plain(value, digits=3)


def quantity(text: str, unit: str) -> str:
    """A number with its unit; pure numbers and pH have none to show."""
    return text if unit in ("1", "", "pH") else f"{text} {unit}"


def interval_text(interval: Interval) -> str:
    """``4.2 (3.1 to 6)``, or the bare value where it has no width."""
    middle, low, high = (number(x) for x in (interval.value, interval.low, interval.high))
    if low == middle == high:
        return middle
    return f"{middle} ({low} to {high})"


def span_text(low: float | None, high: float | None, unit: str = "") -> str:
    """A band in words: ``22 to 26 degC``, ``up to 20 dGH``, ``from 5 dGH``."""
    if low is not None and high is not None:
        body = number(low) if low == high else f"{number(low)} to {number(high)}"
    elif high is not None:
        body = f"up to {number(high)}"
    elif low is not None:
        body = f"from {number(low)}"
    else:
        return "not stated"
    return quantity(body, unit)


def verdict_sentence(report: Report) -> str:
    """What the check concludes, in one sentence."""
    stops, fixes, watches, unknowns = (
        len(report.at_level(level)) for level in ("stop", "fix", "watch", "unknown")
    )
    trailing = []
    if watches:
        trailing.append(counted(watches, "thing", "things") + " to watch")
    if unknowns:
        trailing.append(counted(unknowns, "question", "questions") + " open")
    tail = f" ({' and '.join(trailing)})" if trailing else ""
    if stops:
        needed = counted(fixes, "more change", "more changes")
        reasons = counted(stops, "reason", "reasons")
        extra = f" and {needed} would be needed besides" if fixes else ""
        verb = "is" if stops == 1 else "are"
        return f"Do not stock it like this: there {verb} {reasons} to expect harm{extra}{tail}."
    if fixes:
        return f"Not yet: {counted(fixes, 'change is', 'changes are')} needed before this works{tail}."
    if watches:
        return f"It holds{tail}."
    if unknowns:
        return f"Nothing speaks against it so far{tail}."
    return "It holds, with nothing to add."


def paragraphs(page: str) -> list[str]:
    """A docstring's paragraphs, each as one line of flowing text; lists keep their lines."""
    parts = cleandoc(page).split("\n\n")
    return [part if part.startswith("- ") else " ".join(part.split()) for part in parts]
