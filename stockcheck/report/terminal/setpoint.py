"""A setpoint, why, and who falls short of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.padding import Padding
from rich.text import Text

from stockcheck.advice.setpoint import degrees
from stockcheck.report.terminal.page import columns, label, page
from stockcheck.report.wording import number

if TYPE_CHECKING:
    from stockcheck.advice.setpoint import Setpoint


def setpoint_lines(answer: Setpoint) -> Group:
    lines = [Text(answer.sentence, style="bold")]
    lines.extend(Text(f"  {note}") for note in answer.notes)
    if answer.unstated:
        names = ", ".join(label(taxon) for taxon in answer.unstated)
        lines.append(
            Text(f"  ? No source states a temperature for {names}: find out before you set the dial.")
        )
    return Group(*lines)


def print_setpoint(answer: Setpoint, width: int | None = None) -> None:
    """The setpoint, why, and where there is none who falls short and which groups do share one."""
    with page(width) as out:
        out.print(setpoint_lines(answer))
        if answer.value_c is not None:
            return
        if answer.shortfalls:
            out.print(Text("\nHalf way between them", style="bold"))
            grid = columns()
            for short in answer.shortfalls:
                state = (
                    "comfortable"
                    if not short.kelvin
                    else f"{abs(short.kelvin):.2g} K too {'cold' if short.kelvin > 0 else 'warm'}"
                )
                grid.add_row(
                    f"  {label(short.taxon)}", state, "" if short.tolerated else "beyond what it tolerates"
                )
            out.print(grid)
        if answer.parties:
            out.print(Text("\nThe largest groups that do share a band", style="bold"))
            for party in answer.parties:
                names = ", ".join(label(taxon) for taxon in party.taxa)
                span = party.choice.span
                reach = f"comfortable {number(span.low)} to {number(span.high)} degC"
                out.print(Padding(Text(f"{degrees(party.choice.value_c)}: {names} ({reach})"), (0, 0, 0, 2)))
