"""The shown arithmetic: every step sourced, and the last step of a figure is the figure."""

from __future__ import annotations

from pathlib import Path

import pytest

from stockcheck.check import Report, check_file, check_text
from stockcheck.report.explain import SUBJECTS, UnknownTopic, explanation
from stockcheck.table.read import Table

#: Everything the reading room does not ask for: measured water, a target to mix to, chloramine, young fish,
#: the keeper's own feeding and a new filter.
DEMANDING = """
name = "Demanding"
[tank]
length = "60 cm"
width = "30 cm"
height = "35 cm"
glass = "6 mm"
lid = true
buckets = { count = 6, volume = "8 L" }
[room]
low = "18 degC"
high = "30 degC"
[water]
pH = 7.6
GH = "15 dGH"
KH = "9 dKH"
[tap]
GH = "16 dGH"
KH = "10 dKH"
nitrate = "20 mg/L"
chloramine = "1 mg/L"
[target]
GH = "6 dGH"
KH = "3 dKH"
[heater]
power = "50 W"
setpoint = "25 degC"
[filter]
flow = "300 L/hour"
matured = "0 day"
[[filter.media]]
kind = "foam 20 ppi"
volume = "0.5 L"
[feeding]
feed = "flake"
amount = "0.2 g/day"
[routine]
water_change = "25 %"
every = "14 day"
[[animals]]
species = "neon tetra"
count = 10
stage = "juvenile"
[[plants]]
species = "Java moss"
cover = "10 %"
"""


@pytest.fixture(scope="module", params=["reading room", "demanding"])
def report(request: pytest.FixtureRequest, table: Table, data_folder: Path) -> Report:
    if request.param == "demanding":
        return check_text(DEMANDING, table)
    return check_file(data_folder / "plans" / "reading-room.toml", table)


@pytest.mark.parametrize("subject", SUBJECTS)
def test_every_step_has_a_formula_and_a_source(report: Report, subject: str) -> None:
    told = explanation(report, subject)
    assert told.figures
    for figure in told.figures:
        assert figure.steps, figure.name
        for step in figure.steps:
            assert step.formula and step.source, (figure.name, step.name)


def test_every_figure_belongs_to_a_subject_and_ends_in_its_own_value(report: Report) -> None:
    listed = {name for names in SUBJECTS.values() for name in names}
    assert set(report.facts.figures) <= listed
    for name, figure in report.facts.figures.items():
        values = [step.value for step in figure.steps]
        assert any(value == pytest.approx(figure.interval.value, rel=1e-6) for value in values), name


def test_limits_are_in_order_of_how_near_they_are(report: Report) -> None:
    told = explanation(report, "limits").limits
    animals = [limit.animals for limit in told if limit.animals is not None]
    assert len(animals) >= 4
    assert animals == sorted(animals)


def test_a_topic_that_there_is_not_names_those_there_are(report: Report) -> None:
    with pytest.raises(UnknownTopic, match="waste"):
        explanation(report, "nonsense")


def test_company_shows_the_parts_of_a_pressure(table: Table, data_folder: Path) -> None:
    hall = check_file(data_folder / "plans" / "bachelor-hall.toml", table)
    (rivalry,) = [f for f in explanation(hall, "company").figures if f.name.startswith("male_rivalry")]
    assert len(rivalry.steps) >= 4
    assert all(step.source for step in rivalry.steps)
    assert rivalry.interval.low < rivalry.interval.value < rivalry.interval.high
