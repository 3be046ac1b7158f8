"""The report as HTML: a fragment for a page, or one self-contained file that needs nothing else."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from stockcheck.advice.change import change_advice
from stockcheck.advice.pairs import pairs
from stockcheck.advice.sensitivity import moved_most_by
from stockcheck.language import spoken
from stockcheck.report.drawn import draw
from stockcheck.report.figures import first_figures
from stockcheck.report.pictures.marks import level_mark
from stockcheck.report.text_catalogue import text
from stockcheck.report.wording import FINDING_GRADES, HEADINGS, number, shown_unit, verdict_sentence
from stockcheck.rules.wording import sentence

if TYPE_CHECKING:
    from stockcheck.check import Report

_LEVELS = ("stop", "fix", "watch", "unknown")


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("stockcheck.report"), autoescape=True, undefined=StrictUndefined
    )
    environment.globals |= {"t": text, "spoken": spoken()}
    environment.filters.update(
        number=number,
        capitalized=sentence,
        unit=shown_unit,
        mark=lambda level: Markup(level_mark(level)),
    )
    return environment


def report_fragment(report: Report, rules_address: str = "") -> str:
    """The report as an ``article`` element, to stand in a page that brings the style sheet.

    Where there is a page of rules, findings link to it.
    """
    first = first_figures(report)
    named = {figure.name for figure in first}
    others = [figure for name, figure in report.facts.figures.items() if name not in named]
    return (
        _environment()
        .get_template("report.html")
        .render(
            report=report,
            rules_address=rules_address,
            sentence=verdict_sentence(report),
            levels=_LEVELS,
            headings=HEADINGS,
            grades=FINDING_GRADES,
            pictures={name: "" for name in ("bands", "tank", "flow", "nitrate", "oxygen")} | draw(report),
            company=pairs(report.facts),
            limits=[limit for limit in report.limits if limit.in_sight],
            change=change_advice(report.facts),
            moved=moved_most_by(report.facts),
            figures=first,
            more_figures=others,
        )
    )


def style_sheet() -> str:
    """The look that pages and report files share."""
    return files("stockcheck.report").joinpath("look.css").read_text(encoding="utf-8")


def html_report(report: Report) -> str:
    """The report as one file: pictures drawn in it, style in it, no script, nothing fetched."""
    return (
        _environment()
        .get_template("document.html")
        .render(report=report, fragment=report_fragment(report), look=style_sheet())
    )
