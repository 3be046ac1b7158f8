"""The front page and the search over all names."""

from __future__ import annotations

from typing import Any

from datasette.utils.asgi import Response

from stockcheck.report.pictures.portrait import portrait
from stockcheck.web.house import House, house_of
from stockcheck.web.reply import page

_MOST_FOUND = 60


async def front(datasette: Any, request: Any) -> Response:
    """Search, what the table holds, and the ways in."""
    house = house_of(datasette)
    assert house is not None
    (sources,) = (
        await datasette.get_database(house.database).execute("select count(*) from sources")
    ).first()
    context = {"stamp": house.table.stamp(), "portrait": _portrait(house), "sources": sources}
    return await page(datasette, request, "front.html", context)


def _portrait(house: House) -> str:
    return portrait([taxon for taxon in house.table.all_species() if taxon.band("temperature")])


async def find(datasette: Any, request: Any) -> Response:
    """Straight to the page of the one taxon that is meant; else a list of what may be meant."""
    house = house_of(datasette)
    assert house is not None
    asked = request.args.get("q", "").strip()[:200]
    matches = house.table.find(asked)
    if len(matches) == 1 and not matches[0].partial:
        return Response.redirect(datasette.urls.path(f"/species/{matches[0].slug}"))
    found = [(match.slug, match.matched_name, match.scientific_name) for match in matches]
    seen = {slug for slug, _, _ in found}
    for slug, name, scientific in await _full_text(datasette, house, asked):
        if slug not in seen:
            found.append((slug, name, scientific))
            seen.add(slug)
    context = {
        "asked": asked,
        "found": found[:_MOST_FOUND],
        "nearest": house.table.nearest(asked) if asked and not found else [],
    }
    return await page(datasette, request, "find.html", context)


async def _full_text(datasette: Any, house: House, asked: str) -> list[tuple[str, str, str]]:
    """Taxa with a name that contains every word asked for, the last word as a beginning."""
    words = ["".join(c for c in word if c.isalnum()) for word in asked.split()]
    words = [word for word in words if word]
    if not words:
        return []
    query = " ".join(f'"{word}"' for word in words) + "*"
    rows = await datasette.get_database(house.database).execute(
        "select n.slug, n.name, t.scientificName from names_fts f join names n on n.id = f.rowid "
        "join taxa t using (slug) where names_fts match ? group by n.slug order by rank limit ?",
        [query, _MOST_FOUND],
    )
    return [tuple(row) for row in rows.rows]
