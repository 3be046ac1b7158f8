"""Adding one figure to evidence.csv: checked against the schema, written in its place, all else untouched."""

from __future__ import annotations

import csv
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from stockcheck.language import say
from stockcheck.table.consensus import CURATOR
from stockcheck.table.names import name_key
from stockcheck.table.package import BuildError, Row, read_package, read_rows

#: The unit of each field.
UNITS = {
    "temperature": "degC",
    "pH": "pH",
    "GH": "dGH",
    "KH": "dKH",
    "adult_length": "mm",
    "height": "mm",
    "min_tank_length": "cm",
    "min_tank_volume": "L",
    "group_min": "count",
    "lifespan": "years",
    "brood_size": "count",
    "brood_interval": "days",
}
#: Nothing in the table lies outside; a figure that does is a slip of unit or of the pen.
_LIMITS = {
    "temperature": (-2.0, 45.0),
    "pH": (2.5, 11.0),
    "GH": (0.0, 60.0),
    "KH": (0.0, 40.0),
    "adult_length": (4.0, 3000.0),
    "height": (1.0, 15000.0),
    "min_tank_length": (10.0, 1000.0),
    "min_tank_volume": (1.0, 100000.0),
    "group_min": (1.0, 100.0),
    "lifespan": (0.1, 150.0),
    "brood_size": (1.0, 1e6),
    "brood_interval": (1.0, 1000.0),
}


def find_slug(data: Path, name: str) -> str:
    """The slug of the one taxon of that slug or name.

    Raises
    ------
    BuildError
        When no taxon, or more than one, has it.
    """
    resources = _resources(data)
    rows = read_rows(data, resources["names"])
    slugs = {str(row["slug"]) for row in rows}
    if name in slugs:
        return name
    key = name_key(name)
    found = sorted({str(row["slug"]) for row in rows if name_key(str(row["name"])) == key})
    if len(found) != 1:
        several = say("{name!r} may be {join}: say which", name=name, join=" or ".join(found))
        raise BuildError(several if found else _no_such(name, rows))
    return found[0]


def _no_such(name: str, rows: list[Row]) -> str:
    """That no taxon has the name, with those whose names end or begin with it."""
    key = name_key(name)
    near = sorted({str(row["slug"]) for row in rows if f" {key} " in f" {name_key(str(row['name']))} "})
    return say("no taxon is called {name!r}", name=name) + (
        say("; did you mean {join}?", join=", ".join(near)) if near else ""
    )


def _resources(data: Path) -> dict[str, dict[str, Any]]:
    return {resource["name"]: resource for resource in read_package(data)["resources"]}


def faults_of(data: Path, figure: Mapping[str, str]) -> list[str]:
    """Everything wrong with a new row of evidence.csv; none when it can be added."""
    faults = []
    field = figure["field"]
    if field not in UNITS:
        return [say("field: {field!r} is none of {join}", field=field, join=", ".join(UNITS))]
    ends = {}
    for end in ("low", "high"):
        if figure[end]:
            try:
                ends[end] = float(figure[end])
            except ValueError:
                faults.append(
                    say(
                        "{end}: {figure!r} is not a number (in {units})",
                        end=end,
                        figure=figure[end],
                        units=UNITS[field],
                    )
                )
    lowest, highest = _LIMITS[field]
    for end, value in ends.items():
        if not lowest <= value <= highest:
            faults.append(
                say(
                    "{end}: {value:g} {units} is outside {lowest:g} to {highest:g}",
                    end=end,
                    value=value,
                    units=UNITS[field],
                    lowest=lowest,
                    highest=highest,
                )
            )
    if not faults and not ends:
        faults.append(say("low, high: one of them is needed"))
    if len(ends) == 2 and ends["low"] > ends["high"]:
        faults.append(say("low {low:g} is above high {high:g}", low=ends["low"], high=ends["high"]))
    resources = _resources(data)
    sources = {str(row["key"]) for row in read_rows(data, resources["sources"])}
    if figure["source"] not in sources:
        faults.append(
            say(
                "source: {source!r} is not in sources.csv; add it there first, with its kind",
                source=figure["source"],
            )
        )
    if figure["source"] == CURATOR and not figure["reason"]:
        faults.append(say("reason: a curator's own figure needs one"))
    if figure["source"] != CURATOR and not figure["url"].startswith(("http://", "https://")):
        faults.append(say("url: the address where it was read is needed"))
    if figure["source"] != CURATOR and not figure["as_stated"]:
        faults.append(say("as_stated: the figures as the source prints them are needed"))
    return faults


def _order(row: Mapping[str, str]) -> tuple[Any, ...]:
    """The order of evidence.csv."""
    low, high = (float(row[end]) if row[end] else -1.0 for end in ("low", "high"))
    return (row["slug"], row["field"], row["sex"], row["source"], row["url"], low, high, row["as_stated"])


def add_figure(data: Path, figure: Mapping[str, str]) -> int:
    """Write one checked row into evidence.csv in its place; its line in the file.

    Raises
    ------
    BuildError
        With every fault of the row; or when the same row is there already; or the file cannot be written.
    """
    faults = faults_of(data, figure)
    if faults:
        raise BuildError("; ".join(faults))
    path = data / "evidence.csv"
    with path.open(encoding="utf-8", newline="") as lines:
        reader = csv.DictReader(lines)
        columns, rows = list(reader.fieldnames or []), list(reader)
    row = {column: figure.get(column, "") for column in columns}
    if row in rows:
        raise BuildError(
            say("evidence.csv, line {index}: this figure is there already", index=rows.index(row) + 2)
        )
    place = next((n for n, other in enumerate(rows) if _order(other) > _order(row)), len(rows))
    rows.insert(place, row)
    draft = path.with_name(f".{path.name}.{os.getpid()}.new")
    try:
        with draft.open("w", encoding="utf-8", newline="") as lines:
            writer = csv.DictWriter(lines, columns, lineterminator="\n")
            writer.writeheader()
            writer.writerows(rows)
        os.replace(draft, path)
    except OSError as error:
        raise BuildError(
            say("{path} cannot be written: {strerror}", path=path, strerror=error.strerror)
        ) from error
    finally:
        draft.unlink(missing_ok=True)
    return place + 2
