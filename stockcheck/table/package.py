"""Reading the CSV files of the open table as ``datapackage.json`` describes them."""

from __future__ import annotations

import csv
import hashlib
import json
from math import isfinite
from pathlib import Path
from typing import Any

from stockcheck.errors import reason
from stockcheck.language import say

Value = str | int | float | None
Row = dict[str, Value]


class BuildError(Exception):
    """The open table cannot be used, or the database not written; the message says where and what."""


def read_package(data: Path) -> dict[str, Any]:
    """The descriptor of the open table in the folder ``data``.

    Raises
    ------
    BuildError
        When the folder has no readable ``datapackage.json``.
    """
    path = data / "datapackage.json"
    try:
        package: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise BuildError(say("{data} holds no open table: datapackage.json is missing", data=data)) from None
    except (OSError, ValueError) as error:
        raise BuildError(say("{path} cannot be read: {reason}", path=path, reason=reason(error))) from error
    return package


def _value(text: str, field: dict[str, Any], place: str) -> Value:
    if text == "":
        return None if field["type"] != "string" else ""
    try:
        match field["type"]:
            case "number":
                value = float(text)
                if not isfinite(value):
                    raise ValueError(text)
                return value
            case "integer":
                return int(text)
            case "boolean":
                return int({"yes": True, "no": False}[text])
    except (ValueError, KeyError):
        raise BuildError(
            say(
                "{place}, {name}: {text!r} is not a {type}",
                place=place,
                name=field["name"],
                text=text,
                type=field["type"],
            )
        ) from None
    allowed = field.get("constraints", {}).get("enum")
    if allowed and text not in allowed:
        raise BuildError(
            say(
                "{place}, {name}: {text!r} is none of {join}",
                place=place,
                name=field["name"],
                text=text,
                join=", ".join(allowed),
            )
        )
    return text


def read_rows(data: Path, resource: dict[str, Any]) -> list[Row]:
    """The rows of one CSV file, typed as its schema says: yes and no as 1 and 0, empty numbers as ``None``.

    Raises
    ------
    BuildError
        With file, line and column of the first value that does not fit.
    """
    fields = {field["name"]: field for field in resource["schema"]["fields"]}
    path = data / resource["path"]
    rows: list[Row] = []
    try:
        with path.open(encoding="utf-8", newline="") as lines:
            reader = csv.DictReader(lines, strict=True)
            if list(reader.fieldnames or []) != list(fields):
                raise BuildError(
                    say(
                        "{path_name}, line 1: the columns must be {join}",
                        path_name=path.name,
                        join=", ".join(fields),
                    )
                )
            for record in reader:
                place = say("{path_name}, line {line_num}", path_name=path.name, line_num=reader.line_num)
                if None in record or None in record.values():
                    raise BuildError(
                        say("{place}: {fields} columns are expected", place=place, fields=len(fields))
                    )
                row = {name: _value(text, fields[name], place) for name, text in record.items()}
                for name, field in fields.items():
                    if field.get("constraints", {}).get("required") and row[name] in (None, ""):
                        raise BuildError(say("{place}, {name}: must not be empty", place=place, name=name))
                rows.append(row)
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise BuildError(say("{path} cannot be read: {reason}", path=path, reason=reason(error))) from error
    return rows


def data_hash(data: Path) -> str:
    """SHA-256 over the descriptor and every file that it names, in its order."""
    digest = hashlib.sha256()
    paths = ["datapackage.json", *(resource["path"] for resource in read_package(data)["resources"])]
    for name in paths:
        try:
            content = (data / name).read_bytes()
        except OSError as error:
            raise BuildError(
                say("{data} cannot be read: {reason}", data=data / name, reason=reason(error))
            ) from error
        digest.update(f"{name}\0{len(content)}\0".encode() + content)
    return digest.hexdigest()
