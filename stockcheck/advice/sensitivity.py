"""Which inputs move each axis most: what to measure or decide first."""

from __future__ import annotations

from stockcheck.facts.model import Facts

#: The figures that each axis is judged by.
JUDGED_BY: dict[str, tuple[str, ...]] = {
    "water": ("co2_mg_per_l", "kh_before_change_dkh", "gh_before_change_dgh", "heater_power_w"),
    "waste": ("tan_mg_per_l", "nh3_n_mg_per_l", "nitrate_mg_per_l"),
    "room": ("net_volume_l", "floor_cm2"),
    "breath": ("oxygen_night_mg_per_l", "oxygen_hot_night_mg_per_l", "outage_hours_to_5_mg_per_l"),
}


def moved_most_by(facts: Facts, count: int = 3) -> dict[str, list[str]]:
    """Per axis, the inputs whose own intervals account for most of its figures' intervals.

    An input's weight is its reach over the figure's whole interval, the largest over the axis's figures.
    Axes none of whose figures could be computed, or that nothing uncertain moves, are left out.
    """
    ranked = {}
    for axis, names in JUDGED_BY.items():
        weights: dict[str, float] = {}
        for figure in (facts.figures[name] for name in names if name in facts.figures):
            width = figure.interval.high - figure.interval.low
            for influence in figure.influences if width > 0 else ():
                weights[influence.name] = max(weights.get(influence.name, 0.0), influence.reach / width)
        if weights:
            ranked[axis] = sorted(weights, key=lambda name: (-weights[name], name))[:count]
    return ranked
