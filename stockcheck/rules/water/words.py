"""What the water rules say and advise."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isfinite

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.bands import Limit, Span, Taxon, common, limits, name_of
from stockcheck.rules.comfort import AT_COMFORT, GH, KH, Field
from stockcheck.rules.core import CLEAR, Finding, level_of
from stockcheck.rules.water.own import ROOM, TARGET, Own
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
    stated, where = sentence(_stated(field, own, value)), _where(hurt, value, level_of(worst))
    message = say(
        "{stated} is too {word} for {with_spans}: {where}.",
        stated=stated,
        word=word,
        with_spans=with_spans(hurt, field),
        where=where,
    )
    remedy = _remedy(facts, field, own, too, hurt)
    if plants:
        message += (
            say(" It may melt or stop growing.") if len(hurt) == 1 else say(" They may melt or stop growing.")
        )
        remedy = say("Choose plants for the animals' water; it is easier than the other way round.")
    return finding(name, worst, message, remedy, hurt)


def _where(hurt: Sequence[Limit], value: float, level: str) -> str:
    """How far out a value is, as well as each band is known; by name where it is not the same for all."""
    ways: dict[str, list[str]] = {}
    for limit in hurt:
        if limit.band.origins <= 1:
            way = say("outside what the one source states")
        elif limit.tolerance.beyond(value) > 0:
            way = say("just past what is tolerated") if level == "watch" else say("outside what is tolerated")
        else:
            way = say("outside comfort")
        ways.setdefault(way, []).append(name_of(limit.taxon))
    if len(ways) == 1:
        return next(iter(ways))
    return "; ".join(say("{way} for {names}", way=way, names=listed(names)) for way, names in ways.items())


def _stated(field: Field, own: Own, value: float) -> str:
    """``24 °C of the heater`` as a sentence starts with it."""
    if field.name == "temperature":
        if own.origin == ROOM:
            return say("unheated, the water goes with the room to {value:.3g} °C, which", value=value)
        setpoint = (own.low + own.high) / 2
        return say(
            "the setpoint of {setpoint:.3g} °C (with its swing {own_low:.3g} to {own_high:.3g} °C)",
            setpoint=setpoint,
            own_low=own.low,
            own_high=own.high,
        )
    unit = f" {field.unit}" if field.unit else ""
    if own.origin == TARGET:
        return say(
            "the target of {value:.3g}{unit} {field_name}", value=value, unit=unit, field_name=field.name
        )
    return say(
        "{origin} {field_name} of {value:.3g}{unit}",
        origin=own.origin,
        field_name=field.name,
        value=value,
        unit=unit,
    )


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
        tap = facts.plan.tap.GH_dgh if field is GH else facts.plan.tap.KH_dkh
        added = value if tap is None or own.origin == TARGET else tap
        suits = all(limit.comfort.holds(added) for limit in hurt)
        if facts.plan.routine.water_change and suits and added != value:
            return say(
                "Changes with the tap's own {added:.3g} {unit} bring it there by themselves.",
                added=added,
                unit=field.unit,
            )
        if too == "low":
            minerals = (
                say("a calcium and magnesium salt mix") if field is GH else say("bicarbonate or coral sand")
            )
            return say(
                "Raise it by {wanted:.2g} {unit} with {minerals}, over a week or two.",
                wanted=wanted - value,
                unit=field.unit,
                minerals=minerals,
            )
        pure = pure_share(added, wanted)
        if pure is None:
            return say("Use rain or reverse-osmosis water.")
        return say(
            "Mix {pure:.0%} of rain or reverse-osmosis water into the change water to come down to "
            "{wanted:.3g} {unit}.",
            pure=pure,
            wanted=wanted,
            unit=field.unit,
        )
    if too == "high":
        return say(
            "To come down to {wanted:.3g}, lower KH by mixing in rain or reverse-osmosis water, a "
            "little at each change; acid alone makes the pH swing. Or choose animals of your water.",
            wanted=wanted,
        )
    return say(
        "To come up to {wanted:.3g}, raise KH a degree or two with coral sand or bicarbonate, slowly.",
        wanted=wanted,
    )


def pure_share(added: float, wanted: float) -> float | None:
    """Share of pure water in the change water that brings its hardness down; ``None`` where all must be."""
    return 1 - wanted / added if 0 < wanted < added else None


def drifted(
    field: Field,
    now: float,
    added: float,
    changes: int,
    every_days: float,
    too: str,
    hurt: Sequence[Limit],
    level: str,
) -> str:
    """Where water changes take the tank, how soon, and whom that does not suit."""
    return say(
        "Water changes bring the tank's {field_name} from {now:.3g} to about {added}, that of the added "
        "water, within {changes} changes ({days:.0f} days): too {too} for {with_spans}, {where}.",
        now=now,
        added=f"{added:.3g} {field.unit}".rstrip(),
        field_name=field.name,
        changes=changes,
        days=changes * every_days,
        too=say("low") if too == "low" else say("high"),
        with_spans=with_spans(hurt, field),
        where=_where(hurt, added, level),
    )


def _temperature_remedy(facts: Facts, own: Own, too: str, wanted: float) -> str:
    if own.origin == ROOM:
        if too == "low":
            return say("Add a heater that holds at least {wanted:.3g} °C.", wanted=wanted)
        return say(
            "Find a place that stays below {wanted:.3g} °C, or cool with a fan over the surface.",
            wanted=wanted,
        )
    animals = limits([group.species for group in facts.groups], "temperature")
    shared = common([limit.comfort for limit in animals])
    swing = (own.high - own.low) / 2
    if shared.width >= 2 * swing:
        low, high = shared.low + swing, shared.high - swing
        return say(
            "Set the heater between {low:.3g} and {high:.3g} °C, by 1 K a day at most.", low=low, high=high
        )
    if shared.width >= swing:
        return say(
            "Set the heater to {middle:.3g} °C, the middle of what all share; a thermostat that strays less "
            "would keep to it.",
            middle=(shared.low + shared.high) / 2,
        )
    return say("No setting suits all: the setpoint's own paragraph says which of them share a band.")


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
    if count == 1:
        return "" if known else say("No source in the table states a KH for it.")
    if known == count:
        return say("Sources state a KH for all of them.")
    if known == 0:
        return say("No source in the table states a KH for any of the {count} kinds here.", count=count)
    return say("Sources state a KH for {known} of the {count} kinds here.", known=known, count=count)


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
        return say("{comfort} by one source", comfort=comfort)
    if limit.tolerance == limit.comfort:
        return comfort
    return say("comfortable {comfort}, tolerates {ends}", comfort=comfort, ends=_ends(limit.tolerance))


def in_unit(span: Span, field: Field) -> str:
    """``22 to 28 °C``"""
    return f"{_ends(span)} {field.unit}".rstrip()


def _ends(span: Span) -> str:
    if not isfinite(span.low):
        return say("up to {span_high:.3g}", span_high=span.high)
    return (
        say("{span_low:.3g} to {span_high:.3g}", span_low=span.low, span_high=span.high)
        if isfinite(span.high)
        else say("from {span_low:.3g}", span_low=span.low)
    )
