"""Un-ionised ammonia, and how much of it fish stand.

Ammonia and ammonium trade a proton with a pKa of 0.09018 + 2729.92/T (Emerson et al. 1975), so the poisonous
share grows tenfold with each unit of pH.  Concentrations are mg N/L (NH3-N, TAN as N), temperatures degC.

Limits: fitted for fresh water from 0 to 30 degC and pH 6 to 10; PHREEQC finds up to 4 % less at tap-water
ionic strength.  The 32 degC column of the printed tables stands 2 to 4.5 % above the formula in every row
and is not followed.  Thresholds differ ninefold between species of one river: the lines here are those of
sensitive tetras.
"""

from __future__ import annotations

from stockcheck.physics.quantity import Constant

_EMERSON = "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379"
PKA_OFFSET = Constant(0.09018, "1", _EMERSON)
PKA_SLOPE = Constant(2729.92, "K", _EMERSON)
KELVIN = Constant(273.15, "K", "definition of the Celsius scale")

NO3_PER_N = Constant(4.4268, "g/g", "molar masses 62.0049 and 14.0067")

NH3_AIM = Constant(
    0.02,
    "mg N/L",
    "rule of thumb in fish culture (0.02 mg/L un-ionised ammonia), basis NH3 or NH3-N not stated",
)
NH3_ACT = Constant(
    0.05,
    "mg N/L",
    "UF/IFAS FA-16: harm is expected from 0.05 mg/L; catfish show no safe level down to 0.048 (Colt & "
    "Tchobanoglous 1978)",
)
NH3_STOP = Constant(
    0.076,
    "mg N/L",
    "Souza-Bastos, Val & Wood 2017, 10.1007/s10750-015-2623-4: 96-h LC10 of the cardinal tetra, 0.78 mmol/L "
    "TAN",
)

_EPA = "EPA 2013, EPA-822-R-13-001"
CCC_SCALE = Constant(0.8876, "1", _EPA)
CCC_LOW_PH = Constant(1.1994, "1", _EPA)
CCC_HIGH_PH = Constant(0.0278, "1", _EPA)
CCC_PK = Constant(7.688, "1", _EPA)
CCC_GENUS_MEAN = Constant(2.126, "mg N/L", _EPA)
CCC_SLOPE = Constant(0.028, "1/K", _EPA)
CCC_LEAST_C = Constant(7.0, "degC", _EPA)
REFERENCE_C = Constant(20.0, "degC", _EPA)
CMC_PK = Constant(7.204, "1", _EPA)
CMC_SCALE = Constant(0.7249, "1", _EPA)
CMC_HIGH_PH = Constant(0.0114, "1", _EPA)
CMC_LOW_PH = Constant(1.6181, "1", _EPA)
CMC_MUSSEL = Constant(23.12, "mg N/L", _EPA)
CMC_SLOPE = Constant(0.036, "1/K", _EPA)
CMC_OTHER = Constant(51.93, "mg N/L", f"from memory: {_EPA}; reproduces its printed values")
CMC_SALMONID_HIGH_PH = Constant(0.275, "mg N/L", _EPA)
CMC_SALMONID_LOW_PH = Constant(39.0, "mg N/L", _EPA)
FOUR_DAY_PER_CCC = Constant(2.5, "1", f"{_EPA}: no four-day mean above 2.5 times the criterion")


def pka(temperature_c: float) -> float:
    """pKa of ammonium in fresh water, 0 to 30 degC: 0.09018 + 2729.92/T."""
    return PKA_OFFSET + PKA_SLOPE / (temperature_c + KELVIN)


def un_ionised_fraction(pH: float, temperature_c: float) -> float:
    """Share of TAN that is NH3: 1/(1 + 10^(pKa - pH)).

    Good to about 3 % at pH 6 to 10 and 0 to 30 degC, at no ionic strength; hard water has 3 to 6 % less, so
    that the formula errs on the safe side.  An error of 0.1 in pH is 25 %.
    """
    return 1 / (1 + 10 ** (pka(temperature_c) - pH))


def _pH_curve(pH: float, pk: float, high: float, low: float) -> float:
    return high / (1 + 10 ** (pk - pH)) + low / (1 + 10 ** (pH - pk))


def chronic_criterion(pH: float, temperature_c: float) -> float:
    """EPA 2013 continuous criterion (30-day mean), mg TAN-N/L.

    Set by mussels and snails; cautious for a tank of fish alone.
    """
    warmth = 10 ** (CCC_SLOPE * (REFERENCE_C - max(temperature_c, CCC_LEAST_C)))
    return CCC_SCALE * _pH_curve(pH, CCC_PK, CCC_HIGH_PH, CCC_LOW_PH) * CCC_GENUS_MEAN * warmth


def acute_criterion(pH: float, temperature_c: float, salmonids: bool = False) -> float:
    """EPA 2013 maximum criterion (one-hour mean), mg TAN-N/L."""
    shape = CMC_SCALE * _pH_curve(pH, CMC_PK, CMC_HIGH_PH, CMC_LOW_PH)
    mussels = CMC_MUSSEL * 10 ** (CMC_SLOPE * (REFERENCE_C - temperature_c))
    if not salmonids:
        return float(shape * min(CMC_OTHER, mussels))
    trout = _pH_curve(pH, CMC_PK, CMC_SALMONID_HIGH_PH, CMC_SALMONID_LOW_PH)
    return min(trout, shape * mussels)
