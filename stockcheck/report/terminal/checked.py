"""The report of a check: verdict first, then what to change and why, then pictures and figures."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rich.console import Console, Group
from rich.padding import Padding
from rich.text import Text

from stockcheck.advice.change import change_advice
from stockcheck.advice.sensitivity import moved_most_by
from stockcheck.check import Report
from stockcheck.language import say
from stockcheck.report.bands import UNITS, BandRow, draw_bands
from stockcheck.report.explain import TOPICS
from stockcheck.report.figures import first_figures
from stockcheck.report.terminal.page import columns, indented, page
from stockcheck.report.terminal.setpoint import setpoint_lines
from stockcheck.report.wording import (
    AXIS_WORDS,
    FINDING_GRADES,
    HEADINGS,
    MARKS,
    interval_text,
    quantity,
    verdict_sentence,
)
from stockcheck.rules.bands import name_of
from stockcheck.rules.core import Finding
from stockcheck.rules.wording import sentence


def print_report(report: Report, width: int | None = None) -> None:
    with page(width) as out:
        out.print(Text(report.name, style="bold"))
        out.print(Text(f"{verdict_sentence(report)}"))
        for level in ("stop", "fix", "watch", "unknown"):
            found = report.at_level(level)
            if found:
                out.print()
                out.print(Text(f"{MARKS[level]} {HEADINGS[level]}", style="bold"))
                for finding in found:
                    out.print(_finding(finding))
        out.print()
        out.print(setpoint_lines(report.setpoint, report.setpoint.notes))
        out.print()
        out.print(_headroom(report, out.width))
        _print_band_pictures(out, report)
        out.print()
        out.print(Text(say("Figures, each with its 90 % interval"), style="bold"))
        out.print(_figures(report))
        out.print()
        out.print(_limits(report))
        out.print()
        out.print(_hangs_on(report))
        out.print()
        out.print(
            Text(
                say(
                    "The arithmetic: stockcheck explain TOPIC PLAN; topics: {topics}.",
                    topics=", ".join(TOPICS),
                )
            )
        )


def _finding(finding: Finding) -> Padding:
    lines = [Text(finding.message)]
    if finding.remedy:
        lines.append(Text(f"→ {finding.remedy}"))
    basis = say(
        "{rule} · grade {grade}: {finding_grades}",
        rule=finding.rule,
        grade=finding.grade,
        finding_grades=FINDING_GRADES[finding.grade],
    )
    if finding.sources:
        shown = ", ".join(finding.sources[:4])
        more = (
            say(" and {sources} more", sources=len(finding.sources) - 4) if len(finding.sources) > 4 else ""
        )
        basis += f" · {shown}{more}"
    lines.append(Text(basis, style="dim"))
    return Padding(Group(*lines), (0, 0, 0, 2))


#: Narrower than this a bar is half as long and stands without words.
_WIDE_ENOUGH = 60


def _headroom(report: Report, width: int) -> Group:
    grid = columns()
    cells = 20 if width >= _WIDE_ENOUGH else 10
    for axis, value in report.headroom.items():
        filled = round((value or 0.0) * cells / 100)
        bar = say("not measured") if value is None else "▪" * filled + "·" * (cells - filled)
        words = [AXIS_WORDS[axis]] if width >= _WIDE_ENOUGH else []
        grid.add_row(axis, Text("–" if value is None else f"{value:.0f}", justify="right"), bar, *words)
    title = Text(say("Headroom"), style="bold")
    title.append(say("  0: harm expected, 50: just holds, 100: with the usual margin"), style="dim")
    return Group(title, indented(grid))


def _print_band_pictures(out: Console, report: Report) -> None:
    groups, plants = report.facts.groups, report.facts.plantings
    taxa = list(
        {taxon.slug: taxon for taxon in [g.species for g in groups] + [p.species for p in plants]}.values()
    )
    label_width = min(26, max((len(name_of(taxon)) for taxon in taxa), default=10) + 2, out.width // 3)
    drawn = False
    for field, unit in UNITS.items():
        rows = [BandRow(f"  {name_of(taxon)}", taxon.band(field)) for taxon in taxa]
        lines = draw_bands(rows, _own(report, field), out.width, label_width)
        if lines:
            out.print()
            title = field if unit == field else f"{field}, {unit}"
            out.print(Text(title[0].upper() + title[1:] if field == "temperature" else title, style="bold"))
            for line in lines:
                out.print(Text(line), no_wrap=True, crop=True)
            drawn = True
    if drawn:
        out.print(
            Text(say("  ━ comfort   · tolerated   = comfort that all share   | this plan"), style="dim")
        )


def _own(report: Report, field: str) -> tuple[float, float] | None:
    """The plan's own value of a field, as a range."""
    plan = report.facts.plan
    if field == "temperature":
        if plan.heater and report.facts.temperature_c is not None:
            centre = report.facts.temperature_c
            return centre - plan.heater.swing_c, centre + plan.heater.swing_c
        if plan.room.low_c is not None and plan.room.high_c is not None:
            return plan.room.low_c, plan.room.high_c
        return None
    value = {"pH": plan.water.pH, "GH": plan.water.GH_dgh, "KH": plan.water.KH_dkh}[field]
    return None if value is None else (value, value)


def _figures(report: Report) -> Padding:
    grid = columns()
    for _, label, unit, figure, missing in first_figures(report):
        value = quantity(interval_text(figure.interval), unit) if figure else missing
        grid.add_row(sentence(label), value)
    return indented(grid)


def _limits(report: Report) -> Group:
    """What would give out first; those far out of sight stay in JSON and `explain limits`."""
    near = [limit for limit in report.limits if limit.in_sight]
    lines = [Padding(Text(f"{place}. {limit.text}"), (0, 0, 0, 2)) for place, limit in enumerate(near, 1)]
    advice = change_advice(report.facts)
    if advice is not None:
        lines.append(Padding(Text(advice.text), (0, 0, 0, 2)))
    title = say("What gives out first, all animals grown") if near else say("Water changes")
    return Group(Text(title, style="bold"), *lines)


def _hangs_on(report: Report) -> Group:
    """The inputs that move each axis most: measure or decide these first."""
    grid = columns()
    for axis, inputs in moved_most_by(report.facts).items():
        grid.add_row(axis, "; ".join(inputs))
    return Group(
        Text(say("What the figures hang on most: to be surer, measure or settle these"), style="bold"),
        indented(grid),
    )


def print_summary(plans: Sequence[Path], results: Sequence[Report | str], width: int | None = None) -> None:
    """One line a plan, for many plans."""
    with page(width) as out:
        grid = columns()
        for path, result in zip(plans, results, strict=True):
            if isinstance(result, str):
                grid.add_row(str(path), "", say("could not be used"), "")
            else:
                overall = "–" if result.overall is None else f"{result.overall:.0f}"
                grid.add_row(
                    str(path),
                    MARKS.get(result.verdict, " "),
                    result.verdict,
                    say("headroom {overall}", overall=overall),
                )
        out.print()
        out.print(Text(say("All plans"), style="bold"))
        out.print(grid)
