"""Un-ionised ammonia and the EPA's criteria against printed tables, and against a chemistry solver."""

from __future__ import annotations

from math import floor, log10

import phreeqpython
import pytest

from stockcheck.physics.ammonia import acute_criterion, chronic_criterion, un_ionised_fraction
from tests.reference.published import rows

FRACTIONS = rows("un_ionised_fraction")
PRINTED = [row for row in FRACTIONS if not row["set_aside_because"]]
SET_ASIDE = [row for row in FRACTIONS if row["set_aside_because"]]
EPA = rows("epa_2013")


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: row["id"])
def test_printed_table_of_un_ionised_ammonia(row: dict[str, str]) -> None:
    """Emerson et al. 1975 as printed in a veterinary textbook (also UF/IFAS FA-16, SRAC 463)."""
    fraction = un_ionised_fraction(float(row["pH"]), float(row["temperature_c"]))
    assert fraction == pytest.approx(float(row["fraction"]), abs=float(row["within"]))


@pytest.mark.parametrize("row", SET_ASIDE, ids=lambda row: row["id"])
def test_cells_set_aside_really_deviate(row: dict[str, str]) -> None:
    """The 32 degC column and one misprint: within 5 % all the same, and off by more than rounding."""
    fraction = un_ionised_fraction(float(row["pH"]), float(row["temperature_c"]))
    assert fraction == pytest.approx(float(row["fraction"]), rel=0.05)
    assert abs(fraction - float(row["fraction"])) > 0.00006


@pytest.mark.parametrize("row", EPA, ids=lambda row: row["id"])
def test_epa_2013_criteria(row: dict[str, str]) -> None:
    """EPA-822-R-13-001, through the unit tests of an agency's package and the document's summary."""
    pH, temperature = float(row["pH"]), float(row["temperature_c"])
    computed = {
        "ccc": lambda: chronic_criterion(pH, temperature),
        "cmc-salmonid": lambda: acute_criterion(pH, temperature, salmonids=True),
        "cmc-other": lambda: acute_criterion(pH, temperature),
    }[row["criterion"]]()
    printed = float(row["tan_mg_per_l"])
    if row["tolerance"].startswith("2 significant"):
        assert _two_digits(computed) == pytest.approx(printed, rel=1e-9)
    elif row["tolerance"].startswith("abs"):
        assert computed == pytest.approx(printed, abs=float(row["tolerance"].split()[1]))
    else:
        assert computed == pytest.approx(printed, rel=0.01)


def _two_digits(value: float) -> float:
    places = 1 - floor(log10(value))
    return round(value, places)


@pytest.mark.parametrize("temperature", [15.0, 20.0, 25.0, 30.0])
@pytest.mark.parametrize("pH", [7.0, 8.0, 9.0])
def test_against_phreeqc(pH: float, temperature: float) -> None:
    """PHREEQC's own constants and activities, at about 1 mmol/L: within 4 %, and never above the formula."""
    solver = phreeqpython.PhreeqPython(database="phreeqc.dat")
    water = solver.add_solution(
        {"pH": pH, "temp": temperature, "N(-3)": 0.05, "Na": 1.0, "Cl": "1.0 charge", "units": "mmol/kgw"}
    )
    species = water.species
    ammonia, ammonium = species["NH3"], species["NH4+"]
    fraction = ammonia / (ammonia + ammonium)
    formula = un_ionised_fraction(pH, temperature)
    assert fraction == pytest.approx(formula, rel=0.04)
    assert fraction < formula
