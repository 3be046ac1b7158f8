"""Numbers as a keeper reads them in a message or a step."""

from __future__ import annotations

from math import floor, inf, log10

from stockcheck.language import say
from stockcheck.physics.quantity import Interval


def plain(value: float, digits: int = 2) -> str:
    """So many significant digits, no exponent, no trailing zeros: ``0.012``, ``4.5``, ``130``."""
    if value == 0:
        return "0"
    if abs(value) == inf:
        return say("without limit")
    places = digits - 1 - floor(log10(abs(value)))
    text = f"{round(value, places):.{max(0, places)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def span(interval: Interval, unit: str, digits: int = 2) -> str:
    """The middle with its interval: ``0.05 mg/L (0.02 to 0.13)``."""
    low, value, high = (plain(number, digits) for number in interval)
    return say("{value} {unit} ({low} to {high})", value=value, unit=unit, low=low, high=high)


def duration_of(days: float) -> str:
    """A longer time: ``4 days``, ``3.2 weeks``."""
    if days < 10:
        return say("{days} days", days=plain(days))
    return say("{weeks} weeks", weeks=plain(days / 7))


def duration(hours: float) -> str:
    """A time as a keeper says it: ``45 minutes``, ``4.3 hours``, ``three days or more``."""
    if hours >= 72:
        return say("three days or more")
    if hours < 1.5:
        return say("{hours} minutes", hours=plain(hours * 60))
    return say("{hours} hours", hours=plain(hours))
