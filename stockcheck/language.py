"""What the program says to a person, in that person's language.

Every sentence stands in English where it is made, as a template with named fields, and passes through `say`;
the sentences of the pages stand in ``report/text/en.toml`` and pass through it too.  All of them together are
the catalogue ``locale/stockcheck.pot`` (``scripts/catalogue`` writes it).  A translation is one file beside
it, ``locale/<language>/LC_MESSAGES/stockcheck.mo``, chosen by the environment as every program's is
(``LANGUAGE``, ``LC_ALL``, ``LANG``); English needs none.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from gettext import NullTranslations, translation
from pathlib import Path

#: Where translations are; another folder may be named to try one out.
FOLDER = Path(os.environ.get("STOCKCHECK_LOCALE") or Path(__file__).parent / "locale")

_chosen = translation("stockcheck", FOLDER, fallback=True)


def say(template: str, /, **fields: object) -> str:
    """The template in the reader's language with its fields filled in as ``str.format`` does.

    A template without fields is taken as it stands, braces and all.
    """
    words = _chosen.gettext(template) if template else ""  # a translation keeps its own heading under ""
    return words.format(**fields) if fields else words


def spoken() -> str:
    """The language that is spoken, as a tag for a page: that of the translation, else English."""
    return _chosen.info().get("language", "en").replace("_", "-")


@contextmanager
def english() -> Iterator[None]:
    """Say all in English for a while: for what is stored, which must not hang on who stores it."""
    global _chosen
    before, _chosen = _chosen, NullTranslations()
    try:
        yield
    finally:
        _chosen = before
