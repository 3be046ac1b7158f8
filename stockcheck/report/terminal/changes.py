"""What changed between two tables, and what that does to plans."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rich.padding import Padding
from rich.text import Text

from stockcheck.language import say
from stockcheck.report.terminal.page import page
from stockcheck.report.wording import counted
from stockcheck.table.diff import TableDiff


def print_table_diff(
    found: TableDiff, verdicts: Sequence[tuple[Path, str, str]], width: int | None = None
) -> None:
    """Bands that moved, then each plan's verdict before and after."""
    with page(width) as out:
        if not found:
            out.print(Text(say("No band moved.")))
        for title, slugs in ((say("New taxa"), found.added), (say("Taxa that went"), found.removed)):
            if slugs:
                out.print(Text(f"{title}: {', '.join(slugs)}"))
        if found.moves:
            out.print(
                Text(
                    say(
                        "{bands} moved",
                        bands=counted(len(found.moves), "band", "bands").capitalize(),
                    ),
                    style="bold",
                )
            )
            for move in found.moves:
                out.print(Padding(Text(str(move)), (0, 0, 0, 2)))
        changed = [row for row in verdicts if row[1] != row[2]]
        if changed:
            out.print(Text(say("Plans whose verdict changes"), style="bold"))
            for plan, before, after in changed:
                out.print(Padding(Text(f"{plan.name}: {before} -> {after}"), (0, 0, 0, 2)))
        elif verdicts:
            out.print(
                Text(say("No verdict changes among {plans}.", plans=counted(len(verdicts), "plan", "plans")))
            )
