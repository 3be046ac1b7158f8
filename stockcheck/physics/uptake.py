"""Nitrogen that plants take up, by habit, light and cover, and what their growth does to the pH by day.

Plants take ammonium before nitrate, with a half-saturation of about 0.1 mg N/L, and altogether so many mg N
a day per m2 of cover: floating plants most, fast stems next, epiphytes and mosses least.  The figures are
for medium light of eight hours; more light and added CO2 (under water) raise them.  Growth counts only while
cuttings leave the tank.

Evidence: duckweed outdoors took 327 mg/m2/day (Devlamynck et al. 2021), and a home lamp gives a third to a
fifth of that light; rates of rooted plants in tanks are working values from memory, known to a factor of
three. Uptake is mg N/day, cover m2 of floor (of surface for floating plants).
"""

from __future__ import annotations

from math import log10

from stockcheck.physics.quantity import Constant

_WORKING = "from memory: working values for tanks, mg N per m2 of cover a day from low to good light"
_FLOATING = (
    "Devlamynck et al. 2021, 10.3390/su13031570: duckweed outdoors 327 (107); a home lamp gives a third to "
    "a fifth; "
    "lower end from memory"
)
UPTAKE: dict[str, Constant] = {
    "floating": Constant(120.0, "mg N/m2/day", _FLOATING, 60.0, 350.0),
    "stem-fast": Constant(60.0, "mg N/m2/day", _WORKING, 20.0, 150.0),
    "stem": Constant(30.0, "mg N/m2/day", _WORKING, 10.0, 75.0),
    "rosette": Constant(15.0, "mg N/m2/day", _WORKING, 5.0, 40.0),
    "rosette-fast": Constant(25.0, "mg N/m2/day", _WORKING, 10.0, 40.0),
    "epiphyte": Constant(4.0, "mg N/m2/day", _WORKING, 1.0, 15.0),
    "emergent": Constant(60.0, "mg N/m2/day", "from memory: hobby claims only, factor 4", 15.0, 240.0),
}
LIGHT: dict[str, Constant] = {
    "low": Constant(0.5, "1", _WORKING, 0.35, 0.7),
    "medium": Constant(1.0, "1", "definition: the uptake is stated for medium light"),
    "high": Constant(1.6, "1", _WORKING, 1.2, 2.2),
}
CO2_GAIN = Constant(
    1.5, "1", "from memory: submerged plants grow about half as much again with CO2 added", 1.2, 2.5
)
USUAL_HOURS = Constant(8.0, "h", "common practice, no source: the light the uptake is stated for")
TEMPERATURE_Q10 = Constant(
    2.0, "1", "from memory: growth about doubles per 10 K up to some 28 degC", 1.5, 2.5
)
REFERENCE_C = Constant(25.0, "degC", "the temperature the uptake is stated for")
WARMEST_C = Constant(30.0, "degC", "Mitchell & Tur 1975: Salvinia grows best at 30 degC and much less at 35")
Q10_STEP = Constant(10.0, "K", "definition of Q10")
HALF_SATURATION = Constant(
    0.10,
    "mg N/L",
    "from memory: half-saturation of ammonium uptake by aquatic plants, 5 to 30 umol/L",
    0.05,
    0.40,
)
CO2_PER_N = Constant(
    55.0,
    "mg CO2/mg N",
    "from memory: 15 g carbon per g nitrogen in aquatic plants (8 to 25), 3.66 g CO2 per g carbon",
    30.0,
    90.0,
)
DRAWDOWN = Constant(
    0.5,
    "1",
    "common practice, no source: the share of their daily CO2 that plants draw from the water's stock; "
    "animals, "
    "soil and air give the rest back while the light is on",
    0.2,
    0.9,
)
LEAST_CO2 = Constant(
    0.1, "1", "common practice, no source: plants leave at least a tenth of the morning's CO2"
)
LEAF_AREA = Constant(
    4.0, "m2/m2", "from memory: leaf surface, both sides, over the cover of a grown plant", 2.0, 8.0
)

_CLASS = {
    "floating": "floating",
    "stem": "stem",
    "rosette": "rosette",
    "bulb": "rosette",
    "carpet": "rosette",
    "epiphyte": "epiphyte",
    "moss": "epiphyte",
    "emergent-roots": "emergent",
}


def plant_class(habit: str, growth: str) -> str:
    """The class of ``UPTAKE`` that a plant belongs to."""
    found = _CLASS.get(habit, "rosette")
    fast = f"{found}-fast"
    return fast if growth == "fast" and fast in UPTAKE else found


def uptake(plants: str, cover_m2: float, level: str, hours: float, co2: bool) -> float:
    """Nitrogen that a stand takes when it lacks for nothing, mg N/day, at 25 degC.

    Parameters
    ----------
    plants : str
        A class of ``UPTAKE``.
    level : str
        Light: low, medium or high.
    hours : float
        Of light a day; uptake is taken as proportional.
    co2 : bool
        CO2 is added; floating and emergent plants take theirs from the air and gain nothing.
    """
    gain = CO2_GAIN if co2 and plants not in ("floating", "emergent") else 1
    return UPTAKE[plants] * cover_m2 * LIGHT[level] * hours / USUAL_HOURS * gain


def at_temperature(temperature_c: float) -> float:
    """Factor on an uptake stated for 25 degC."""
    return float(TEMPERATURE_Q10 ** ((min(temperature_c, WARMEST_C) - REFERENCE_C) / Q10_STEP))


def day_rise_of_pH(uptake_mg: float, volume_l: float, co2_mg_l: float, drawdown: float = DRAWDOWN) -> float:
    """How far pH rises while the plants are lit: log10 of CO2 in the morning over CO2 in the afternoon.

    At a fixed alkalinity pH follows the logarithm of CO2, so little KH (little CO2 at a given pH) and much
    growth make a large swing.

    Parameters
    ----------
    uptake_mg : float
        Nitrogen that the plants take, mg N/day; carbon goes with it.
    co2_mg_l : float
        In the morning, mg/L.
    """
    drop = uptake_mg * CO2_PER_N * drawdown / volume_l
    left = 1 - drop / co2_mg_l if co2_mg_l > 0 else 0.0  # no alkalinity, nothing to hold the pH
    return -log10(max(left, LEAST_CO2))
