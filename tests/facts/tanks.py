"""Plans as text for the tests of figures and limits."""

from __future__ import annotations

from stockcheck.check import Report, check_text
from stockcheck.table.read import Table

TWO_HUNDRED_LITRES = """
[tank]
length = "100 cm"
width = "45 cm"
height = "50 cm"
measured = "inside"
lid = true
[[substrate]]
kind = "gravel"
front = "3 cm"
back = "5 cm"
"""
TWENTY_LITRES = """
[tank]
length = "40 cm"
width = "25 cm"
height = "25 cm"
measured = "inside"
"""
FIFTY_FOUR_LITRES = """
[tank]
length = "60 cm"
width = "30 cm"
height = "33 cm"
measured = "inside"
lid = true
"""
WATER = """
[water]
pH = 7.2
GH = "9 dGH"
KH = "6 dKH"
[tap]
nitrate = "10 mg/L"
GH = "9 dGH"
KH = "6 dKH"
[room]
low = "18 degC"
high = "24 degC"
"""
HEATED = """
[heater]
power = "150 W"
setpoint = "24.5 degC"
"""
EXTERNAL = """
[filter]
flow = "650 L/hour"
[[filter.media]]
kind = "foam"
volume = "0.5 L"
[[filter.media]]
kind = "ceramic rings"
volume = "1 L"
"""
INTERNAL = """
[filter]
flow = "300 L/hour"
[[filter.media]]
kind = "foam"
volume = "0.3 L"
"""
WEEKLY = """
[routine]
water_change = "30 %"
every = "7 day"
conditioner = true
"""


def animal(species: str, count: int, more: str = "") -> str:
    return f'[[animals]]\nspecies = "{species}"\ncount = {count}\n{more}\n'


QUIET = animal("Corydoras paleatus", 6) + animal("Trigonostigma espei", 12) + animal("Neocaridina davidi", 12)
PLANTED = '[[plants]]\nspecies = "Cryptocoryne wendtii"\ncover = "20 %"\n'
COMMUNITY = TWO_HUNDRED_LITRES + WATER + HEATED + EXTERNAL + WEEKLY + QUIET + PLANTED


def report(table: Table, *parts: str) -> Report:
    return check_text('name = "Test"\n' + "".join(parts), table)


def value(found: Report, name: str) -> float:
    return found.facts.figures[name].interval.value


def worst(found: Report, rule: str) -> str:
    """The level of a rule's finding; clear where it has nothing to say."""
    return next((item.level for item in found.findings if item.rule == rule), "clear")
