"""The plan that every rule's examples start from, and how a fragment changes it."""

from __future__ import annotations

import tomllib
from copy import deepcopy
from typing import Any

#: A grown-in, planted metre tank with one quiet shoal: it trips as few rules as a plan can.
BASE = """
name = "Example"
[tank]
length = "100 cm"
width = "40 cm"
height = "40 cm"
measured = "outside"
glass = "8 mm"
fill_gap = "3 cm"
lid = true
cover = "some"
[[substrate]]
kind = "gravel"
front = "3 cm"
back = "5 cm"
[room]
low = "18 degC"
high = "25 degC"
[water]
pH = 6.9
GH = "7 dGH"
KH = "4 dKH"
nitrate = "15 mg/L"
[tap]
pH = 7.3
GH = "7 dGH"
KH = "4 dKH"
nitrate = "10 mg/L"
[heater]
power = "150 W"
setpoint = "24.5 degC"
[filter]
flow = "600 L/hour"
intake_guard = true
[[filter.media]]
kind = "ceramic rings"
volume = "2 L"
[routine]
water_change = "30 %"
every = "7 day"
conditioner = true
[[animals]]
species = "Trigonostigma heteromorpha"
count = 10
[[plants]]
species = "Cryptocoryne wendtii"
cover = "20 %"
"""


def merge(base: dict[str, Any], change: dict[str, Any]) -> dict[str, Any]:
    """``base`` with ``change`` laid over it: tables key by key, everything else (arrays too) replaced."""
    merged = deepcopy(base)
    for key, value in change.items():
        below = merged.get(key)
        if isinstance(value, dict) and isinstance(below, dict):
            merged[key] = merge(below, value)
        else:
            merged[key] = deepcopy(value)
    return merged


def example_document(fragment: str) -> dict[str, Any]:
    """A rule's example as a whole plan document: its TOML fragment laid over the base plan.

    ``without = ["heater", "water.GH"]`` at the head of a fragment takes those keys away.
    """
    change = tomllib.loads(fragment)
    gone = change.pop("without", [])
    document = merge(tomllib.loads(BASE), change)
    for path in gone:
        *tables, key = path.split(".")
        place = document
        for table in tables:
            place = place[table]
        del place[key]
    return document
