"""Nitrogen and solids from feed.

At once, fish excrete 0.092 of the protein they eat as total ammonia nitrogen (Timmons & Ebeling 2013:
nitrogen is 0.16 of protein, 0.80 of it assimilated, 0.80 of that excreted, 0.90 of that as TAN).  A sea
bream budget found little more than half of it, and the interval covers both.  In the long run urea, faeces
and leftovers mineralise too: all nitrogen that is not kept as growth or siphoned off ends as nitrate, some
0.13 of the protein.

Feed is g/day as given, protein a share of it; nitrogen comes out as mg N/day, solids as g dry matter/day.
"""

from __future__ import annotations

from stockcheck.physics.quantity import Constant

MG_PER_G = Constant(1000.0, "mg/g", "definition")
NITROGEN_PER_PROTEIN = Constant(0.16, "g/g", "Timmons & Ebeling 2013; the 6.25 of protein analysis")
TAN_PER_PROTEIN = Constant(
    0.092,
    "g/g",
    "Timmons & Ebeling 2013: 0.16 x 0.80 assimilated x 0.80 excreted x 0.90 as TAN; the low end after "
    "Porter et al. 1987",
    0.05,
    0.11,
)
RELEASED_SHARE = Constant(
    0.81,
    "1",
    "from memory: in a mature tank all feed nitrogen mineralises that is not kept as growth or siphoned off "
    "(0.70-0.95)",
    0.70,
    0.95,
)
UNEATEN_SHARE = Constant(
    0.05, "1", "common practice, no source: feed that no animal finds and that rots", 0.0, 0.20
)
SOLIDS_PER_FEED = Constant(
    0.25, "g/g", "from memory: Timmons & Ebeling, faecal solids a quarter of the dry feed", 0.20, 0.35
)


def tan_from_feed(feed_g: float, protein: float, tan_per_protein: float = TAN_PER_PROTEIN) -> float:
    """Total ammonia nitrogen that fish excrete at once, mg N/day: feed x protein x 0.092.

    A budget of sea bream (Porter et al. 1987) found half of it; in the long run urea, faeces and
    leftovers add to it, see ``nitrogen_released``.
    """
    return feed_g * MG_PER_G * protein * tan_per_protein


def nitrogen_in_feed(feed_g: float, protein: float) -> float:
    """All nitrogen of the feed, mg N/day."""
    return feed_g * MG_PER_G * protein * NITROGEN_PER_PROTEIN


def solids(feed_g: float, uneaten_share: float = UNEATEN_SHARE) -> float:
    """Faeces and leftovers, g dry matter/day."""
    return feed_g * (uneaten_share + (1 - uneaten_share) * SOLIDS_PER_FEED)
