"""The waste axis in figures: feed, nitrogen load and removal, ammonia, nitrite, nitrate, hardness used up.

All figures are for adult animals and a grown-in filter unless their label says otherwise.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stockcheck.facts.model import Facts, Figure
from stockcheck.facts.plain import plain
from stockcheck.facts.waste_inputs import feed_material, setting_and_inputs
from stockcheck.facts.waste_model import nitrogen_flow
from stockcheck.facts.waste_steps import Chain
from stockcheck.physics.quantity import propagate

if TYPE_CHECKING:
    from stockcheck.table.read import Table


def waste_figures(facts: Facts, table: Table) -> dict[str, Figure]:
    """Every waste figure that the plan allows; none where the water volume is unknown."""
    prepared = setting_and_inputs(facts, table)
    if prepared is None:
        return {}
    setting, inputs = prepared
    results, influences = propagate(lambda values: nitrogen_flow(setting, values), inputs)
    middle = {name: interval.value for name, interval in inputs.items()}
    at_middle = {name: interval.value for name, interval in results.items()}
    chain = Chain(setting, middle, at_middle, feed_material(facts, table))
    limit = setting.tan_limit
    before = "before a change" if setting.change else "after twelve weeks without a change"
    after = "after a change" if setting.change else "at the least in twelve weeks"
    rows = [
        ("feed_g_per_day", "feed a day", "feed", "g/day", chain.feed),
        ("nitrogen_load_mg_per_day", "ammonia nitrogen from feed", "load", "mg N/day", chain.load),
        ("solids_g_per_day", "faeces and leftovers, dry", "solids", "g/day", chain.solids),
        (
            "removal_capacity_mg_per_day",
            f"removal by bacteria and plants at {plain(limit)} mg/L TAN",
            "capacity",
            "mg N/day",
            chain.capacity,
        ),
        ("plant_uptake_mg_per_day", "nitrogen that plants take", "plants", "mg N/day", chain.plants),
        ("tan_mg_per_l", "total ammonia nitrogen (TAN)", "tan", "mg/L", chain.tan),
        ("nitrite_n_mg_per_l", "nitrite nitrogen", "nitrite", "mg/L", chain.nitrite),
        ("nitrified_mg_per_day", "nitrogen that becomes nitrate", "to_nitrate", "mg N/day", chain.nitrified),
        (
            "nitrate_gain_mg_per_l_per_week",
            "nitrate gained a week",
            "gain_per_week",
            "mg/L",
            chain.gain,
        ),
        ("nitrate_mg_per_l", f"nitrate {before}", "peak", "mg/L", chain.nitrate),
        ("nitrate_trough_mg_per_l", f"nitrate {after}", "trough", "mg/L", chain.nitrate),
        ("kh_use_dkh_per_week", "carbonate hardness used up a week", "kh_use", "dKH", chain.kh),
    ]
    if setting.media:
        rows += [
            (
                "flow_cap_mg_per_day",
                f"most the filter's flow can carry at {plain(limit)} mg/L TAN",
                "flow_cap",
                "mg N/day",
                chain.flow_cap,
            ),
            (
                "oxygen_cap_mg_per_day",
                "most the oxygen in the filter's flow allows",
                "oxygen_cap",
                "mg N/day",
                chain.oxygen_cap,
            ),
        ]
    if setting.pH_known:
        rows.append(("nh3_n_mg_per_l", "un-ionised ammonia nitrogen", "nh3", "mg/L", chain.nh3))
    return {
        name: Figure(name, label, results[key], unit, influences[key], steps())
        for name, label, key, unit, steps in rows
    }
