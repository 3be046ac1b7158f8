"""Reading the CSV files of the open table as ``datapackage.json`` describes them."""

from __future__ import annotations

import csv
import hashlib
import json
from math import isfinite
from pathlib import Path
from typing import Any

from stockcheck.errors import reason

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
        raise BuildError(f"{data} holds no open table: datapackage.json is missing") from None
    except (OSError, ValueError) as error:
        raise BuildError(f"{path} cannot be read: {reason(error)}") from error
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
        raise BuildError(f"{place}, {field['name']}: {text!r} is not a {field['type']}") from None
    allowed = field.get("constraints", {}).get("enum")
    if allowed and text not in allowed:
        raise BuildError(f"{place}, {field['name']}: {text!r} is none of {', '.join(allowed)}")
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
                raise BuildError(f"{path.name}, line 1: the columns must be {', '.join(fields)}")
            for record in reader:
                place = f"{path.name}, line {reader.line_num}"
                if None in record or None in record.values():
                    raise BuildError(f"{place}: {len(fields)} columns are expected")
                row = {name: _value(text, fields[name], place) for name, text in record.items()}
                for name, field in fields.items():
                    if field.get("constraints", {}).get("required") and row[name] in (None, ""):
                        raise BuildError(f"{place}, {name}: must not be empty")
                rows.append(row)
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise BuildError(f"{path} cannot be read: {reason(error)}") from error
    return rows


def data_hash(data: Path) -> str:
    """SHA-256 over the descriptor and every file that it names, in its order."""
    digest = hashlib.sha256()
    paths = ["datapackage.json", *(resource["path"] for resource in read_package(data)["resources"])]
    for name in paths:
        try:
            content = (data / name).read_bytes()
        except OSError as error:
            raise BuildError(f"{data / name} cannot be read: {reason(error)}") from error
        digest.update(f"{name}\0{len(content)}\0".encode() + content)
    return digest.hexdigest()
