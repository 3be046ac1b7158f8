"""Findings of the waste axis: how a measure becomes one, and what its remedies have in common."""

from __future__ import annotations

from collections.abc import Callable

from stockcheck.facts.model import Facts
from stockcheck.facts.plain import plain
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.core import Finding, level_of
from stockcheck.rules.wording import once_grown

HALF_THE_FEED = Constant(
    2.0, "1", "common practice, no source: on less than half their ration animals go hungry"
)


#: Rules that look at the animals as they are today; all others at the same animals grown.
_OF_TODAY = ("waste/new-filter", "waste/feeding")


def judged(
    rule: str,
    headroom: float,
    message: str,
    remedy: Callable[[], str],
    facts: Facts,
    grade: str,
    sources: tuple[str, ...] = (),
) -> Finding:
    """The finding of a measure; the remedy is only worked out where there is something to mend."""
    level = level_of(headroom)
    mend = "" if level == "clear" else remedy()
    if rule not in _OF_TODAY:
        message += once_grown(facts)
    return Finding(rule, level, message, mend, heaviest(facts), grade, sources, headroom)


def heaviest(facts: Facts) -> tuple[str, ...]:
    """The species whose animals weigh most in all, and so the first to have fewer of."""
    masses: dict[str, float] = {}
    for group in facts.groups:
        if group.mass_g:
            slug = group.species.slug
            masses[slug] = masses.get(slug, 0.0) + group.mass_g.value * group.count
    return (max(masses, key=masses.__getitem__),) if masses else ()


def feed_at_most(facts: Facts, factor: float) -> str:
    """What brings a figure proportional to the feed down by a factor: less of it, or, beyond half, fewer
    animals."""
    feed = facts.figures["feed_g_per_day"].interval.value
    least = plain(feed / factor)
    if factor <= HALF_THE_FEED:
        return say(
            "Feed at most {least} g a day ({feed} now), or keep fewer animals", least=least, feed=plain(feed)
        )
    return say(
        "Keep fewer or smaller animals: this tank bears {least} g of feed a day, and these eat {feed}",
        least=least,
        feed=plain(feed),
    )
