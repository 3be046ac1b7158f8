"""Where the open table and the database built from it are."""

from __future__ import annotations

import os
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def data_dir() -> Path:
    """The folder of CSV files: inside an installed package, or beside the package in a checkout."""
    packaged = _PACKAGE / "_table" / "data"
    return packaged if packaged.is_dir() else _PACKAGE.parent / "data"


def database_path() -> Path:
    """The built database: ``STOCKCHECK_DATABASE`` if set, else inside the package."""
    chosen = os.environ.get("STOCKCHECK_DATABASE")
    return Path(chosen) if chosen else _PACKAGE / "_table" / "stockcheck.db"
