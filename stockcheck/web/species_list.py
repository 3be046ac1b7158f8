"""The list of species: datasette's own table page, with bands in its cells and "suits my water" filters."""

from __future__ import annotations

from typing import Any

from datasette.filters import FilterArguments
from markupsafe import Markup

from stockcheck.advice.suits import POSSIBLE
from stockcheck.report.pictures.bands import thumbnail
from stockcheck.report.pictures.fields import FIELDS, WATER_FIELDS
from stockcheck.report.text_catalogue import term, text
from stockcheck.units import UnitError, parse_between
from stockcheck.web.zone_facet import ARGUMENT as ZONE

TABLES = ("species", "plants")


def raw(row: Any) -> dict[str, Any]:
    """The values of a row of datasette's table page, by column."""
    return {cell["column"]: cell["raw"] for cell in row}


def facet_name(column: str) -> str:
    """The heading of a facet; the column's own name where the catalogue has none."""
    try:
        return text(f"facet.{column}")
    except KeyError:
        return column


def thumb(row: Any, field: str) -> Markup:
    """The cell of one field: its band drawn small, and in figures."""
    low, high = row[f"{field}ComfortLow"], row[f"{field}ComfortHigh"]
    if low is None and high is None:
        return Markup('<span class="none">') + text("picture.not_known") + Markup("</span>")
    least, most = row[f"{field}ToleranceLow"], row[f"{field}ToleranceHigh"]
    return Markup(thumbnail(FIELDS[field], low, high, least, most))


def filters(request: Any) -> FilterArguments:
    """Where-clauses for a name typed in and for the water asked about (``_temperature=24 degC`` ...).

    A taxon of which a field is not known passes that field, as in ``stockcheck species``.
    """
    fit = "Tolerance" if request.args.get("_fit") == "Tolerance" else "Comfort"
    clauses: list[str] = []
    values: dict[str, Any] = {}
    said: list[str] = []
    faults: dict[str, str] = {}
    if asked := request.args.get("_name", "").strip():
        clauses.append("slug in (select slug from names where instr(lower(name), lower(:_asked)))")
        values["_asked"] = asked
        said.append(text("list.named", name=asked))
    for n, zone in enumerate(request.args.getlist(ZONE)):
        clauses.append(f"instr('|' || zone || '|', :_zone{n}) > 0")
        values[f"_zone{n}"] = f"|{zone}|"
        said.append(text("list.lives", zone=term("zone", zone)))
    for field in WATER_FIELDS:
        typed = request.args.get(f"_{field.name}", "").strip()
        if not typed:
            continue
        try:
            value = parse_between(typed, field.name, *POSSIBLE[field.name])
        except UnitError as error:
            faults[field.name] = f"{error.problem}. {error.remedy}"
            continue
        for end, sign in (("Low", "<="), ("High", ">=")):
            column = f"{field.name}{fit}{end}"
            clauses.append(f"({column} is null or {column} {sign} :_{field.name})")
        values[f"_{field.name}"] = value
        said.append(text("list.suits", field=field.label, value=field.value(value)))
    return FilterArguments(
        clauses, params=values, human_descriptions=said, extra_context={"water_faults": faults}
    )
