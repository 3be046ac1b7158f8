"""The arithmetic behind figures, step by step."""

from __future__ import annotations

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from stockcheck.facts.model import Figure
from stockcheck.report.explain import Explanation
from stockcheck.report.terminal.page import page, sentence_case
from stockcheck.report.wording import interval_text, number


def print_explanation(told: Explanation, width: int | None = None) -> None:
    with page(width) as out:
        out.print(Text(f"{told.plan}: {told.topic}", style="bold"))
        for figure in told.figures:
            out.print()
            _print_figure(out, figure)


def _print_figure(out: Console, figure: Figure) -> None:
    title = Text(
        f"{sentence_case(figure.label)}: {interval_text(figure.interval)} {figure.unit}", style="bold"
    )
    out.print(title)
    for index, step in enumerate(figure.steps, 1):
        result = f"{number(step.value)} {step.unit}".rstrip()
        body = Text(f"{index}. {step.name}\n   {step.formula} = {result}")
        body.append(f"\n   {step.source}", style="dim")
        out.print(Padding(body, (0, 0, 0, 2)))
    if figure.influences:
        moved = "; ".join(
            f"{item.name} ({number(item.down)} to {number(item.up)})" for item in figure.influences[:3]
        )
        out.print(Padding(Text(f"Moved most by: {moved}"), (0, 0, 0, 2)))
