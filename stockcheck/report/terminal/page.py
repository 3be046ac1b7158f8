"""A page of terminal text, and what every page uses."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO

import click
from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table as Grid

PIPED_WIDTH = 100


@contextmanager
def page(width: int | None) -> Iterator[Console]:
    """A console of the asked width, the terminal's own, or a fixed one when the output is piped.

    What is printed goes out at the end with the blanks at line ends trimmed, so that piped text is clean.
    """
    terminal = sys.stdout.isatty()
    if width is None and not terminal:
        width = PIPED_WIDTH
    kept = StringIO()
    columns = width or Console().width
    yield Console(
        file=kept, width=columns, force_terminal=terminal, highlight=False, markup=False, emoji=False
    )
    click.echo("\n".join(line.rstrip() for line in kept.getvalue().splitlines()))


def columns() -> Grid:
    """A grid without lines."""
    return Grid.grid(padding=(0, 2))


def indented(what: RenderableType) -> Padding:
    """Two columns in, wrapped lines too."""
    return Padding(what, (0, 0, 0, 2))
