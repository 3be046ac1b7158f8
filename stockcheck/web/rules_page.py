"""Every rule of the check with its page."""

from __future__ import annotations

from inspect import cleandoc
from typing import Any

from datasette.utils.asgi import Response

import stockcheck.rules  # noqa: F401  (importing it registers every rule)
from stockcheck.rules.core import AXES, RULES
from stockcheck.web.reply import page


async def rules(datasette: Any, request: Any) -> Response:
    """The rules by axis, each with its reasoning, its sources and the examples that run as tests."""
    by_axis = [
        (
            axis,
            [
                {
                    "name": rule.name,
                    "paragraphs": cleandoc(rule.page).split("\n\n"),
                    "sources": rule.sources,
                    "trips": cleandoc(rule.trips),
                    "clears": cleandoc(rule.clears),
                }
                for rule in sorted(RULES.values(), key=lambda rule: rule.name)
                if rule.axis == axis
            ],
        )
        for axis in AXES
    ]
    context = {"by_axis": by_axis, "open": request.args.get("open", "")}
    return await page(datasette, request, "rules.html", context)
