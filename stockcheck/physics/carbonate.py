"""Carbonate chemistry of fresh water: carbon dioxide, pH and KH hang together.

Holds while bicarbonate makes up the alkalinity.  Humic acids (peat, leaves, some wood), phosphate buffers and
borate count as KH in a test but hold no CO2, and then the figure is too high.  Concentrations are mol/L
unless named otherwise.
"""

from __future__ import annotations

from math import log10, sqrt

from stockcheck.physics.hardness import meq_from_dkh
from stockcheck.physics.quantity import Constant
from stockcheck.physics.water import KELVIN

_PB = "Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011"
#: Terms of log K = a + b T + c/T + d log T + e/T2, T in kelvin.
K1 = (
    Constant(-356.3094, "1", _PB + ", log K1"),
    Constant(-0.06091964, "1", _PB + ", log K1"),
    Constant(21834.37, "1", _PB + ", log K1"),
    Constant(126.8339, "1", _PB + ", log K1"),
    Constant(-1684915.0, "1", _PB + ", log K1"),
)
K2 = (
    Constant(-107.8871, "1", _PB + ", log K2"),
    Constant(-0.03252849, "1", _PB + ", log K2"),
    Constant(5151.79, "1", _PB + ", log K2"),
    Constant(38.92561, "1", _PB + ", log K2"),
    Constant(-563713.9, "1", _PB + ", log K2"),
)
K_HENRY = (
    Constant(108.3865, "1", _PB + ", log KH"),
    Constant(0.01985076, "1", _PB + ", log KH"),
    Constant(-6919.53, "1", _PB + ", log KH"),
    Constant(-40.45154, "1", _PB + ", log KH"),
    Constant(669365.0, "1", _PB + ", log KH"),
)
DAVIES_A = Constant(0.5085, "1", "from memory: Debye-Hueckel constant of water at 25 degC")
DAVIES_B = Constant(0.3, "1", "from memory: Davies 1962")
CO2_MOLAR_MASS = Constant(44.009, "g/mol", "IUPAC standard atomic weights, abridged")
OUTDOOR_CO2 = Constant(420.0, "uatm", "from memory: mean atmosphere in the 2020s", 410.0, 430.0)
ROOM_CO2 = Constant(700.0, "uatm", "common practice, no source: an occupied room", 450.0, 1500.0)
MICRO = Constant(1e-6, "1/u", "definition")
MILLI = Constant(1e-3, "1/m", "definition")
BASE = Constant(10.0, "1", "definition of the decimal logarithm")


def _log_constant(terms: tuple[Constant, ...], temperature_c: float) -> float:
    kelvin = temperature_c + KELVIN
    a, b, c, d, e = terms
    return a + b * kelvin + c / kelvin + d * log10(kelvin) + e / kelvin**2


def pk1(temperature_c: float) -> float:
    """pK of CO2 + H2O = H+ + HCO3- at zero ionic strength (0 to 100 degC)."""
    return -_log_constant(K1, temperature_c)


def pk2(temperature_c: float) -> float:
    """pK of HCO3- = H+ + CO3-- at zero ionic strength (0 to 100 degC)."""
    return -_log_constant(K2, temperature_c)


def co2_solubility(temperature_c: float) -> float:
    """Henry's constant of CO2, mol/L per atm."""
    return float(BASE ** _log_constant(K_HENRY, temperature_c))


def activity(ionic_strength: float, charge: int = 1) -> float:
    """Activity coefficient of an ion (Davies; up to about 0.5 mol/L)."""
    root = sqrt(ionic_strength)
    exponent = -DAVIES_A * charge**2 * (root / (1 + root) - DAVIES_B * ionic_strength)
    return float(BASE**exponent)


def bicarbonate(alkalinity: float, pH: float, temperature_c: float) -> float:
    """The bicarbonate in an alkalinity that also holds carbonate, mol/L; matters above pH 8.5 only."""
    carbonate_per_bicarbonate = BASE ** (pH - pk2(temperature_c))
    return float(alkalinity / (1 + 2 * carbonate_per_bicarbonate))


def co2_mg_per_l(kh_dkh: float, pH: float, temperature_c: float) -> float:
    """Dissolved carbon dioxide from carbonate hardness and pH, mg/L.

    The ionic strength is taken as that of the bicarbonate salts themselves; the ideal formula would be 3 to 8
    % higher.

    Parameters
    ----------
    kh_dkh : float
        Carbonate hardness, dKH, all of it carbonate.
    pH : float
    temperature_c : float
        degC.
    """
    alkalinity = meq_from_dkh(kh_dkh) * MILLI
    ions = bicarbonate(alkalinity, pH, temperature_c) * activity(alkalinity)
    return float(ions * BASE ** (pk1(temperature_c) - pH) * CO2_MOLAR_MASS / MILLI)


def ph_from_co2(kh_dkh: float, co2: float, temperature_c: float) -> float:
    """pH at which water of such KH holds so much CO2 (mg/L); :func:`co2_mg_per_l` solved for pH."""
    alkalinity = meq_from_dkh(kh_dkh) * MILLI
    first = BASE ** -pk1(temperature_c) * co2 * MILLI / CO2_MOLAR_MASS / activity(alkalinity)
    second = 2 * first * BASE ** -pk2(temperature_c)
    # alkalinity = first/H + second/H2, a quadratic in 1/H; this form of its root loses no digits
    root = sqrt(first**2 + 2 * 2 * second * alkalinity)
    return log10(2 * alkalinity / (first + root))


def co2_with_air(pressure_uatm: float, temperature_c: float) -> float:
    """Dissolved CO2 in equilibrium with air of such partial pressure, mg/L."""
    return co2_solubility(temperature_c) * pressure_uatm * MICRO * CO2_MOLAR_MASS / MILLI
