"""One form of a name for comparing: the same for the index and for the question."""

from __future__ import annotations

import re
import unicodedata

_APOSTROPHES = re.compile(r"['‘’`´]")
_NOT_WORD = re.compile(r"[^a-z0-9]+")
#: Singulars that end in s: taking it off would join different words.
_KEPT_ENDINGS = ("ss", "us", "is")


def _singular(word: str) -> str:
    if len(word) < 4 or word.endswith(_KEPT_ENDINGS) or not word.endswith("s"):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("shes", "ches", "xes")):
        return word[:-2]
    return word[:-1]


def plain_name(name: str) -> str:
    """Lower case, without accents and punctuation."""
    plain = unicodedata.normalize("NFKD", name.casefold().replace("×", "x"))
    plain = "".join(mark for mark in plain if not unicodedata.combining(mark))
    return " ".join(_NOT_WORD.sub(" ", _APOSTROPHES.sub("", plain)).split())


def name_key(name: str) -> str:
    """The plain name with its last word in the singular.

    >>> name_key("Siamese Fighting-Fishes"), name_key("Rückenschwimmender Kongowels")
    ('siamese fighting fish', 'ruckenschwimmender kongowel')
    """
    words = plain_name(name).split()
    if words:
        words[-1] = _singular(words[-1])
    return " ".join(words)
