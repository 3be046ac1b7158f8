"""The water for one change: mixed to a target hardness, and rid of chlorine."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from stockcheck.facts.model import Facts, Figure, Step, given
from stockcheck.language import say
from stockcheck.physics import conditioner, hardness
from stockcheck.physics.quantity import Constant, Interval, propagate

CHLORINE_READING = Constant(1.0, "1", "common practice, no source: a strip or a supplier's mean", 0.5, 2.0)
#: Names of the uncertain inputs, as a reader of the report sees them.
_CHLORINE = say("chlorine of the tap")
_CHLORAMINE = say("chloramine of the tap")
_BALANCE = "mass balance"


def figure_of(
    name: str,
    label: str,
    unit: str,
    inputs: Mapping[str, Interval],
    formula: Callable[[Mapping[str, float]], float],
    steps: list[Step],
) -> dict[str, Figure]:
    """One figure from its inputs; none of those made here can be negative."""
    results, influences = propagate(lambda x: {name: formula(x)}, inputs)
    interval = Interval(*(max(0.0, end) for end in results[name]))
    return {name: Figure(name, label, interval, unit, influences[name], given(steps))}


def _change_litres(facts: Facts) -> float | None:
    litres = facts.figures.get("net_volume_l")
    share = facts.plan.routine.water_change
    return litres.interval.value * share if litres and share else None


def mixing(facts: Facts) -> dict[str, Figure]:
    """Tap and pure water for one change towards the target hardness, and salts where it falls short."""
    tap, target, litres = facts.plan.tap, facts.plan.target, _change_litres(facts)
    wanted = [
        (name, have, want)
        for name, have, want in (("GH", tap.GH_dgh, target.GH_dgh), ("KH", tap.KH_dkh, target.KH_dkh))
        if have is not None and want is not None
    ]
    if litres is None or not wanted:
        return {}
    shares = {name: hardness.share_for_target(want, have) or 0.0 for name, have, want in wanted}
    led_by = max(shares, key=shares.__getitem__)
    share = shares[led_by]
    why = (
        say("the softer of the targets, {led_by}", led_by=led_by)
        if share
        else say("the tap is no harder than the target")
    )
    exact = Interval.exact
    pure = Step(
        say("pure water"),
        say("{why}: {share:.0%} of {litres:.0f} L", why=why, share=share, litres=litres),
        share * litres,
        "L",
        _BALANCE,
    )
    rest = Step(say("tap water"), say("the rest"), (1 - share) * litres, "L", _BALANCE)
    figures = {
        "mix_pure_l_per_change": Figure(
            "mix_pure_l_per_change",
            say("rain or reverse-osmosis water for one change"),
            exact(share * litres),
            "L",
            [],
            given([pure]),
        ),
        "mix_tap_l_per_change": Figure(
            "mix_tap_l_per_change",
            say("tap water for one change"),
            exact((1 - share) * litres),
            "L",
            [],
            given([pure, rest]),
        ),
    }
    for name, have, want in wanted:
        mixed = hardness.mixed(have, 0.0, share)
        mineral = hardness.CALCIUM_SULFATE if name == "GH" else hardness.BAKING_SODA
        grams = hardness.mineral_grams(mineral, max(0.0, want - mixed), litres, name)
        unit = f"d{name}"
        steps = [
            Step(
                say("{name} of the mixture", name=name),
                f"{have:g} {unit} x {1 - share:.0%}",
                mixed,
                unit,
                _BALANCE,
            ),
            Step(
                mineral.name,
                say(
                    "{short:.1f} {unit} more in {litres:.0f} L",
                    short=max(0.0, want - mixed),
                    unit=unit,
                    litres=litres,
                ),
                grams,
                "g",
                "molar masses",
            ),
        ]
        key = f"{name.lower()}_mineral_g_per_change"
        label = say(
            "{mineral_name} for one change, to reach the target {name}", mineral_name=mineral.name, name=name
        )
        figures[key] = Figure(key, label, exact(grams), "g", [], given(steps))
    return figures


def chlorine(facts: Facts) -> dict[str, Figure]:
    """Chlorine of the tap: the thiosulfate that binds it, and the ammonia that chloramine leaves."""
    tap, litres, share = facts.plan.tap, _change_litres(facts), facts.plan.routine.water_change
    free, bound = tap.chlorine_mg_l or 0.0, tap.chloramine_mg_l or 0.0
    if litres is None or free + bound <= 0:
        return {}
    total = free + bound
    reading = {_CHLORINE: CHLORINE_READING.interval.scaled(total)}
    mixed = Step(
        say("after mixing"),
        say("{total:g} mg/L x {share:.0%} changed", total=total, share=share),
        total * share,
        "mg/L",
        _BALANCE,
    )
    figures = figure_of(
        "chlorine_after_change_mg_per_l",
        say("chlorine in the tank after a change without conditioner"),
        "mg/L",
        reading,
        lambda x: conditioner.after_mixing(x[_CHLORINE], share),
        [mixed],
    )
    dose = conditioner.thiosulfate_mg(total, litres)
    bind = Step(
        say("thiosulfate"),
        say(
            "{total:g} mg/L x {litres:.0f} L x 7.0 mg/mg; a product goes by its label",
            total=total,
            litres=litres,
        ),
        dose,
        "mg",
        conditioner.TETRATHIONATE.source,
    )
    figures |= figure_of(
        "thiosulfate_mg_per_change",
        say("sodium thiosulfate pentahydrate that binds the chlorine of one change"),
        "mg",
        reading,
        lambda x: conditioner.thiosulfate_mg(x[_CHLORINE], litres),
        [bind],
    )
    if bound:
        left = conditioner.ammonia_left(bound) * share
        step = Step(
            say("ammonia left"),
            f"{bound:g} mg/L x 0.198 x {share:.0%}",
            left,
            "mg/L",
            conditioner.NITROGEN.source,
        )
        figures |= figure_of(
            "chloramine_tan_mg_per_l",
            say("ammonia nitrogen that conditioned chloramine leaves after a change"),
            "mg/L",
            {_CHLORAMINE: CHLORINE_READING.interval.scaled(bound)},
            lambda x: conditioner.ammonia_left(x[_CHLORAMINE]) * share,
            [step],
        )
    return figures
