"""Every sentence the browser and the pictures show, from one catalogue, so that a translation is one file.

``text/en.toml`` holds the English.  A key is a dotted path (``overlap.title``); a value may hold
``{fields}`` filled in with :meth:`str.format`.  A counted text is a table with ``one`` and ``other``.
"""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def _catalogue(language: str) -> dict[str, Any]:
    raw = files("stockcheck.report").joinpath("text", f"{language}.toml").read_bytes()
    return tomllib.loads(raw.decode("utf-8"))


@cache
def _entry(key: str, language: str) -> Any:
    entry: Any = _catalogue(language)
    for part in key.split("."):
        entry = entry[part]
    return entry


def text(key: str, /, language: str = "en", **fields: object) -> str:
    """The text at ``key`` with its fields filled in; ``count`` chooses between ``one`` and ``other``.

    Raises
    ------
    KeyError
        When the catalogue has no such key.
    """
    entry = _entry(key, language)
    if isinstance(entry, dict):
        entry = entry["one" if fields.get("count") == 1 else "other"]
    return str(entry).format(**fields) if fields else str(entry)


def term(group: str, value: str, /, language: str = "en") -> str:
    """The words for one value of a vocabulary (``zone``, ``diet``); the value itself where it has none."""
    words = _catalogue(language)["terms"].get(group, {}).get(value)
    return str(words) if words is not None else value.replace("-", " ")
