"""Several taxa on one chart, at an address that can be shared: ``/overlap?names=SLUG,SLUG``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from datasette.utils.asgi import Response

from stockcheck.advice.setpoint import setpoint_of_species
from stockcheck.advice.setpoint_model import Setpoint
from stockcheck.report.pictures.fields import WATER_FIELDS
from stockcheck.report.pictures.overlap import (
    Chart,
    Dial,
    common_band,
    common_words,
    overlap_panel,
    overlap_sheet,
)
from stockcheck.report.pictures.svg import TO_KEEP
from stockcheck.rules.bands import Taxon, name_of
from stockcheck.table.read import Match, Table
from stockcheck.web.house import house_of
from stockcheck.web.reply import download, page

#: More rows than this are no chart any more.
MOST_TAXA = 40
#: A shorthand that fits more taxa than this is too short to choose from.
MOST_CHOICES = 60
#: Five animals that are often kept together.
EXAMPLE = (
    "/overlap?names=poecilia-reticulata,trigonostigma-heteromorpha,corydoras-paleatus,"
    "neocaridina-davidi,ancistrus-cirrhosus"
)


@dataclass(frozen=True)
class Unclear:
    """A name typed in that is not one taxon: what it may mean, or what is spelled like it."""

    name: str
    known: bool  # the table has it, more than once
    choices: tuple[tuple[str, str], ...]


def taxon_of(table: Table, match: Match) -> Taxon:
    return table.species(match.slug) if match.kind == "animal" else table.plant(match.slug)


def taxon_of_slug(table: Table, slug: str) -> Taxon | None:
    """The animal or plant of a slug."""
    for look_up in (table.species, table.plant):
        try:
            return look_up(slug)
        except KeyError:
            continue
    return None


def chosen(table: Table, names: list[str]) -> tuple[list[Taxon], list[Unclear]]:
    """The taxa of slugs or names, each once, and the names that are not clear."""
    taxa: dict[str, Taxon] = {}
    unclear = []
    for name in names[:MOST_TAXA]:
        taxon = taxon_of_slug(table, name)
        if taxon is None:
            matches = table.find(name)
            if len(matches) == 1 and not matches[0].partial:
                taxon = taxon_of(table, matches[0])
            else:
                unclear.append(_unclear(table, name, matches))
                continue
        taxa[taxon.slug] = taxon
    return list(taxa.values()), unclear


def _unclear(table: Table, name: str, matches: list[Match]) -> Unclear:
    found = [(match.slug, match.scientific_name) for match in matches[:MOST_CHOICES]]
    if not found:
        found = [(table.find(near)[0].slug, near) for near in table.nearest(name) if table.find(near)]
    return Unclear(name, bool(matches), tuple(found))


def address(taxa: list[Taxon]) -> str:
    return "/overlap?names=" + ",".join(quote(taxon.slug) for taxon in taxa)


def _names(request: Any) -> list[str]:
    listed = [name for value in request.args.getlist("names") for name in value.split(",")]
    return [name.strip()[:120] for name in listed if name.strip()]


async def overlap(datasette: Any, request: Any) -> Response:
    """The page: chart, what is common, the setpoint, and the form that adds another."""
    house = house_of(datasette)
    assert house is not None
    taxa, unclear = chosen(house.table, _names(request))
    if added := [name.strip()[:120] for name in request.args.get("add", "").split(",") if name.strip()]:
        more, doubtful = chosen(house.table, added)
        taxa = list({taxon.slug: taxon for taxon in [*taxa, *more]}.values())
        unclear += doubtful
        if not unclear:
            return Response.redirect(datasette.urls.path(address(taxa)))
    with_too = address(taxa) + ("," if taxa else "")
    context: dict[str, Any] = {
        "taxa": [(taxon, name_of(taxon), address([x for x in taxa if x is not taxon])) for taxon in taxa],
        "slugs": ",".join(taxon.slug for taxon in taxa),
        "address": address(taxa),
        "unclear": [(u, [(choice, with_too + slug) for slug, choice in u.choices]) for u in unclear],
    }
    if taxa:
        answer = setpoint_of_species(taxa)
        chart = Chart(taxa, dial_of(answer))
        context |= {
            "sheet": overlap_sheet(chart, WATER_FIELDS),
            "panels": [overlap_panel(chart, field) for field in WATER_FIELDS],
            "setpoint": answer,
            "sentences": [common_words(f, common_band(taxa, f.name), len(taxa)) for f in WATER_FIELDS],
        }
    return await page(datasette, request, "overlap.html", context)


def dial_of(answer: Setpoint) -> Dial | None:
    return None if answer.value_c is None else Dial(answer.value_c, answer.swing_c)


async def overlap_svg(datasette: Any, request: Any) -> Response:
    """The chart as a file to keep."""
    house = house_of(datasette)
    assert house is not None
    taxa, _ = chosen(house.table, _names(request))
    if not taxa:
        return Response.text("", status=404)
    chart = Chart(taxa, dial_of(setpoint_of_species(taxa)), ink=TO_KEEP)
    return download(overlap_sheet(chart, WATER_FIELDS), "overlap.svg", "image/svg+xml; charset=utf-8")
