"""A plan filled in field by field, written out as a plan file."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stockcheck.report.text_catalogue import text

if TYPE_CHECKING:
    from stockcheck.table.read import Table

_EMPTY_ROWS = 5
#: More rows of animals or plants than this are not read.
_MOST_ROWS = 60
ANIMAL_KEYS = ("species", "count", "males", "females")
PLANT_KEYS = ("species", "cover")
_NUMBER = re.compile(r"[0-9]{1,9}(\.[0-9]{1,6})?")


@dataclass(frozen=True)
class Entry:
    """One field of the form: where it stands in a plan, and how it is asked for."""

    name: str  # of the form field: section, underscore, key
    key: str
    kind: str = "quantity"  # quantity | number | choice | flag | text
    example: str = ""
    choices: tuple[str, ...] = ()

    @property
    def label(self) -> str:
        return text(f"form.{self.name}")


@dataclass(frozen=True)
class Part:
    """One section of a plan; ``heading`` is how its table is written."""

    heading: str
    title: str
    entries: tuple[Entry, ...]


def parts(table: Table) -> list[Part]:
    """The sections that the form asks for, with the materials of the table to choose from."""

    def materials(kind: str) -> tuple[str, ...]:
        return tuple(material.name for material in table.materials(kind))

    return [
        Part(
            "[tank]",
            text("check_page.group_tank"),
            (
                Entry("tank_length", "length", example="120 cm"),
                Entry("tank_width", "width", example="40 cm"),
                Entry("tank_height", "height", example="50 cm"),
                Entry("tank_cover", "cover", "choice", choices=("open", "some", "dense")),
                Entry("tank_lid", "lid", "flag"),
            ),
        ),
        Part(
            "[[substrate]]",
            "",
            (
                Entry("substrate_kind", "kind", "choice", choices=materials("substrates")),
                Entry("substrate_front", "front", example="4 cm"),
                Entry("substrate_back", "back", example="8 cm"),
            ),
        ),
        Part(
            "[[hardscape]]",
            "",
            (
                Entry("hardscape_kind", "kind", "choice", choices=materials("rocks")),
                Entry("hardscape_mass", "mass", example="6 kg"),
            ),
        ),
        Part(
            "[water]",
            text("check_page.group_water"),
            (
                Entry("water_pH", "pH", "number", "7.2"),
                Entry("water_GH", "GH", example="9 dGH"),
                Entry("water_KH", "KH", example="5 dKH"),
            ),
        ),
        Part(
            "[tap]",
            text("check_page.group_tap"),
            (
                Entry("tap_pH", "pH", "number", "7.4"),
                Entry("tap_GH", "GH", example="9 dGH"),
                Entry("tap_KH", "KH", example="6 dKH"),
                Entry("tap_nitrate", "nitrate", example="8 mg/L"),
            ),
        ),
        Part(
            "[room]",
            text("check_page.group_room"),
            (Entry("room_low", "low", example="18 degC"), Entry("room_high", "high", example="26 degC")),
        ),
        Part(
            "[heater]",
            text("check_page.group_heater"),
            (
                Entry("heater_power", "power", example="100 W"),
                Entry("heater_setpoint", "setpoint", example="24 degC"),
            ),
        ),
        Part(
            "[filter]",
            text("check_page.group_filter"),
            (
                Entry("filter_flow", "flow", example="700 L/hour"),
                Entry("filter_intake_guard", "intake_guard", "flag"),
            ),
        ),
        Part(
            "[[filter.media]]",
            "",
            (
                Entry("media_kind", "kind", "choice", choices=materials("media")),
                Entry("media_volume", "volume", example="1.5 L"),
            ),
        ),
        Part(
            "[routine]",
            text("check_page.group_routine"),
            (
                Entry("routine_water_change", "water_change", example="30 %"),
                Entry("routine_every", "every", example="7 day"),
            ),
        ),
    ]


def _quoted(typed: str) -> str:
    """A TOML string; JSON's escapes are TOML's too."""
    return json.dumps(typed, ensure_ascii=False)


def _written(entry: Entry, typed: str) -> str:
    if entry.kind == "flag":
        return f"{entry.key} = true"
    if entry.kind == "number" and _NUMBER.fullmatch(typed):
        return f"{entry.key} = {typed}"
    return f"{entry.key} = {_quoted(typed)}"


def rows(fields: Mapping[str, str], what: str, keys: tuple[str, ...]) -> list[dict[str, str]]:
    """The filled-in rows of animals or plants, and some empty ones after them."""
    found = [
        {key: fields.get(f"{what}_{n}_{key}", "").strip() for key in keys} for n in range(1, _MOST_ROWS + 1)
    ]
    filled = [row for row in found if any(row.values())]
    return filled + [dict.fromkeys(keys, "") for _ in range(_EMPTY_ROWS)]


def _row_lines(what: str, row: dict[str, str]) -> Iterator[str]:
    yield f"[[{what}]]"
    for key, typed in row.items():
        if typed:
            whole = key in ("count", "males", "females") and typed.isascii() and typed.isdigit()
            yield f"{key} = {int(typed) if whole and len(typed) < 10 else _quoted(typed)}"
    yield ""


def plan_text(fields: Mapping[str, str], table: Table) -> str:
    """The plan file that a filled-in form says; what was left empty is left out."""
    lines = [f"name = {_quoted(fields.get('name', '').strip() or text('form.unnamed'))}", ""]
    for part in parts(table):
        written = [
            _written(entry, typed) for entry in part.entries if (typed := fields.get(entry.name, "").strip())
        ]
        if written:
            lines += [part.heading, *written, ""]
    for what, keys in (("animals", ANIMAL_KEYS), ("plants", PLANT_KEYS)):
        for row in rows(fields, what, keys):
            if any(row.values()):
                lines += _row_lines(what, row)
    return "\n".join(lines).rstrip() + "\n"
