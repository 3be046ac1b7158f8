"""The waste axis: does the tank keep up with what its animals excrete?"""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts, Figure
from stockcheck.physics.ammonia import (
    FOUR_DAY_PER_CCC,
    NH3_ACT,
    NH3_AIM,
    NH3_STOP,
    chronic_criterion,
)
from stockcheck.physics.nitrate import (
    NITRATE_AIM,
    NITRATE_LIMIT,
    NITRATE_STOP,
    longest_interval,
    smallest_share,
)
from stockcheck.physics.nitrification import NITRITE_ACT, NITRITE_AIM, NITRITE_STOP
from stockcheck.physics.quantity import Constant
from stockcheck.rules.core import Finding, headroom_between, level_of, rule

_PRACTICE = "common practice, no source"
REMOVAL_STOP = Constant(0.25, "1", f"{_PRACTICE}: removal a quarter of the load means 1 mg/L TAN or more")
REMOVAL_HOLDS = Constant(1.0, "1", "definition: removal equals load at the stated TAN")
REMOVAL_SAFE = Constant(2.0, "1", f"{_PRACTICE}: twofold margin in sizing a biofilter")
CRITERION_MARGIN = Constant(0.25, "1", f"{_PRACTICE}: a quarter of the criterion leaves room for a bad day")
WORST_PH = Constant(8.0, "1", f"{_PRACTICE}: stands for a pH that nobody measured")
UNKNOWN_C = Constant(25.0, "degC", f"{_PRACTICE}: stands for a temperature that nobody stated")


def _span(figure: Figure, digits: int = 2) -> str:
    """The middle with its interval: ``0.05 mg/L (0.02 to 0.13)``."""
    low, value, high = (f"{number:.{digits}g}" for number in figure.interval)
    return f"{value} {figure.unit} ({low} to {high})"


def _heaviest(facts: Facts) -> tuple[str, ...]:
    """The species whose animals weigh most in all: the first to have fewer of."""
    masses: dict[str, float] = {}
    for group in facts.groups:
        if group.mass_g:
            slug = group.species.slug
            masses[slug] = masses.get(slug, 0.0) + group.mass_g.value * group.count
    return (max(masses, key=masses.__getitem__),) if masses else ()


def _feed_less(facts: Facts, too_high_by: float) -> str:
    """How far to cut the feed so that a figure proportional to it comes down by a factor."""
    feed = facts.figures["feed_g_per_day"].interval.value
    return f"Feed {feed / too_high_by:.2g} g a day instead of {feed:.2g}, or keep fewer or smaller animals"


@rule(
    "waste/volume",
    trips="without = ['tank.length', 'tank.width', 'tank.height']",
    clears="",
)
def volume_unknown(facts: Facts) -> Iterator[Finding]:
    """The water volume is not known.

    Every concentration is a mass over a volume: without the tank's measures, or the water counted in while
    filling, nothing on this axis can be computed.
    """
    if "net_volume_l" not in facts.figures:
        yield Finding(
            "waste/volume",
            "unknown",
            "How much water the tank holds is not known, so nothing can be said about its waste.",
            "State the tank's length, width and height, or count the litres when you fill it.",
        )


@rule(
    "waste/unknown-mass",
    trips="",
    clears="",
)
def mass_unknown(facts: Facts) -> Iterator[Finding]:
    """An animal's length, and so its mass and its waste, is not in the table."""
    for group in facts.groups:
        if group.mass_g is None:
            yield Finding(
                "waste/unknown-mass",
                "unknown",
                f"No adult length of {group.species.common_name} is known, so its waste is left out of the "
                "sums.",
                "Find out how long it grows and add the figure to the table.",
                (group.species.slug,),
            )


@rule(
    "waste/ammonia",
    trips='[water]\npH = 9.0\n[[animals]]\nspecies = "Carassius auratus"\ncount = 6',
    clears="",
    sources=(NH3_AIM.source, NH3_ACT.source, NH3_STOP.source),
)
def ammonia(facts: Facts) -> Iterator[Finding]:
    """Un-ionised ammonia, the poisonous share of TAN.

    The share grows tenfold from pH 7 to pH 8 and with warmth.  Up to 0.02 mg NH3-N/L is the usual aim, harm
    is expected from 0.05, and a tenth of cardinal tetras died within four days at 0.076.  Small tetras are
    among the most sensitive of fish, so the lines are cautious for hardier ones.  An error of 0.2 in pH
    moves the figure by half.
    """
    figure = facts.figures.get("nh3_n_mg_per_l")
    if figure is None:
        if "tan_mg_per_l" in facts.figures:
            yield Finding(
                "waste/ammonia",
                "unknown",
                "How much of the ammonia is poisonous depends on the pH, which is not given.",
                "Measure the pH of the tank and add it under [water].",
            )
        return
    value = figure.interval.value
    headroom = headroom_between(value, NH3_STOP, NH3_ACT, NH3_AIM)
    yield Finding(
        "waste/ammonia",
        level_of(headroom),
        f"Un-ionised ammonia settles near {_span(figure)} of nitrogen; {NH3_AIM:.2g} is the aim, "
        f"from {NH3_ACT:.2g} fish suffer.",
        f"{_feed_less(facts, max(1.0, value / NH3_AIM))}, add filter media, and keep the pH from rising.",
        _heaviest(facts),
        "C",
        (NH3_AIM.source, NH3_ACT.source, NH3_STOP.source),
        headroom,
    )


@rule(
    "waste/total-ammonia",
    trips='without = ["filter"]\n[tank]\nlength = "40 cm"\nwidth = "25 cm"\nheight = "25 cm"\n'
    '[[animals]]\nspecies = "Carassius auratus"\ncount = 4',
    clears="",
    sources=("EPA 2013, EPA-822-R-13-001",),
)
def total_ammonia(facts: Facts) -> Iterator[Finding]:
    """Total ammonia against the EPA's chronic criterion for the tank's pH and temperature.

    At low pH little of the ammonia is un-ionised, and yet fish feel the ammonium.  The criterion is set by
    mussels and snails: cautious for fish alone, right where there are snails.  Where the pH is not given it
    is taken as 8.
    """
    figure = facts.figures.get("tan_mg_per_l")
    if figure is None:
        return
    pH = facts.plan.water.pH
    temperature = UNKNOWN_C if facts.temperature_c is None else facts.temperature_c
    criterion = chronic_criterion(WORST_PH if pH is None else pH, temperature)
    value = figure.interval.value
    headroom = headroom_between(value, FOUR_DAY_PER_CCC * criterion, criterion, CRITERION_MARGIN * criterion)
    yield Finding(
        "waste/total-ammonia",
        level_of(headroom),
        f"Total ammonia settles near {_span(figure)}; the long-run criterion for this pH and temperature is "
        f"{criterion:.2g} mg/L.",
        f"{_feed_less(facts, max(1.0, value / (CRITERION_MARGIN * criterion)))}, or add filter media.",
        _heaviest(facts),
        "B",
        ("EPA 2013, EPA-822-R-13-001",),
        headroom,
    )


@rule(
    "waste/removal",
    trips='without = ["filter"]\n[tank]\nlength = "40 cm"\nwidth = "25 cm"\nheight = "25 cm"\n'
    '[[animals]]\nspecies = "Carassius auratus"\ncount = 2',
    clears="",
)
def removal(facts: Facts) -> Iterator[Finding]:
    """What bacteria and plants can remove, against what the animals give.

    Removal is quoted at the TAN that a common test kit shows for sure (less where the pH is high).  Below a
    ratio of 1 the test will show ammonia; twice the load is the usual margin.  The areal rate of media is
    known to a factor of two.
    """
    load, capacity = (
        facts.figures.get("nitrogen_load_mg_per_day"),
        facts.figures.get("removal_capacity_mg_per_day"),
    )
    if load is None or capacity is None:
        return
    given = load.interval.value
    ratio = capacity.interval.value / given if given > 0 else REMOVAL_SAFE
    headroom = headroom_between(ratio, REMOVAL_STOP, REMOVAL_HOLDS, REMOVAL_SAFE)
    what = (
        "Bacteria and plants" if facts.plan.filter else "Without a filter, the bacteria on glass and gravel"
    )
    yield Finding(
        "waste/removal",
        level_of(headroom),
        f"{what} can remove {_span(capacity)} before a test shows ammonia; the animals give {_span(load)}.",
        _more_removal(facts, ratio),
        _heaviest(facts),
        "C",
        (),
        headroom,
    )


def _more_removal(facts: Facts, ratio: float) -> str:
    if facts.plan.filter is None:
        return "Add a filter with mature media, or keep fewer animals."
    if not facts.plan.filter.media:
        return "Fill the filter with media and list them under [[filter.media]]."
    return f"{_feed_less(facts, REMOVAL_SAFE / ratio)}, or add media to the filter."


@rule(
    "waste/media-unlisted",
    trips="[filter]\nmedia = []",
    clears="",
)
def media_unlisted(facts: Facts) -> Iterator[Finding]:
    """A filter of which no media are listed counts for nothing: its bacteria live on what it is filled
    with."""
    if facts.plan.filter is not None and not facts.plan.filter.media:
        yield Finding(
            "waste/media-unlisted",
            "unknown",
            "What the filter is filled with is not listed, so only the tank's own surfaces are counted.",
            "List each medium and its volume under [[filter.media]].",
        )


@rule(
    "waste/nitrite",
    trips='without = ["filter"]\n[tank]\nlength = "40 cm"\nwidth = "25 cm"\nheight = "25 cm"\n'
    '[[animals]]\nspecies = "Carassius auratus"\ncount = 4',
    clears="",
    sources=(NITRITE_ACT.source, NITRITE_STOP.source),
)
def nitrite(facts: Facts) -> Iterator[Finding]:
    """Nitrite between the two steps of nitrification.

    In a grown-in filter it stays well below TAN; well-run culture keeps it under 0.1 mg N/L.  Chloride in
    the water protects many fish (not sunfish and bass), so soft water is where nitrite kills.
    """
    figure = facts.figures.get("nitrite_n_mg_per_l")
    if figure is None:
        return
    headroom = headroom_between(figure.interval.value, NITRITE_STOP, NITRITE_ACT, NITRITE_AIM)
    yield Finding(
        "waste/nitrite",
        level_of(headroom),
        f"Nitrite settles near {_span(figure)} of nitrogen; well-run culture stays under {NITRITE_ACT:.2g}.",
        "Add media, feed less, and change water at once if a test shows nitrite.",
        _heaviest(facts),
        "C",
        (NITRITE_ACT.source, NITRITE_STOP.source),
        headroom,
    )


@rule(
    "waste/nitrate",
    trips='[routine]\nwater_change = "5 %"\n[[animals]]\nspecies = "Carassius auratus"\ncount = 4',
    clears="",
    sources=(NITRATE_LIMIT.source, NITRATE_STOP.source),
)
def nitrate(facts: Facts) -> Iterator[Finding]:
    """Nitrate just before a water change, once the weeks have settled to a steady sawtooth.

    What the animals give and the plants do not take builds up until a change carries off a week's gain.  40
    mg/L is where harm to sensitive animals begins over months; hardy fish stand several times that, sources
    differ tenfold. A change cannot go below the tap water.
    """
    figure = facts.figures.get("nitrate_mg_per_l")
    if figure is None:
        return
    headroom = headroom_between(figure.interval.value, NITRATE_STOP, NITRATE_LIMIT, NITRATE_AIM)
    routine = facts.plan.routine
    if routine.water_change > 0:
        when = f"just before the change of {routine.water_change:.0%} every {routine.every_days:.3g} days"
    else:
        when = "after twelve weeks, as no water change is planned"
    yield Finding(
        "waste/nitrate",
        level_of(headroom),
        f"Nitrate reaches about {_span(figure)} {when}; {NITRATE_LIMIT:.3g} mg/L is the limit.",
        _change_remedy(facts),
        _heaviest(facts),
        "C",
        (NITRATE_LIMIT.source,),
        headroom,
    )


def _change_remedy(facts: Facts) -> str:
    """The smallest change that keeps nitrate half way between its aim and its limit."""
    routine, tap = facts.plan.routine, facts.plan.tap.nitrate_mg_l or 0.0
    goal = (NITRATE_AIM + NITRATE_LIMIT) / 2
    if tap >= goal:
        return (
            f"The tap water itself holds {tap:.3g} mg/L: mix it with rain or reverse-osmosis water, or add "
            "fast plants."
        )
    per_day = facts.figures["nitrate_gain_mg_per_l_per_week"].interval.value / 7
    share = smallest_share(per_day * routine.every_days, tap, goal)
    if share is not None and share <= 0.8:
        return f"Change at least {share:.0%} every {routine.every_days:.3g} days."
    days = longest_interval(per_day, 0.5, tap, goal)
    if days:
        return f"Change half the water every {days:.0f} days, or keep fewer animals."
    return "No water change keeps up with this load: keep fewer animals or a larger tank."


@rule(
    "waste/tap-nitrate",
    trips='without = ["tap.nitrate"]',
    clears="",
)
def tap_nitrate_unknown(facts: Facts) -> Iterator[Finding]:
    """Nitrate of the tap water is not given: a change cannot bring the tank below it."""
    if facts.plan.routine.water_change > 0 and facts.plan.tap.nitrate_mg_l is None:
        yield Finding(
            "waste/tap-nitrate",
            "unknown",
            "The nitrate of the tap water is not given; up to 45 mg/L is allowed for in the figures.",
            "Measure it, or look it up in the water supplier's report, and add it under [tap].",
        )
