"""The datasette plugin: our pages, our look, and cells that link to them.

It keeps still in a datasette that does not serve the species table.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Generator
from hashlib import sha256
from html import escape
from importlib.resources import files
from typing import Any
from urllib.parse import quote, urlsplit

from datasette import hookimpl
from datasette.filters import FilterArguments
from datasette.utils.asgi import Response
from jinja2 import ChoiceLoader, Environment, FileSystemLoader
from markupsafe import Markup

from stockcheck.language import spoken
from stockcheck.report.html import style_sheet
from stockcheck.report.pictures.marks import level_mark
from stockcheck.report.text_catalogue import term, text
from stockcheck.report.wording import shown_unit
from stockcheck.web import check_page, front, overlap_page, rules_page, species_list, species_page
from stockcheck.web.house import house_of
from stockcheck.web.trouble import answer_to
from stockcheck.web.zone_facet import ZoneFacet

View = Callable[..., Awaitable[Response]]
_HERE = files("stockcheck.web")
_ASSETS = {
    "look.css": (style_sheet().encode(), "text/css"),
    "look.js": (_HERE.joinpath("static", "look.js").read_bytes(), "text/javascript"),
}
#: In the address of an asset, so that a changed one is fetched anew.
_EDITION = sha256(b"".join(body for body, _ in _ASSETS.values())).hexdigest()[:10]


@hookimpl  # type: ignore[untyped-decorator]
def register_routes(datasette: Any) -> list[tuple[str, View]]:
    if house_of(datasette) is None:
        return []
    return [
        (r"^/$", front.front),
        (r"^/find$", front.find),
        (r"^/species/(?P<slug>[a-z0-9-]+)$", species_page.taxon),
        (r"^/overlap$", overlap_page.overlap),
        (r"^/overlap\.svg$", overlap_page.overlap_svg),
        (r"^/check$", check_page.check),
        (r"^/check/plan\.toml$", check_page.plan_file),
        (r"^/rules$", rules_page.rules),
        (r"^/look/(?P<name>look\.(css|js))$", _asset),
    ]


async def _asset(request: Any) -> Response:
    body, kind = _ASSETS[request.url_vars["name"]]
    return Response(
        body, content_type=f"{kind}; charset=utf-8", headers={"Cache-Control": "max-age=31536000, immutable"}
    )


@hookimpl  # type: ignore[untyped-decorator]
def prepare_jinja2_environment(env: Environment, datasette: Any) -> None:
    house = house_of(datasette)
    if house is None:
        return
    ours = FileSystemLoader(str(_HERE.joinpath("templates")))
    env.loader = ChoiceLoader([ours, env.loader]) if env.loader else ours
    env.globals.update(
        t=text,
        term=term,
        spoken=spoken(),
        house=house,
        example=overlap_page.EXAMPLE,
        asset=lambda name: datasette.urls.path(f"/look/{name}?{_EDITION}"),
    )
    env.filters.update(
        thumb=species_list.thumb,
        raw=species_list.raw,
        facet_name=species_list.facet_name,
        mark=lambda level: Markup(level_mark(level)),
        unit=shown_unit,
    )


@hookimpl  # type: ignore[untyped-decorator]
def get_metadata(datasette: Any, key: str | None, database: str | None, table: str | None) -> dict[str, Any]:
    house = house_of(datasette)
    return {} if house is None else house.metadata


@hookimpl  # type: ignore[untyped-decorator]
def filters_from_request(request: Any, database: str, table: str, datasette: Any) -> FilterArguments | None:
    house = house_of(datasette)
    if house is None or database != house.database or table not in species_list.TABLES:
        return None
    return species_list.filters(request)


@hookimpl  # type: ignore[untyped-decorator]
def register_facet_classes() -> list[type[ZoneFacet]]:
    return [ZoneFacet]


@hookimpl  # type: ignore[untyped-decorator]
def render_cell(value: Any, column: str, database: str, datasette: Any) -> Markup | None:
    """A slug becomes a link to its page, a long address one that shows its host."""
    if column not in ("slug", "other", "url") or not value:
        return None
    house = house_of(datasette)
    if house is None or database != house.database:
        return None
    if column == "url":
        return _outside(str(value))
    slug, label = (value["value"], value["label"]) if isinstance(value, dict) else (value, value)
    address = datasette.urls.path(f"/species/{quote(str(slug))}")
    return Markup(f'<a href="{escape(address)}">{escape(str(label))}</a>')


def _outside(address: str) -> Markup | None:
    parts = urlsplit(address)
    if parts.scheme not in ("http", "https"):
        return None
    return Markup(f'<a rel="noreferrer nofollow" href="{escape(address)}">{escape(parts.netloc)}</a>')


@hookimpl(hookwrapper=True)  # type: ignore[untyped-decorator]
def handle_exception(datasette: Any, request: Any, exception: Exception) -> Generator[None, Any, None]:
    """Around datasette's own answer, which would print a long traceback for every mistyped query."""
    answers = yield
    if house_of(datasette) is not None:
        answers.force_result([answer_to(datasette, request, exception)])


@hookimpl  # type: ignore[untyped-decorator]
def menu_links(datasette: Any) -> list[dict[str, str]]:
    if (house := house_of(datasette)) is None:
        return []
    return [
        {"href": datasette.urls.table(house.database, "species"), "label": text("nav.species")},
        {"href": datasette.urls.table(house.database, "plants"), "label": text("nav.plants")},
        {"href": datasette.urls.path("/overlap"), "label": text("nav.overlap")},
        {"href": datasette.urls.path("/check"), "label": text("nav.check")},
        {"href": datasette.urls.path("/rules"), "label": text("nav.rules")},
        {"href": datasette.urls.database(house.database), "label": text("nav.data")},
    ]
