"""Read a plan file: every fault at once, each with its line, its key and a remedy."""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import Any, NamedTuple

from stockcheck.plan import model
from stockcheck.plan.faults import Fault, PlanError
from stockcheck.plan.lines import key_lines, line_of
from stockcheck.plan.schema import SECTIONS, Key, Section
from stockcheck.plan.together import conflicts
from stockcheck.units import FILL_RATE, LENGTH, MINUTES, VOLUME, Dimension, UnitError, parse, write_one

__all__ = ["Fault", "PlanError", "Reading", "read_document", "read_plan", "read_text"]

LARGEST_BYTES = 1_000_000


class Reading(NamedTuple):
    """What could be read of a plan, and what is wrong with it; without faults the plan is whole."""

    plan: model.Plan | None
    faults: list[Fault]


def read_plan(path: Path) -> Reading:
    """Read a plan file.  A file that cannot be read at all gives no plan and one fault; nothing is raised."""
    try:
        text = _text_of(path)
    except _Unreadable as error:
        return Reading(None, [Fault(str(path), None, "", error.problem, error.remedy)])
    return read_text(text, path)


def read_text(text: str, path: Path | str = "plan") -> Reading:
    """Read a plan from the text of a file; ``path`` names it in messages."""
    if not text.strip():
        return Reading(None, [Fault(str(path), None, "", "the file is empty", _START)])
    if len(text) > LARGEST_BYTES:
        return Reading(None, [Fault(str(path), None, "", *_TOO_LARGE)])
    try:
        document = tomllib.loads(text)
    except RecursionError:
        return Reading(None, [Fault(str(path), None, "", "it is nested too deeply", _START)])
    except ValueError as error:
        return Reading(None, [_syntax_fault(str(path), text, str(error))])
    return _Reader(str(path), key_lines(text)).read(document)


def read_document(document: Mapping[str, Any], path: Path | str = "plan") -> Reading:
    """Read a plan from a parsed document (of a form, a test); its faults have no lines."""
    return _Reader(str(path), {}).read(document)


_START = (
    "A plan is a TOML file with at least a [tank] and one [[animals]]; `stockcheck start` writes a first one."
)
_FORM = 'The form is: key = "value with unit", sections as [tank], lists as [[animals]].'
_TOO_LARGE = ("the file is larger than 1 MB", "A plan is a few kilobytes of text; is this the right file?")


class _Unreadable(Exception):
    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(problem)
        self.problem, self.remedy = problem, remedy


def _text_of(path: Path) -> str:
    try:
        if path.is_dir():
            raise _Unreadable("this is a folder", "Name the plan file in it.")
        if not path.exists():
            raise _Unreadable(
                "there is no such file", "Look at the spelling, and from which folder you call."
            )
        if not path.is_file():
            raise _Unreadable("this is not a regular file", "Name a plan file.")
        if path.stat().st_size > LARGEST_BYTES:
            raise _Unreadable(*_TOO_LARGE)
        content = path.read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _Unreadable(f"it cannot be read ({reason})", "Look at the file's permissions.") from error
    if b"\0" in content:
        raise _Unreadable("this is not a text file", _START)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise _Unreadable(f"this is not UTF-8 text (line {line})", "Save it as UTF-8.") from error


def _syntax_fault(path: str, text: str, message: str) -> Fault:
    """A TOML error: the line that tomllib puts at the end of its message goes where lines go."""
    problem, _, place = message.partition(" (at ")
    line = re.match(r"line (\d+)", place)
    at = int(line[1]) if line else len(text.splitlines()) if place else None
    return Fault(path, at, "", f"not valid TOML: {problem[:1].lower()}{problem[1:]}", _FORM)


class _Invalid(Exception):
    """One value that cannot be used."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(problem)
        self.problem, self.remedy = problem, remedy


class _Reader:
    """Walks one document by the schema and gathers faults."""

    def __init__(self, path: str, lines: dict[str, int]) -> None:
        self.path, self.lines = path, lines
        self.faults: list[Fault] = []

    def fault(self, key: str, problem: str, remedy: str) -> None:
        self.faults.append(Fault(self.path, line_of(self.lines, key), key, problem, remedy))

    def read(self, document: Mapping[str, Any]) -> Reading:
        top = self._values(SECTIONS[""], document, "")
        tank = model.Tank(**self._table(document, "tank"))
        tank.substrate = [
            _layer(values) for values, _ in self._list(document, "substrate") if "front_cm" in values
        ]
        tank.hardscape = [
            model.Hardscape(**values) for values, _ in self._list(document, "hardscape") if "kind" in values
        ]
        heater = self._table(document, "heater")
        pump = self._table(document, "filter")
        filter_air = pump.pop("air_stone", False)
        inside = document.get("filter")
        media = self._list(inside if isinstance(inside, Mapping) else {}, "filter.media")
        plan = model.Plan(
            name=top.get("name") or Path(self.path).stem,
            path=self.path,
            tank=tank,
            water=model.Water(**self._table(document, "water")),
            tap=model.Water(**self._table(document, "tap")),
            target=model.Water(**self._table(document, "target")),
            room=model.Room(**self._table(document, "room")),
            heater=model.Heater(**heater) if "power_w" in heater else None,
            filter=model.Filter(
                **pump, media=[model.Media(**values) for values, _ in media if "kind" in values]
            )
            if "flow_l_h" in pump
            else None,
            air_stone=bool(top.get("air_stone") or filter_air),
            light=model.Light(**self._table(document, "light")),
            feeding=model.Feeding(**self._table(document, "feeding")),
            routine=model.Routine(**self._table(document, "routine")),
        )
        for values, where in self._list(document, "animals"):
            if "species" in values:
                plan.animals.append(
                    model.Animals(where=where, line=line_of(self.lines, f"{where}.species"), **values)
                )
        for values, where in self._list(document, "plants"):
            if "species" in values:
                plan.plants.append(
                    model.Plants(where=where, line=line_of(self.lines, f"{where}.species"), **values)
                )
        for key, problem, remedy in conflicts(plan, document):
            self.fault(key, problem, remedy)
        return Reading(plan, self.faults)

    def _table(self, document: Mapping[str, Any], name: str) -> dict[str, Any]:
        """The values of a section, by the model's attributes; an absent section is empty."""
        section = SECTIONS[name]
        if name not in document:
            if section.required:
                self.fault("", f"there is no [{name}] section", f"Add it: {section.help}.")
            return {}
        table = document[name]
        if not isinstance(table, Mapping):
            form = "[[...]]" if isinstance(table, list) else f"{_shown(table)}"
            self.fault(
                name,
                f"a section is expected here, not {form}",
                f"Write [{name}] on a line of its own, its keys below.",
            )
            return {}
        return self._values(section, table, name)

    def _list(self, document: Mapping[str, Any], name: str) -> list[tuple[dict[str, Any], str]]:
        """The values of every table of a list, each with its place (``animals[2]``)."""
        section = SECTIONS[name]
        tables = document.get(name.rpartition(".")[2], [])
        if not isinstance(tables, list) or not all(isinstance(table, Mapping) for table in tables):
            self.fault(
                name, "a list of sections is expected here", f"Write [[{name}]] above each {section.help}."
            )
            return []
        if section.required and not tables:
            self.fault(
                "", f"there is nothing in [[{name}]]", "List the animals: a plan without them asks nothing."
            )
        places = [f"{name}[{number}]" for number in range(1, len(tables) + 1)]
        return [
            (self._values(section, table, place), place) for table, place in zip(tables, places, strict=True)
        ]

    def _values(self, section: Section, table: Mapping[str, Any], place: str) -> dict[str, Any]:
        values: dict[str, Any] = {}
        prefix = f"{place}." if place else ""
        for name, value in table.items():
            key = section.key(name)
            if key is None:
                if not _is_section(section.name, name):
                    self.fault(f"{prefix}{name}", *_unknown(section, name))
                continue
            try:
                values[key.attribute] = _value(key, value)
            except _Invalid as error:
                self.fault(f"{prefix}{name}", error.problem, error.remedy)
        for key in section.keys:
            if key.required and key.name not in table:
                self.fault(place or key.name, f"{key.name} is missing", f"Add it: {key.help}.")
        return values


def _layer(values: dict[str, Any]) -> model.Substrate:
    return model.Substrate(**{"kind": "", "back_cm": values["front_cm"], **values})


def _is_section(inside: str, name: str) -> bool:
    return (f"{inside}.{name}" if inside else name) in SECTIONS


def _unknown(section: Section, name: str) -> tuple[str, str]:
    """Problem and remedy of a key that the section does not have, with what it may have meant."""
    here = [key.name for key in section.keys]
    if not section.name:
        here += [other for other in SECTIONS if other and "." not in other]
    near = get_close_matches(name, here, n=3, cutoff=0.6) or get_close_matches(
        name.lower(), here, n=3, cutoff=0.6
    )
    elsewhere = [other.name for other in SECTIONS.values() if other is not section and other.key(name)]
    title = f"[{section.name}]" if section.name else "the top of the file"
    if near:
        return f"{title} has no key {_shown(name)}", f"Did you mean {' or '.join(near)}?"
    if elsewhere:
        places = " or ".join(f"[{other}]" if other else "the top of the file" for other in elsewhere[:3])
        return f"{title} has no key {_shown(name)}", f"It belongs in {places}."
    return f"{title} has no key {_shown(name)}", f"Its keys: {', '.join(here)}."


def _value(key: Key, value: Any) -> Any:
    match key.kind:
        case "text":
            return _text(value)
        case "choice":
            return _choice(key, value)
        case "flag":
            if not isinstance(value, bool):
                raise _Invalid(
                    f"{_shown(value)} is neither true nor false", "Write true or false, without quotes."
                )
            return value
        case "count":
            return _count(key.name, value, int(key.low), int(key.high))
        case "number":
            return _number(key, value)
        case "quantity":
            assert key.dimension is not None
            return _quantity(value, key.dimension, key.low, key.high, positive=key.positive)
        case "sizes":
            return _sizes(value)
        case "buckets":
            parts = _parts(value, ("count", "volume"), 'buckets = { count = 21, volume = "9 L" }')
            return _count("count", parts["count"], 1, 5000), _quantity(parts["volume"], VOLUME, 0, 200)
        case "fill":
            parts = _parts(value, ("rate", "time"), 'fill = { rate = "6 L/minute", time = "28 minute" }')
            return _quantity(parts["rate"], FILL_RATE, 0, 1000), _quantity(parts["time"], MINUTES, 0, 10_000)


def _text(value: Any) -> str:
    if not isinstance(value, str) or not value.strip():
        raise _Invalid(f"{_shown(value)} is not a name", "Write it between quotes.")
    if len(value) > 200:
        raise _Invalid("this name is longer than 200 characters", "Shorten it.")
    return value.strip()


def _choice(key: Key, value: Any) -> str:
    if isinstance(value, str) and value.strip().lower() in key.choices:
        return value.strip().lower()
    offered = ", ".join(f'"{choice}"' for choice in key.choices)
    raise _Invalid(f"{_shown(value)} is not one of its values", f"Write one of {offered}.")


def _count(name: str, value: Any, low: int, high: int) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise _Invalid(f"{_shown(value)} is not a whole number", f"Write how many, as {name} = 6.")
    if not low <= value <= high:
        raise _Invalid(f"{_shown(value)} is out of bounds", f"It can be {low} to {high}.")
    return value


def _number(key: Key, value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _Invalid(f"{_shown(value)} is not a number", f"Write a plain number, as {key.name} = 7.2.")
    if not key.low <= value <= key.high:  # false for NaN as well
        raise _Invalid(f"{_shown(value)} is out of bounds", f"It can be {key.low:g} to {key.high:g}.")
    return float(value)


def _quantity(value: Any, dimension: Dimension, low: float, high: float, *, positive: bool = True) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise _Invalid(f"{_shown(value)} is not a quantity", write_one(dimension))
    if not isinstance(value, str):
        raise _Invalid(f"{_shown(value)} is a bare number", write_one(dimension, f"{value:g}"))
    try:
        amount = parse(value, dimension)
    except UnitError as error:
        raise _Invalid(error.problem, error.remedy) from error
    share = dimension.unit == ""
    bounds = (low * 100, high * 100, "%") if share else (low, high, dimension.unit)
    if not math.isfinite(amount):
        raise _Invalid(
            f"{_shown(value)} is not a finite quantity", f"It can be up to {bounds[1]:g} {bounds[2]}."
        )
    if positive and amount <= 0:
        raise _Invalid(f"{_shown(value)} is not above zero", f"It can be up to {bounds[1]:g} {bounds[2]}.")
    if not low - 1e-9 <= amount <= high + 1e-9:
        raise _Invalid(
            f"{_shown(value)} is out of bounds", f"It can be {bounds[0]:g} to {bounds[1]:g} {bounds[2]}."
        )
    return amount


def _sizes(value: Any) -> tuple[float, float, float]:
    if not isinstance(value, list) or len(value) != 3:
        raise _Invalid(f"{_shown(value)} is not three lengths", 'Write size = ["20 cm", "12 cm", "10 cm"].')
    long, wide, high = (_quantity(side, LENGTH, 0, 1000) for side in value)
    return long, wide, high


def _parts(value: Any, names: tuple[str, ...], form: str) -> Mapping[str, Any]:
    if not isinstance(value, Mapping) or set(value) != set(names):
        raise _Invalid(f"{_shown(value)} does not say {' and '.join(names)}", f"Write {form}.")
    return value


def _shown(value: Any) -> str:
    """A value of the file as it may be quoted in a message: short, printable."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        text = "".join(char if char.isprintable() else "?" for char in value)
        return f'"{text}"' if len(text) <= 40 else f'"{text[:37]}..."'
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list):
        return "a list"
    return str(value) if len(str(value)) <= 24 else str(value)[:21] + "..."
