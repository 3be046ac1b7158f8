"""Words and numbers shared by every form of the report."""

from __future__ import annotations

from inspect import cleandoc
from typing import TYPE_CHECKING

from stockcheck.facts.plain import plain
from stockcheck.language import say
from stockcheck.physics.quantity import Interval
from stockcheck.rules.wording import count_word

if TYPE_CHECKING:
    from stockcheck.check import Report

#: Severity by shape and word, never by colour alone.
MARKS = {"stop": "■", "fix": "◆", "watch": "○", "unknown": "?"}
HEADINGS = {
    "stop": say("Stop: an animal is likely to be harmed"),
    "fix": say("Fix: works only after a change"),
    "watch": say("Watch: acceptable, keep an eye on it"),
    "unknown": say("Unknown: find out before buying"),
}
AXIS_WORDS = {
    "water": say("parameters that suit all"),
    "waste": say("waste against filter and plants"),
    "company": say("aggression, sex, predation"),
    "room": say("space"),
    "breath": say("oxygen"),
}
GRADE_WORDS = {
    "A": say("three or more independent sources"),
    "B": say("two independent sources"),
    "C": say("one source"),
    "D": say("common practice, no source"),
}
#: The same of a finding, which is no better known than the weakest figure it rests on.
FINDING_GRADES = {
    "A": say("three or more independent sources for every figure"),
    "B": say("two independent sources for the least known figure"),
    "C": say("one source for the least known figure"),
    "D": say("the least known figure is common practice, without a source"),
}


def counted(number: int, one: str, many: str) -> str:
    """``two changes``; small numbers in words."""
    return f"{count_word(number)} {one if number == 1 else many}"


def number(value: float) -> str:
    """Three significant digits, no exponent, no trailing zeros: 0.0123, 4.57, 131, 2040."""
    return plain(value, digits=3)


def shown_unit(unit: str) -> str:
    """A unit as people write it; pure numbers, counts and pH have none to show."""
    return {"1": "", "pH": "", "count": "", "degC": "°C"}.get(unit, unit)


def quantity(text: str, unit: str) -> str:
    """A number with its unit."""
    return f"{text} {shown_unit(unit)}".rstrip()


def interval_text(interval: Interval) -> str:
    """``4.2 (3.1 to 6)``, or the bare value where it has no width."""
    middle, low, high = (number(x) for x in (interval.value, interval.low, interval.high))
    if low == middle == high:
        return middle
    return say("{middle} ({low} to {high})", middle=middle, low=low, high=high)


def span_text(low: float | None, high: float | None, unit: str = "") -> str:
    """A band in words: ``22 to 26 °C``, ``up to 20 dGH``, ``from 5 dGH``."""
    if low is not None and high is not None:
        body = number(low) if low == high else say("{low} to {high}", low=number(low), high=number(high))
    elif high is not None:
        body = say("up to {high}", high=number(high))
    elif low is not None:
        body = say("from {low}", low=number(low))
    else:
        return say("not stated")
    return quantity(body, unit)


def verdict_sentence(report: Report) -> str:
    """What the check concludes, in one sentence."""
    stops, fixes, watches, unknowns = (
        len(report.at_level(level)) for level in ("stop", "fix", "watch", "unknown")
    )
    trailing = []
    if watches:
        trailing.append(counted(watches, "thing", "things") + say(" to watch"))
    if unknowns:
        trailing.append(counted(unknowns, "question", "questions") + " open")
    tail = f" ({' and '.join(trailing)})" if trailing else ""
    if stops:
        needed = counted(fixes, say("more change"), say("more changes"))
        reasons = counted(stops, "reason", "reasons")
        extra = say(" and {needed} would be needed besides", needed=needed) if fixes else ""
        verb = "is" if stops == 1 else "are"
        return say(
            "Do not stock it like this: there {verb} {reasons} to expect harm{extra}{tail}.",
            verb=verb,
            reasons=reasons,
            extra=extra,
            tail=tail,
        )
    if fixes:
        return say(
            "Not yet: {changes} needed before this works{tail}.",
            changes=counted(fixes, say("change is"), say("changes are")),
            tail=tail,
        )
    if watches:
        return say("It holds{tail}.", tail=tail)
    if unknowns:
        return say("Nothing speaks against it so far{tail}.", tail=tail)
    return say("It holds, with nothing to add.")


def paragraphs(page: str) -> list[str]:
    """A docstring's paragraphs, each as one line of flowing text; lists keep their lines."""
    parts = cleandoc(page).split("\n\n")
    return [part if part.startswith("- ") else " ".join(part.split()) for part in parts]
