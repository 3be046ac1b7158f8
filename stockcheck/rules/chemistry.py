"""Chemistry rules of the water axis: buffer, carbon dioxide, chlorine, and what top-up leaves behind."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.chemistry import DAYS_PER_WEEK, YEAR
from stockcheck.facts.model import Facts
from stockcheck.facts.plain import duration_of, plain, span
from stockcheck.language import say
from stockcheck.physics.carbonate import K1, OUTDOOR_CO2, co2_with_air
from stockcheck.physics.conditioner import DEADLY, HARMFUL, USUAL_HIGH, USUAL_LOW
from stockcheck.physics.quantity import Constant
from stockcheck.rules.core import CLEAR, FIX, WATCH, Finding, headroom_between, level_of, rule

_PRACTICE = "common practice, no source"
KH_HOLDS = Constant(1.0, "dKH", f"{_PRACTICE}: below it a day's acid moves the pH")
KH_SAFE = Constant(3.0, "dKH", f"{_PRACTICE}: buffer for a few weeks forgotten")
CO2_SAFE = Constant(20.0, "mg/L", "aquatic veterinary textbook: aim below 20 mg/L")
CO2_HOLDS = Constant(35.0, "mg/L", f"{_PRACTICE}: planted tanks with CO2 run to about 30")
CO2_STOP = Constant(100.0, "mg/L", f"{_PRACTICE}: fish lie over")
CO2_LOW = Constant(0.5, "1", f"{_PRACTICE}: half of what open air alone brings")
CO2_HIGH = Constant(60.0, "mg/L", f"{_PRACTICE}: more than breathing brings without injection")
GH_SPAN = Constant(2.0, "1", f"{_PRACTICE}: hardness weighs by ratio")
LABEL = say("Dose a conditioner by its own label, before the water goes in.")


@rule(
    "water/pH-stability",
    sources=("stoichiometry of nitrification: 7.14 g CaCO3 per g N", "mass balance of water changes"),
    trips="""
[tap]
KH = "1 dKH"
""",
    clears="",
)
def ph_stability(facts: Facts) -> Iterator[Finding]:
    """Is there enough carbonate hardness to hold the pH until the next change?

    Mechanism.  Nitrification makes acid: each mg/L of nitrogen takes 0.4 dKH.  Changes and top-up bring KH
    back.  Where it runs out the pH drops, bacteria stop below about pH 6, and ammonia piles up unseen.

    Evidence.  Stoichiometry; the level before a change is a mass balance of use and water changes.

    Limits.  Limestone, shells and coral sand give KH back, active soils take more; neither is counted here.
    Blackwater tanks live without KH on purpose, with few animals and little feed.
    """
    figure = facts.figures.get("kh_before_change_dkh")
    if figure is None:
        return
    kh = figure.interval.value
    headroom = max(FIX, headroom_between(kh, 0.0, KH_HOLDS, KH_SAFE))
    if facts.plan.water.humic:
        headroom = max(headroom, WATCH)
    weeks = facts.figures.get("kh_weeks_without_change")
    lasts = ""
    if weeks and weeks.interval.value < YEAR:
        left = duration_of(weeks.interval.value * DAYS_PER_WEEK)
        lasts = say(" What the tank has today would last {left} without a change.", left=left)
    yield Finding(
        "water/pH-stability",
        level_of(headroom),
        say(
            "In the long run carbonate hardness falls to {interval} before each change of {share:.0%} every "
            "{every_days:g} days: little holds the pH.{lasts}",
            share=facts.plan.routine.water_change,
            every_days=facts.plan.routine.every_days,
            interval=span(figure.interval, "dKH"),
            lasts=lasts,
        ),
        _more_kh(facts),
        grade="B",
        headroom=headroom,
    )


def _more_kh(facts: Facts) -> str:
    """What brings carbonate hardness: changes only do where the added water has some."""
    tap = facts.plan.tap.KH_dkh
    if tap is not None and tap < KH_SAFE:
        return say(
            "The added water has only {tap:g} dKH, so changes take hardness away: raise its KH with "
            "bicarbonate, or put a bag of crushed coral in the filter; by a degree a day at most.",
            tap=tap,
        )
    return say(
        "Change more often, feed less, or put a bag of crushed coral in the filter; raise KH by "
        "a degree a day at most."
    )


@rule(
    "water/CO2",
    trips="""
[water]
pH = 6.4
KH = "6 dKH"
[light]
co2 = true
""",
    clears="",
    sources=(K1[0].source, CO2_SAFE.source),
)
def carbon_dioxide(facts: Facts) -> Iterator[Finding]:
    """Is there too much carbon dioxide for the animals?

    Mechanism.  Carbon dioxide keeps blood from taking up oxygen, and the animals gasp in water full of it.
    With KH known, pH tells how much there is.

    Evidence.  Equilibrium constants of Plummer & Busenberg 1982; below 20 mg/L is an aquatic veterinary
    textbook's aim.

    Limits.  An error of 0.2 in pH is a factor of 1.6.  Humic acids, phosphate and buffers make the figure too
    high: where no CO2 is injected the rule speaks of a test to repeat and asks for no more than an eye on it.
    """
    figure = facts.figures.get("co2_mg_per_l")
    if figure is None:
        return
    co2, injected = figure.interval.value, facts.plan.light.co2
    headroom = headroom_between(co2, CO2_STOP, CO2_HOLDS, CO2_SAFE / 2)
    if injected:
        remedy = say("Turn the CO2 down, switch it off with the lights, and break the surface at night.")
    else:
        headroom = max(headroom, WATCH)
        remedy = say(
            "Let a glass of the water stand for a day and measure its pH again: if it rises by much, "
            "there is CO2, so break the surface; if not, something other than bicarbonate is in the "
            "KH (leaves, wood, buffers)."
        )
    yield Finding(
        "water/CO2",
        level_of(headroom),
        say(
            "pH {pH:g} at {KH_dkh:g} dKH means {interval} of carbon dioxide; the aim is under {co2_safe:g}.",
            pH=facts.plan.water.pH,
            KH_dkh=facts.plan.water.KH_dkh,
            interval=span(figure.interval, "mg/L"),
            co2_safe=CO2_SAFE,
        ),
        remedy,
        grade="C",
        headroom=headroom,
    )


@rule(
    "water/pH-and-KH",
    trips="""
[water]
pH = 8.9
KH = "3 dKH"
""",
    clears="",
    sources=(K1[0].source,),
)
def ph_and_kh(facts: Facts) -> Iterator[Finding]:
    """Do pH and KH fit one another?

    Mechanism.  Open air alone keeps some CO2 in the water, so that at a given KH the pH has a ceiling;
    breathing brings more.  A pair above the ceiling, or one that means more CO2 than breathing gives, has one
    wrong reading.

    Evidence.  Henry's law and the equilibrium of Plummer & Busenberg 1982.

    Limits.  Plants in bright light do draw CO2 below air for some hours, and the pH test was then right.
    """
    figure, temperature = facts.figures.get("co2_mg_per_l"), facts.temperature_c
    water = facts.plan.water
    if figure is None or temperature is None:
        return
    air = co2_with_air(OUTDOOR_CO2, temperature)
    too_little = figure.interval.high < air * CO2_LOW
    too_much = figure.interval.low > CO2_HIGH and not facts.plan.light.co2
    standing = facts.figures["standing_ph"].interval
    yield Finding(
        "water/pH-and-KH",
        "watch" if too_little or too_much else "clear",
        say(
            "pH {pH:g} and {KH_dkh:g} dKH do not go together: that would be {figure} mg/L of carbon "
            "dioxide, and water of this KH that has stood in a room settles near pH {standing:.1f}.",
            pH=water.pH,
            KH_dkh=water.KH_dkh,
            figure=plain(figure.interval.value),
            standing=standing.value,
        ),
        say("Measure both again, KH with a fresh drop test, pH before the lights come on."),
        grade="B",
        headroom=WATCH if too_little or too_much else CLEAR,
    )


@rule(
    "water/conditioner",
    trips="""
[tap]
chlorine = "0.5 mg/L"
[routine]
conditioner = false
""",
    clears="",
    sources=(HARMFUL.source, DEADLY.source, USUAL_HIGH.source),
)
def conditioner(facts: Facts) -> Iterator[Finding]:
    """Is chlorinated tap water made safe before it goes in?

    Mechanism.  Chlorine and chloramine burn gills and kill the filter's bacteria.  A change of a third brings
    a third of the tap's level into the tank at once.

    Evidence.  Harm is reported from below 0.02 mg/L; 0.3 mg/L of combined chlorine kills most fish fast.

    Limits.  Waterworks change method and dose without notice.  Chloramine does not gas out by standing, and
    leaves ammonia when a conditioner splits it.
    """
    plan = facts.plan
    if not plan.routine.water_change:
        return
    if plan.routine.conditioner:
        left = facts.figures.get("chloramine_tan_mg_per_l")
        if left and left.interval.value >= HARMFUL * 2 * 2:
            yield Finding(
                "water/conditioner",
                "watch",
                say(
                    "Conditioner splits the tap's chloramine and leaves {interval} of ammonia nitrogen in "
                    "the tank after each change.",
                    interval=span(left.interval, "mg/L"),
                ),
                say("Use one that binds ammonia too, or change less at a time. {label}", label=LABEL),
                grade="B",
                headroom=WATCH,
            )
        else:
            yield Finding("water/conditioner", "clear", "", headroom=CLEAR)
        return
    mixed = facts.figures.get("chlorine_after_change_mg_per_l")
    if mixed is None:
        if plan.tap.chlorine_mg_l is None and plan.tap.chloramine_mg_l is None:
            yield Finding(
                "water/conditioner",
                "unknown",
                say(
                    "Is the tap chlorinated? Where it is, it carries {usual_low:g} to {usual_high:g} mg/L, "
                    "and the plan uses no conditioner.",
                    usual_low=USUAL_LOW,
                    usual_high=USUAL_HIGH,
                ),
                say(
                    "Ask the waterworks for chlorine and chloramine, or set conditioner = true. {label}",
                    label=LABEL,
                ),
            )
        return
    value = mixed.interval.value
    level = "stop" if value >= DEADLY / 2 else "fix" if value >= HARMFUL else "clear"
    yield Finding(
        "water/conditioner",
        level,
        say(
            "A change brings chlorine to {interval} in the tank; gills are harmed from {harmful:g} mg/L on.",
            interval=span(mixed.interval, "mg/L"),
            harmful=HARMFUL,
        ),
        say(
            "Condition the new water: its chlorine takes about {thiosulfate_mg_per_change} mg of "
            "sodium thiosulfate. {label}",
            thiosulfate_mg_per_change=plain(facts.figures["thiosulfate_mg_per_change"].interval.value),
            label=LABEL,
        ),
        tuple(group.species.slug for group in facts.groups),
        grade="B",
        headroom={"stop": 0.0, "fix": FIX, "clear": CLEAR}[level],
    )


@rule(
    "water/hardness-creep",
    sources=("mass balance of evaporation and top-up",),
    trips="""
[tank]
lid = false
[tap]
GH = "10 dGH"
[routine]
water_change = "5 %"
every = "28 day"
""",
    clears="",
)
def hardness_creep(facts: Facts) -> Iterator[Finding]:
    """Does topping up with tap water make the tank too hard?

    Mechanism.  Water evaporates and its salts stay; tap water for topping up adds the same salts again.
    Changes take some out, and the tank settles where gain and loss balance, above the tap's own hardness.

    Evidence.  Evaporation after Shah 2014, a mass balance for the rest.

    Limits.  Plants, shells and soils take a little hardness out.  Judged where the tap itself would have been
    soft enough.
    """
    tap, figure = facts.plan.tap.GH_dgh, facts.figures.get("gh_before_change_dgh")
    gain = facts.figures.get("gh_gain_dgh_per_week")
    top, name = _softest_top(facts)
    if tap is None or gain is None or top is None or tap > top:
        return
    if figure is None:
        if gain.interval.value <= 0 or facts.plan.routine.water_change:
            return
        message = say(
            "Without water changes top-up raises the hardness by {interval} a week, and nothing "
            "takes it out.",
            interval=span(gain.interval, "dGH"),
        )
        headroom = WATCH
    else:
        headroom = max(
            FIX, headroom_between(figure.interval.value, top * GH_SPAN, top * (1 + GH_SPAN) / 2, top)
        )
        message = say(
            "Top-up builds the hardness up to {interval} before each change, from {tap:g} in the "
            "tap; {name} is comfortable up to {top:g}.",
            interval=span(figure.interval, "dGH"),
            tap=tap,
            name=name,
            top=top,
        )
    yield Finding(
        "water/hardness-creep",
        level_of(headroom),
        message,
        say("Top up with rain or reverse-osmosis water, close the lid, or change more at a time."),
        grade="C",
        headroom=headroom,
    )


def _softest_top(facts: Facts) -> tuple[float | None, str]:
    """The lowest upper end of comfort in GH among the animals, and whose it is."""
    tops = []
    for group in facts.groups:
        band = group.species.band("GH")
        if band and band.comfort_high is not None:
            tops.append((band.comfort_high, group.species.common_name or group.species.scientific_name))
    return min(tops) if tops else (None, "")
