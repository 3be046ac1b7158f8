"""What breathes in a tank: fish, shrimps, snails, plants in the dark, bacteria, the floor; mg O2 per hour."""

from __future__ import annotations

from math import exp

from stockcheck.physics.quantity import Constant
from stockcheck.physics.water import HOURS_PER_DAY, KELVIN

_CLARKE = "Clarke & Johnston 1999, J. Anim. Ecol. 68:893"
#: Resting rate of a 50 g bony fish: ln R = 15.7 - 5.02 x 1000/T, R in mmol O2/h.
FISH_INTERCEPT = Constant(15.7, "ln(mmol/h)", _CLARKE)
FISH_SLOPE = Constant(5020.0, "K", _CLARKE)
FISH_MASS = Constant(50.0, "g", _CLARKE)
FISH_EXPONENT = Constant(
    0.80, "1", _CLARKE + " (0.79 to 0.80 across species; Jerde et al. 2019: 0.89 within)", 0.76, 0.89
)
OXYGEN_MOLAR_MASS = Constant(31.9988, "g/mol", "IUPAC standard atomic weights, abridged")
#: A fish that is awake and swims a little, over the resting line; a single species strays from the line.
ROUTINE = Constant(1.08, "1", "Lucas & Priede 1992: zebrafish routine rate, alone and in sixes", 1.0, 1.15)
SPECIES_SPREAD = Constant(
    1.0, "1", _CLARKE + ": 90 % of species lie within a factor of about 1.6", 1 / 1.6, 1.6
)
WARMING_WITHIN = Constant(2.40, "1 per 10 K", _CLARKE + ": median Q10 within a species", 2.0, 2.8)
TEN_KELVIN = Constant(10.0, "K", "definition of Q10")

_LIU = "Liu et al. 2010, 10.13292/j.1000-4890.2010.0162, Exopalaemon modestus 0.12 to 1.93 g"
SHRIMP_RATE = Constant(0.0711, "mg/g/h", _LIU, 0.047, 0.107)
SHRIMP_SLOPE = Constant(0.0749, "1/K", _LIU)
SHRIMP_EXPONENT = Constant(-0.24, "1", _LIU)
SHRIMP_MASS = Constant(0.5, "g", _LIU + ", middle of the sizes")

SNAIL_SHARE = Constant(
    0.35, "1", "from memory: a snail breathes a quarter to half of a fish of the same soft mass", 0.2, 0.5
)
SNAIL_SOFT = Constant(0.5, "1", "from memory: soft tissue in a snail's live mass", 0.4, 0.6)
AIR_SHARE = Constant(
    0.3, "1", "from memory: share that labyrinth and gut breathers take from the air in good water", 0.0, 0.6
)

NITRIFICATION = Constant(4.57, "g O2/g N", "Zhu & Chen 2002; 3.43 + 1.14 by stoichiometry", 4.2, 4.57)
DECAY = Constant(
    0.15,
    "g O2/g feed",
    "from memory: Timmons & Ebeling 2013, heterotrophic bacteria in recirculating culture",
    0.08,
    0.35,
)

_PLANTS = "from memory, no rate found; stem gas feeds 30 to 40 % of it (Sorrell & Dromgoole 1989)"
PLANT_RATE = Constant(0.9, "mg O2/g dry mass/h at 25 degC", _PLANTS, 0.36, 2.2)
PLANT_MASS = Constant(60.0, "g dry mass/m2 of cover", "common practice, no source", 25.0, 150.0)
PLANT_Q10 = Constant(2.0, "1 per 10 K", "from memory", 1.8, 2.4)
PLANT_REFERENCE = Constant(25.0, "degC", "temperature of the plant and floor rates")
#: Light-time oxygen gain of a plant over its own night respiration.
PLANT_GAIN = Constant(3.0, "1", "from memory: net photosynthesis over dark respiration", 1.5, 6.0)
FLOATER_IN_WATER = Constant(
    0.25, "1", "common practice, no source: floating leaves breathe the air, roots the water", 0.1, 0.5
)

INERT_BED = Constant(6.0, "mg O2/m2/h", "from memory: sand or gravel", 2.0, 15.0)
FLOOR_Q10 = Constant(2.2, "1 per 10 K", "reed-swamp sediment of Arreskov So")
CM2_PER_M2 = Constant(1e4, "cm2/m2", "definition")
MG_PER_G = Constant(1000.0, "mg/g", "definition")


def fish(mass_g: float, temperature_c: float, exponent: float = FISH_EXPONENT) -> float:
    """Routine oxygen uptake of one fish, mg/h (0 to 30 degC; small active fish included).

    The often quoted ``ln R = 0.80 ln M - 5.43`` carries no temperature and belongs to about 6 degC: it is not
    used.
    """
    return ROUTINE * resting_fish(mass_g, temperature_c, exponent)


def resting_fish(mass_g: float, temperature_c: float, exponent: float = FISH_EXPONENT) -> float:
    """Resting oxygen uptake of one fish, mg/h."""
    fifty_grams = exp(FISH_INTERCEPT - FISH_SLOPE / (temperature_c + KELVIN)) * OXYGEN_MOLAR_MASS
    return float(fifty_grams * (mass_g / FISH_MASS) ** exponent)


def shrimp(mass_g: float, temperature_c: float) -> float:
    """Oxygen uptake of one shrimp, mg/h (12 to 30 degC); crayfish and crabs by the same rule."""
    per_gram = SHRIMP_RATE * exp(SHRIMP_SLOPE * temperature_c) * (mass_g / SHRIMP_MASS) ** SHRIMP_EXPONENT
    return float(per_gram * mass_g)


def snail(mass_g: float, temperature_c: float) -> float:
    """Oxygen uptake of one snail or mussel of such live mass, shell included, mg/h."""
    return SNAIL_SHARE * fish(mass_g * SNAIL_SOFT, temperature_c)


def warmed(rate: float, from_c: float, to_c: float, q10: float = WARMING_WITHIN) -> float:
    """A rate of animals used to ``from_c`` when the water is at ``to_c`` for a few days."""
    return float(rate * q10 ** ((to_c - from_c) / TEN_KELVIN))


def nitrification(nitrogen_mg_day: float) -> float:
    """Oxygen that bacteria use to turn so much ammonia nitrogen into nitrate, mg/h."""
    return nitrogen_mg_day * NITRIFICATION / HOURS_PER_DAY


def decay(feed_g_day: float) -> float:
    """Oxygen used by what rots of the feed and the faeces, mg/h."""
    return feed_g_day * MG_PER_G * DECAY / HOURS_PER_DAY


def plants(
    cover_cm2: float, temperature_c: float, mass_g_m2: float = PLANT_MASS, rate: float = PLANT_RATE
) -> float:
    """Oxygen uptake of plants in the dark, mg/h, by the floor (or surface) they cover."""
    at_reference = cover_cm2 / CM2_PER_M2 * mass_g_m2 * rate
    return float(at_reference * PLANT_Q10 ** ((temperature_c - PLANT_REFERENCE) / TEN_KELVIN))


def floor(floor_cm2: float, temperature_c: float, rate: float = INERT_BED) -> float:
    """Oxygen uptake of the bed, mg/h."""
    return float(
        floor_cm2 / CM2_PER_M2 * rate * FLOOR_Q10 ** ((temperature_c - PLANT_REFERENCE) / TEN_KELVIN)
    )
