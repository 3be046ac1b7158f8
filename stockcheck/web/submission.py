"""What a form sends: fields and an uploaded file, from either encoding a browser uses."""

from __future__ import annotations

from email.parser import BytesParser
from email.policy import HTTP
from typing import Any
from urllib.parse import parse_qsl

#: One tank's plan is a page or two; what is longer was sent by mistake.
MOST_CHARACTERS = 60_000
_MOST_BYTES = 4 * MOST_CHARACTERS + 20_000


class NotUsable(ValueError):
    """What was sent cannot be read; the message key says why."""


async def fields_of(request: Any) -> dict[str, str]:
    """The form's fields by name; a file's text under its field's name.

    Raises
    ------
    NotUsable
        ``too_large`` or ``not_text``, a key of the catalogue's ``check_page``.
    """
    if int(request.headers.get("content-length") or 0) > _MOST_BYTES:
        raise NotUsable("too_large")
    body = await request.post_body()
    if len(body) > _MOST_BYTES:
        raise NotUsable("too_large")
    content_type = request.headers.get("content-type", "")
    if not content_type.startswith("multipart/form-data"):
        return dict(parse_qsl(body.decode("utf-8", "replace"), keep_blank_values=True))
    message = BytesParser(policy=HTTP).parsebytes(
        b"Content-Type: " + content_type.encode("latin-1", "replace") + b"\r\n\r\n" + body
    )
    fields = {}
    for part in message.iter_parts():
        name = part.get_param("name", header="content-disposition")
        content = part.get_payload(decode=True)
        if isinstance(name, str) and isinstance(content, bytes):
            try:
                fields[name] = content.decode("utf-8-sig")
            except UnicodeDecodeError as error:
                raise NotUsable("not_text") from error
    return fields
