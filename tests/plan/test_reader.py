"""The plan file: what is read of a good one, and what is said of a bad one, with its place."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockcheck.plan.faults import Fault, PlanError
from stockcheck.plan.reader import LARGEST_BYTES, read_document, read_plan, read_text
from stockcheck.plan.schema import SECTIONS

GOOD = """\
name = "Small"
[tank]
length = "60 cm"
width = "12 inch"
height = "36 cm"
glass = "5 mm"
[water]
pH = 7
GH = "214 mg/L"
[heater]
power = "50 W"
setpoint = "73 degF"
swing = "1 degF"
[filter]
flow = "80 gallon/hour"
seeded = "25 %"
matured = "2 week"
[[filter.media]]
kind = "ceramic rings"
volume = "0.5 L"
[[animals]]
species = "guppy"
males = 2
females = 4
[[plants]]
species = "Java moss"
cover = "15 %"
"""


def faults_of(text: str) -> list[Fault]:
    return read_text(text, "small.toml").faults


def changed(old: str, new: str) -> str:
    assert old in GOOD
    return GOOD.replace(old, new)


def test_a_good_plan_is_read_into_the_units_of_the_model() -> None:
    reading = read_text(GOOD, "small.toml")
    assert reading.faults == []
    plan = reading.plan
    assert plan is not None
    assert (plan.name, plan.path) == ("Small", "small.toml")
    assert plan.tank.width_cm == pytest.approx(30.48)
    assert plan.tank.glass_mm == 5
    assert plan.water.pH == 7.0
    assert plan.water.GH_dgh == pytest.approx(11.99, abs=0.01)
    assert plan.heater is not None
    assert plan.heater.setpoint_c == pytest.approx(22.78, abs=0.01)
    assert plan.heater.swing_c == pytest.approx(0.556, abs=0.001)
    assert plan.filter is not None
    assert plan.filter.flow_l_h == pytest.approx(302.8, abs=0.1)
    assert (plan.filter.seeded, plan.filter.matured_days) == (0.25, 14)
    assert plan.filter.media[0].volume_l == 0.5
    (guppies,) = plan.animals
    assert (guppies.males, guppies.females, guppies.count, guppies.total) == (2, 4, None, 6)
    assert guppies.where == "animals[1]"
    assert plan.plants[0].cover == 0.15


def test_everything_a_plan_can_say() -> None:
    reading = read_text(
        """
air_stone = true
[tank]
water_volume = "187 L"
buckets = { count = 21, volume = "9 L" }
fill = { rate = "6 L/minute", time = "28 minute" }
equipment = "1 L"
caves = 3
brace = "euro"
[[substrate]]
kind = "sand"
front = "3 cm"
[[substrate]]
kind = "planted soil"
front = "4 cm"
middle = "5 cm"
back = "8 cm"
wall = "20 cm"
[[hardscape]]
kind = "slate"
size = ["20 cm", "12 cm", "10 cm"]
count = 2
[room]
low = "18 degC"
high = "80 °F"
humidity = "60 %"
[tap]
nitrite = "0.1 mg/L"
ammonia = "0.5 mg/L as NH4"
chlorine = "0.5 mg/L"
conductivity = "400 µS/cm"
humic = true
[target]
KH = "4 dKH"
[light]
hours = "7.5 hour"
co2 = true
level = "High"
[feeding]
feed = "granules"
amount = "1.5 g/day"
[routine]
water_change = "30 %"
every = "1 week"
top_up = "pure"
[[animals]]
species = "neon tetra"
count = 10
stage = "juvenile"
length = "1.5 cm"
raised_together = true
"""
    )
    assert reading.faults == []
    plan = reading.plan
    assert plan is not None
    assert plan.air_stone and plan.heater is None and plan.filter is None
    assert plan.tank.buckets == (21, 9.0)
    assert plan.tank.fill == (6.0, 28.0)
    assert [layer.back_cm for layer in plan.tank.substrate] == [3.0, 8.0]
    assert plan.tank.hardscape[0].size_cm == (20.0, 12.0, 10.0)
    assert plan.tap.nitrite_n_mg_l == pytest.approx(0.0304, abs=1e-4)
    assert plan.tap.tan_mg_l == pytest.approx(0.388, abs=1e-3)
    assert (plan.light.hours, plan.light.level, plan.light.co2) == (7.5, "high", True)
    assert plan.feeding.g_per_day == 1.5
    assert plan.animals[0].length_mm == 15.0
    assert plan.animals[0].raised_together


@pytest.mark.parametrize(
    ("text", "line", "key", "problem", "remedy"),
    [
        (changed('"60 cm"', "60"), 3, "tank.length", "bare number", "60 cm"),
        (changed('"60 cm"', '"60"'), 3, "tank.length", "no unit", "inch"),
        (changed('"60 cm"', '"60 L"'), 3, "tank.length", "no unit of length", "cm"),
        (changed('"60 cm"', '"60 furlong"'), 3, "tank.length", "not a known unit", "cm"),
        (changed('"60 cm"', '"0 cm"'), 3, "tank.length", "not above zero", "2000 cm"),
        (changed('"60 cm"', '"-60 cm"'), 3, "tank.length", "not above zero", "2000 cm"),
        (changed('"60 cm"', '"600 m"'), 3, "tank.length", "out of bounds", "5 to 2000 cm"),
        (changed('"60 cm"', '"nan cm"'), 3, "tank.length", "not a finite", "cm"),
        (changed('"60 cm"', '"inf cm"'), 3, "tank.length", "not a finite", "cm"),
        (changed('"60 cm"', "inf"), 3, "tank.length", "bare number", "cm"),
        (changed('"60 cm"', "true"), 3, "tank.length", "not a quantity", "cm"),
        (changed('"60 cm"', '["60 cm"]'), 3, "tank.length", "not a quantity", "cm"),
        (changed("glass", "glas"), 6, "tank.glas", "no key", "glass"),
        (changed("pH = 7\n", 'pH = "7"\n'), 8, "water.pH", "not a number", "pH = 7.2"),
        (changed("pH = 7\n", "pH = nan\n"), 8, "water.pH", "out of bounds", "3 to 11"),
        (changed("pH = 7\n", "pH = 70\n"), 8, "water.pH", "out of bounds", "3 to 11"),
        (changed("pH = 7\n", "pH = true\n"), 8, "water.pH", "not a number", "plain number"),
        (changed("pH = 7\n", "setpoint = 24\n"), 8, "water.setpoint", "no key", "[heater]"),
        (changed("males = 2", "males = 1000000000"), 23, "animals[1].males", "out of bounds", "5000"),
        (changed("males = 2", "males = -1"), 23, "animals[1].males", "out of bounds", "0"),
        (changed("males = 2", "males = true"), 23, "animals[1].males", "whole number", "males = 6"),
        (changed("males = 2", "males = 2.5"), 23, "animals[1].males", "whole number", "males = 6"),
        (changed("males = 2\nfemales = 4", "count = 0"), 23, "animals[1].count", "out of bounds", "1 to"),
        (changed("males = 2\nfemales = 4", "males = 0"), 21, "animals[1]", "no animals", "how many"),
        (changed("males = 2\nfemales = 4", ""), 21, "animals[1]", "how many", "count"),
        (changed("males = 2", "count = 2"), 23, "animals[1].count", "beside", "two entries"),
        (changed('species = "guppy"\n', ""), 21, "animals[1]", "species is missing", "name"),
        (changed('"guppy"', "7"), 22, "animals[1].species", "not a name", "quotes"),
        (changed('"15 %"', "0.15"), 27, "plants[1].cover", "bare number", "%"),
        (changed('"15 %"', '"150 %"'), 27, "plants[1].cover", "out of bounds", "0 to 100 %"),
        (changed("73 degF", "-300 degF"), 12, "heater.setpoint", "out of bounds", "5 to 45 degC"),
        (changed('volume = "0.5 L"\n', ""), 18, "filter.media[1]", "neither volume nor mass", "volume"),
        (changed('volume = "0.5 L"', 'volume = "0.5"'), 20, "filter.media[1].volume", "no unit", "as"),
        (changed("pH = 7", 'pH = "sour"'), 8, "water.pH", "number", "plain number"),
        (changed('glass = "5 mm"', 'measured = "both"'), 6, "tank.measured", "not one of", '"inside"'),
        (changed('glass = "5 mm"', 'lid = "yes"'), 6, "tank.lid", "neither true nor false", "quotes"),
        (changed('glass = "5 mm"', 'water_volume = "500 L"'), 6, "tank.water_volume", "500 L", "measured"),
        (changed('glass = "5 mm"', 'fill_gap = "40 cm"'), 6, "tank.fill_gap", "below the bottom", "rim"),
        (changed('glass = "5 mm"', "buckets = { count = 3 }"), 6, "tank.buckets", "volume", "9 L"),
        (changed('width = "12 inch"\n', ""), 2, "tank", "width is missing", "water_volume"),
        (changed("[water]", "[watre]"), 7, "watre", "no key", "water"),
        (changed("[[plants]]", "[plants]"), 25, "plants", "list of sections", "[[plants]]"),
        (changed("[heater]", "[[heater]]"), 10, "heater", "section is expected", "[heater]"),
        (changed("[tank]", "[tank"), 2, "", "not valid TOML", "[tank]"),
        (changed('"Small"', '"Small'), 1, "", "not valid TOML", "key ="),
        (changed("[water]", 'width = "3 cm"\n[water]'), 7, "", "not valid TOML", "key ="),
    ],
)
def test_one_fault_and_its_place(text: str, line: int, key: str, problem: str, remedy: str) -> None:
    (fault,) = faults_of(text)
    assert (fault.line, fault.key) == (line, key)
    assert problem in fault.problem
    assert remedy in fault.remedy
    assert fault.remedy.endswith((".", "?"))
    assert str(fault).startswith(f"small.toml:{line}: ")


def test_all_faults_at_once_in_the_order_of_the_file() -> None:
    text = GOOD.replace('"60 cm"', "60").replace("pH = 7\n", "pH = 99\n").replace("males = 2", "males = 1.5")
    found = faults_of(text)
    assert [fault.line for fault in found] == [3, 8, 23]
    told = str(PlanError(list(reversed(found)))).splitlines()
    assert [line.split(":")[1] for line in told] == ["3", "8", "23"]


def test_a_plan_without_animals() -> None:
    without = GOOD[: GOOD.index("[[animals]]")]
    (fault,) = faults_of(without)
    assert "nothing in [[animals]]" in fault.problem
    (fault,) = faults_of("animals = []\n" + without)
    assert "nothing in [[animals]]" in fault.problem


def test_a_plan_without_a_tank() -> None:
    (fault,) = faults_of('[[animals]]\nspecies = "guppy"\nmales = 1\n')
    assert "no [tank]" in fault.problem


def test_the_rest_of_a_faulty_plan_is_there_for_further_checks() -> None:
    plan = read_text(changed('"60 cm"', "60")).plan
    assert plan is not None
    assert plan.animals[0].species == "guppy"


@pytest.mark.parametrize("text", ["", " \n\t\n", "# only a comment\n"])
def test_an_empty_file(text: str) -> None:
    found = faults_of(text)
    assert found
    assert "empty" in found[0].problem or "no [tank]" in found[0].problem


def test_files_that_are_none(tmp_path: Path) -> None:
    def only_fault(path: Path) -> str:
        reading = read_plan(path)
        assert reading.plan is None
        (fault,) = reading.faults
        return str(fault)

    assert "no such file" in only_fault(tmp_path / "none.toml")
    assert "folder" in only_fault(tmp_path)
    binary = tmp_path / "binary.toml"
    binary.write_bytes(bytes(range(256)) * 4)
    assert "not a text file" in only_fault(binary)
    latin = tmp_path / "latin.toml"
    latin.write_bytes(b'# one\nname = "caf\xe9"\n')
    assert "UTF-8 text (line 2)" in only_fault(latin)
    large = tmp_path / "large.toml"
    with large.open("wb") as file:
        file.truncate(50_000_000)
    assert "larger than 1 MB" in only_fault(large)
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert "not a regular file" in only_fault(pipe)
    empty = tmp_path / "empty.toml"
    empty.touch()
    assert "empty" in only_fault(empty)


def test_a_file_with_a_byte_order_mark_is_read(tmp_path: Path) -> None:
    path = tmp_path / "bom.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.encode())
    assert read_plan(path).faults == []


@pytest.mark.parametrize(
    "text", ["x=" + "[" * 5000, "x=" + "9" * 5000, "[" + "a." * 3000 + "b]", "x" * (LARGEST_BYTES + 1)]
)
def test_hostile_texts_are_faults(text: str) -> None:
    reading = read_text(text)
    assert reading.faults


@given(st.text(max_size=200))
def test_no_text_raises(text: str) -> None:
    read_text(text)


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["length", "species", "count", "males", "media", "kind", "pH"]), inner, max_size=4
        )
    ),
    max_leaves=12,
)


@given(
    st.dictionaries(
        st.sampled_from(sorted({s.name.split(".")[0] for s in SECTIONS.values()} - {""})), json_values
    )
)
def test_no_document_raises(document: dict[str, object]) -> None:
    """Whatever a form sends is read or faulted; without animals there is always a fault."""
    reading = read_document(document)
    assert reading.faults or (reading.plan is not None and reading.plan.animals)


def test_control_characters_and_length_of_a_value_are_tamed_in_messages() -> None:
    (fault,) = faults_of(changed('"60 cm"', '"\\u001b[31m' + "x" * 500 + '"'))
    assert "\x1b" not in str(fault)
    assert len(str(fault)) < 300


def test_line_numbers_survive_comments_strings_and_inline_tables() -> None:
    text = '''# a comment with = and [brackets]
name = """two
lines = "here" [tank]
"""
[tank]   # trailing
"length" = "60 cm"   # = "no"
width = "30 cm"
height = 30
buckets = {
  count = 3, volume = "9 L" }
[[animals]]
species = "a # b"
count = 1
[[animals]]

species = "c"
count = 0
'''.replace("{\n  ", "{ ")
    found = {fault.key: fault.line for fault in faults_of(text)}
    assert found == {"tank.height": 8, "animals[2].count": 16}


def test_every_section_and_key_has_help() -> None:
    for section in SECTIONS.values():
        assert section.help
        for key in section.keys:
            assert key.help and (key.required or key.default), key.name
            assert key.kind != "quantity" or (key.dimension is not None and key.low < key.high)
