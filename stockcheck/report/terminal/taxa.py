"""One taxon with its bands and traits, and lists of taxa."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING

from rich.padding import Padding
from rich.text import Text

from stockcheck.advice.suits import FITS
from stockcheck.language import say
from stockcheck.report.bands import UNITS, BandRow, draw_bands
from stockcheck.report.terminal.page import columns, indented, page
from stockcheck.report.wording import GRADE_WORDS, number, span_text
from stockcheck.table.model import PlantSpecies, Species

if TYPE_CHECKING:
    from stockcheck.advice.suits import Suited
    from stockcheck.table.read import Table


def print_taxon(taxon: Species | PlantSpecies, table: Table, width: int | None = None) -> None:
    """One taxon: what it is, its bands drawn and with their sources, its traits with their basis."""
    with page(width) as out:
        title = Text(taxon.scientific_name, style="bold italic")
        title.append(f"  {taxon.common_name}", style="not italic")
        out.print(title)
        kind = (
            f"{taxon.kind}, {taxon.group}"
            if isinstance(taxon, Species)
            else say("plant, {habit}", habit=taxon.habit)
        )
        out.print(
            Text(
                say(
                    "{kind}; family {family}; evidence grade {grade}, {grade_words}",
                    kind=kind,
                    family=taxon.family,
                    grade=taxon.grade,
                    grade_words=GRADE_WORDS[taxon.grade],
                )
            )
        )
        for field, unit in UNITS.items():
            band = taxon.band(field)
            lines = draw_bands([BandRow(f"  {field}", band)], None, out.width, 14)
            if band is None:
                out.print(Text(f"\n  {field}: no source states it"))
                continue
            out.print()
            for line in lines:
                out.print(Text(line), no_wrap=True, crop=True)
            comfort = span_text(band.comfort_low, band.comfort_high, unit)
            tolerance = span_text(band.tolerance_low, band.tolerance_high, unit)
            out.print(
                Text(say("  comfort {comfort}, tolerated {tolerance}", comfort=comfort, tolerance=tolerance))
            )
            out.print(
                Padding(Text(_origin(band.grade, band.origins, band.sources), style="dim"), (0, 0, 0, 2))
            )
            if band.note:
                out.print(Padding(Text(band.note, style="dim"), (0, 0, 0, 2)))
        others = [band for name, band in taxon.bands.items() if name not in UNITS]
        if others:
            out.print()
            grid = columns()
            for band in others:
                unit = "" if band.unit == "count" else band.unit
                span = span_text(band.comfort_low, band.comfort_high, unit)
                grid.add_row(
                    _words(band.field),
                    span,
                    say("grade {grade}", grade=band.grade),
                    ", ".join(band.sources),
                )
            out.print(indented(grid))
        out.print()
        grid = columns()
        for name, value in _traits(taxon):
            grid.add_row(_words(name), _trait_text(value), taxon.basis.get(name, ""))
        out.print(Text(say("Traits, each with its basis"), style="bold"))
        out.print(indented(grid))
        if taxon.remarks:
            out.print()
            out.print(Text(say("Remarks: {remarks}.", remarks=taxon.remarks.rstrip("."))))
        if taxon.restricted:
            out.print()
            out.print(
                Text(
                    say(
                        "The law: {restricted}. Check your local law; never release an animal or a plant.",
                        restricted=taxon.restricted,
                    )
                )
            )


def _origin(grade: str, origins: int, sources: tuple[str, ...]) -> str:
    count = say(
        "{origins} independent {sources}",
        origins=origins,
        sources=say("source") if origins == 1 else say("sources"),
    )
    return say("grade {grade}, {count}: {sources}", grade=grade, count=count, sources=", ".join(sources))


def _words(name: str) -> str:
    return name.replace("_", " ")


def _traits(taxon: Species | PlantSpecies) -> list[tuple[str, object]]:
    named = {
        "slug",
        "scientific_name",
        "common_name",
        "kind",
        "group",
        "family",
        "basis",
        "bands",
        "grade",
        "restricted",
        "remarks",
    }
    return [
        (item.name, value)
        for item in fields(taxon)
        if item.name not in named and (value := getattr(taxon, item.name)) not in (None, "", ())
    ]


def _trait_text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(value)
    return number(value) if isinstance(value, float) else str(value)


def print_suited(found: list[Suited], water: dict[str, float], width: int | None = None) -> None:
    """The taxa that a water suits, one a line."""
    with page(width) as out:
        asked = ", ".join(
            f"{name} {number(value)}{'' if name == 'pH' else ' ' + UNITS[name]}"
            for name, value in water.items()
        )
        comfortable, tolerant, unknown = (sum(suited.fit == fit for suited in found) for fit in FITS)
        summary = say(
            "Comfortable at {asked}: {comfortable}; {tolerant} more tolerate it",
            asked=asked,
            comfortable=comfortable,
            tolerant=tolerant,
        )
        summary += say("; of {unknown} no source says.", unknown=unknown) if unknown else "."
        out.print(Text(summary if water else say("{found} taxa", found=len(found)), style="bold"))
        grid = columns()
        for suited in found:
            note = suited.fit if water else ""
            if suited.unstated:
                note += f" (no source states {', '.join(suited.unstated)})"
            grid.add_row(Text(suited.taxon.scientific_name, style="italic"), suited.taxon.common_name, note)
        out.print(indented(grid))
