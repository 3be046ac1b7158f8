"""What the water added at each change makes of the tank in the long run."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, log

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.bands import Limit, limits
from stockcheck.rules.comfort import AT_COMFORT, AT_TOLERANCE, GH, KH, PH, Field, headroom_high, headroom_low
from stockcheck.rules.core import Finding, level_of, rule
from stockcheck.rules.water.words import clear, drifted, finding, pure_share

#: Of the difference between tank and tap this much is left when the one is called the other.
NEARLY = Constant(0.1, "1", "common practice, no source: within what a drop test tells")
#: Headroom that the added water has to cost an animal before it is worth a word, and how unlike it has to be.
NOTICED = 5.0
UNLIKE = {
    GH.name: Constant(2.0, "dGH", "common practice, no source: past the error of two drop tests"),
    KH.name: Constant(4.0, "dKH", "common practice, no source: what adults hardly notice is less"),
    PH.name: Constant(0.5, "pH", "common practice, no source: past the error of two drop tests"),
}


@rule(
    "water/drift",
    trips="""
[tap]
GH = "30 dGH"
""",
    clears="",
)
def drift(facts: Facts) -> Iterator[Finding]:
    """Does the water that is added at changes suit the animals that suit the tank's water of today?

    Mechanism.  Every change moves the tank towards the water that is added: after n changes of a share s the
    difference is down to (1 - s)^n of what it was.  A tank of soft water that is filled up with hard water is
    a tank of hard water after a few weeks.

    Evidence.  Mass balance; the bands are the table's, each with its sources.

    Limits.  What is mixed in on purpose counts instead of the tap (the plan's target).  The pH of tap water
    changes when it has stood and follows the KH, so it asks to be watched and no more.  Soil, wood and
    limestone in the tank work against the drift and are not counted.
    """
    plan = facts.plan
    share = plan.routine.water_change
    if not 0 < share < 1:
        return
    animals = [group.species for group in facts.groups]
    changes = ceil(log(NEARLY) / log(1 - share))
    for field, attribute in ((GH, "GH_dgh"), (KH, "KH_dkh"), (PH, "pH")):
        now, tap = getattr(plan.water, attribute), getattr(plan.tap, attribute)
        wanted = getattr(plan.target, attribute)
        added = tap if wanted is None else wanted
        if now is None or added is None or abs(added - now) < UNLIKE[field.name]:
            continue  # where one is not stated the other is judged by its own rule
        for too in ("low", "high"):
            yield from _drift(limits(animals, field.name), field, now, added, too, changes, facts)


def _drift(
    found: list[Limit], field: Field, now: float, added: float, too: str, changes: int, facts: Facts
) -> Iterator[Finding]:
    measure = headroom_low if too == "low" else headroom_high
    least = AT_TOLERANCE if field is PH else 0.0
    scored = [
        (max(measure(limit, field, added), least), measure(limit, field, now), limit) for limit in found
    ]
    yield from clear("water/drift", [(then, limit) for then, _, limit in scored])
    hit = [(then, limit) for then, today, limit in scored if then < AT_COMFORT and then < today - NOTICED]
    if not hit:
        return
    hurt = [limit for _, limit in hit]
    level = level_of(min(measure(limit, field, added) for limit in hurt))
    every = facts.plan.routine.every_days
    message = drifted(field, now, added, changes, every, too, hurt, level)
    wanted = min(limit.comfort.high for limit in hurt) if too == "high" else None
    pure = pure_share(added, wanted) if wanted is not None and field is not PH else None
    if pure:
        remedy = say(
            "Mix {pure:.0%} of rain or reverse-osmosis water into the change water, or choose animals of "
            "your tap water.",
            pure=pure,
        )
    else:
        remedy = say(
            "Bring the change water to the tank's values first, or choose animals of your tap water."
        )
    yield finding("water/drift", min(then for then, _ in hit), message, remedy, hurt)
