"""A plan's animals against one another, a cell for every two of them."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from rich.padding import Padding
from rich.text import Text

from stockcheck.language import say
from stockcheck.report.terminal.page import columns, page
from stockcheck.report.wording import MARKS
from stockcheck.rules.core import LEVELS

if TYPE_CHECKING:
    from stockcheck.advice.pairs import Cell, PairTable


def print_pairs(told: PairTable, width: int | None = None) -> None:
    """First each kind among itself, then every two, those with most to say first."""
    among = [
        (name, say("among themselves"), told.cell(slug, slug)) for slug, name in zip(*told[:2], strict=True)
    ]
    taxa = list(zip(told.slugs, told.names, strict=True))
    between = [
        (name, say("with {other_name}", other_name=other_name), told.cell(slug, other))
        for (slug, name), (other, other_name) in combinations(taxa, 2)
    ]
    between.sort(key=lambda row: -LEVELS.index(row[2].level))
    with page(width) as out:
        grid = columns()
        for name, other, cell in among + between:
            grid.add_row(MARKS.get(cell.level, " "), name, other, _cell_text(cell))
        out.print(grid)
        for name, other, cell in among + between:
            if cell.messages:
                out.print(Text(f"\n{name} {other}", style="bold"))
                for message in cell.messages:
                    out.print(Padding(Text(message), (0, 0, 0, 2)))
                for remedy in dict.fromkeys(cell.remedies):
                    out.print(Padding(Text(f"→ {remedy}"), (0, 0, 0, 2)))


def _cell_text(cell: Cell) -> str:
    return cell.words if cell.level == "clear" else f"{cell.level}: {cell.words}"
