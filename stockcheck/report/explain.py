"""The arithmetic behind figures, step by step, with this plan's own numbers."""

from __future__ import annotations

from dataclasses import asdict, dataclass, field
from typing import Any

from stockcheck.advice.company_figures import company_figures
from stockcheck.advice.ladder import Limit
from stockcheck.check import Report
from stockcheck.facts.model import Figure
from stockcheck.language import say

#: Subjects a keeper asks for, each with the figures that answer it, in order of the argument.
SUBJECTS: dict[str, tuple[str, ...]] = {
    "volume": (
        "gross_volume_l",
        "open_share",
        "geometry_volume_l",
        "net_volume_l",
        "volume_difference_l",
        "water_height_cm",
        "floor_cm2",
        "surface_cm2",
        "filled_mass_kg",
        "floor_load_kn_m2",
        "glass_mm",
        "glass_safety_factor",
    ),
    "waste": (
        "feed_g_per_day",
        "ration_g_per_day",
        "nitrogen_load_mg_per_day",
        "nitrogen_load_now_mg_per_day",
        "months_to_adult_size",
        "solids_g_per_day",
        "removal_capacity_mg_per_day",
        "flow_cap_mg_per_day",
        "oxygen_cap_mg_per_day",
        "tan_mg_per_l",
        "nh3_n_mg_per_l",
        "nitrite_n_mg_per_l",
        "plant_uptake_mg_per_day",
        "nitrogen_released_mg_per_day",
        "nitrified_mg_per_day",
        "nitrate_gain_mg_per_l_per_week",
        "nitrate_mg_per_l",
        "nitrate_trough_mg_per_l",
        "kh_use_dkh_per_week",
        "grown_in_share",
        "days_to_grow_in",
        "tan_peak_mg_per_l",
        "nh3_n_peak_mg_per_l",
        "nitrite_n_peak_mg_per_l",
        "tan_in_a_month_mg_per_l",
        "nitrite_n_in_a_month_mg_per_l",
    ),
    "breath": (
        "oxygen_saturation_mg_per_l",
        "oxygen_uptake_mg_per_h",
        "oxygen_transfer_l_per_h",
        "oxygen_evening_mg_per_l",
        "oxygen_night_mg_per_l",
        "oxygen_hot_night_mg_per_l",
        "oxygen_steady_mg_per_l",
        "outage_hours_to_5_mg_per_l",
        "outage_hours_to_3_mg_per_l",
    ),
    "heat": (
        "heat_loss_w_per_k",
        "heater_power_w",
        "heating_kwh_per_month",
        "full_power_temperature_c",
        "stuck_on_temperature_c",
        "stuck_on_of_two_temperature_c",
        "stuck_on_hours",
        "failed_temperature_c",
        "failed_hours",
        "evaporation_l_per_day",
    ),
    "water": (
        "co2_mg_per_l",
        "standing_ph",
        "kh_before_change_dkh",
        "kh_weeks_without_change",
        "gh_gain_dgh_per_week",
        "gh_before_change_dgh",
        "conductivity_estimate_us_cm",
        "mix_pure_l_per_change",
        "mix_tap_l_per_change",
        "gh_mineral_g_per_change",
        "kh_mineral_g_per_change",
        "chlorine_after_change_mg_per_l",
        "thiosulfate_mg_per_change",
        "chloramine_tan_mg_per_l",
    ),
}

COMPANY, LIMITS = "company", "limits"
TOPICS = (*SUBJECTS, COMPANY, LIMITS)


class UnknownTopic(ValueError):
    """Raised where neither a subject nor a figure of this plan has that name."""


@dataclass(frozen=True, slots=True)
class Explanation:
    """The figures that answer one question about one plan."""

    topic: str
    plan: str
    figures: list[Figure] = field(default_factory=list)
    limits: list[Limit] = field(default_factory=list)

    def document(self) -> dict[str, Any]:
        return {
            "schema": "stockcheck/explanation/1",
            "plan": self.plan,
            "topic": self.topic,
            "figures": [
                {
                    "name": figure.name,
                    "label": figure.label,
                    "unit": figure.unit,
                    **figure.interval._asdict(),
                    "steps": [step._asdict() for step in figure.steps],
                    "moved_most_by": [
                        {"input": item.name, "at_its_low": item.down, "at_its_high": item.up}
                        for item in figure.influences[:3]
                    ],
                }
                for figure in self.figures
            ],
            "limits": [asdict(limit) for limit in self.limits],
        }


def explanation(report: Report, topic: str) -> Explanation:
    """The figures behind a subject (``waste``), one figure by its name, or the ``limits`` in order.

    Raises
    ------
    UnknownTopic
        With the topics that there are.
    """
    figures = report.facts.figures
    if topic == COMPANY:
        return Explanation(topic, report.name, company_figures(report.facts))
    if topic == LIMITS:
        return Explanation(topic, report.name, limits=report.limits)
    if topic in SUBJECTS:
        chosen = [figures[name] for name in SUBJECTS[topic] if name in figures]
        if not chosen:
            raise UnknownTopic(
                say(
                    'Nothing on "{topic}" could be computed for this plan; `check` says what is missing.',
                    topic=topic,
                )
            )
    elif topic in figures:
        chosen = [figures[topic]]
    else:
        names = ", ".join([*TOPICS, *sorted(figures)])
        raise UnknownTopic(
            say('There is no figure "{topic}" for this plan. There are: {names}.', topic=topic, names=names)
        )
    return Explanation(topic, report.name, chosen)
