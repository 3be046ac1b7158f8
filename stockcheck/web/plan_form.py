"""A plan filled in field by field, written out as a plan file."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stockcheck.report.text_catalogue import text

if TYPE_CHECKING:
    from stockcheck.table.read import Table

#: More rows of a list than this are not read.
_MOST_ROWS = 60
_NUMBER = re.compile(r"[0-9]{1,9}(\.[0-9]{1,6})?")
_WHOLE = re.compile(r"[0-9]{1,9}")


@dataclass(frozen=True)
class Entry:
    """One field of the form: where it stands in a plan, and how it is asked for."""

    name: str  # of the form field: section, underscore, key
    key: str
    kind: str = "quantity"  # quantity | number | whole | name | choice | flag
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


@dataclass(frozen=True)
class Listing:
    """One list of a plan, a row each: its tables' heading, its columns, the empty rows after the filled."""

    what: str  # starts the names of the form's fields: animals_1_species
    heading: str
    columns: tuple[Entry, ...]
    spare: int

    @property
    def title(self) -> str:
        return text(f"form.{self.what}")

    def rows(self, fields: Mapping[str, str]) -> list[dict[str, str]]:
        """What was typed, row by row, by key; rows that are empty come last."""
        found = [
            {entry.key: fields.get(f"{self.what}_{n}_{entry.key}", "").strip() for entry in self.columns}
            for n in range(1, _MOST_ROWS + 1)
        ]
        filled = [row for row in found if any(row.values())]
        return filled + [dict.fromkeys((entry.key for entry in self.columns), "") for _ in range(self.spare)]


def parts() -> list[Part]:
    """The sections that the form asks for."""
    return [
        Part(
            "[tank]",
            text("check_page.group_tank"),
            (
                Entry("tank_length", "length", example="120 cm"),
                Entry("tank_width", "width", example="40 cm"),
                Entry("tank_height", "height", example="50 cm"),
                Entry("tank_glass", "glass", example="10 mm"),
                Entry("tank_fill_gap", "fill_gap", example="3 cm"),
                Entry("tank_water_volume", "water_volume", example="187 L"),
                Entry("tank_cover", "cover", "choice", choices=("open", "some", "dense")),
                Entry("tank_lid", "lid", "flag"),
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
            "[routine]",
            text("check_page.group_routine"),
            (
                Entry("routine_water_change", "water_change", example="30 %"),
                Entry("routine_every", "every", example="7 day"),
            ),
        ),
    ]


def listings(table: Table) -> list[Listing]:
    """The lists that the form asks for, with the materials of the table to choose from."""

    def kinds(what: str, materials: str) -> Entry:
        names = tuple(material.name for material in table.materials(materials))
        return Entry(f"{what}_kind", "kind", "choice", choices=names)

    return [
        Listing(
            "animals",
            "animals",
            (
                Entry("animals_species", "species", "name"),
                Entry("animals_count", "count", "whole"),
                Entry("animals_males", "males", "whole"),
                Entry("animals_females", "females", "whole"),
            ),
            spare=5,
        ),
        Listing(
            "plants",
            "plants",
            (Entry("plants_species", "species", "name"), Entry("plants_cover", "cover", example="20 %")),
            spare=5,
        ),
        Listing(
            "bed",
            "substrate",
            (
                kinds("bed", "substrates"),
                Entry("bed_front", "front", example="4 cm"),
                Entry("bed_back", "back", example="8 cm"),
            ),
            spare=2,
        ),
        Listing(
            "stones",
            "hardscape",
            (kinds("stones", "rocks"), Entry("stones_mass", "mass", example="6 kg")),
            spare=2,
        ),
        Listing(
            "media",
            "filter.media",
            (kinds("media", "media"), Entry("media_volume", "volume", example="1.5 L")),
            spare=2,
        ),
    ]


def _quoted(typed: str) -> str:
    """A TOML string; JSON's escapes are TOML's too."""
    return json.dumps(typed, ensure_ascii=False)


def _written(entry: Entry, typed: str) -> str:
    if entry.kind == "flag":
        return f"{entry.key} = true"
    point = typed.replace(",", ".")  # a decimal comma can only be meant as a point
    if entry.kind == "number" and _NUMBER.fullmatch(point):
        return f"{entry.key} = {point}"
    if entry.kind == "whole" and _WHOLE.fullmatch(typed):
        return f"{entry.key} = {int(typed)}"
    return f"{entry.key} = {_quoted(typed)}"


def plan_text(fields: Mapping[str, str], table: Table) -> str:
    """The plan file that a filled-in form says; what was left empty is left out."""
    lines = [f"name = {_quoted(fields.get('name', '').strip() or text('form.unnamed'))}", ""]
    for part in parts():
        typed = {entry: fields.get(entry.name, "").strip() for entry in part.entries}
        lines += _table(part.heading, typed)
    for listing in listings(table):
        for row in listing.rows(fields):
            lines += _table(f"[[{listing.heading}]]", {entry: row[entry.key] for entry in listing.columns})
    return "\n".join(lines).rstrip() + "\n"


@dataclass(frozen=True)
class Asked:
    """A field of the form: its name, and its label with the row it stands in."""

    name: str
    label: str


def asked(table: Table) -> dict[str, Asked]:
    """Every field of the form by the key that it fills in: ``tank.length``, ``animals[2].species``.

    A whole section or row (``tank``, ``animals[2]``) is known by its first field.
    """
    fields: dict[str, Asked] = {}
    for part in parts():
        heading = part.heading.strip("[]")
        fields[heading] = Asked(part.entries[0].name, part.title)
        for entry in part.entries:
            fields[f"{heading}.{entry.key}"] = Asked(entry.name, f"{part.title}: {entry.label}")
    for listing in listings(table):
        for n in range(1, _MOST_ROWS + 1):
            row, key = f"{listing.title}, {text('check_page.row', n=n)}", f"{listing.heading}[{n}]"
            fields[key] = Asked(f"{listing.what}_{n}_{listing.columns[0].key}", row)
            for entry in listing.columns:
                label = f"{row}: {entry.label}"
                fields[f"{key}.{entry.key}"] = Asked(f"{listing.what}_{n}_{entry.key}", label)
    return fields


def _table(heading: str, typed: Mapping[Entry, str]) -> list[str]:
    """One TOML table with what was filled in; nothing where nothing was."""
    written = [_written(entry, value) for entry, value in typed.items() if value]
    return [heading, *written, ""] if written else []
