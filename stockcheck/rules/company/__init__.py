"""The company axis: who fights, bullies, nips, eats or breeds whom; one module a kind of mechanism."""

from stockcheck.rules.company import (
    courtship,
    fry,
    groups,
    health,
    hybrids,
    invertebrates,
    lookalikes,
    nipping,
    plants,
    predation,
    rivalry,
    temper,
    territory,
    unsexed,
)

__all__ = [
    "courtship",
    "fry",
    "groups",
    "health",
    "hybrids",
    "invertebrates",
    "lookalikes",
    "nipping",
    "plants",
    "predation",
    "rivalry",
    "temper",
    "territory",
    "unsexed",
]
