"""Read a plan file: every fault at once, each with its line, its key and a remedy."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import Any, NamedTuple

from stockcheck.errors import reason
from stockcheck.language import say
from stockcheck.plan import model
from stockcheck.plan.faults import Fault, PlanError, located
from stockcheck.plan.schema import SECTIONS, Section
from stockcheck.plan.together import conflicts
from stockcheck.plan.values import Invalid, shown, value_of

__all__ = ["Fault", "PlanError", "Reading", "read_document", "read_plan", "read_text"]

LARGEST_BYTES = 1_000_000
#: No tank has more kinds of anything in it.
MOST_ENTRIES = 100


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
        return Reading(None, [Fault(str(path), None, "", say("the file is empty"), _START)])
    if len(text) > LARGEST_BYTES:
        return Reading(None, [Fault(str(path), None, "", *_TOO_LARGE)])
    try:
        document = tomllib.loads(text)
    except RecursionError:
        return Reading(None, [Fault(str(path), None, "", say("it is nested too deeply"), _START)])
    except ValueError as error:
        return Reading(None, [_syntax_fault(str(path), text, str(error))])
    return _Reader(str(path), text).read(document)


def read_document(document: Mapping[str, Any], path: Path | str = "plan") -> Reading:
    """Read a plan from a parsed document (of a form, a test); its faults have no lines."""
    return _Reader(str(path), "").read(document)


_START = say(
    "A plan is a TOML file with at least a [tank] and one [[animals]]; data/plans/ has some to start from."
)
_FORM = say('The form is: key = "value with unit", sections as [tank], lists as [[animals]].')
_TOO_LARGE = (
    say("the file is larger than 1 MB"),
    say("A plan is a few kilobytes of text; is this the right file?"),
)


class _Unreadable(Exception):
    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(problem)
        self.problem, self.remedy = problem, remedy


def _text_of(path: Path) -> str:
    try:
        if path.is_dir():
            raise _Unreadable(say("this is a folder"), say("Name the plan file in it."))
        if not path.exists():
            raise _Unreadable(
                say("there is no such file"), say("Look at the spelling, and from which folder you call.")
            )
        if not path.is_file():
            raise _Unreadable(say("this is not a regular file"), say("Name a plan file."))
        if path.stat().st_size > LARGEST_BYTES:
            raise _Unreadable(*_TOO_LARGE)
        content = path.read_bytes()
    except (OSError, ValueError) as error:
        why = say("it cannot be read ({reason})", reason=reason(error))
        raise _Unreadable(why, say("Look at the file's permissions.")) from error
    if b"\0" in content:
        raise _Unreadable(say("this is not a text file"), _START)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise _Unreadable(
            say("this is not UTF-8 text (line {line})", line=line), say("Save it as UTF-8.")
        ) from error


def _syntax_fault(path: str, text: str, message: str) -> Fault:
    """A TOML error: the line that tomllib puts at the end of its message goes where lines go."""
    problem, _, place = message.partition(" (at ")
    line = re.match(r"line (\d+)", place)
    at = int(line[1]) if line else len(text.splitlines()) if place else None
    return Fault(
        path,
        at,
        "",
        say("not valid TOML: {first}{rest}", first=problem[:1].lower(), rest=problem[1:]),
        _FORM,
    )


class _Reader:
    """Walks one document by the schema and gathers faults."""

    def __init__(self, path: str, text: str) -> None:
        self.path, self.text = path, text
        self.faults: list[Fault] = []

    def fault(self, key: str, problem: str, remedy: str) -> None:
        self.faults.append(Fault(self.path, None, key, problem, remedy))

    def read(self, document: Mapping[str, Any]) -> Reading:
        top = self._values(SECTIONS[""], document, "")
        tank = model.Tank(**self._table(document, "tank"))
        tank.substrate = [
            _layer(values, where)
            for values, where in self._list(document, "substrate")
            if "front_cm" in values
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
            heater=model.Heater(**heater) if "heater" in document else None,
            filter=model.Filter(
                **pump, media=[model.Media(**values) for values, _ in media if "kind" in values]
            )
            if "flow_l_h" in pump
            else None,
            air_stone=bool(top.get("air_stone") or filter_air),
            light=model.Light(**self._table(document, "light")),
            feeding=model.Feeding(**self._table(document, "feeding")),
            routine=model.Routine(**self._table(document, "routine")),
            text=self.text,
        )
        for values, where in self._list(document, "animals"):
            if "species" in values:
                plan.animals.append(model.Animals(where=where, **values))
        for values, where in self._list(document, "plants"):
            if "species" in values:
                plan.plants.append(model.Plants(where=where, **values))
        for key, problem, remedy in conflicts(plan, document):
            self.fault(key, problem, remedy)
        return Reading(plan, located(self.faults, self.text))

    def _table(self, document: Mapping[str, Any], name: str) -> dict[str, Any]:
        """The values of a section, by the model's attributes; an absent section is empty."""
        section = SECTIONS[name]
        if name not in document:
            if section.required:
                self.fault(
                    "",
                    say("there is no [{name}] section", name=name),
                    say("Add it: {help}.", help=section.help),
                )
            return {}
        table = document[name]
        if not isinstance(table, Mapping):
            form = "[[...]]" if isinstance(table, list) else f"{shown(table)}"
            self.fault(
                name,
                say("a section is expected here, not {form}", form=form),
                say("Write [{name}] on a line of its own, its keys below.", name=name),
            )
            return {}
        return self._values(section, table, name)

    def _list(self, document: Mapping[str, Any], name: str) -> list[tuple[dict[str, Any], str]]:
        """The values of every table of a list, each with its place (``animals[2]``)."""
        section = SECTIONS[name]
        tables = document.get(name.rpartition(".")[2], [])
        if not isinstance(tables, list) or not all(isinstance(table, Mapping) for table in tables):
            self.fault(
                name,
                say("a list of sections is expected here"),
                say("Write [[{name}]] above each {help}.", name=name, help=section.help),
            )
            return []
        if len(tables) > MOST_ENTRIES:
            problem = say("{tables} entries are more than one tank holds", tables=len(tables))
            self.fault(
                name,
                problem,
                say("List at most {most_entries} kinds; a plan is one tank.", most_entries=MOST_ENTRIES),
            )
            return []
        if section.required and not tables:
            self.fault(
                "",
                say("there is nothing in [[{name}]]", name=name),
                say("List the animals: a plan without them asks nothing."),
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
                values[key.attribute] = value_of(key, value)
            except Invalid as error:
                self.fault(f"{prefix}{name}", error.problem, error.remedy)
        for key in section.keys:
            if key.required and key.name not in table:
                self.fault(
                    place or key.name,
                    say("{key_name} is missing", key_name=key.name),
                    say("Add it: {help}.", help=key.help),
                )
        return values


def _layer(values: dict[str, Any], where: str) -> model.Substrate:
    return model.Substrate(**{"kind": "", "back_cm": values["front_cm"], "where": where, **values})


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
    title = f"[{section.name}]" if section.name else say("the top of the file")
    if near:
        return say("{title} has no key {shown}", title=title, shown=shown(name)), say(
            "Did you mean {keys}?", keys=" or ".join(near)
        )
    if elsewhere:
        places = " or ".join(f"[{other}]" if other else say("the top of the file") for other in elsewhere[:3])
        return say("{title} has no key {shown}", title=title, shown=shown(name)), say(
            "It belongs in {places}.", places=places
        )
    return say("{title} has no key {shown}", title=title, shown=shown(name)), say(
        "Its keys: {keys}.", keys=", ".join(here)
    )
