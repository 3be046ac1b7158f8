"""The waste axis in figures: feed, nitrogen load and removal, ammonia, nitrite, nitrate, hardness used up.

All figures are for adult animals and a grown-in filter unless their label says otherwise.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING

from stockcheck.facts.growth import growth_figures
from stockcheck.facts.model import Facts, Figure
from stockcheck.facts.plain import plain
from stockcheck.facts.waste_inputs import feed_material, setting_and_inputs
from stockcheck.facts.waste_model import Setting, nitrogen_flow
from stockcheck.facts.waste_startup import is_grown_in, startup_figures
from stockcheck.facts.waste_steps import Chain
from stockcheck.language import say
from stockcheck.physics.quantity import propagate

if TYPE_CHECKING:
    from stockcheck.table.read import Table

#: Figure, label, result of the model, unit, method of ``Chain`` that writes its steps.
_ROWS = (
    ("feed_g_per_day", say("feed a day"), "feed", "g/day", Chain.feed),
    ("ration_g_per_day", say("feed that these animals usually get"), "ration", "g/day", Chain.ration),
    ("nitrogen_load_mg_per_day", say("ammonia nitrogen from feed"), "load", "mg N/day", Chain.load),
    ("nitrogen_load_now_mg_per_day", say("the same today"), "load_now", "mg N/day", Chain.load_now),
    ("solids_g_per_day", say("faeces and leftovers, dry"), "solids", "g/day", Chain.solids),
    (
        "removal_capacity_mg_per_day",
        say("removal by bacteria and plants at {limit} mg/L TAN"),
        "capacity",
        "mg N/day",
        Chain.capacity,
    ),
    (
        "flow_cap_mg_per_day",
        say("most that the filter's flow can carry at {limit} mg/L TAN"),
        "flow_cap",
        "mg N/day",
        Chain.flow_cap,
    ),
    (
        "oxygen_cap_mg_per_day",
        say("most that the oxygen in the filter's flow allows"),
        "oxygen_cap",
        "mg N/day",
        Chain.oxygen_cap,
    ),
    ("plant_uptake_mg_per_day", say("nitrogen that plants take"), "plants", "mg N/day", Chain.plants),
    ("tan_mg_per_l", say("total ammonia nitrogen (TAN){grown}"), "tan", "mg/L", Chain.tan),
    ("nh3_n_mg_per_l", say("un-ionised ammonia nitrogen{grown}"), "nh3", "mg/L", Chain.nh3),
    ("nitrite_n_mg_per_l", say("nitrite nitrogen{grown}"), "nitrite", "mg/L", Chain.nitrite),
    (
        "nitrogen_released_mg_per_day",
        say("nitrogen set free in the long run"),
        "released",
        "mg N/day",
        Chain.released,
    ),
    ("nitrified_mg_per_day", say("nitrogen that becomes nitrate"), "to_nitrate", "mg N/day", Chain.nitrified),
    ("nitrate_gain_mg_per_l_per_week", say("nitrate gained a week"), "gain_per_week", "mg/L", Chain.gain),
    ("nitrate_mg_per_l", say("nitrate {peak}"), "peak", "mg/L", Chain.nitrate),
    ("nitrate_trough_mg_per_l", say("nitrate {trough}"), "trough", "mg/L", Chain.nitrate),
    ("kh_use_dkh_per_week", say("carbonate hardness used up a week"), "kh_use", "dKH", Chain.kh),
)


def waste_figures(facts: Facts, table: Table) -> dict[str, Figure]:
    """Every waste figure that the plan allows; none where the water volume is unknown."""
    prepared = setting_and_inputs(facts, table)
    if prepared is None:
        return {}
    setting, inputs = prepared
    middle = {name: interval.value for name, interval in inputs.items()}
    flow = nitrogen_flow(setting, middle)

    def shown(values: Mapping[str, float]) -> dict[str, float]:
        moved = nitrogen_flow(setting, values)
        return {key: moved[key] for _, _, key, _, _ in _ROWS if key in moved}

    results, influences = propagate(shown, inputs)
    chain = Chain(setting, middle, flow, feed_material(facts, table))
    words = _words(facts, setting)
    figures = {
        name: Figure(
            name, label.format_map(words), results[key], unit, influences[key], partial(steps, chain)
        )
        for name, label, key, unit, steps in _ROWS
        if key in results
    }
    return figures | growth_figures(facts) | startup_figures(facts, setting, flow, results)


def _words(facts: Facts, setting: Setting) -> dict[str, str]:
    """What the labels of this plan's figures say."""
    if setting.change > 0:
        peak, trough = say("at its highest between changes"), say("at its lowest between changes")
    else:
        peak, trough = say("at its highest in twelve weeks without a change"), say("at its lowest in them")
    grown = "" if is_grown_in(facts) else say(", once the filter is grown in")
    return {"limit": plain(setting.tan_limit), "peak": peak, "trough": trough, "grown": grown}
