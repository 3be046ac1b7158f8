"""The table as it ships: bands and evidence, and what speaks against every two animals, in one file."""

from __future__ import annotations

from pathlib import Path

from stockcheck.advice.pairs import precompute_pairs
from stockcheck.table.build import BuildSummary, build


def build_whole_table(data: Path, database: Path) -> BuildSummary:
    """Build the database with its pairs; see :func:`stockcheck.table.build.build` for errors."""
    return build(data, database, extend=precompute_pairs)
