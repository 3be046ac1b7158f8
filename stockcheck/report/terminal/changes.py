"""What changed between two tables, and what that does to plans."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rich.padding import Padding
from rich.text import Text

from stockcheck.report.terminal.page import page
from stockcheck.report.wording import counted
from stockcheck.table.diff import TableDiff


def print_table_diff(
    found: TableDiff, verdicts: Sequence[tuple[Path, str, str]], width: int | None = None
) -> None:
    """Bands that moved, then each plan's verdict before and after."""
    with page(width) as out:
        if not found:
            out.print(Text("No band moved."))
        for title, slugs in (("New taxa", found.added), ("Taxa that went", found.removed)):
            if slugs:
                out.print(Text(f"{title}: {', '.join(slugs)}"))
        if found.moves:
            out.print(Text(f"{counted(len(found.moves), 'band', 'bands').capitalize()} moved", style="bold"))
            for move in found.moves:
                out.print(Padding(Text(str(move)), (0, 0, 0, 2)))
        changed = [row for row in verdicts if row[1] != row[2]]
        if changed:
            out.print(Text("Plans whose verdict changes", style="bold"))
            for plan, before, after in changed:
                out.print(Padding(Text(f"{plan.name}: {before} -> {after}"), (0, 0, 0, 2)))
        elif verdicts:
            out.print(Text(f"No verdict changes among {counted(len(verdicts), 'plan', 'plans')}."))
