"""Which temperature to set the heater to, so that every animal and plant of a plan does well."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, floor, isfinite
from typing import Any

from stockcheck.advice.setpoint_model import Choice, PartyChoice, Setpoint, Shortfall, shortfall
from stockcheck.advice.setpoint_notes import (
    choice_notes,
    compromise_note,
    gap_note,
    heater_notes,
    party_note,
    room_notes,
)
from stockcheck.facts.model import Facts
from stockcheck.plan.model import Heater
from stockcheck.rules.bands import Limit, Party, Span, Taxon, common, finite, limits, parties_at
from stockcheck.rules.comfort import TEMPERATURE, best_compromise
from stockcheck.table.model import PlantSpecies

#: Where in the usable stretch each preference stands, from its cool end (0) to its warm end (1).  "cooler" is
#: a little below the middle: cooler water holds more oxygen and slows metabolism.
PREFERENCES = {"coolest": 0.0, "cooler": 0.35, "middle": 0.5, "warmest": 1.0}


def setpoint_of(facts: Facts, prefer: str = "cooler") -> Setpoint:
    """The setpoint for a plan's animals and plants, with what its room and heater allow."""
    taxa: list[Taxon] = [group.species for group in facts.groups]
    taxa += [planting.species for planting in facts.plantings]
    heater = facts.plan.heater or Heater()
    found = setpoint_of_species(taxa, prefer=prefer, swing_c=heater.swing_c, step_c=heater.step_c)
    heated = facts.plan.heater is not None
    return replace(
        found,
        heated=heated,
        notes=(*found.notes, *room_notes(found, facts.plan), *heater_notes(found, facts)),
    )


def setpoint_of_species(
    taxa: Sequence[Taxon], prefer: str = "cooler", swing_c: float = 0.5, step_c: float = 0.5
) -> Setpoint:
    """The setpoint for animals and plants by themselves.

    The common comfort band, less the thermostat's swing at either end, is where the dial may stand; a band
    narrower than the swing is none.  Where the plants would leave the animals no common band, the animals
    decide and the plants are ``left_out``.

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
    share, left_out = _sharing(found, swing_c)
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
        left_out=tuple(shortfall(limit, choice.value_c) for limit in left_out),
        unstated=unstated,
        notes=tuple(choice_notes(choice, share, swing_c, left_out)),
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
    for spare in (swing_c, swing_c / 2, 0.0):  # marks that leave room for the swing, for half of it, then any
        marks = _marks(low + spare, high - spare, step_c) if low + spare <= high - spare else []
        if marks:
            nearest = min(marks, key=lambda mark: (abs(mark - wanted), mark))
            return Choice(nearest, span, cramped)
    return Choice((low + high) / 2, span, cramped, off_step=True)


def _marks(low: float, high: float, step: float) -> list[float]:
    """The dial's marks from low to high; a hair of rounding does not lose an end."""
    first, last = ceil(low / step - 1e-9), floor(high / step + 1e-9)
    return [min(max(round(mark * step, 6), low), high) for mark in range(first, last + 1)]


def _shares(found: Sequence[Limit], swing_c: float) -> bool:
    """Whether there is a common comfort that a thermostat can hold: as wide as its swing, or as wide as the
    narrowest comfort of them all.
    """
    comforts = [limit.comfort for limit in found]
    return common(comforts).width >= min([swing_c, *(comfort.width for comfort in comforts)])


def _sharing(found: Sequence[Limit], swing_c: float) -> tuple[list[Limit], list[Limit]]:
    """Those that decide, and the plants left out because they leave the animals nothing."""
    if not found:
        return [], []
    animals = [limit for limit in found if not isinstance(limit.taxon, PlantSpecies)]
    if _shares(found, swing_c):
        return list(found), []
    if not animals or not _shares(animals, swing_c):
        return [], []
    span = common([limit.comfort for limit in animals])
    plants = [limit for limit in found if isinstance(limit.taxon, PlantSpecies)]
    kept = list(animals)
    for plant in sorted(plants, key=lambda limit: -common([span, limit.comfort]).width):
        if _shares([*kept, plant], swing_c):
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
        shortfalls = tuple(shortfall(limit, compromise) for limit in found)
        groups = tuple(
            PartyChoice(tuple(m.taxon for m in party.members), choose(party.span, prefer, swing_c, step_c))
            for party in _parties(found, swing_c, step_c)
        )
        notes = [
            gap_note(found, span, swing_c),
            compromise_note(shortfalls, compromise),
            *map(party_note, groups[:4]),
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
    """The largest groups for which the dial has a mark with half the swing to spare, then who fits none."""
    ends = [end for limit in found for end in limit.comfort if isfinite(end)]
    shared = parties_at(found, _marks(min(ends), max(ends), step_c), swing_c / 2)
    placed = {limit.taxon.slug for party in shared for limit in party.members}
    return shared + [Party((limit,), limit.comfort) for limit in found if limit.taxon.slug not in placed]


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
