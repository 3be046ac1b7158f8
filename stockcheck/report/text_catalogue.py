"""Every sentence of the browser and the pictures, by key, so that templates stay free of them.

``text/en.toml`` holds the English, which `stockcheck.language` puts into the reader's language.  A key is a
dotted path (``overlap.title``); a value may hold ``{fields}`` filled in with :meth:`str.format`.  A counted
text is a table with ``one`` and ``other``.
"""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from stockcheck.language import say


@cache
def _english() -> dict[str, Any]:
    raw = files("stockcheck.report").joinpath("text", "en.toml").read_bytes()
    return tomllib.loads(raw.decode("utf-8"))


@cache
def _entry(key: str) -> Any:
    entry: Any = _english()
    for part in key.split("."):
        entry = entry[part]
    return entry


def text(key: str, /, **fields: object) -> str:
    """The text at ``key`` with its fields filled in; ``count`` chooses between ``one`` and ``other``.

    Raises
    ------
    KeyError
        When there is no such key.
    """
    entry = _entry(key)
    if isinstance(entry, dict):
        entry = entry["one" if fields.get("count") == 1 else "other"]
    return say(str(entry), **fields)


def term(group: str, value: str, /) -> str:
    """The words for one value of a vocabulary (``zone``, ``diet``); the value itself where it has none."""
    return say(_english()["terms"].get(group, {}).get(value, vocabulary_word(value)))


def vocabulary_word(value: str) -> str:
    """A value of a vocabulary as it is said where the catalogue of pages has no words of its own for it."""
    return value.replace("-", " ")
