"""What is wrong with a plan, told so that it can be put right."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from stockcheck.plan.lines import key_lines, line_of


class Fault(NamedTuple):
    """One thing wrong: where (line from 1, ``None`` for the file as a whole), what, and what to do."""

    path: str
    line: int | None
    key: str
    problem: str
    remedy: str

    def __str__(self) -> str:
        place = self.path if self.line is None else f"{self.path}:{self.line}"
        key = f"{self.key}: " if self.key else ""
        return f"{place}: {key}{self.problem}. {self.remedy}".rstrip()


def located(faults: Sequence[Fault], text: str) -> list[Fault]:
    """Faults with the lines of their keys in the text of a plan; without a text as they are."""
    lines = key_lines(text) if faults and text else {}
    return [fault._replace(line=line_of(lines, fault.key)) for fault in faults]


class PlanError(Exception):
    """A plan that cannot be used, with every fault found, in the order of the file."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = sorted(faults, key=lambda fault: fault.line or 0)
        super().__init__("\n".join(str(fault) for fault in self.faults))
