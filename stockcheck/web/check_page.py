"""A plan pasted, uploaded or filled in, and its report; nothing is stored."""

from __future__ import annotations

from typing import Any

from datasette.utils.asgi import Response

from stockcheck.check import check_text
from stockcheck.plan.faults import Fault, PlanError
from stockcheck.report.html import report_fragment
from stockcheck.report.text_catalogue import text
from stockcheck.table.location import data_dir
from stockcheck.table.read import Table
from stockcheck.web.house import house_of
from stockcheck.web.plan_form import Asked, asked, listings, parts, plan_text
from stockcheck.web.reply import download, page
from stockcheck.web.submission import MOST_CHARACTERS, NotUsable, fields_of


def examples() -> dict[str, str]:
    """The demo plans that ship with the table, by name."""
    folder = data_dir() / "plans"
    return {path.stem: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.toml"))}


async def check(datasette: Any, request: Any) -> Response:
    """The page: the forms, and the report of what was sent."""
    house = house_of(datasette)
    assert house is not None
    fields: dict[str, str] = {}
    plan, refused, filled_in = "", "", False
    if request.method == "POST":
        try:
            fields = await fields_of(request)
            filled_in = "fill" in fields
            plan = plan_text(fields, house.table) if filled_in else _sent(fields)
        except NotUsable as error:
            refused = text(f"check_page.{error}", most=f"{MOST_CHARACTERS:,}")
    else:
        plan = examples().get(request.args.get("example", ""), "")
    context: dict[str, Any] = {
        "plan": plan,
        "refused": refused,
        "filled_in": filled_in,
        "fields": fields if filled_in else {},
        "examples": list(examples()),
        "parts": parts(),
        "listings": listings(house.table),
        "report": "",
        "faults": [],
        "wrong": set(),
    }
    if plan.strip():
        names = asked(house.table) if filled_in else {}
        context |= _answer(plan, house.table, datasette.urls.path("/rules"), names)
    elif request.method == "POST" and not refused:
        context["refused"] = text("check_page.nothing_sent")
    return await page(datasette, request, "check.html", context, 400 if refused else 200)


def _sent(fields: dict[str, str]) -> str:
    """The uploaded file if there is one, else the text."""
    upload = fields.get("file", "")
    plan = upload if upload.strip() else fields.get("plan", "")
    if len(plan) > MOST_CHARACTERS:
        raise NotUsable("too_large")
    if "\0" in plan:
        raise NotUsable("not_text")
    return plan.replace("\r\n", "\n")


def _answer(plan: str, table: Table, rules_address: str, names: dict[str, Asked]) -> dict[str, Any]:
    try:
        return {"report": report_fragment(check_text(plan, table), rules_address)}
    except PlanError as error:
        wrong = {names[fault.key].name for fault in error.faults if fault.key in names}
        return {"faults": [_told(fault, names) for fault in error.faults], "wrong": wrong}


def _told(fault: Fault, names: dict[str, Asked]) -> dict[str, str]:
    """A fault by its place in the text, or by the field of the form that it was typed into."""
    if fault.key in names:
        field = names[fault.key]
        said = {"problem": fault.problem, "remedy": fault.remedy}
        return {"place": field.label, "field": field.name, **said}
    line = "" if fault.line is None else text("check_page.line", line=fault.line)
    return {
        "place": " · ".join(part for part in (line, fault.key) if part),
        "problem": fault.problem,
        "remedy": fault.remedy,
    }


async def plan_file(datasette: Any, request: Any) -> Response:
    """The plan just checked, handed back as a file."""
    if request.method != "POST":
        return Response.redirect(datasette.urls.path("/check"))
    try:
        plan = _sent(await fields_of(request))
    except NotUsable as error:
        return Response.text(text(f"check_page.{error}", most=f"{MOST_CHARACTERS:,}"), status=400)
    return download(plan, "plan.toml", "application/toml; charset=utf-8")
