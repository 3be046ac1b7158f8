"""Nitrate: what builds up between water changes."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.facts.plain import plain, span
from stockcheck.language import say
from stockcheck.physics.alkalinity import DAYS_PER_WEEK
from stockcheck.physics.nitrate import (
    NITRATE_AIM,
    NITRATE_LIMIT,
    NITRATE_STOP,
    longest_interval,
    smallest_share,
)
from stockcheck.physics.quantity import Constant
from stockcheck.rules.core import Finding, headroom_between, rule
from stockcheck.rules.waste.words import judged

_PRACTICE = "common practice, no source"
LARGEST_CHANGE = Constant(0.6, "1", f"{_PRACTICE}: more at once shakes the tank's chemistry")
HALF = Constant(0.5, "1", f"{_PRACTICE}: the largest change most keepers make as a routine")
#: What a remedy aims at: clear, with some to spare.
NITRATE_GOAL = Constant(30.0, "mg/L", f"{_PRACTICE}: half way between the aim and the limit")


@rule(
    "waste/nitrate",
    trips='[routine]\nwater_change = "5 %"\n[[animals]]\nspecies = "Carassius auratus"\ncount = 4',
    clears="",
    sources=(NITRATE_LIMIT.source, NITRATE_STOP.source),
)
def nitrate(facts: Facts) -> Iterator[Finding]:
    """Does nitrate stay low until the next water change?

    Mechanism.  What the animals give and the plants do not take builds up, week by week, until a change
    carries off as much as is gained between two: the sawtooth stands at the tap's nitrate plus gain over
    share.

    Evidence.  Harm to sensitive animals begins near 10 mg nitrate-N/L over months (Camargo et al. 2005).

    Limits.  Sources differ tenfold on what hardy fish stand.  Growth of plants and gas lost in the soil are
    known to a factor of two or three; a test strip settles it.
    """
    figure = facts.figures.get("nitrate_mg_per_l")
    if figure is None:
        return
    routine = facts.plan.routine
    if routine.water_change > 0:
        when = say(
            "before the change of {water_change:.0%} every {every_days} days",
            water_change=routine.water_change,
            every_days=plain(routine.every_days),
        )
    else:
        when = say("within twelve weeks, as no water is changed")
    yield judged(
        "waste/nitrate",
        headroom_between(figure.interval.value, NITRATE_STOP, NITRATE_LIMIT, NITRATE_AIM),
        say(
            "Nitrate reaches some {interval} {when}; {nitrate_limit} is the limit.",
            interval=span(figure.interval, "mg/L"),
            when=when,
            nitrate_limit=plain(NITRATE_LIMIT),
        ),
        lambda: _change_remedy(facts),
        facts,
        "C",
        (NITRATE_LIMIT.source,),
    )


def _change_remedy(facts: Facts) -> str:
    """The smallest change that keeps nitrate at the goal, or the next best thing."""
    tap = facts.plan.tap.nitrate_mg_l or 0.0
    if tap >= NITRATE_GOAL:
        return say(
            "The tap water itself holds {tap} mg/L: mix it with rain or reverse-osmosis water, or "
            "add fast-growing plants.",
            tap=plain(tap),
        )
    every = facts.plan.routine.every_days or DAYS_PER_WEEK
    per_day = facts.figures["nitrate_gain_mg_per_l_per_week"].interval.value / DAYS_PER_WEEK
    share = smallest_share(per_day * every, tap, NITRATE_GOAL)
    if share is not None and share <= LARGEST_CHANGE:
        return say(
            "Change at least {share:.0%} every {every} days, or plant more.", share=share, every=plain(every)
        )
    days = longest_interval(per_day, HALF, tap, NITRATE_GOAL)
    if days and days > 1:
        return say("Change half the water every {days} days, or keep fewer animals.", days=plain(days))
    return say("No usual water change keeps up with this load: keep fewer animals, or a much larger tank.")
