"""Whether low and high can still be made from the figures as printed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from stockcheck.table.audit.model import Doubt, OpenTable, row_doubt

_NUMBER = re.compile(
    r"(?P<mixed>\d+\s+\d/\d+)|(?P<fraction>\d+/\d+)(?![\d/]|[.,]\d)|(?P<thousands>\d{1,3}(?:[,.]\d{3})+)(?!\d)"
    r"|(?P<plain>(?:\d+)?[.,']?\d+)(?P<mark>[½¼¾])?|(?P<alone>[½¼¾])"
)
_MARKS = {None: 0.0, "½": 0.5, "¼": 0.25, "¾": 0.75}
_WORDS_OF = {
    0.5: "half halben halbe",
    1: "a an one single solo una ein eine",
    2: "two pair pairs zwei deux duo due couple",
    3: "three trio trios drei trois tre",
    4: "four vier quatre quattro",
    5: "five fünf funf cinq cinque",
    6: "six sechs sei half-dozen",
    7: "seven sieben sept",
    8: "eight acht huit otto",
    9: "nine neun neuf",
    10: "ten zehn dix dieci decina dizaine",
    12: "dozen twelve zwölf",
    15: "fifteen",
    16: "sixteen",
    20: "twenty zwanzig",
    30: "thirty trentaine",
    60: "sixty",
    100: "hundred",
}
_WORDS = {word: number for number, words in _WORDS_OF.items() for word in words.split()}
#: Numbers on their own ("a foot"), but not between others ("half a dozen").
_ARTICLES = frozenset({"a", "an", "ein", "eine", "una"})
#: What one printed figure may have been turned into, by field.
_FACTORS = {
    "adult_length": (1.0, 10.0, 25.4, 304.8, 1000.0),
    "height": (1.0, 10.0, 25.4, 304.8, 1000.0),
    "min_tank_length": (1.0, 2.54, 30.48, 100.0, 0.1),
    "min_tank_volume": (1.0, 3.785, 4.546, 0.001, 1000.0),
    "GH": (1.0, 1 / 17.85, 1 / 1.785, 5.608),
    "KH": (1.0, 1 / 17.85, 1 / 1.785, 2.805),
    "lifespan": (1.0, 1 / 12),
    "brood_interval": (1.0, 7.0, 30.4),
}
_WATER = ("temperature", "pH", "GH", "KH")
_RELATIVE, _WATER_STEP, _STEP = 0.03, 0.11, 1.0


def _figure(match: re.Match[str]) -> float:
    if match["mixed"]:
        whole, fraction = match["mixed"].split()
        return float(whole) + _divided(fraction)
    if match["fraction"]:
        return _divided(match["fraction"])
    if match["thousands"]:
        return float(re.sub(r"[,.]", "", match["thousands"]))
    if match["alone"]:
        return _MARKS[match["alone"]]
    return float(match["plain"].replace(",", ".").replace("'", ".")) + _MARKS[match["mark"]]


def _divided(fraction: str) -> float:
    above, below = (float(part) for part in fraction.split("/"))
    return above / below if below else 0.0


def printed_figures(as_stated: str) -> list[float]:
    """The numbers in a text: decimal commas, fractions, thousands and number words included.

    Words are offered joined with their neighbours too, as in "twenty five" and "half a dozen".

    >>> printed_figures("4 ½ to 6,5 inches, 1,000 eggs")
    [4.0, 0.5, 6.5, 1000.0]
    """
    figures = [_figure(match) for match in _NUMBER.finditer(as_stated)]
    if "/" in as_stated:  # "5 / 10" and "4/6" may be two figures
        figures += [float(figure) for figure in re.findall(r"\d+(?:\.\d+)?", as_stated)]
    words = [word for word in re.findall(r"[a-zäöüß]+", as_stated.lower()) if word in _WORDS]
    pairs = list(pairwise(_WORDS[word] for word in words if word not in _ARTICLES))
    joined = [first + second for first, second in pairs] + [first * second for first, second in pairs]
    return figures + [float(word) for word in [*(_WORDS[word] for word in words), *joined]]


def candidates(field: str, as_stated: str) -> list[float]:
    """Every value that a printed figure can stand for in the field's unit."""
    figures = printed_figures(as_stated)
    values = [figure * factor for figure in figures for factor in _FACTORS.get(field, (1.0,))]
    if field == "temperature":
        values += [(figure - 32) * 5 / 9 for figure in figures]
    return values


def reproduces(field: str, value: float, as_stated: str) -> bool:
    """Whether ``value`` comes from a printed figure, within rounding."""
    slack = max(_WATER_STEP if field in _WATER else _STEP, _RELATIVE * value)
    return any(abs(value - candidate) <= slack for candidate in candidates(field, as_stated))


def not_reproduced(table: OpenTable) -> Iterator[Doubt]:
    """Rows whose low or high no longer follows from what the source prints."""
    for line, row in table.stated():
        if row.reason or not row.as_stated:
            continue
        for end, value in (("low", row.low), ("high", row.high)):
            if value and not reproduces(row.field, value, row.as_stated):
                yield row_doubt("error", line, row, f"{end} {value:g} does not follow from {row.as_stated!r}")
