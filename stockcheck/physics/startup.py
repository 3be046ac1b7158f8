"""A new filter: two steps of nitrifiers growing until they keep up.

Ammonia oxidisers grow on TAN, nitrite oxidisers on the nitrite that those make; each grows as fast as it is
fed (Monod), and logistically towards the clearance of a grown-in filter.  The load of the tank builds up
TAN, then nitrite, until both have grown by some four decades.  Growth alone takes two to three weeks at 25
degC; a lag makes up the difference to the one to seven weeks that filters are seen to take.

Evidence: growth and half-saturation of a river model (R package ecosim), energies of Vannecke & Volcke; the
first share of bacteria and the lag are from memory.  The scheme stays within 6 % of an ODE solver's peaks.

Oxidisers are a share of their grown-in clearance, 0 to 1; TAN and nitrite mg N/L, clearances L/day, loads mg
N/day.
"""

from __future__ import annotations

from math import exp, inf, log
from typing import NamedTuple

from stockcheck.physics.quantity import Constant

_ECOSIM = "R package ecosim, river-model parameters (reference temperature 20 degC presumed)"
_VANNECKE = "Vannecke & Volcke, appendix A1"
AMMONIA_GROWTH = Constant(0.8, "1/day", _ECOSIM, 0.5, 0.9)
NITRITE_GROWTH = Constant(1.1, "1/day", _ECOSIM, 0.7, 1.2)
LOSS = Constant(0.2, "1/day", f"{_ECOSIM}: death 0.10 and respiration 0.10")
HALF_SATURATION = Constant(0.5, "mg N/L", _ECOSIM)
AMMONIA_ENERGY = Constant(68.0, "kJ/mol", _VANNECKE)
NITRITE_ENERGY = Constant(44.0, "kJ/mol", _VANNECKE)
GAS = Constant(8.314462618e-3, "kJ/mol/K", "CODATA 2018, exact")
KELVIN = Constant(273.15, "K", "definition of the Celsius scale")
REFERENCE_K = Constant(293.15, "K", _ECOSIM)
FIRST_SHARE = Constant(
    1e-4,
    "1",
    "from memory: bacteria that come with water, plants and animals, four decades below grown in",
    1e-5,
    1e-3,
)
LAG = Constant(
    7.0,
    "day",
    "from memory: what growth alone leaves of the 1-6 weeks (FAO) and 6-7 weeks (Mnyoro et al. 2022)",
    3.0,
    14.0,
)
STEP = Constant(0.25, "day", "numerical step; halving it moves a peak by less than 3 %")
STARTS_AT = Constant(
    0.1, "1", "nitrite oxidisers are taken to start once this share of ammonia oxidisers has grown"
)


class State(NamedTuple):
    """One moment of a start-up."""

    day: float
    tan: float
    nitrite: float
    ammonia_oxidisers: float
    nitrite_oxidisers: float


class Pace(NamedTuple):
    """How fast the bacteria get going: growth at 20 degC, 1/day, and days of lag."""

    ammonia: float
    nitrite: float
    lag: float


GROWN_IN_DAYS = Constant(
    84.0,
    "day",
    "twelve weeks, twice the 6 to 7 weeks of Mnyoro et al. 2022: a filter in use this long is grown in",
)
AHEAD_DAYS = Constant(56.0, "day", "eight weeks: how far a start-up is followed")
MONTH_DAYS = Constant(30.0, "day", "a month, rounded")

USUAL = Pace(AMMONIA_GROWTH, NITRITE_GROWTH, LAG)
SLOW = Pace(AMMONIA_GROWTH.low, NITRITE_GROWTH.low, LAG.high)
FAST = Pace(AMMONIA_GROWTH.high, NITRITE_GROWTH.high, LAG.low)


class Tank(NamedTuple):
    """What the bacteria live in; clearances are those of a grown-in filter."""

    volume_l: float
    load: float
    ammonia_clearance: float
    nitrite_clearance: float
    change_clearance: float = 0.0
    plant_uptake: float = 0.0
    plant_half_saturation: float = 1.0


def pace_between(index: float) -> Pace:
    """Slow at -1, usual at 0, fast at 1, linear between."""
    other = FAST if index > 0 else SLOW
    share = abs(index)
    return Pace(*(usual + share * (end - usual) for usual, end in zip(USUAL, other, strict=True)))


def warmth(energy: float, temperature_c: float) -> float:
    """Growth relative to 20 degC: exp(E (T - T0)/(R T T0))."""
    kelvin = temperature_c + KELVIN
    return exp(energy * (kelvin - REFERENCE_K) / (GAS * kelvin * REFERENCE_K))


def net_growth(pace: Pace, temperature_c: float) -> tuple[float, float]:
    """Growth less loss of well-fed ammonia and nitrite oxidisers, 1/day."""
    ammonia = pace.ammonia * warmth(AMMONIA_ENERGY, temperature_c) - LOSS
    nitrite = pace.nitrite * warmth(NITRITE_ENERGY, temperature_c) - LOSS
    return max(0.0, ammonia), max(0.0, nitrite)


def grown_share(days: float, rate: float, first: float) -> float:
    """A logistic: the share after so many days from a first share."""
    if first >= 1:
        return 1.0
    return first / (first + (1 - first) * exp(-rate * max(0.0, days)))


def oxidisers(
    days: float, temperature_c: float, seeded: float = 0.0, pace: Pace = USUAL
) -> tuple[float, float]:
    """Shares of grown-in ammonia and nitrite oxidisers in a filter that has been fed for so many days.

    Parameters
    ----------
    days : float
        Since the filter first had ammonia to work on.
    seeded : float
        Share of the media that came from a mature filter; it needs no lag.
    """
    ammonia_rate, nitrite_rate = net_growth(pace, temperature_c)
    fed = days - pace.lag
    ammonia = max(seeded, grown_share(days if seeded else fed, ammonia_rate, max(seeded, FIRST_SHARE)))
    wait = 0.0 if seeded else _days_to(STARTS_AT, ammonia_rate)
    started = days if seeded else fed - wait
    return ammonia, grown_share(started, nitrite_rate, max(seeded, FIRST_SHARE))


def _days_to(share: float, rate: float) -> float:
    """Days of logistic growth from the first share to another."""
    if rate <= 0:
        return inf
    return log(share * (1 - FIRST_SHARE) / (FIRST_SHARE * (1 - share))) / rate


def start_up(
    tank: Tank, temperature_c: float, begin: State, days: float, lag_left: float = 0.0, pace: Pace = USUAL
) -> list[State]:
    """The coming days, step by step: bacteria grow as far as they are fed, and clear what they can.

    dC/dt = (L - a G C - change - plants)/V, da/dt = r C/(K + C) a (1 - a), and likewise for nitrite; loss
    terms are taken implicitly, so the scheme holds for any clearance.
    """
    ammonia_rate, nitrite_rate = net_growth(pace, temperature_c)
    states = [begin]
    state = begin
    for _ in range(round(days / STEP)):
        growing = state.day - begin.day >= lag_left
        state = _step(tank, state, ammonia_rate if growing else 0.0, nitrite_rate if growing else 0.0)
        states.append(state)
    return states


def _step(tank: Tank, now: State, ammonia_rate: float, nitrite_rate: float) -> State:
    cleared = now.ammonia_oxidisers * tank.ammonia_clearance
    plants = tank.plant_uptake / (tank.plant_half_saturation + now.tan)
    tan = (now.tan + STEP * tank.load / tank.volume_l) / (
        1 + STEP * (cleared + plants + tank.change_clearance) / tank.volume_l
    )
    nitrite_cleared = now.nitrite_oxidisers * tank.nitrite_clearance
    nitrite = (now.nitrite + STEP * cleared * tan / tank.volume_l) / (
        1 + STEP * (nitrite_cleared + tank.change_clearance) / tank.volume_l
    )
    return State(
        now.day + STEP,
        tan,
        nitrite,
        grown_share(STEP, ammonia_rate * tan / (HALF_SATURATION + tan), now.ammonia_oxidisers),
        grown_share(STEP, nitrite_rate * nitrite / (HALF_SATURATION + nitrite), now.nitrite_oxidisers),
    )
