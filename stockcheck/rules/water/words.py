"""What the water rules say and advise."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isfinite

from stockcheck.facts.model import Facts
from stockcheck.rules.bands import Limit, Span, Taxon, common, limits, name_of
from stockcheck.rules.comfort import AT_COMFORT, GH, KH, Field
from stockcheck.rules.core import CLEAR, Finding, level_of
from stockcheck.rules.water.own import Own
from stockcheck.rules.wording import listed, sentence
from stockcheck.table.model import GRADES

_MOST_SOURCES = 8


def off_band(
    name: str,
    facts: Facts,
    field: Field,
    own: Own,
    too: str,
    hit: list[tuple[float, Limit]],
    plants: bool,
) -> Finding:
    hurt = [limit for _, limit in hit]
    value = own.low if too == "low" else own.high
    worst = min(headroom for headroom, _ in hit)
    word = {"low": {"temperature": "cool"}, "high": {"temperature": "warm"}}[too].get(field.name, too)
    stated, where = sentence(_stated(field, own, value)), _where(hurt, value)
    message = f"{stated} is too {word} for {with_spans(hurt, field)}: {where}."
    remedy = _remedy(facts, field, own, too, hurt)
    if plants:
        message += " It may melt or stop growing." if len(hurt) == 1 else " They may melt or stop growing."
        remedy = "Choose plants for the animals' water; it is easier than the other way round."
    return finding(name, worst, message, remedy, hurt)


def _where(hurt: Sequence[Limit], value: float) -> str:
    """How far out a value is, as well as each band is known; by name where it is not the same for all."""
    ways: dict[str, list[str]] = {}
    for limit in hurt:
        if limit.band.origins <= 1:
            way = "outside what the one source states"
        elif limit.tolerance.beyond(value) > 0:
            way = "outside what is tolerated"
        else:
            way = "outside comfort"
        ways.setdefault(way, []).append(name_of(limit.taxon))
    if len(ways) == 1:
        return next(iter(ways))
    return "; ".join(f"{way} for {listed(names)}" for way, names in ways.items())


def _stated(field: Field, own: Own, value: float) -> str:
    """``24 °C of the heater`` as a sentence starts with it."""
    if field.name == "temperature":
        if own.origin == "the room's":
            return f"unheated, the water goes with the room to {value:.3g} °C, which"
        setpoint = (own.low + own.high) / 2
        return f"the setpoint of {setpoint:.3g} °C (with its swing {own.low:.3g} to {own.high:.3g} °C)"
    unit = f" {field.unit}" if field.unit else ""
    if own.origin == "the target":
        return f"the target of {value:.3g}{unit} {field.name}"
    return f"{own.origin} {field.name} of {value:.3g}{unit}"


def _remedy(facts: Facts, field: Field, own: Own, too: str, hurt: Sequence[Limit]) -> str:
    wanted = (
        max(limit.comfort.low for limit in hurt)
        if too == "low"
        else min(limit.comfort.high for limit in hurt)
    )
    value = own.low if too == "low" else own.high
    if field.name == "temperature":
        return _temperature_remedy(facts, own, too, wanted)
    if field in (GH, KH):
        if too == "low":
            minerals = "a calcium and magnesium salt mix" if field is GH else "bicarbonate or coral sand"
            return f"Raise it by {wanted - value:.2g} {field.unit} with {minerals}, over a week or two."
        if wanted <= 0 or value <= 0:
            return "Use rain or reverse-osmosis water."
        pure = 1 - wanted / value
        return (
            f"Mix {pure:.0%} of rain or reverse-osmosis water into the change water to come down to "
            f"{wanted:.3g} {field.unit}."
        )
    if too == "high":
        return (
            f"To come down to {wanted:.3g}, lower KH by mixing in rain or reverse-osmosis water, a little "
            "at each change; acid alone makes the pH swing. Or choose animals of your water."
        )
    return f"To come up to {wanted:.3g}, raise KH a degree or two with coral sand or bicarbonate, slowly."


def _temperature_remedy(facts: Facts, own: Own, too: str, wanted: float) -> str:
    if own.origin == "the room's":
        if too == "low":
            return f"Add a heater that holds at least {wanted:.3g} °C."
        return f"Find a place that stays below {wanted:.3g} °C, or cool with a fan over the surface."
    animals = limits([group.species for group in facts.groups], "temperature")
    shared = common([limit.comfort for limit in animals])
    swing = (own.high - own.low) / 2
    if shared.width >= 2 * swing:
        low, high = shared.low + swing, shared.high - swing
        return f"Set the heater between {low:.3g} and {high:.3g} °C, by 1 K a day at most."
    return "No setting suits all; see which of them share a band with: stockcheck setpoint PLAN."


def clear(name: str, scored: Sequence[tuple[float, Limit]]) -> Iterator[Finding]:
    """The headroom of those that do well, as a finding that is never shown."""
    well = [headroom for headroom, _ in scored if headroom >= AT_COMFORT]
    if well:
        yield Finding(name, "clear", "", headroom=min(well))


def finding(name: str, headroom: float, message: str, remedy: str, hurt: Sequence[Limit]) -> Finding:
    """A finding graded by its least known band, with the sources of all."""
    return Finding(
        name,
        level_of(headroom),
        message,
        remedy,
        species=tuple(limit.taxon.slug for limit in hurt),
        grade=max((limit.band.grade for limit in hurt), key=GRADES.index),
        sources=tuple(dict.fromkeys(source for limit in hurt for source in limit.band.sources))[
            :_MOST_SOURCES
        ],
        headroom=min(headroom, CLEAR),
    )


def kh_known(facts: Facts) -> str:
    """For how many of the plan's animals and plants any source states a KH."""
    taxa: list[Taxon] = [*(g.species for g in facts.groups), *(p.species for p in facts.plantings)]
    known, count = len(limits(taxa, KH.name)), len({taxon.slug for taxon in taxa})
    if known == 0:
        return f"No source in the table states a KH for any of the {count} kinds here."
    return f"Sources state a KH for {known} of the {count} kinds here."


def plainly(taxa: Sequence[Taxon]) -> str:
    return listed([name_of(taxon) for taxon in taxa])


def need(taxa: Sequence[Taxon]) -> str:
    return "needs" if len(taxa) == 1 else "need"


def with_spans(found: Sequence[Limit], field: Field) -> str:
    """``guppy (comfortable 22 to 28 °C, tolerates 18 to 30) and platy (20 to 26 °C by one source)``."""
    return listed([f"{name_of(limit.taxon)} ({_bands(limit, field)})" for limit in found])


def _bands(limit: Limit, field: Field) -> str:
    comfort = in_unit(limit.comfort, field)
    if limit.band.origins <= 1:
        return f"{comfort} by one source"
    if limit.tolerance == limit.comfort:
        return comfort
    return f"comfortable {comfort}, tolerates {_ends(limit.tolerance)}"


def in_unit(span: Span, field: Field) -> str:
    """``22 to 28 °C``"""
    return f"{_ends(span)} {field.unit}".rstrip()


def _ends(span: Span) -> str:
    if not isfinite(span.low):
        return f"up to {span.high:.3g}"
    return f"{span.low:.3g} to {span.high:.3g}" if isfinite(span.high) else f"from {span.low:.3g}"
