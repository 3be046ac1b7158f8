"""Body mass from length: fish by body shape, other animals by rules of their own.

Mass = a L^b, with lengths in cm and live, wet masses in g (snails and bivalves with their shell).  For fish,
a and b are the priors of four body shapes, from eel-like to short and deep; one species differs from its
shape's prior by a factor of two either way (90 %), which is most of what is not known about a tank's waste.
They hold for total length: a standard length taken for it halves the mass, so tail fins are added first.

Evidence: the shape priors are from memory (Froese, Thorson & Reyes 2014), their spread is printed by
FishBase; a normal fish of 10 cm weighs about 10 g, an adult zebrafish 0.43 to 0.55 g.  Shrimps, snails,
crabs, crayfish and amphibians have cubic rules, one of them published (apple snails), the others from memory.
"""

from __future__ import annotations

from math import exp, hypot, log
from typing import NamedTuple

from stockcheck.physics.quantity import Constant, Interval

_FROESE = "from memory: Froese, Thorson & Reyes 2014, J. Appl. Ichthyol. 30:78, prior for the body shape"
_FISHBASE = (
    "FishBase, summary of Austrolebias sp. (shape unknown), by the method of Froese, Thorson & Reyes 2014"
)
_SMALL_FISH = "FishBase, summary of Characidium laterale; sd log10 a = 0.20 from its 95 % interval"
_MEMORY = "from memory: live mass of common kinds at usual size, no source seen"


class LengthWeight(NamedTuple):
    """Mass = a L^b (g, cm); ``spread`` is the factor either way that holds 90 % of species."""

    a: Constant
    b: Constant
    spread: Constant


#: exp(1.645 x 0.20 x ln 10): the 90 % factor of a log-normal with sd log10 a = 0.20.
FISH_SPREAD = Constant(2.13, "1", _SMALL_FISH)
FISH: dict[str, LengthWeight] = {
    "eel-like": LengthWeight(Constant(0.00102, "g/cm^b", _FROESE), Constant(3.06, "1", _FROESE), FISH_SPREAD),
    "elongated": LengthWeight(
        Constant(0.00389, "g/cm^b", _FROESE), Constant(3.12, "1", _FROESE), FISH_SPREAD
    ),
    "fusiform": LengthWeight(Constant(0.0112, "g/cm^b", _FROESE), Constant(3.04, "1", _FROESE), FISH_SPREAD),
    "short-deep": LengthWeight(
        Constant(0.0195, "g/cm^b", _FROESE), Constant(3.01, "1", _FROESE), FISH_SPREAD
    ),
}
#: exp(1.645 x 0.313 x ln 10).
SHAPE_UNKNOWN = LengthWeight(
    Constant(0.0100, "g/cm^b", _FISHBASE),
    Constant(3.04, "1", _FISHBASE),
    Constant(3.27, "1", f"{_FISHBASE}; sd log10 a = 0.313"),
)

CUBE = Constant(3.0, "1", "geometry: mass grows with the cube of length where shape is kept")


def _cubic(a: float, spread: float, source: str) -> LengthWeight:
    return LengthWeight(Constant(a, "g/cm^3", source), CUBE, Constant(spread, "1", source))


_GLOBE_SNAIL = _cubic(
    0.31, 1.4, "Panda et al. 2021, 10.1186/s41936-021-00216-z: Pila globosa, mean 31.1 g at 46.5 mm of shell"
)
#: By family; lengths are shell length or diameter, crayfish and shrimps rostrum to tail, crabs shield width,
#: frogs snout to vent.
BY_FAMILY: dict[str, LengthWeight] = {
    "Ampullariidae": _GLOBE_SNAIL,
    "Viviparidae": _GLOBE_SNAIL,
    "Neritidae": _GLOBE_SNAIL,
    "Planorbidae": LengthWeight(
        Constant(0.396, "g/cm^b", "Planorbarius corneus, y = 0.396 x^2.74, units taken as cm and g"),
        Constant(2.74, "1", "Planorbarius corneus, y = 0.396 x^2.74"),
        Constant(1.5, "1", _MEMORY),
    ),
    "Physidae": _cubic(0.12, 1.5, "from memory: Physa of 10 mm weighs 0.10 to 0.15 g"),
    "Thiaridae": _cubic(0.04, 1.7, _MEMORY),
    "Pachychilidae": _cubic(0.04, 1.7, _MEMORY),
    "Nassariidae": _cubic(0.08, 1.7, _MEMORY),
    "Ambystomatidae": _cubic(0.010, 1.6, _MEMORY),
}
BY_KIND: dict[str, LengthWeight] = {
    "shrimp": _cubic(
        0.0075, 1.7, "from memory: Neocaridina of 25 mm weighs 0.12 g, Amano shrimp of 45 mm 0.7 g"
    ),
    "snail": _cubic(0.20, 2.0, _MEMORY),
    "crayfish": _cubic(0.03, 1.7, _MEMORY),
    "crab": _cubic(0.30, 2.0, _MEMORY),
    "bivalve": _cubic(0.30, 1.7, _MEMORY),
    "amphibian": _cubic(0.075, 1.6, _MEMORY),
}

TOTAL_PER_STANDARD = Constant(
    1.22,
    "1",
    "from memory: 1.20 to 1.27 for most small characins and cyprinids; FishBase's crude 1.1 is the low end",
    1.10,
    1.27,
)
TOTAL_PER_STANDARD_EEL = Constant(1.04, "1", "from memory: the tail fin of eel-like fish is short", 1.0, 1.10)


def relation(kind: str, family: str, body_shape: str) -> LengthWeight:
    """The length-weight relation that fits an animal: by family, by kind, for fish by body shape."""
    if kind == "fish":
        return FISH.get(body_shape, SHAPE_UNKNOWN)
    return BY_FAMILY.get(family) or BY_KIND[kind]


def total_per_standard(body_shape: str) -> Constant:
    """Total length per standard length; a mass taken with the wrong one is off by a factor of two."""
    return TOTAL_PER_STANDARD_EEL if body_shape == "eel-like" else TOTAL_PER_STANDARD


def body_mass(length_cm: float, rule: LengthWeight) -> float:
    """Live mass, g, of one animal: a L^b.

    Parameters
    ----------
    length_cm : float
        Total length of fish; for others as ``BY_FAMILY`` says.
    """
    return float(rule.a * length_cm**rule.b)


def body_mass_interval(length_cm: Interval, rule: LengthWeight) -> Interval:
    """Live mass, g, with the spread of the relation and of the length combined in logarithms."""
    value = body_mass(length_cm.value, rule)
    spread = log(rule.spread)
    fall = hypot(spread, rule.b * log(length_cm.value / length_cm.low))
    rise = hypot(spread, rule.b * log(length_cm.high / length_cm.value))
    return Interval(value * exp(-fall), value, value * exp(rise))
