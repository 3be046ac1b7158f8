"""Two biofilter designs of the aquaculture literature, reproduced from the inputs that are printed.

Printed, and asserted as such: the load of Timmons & Ebeling's example (2000 g of feed a day at 32 % protein
make 58.9 g TAN); the areal loads that acclimated bead beds bore (180 to 360 mg/m2/day, Sandu); Greiner &
Timmons' 1.0 mm microbeads (3936 m2/m3) beside 5.1 cm plastic rings (164 m2/m3), which did 7.5 times as much
per area and so 3.2 times less per volume; and a bead maker's more than 1000 g N/m3/day above 2 mg/L.  The
media area of the first design and the TAN at which it works are not printed: they follow from those, and
only their agreement with the model is claimed.
"""

from __future__ import annotations

import pytest

from stockcheck.physics.nitrification import (
    AREAL_RATE,
    clearance,
    grain_area,
    oxygen_cap,
    steady_tan,
    through_flow,
)
from stockcheck.physics.nitrogen import tan_from_feed
from stockcheck.table.read import Table


def test_bead_bed_for_two_kilograms_of_feed() -> None:
    """Load as printed; area for the printed areal loads; TAN then stays where the linear rate holds (2.5
    mg/L)."""
    load = tan_from_feed(2000.0, 0.32)
    assert load == pytest.approx(58_900, abs=50)
    for areal_load in (180.0, 360.0):
        area = load / areal_load
        tan = steady_tan(load, clearance(area, AREAL_RATE), 0.0)
        assert tan == pytest.approx(areal_load / (1000 * AREAL_RATE))
        assert 0.2 < tan < 2.5, "Greiner & Timmons 1998: linear up to 2.5 mg/L"


def test_bead_bed_needs_its_flow_and_its_oxygen() -> None:
    """The same bed: a flow that turns over once an hour carries the load, and its oxygen suffices."""
    load = tan_from_feed(2000.0, 0.32)
    area = load / 360.0
    flow = 24 * 15_000.0
    in_flow = through_flow([clearance(area, AREAL_RATE)], flow)
    assert in_flow < clearance(area, AREAL_RATE)
    assert steady_tan(load, in_flow, 0.0) < 1.5 * steady_tan(load, clearance(area, AREAL_RATE), 0.0)
    assert oxygen_cap(flow, 8.0) > load


def test_microbeads_beside_plastic_rings() -> None:
    """Greiner & Timmons 1998: the published surfaces and areal ratio give the published volumetric ratio."""
    beads = grain_area(1.0, 0.344)
    assert beads == pytest.approx(3936, rel=0.01)
    assert beads / 164.0 / 7.5 == pytest.approx(3.2, rel=0.02)


def test_bead_makers_volumetric_rate() -> None:
    """More than 1000 g N/m3/day above 2 mg/L: the areal rate's whole interval lies above it at 2 mg/L."""
    for rate in AREAL_RATE.interval:
        grams_per_m3 = clearance(grain_area(1.0, 0.344), rate) * 2.0 / 1000
        assert grams_per_m3 > 1000


def test_ratio_of_areal_rates_fits_the_interval() -> None:
    """A spread of 7.5 between two media is more than the 4.7 of the interval: surface alone does not tell."""
    assert 7.5 > AREAL_RATE.high / AREAL_RATE.low > 3.0


@pytest.mark.parametrize(("slug", "diameter_mm", "porosity"), [("gravel", 5.0, 0.38), ("sand", 1.0, 0.40)])
def test_surfaces_of_the_table_are_those_of_grains(
    table: Table, slug: str, diameter_mm: float, porosity: float
) -> None:
    """The table's specific surface of beds is that of packed spheres, m2/m3."""
    bed = table.material("substrates", slug)
    assert bed is not None
    assert bed.properties["specific_surface_m2_m3"][1] == pytest.approx(
        grain_area(diameter_mm, porosity), rel=0.01
    )
