"""The arithmetic behind figures, step by step."""

from __future__ import annotations

from rich.console import Console, Group
from rich.padding import Padding
from rich.text import Text

from stockcheck.facts.model import Figure, Step
from stockcheck.language import say
from stockcheck.report.explain import Explanation
from stockcheck.report.terminal.page import page
from stockcheck.report.wording import interval_text, number, quantity
from stockcheck.rules.wording import sentence


def print_explanation(told: Explanation, width: int | None = None) -> None:
    """Each figure with its steps; a step that stood under an earlier figure is not told twice."""
    with page(width) as out:
        out.print(Text(f"{told.plan}: {told.topic}", style="bold"))
        seen: set[Step] = set()
        for figure in told.figures:
            out.print()
            _print_figure(out, figure, seen)
            seen.update(figure.steps)
        for place, limit in enumerate(told.limits, 1):
            out.print(Text(f"{place}. {limit.text}"))
            out.print(Padding(Text(limit.source, style="dim"), (0, 0, 0, 3)))


def _print_figure(out: Console, figure: Figure, seen: set[Step]) -> None:
    value = quantity(interval_text(figure.interval), figure.unit)
    out.print(Text(f"{sentence(figure.label)}: {value}", style="bold"))
    fresh = [step for step in figure.steps if step not in seen]
    if len(fresh) < len(figure.steps):
        known = list(dict.fromkeys(step.name for step in figure.steps if step in seen))
        out.print(Padding(Text(say("As above: {names}.", names=", ".join(known))), (0, 0, 0, 2)))
    for place, step in enumerate(fresh, 1):
        out.print(Padding(_step(place, step), (0, 0, 0, 2)))
    ends = [(item.name, number(item.down), number(item.up)) for item in figure.influences[:3]]
    moved = "; ".join(
        say("{name} ({low} to {high})", name=name, low=low, high=high)
        for name, low, high in ends
        if low != high
    )
    if moved:
        out.print(Padding(Text(say("Moved most by: {moved}", moved=moved)), (0, 0, 0, 2)))


def _step(place: int, step: Step) -> Group:
    result = quantity(number(step.value), step.unit)
    under = (0, 0, 0, 3)
    return Group(
        Text(f"{place}. {step.name}"),
        Padding(Text(f"{step.formula} = {result}"), under),
        Padding(Text(step.source, style="dim"), under),
    )
