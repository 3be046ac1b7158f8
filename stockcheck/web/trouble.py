"""What a reader gets when a page cannot be given: the reason, calmly; a fault of ours goes to the log."""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable
from typing import Any

from datasette.utils.asgi import Base400, Response
from datasette.views.base import DatasetteError
from markupsafe import Markup

from stockcheck.report.text_catalogue import text
from stockcheck.web.reply import page

_LOG = logging.getLogger("stockcheck.web")


def answer_to(datasette: Any, request: Any, exception: Exception) -> Callable[[], Awaitable[Response]]:
    """The error page, or JSON where JSON was asked for."""
    status, title, message = _told(exception)
    if status >= 500:
        _LOG.error("%s failed", request.path, exc_info=exception)

    async def answer() -> Response:
        if request.path.endswith(".json"):
            told = {"ok": False, "error": str(message), "status": status, "title": title}
            return Response.json(told, status=status)
        context = {"title": title, "error": message, "status": status}
        return await page(datasette, request, "error.html", context, status)

    return answer


def _told(exception: Exception) -> tuple[int, str | None, str]:
    if isinstance(exception, DatasetteError):
        message = exception.message
        # datasette leaves 500 where it found fault with what was asked, as a column that is not there
        status = 400 if exception.status == 500 else exception.status
        return status, exception.title, Markup(message) if exception.message_is_html else message
    if isinstance(exception, Base400):
        return exception.status, None, str(exception.args[0]) if exception.args else ""
    return 500, None, text("error.ours")
