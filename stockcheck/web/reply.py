"""How our own pages are answered: rendered by datasette, with headers that let in nothing from outside."""

from __future__ import annotations

from typing import Any

from datasette.utils.asgi import Response

_HEADERS = {
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data: blob:; "
    "style-src 'self' 'unsafe-inline'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
}


async def page(
    datasette: Any, request: Any, template: str, context: dict[str, Any], status: int = 200
) -> Response:
    """A page of ours."""
    body = await datasette.render_template(template, context, request=request)
    return Response.html(body, status=status, headers=dict(_HEADERS))


def download(body: str, name: str, content_type: str) -> Response:
    """A file to keep; ``name`` must be plain ASCII without quotes."""
    return Response(
        body,
        content_type=content_type,
        headers={
            "Content-Disposition": f'attachment; filename="{name}"',
            "X-Content-Type-Options": "nosniff",
        },
    )
