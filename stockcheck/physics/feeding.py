"""How much dry feed a tank gets: the animals' ration, or what the keeper gives.

The ration is a share of live body mass a day: 1.8 % at 1 g and 25 degC (0.95 to 3.4 %), by mass to the power
-0.20 and with a Q10 of 2.  It is what is usually given, not what is needed: keepers feed more than animals
need, and the interval covers it.  Masses are g, temperatures degC.

Evidence: between the 0.5 to 2 % of dry feed for adult aquarium fish and the 3 % (1 to 10 %) of zebrafish
colonies; the ammonia that fed sea bream of 3, 40 and 90 g excreted (Porter et al. 1987) lies inside what it
leads to. Invertebrates and amphibians get a share of the ration of a fish of their mass; the rest they graze.
"""

from __future__ import annotations

from stockcheck.physics.quantity import Constant

RATION_AT_1_G = Constant(
    0.018,
    "1/day",
    "between 0.5-2 % (adult aquarium fish, dry feed) and 3 % (1-10 %, adult zebrafish); common practice, no "
    "single source; "
    "keepers give more than animals need, and the upper end covers it",
    0.0095,
    0.034,
)
MASS_EXPONENT = Constant(
    -0.20, "1", "from memory: rations scale with body mass to the power -0.20 to -0.25", -0.25, -0.15
)
Q10 = Constant(2.0, "1", "from memory: appetite about doubles per 10 K within a species' range", 1.6, 2.4)
REFERENCE_C = Constant(25.0, "degC", "the temperature the ration is stated for")
Q10_STEP = Constant(10.0, "K", "definition of Q10")
DRY_MATTER = Constant(
    0.92, "1", "common practice, no source: dry feed, which the ration is stated in, holds 8 % water"
)
OWN_WEIGHING = Constant(1.0, "1", "common practice, no source: the keeper's own grams a day", 0.8, 1.25)

_MEMORY = "from memory: a share of the ration of a fish of the same mass; the rest is grazed from the tank"
APPETITE: dict[str, Constant] = {
    "fish": Constant(1.0, "1", "definition: the ration is stated for fish"),
    "shrimp": Constant(
        0.7,
        "1",
        "Liu et al. 2010, 10.13292/j.1000-4890.2010.0162: Exopalaemon modestus excretes about as much as "
        "fish; "
        "from memory: aquarium shrimps graze part of it",
        0.35,
        1.2,
    ),
    "snail": Constant(
        0.18,
        "1",
        "from memory: soft tissue is 40-60 % of live mass and works at a quarter to a half of a fish's rate",
        0.08,
        0.30,
    ),
    "bivalve": Constant(0.12, "1", _MEMORY, 0.04, 0.25),
    "crayfish": Constant(0.6, "1", _MEMORY, 0.3, 1.0),
    "crab": Constant(0.6, "1", _MEMORY, 0.3, 1.0),
    "amphibian": Constant(0.6, "1", _MEMORY, 0.3, 1.0),
}


def ration(mass_g: float, temperature_c: float) -> float:
    """Dry feed as a share of body mass a day, for one fish of ``mass_g``.

    1.8 % at 1 g and 25 degC, less for larger and cooler fish; usual keeping, not the least that keeps a fish
    alive.
    """
    warmth = Q10 ** ((temperature_c - REFERENCE_C) / Q10_STEP)
    return float(RATION_AT_1_G * mass_g**MASS_EXPONENT * warmth)


def feed_g_per_day(mass_g: float, count: int, kind: str, temperature_c: float) -> float:
    """Dry feed of ``count`` animals of one kind and mass, g/day."""
    return count * mass_g * APPETITE[kind] * ration(mass_g, temperature_c)
