"""What bacteria and plants can remove, what a new filter cannot yet, and what the keeper gives."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.facts.plain import plain, span
from stockcheck.language import say
from stockcheck.physics.quantity import Constant, Interval
from stockcheck.physics.startup import AHEAD_DAYS, AMMONIA_GROWTH, LAG
from stockcheck.rules.core import Finding, headroom_between, rule
from stockcheck.rules.waste.ammonia import nh3_headroom, nitrite_headroom, tan_peak_headroom
from stockcheck.rules.waste.words import feed_at_most, judged

_PRACTICE = "common practice, no source"
REMOVAL_STOP = Constant(0.25, "1", f"{_PRACTICE}: removal of a quarter of the load means some 1 mg/L TAN")
REMOVAL_HOLDS = Constant(1.0, "1", "definition: removal equals load at the stated TAN")
REMOVAL_SAFE = Constant(2.0, "1", f"{_PRACTICE}: a twofold margin in sizing a biofilter")
FEED_STOP = Constant(8.0, "1", f"{_PRACTICE}: eight times the ration fouls any tank")
FEED_HOLDS = Constant(2.0, "1", f"{_PRACTICE}: twice the usual ration, the upper end of common feeding")
FEED_SAFE = Constant(1.2, "1", f"{_PRACTICE}: about the usual ration")
LEAST_HEADROOM = Constant(10.0, "1", f"{_PRACTICE}: feed alone stops no plan; what it does to the water may")
HUNGRY = Constant(0.25, "1", f"{_PRACTICE}: less than a quarter of the usual ration for long")


@rule(
    "waste/removal",
    sources=("Malone & Pfeiffer 2006: rate linear in TAN", "Zhu & Chen 2002: its temperature"),
    trips="""
without = ["filter"]
[tank]
length = "40 cm"
width = "25 cm"
height = "25 cm"
[[animals]]
species = "Carassius auratus"
count = 2
""",
    clears="",
)
def removal(facts: Facts) -> Iterator[Finding]:
    """Can bacteria and plants remove what the animals give, before a test shows ammonia?

    Mechanism.  Bacteria on media, glass, gravel and leaves clear so many litres a day; what they remove is
    that times the TAN.  Removal is quoted at the TAN that a common test kit shows for sure, less where the
    pH is high.

    Evidence.  Below 1 mg/L the areal rate is proportional to TAN (Malone & Pfeiffer 2006).  Twice the load is
    the usual margin of a designer.

    Limits.  The areal rate is known to a factor of two, that of a tank's own surfaces to two and a half.
    """
    load = facts.figures.get("nitrogen_load_mg_per_day")
    capacity = facts.figures.get("removal_capacity_mg_per_day")
    if load is None or capacity is None:
        return
    given = load.interval.value
    ratio = capacity.interval.value / given if given > 0 else float(REMOVAL_SAFE)
    able = say("can remove") if facts.plan.filter else say("without a filter can remove")
    yield judged(
        "waste/removal",
        headroom_between(ratio, REMOVAL_STOP, REMOVAL_HOLDS, REMOVAL_SAFE),
        say(
            "Bacteria and plants {able} {removal} before a test shows it; the animals give {load}.",
            able=able,
            removal=span(capacity.interval, say("mg of ammonia nitrogen a day")),
            load=span(load.interval, "mg"),
        ),
        lambda: _more_removal(facts, ratio),
        facts,
        "C",
    )


def _more_removal(facts: Facts, ratio: float) -> str:
    box = facts.plan.filter
    if box is None:
        return say("Add a filter with media from a mature tank, or keep fewer animals.")
    if not box.media:
        return say("Fill the filter with media and list them under [[filter.media]].")
    clogged = [medium.kind for medium in box.media if medium.state == "clogged"]
    if clogged:
        return say("Rinse the {media} in tank water, then test again.", media=say(" and the ").join(clogged))
    return say(
        "{feed_at_most}, or add media to the filter.", feed_at_most=feed_at_most(facts, REMOVAL_SAFE / ratio)
    )


@rule(
    "waste/new-filter",
    trips='[filter]\nmatured = "0 day"',
    clears="",
    sources=(AMMONIA_GROWTH.source, LAG.source),
)
def new_filter(facts: Facts) -> Iterator[Finding]:
    """Do the bacteria of a new filter keep up with the animals from the first day?

    Mechanism.  Ammonia oxidisers grow first, by some four decades; nitrite oxidisers only once there is
    nitrite. Until both have grown, first TAN and then nitrite climb.  Media from a mature filter skip most
    of it.

    Evidence.  Growth by two-step kinetics (river-model parameters, energies of Vannecke & Volcke) after a lag
    that makes up the difference to the 1 to 7 weeks that filters are seen to take.

    A peak of days is held against the EPA's four-day and one-hour limits of total ammonia.

    Limits.  All animals of the plan are taken to move in today.  The pace varies by weeks: only tests tell.
    """
    tan = facts.figures.get("tan_peak_mg_per_l")
    if tan is None:
        return
    nitrite, days = facts.figures["nitrite_n_peak_mg_per_l"], facts.figures["days_to_grow_in"]
    nh3 = facts.figures.get("nh3_n_peak_mg_per_l")
    parts = [tan_peak_headroom(facts, tan.interval.value), nitrite_headroom(facts, nitrite.interval.value)]
    if nh3 is not None:
        parts.append(nh3_headroom(nh3.interval.value))
    settled = ""
    if days.interval.value >= 1:
        settled = say(", and both settle after {days}", days=_days(days.interval))
    yield judged(
        "waste/new-filter",
        min(parts),
        say(
            "The filter is not grown in: with all these animals at once TAN climbs to {tan} and "
            "nitrite to {nitrite}{settled}.",
            tan=span(tan.interval, "mg/L"),
            nitrite=span(nitrite.interval, "mg N/L"),
            settled=settled,
        ),
        lambda: say(
            "Let the filter grow in first, fed with ammonia or a pinch of feed but without animals, "
            "or fill it with media from a healthy, mature tank. Then add the animals in steps, test "
            "ammonia and nitrite every other day, and change half the water as soon as either shows."
        ),
        facts,
        "C",
        (AMMONIA_GROWTH.source, LAG.source),
    )


def _days(days: Interval) -> str:
    """Days as far as a start-up is followed."""
    low, middle, high = (plain(end) for end in days)
    if days.value >= AHEAD_DAYS:
        return say("{middle} days or more", middle=middle)
    return say(
        "some {middle} days ({low} to {high}{or_more})",
        middle=middle,
        low=low,
        high=high,
        or_more=say(" or more") if days.high >= AHEAD_DAYS else "",
    )


@rule(
    "waste/feeding",
    trips='[feeding]\namount = "5 g/day"',
    clears="",
)
def feeding(facts: Facts) -> Iterator[Finding]:
    """Does the keeper give about what the animals eat?

    Mechanism.  What is left rots, and what is eaten beyond need is excreted: feed is the one source of a
    tank's nitrogen.

    Limits.  The usual ration is common practice, known to a factor of two; animals that look thin are right.
    """
    given, ration = facts.figures.get("feed_g_per_day"), facts.figures.get("ration_g_per_day")
    if given is None or ration is None or ration.interval.value <= 0:
        return
    ratio = given.interval.value / ration.interval.value
    if ratio < HUNGRY:
        yield Finding(
            "waste/feeding",
            "watch",
            say(
                "{given} g a day is little for these animals; they usually get {interval}.",
                given=plain(given.interval.value),
                interval=span(ration.interval, "g"),
            ),
            say("Watch their bellies; feed a little more, in small portions."),
            headroom=60.0,
        )
        return
    yield judged(
        "waste/feeding",
        max(LEAST_HEADROOM, headroom_between(ratio, FEED_STOP, FEED_HOLDS, FEED_SAFE)),
        say(
            "{given} g of feed a day is {ratio} times what these animals usually get ({interval}).",
            given=plain(given.interval.value),
            ratio=plain(ratio),
            interval=span(ration.interval, "g"),
        ),
        lambda: say(
            "Feed about {ration} g a day, and take out what is left.", ration=plain(ration.interval.value)
        ),
        facts,
        "D",
    )
