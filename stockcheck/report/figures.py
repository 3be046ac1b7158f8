"""The figures a keeper reads first, and why one of them is missing."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from stockcheck.language import say

if TYPE_CHECKING:
    from stockcheck.check import Report
    from stockcheck.facts.model import Figure

#: Name, words and unit; the others stay in JSON and `explain`.
_FIRST = (
    ("net_volume_l", say("net water volume"), "L"),
    ("filled_mass_kg", say("mass of the filled tank"), "kg"),
    ("feed_g_per_day", say("feed a day"), "g/day"),
    ("nitrogen_load_mg_per_day", say("ammonia nitrogen from feed"), "mg N/day"),
    ("removal_capacity_mg_per_day", say("removal by bacteria and plants"), "mg N/day"),
    ("tan_mg_per_l", say("total ammonia nitrogen (TAN)"), "mg/L"),
    ("nh3_n_mg_per_l", say("un-ionised ammonia nitrogen"), "mg/L"),
    ("nitrate_mg_per_l", say("nitrate"), "mg/L"),
    ("oxygen_night_mg_per_l", say("oxygen at the end of the night"), "mg/L"),
    ("heater_power_w", say("heater power needed"), "W"),
)
#: Shown where the plan asks for them.
_IF_ASKED = (
    "mix_pure_l_per_change",
    "mix_tap_l_per_change",
    "gh_mineral_g_per_change",
    "kh_mineral_g_per_change",
    "thiosulfate_mg_per_change",
)


class FirstFigure(NamedTuple):
    """One of the first figures; where the plan does not allow it, ``missing`` says so."""

    name: str
    label: str
    unit: str
    figure: Figure | None
    missing: str = ""


def first_figures(report: Report) -> list[FirstFigure]:
    """The figures that every report has, computed or not, then those that this plan asks for."""
    figures = report.facts.figures
    shown = []
    for name, label, unit in _FIRST:
        if figure := figures.get(name):
            shown.append(FirstFigure(name, figure.label, figure.unit, figure))
        elif name == "heater_power_w" and report.facts.plan.heater is None:
            shown.append(FirstFigure(name, label, unit, None, say("none: there is no heater")))
        else:
            shown.append(
                FirstFigure(name, label, unit, None, say("unknown: the findings say what is missing"))
            )
    asked = [figures[name] for name in _IF_ASKED if name in figures]
    return shown + [FirstFigure(figure.name, figure.label, figure.unit, figure) for figure in asked]
