"""Builds the species table into the wheel, so that an installed stockcheck has one to read."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class TableHook(BuildHookInterface):  # type: ignore[type-arg]
    """Runs before a wheel is packed; an editable install builds its table through the scripts instead."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        if self.target_name != "wheel" or version == "editable":
            return
        root = Path(self.root)
        sys.path.insert(0, str(root))
        from stockcheck.advice.whole_table import build_whole_table

        build_whole_table(root / "data", root / "stockcheck" / "_table" / "stockcheck.db")
