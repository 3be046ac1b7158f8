"""What every experienced keeper knows, asked of the shipped table through the whole check.

Common practice, no source.
"""

from __future__ import annotations

import pytest

from stockcheck.advice.setpoint import setpoint_of_species
from stockcheck.check import Report, check_text
from stockcheck.rules.core import LEVELS
from stockcheck.table.read import Table

METRE = 'length = "100 cm"\nwidth = "40 cm"\nheight = "40 cm"\nglass = "8 mm"\nlid = true\n'
FORTY_LITRES = 'length = "45 cm"\nwidth = "30 cm"\nheight = "30 cm"\nmeasured = "inside"\nlid = true\n'
TWO_HUNDRED = 'length = "100 cm"\nwidth = "45 cm"\nheight = "50 cm"\nmeasured = "inside"\nlid = true\n'


def animal(species: str, number: int, key: str = "count") -> str:
    return f'[[animals]]\nspecies = "{species}"\n{key} = {number}\n'


FIGHTERS = animal("Betta splendens", 2, "males")
BACHELOR_GUPPIES = animal("Poecilia reticulata", 10, "males")
QUIET = (
    animal("Corydoras paleatus", 6) + animal("Trigonostigma hengeli", 12) + animal("Neocaridina davidi", 12)
)


def checked(
    table: Table,
    tank: str,
    animals: str,
    cover: str = "some",
    ph: float = 7.2,
    gh: int = 10,
    setpoint: float = 24,
    salt: str = "",
) -> Report:
    return check_text(
        f"""
name = "Trade sense"
[tank]
{tank}cover = "{cover}"
[[substrate]]
kind = "sand"
front = "3 cm"
back = "5 cm"
[room]
low = "18 degC"
high = "24 degC"
[water]
pH = {ph}
GH = "{gh} dGH"
KH = "5 dKH"
{salt}[tap]
nitrate = "10 mg/L"
[heater]
power = "150 W"
setpoint = "{setpoint} degC"
[filter]
flow = "600 L/hour"
intake_guard = true
[[filter.media]]
kind = "ceramic rings"
volume = "1 L"
[[filter.media]]
kind = "foam 20 ppi"
volume = "1 L"
[routine]
water_change = "30 %"
every = "7 day"
conditioner = true
{animals}
[[plants]]
species = "Cryptocoryne wendtii"
cover = "25 %"
[[plants]]
species = "Vallisneria spiralis"
cover = "20 %"
""",
        table,
    )


def worst(report: Report, axis: str) -> str:
    levels = [finding.level for finding in report.findings if finding.axis == axis]
    return max(levels, key=LEVELS.index, default="clear")


def at_least(level: str, wanted: str) -> bool:
    return LEVELS.index(level) >= LEVELS.index(wanted)


def told(report: Report) -> str:
    return "\n".join(f"{finding.level} {finding.rule}: {finding.message}" for finding in report.findings)


def test_two_male_fighting_fish_are_a_stop(table: Table) -> None:
    report = checked(table, METRE, FIGHTERS, cover="dense", ph=7, setpoint=26)
    assert worst(report, "company") == "stop", told(report)


def test_all_male_guppies_in_a_planted_metre_are_at_most_watch(table: Table) -> None:
    report = checked(table, METRE, BACHELOR_GUPPIES, cover="dense", gh=12)
    assert report.verdict in ("clear", "watch"), told(report)


def test_the_same_guppies_in_a_bare_forty_litres_need_a_fix(table: Table) -> None:
    report = checked(table, FORTY_LITRES, BACHELOR_GUPPIES, cover="open", gh=12)
    assert at_least(worst(report, "company"), "fix"), told(report)


def test_an_oscar_with_neon_tetras_is_a_stop(table: Table) -> None:
    animals = animal("Astronotus ocellatus", 1) + animal("Paracheirodon innesi", 10)
    report = checked(table, TWO_HUNDRED, animals, setpoint=25)
    assert worst(report, "company") == "stop", told(report)


def test_cherry_shrimp_with_a_pea_puffer_need_a_fix(table: Table) -> None:
    animals = animal("Carinotetraodon travancoricus", 1) + animal("Neocaridina davidi", 12)
    report = checked(table, METRE, animals, cover="dense", setpoint=25)
    assert at_least(worst(report, "company"), "fix"), told(report)


def test_a_quiet_community_in_two_hundred_litres_holds(table: Table) -> None:
    report = checked(table, TWO_HUNDRED, QUIET, ph=7, gh=7, setpoint=23.5)
    assert report.verdict in ("clear", "watch"), told(report)


@pytest.mark.parametrize("prefer", ["coolest", "cooler", "middle", "warmest"])
def test_goldfish_and_discus_share_no_band(table: Table, prefer: str) -> None:
    taxa = [
        table.species(table.find(name)[0].slug)
        for name in ("Carassius auratus", "Symphysodon aequifasciatus")
    ]
    answer = setpoint_of_species(taxa, prefer=prefer, swing_c=0.5, step_c=0.5)
    assert answer.value_c is None


@pytest.mark.parametrize(
    ("conductivity", "level"), [("600 uS/cm", "clear"), ("5000 uS/cm", "fix"), ("25000 uS/cm", "stop")]
)
def test_tetras_do_not_live_in_salt(table: Table, conductivity: str, level: str) -> None:
    salt = f'conductivity = "{conductivity}"\n'
    report = checked(table, METRE, animal("Paracheirodon innesi", 10), ph=6.8, gh=7, salt=salt)
    found = [finding.level for finding in report.findings if finding.rule == "water/brackish"]
    assert found == ([] if level == "clear" else [level]), told(report)
