"""Published values carried along as CSV, each row with its source."""

from __future__ import annotations

import csv
from pathlib import Path

HERE = Path(__file__).resolve().parent


def rows(name: str) -> list[dict[str, str]]:
    """The rows of one file, at least one of them."""
    with (HERE / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        found = list(csv.DictReader(file))
    assert found, f"{name}.csv holds no rows"
    return found


def inputs(row: dict[str, str]) -> dict[str, float | str]:
    """``a=1 b=word`` as a mapping, numbers as floats."""
    pairs = (item.split("=") for item in row["inputs"].split())
    return {name: _number(text) for name, text in pairs}


def _number(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text
