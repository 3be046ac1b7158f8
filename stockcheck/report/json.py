"""The report as JSON documents, each with a schema name and number."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from stockcheck.advice.change import change_advice
from stockcheck.advice.sensitivity import moved_most_by
from stockcheck.advice.setpoint import setpoint_document
from stockcheck.check import Report
from stockcheck.report.figures import first_figures
from stockcheck.rules.core import Finding
from stockcheck.table.model import Band, PlantSpecies, Species

if TYPE_CHECKING:
    from stockcheck.advice.pairs import PairTable
    from stockcheck.advice.suits import Suited
    from stockcheck.table.read import Table


def _rounded(value: float | None) -> float | None:
    """Six significant digits: enough to compute with, without the noise of binary fractions."""
    return None if value is None else float(f"{value:.6g}")


def report_document(report: Report) -> dict[str, Any]:
    """``stockcheck/report/1``: what ``check --format json`` prints."""
    advice = change_advice(report.facts)
    return {
        "schema": "stockcheck/report/1",
        "plan": report.name,
        "verdict": report.verdict,
        "headroom": {
            "overall": _rounded(report.overall),
            **{axis: _rounded(value) for axis, value in report.headroom.items()},
        },
        "findings": [_finding(finding) for finding in report.findings],
        "setpoint": setpoint_document(report.setpoint),
        "limits": [asdict(limit) for limit in report.limits],
        "water_change": asdict(advice) if advice is not None else None,
        "moved_most_by": moved_most_by(report.facts),
        "figures": _figures(report),
    }


def _figures(report: Report) -> dict[str, Any]:
    """Every figure; one that each report has is null where the plan does not allow it, with the reason."""
    absent = {
        first.name: {"low": None, "value": None, "high": None, "unit": first.unit, "missing": first.missing}
        for first in first_figures(report)
        if first.figure is None
    }
    there = {
        name: {
            "low": _rounded(figure.interval.low),
            "value": _rounded(figure.interval.value),
            "high": _rounded(figure.interval.high),
            "unit": figure.unit,
        }
        for name, figure in report.facts.figures.items()
    }
    return there | absent


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "level": finding.level,
        "species": list(finding.species),
        "message": finding.message,
        "remedy": finding.remedy,
        "grade": finding.grade,
        "sources": list(finding.sources),
    }


def taxon_document(taxon: Species | PlantSpecies, table: Table) -> dict[str, Any]:
    """``stockcheck/taxon/1``: one taxon, its traits with their basis, its bands with their evidence."""
    traits = {key: value for key, value in asdict(taxon).items() if key not in ("bands", "basis")}
    return {
        "schema": "stockcheck/taxon/1",
        **traits,
        "basis": taxon.basis,
        "bands": {name: _band(band) for name, band in taxon.bands.items()},
        "evidence": [asdict(row) for row in table.evidence(taxon.slug)],
    }


def _band(band: Band) -> dict[str, Any]:
    document = asdict(band)
    document["sources"] = list(band.sources)
    return document


def suited_document(found: list[Suited], water: Mapping[str, float]) -> dict[str, Any]:
    """``stockcheck/suited/1``: the taxa that a water suits, each with how well."""
    return {
        "schema": "stockcheck/suited/1",
        "water": dict(water),
        "taxa": [
            {
                "slug": suited.taxon.slug,
                "scientific_name": suited.taxon.scientific_name,
                "common_name": suited.taxon.common_name,
                "fit": suited.fit,
                "unstated": list(suited.unstated),
            }
            for suited in found
        ],
    }


def pairs_document(told: PairTable) -> dict[str, Any]:
    """``stockcheck/pairs/1``: every two taxa of a plan, and each with its own kind."""
    return {
        "schema": "stockcheck/pairs/1",
        "species": list(told.slugs),
        "pairs": [
            {
                "species": [one, other],
                "level": cell.level,
                "mechanisms": cell.words,
                "messages": list(cell.messages),
                "remedies": list(cell.remedies),
            }
            for (one, other), cell in told.cells.items()
        ],
    }
