"""Which temperature to set the heater to, so that every animal and plant of a plan does well."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, floor, inf, isfinite
from typing import Any

from stockcheck.facts.heat import power_to_hold
from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.physics.quantity import Interval
from stockcheck.plan.model import Heater, Plan
from stockcheck.rules.bands import Limit, Party, Span, Taxon, common, finite, limits, name_of, parties_at
from stockcheck.rules.comfort import TEMPERATURE, best_compromise
from stockcheck.rules.wording import sentence
from stockcheck.table.model import PlantSpecies

#: Where in the usable stretch each preference stands, from its cool end (0) to its warm end (1).  "cooler" is
#: a little below the middle: cooler water holds more oxygen and slows metabolism.
PREFERENCES = {"coolest": 0.0, "cooler": 0.35, "middle": 0.5, "warmest": 1.0}

#: No heater is made weaker; a need below it is none (common practice, no source).
LEAST_HEATER_W = 5.0


@dataclass(frozen=True, slots=True)
class Choice:
    """A setpoint in a common comfort band (degC), and what there is to say of it."""

    value_c: float
    span: Span
    cramped: bool = False  # the band is narrower than twice the swing
    off_step: bool = False  # no mark of the dial lies in the band


@dataclass(frozen=True, slots=True)
class Shortfall:
    """How far (K) a compromise at ``at_c`` is outside a taxon's comfort: above zero where too cold for it."""

    taxon: Taxon
    kelvin: float
    at_c: float
    tolerated: bool


@dataclass(frozen=True, slots=True)
class PartyChoice:
    """Taxa that share a comfort band, and the setpoint for them alone."""

    taxa: tuple[Taxon, ...]
    choice: Choice


@dataclass(frozen=True, slots=True)
class Setpoint:
    """The answer.  ``value_c`` is None where no common comfort band exists.

    ``low_c`` and ``high_c`` are the common band's ends (None where nobody limits that side); ``low_by`` and
    ``high_by`` the taxa that set them.  ``heated`` is whether the plan has a heater.
    ``left_out`` are plants that the animals' band does not suit; ``unstated`` taxa have no temperature band
    in the table.  ``notes`` are whole sentences.
    """

    value_c: float | None
    low_c: float | None
    high_c: float | None
    low_by: Taxon | None
    high_by: Taxon | None
    swing_c: float
    step_c: float
    prefer: str
    heated: bool = True
    shortfalls: tuple[Shortfall, ...] = ()
    parties: tuple[PartyChoice, ...] = ()
    left_out: tuple[Shortfall, ...] = ()
    unstated: tuple[Taxon, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def value_f(self) -> float | None:
        return None if self.value_c is None else fahrenheit(self.value_c)

    @property
    def sentence(self) -> str:
        """The answer in one sentence."""
        if self.value_c is None:
            if not self.shortfalls:
                return say("No setpoint: the table has no temperature for any of them.")
            return say("No one temperature is comfortable for all of them.")
        start = say("Set the heater to") if self.heated else say("There is no heater; one would be set to")
        return f"{start} {degrees(self.value_c)}: {self._reason()}."

    def _reason(self) -> str:
        low, high = self.low_c, self.high_c
        if low is not None and high is not None:
            if self.low_by is self.high_by and self.low_by is not None:
                return say(
                    "{low_by} is comfortable from {low:.3g} to {high:.3g} °C",
                    low_by=name_of(self.low_by),
                    low=low,
                    high=high,
                )
            ends = say(
                "from {low:.3g} °C ({low_by}) to {high:.3g} °C ({high_by})",
                low=low,
                low_by=_name(self.low_by),
                high=high,
                high_by=_name(self.high_by),
            )
            return say("all are comfortable {ends}", ends=ends)
        if low is not None:
            return say("all are comfortable from {low:.3g} °C up ({name})", low=low, name=_name(self.low_by))
        return say("all are comfortable up to {high:.3g} °C ({name})", high=high, name=_name(self.high_by))


def setpoint_of(facts: Facts, prefer: str = "cooler") -> Setpoint:
    """The setpoint for a plan's animals and plants, with what its room and heater allow."""
    taxa: list[Taxon] = [group.species for group in facts.groups]
    taxa += [planting.species for planting in facts.plantings]
    heater = facts.plan.heater or Heater(power_w=0.0)
    found = setpoint_of_species(taxa, prefer=prefer, swing_c=heater.swing_c, step_c=heater.step_c)
    heated = facts.plan.heater is not None
    return replace(
        found,
        heated=heated,
        notes=(*found.notes, *_room_notes(found, facts.plan), *_heater_notes(found, facts)),
    )


def setpoint_of_species(
    taxa: Sequence[Taxon], prefer: str = "cooler", swing_c: float = 0.5, step_c: float = 0.5
) -> Setpoint:
    """The setpoint for animals and plants by themselves.

    The common comfort band, less the thermostat's swing at either end, is where the dial may stand; where the
    plants would leave the animals no common band, the animals decide and the plants are ``left_out``.

    Parameters
    ----------
    taxa : sequence of Species or PlantSpecies
    prefer : str
        One of ``PREFERENCES``.
    swing_c : float
        How far the thermostat lets the water stray from the dial, either way, K.
    step_c : float
        The dial's step, K.
    """
    found = limits(taxa, "temperature")
    known = {limit.taxon.slug for limit in found}
    unstated = tuple({t.slug: t for t in taxa if t.slug not in known}.values())
    share, left_out = _sharing(found)
    if not share:
        return _no_setpoint(found, unstated, prefer, swing_c, step_c)
    span = common([limit.comfort for limit in share])
    choice = choose(span, prefer, swing_c, step_c)
    low_by = next((limit.taxon for limit in share if limit.comfort.low == span.low), None)
    high_by = next((limit.taxon for limit in share if limit.comfort.high == span.high), None)
    return Setpoint(
        value_c=choice.value_c,
        low_c=finite(span.low),
        high_c=finite(span.high),
        low_by=low_by if isfinite(span.low) else None,
        high_by=high_by if isfinite(span.high) else None,
        swing_c=swing_c,
        step_c=step_c,
        prefer=prefer,
        left_out=tuple(_shortfall(limit, choice.value_c) for limit in left_out),
        unstated=unstated,
        notes=tuple(_choice_notes(choice, share, swing_c, left_out)),
    )


def choose(span: Span, prefer: str = "cooler", swing_c: float = 0.5, step_c: float = 0.5) -> Choice:
    """The mark of the dial that fits a comfort band and a preference.

    An open end (infinite) is taken to lie 2 K beyond what the swing needs from the end that is known.
    """
    low = span.low if isfinite(span.low) else span.high - 2 * swing_c - 2.0
    high = span.high if isfinite(span.high) else low + 2 * swing_c + 2.0
    cramped = high - low < 2 * swing_c
    start, end = ((low + high) / 2,) * 2 if cramped else (low + swing_c, high - swing_c)
    wanted = start + PREFERENCES[prefer] * (end - start)
    for first, last in ((start, end), (low, high)):  # marks that leave room for the swing, then any
        marks = _marks(first, last, step_c)
        if marks:
            nearest = min(marks, key=lambda mark: (abs(mark - wanted), mark))
            return Choice(nearest, span, cramped)
    return Choice((low + high) / 2, span, cramped, off_step=True)


def _marks(low: float, high: float, step: float) -> list[float]:
    """The dial's marks from low to high; a hair of rounding does not lose an end."""
    first, last = ceil(low / step - 1e-9), floor(high / step + 1e-9)
    return [min(max(round(mark * step, 6), low), high) for mark in range(first, last + 1)]


def _sharing(found: Sequence[Limit]) -> tuple[list[Limit], list[Limit]]:
    """Those that decide, and the plants left out because they leave the animals nothing."""
    if not found:
        return [], []
    animals = [limit for limit in found if not isinstance(limit.taxon, PlantSpecies)]
    if not common([limit.comfort for limit in found]).empty:
        return list(found), []
    span = common([limit.comfort for limit in animals])
    if not animals or span.empty:
        return [], []
    plants = [limit for limit in found if isinstance(limit.taxon, PlantSpecies)]
    kept = list(animals)
    for plant in sorted(plants, key=lambda limit: -common([span, limit.comfort]).width):
        if not common([*(limit.comfort for limit in kept), plant.comfort]).empty:
            kept.append(plant)
    return kept, [plant for plant in plants if plant not in kept]


def _no_setpoint(
    found: Sequence[Limit], unstated: tuple[Taxon, ...], prefer: str, swing_c: float, step_c: float
) -> Setpoint:
    shortfalls: tuple[Shortfall, ...] = ()
    groups: tuple[PartyChoice, ...] = ()
    notes: list[str] = []
    if found:
        span = common([limit.comfort for limit in found])
        animals = [limit for limit in found if not isinstance(limit.taxon, PlantSpecies)]
        best, _ = best_compromise(animals or found, TEMPERATURE)
        compromise = round(round(best / step_c) * step_c, 6)
        shortfalls = tuple(_shortfall(limit, compromise) for limit in found)
        groups = tuple(
            PartyChoice(tuple(m.taxon for m in party.members), choose(party.span, prefer, swing_c, step_c))
            for party in _parties(found, swing_c, step_c)
        )
        notes = [
            _gap_note(found, span),
            _compromise_note(shortfalls, compromise),
            *map(_party_note, groups[:4]),
        ]
    return Setpoint(
        value_c=None,
        low_c=None,
        high_c=None,
        low_by=None,
        high_by=None,
        swing_c=swing_c,
        step_c=step_c,
        prefer=prefer,
        shortfalls=shortfalls,
        parties=groups,
        unstated=unstated,
        notes=tuple(notes),
    )


def _parties(found: Sequence[Limit], swing_c: float, step_c: float) -> list[Party]:
    """The largest groups for which the dial has a mark that leaves room for the swing, then who fits none."""
    ends = [end for limit in found for end in limit.comfort if isfinite(end)]
    shared = parties_at(found, _marks(min(ends), max(ends), step_c), swing_c)
    placed = {limit.taxon.slug for party in shared for limit in party.members}
    return shared + [Party((limit,), limit.comfort) for limit in found if limit.taxon.slug not in placed]


def _shortfall(limit: Limit, at_c: float) -> Shortfall:
    kelvin = max(limit.comfort.low - at_c, 0.0) - max(at_c - limit.comfort.high, 0.0)
    return Shortfall(limit.taxon, kelvin, at_c, limit.tolerance.holds(at_c))


def _gap_note(found: Sequence[Limit], span: Span) -> str:
    warm = next(limit.taxon for limit in found if limit.comfort.low == span.low)
    cool = next(limit.taxon for limit in found if limit.comfort.high == span.high)
    return say(
        "{warm} is comfortable from {span_low:.3g} °C, {cool} only up to {span_high:.3g} °C: "
        "{width:.2g} K are missing.",
        warm=sentence(name_of(warm)),
        span_low=span.low,
        cool=name_of(cool),
        span_high=span.high,
        width=-span.width,
    )


def _compromise_note(shortfalls: Sequence[Shortfall], at_c: float) -> str:
    parts = [
        say(
            "{kelvin:.2g} K too {cold_or_warm} for {taxon}",
            kelvin=abs(short.kelvin),
            cold_or_warm=say("cold") if short.kelvin > 0 else say("warm"),
            taxon=name_of(short.taxon),
        )
        + ("" if short.tolerated else say(", beyond what it tolerates"))
        for short in sorted(shortfalls, key=lambda short: -abs(short.kelvin))
        if short.kelvin
    ]
    return say(
        "The best compromise, {degrees}, is {shortfalls}.", degrees=degrees(at_c), shortfalls="; ".join(parts)
    )


def _party_note(party: PartyChoice) -> str:
    names = ", ".join(name_of(taxon) for taxon in party.taxa)
    return say("{degrees} suits {names}.", degrees=degrees(party.choice.value_c), names=names)


def _choice_notes(
    choice: Choice, share: Sequence[Limit], swing_c: float, left_out: Sequence[Limit]
) -> list[str]:
    notes = []
    if choice.cramped:
        notes.append(
            say(
                "The common band is only {width:.2g} K wide, and the thermostat strays {swing_c:g} K "
                "either way: the middle is the best it can do, a steadier thermostat would help.",
                width=choice.span.width,
                swing_c=swing_c,
            )
        )
    if choice.off_step:
        notes.append(
            say("The dial has no mark inside the common band; set it between two marks by thermometer.")
        )
    if left_out:
        plants = ", ".join(name_of(limit.taxon) for limit in left_out)
        notes.append(say("The animals decide; it is not what {plants} would choose.", plants=plants))
    for limit, end in ((_limiting(share, 0), "low"), (_limiting(share, 1), "high")):
        if limit is not None and limit.band.origins <= 1:
            notes.append(
                say(
                    "The {end} end rests on a single source for {taxon}.", end=end, taxon=name_of(limit.taxon)
                )
            )
    return notes


def _limiting(share: Sequence[Limit], side: int) -> Limit | None:
    """Who sets the low (0) or the high (1) end."""
    limit = max(share, key=lambda x: x.comfort.low) if side == 0 else min(share, key=lambda x: x.comfort.high)
    return limit if isfinite(limit.comfort[side]) else None


def _room_notes(found: Setpoint, plan: Plan) -> list[str]:
    if found.value_c is None:
        return []
    notes = []
    high, low = plan.room.high_c, plan.room.low_c
    if high is not None and found.high_c is not None and high > found.high_c:
        notes.append(
            say(
                "The room reaches {high:.3g} °C and a heater cannot cool: on such days the water is "
                "above the {high_c:.3g} °C that {name} is comfortable in.",
                high=high,
                high_c=found.high_c,
                name=_name(found.high_by),
            )
        )
    elif high is not None and high > found.value_c + found.swing_c:
        notes.append(
            say(
                "The room reaches {high:.3g} °C; the water follows it then, and that suits all of them.",
                high=high,
            )
        )
    if plan.heater is None and low is not None and found.low_c is not None:
        if low < found.low_c:
            notes.append(
                say(
                    "The water falls to the room's {low:.3g} °C, below the {low_c:.3g} °C that {name} is "
                    "comfortable from.",
                    low=low,
                    low_c=found.low_c,
                    name=_name(found.low_by),
                )
            )
        else:
            notes.append(say("As the room stands none is needed."))
    return notes


def _heater_notes(found: Setpoint, facts: Facts) -> list[str]:
    """How the plan's own setpoint does, and the power that the answer takes against the power there is."""
    if found.value_c is None:
        return []
    heater, notes = facts.plan.heater, []
    if heater and heater.setpoint_c is not None:
        low, high = found.low_c or -inf, found.high_c or inf
        planned = heater.setpoint_c
        if abs(planned - found.value_c) >= found.step_c / 2:
            inside = low + found.swing_c <= planned <= high - found.swing_c
            fit = say("suits all of them too") if inside else say("strays from the comfort that all share")
            notes.append(say("The plan's own {degrees} {fit}.", degrees=degrees(planned), fit=fit))
    need, cold = power_to_hold(facts, found.value_c), facts.plan.room.low_c
    if need is None:
        if cold is None:
            notes.append(
                say("How cold the room gets is not in the plan; with it the heater's power can be told.")
            )
    elif need.high < LEAST_HEATER_W:
        if heater:
            notes.append(
                say("The room keeps the water at {value_c:.3g} °C or above by itself.", value_c=found.value_c)
            )
    else:
        notes.append(_power_note(need, found.value_c, cold, heater))
    return notes


def _power_note(need: Interval, water_c: float, cold_c: float | None, heater: Heater | None) -> str:
    held = say(
        "Holding {water_c:.3g} °C in a room of {cold_c:.3g} °C takes about {need:.0f} W "
        "({need_low:.0f} to {need_high:.0f})",
        water_c=water_c,
        cold_c=cold_c,
        need=need.value,
        need_low=need.low,
        need_high=need.high,
    )
    if heater is None:
        return say("{held}: choose a heater of that power or a little more.", held=held)
    there = heater.power_w * heater.count
    verdict = (
        "enough"
        if there >= need.high
        else say("probably enough")
        if there >= need.value
        else say("too little")
    )
    return say("{held}; there are {there:.0f} W: {verdict}.", held=held, there=there, verdict=verdict)


def setpoint_document(answer: Setpoint) -> dict[str, Any]:
    """The answer as the report's JSON holds it; taxa by slug."""
    return {
        "value_c": answer.value_c,
        "value_f": None if answer.value_f is None else round(answer.value_f, 1),
        "low_c": answer.low_c,
        "high_c": answer.high_c,
        "limited_by": {
            "low": answer.low_by.slug if answer.low_by else None,
            "high": answer.high_by.slug if answer.high_by else None,
        },
        "prefer": answer.prefer,
        "swing_c": answer.swing_c,
        "step_c": answer.step_c,
        "shortfalls": [_shortfall_document(short) for short in (*answer.shortfalls, *answer.left_out)],
        "parties": [
            {
                "species": [taxon.slug for taxon in party.taxa],
                "value_c": party.choice.value_c,
                "low_c": finite(party.choice.span.low),
                "high_c": finite(party.choice.span.high),
            }
            for party in answer.parties
        ],
        "unstated": [taxon.slug for taxon in answer.unstated],
        "notes": list(answer.notes),
    }


def _shortfall_document(short: Shortfall) -> dict[str, Any]:
    return {
        "species": short.taxon.slug,
        "kelvin": round(short.kelvin, 3),
        "at_c": short.at_c,
        "tolerated": short.tolerated,
    }


def fahrenheit(celsius: float) -> float:
    return celsius * 9 / 5 + 32


def degrees(celsius: float) -> str:
    """``24 °C (75.2 °F)``"""
    return f"{celsius:.3g} °C ({fahrenheit(celsius):.1f} °F)"


def _name(taxon: Taxon | None) -> str:
    return name_of(taxon) if taxon else "nobody"
