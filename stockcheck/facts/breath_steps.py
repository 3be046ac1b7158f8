"""The arithmetic of the oxygen figures with one plan's own numbers."""

from __future__ import annotations

from collections.abc import Mapping

from stockcheck.facts import breath_model as b
from stockcheck.facts.model import Group, Step
from stockcheck.facts.plain import plain
from stockcheck.language import say
from stockcheck.physics import oxygen, respiration
from stockcheck.physics.quantity import Interval

BALANCE = say("oxygen balance of one mixed tank")
ARITHMETIC = "arithmetic"


def saturation_step(temperature_c: float) -> Step:
    return Step(
        say("saturation"),
        say("fresh water at {temperature_c:.1f} °C under one atmosphere", temperature_c=temperature_c),
        oxygen.saturation(temperature_c),
        "mg/L",
        oxygen.SATURATION[0].source,
    )


def breath_steps(
    setting: b.Setting, x: Mapping[str, float], groups: list[tuple[Group, Interval]]
) -> dict[str, list[Step]]:
    """Per figure, its arithmetic at the middle of every input."""
    results = b.night_and_outage(setting, x)
    uptake = _uptake_steps(setting, x, groups)
    transfer = [_transfer_step(setting, x)]
    chain = [saturation_step(setting.temperature_c), *uptake, *transfer]
    night = [*chain, *_night_steps(setting, x, setting.temperature_c)]
    steps = {
        "oxygen_uptake_mg_per_h": uptake,
        "oxygen_transfer_l_per_h": transfer,
        "oxygen_steady_mg_per_l": night[:-2],
        "oxygen_evening_mg_per_l": night[:-1],
        "oxygen_night_mg_per_l": night,
        "outage_hours_to_5_mg_per_l": _outage_steps(setting, x, oxygen.GUIDELINE, results),
        "outage_hours_to_3_mg_per_l": _outage_steps(setting, x, oxygen.DANGER, results),
    }
    if setting.hot_c is not None:
        steps["oxygen_hot_night_mg_per_l"] = _hot_steps(setting, x, setting.hot_c)
    return steps


def _uptake_steps(
    setting: b.Setting, x: Mapping[str, float], groups: list[tuple[Group, Interval]]
) -> list[Step]:
    used = b.uptakes(setting, x, setting.temperature_c)
    steps = [_group_step(group, rate, setting.temperature_c) for group, rate in groups]
    if setting.air_share:
        formula = say("air breathers take {air:.0%} of theirs from the air", air=x[b.AIR])
        source = respiration.AIR_SHARE.source
        steps.append(Step(say("all of them, from the water"), formula, used["animals"], "mg/h", source))
    cover, floor = setting.plant_cover_cm2, setting.floor_cm2
    rows = (
        (
            say("nitrification"),
            say("4.57 mg of oxygen per mg of nitrogen"),
            "bacteria",
            respiration.NITRIFICATION,
        ),
        (say("what rots"), say("0.15 g of oxygen per g of feed"), "decay", respiration.DECAY),
        (
            say("plants"),
            say(
                "{cover:.0f} cm2 of cover x {plant_mass:g} g/m2 x {plant_rate:g} mg/g/h at 25 °C",
                cover=cover,
                plant_mass=x[b.PLANT_MASS],
                plant_rate=x[b.PLANT_RATE],
            ),
            "plants",
            respiration.PLANT_RATE,
        ),
        (
            say("floor"),
            say("{floor:.0f} cm2 x {demand:g} mg/m2/h at 25 °C", floor=floor, demand=x[b.FLOOR]),
            "floor",
            respiration.FLOOR_Q10,
        ),
    )
    steps += [Step(name, formula, used[key], "mg/h", cited.source) for name, formula, key, cited in rows]
    return [*steps, Step(say("used in the dark"), say("the sum"), sum(used.values()), "mg/h", ARITHMETIC)]


def _group_step(group: Group, rate: Interval, temperature_c: float) -> Step:
    assert group.mass_g is not None
    each = rate.value / group.count if group.count else 0.0
    formula = say(
        "{count} x {each} mg/h ({mass} g each, {temperature_c:.1f} °C)",
        count=group.count,
        each=plain(each, 3),
        mass=plain(group.mass_g.value),
        temperature_c=temperature_c,
    )
    source = {
        "shrimp": respiration.SHRIMP_RATE,
        "crayfish": respiration.SHRIMP_RATE,
        "crab": respiration.SHRIMP_RATE,
        "snail": respiration.SNAIL_SHARE,
        "bivalve": respiration.SNAIL_SHARE,
    }.get(group.species.kind, respiration.FISH_INTERCEPT)
    name = group.species.common_name or group.species.scientific_name
    return Step(name, formula, rate.value, "mg/h", source.source)


def _transfer_step(setting: b.Setting, x: Mapping[str, float]) -> Step:
    stone = say(", and what the air stone stirs") if setting.stone else ""
    floaters = (
        say(", {floater_share:.0%} under floating plants", floater_share=setting.floater_share)
        if setting.floater_share
        else ""
    )
    formula = say(
        "{transfer:g} m/day at 25 °C x {surface_cm2:.0f} cm2{floaters}{stone}",
        transfer=x[b.TRANSFER],
        surface_cm2=setting.surface_cm2,
        floaters=floaters,
        stone=stone,
    )
    passed = b.surface_conductance(setting, x, setting.temperature_c)
    return Step(say("surface"), formula, passed, "L/h", oxygen.RIPPLE.source)


def _night_steps(setting: b.Setting, x: Mapping[str, float], temperature_c: float) -> list[Step]:
    """Steady, evening and dawn at a temperature."""
    night = b.night(setting, x, temperature_c)
    saturation, used = oxygen.saturation(temperature_c), sum(night.used.values())
    by_day = say("at most saturation; plants give {light:g} x what they use in the dark", light=x[b.LIGHT])
    fall = f"{night.steady:.2f} + ({night.evening:.2f} - {night.steady:.2f})"
    falls = say(
        "{fall} x exp(-{passed:.1f} / {volume:.0f} L x {dark_hours:g} h)",
        fall=fall,
        passed=night.passed,
        volume=x[b.VOLUME],
        dark_hours=setting.dark_hours,
    )
    endless = f"{saturation:.2f} - {used:.1f} / {night.passed:.1f}"
    return [
        Step(say("an endless night"), endless, night.steady, "mg/L", BALANCE),
        Step(say("lights off"), by_day, night.evening, "mg/L", respiration.PLANT_GAIN.source),
        Step(say("dawn"), falls, night.dawn, "mg/L", BALANCE),
    ]


def _hot_steps(setting: b.Setting, x: Mapping[str, float], hot_c: float) -> list[Step]:
    used = b.uptakes(setting, x, hot_c)
    formula = say(
        "the water as warm as the room; animals use {warmth:g} times as much per 10 K", warmth=x[b.WARMTH]
    )
    return [
        saturation_step(hot_c),
        Step(say("used in the dark"), formula, sum(used.values()), "mg/h", respiration.WARMING_WITHIN.source),
        *_night_steps(setting, x, hot_c),
    ]


def _outage_steps(
    setting: b.Setting, x: Mapping[str, float], level: float, results: Mapping[str, float]
) -> list[Step]:
    left, passed = b.outage(setting, x, b.uptakes(setting, x, setting.temperature_c))
    evening = results["oxygen_evening_mg_per_l"]
    name = f"outage_hours_to_{level:g}_mg_per_l"
    fall = say(
        "from {evening:.2f} to {level:g} mg/L, {volume:.0f} L, at most {horizon:g} h followed",
        evening=evening,
        level=level,
        volume=x[b.VOLUME],
        horizon=b.HORIZON,
    )
    still = say("{transfer:g} m/day at 25 °C: no pump, no air", transfer=x[b.STILL])
    calm = say(
        "{saturation:.2f} less what is used without the filter's bacteria",
        saturation=oxygen.saturation(setting.temperature_c),
    )
    return [
        Step(say("still surface"), still, passed, "L/h", oxygen.STILL.source),
        Step(say("runs towards"), calm, left, "mg/L", BALANCE),
        Step(say("time"), fall, results[name], "h", BALANCE),
    ]
