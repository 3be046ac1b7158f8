"""Pictures: well-formed, said in words as well, and true to their numbers."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from stockcheck.physics.quantity import Interval
from stockcheck.report.pictures import TO_KEEP
from stockcheck.report.pictures.bands import Stated, one_band, thumbnail
from stockcheck.report.pictures.curves import nitrate_sawtooth, oxygen_night
from stockcheck.report.pictures.fields import FIELDS, WATER_FIELDS
from stockcheck.report.pictures.flow import Stream, nitrogen_flow
from stockcheck.report.pictures.marks import headroom_rule, level_mark
from stockcheck.report.pictures.overlap import Chart, Dial, common_band, overlap_panel, overlap_sheet
from stockcheck.report.pictures.scale import Scale, plain, round_step
from stockcheck.report.pictures.size import size_picture
from stockcheck.report.pictures.svg import hatching
from stockcheck.report.pictures.tank import Swimmer, TankShape, tank_view
from stockcheck.rules.core import LEVELS
from stockcheck.table.model import ANIMAL_KINDS, Band, PlantSpecies

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = '<script>alert(1)</script> & "quoted"'
TEMPERATURE = FIELDS["temperature"]


def band(low: float | None, high: float | None, field: str = "temperature") -> Band:
    return Band(field, "", low, high, low and low - 2, high and high + 2, "A", 4)


def parsed(svg: str) -> ElementTree.Element:
    """The picture as XML, after the checks that hold for every picture."""
    root = ElementTree.fromstring(svg)
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    assert root.findtext(f"{SVG}title")
    assert root.findtext(f"{SVG}desc")
    assert all("id" not in element.attrib for element in root.iter())
    assert not root.findall(f".//{SVG}script")
    return root


def taxon(common_name: str, scientific_name: str, **bands: Band) -> PlantSpecies:
    return PlantSpecies(
        common_name, scientific_name, common_name, "", "", "", "", "", "", False, None, False, False, "",
        bands=bands,
    )  # fmt: skip


TAXA = [
    taxon("guppy", "Poecilia reticulata", temperature=band(22, 27), pH=band(7, 8, "pH")),
    taxon("cherry shrimp", "Neocaridina davidi", temperature=band(19, 25)),
    taxon(HOSTILE, HOSTILE, temperature=band(21, 26)),
]
CHART = Chart(TAXA, Dial(23.5, 0.5), {"pH": (7.4, 7.4), "temperature": (18.0, 27.0)})


@pytest.mark.parametrize(
    "svg",
    [
        one_band(TEMPERATURE, band(22, 26), [Stated(20, 25, HOSTILE), Stated(None, 27, "b", True)]),
        one_band(TEMPERATURE, band(None, 26), []),
        overlap_sheet(CHART, WATER_FIELDS),
        overlap_sheet(Chart(TAXA, ink=TO_KEEP), WATER_FIELDS),
        overlap_panel(CHART, TEMPERATURE),
        nitrate_sawtooth(Interval(10, 14, 19), Interval(20, 28, 38), 7, 15),
        oxygen_night(Interval(7, 8, 9), Interval(5, 6, 7), 0.2, 5, 14),
        nitrogen_flow(180, [Stream(HOSTILE, 120), Stream("plants", 60, True)]),
        tank_view(
            TankShape(118, 48, 3, 4, 8, True, 0.4, 0.1), [Swimmer(HOSTILE, 500, 30, "fish", "x", ("upper",))]
        ),
        headroom_rule({"water": 80.0, "breath": 0.0}),
    ],
)
def test_every_picture_is_well_formed_and_described(svg: str) -> None:
    root = parsed(svg)
    assert float(root.get("width", "0")) > 0
    for element in root.iter():
        for value in element.attrib.values():
            assert "nan" not in value and "inf" not in value.split()


@pytest.mark.parametrize("kind", ANIMAL_KINDS)
@pytest.mark.parametrize("shape", ["eel-like", "elongated", "fusiform", "short-deep"])
def test_every_kind_of_animal_can_be_drawn(kind: str, shape: str) -> None:
    parsed(size_picture("it", kind, shape, 30.0, 40.0))


def test_size_needs_a_length() -> None:
    assert size_picture("it", "fish", "fusiform", None, None) == ""


def test_size_names_both_sexes_only_where_they_differ() -> None:
    assert "female 6 cm" in size_picture("guppy", "fish", "fusiform", 35.0, 60.0)
    assert "female" not in size_picture("tetra", "fish", "fusiform", 35.0, 36.0)


def test_band_lies_where_its_numbers_are() -> None:
    """The comfort bar spans the same stretch of paper as the axis numbers it stands for."""
    root = parsed(one_band(TEMPERATURE, band(20, 30), []))
    ticks = {
        t.text: float(t.get("x", "0")) for t in root.iter(f"{SVG}text") if t.get("text-anchor") == "middle"
    }
    bar = next(r for r in root.iter(f"{SVG}rect") if r.get("rx"))
    left, right = float(bar.get("x", "0")), float(bar.get("x", "0")) + float(bar.get("width", "0"))
    assert left == pytest.approx(ticks["20"], abs=0.2)
    assert right == pytest.approx(ticks["30"], abs=0.2)


def test_every_source_has_its_line() -> None:
    stated = [Stated(20 + n / 10, 25, f"source {n}") for n in range(17)]
    svg = one_band(TEMPERATURE, band(21, 25), stated)
    assert [f"source {n}:" in svg for n in range(17)] == [True] * 17


def test_common_band_and_who_limits_it() -> None:
    shared = common_band(TAXA, "temperature")
    assert shared.ends == (22, 25)
    assert (shared.low_by, shared.high_by) == ("guppy", "cherry shrimp")


def test_no_common_band_is_said() -> None:
    apart = [*TAXA, taxon("discus", "Symphysodon", temperature=band(28, 30))]
    shared = common_band(apart, "temperature")
    assert shared.span is not None and shared.span.empty
    svg = overlap_sheet(Chart(apart), [TEMPERATURE])
    assert "no common band" in svg
    assert "discus needs at least 28" in svg and "cherry shrimp at most 25" in svg


def test_a_taxon_without_figures_is_named_not_hidden() -> None:
    assert common_band(TAXA, "pH").missing == ("cherry shrimp", HOSTILE)
    assert "not known" in overlap_panel(CHART, FIELDS["pH"])


def test_nothing_from_a_name_becomes_markup() -> None:
    for svg in (
        overlap_sheet(CHART, WATER_FIELDS),
        one_band(TEMPERATURE, band(1, 2), [Stated(1, 2, HOSTILE)]),
    ):
        assert "<script" not in svg


def test_picture_to_keep_carries_its_colours() -> None:
    svg = overlap_sheet(Chart(TAXA, ink=TO_KEEP), WATER_FIELDS)
    assert "currentColor" not in svg and "var(" not in svg


def test_hatching_stays_inside_its_box() -> None:
    coordinates = re.findall(r"(-?[\d.]+) (-?[\d.]+)", hatching(10, 20, 35, 50, "black").split('"')[1])
    assert coordinates
    for x, y in coordinates:
        assert 10 <= float(x) <= 45 and 20 <= float(y) <= 70


def test_thumbnail_states_the_band_in_words_too() -> None:
    cell = thumbnail(TEMPERATURE, 22, 26, 18, 29)
    assert "22–26 °C" in cell
    ElementTree.fromstring(f"<td>{cell}</td>")


def test_marks_differ_in_shape() -> None:
    inner = {level_mark(level).split(">", 1)[1] for level in LEVELS}
    assert len(inner) == len(LEVELS)


@pytest.mark.parametrize(("span", "step"), [(24, 5), (4.5, 1), (0.9, 0.2), (200, 50)])
def test_round_steps(span: float, step: float) -> None:
    assert round_step(span, 5) == pytest.approx(step)


def test_scale_holds_what_lies_beyond() -> None:
    scale = Scale(0, 10, 100, 200)
    assert (scale(5), scale(-4), scale(99)) == (150, 100, 200)


@pytest.mark.parametrize(("value", "said"), [(7.0, "7"), (7.25, "7.2"), (0.04, "0"), (120.0, "120")])
def test_plain_numbers(value: float, said: str) -> None:
    assert plain(value) == said
