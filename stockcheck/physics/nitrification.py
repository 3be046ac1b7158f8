"""What the bacteria take: filter media, and the tank's own surfaces.

Below about 1 mg/L the areal rate is proportional to TAN (Malone & Pfeiffer 2006), so a surface clears so many
litres a day of it: a *clearance*, L/day, is areal rate x area.  Media stand in series in a plug flow, so
they never clear more than the flow, and never oxidise more than its oxygen allows; glass, gravel and leaves
work at the pace of diffusion through still water.  The steady TAN is where all of it together equals the
load, a quadratic.

Limits: the areal rate is known to a factor of two (0.15 to 0.7 m/day at 25 degC), effective surfaces of
media to as much; the oxygen and flow caps seldom bind in an aquarium.  Above 1 to 2 mg/L diffusion into the
film limits (half-order kinetics) and the linear form flatters.  Flows are L/day, areas m2, TAN mg N/L, loads
mg N/day.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import exp, inf, sqrt

from stockcheck.physics.quantity import Constant

_LINEAR = "Malone & Pfeiffer 2006 for the linear form"
AREAL_RATE = Constant(
    0.35,
    "m/day",
    f"{_LINEAR}; from memory for the size, built on 180-360 mg/m2/day that acclimated bead beds handle "
    "(Sandu)",
    0.15,
    0.70,
)
SURFACE_RATE = Constant(
    0.10,
    "m/day",
    "from memory: ammonium diffusing (1.9e-9 m2/s) through about 1 to 2 mm of still water over glass, "
    "gravel and leaves",
    0.04,
    0.25,
)
THETA = Constant(1.043, "1/K", "Zhu & Chen 2002: +4.275 % per degC, fixed film, TAN-limited")
REFERENCE_C = Constant(25.0, "degC", "the temperature the areal rates are stated for")
FIRST_MEDIUM = Constant(
    0.7,
    "1",
    "from memory: about half the rate where much organic matter settles; in the medium that the water meets "
    "first, between half and all of it",
    0.4,
    1.0,
)
NITRITE_SPEED = Constant(
    2.0,
    "1",
    "from memory: grown-in nitrite oxidisers clear nitrite about twice as fast as ammonia is cleared",
    1.0,
    4.0,
)
OXYGEN_PER_N = Constant(
    4.57, "g O2/g N", "stoichiometry, 3.43 for the ammonia step and 1.14 for the nitrite step"
)
OXYGEN_LEFT = Constant(
    2.0, "mg/L", "from memory: nitrifiers stall when the water leaving the media holds less"
)
LITRES_PER_M3 = Constant(1000.0, "L/m3", "definition of the litre")
FLOW_IN_USE = Constant(
    0.7,
    "1",
    "common practice, no source: a pump behind hoses and media moves less than its box says",
    0.45,
    1.0,
)
FLOW_CLOGGED = Constant(
    0.5, "1", "common practice, no source: what clogged media leave of the flow", 0.25, 0.8
)
OXYGEN_SHARE = Constant(
    0.85,
    "1",
    "common practice, no source: share of saturation in the water that reaches the filter",
    0.65,
    0.97,
)
BED_PER_FLOOR = Constant(
    3.0,
    "m2/m2",
    "from memory: a gravel or soil bed works like this many times its floor of smooth wall; pond rules of "
    "0.2-1 g/m2/day "
    "near 1 mg/L mean 0.2 to 1 m/day",
    1.5,
    8.0,
)
CAPACITY_TAN = Constant(
    0.25, "mg N/L", "common practice, no source: the least TAN that a common test kit shows for sure"
)
NITRITE_AIM = Constant(
    0.05, "mg N/L", "common practice, no source: half of what well-run culture stays under"
)
NITRITE_ACT = Constant(
    0.1, "mg N/L", "Boyd, Global Aquaculture Advocate: well-run culture stays under 0.1 mg/L nitrite"
)
NITRITE_STOP = Constant(
    0.5,
    "mg N/L",
    "from memory: soft water with less than 20 mg/L chloride; the guppy's 96-h LC50 is 9.2 "
    "(Dolezelova et al. 2011)",
)
CHLORIDE_PER_NITRITE = Constant(
    10.0, "1", "usual advice in fish culture: ten times as much chloride as nitrite, by mass"
)
NITRITE_WORST = Constant(
    1.8, "mg N/L", "a fifth of the guppy's 96-h LC50, 9.2 mg N/L (Dolezelova et al. 2011); chloride or not"
)
NO2_PER_N = Constant(3.2845, "g/g", "molar masses 46.0055 and 14.0067")
SPHERE = Constant(6.0, "1", "geometry: surface over volume of a sphere is 6/d")


def grain_area(diameter_mm: float, porosity: float) -> float:
    """Surface of packed grains, m2 per m3 of bed: 6 (1 - porosity)/d."""
    return SPHERE * (1 - porosity) / (diameter_mm / LITRES_PER_M3)


def at_temperature(temperature_c: float) -> float:
    """Factor on a rate stated for 25 degC: 1.043^(t - 25)."""
    return float(THETA ** (temperature_c - REFERENCE_C))


def nitrite_line(chloride_mg_l: float | None) -> float:
    """Nitrite from which fish are likely harmed, mg N/L; chloride keeps it out of the gills of most fish.

    Sunfish and bass lack the protection (Tomasso 1986).
    """
    if chloride_mg_l is None:
        return float(NITRITE_STOP)
    shielded = chloride_mg_l / CHLORIDE_PER_NITRITE / NO2_PER_N
    return max(float(NITRITE_STOP), min(shielded, float(NITRITE_WORST)))


def clearance(area_m2: float, rate_m_per_day: float) -> float:
    """Litres a day that a surface clears of TAN."""
    return area_m2 * rate_m_per_day * LITRES_PER_M3


def through_flow(clearances: Iterable[float], flow_l_per_day: float) -> float:
    """Clearance of media in series in a plug flow, L/day: Q (1 - exp(-sum kA/Q)); never more than the
    flow."""
    if flow_l_per_day <= 0:
        return 0.0
    return flow_l_per_day * (1 - exp(-sum(clearances) / flow_l_per_day))


def oxygen_cap(flow_l_per_day: float, oxygen_mg_per_l: float) -> float:
    """The most nitrogen that the oxygen in the flow lets bacteria oxidise, mg N/day."""
    return flow_l_per_day * max(0.0, oxygen_mg_per_l - OXYGEN_LEFT) / OXYGEN_PER_N


def steady_tan(
    load: float,
    filter_clearance: float,
    other_clearance: float,
    plant_uptake: float = 0.0,
    plant_half_saturation: float = 1.0,
    filter_cap: float = inf,
) -> float:
    """TAN at which removal equals load, mg N/L; infinite where nothing removes it.

    load = min(G_f C, cap) + G_o C + U C/(K + C), a quadratic in C on either side of the cap.

    Parameters
    ----------
    load : float
        mg N/day.
    filter_clearance, other_clearance : float
        Of the media in their flow, and of everything else that is proportional to TAN (surfaces, water
        changes), L/day.
    plant_uptake, plant_half_saturation : float
        Most that the plants take, mg N/day, and the TAN at which they take half, mg N/L.
    filter_cap : float
        Most that the filter can oxidise whatever the TAN, mg N/day.
    """
    uncapped = _root(load, filter_clearance + other_clearance, plant_uptake, plant_half_saturation)
    if filter_clearance * uncapped <= filter_cap:
        return uncapped
    return _root(load - filter_cap, other_clearance, plant_uptake, plant_half_saturation)


def _root(load: float, clearance_l: float, uptake: float, half: float) -> float:
    """The positive root of G C^2 + (G K + U - L) C - L K = 0."""
    if load <= 0:
        return 0.0
    if clearance_l <= 0:
        return load * half / (uptake - load) if uptake > load else inf
    linear = clearance_l * half + uptake - load
    root = sqrt(linear**2 + 2 * 2 * clearance_l * load * half)
    # the form that does not cancel
    return (root - linear) / (2 * clearance_l) if linear < 0 else 2 * load * half / (root + linear)
