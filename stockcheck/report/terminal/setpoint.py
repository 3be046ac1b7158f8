"""A setpoint, why, and who falls short of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.text import Text

from stockcheck.advice.setpoint_model import degrees
from stockcheck.language import say
from stockcheck.report.terminal.page import columns, indented, page
from stockcheck.report.wording import span_text
from stockcheck.rules.bands import finite, name_of

if TYPE_CHECKING:
    from stockcheck.advice.setpoint_model import Setpoint


def setpoint_lines(answer: Setpoint, notes: tuple[str, ...]) -> Group:
    """The answer in a sentence, with notes under it."""
    lines: list[RenderableType] = [Text(answer.sentence, style="bold")]
    lines.extend(Padding(Text(note), (0, 0, 0, 2)) for note in notes)
    if answer.unstated:
        names = ", ".join(name_of(taxon) for taxon in answer.unstated)
        gap = say(
            "? No source states a temperature for {names}: find out before you set the dial.", names=names
        )
        lines.append(Padding(Text(gap), (0, 0, 0, 2)))
    return Group(*lines)


def print_setpoint(answer: Setpoint, width: int | None = None) -> None:
    """The setpoint, why, and where there is none who falls short and which groups do share one."""
    with page(width) as out:
        # Where there is no setpoint the tables below say what the other notes would.
        out.print(setpoint_lines(answer, answer.notes if answer.value_c is not None else answer.notes[:1]))
        if answer.shortfalls:
            out.print(
                Text(
                    say("\nThe best compromise, {degrees}", degrees=degrees(answer.shortfalls[0].at_c)),
                    style="bold",
                )
            )
            grid = columns()
            for short in answer.shortfalls:
                state = (
                    say("comfortable")
                    if not short.kelvin
                    else say(
                        "{kelvin:.2g} K too {cold_or_warm}",
                        kelvin=abs(short.kelvin),
                        cold_or_warm=say("cold") if short.kelvin > 0 else say("warm"),
                    )
                )
                grid.add_row(
                    name_of(short.taxon),
                    state,
                    "" if short.tolerated else say("beyond what it tolerates"),
                )
            out.print(indented(grid))
        if answer.parties:
            out.print(Text(say("\nThe largest groups that do share a band"), style="bold"))
            for party in answer.parties:
                names = ", ".join(name_of(taxon) for taxon in party.taxa)
                span = party.choice.span
                reach = say("comfortable {span}", span=span_text(finite(span.low), finite(span.high), "°C"))
                out.print(Padding(Text(f"{degrees(party.choice.value_c)}: {names} ({reach})"), (0, 0, 0, 2)))
