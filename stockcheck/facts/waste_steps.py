"""The arithmetic of the waste figures with this plan's own numbers, line by line, each with its source."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cached_property

from stockcheck.facts import waste_model as w
from stockcheck.facts.model import Step
from stockcheck.facts.plain import plain
from stockcheck.language import say
from stockcheck.physics.alkalinity import DAYS_PER_WEEK, KH_BACK_PER_N, KH_PER_N
from stockcheck.physics.ammonia import NO3_PER_N, PKA_OFFSET
from stockcheck.physics.feeding import APPETITE, DRY_MATTER, OWN_WEIGHING, RATION_AT_1_G, feed_g_per_day
from stockcheck.physics.nitrate import DENITRIFIED_SHARE, NO_CHANGE_DAYS
from stockcheck.physics.nitrification import (
    AREAL_RATE,
    FIRST_MEDIUM,
    FLOW_IN_USE,
    NITRITE_SPEED,
    OXYGEN_LEFT,
    OXYGEN_PER_N,
    SURFACE_RATE,
    THETA,
    at_temperature,
    clearance,
)
from stockcheck.physics.nitrogen import (
    NITROGEN_PER_PROTEIN,
    RELEASED_SHARE,
    SOLIDS_PER_FEED,
    TAN_PER_PROTEIN,
)
from stockcheck.physics.oxygen import saturation
from stockcheck.physics.uptake import CO2_PER_N, DRAWDOWN, HALF_SATURATION, TEMPERATURE_Q10, UPTAKE
from stockcheck.physics.uptake import at_temperature as plant_warmth
from stockcheck.table.model import Material

BALANCE = "mass balance"
SAWTOOTH = say("steady sawtooth: what a change carries off equals the gain since the last")


class Chain:
    """Writes the steps of one plan's figures from the model's inputs and results at their middle."""

    def __init__(
        self, setting: w.Setting, inputs: Mapping[str, float], results: Mapping[str, float], feed: Material
    ) -> None:
        self._setting, self._inputs, self._results, self._feed = setting, inputs, results, feed

    @cached_property
    def _words(self) -> dict[str, str]:
        """Every number a formula may name."""
        setting, inputs, results = self._setting, self._inputs, self._results
        numbers = {
            **results,
            "volume": inputs[w.VOLUME],
            "temperature": inputs[w.TEMPERATURE],
            "protein": inputs[w.PROTEIN],
            "moisture": inputs[w.MOISTURE],
            "uneaten": inputs[w.UNEATEN],
            "eaten": 1 - inputs[w.UNEATEN],
            "per_protein": inputs[w.EXCRETED],
            "released_share": inputs[w.RELEASED],
            "surfaces": setting.surfaces_m2,
            "surface_rate": inputs[w.SURFACE_RATE],
            "media_rate": inputs.get(w.MEDIA_RATE, 0.0),
            "dirt": inputs.get(w.FIRST_RATE, 1.0),
            "warmth": at_temperature(inputs[w.TEMPERATURE]),
            "flow": inputs.get(w.FLOW, 0.0),
            "oxygen": saturation(inputs[w.TEMPERATURE]) * inputs.get(w.OXYGEN_SHARE, 1.0),
            "plant_warmth": plant_warmth(inputs[w.TEMPERATURE]),
            "limit": setting.tan_limit,
            "bacteria": results["media_clearance"] + results["walls_clearance"],
            "nitrified": results["by_media"] + results["by_walls"],
            "speed": inputs[w.NITRITE_SPEED],
            "gas_share": inputs[w.GAS],
            "net": results["to_nitrate"] - results["gas"] - results["nitrate_wanted"],
            "gain": results["gain_per_week"] / DAYS_PER_WEEK * setting.every_days,
            "change": setting.change,
            "tap": inputs[w.TAP],
            "kh_per_n": inputs[w.KH_PER_N],
            "nitrate_lost": results["gas"] + results["nitrate_to_plants"],
            "pH": inputs.get(w.PH, 0.0),
            "n_per_protein": NITROGEN_PER_PROTEIN,
            "dry_matter": DRY_MATTER,
            "solids_per_feed": SOLIDS_PER_FEED,
            "half": HALF_SATURATION,
            "oxygen_left": OXYGEN_LEFT,
            "oxygen_per_n": OXYGEN_PER_N,
            "no3_per_n": NO3_PER_N,
            "kh_back": KH_BACK_PER_N,
            "ahead": NO_CHANGE_DAYS,
        }
        return {name: plain(value, 3) for name, value in numbers.items()}

    def _step(self, name: str, formula: str, value: float | str, unit: str, source: str) -> Step:
        """One line; ``{names}`` in the formula become this plan's numbers, a value may be a result's name."""
        number = self._results[value] if isinstance(value, str) else value
        return Step(name, formula.format_map(self._words), number, unit, source)

    def feed(self) -> list[Step]:
        if self._setting.own_feed_g is not None:
            return [
                self._step(say("feed"), say("as you weigh it"), "feed", "g/day", OWN_WEIGHING.source),
                *self._in_measures(),
            ]
        return [*self._by_ration("feed"), *self._in_measures()]

    def ration(self) -> list[Step]:
        return self._by_ration("ration")

    def _by_ration(self, result: str) -> list[Step]:
        total = say(
            "the sum, as {feed}: x {{dry_matter}} / (1 - {{moisture}} water)",
            feed=self._feed.name,
        )
        return [
            *(self._feeder(feeder) for feeder in self._setting.feeders),
            self._step(say("usual ration"), total, result, "g/day", DRY_MATTER.source),
        ]

    def _in_measures(self) -> list[Step]:
        """The same by the spoon, for who has no scales."""
        per_ml = self._feed.properties.get("g_per_ml")
        if per_ml is None:
            return []
        volume = self._results["feed"] / per_ml[1]
        formula = say("{{feed}} g / {per_ml} g/mL, loose in a measuring spoon", per_ml=plain(per_ml[1]))
        return [self._step(say("by the spoon"), formula, volume, "mL/day", source_of(self._feed, "g_per_ml"))]

    def _feeder(self, feeder: w.Feeder) -> Step:
        mass = self._inputs[feeder.mass]
        dry = feed_g_per_day(mass, feeder.count, feeder.kind, self._inputs[w.TEMPERATURE])
        share = dry / (feeder.count * mass)
        formula = say(
            "{count} x {mass} g x {share:.2%} of body mass a day",
            count=feeder.count,
            mass=plain(mass),
            share=share,
        )
        source = RATION_AT_1_G.source if feeder.kind == "fish" else APPETITE[feeder.kind].source
        return self._step(feeder.mass.removeprefix("mass of one "), formula, dry, "g/day", source)

    def load(self) -> list[Step]:
        excreted = say("{feed} g x (1 - {uneaten} uneaten) x {protein} protein x {per_protein}")
        rotting = say("{feed} g x {uneaten} x {protein} protein x {n_per_protein}")
        return [
            self._step(say("excreted as TAN"), excreted, "excreted", "mg N/day", TAN_PER_PROTEIN.source),
            self._step(
                say("leftovers that rot"), rotting, "rotting", "mg N/day", NITROGEN_PER_PROTEIN.source
            ),
            self._step(say("load"), say("{excreted} + {rotting}"), "load", "mg N/day", BALANCE),
        ]

    def solids(self) -> list[Step]:
        formula = say("{feed} g x (1 - {moisture} water) x ({uneaten} + {solids_per_feed} x {eaten})")
        return [self._step(say("faeces and leftovers"), formula, "solids", "g/day", SOLIDS_PER_FEED.source)]

    def clearances(self) -> list[Step]:
        """Media in order of flow, what their flow leaves of them, then the tank's own surfaces."""
        steps = [self._medium(place, name) for place, name in enumerate(self._setting.media)]
        if steps:
            formula = say("Q (1 - exp(-sum/Q)) with Q = {flow} L/day through the media")
            steps.append(
                self._step(
                    say("media in their flow"), formula, "media_clearance", "L/day", FLOW_IN_USE.source
                )
            )
        formula = say("{surfaces} m2 as smooth wall x {surface_rate} m/day x {warmth} (warmth)")
        steps.append(
            self._step(
                say("glass, gravel and leaves"), formula, "walls_clearance", "L/day", SURFACE_RATE.source
            )
        )
        return steps

    def _medium(self, place: int, name: str) -> Step:
        first = place == 0
        rate = self._inputs[w.MEDIA_RATE] * at_temperature(self._inputs[w.TEMPERATURE])
        if first:
            rate *= self._inputs[w.FIRST_RATE]
        area = self._inputs[name]
        formula = say("{area} m2 x {{media_rate}} m/day x {{warmth}} (warmth)", area=plain(area, 3))
        source = f"{AREAL_RATE.source}; {THETA.source}"
        if first:
            formula += say(" x {dirt} (it meets the dirt first)")
            source += f"; {FIRST_MEDIUM.source}"
        medium = name.removeprefix("surface of ")
        return self._step(medium, formula, clearance(area, rate), "L/day", source)

    def capacity(self) -> list[Step]:
        formula = say(
            "({media_clearance} media + {walls_clearance} surfaces) L/day x {limit} mg/L, and plants "
            "{plants_most} x {limit} / ({limit} + {half})"
        )
        name = say("removal at {limit} mg/L TAN", limit=self._words["limit"])
        return [*self.clearances(), self._step(name, formula, "capacity", "mg N/day", BALANCE)]

    def flow_cap(self) -> list[Step]:
        formula = say("{flow} L/day x {limit} mg/L, were every drop cleared")
        return [self._step(say("what the flow can carry"), formula, "flow_cap", "mg N/day", BALANCE)]

    def oxygen_cap(self) -> list[Step]:
        formula = say("{flow} L/day x ({oxygen} - {oxygen_left}) mg O2/L / {oxygen_per_n}")
        return [
            self._step(say("what the oxygen allows"), formula, "oxygen_cap", "mg N/day", OXYGEN_PER_N.source)
        ]

    def plants(self) -> list[Step]:
        warm = say("the sum x {plant_warmth} (warmth)")
        taken = say("{tan_to_plants} as TAN + {nitrate_to_plants} as nitrate")
        return [
            *(self._stand(stand) for stand in self._setting.stands),
            self._step(say("at most"), warm, "plants_most", "mg N/day", TEMPERATURE_Q10.source),
            self._step(say("what they find"), taken, "plants", "mg N/day", HALF_SATURATION.source),
        ]

    def _stand(self, stand: w.Stand) -> Step:
        rate = UPTAKE[stand.kind]
        formula = say(
            "{cover_m2} m2 of {kind} x {rate} mg N/m2/day, for light and CO2",
            cover_m2=plain(stand.cover_m2),
            kind=stand.kind,
            rate=plain(rate),
        )
        return self._step(stand.name, formula, stand.uptake, "mg N/day", rate.source)

    def tan(self) -> list[Step]:
        formula = say(
            "{load} = ({media_clearance} media + {walls_clearance} surfaces + {exchange} water "
            "change) x TAN + {plants_most} x TAN / ({half} + TAN) plants"
        )
        return [
            *self.load(),
            *self.clearances(),
            self._step(say("TAN where removal equals load"), formula, "tan", "mg/L", BALANCE),
        ]

    def nh3(self) -> list[Step]:
        share = self._results["nh3"] / self._results["tan"] if self._results["tan"] > 0 else 0.0
        formula = say("1 / (1 + 10^(pKa - pH)), pH {pH} + {pH_rise} by day, {temperature} °C")
        return [
            self._step(say("TAN"), say("its own figure, tan_mg_per_l"), "tan", "mg/L", BALANCE),
            self._step(
                say("rise of pH by day"),
                say("log10 of CO2 before over after what {plants_most} mg N/day of growth draws"),
                "pH_rise",
                "pH",
                f"{CO2_PER_N.source}; {DRAWDOWN.source}",
            ),
            self._step(say("un-ionised share"), formula, share, "1", PKA_OFFSET.source),
            self._step(
                say("un-ionised ammonia"),
                say("{{tan}} x {share}", share=plain(share, 3)),
                "nh3",
                "mg/L",
                BALANCE,
            ),
        ]

    def load_now(self) -> list[Step]:
        return [
            self._step(
                say("load of the animals as they are today"),
                say("{load} mg N/day at adult size x feed today / feed then"),
                "load_now",
                "mg N/day",
                BALANCE,
            )
        ]

    def nitrite(self) -> list[Step]:
        formula = say(
            "{nitrified} mg N/day / ({speed} x {bacteria} bacteria + {exchange} water change) L/day"
        )
        return [
            self._step(say("nitrite between the two steps"), formula, "nitrite", "mg/L", NITRITE_SPEED.source)
        ]

    def released(self) -> list[Step]:
        formula = say("{in_feed} in the feed x ({uneaten} + {eaten} x {released_share})")
        return [
            self._step(
                say("released in the long run"), formula, "released", "mg N/day", RELEASED_SHARE.source
            )
        ]

    def nitrified(self) -> list[Step]:
        made = say("{released} less {tan_to_plants} to plants as TAN and what a change carries off")
        return [
            *self.released(),
            self._step(say("that becomes nitrate"), made, "to_nitrate", "mg N/day", BALANCE),
        ]

    def gas(self) -> list[Step]:
        lost = self._step(
            say("turned to gas"), say("{gas_share} of it"), "gas", "mg N/day", DENITRIFIED_SHARE.source
        )
        return [*self.nitrified(), lost]

    def gain(self) -> list[Step]:
        formula = say(
            "({to_nitrate} - {gas} - {nitrate_wanted} plants = {net}) x {no3_per_n} x 7 / {volume} L"
        )
        return [
            *self.gas(),
            self._step(say("gain in a week"), formula, "gain_per_week", "mg/L", NO3_PER_N.source),
        ]

    def nitrate(self) -> list[Step]:
        if self._setting.change <= 0:
            formula = say("{after} now + {gain} a day x {ahead} days")
            return [
                *self.gain(),
                self._step(say("nitrate with no change"), formula, "before", "mg/L", NO_CHANGE_DAYS.source),
            ]
        before = say("{tap} in the tap water + {gain} gained / {change} changed, never below 0")
        after = say("{before} + {change} x ({tap} - {before})")
        return [
            *self.gain(),
            self._step(say("just before a change"), before, "before", "mg/L", SAWTOOTH),
            self._step(say("just after it"), after, "after", "mg/L", SAWTOOTH),
        ]

    def kh(self) -> list[Step]:
        formula = say("({to_nitrate} x {kh_per_n} - {nitrate_lost} x {kh_back}) x 7 / {volume} L")
        return [self._step(say("carbonate hardness used up"), formula, "kh_use", "dKH/week", KH_PER_N.source)]


def source_of(material: Material, name: str) -> str:
    """The source of one property, out of the material's ``name: source; ...``."""
    found = re.search(rf"(?:^|; ){name}: (.*?)(?:; [a-z][a-z0-9_]*: |$)", material.source)
    return found.group(1) if found else material.source
