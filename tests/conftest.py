"""The built table, once for all tests."""

from __future__ import annotations

from pathlib import Path

import pytest

from stockcheck.advice.whole_table import build_whole_table
from stockcheck.table.read import Table

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def data_folder() -> Path:
    return ROOT / "data"


@pytest.fixture(scope="session")
def database(tmp_path_factory: pytest.TempPathFactory, data_folder: Path) -> Path:
    """A table built afresh from data/, so that no test leans on an old one."""
    path = tmp_path_factory.mktemp("table") / "stockcheck.db"
    build_whole_table(data_folder, path)
    return path


@pytest.fixture(scope="session")
def table(database: Path) -> Table:
    return Table.open(database)
