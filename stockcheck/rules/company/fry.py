"""Young fish: how many a group will bring up, and what they add to the tank."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.facts.plain import plain
from stockcheck.language import say
from stockcheck.rules.company.broods import (
    GUPPY_BROOD,
    GUPPY_INTERVAL,
    HORIZONS,
    REZNICK,
    STORED_SPERM_MONTHS,
    FryForecast,
    brooding_of,
    forecast,
    left_by,
    own_feed_g,
)
from stockcheck.rules.company.keeping import Keeping, keepings
from stockcheck.rules.core import WATCH, Finding, rule
from stockcheck.rules.wording import count_word, names_of, sentence, some

#: Up to this many times today's feed the young are not worth arithmetic.
HARDLY_MORE_FEED = 1.1


@rule(
    "company/fry",
    trips="""
[[animals]]
species = "Poecilia reticulata"
males = 2
females = 6
""",
    clears="""
[[animals]]
species = "Poecilia reticulata"
males = 8
""",
    sources=(GUPPY_BROOD, GUPPY_INTERVAL, REZNICK),
)
def fry(facts: Facts) -> Iterator[Finding]:
    """How many young will there be?

    Mechanism.  A livebearer female drops a brood every few weeks.  Cover decides how many the parents leave,
    companions how many of those live; daughters breed at three months.  Females from a mixed shop tank carry
    sperm for months, so females alone are not without young at first, and their own sons keep it going.  The
    young grow, and eat: the finding says by how much the tank's feed, and the ammonia that comes of it, grows
    if none leave.

    Evidence.  Guppies: broods of 20 to 40 every 20 to 30 days; sperm kept for at least ten months (Reznick
    group).  Brood sizes of the table where there are any.

    Limits.  Survival is from memory (5 to 50 % in planted tanks) and the widest part of the interval.  A full
    tank slows breeding, which the forecast does not know.
    """
    for keeping in keepings(facts):
        mothers = mothers_in(keeping)
        if mothers:
            yield _young(facts, keeping, mothers)


def mothers_in(keeping: Keeping) -> int:
    """Females that will drop live young: all, and half of the unsexed; none in what lays eggs."""
    if keeping.species.reproduction != "livebearer" or keeping.species.kind != "fish":
        return 0
    return keeping.females + keeping.unsexed // 2


def fry_forecast(facts: Facts, keeping: Keeping, mothers: int) -> FryForecast:
    """The forecast for one taxon as it is kept."""
    brooding = brooding_of(facts, keeping.species, mothers, keeping.cover)
    return forecast(brooding, keeping.species, own_feed_g(facts.groups))


def _young(facts: Facts, keeping: Keeping, mothers: int) -> Finding:
    species = keeping.species
    result = fry_forecast(facts, keeping, mothers)
    low, value, high = result.per_month
    alone = not keeping.males and not keeping.unsexed
    carried = (
        say(
            " without a male, from sperm stored for up to {stored_sperm_months:.0f} months",
            stored_sperm_months=STORED_SPERM_MONTHS,
        )
        if alone
        else ""
    )
    message = say(
        "{mothers} will have young{carried}: some {value:.0f} a month that live ({low:.0f} to "
        "{high:.0f}); {eaters}. {if_none_leave}",
        mothers=_mothers(keeping, mothers),
        carried=carried,
        value=value,
        low=low,
        high=high,
        eaters=_eaters(facts, keeping),
        if_none_leave=_if_none_leave(facts, result),
    )
    remedy = (
        say(
            "Ask for females that were never with males, and take their sons out by six weeks; or "
            "have a taker for the young."
        )
        if alone
        else say("Have a taker for the young before the first ones come, or keep males only.")
    )
    return Finding(
        "company/fry",
        "watch",
        sentence(message),
        remedy,
        (species.slug,),
        "C" if species.band("brood_size") else "D",
        (GUPPY_BROOD, GUPPY_INTERVAL, REZNICK),
        WATCH,
    )


def _mothers(keeping: Keeping, mothers: int) -> str:
    """The females; those that the plan does not sex as a guess."""
    told = some(mothers, keeping.species, "female")
    if not keeping.unsexed:
        return told
    return say("{females} (if half of the unsexed are female)", females=told)


def _eaters(facts: Facts, keeping: Keeping) -> str:
    _, eater = left_by(facts, keeping.species)
    if eater is None:
        return say("only their parents eat them")
    return f"{names_of(eater)} {'take some' if eater.piscivore == 'fry' else 'hunt them down'}"


def _if_none_leave(facts: Facts, result: FryForecast) -> str:
    """What the young of three and six months add to feed and ammonia."""
    text = say("If none leave there are ") + " and ".join(
        say("{young:.0f} after {months} months", young=young.value, months=count_word(months))
        if months == HORIZONS[0]
        else say("{young:.0f} after {months}", young=young.value, months=count_word(months))
        for months, young in zip(HORIZONS, result.after, strict=True)
    )
    if not result.feed_times:
        return f"{text}."
    three, six = result.feed_times
    if six.value < HARDLY_MORE_FEED:
        return say("{text}, which hardly adds to the feed.", text=text)
    text += say(
        ", and the feed grows to {after_three} and {after_six} times today's",
        after_three=_times(three.value),
        after_six=_times(six.value),
    )
    text += say(" (the latter {low} to {high})", low=_times(six.low), high=_times(six.high))
    load = facts.figures.get("nitrogen_load_mg_per_day")
    if load is None:
        return f"{text}."
    now = load.interval.value
    then = say(
        "{after_three} and {after_six} mg a day",
        after_three=plain(now * three.value, 3),
        after_six=plain(now * six.value, 3),
    )
    return say("{text}: ammonia nitrogen from {now} to {then}.", text=text, now=plain(now, 3), then=then)


def _times(factor: float) -> str:
    return f"{factor:.1f}" if factor < 10 else f"{factor:.0f}"
