"""The rules and their pages."""

from __future__ import annotations

from collections.abc import Sequence
from inspect import cleandoc

from rich.padding import Padding
from rich.text import Text

from stockcheck.language import say
from stockcheck.report.terminal.page import columns, page
from stockcheck.report.wording import paragraphs
from stockcheck.rules.core import Rule


def print_rules(rules: Sequence[Rule], width: int | None = None) -> None:
    """Every rule with the first line of its page."""
    with page(width) as out:
        grid = columns()
        for rule in sorted(rules, key=lambda rule: rule.name):
            grid.add_row(rule.name, rule.page.strip().splitlines()[0])
        out.print(grid)
        out.print(Text(say("\nThe page of one: stockcheck rules NAME"), style="dim"))


def print_rule(rule: Rule, width: int | None = None) -> None:
    """A rule's page with its two examples."""

    with page(width) as out:
        out.print(Text(rule.name, style="bold"))
        out.print(Text("\n\n".join(paragraphs(rule.page))))
        for title, example in (
            (say("A plan that trips it"), rule.trips),
            (say("One that does not"), rule.clears),
        ):
            out.print(Text(say("\n{title} (beside an otherwise sound tank)", title=title), style="bold"))
            out.print(Padding(Text(cleandoc(example) or say("The sound tank as it is.")), (0, 0, 0, 2)))
        if rule.sources:
            out.print(Text("\nSources", style="bold"))
            for source in rule.sources:
                out.print(Padding(Text(source), (0, 0, 0, 2)))
