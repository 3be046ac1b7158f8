"""Plan and table to facts, facts to findings, findings to a report: the one place that sees all."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

import stockcheck.rules  # noqa: F401  (importing it registers every rule)
from stockcheck.advice.ladder import Limit, ladder
from stockcheck.advice.setpoint import setpoint_of
from stockcheck.advice.setpoint_model import Setpoint
from stockcheck.facts.build import build_facts, name_faults
from stockcheck.facts.model import Facts
from stockcheck.plan.reader import PlanError, Reading, read_plan, read_text
from stockcheck.rules.core import AXES, CLEAR, LEVELS, RULES, Finding

if TYPE_CHECKING:
    from stockcheck.table.read import Table


@dataclass
class Report:
    """What a check found.

    ``findings`` holds what there is to say, worst first; ``headroom`` has one number per axis, 0 to 100,
    ``None`` where nothing could be measured; ``overall`` is that of the weakest axis.
    """

    facts: Facts
    findings: list[Finding]
    headroom: dict[str, float | None]
    overall: float | None
    verdict: str
    setpoint: Setpoint
    table: Table

    @cached_property
    def limits(self) -> list[Limit]:
        """What would give out first with more animals, the nearest first; worked out when asked for."""
        return ladder(self.facts, self.table)

    @property
    def name(self) -> str:
        return self.facts.plan.name

    def at_level(self, *levels: str) -> list[Finding]:
        return [finding for finding in self.findings if finding.level in levels]


def check_file(path: Path, table: Table) -> Report:
    """Check the plan in a file.

    Raises
    ------
    PlanError
        With every fault of the plan at once: its form, its quantities, its names.
    """
    return _check(read_plan(path), table)


def check_text(text: str, table: Table, path: str = "plan") -> Report:
    """Check a plan given as text; ``path`` names it in messages.  Raises ``PlanError`` as ``check_file``."""
    return _check(read_text(text, path), table)


def _check(reading: Reading, table: Table) -> Report:
    faults = list(reading.faults)
    if reading.plan is not None and faults:
        faults.extend(name_faults(reading.plan, table))
    if reading.plan is None or faults:
        raise PlanError(faults)
    return report_on(build_facts(reading.plan, table), table)


def report_on(facts: Facts, table: Table) -> Report:
    """Run every rule over the facts and sum up."""
    raised = [finding for rule in RULES.values() for finding in rule.check(facts)]
    headroom = {axis: _axis_headroom(axis, raised) for axis in AXES}
    measured = [value for value in headroom.values() if value is not None]
    findings = sorted(
        (_sourced(finding) for finding in raised if finding.level != "clear"),
        key=lambda finding: (-LEVELS.index(finding.level), finding.headroom, AXES.index(finding.axis)),
    )
    return Report(
        facts=facts,
        findings=findings,
        headroom=headroom,
        overall=min(measured) if measured else None,
        verdict=findings[0].level if findings else "clear",
        setpoint=setpoint_of(facts),
        table=table,
    )


def _sourced(finding: Finding) -> Finding:
    """The finding with its rule's own sources where it names none of its own."""
    own = RULES[finding.rule].sources
    return finding if finding.sources or not own else replace(finding, sources=own)


def _axis_headroom(axis: str, raised: list[Finding]) -> float | None:
    """The least headroom on one axis; an unknown does not lower it, and alone leaves it unmeasured."""
    known = [finding.headroom for finding in raised if finding.axis == axis and finding.level != "unknown"]
    if known:
        return min(known)
    return None if any(finding.axis == axis for finding in raised) else CLEAR
