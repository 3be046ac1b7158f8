"""Growth in length toward the adult size: how long until a young fish makes its adult's waste.

Von Bertalanffy: dL/dt = K (L_inf - L), with lengths in cm, times in years, K from the growth performance
index phi' = log10 K + 2 log10 L_inf.  The index of a species is seldom known and stands within 0.4 of 2.1
for small warm-water fish, so that the time is known to a factor of two and a half; a tank's feeding moves it
as much.
"""

from __future__ import annotations

from math import inf, log

from stockcheck.physics.quantity import Constant, Interval

MM_PER_CM = Constant(10.0, "mm/cm", "definition")
MONTHS_PER_YEAR = Constant(12.0, "month/year", "definition")
GROWTH_PERFORMANCE = Constant(
    2.1,
    "log10(cm2/year)",
    "from memory: phi' = log10 K + 2 log10 L_inf (Pauly & Munro 1984), usual for small warm-water fish",
    1.7,
    2.5,
)
ADULT_PER_ASYMPTOTE = Constant(
    0.95, "1", "from memory: the usual adult length taken as 95 % of the asymptote (Taylor 1958)", 0.90, 0.98
)
JUVENILE_SHARE = Constant(
    0.45,
    "1",
    "common practice, no source: fish are sold at a third to two thirds of adult length",
    0.30,
    0.60,
)
ADULT_LENGTH = Constant(
    1.0,
    "1",
    "common practice, no source: adults of one species differ by a tenth or more in length",
    0.85,
    1.12,
)
MEASURED_LENGTH = Constant(
    1.0, "1", "common practice, no source: a fish measured through the glass", 0.93, 1.07
)


def growth_rate(asymptote_cm: float, performance: float = GROWTH_PERFORMANCE) -> float:
    """The von Bertalanffy K, 1/year, from the asymptotic length and the growth performance index."""
    return float(10**performance / asymptote_cm**2)


def years_to_reach(now_cm: float, then_cm: float, asymptote_cm: float, rate_per_year: float) -> float:
    """Years from one length to another by dL/dt = K (L_inf - L); infinite at the asymptote or beyond."""
    if then_cm <= now_cm:
        return 0.0
    if then_cm >= asymptote_cm:
        return inf
    return log((asymptote_cm - now_cm) / (asymptote_cm - then_cm)) / rate_per_year


def years_to_adult(now_cm: float, adult_cm: float) -> Interval:
    """Years until a fish of ``now_cm`` has its usual adult length, for slow, usual and fast growers."""
    asymptote = adult_cm / ADULT_PER_ASYMPTOTE
    performance = GROWTH_PERFORMANCE

    def years(index: float) -> float:
        return years_to_reach(now_cm, adult_cm, asymptote, growth_rate(asymptote, index))

    return Interval(years(performance.high), years(performance), years(performance.low))
