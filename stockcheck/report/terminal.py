"""The report in a terminal: verdict first, then what to change and why, then pictures and figures.

Plain text when piped; shapes and words carry the meaning, colour only helps the eye.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rich.console import Console, Group
from rich.padding import Padding
from rich.table import Table as Grid
from rich.text import Text

from stockcheck.advice.setpoint import degrees
from stockcheck.check import Report
from stockcheck.facts.model import Figure
from stockcheck.report.bands import UNITS, BandRow, draw_bands
from stockcheck.report.explain import Explanation
from stockcheck.report.wording import (
    AXIS_WORDS,
    GRADE_WORDS,
    HEADINGS,
    MARKS,
    interval_text,
    number,
    span_text,
    verdict_sentence,
)
from stockcheck.rules.core import Finding, Rule
from stockcheck.table.model import PlantSpecies, Species

if TYPE_CHECKING:
    from stockcheck.advice.pairs import PairTable
    from stockcheck.advice.setpoint import Setpoint
    from stockcheck.advice.suits import Suited
    from stockcheck.table.diff import TableDiff
    from stockcheck.table.read import Table

PIPED_WIDTH = 100
#: The figures a keeper reads first; the others stay in JSON and `explain`.
SHOWN = (
    "net_volume_l",
    "filled_mass_kg",
    "feed_g_per_day",
    "nitrogen_load_mg_per_day",
    "removal_capacity_mg_per_day",
    "tan_mg_per_l",
    "nh3_n_mg_per_l",
    "nitrate_mg_per_l",
    "oxygen_night_mg_per_l",
    "heater_power_w",
)


def console(width: int | None) -> Console:
    """A console of the asked width, the terminal's own, or a fixed one when the output is piped."""
    if width is None and not sys.stdout.isatty():
        width = PIPED_WIDTH
    return Console(width=width, highlight=False, markup=False, emoji=False)


def print_report(report: Report, width: int | None = None) -> None:
    out = console(width)
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
    out.print(_setpoint_lines(report.setpoint))
    out.print()
    out.print(_headroom(report))
    _print_band_pictures(out, report)
    out.print()
    out.print(Text("Figures, each with its 90 % interval", style="bold"))
    out.print(_figures(report))
    out.print()
    out.print(
        Text("The arithmetic: stockcheck explain waste PLAN (or volume, breath, heat, water).", style="dim")
    )


def _finding(finding: Finding) -> Padding:
    lines = [Text(finding.message)]
    if finding.remedy:
        lines.append(Text(f"→ {finding.remedy}"))
    basis = f"{finding.rule} · grade {finding.grade}, {GRADE_WORDS[finding.grade]}"
    if finding.sources:
        shown = ", ".join(finding.sources[:4])
        more = f" and {len(finding.sources) - 4} more" if len(finding.sources) > 4 else ""
        basis += f" · {shown}{more}"
    lines.append(Text(basis, style="dim"))
    return Padding(Group(*lines), (0, 0, 0, 2))


def _headroom(report: Report) -> Group:
    grid = Grid.grid(padding=(0, 2))
    for axis, value in report.headroom.items():
        bar = "not measured" if value is None else "▪" * round(value / 5) + "·" * (20 - round(value / 5))
        grid.add_row(
            f"  {axis}",
            Text("–" if value is None else f"{value:.0f}", justify="right"),
            bar,
            AXIS_WORDS[axis],
        )
    title = Text("Headroom", style="bold")
    title.append("  0: harm expected, 50: just holds, 100: with the usual margin", style="dim")
    return Group(title, grid)


def _print_band_pictures(out: Console, report: Report) -> None:
    groups, plants = report.facts.groups, report.facts.plantings
    taxa = list(
        {taxon.slug: taxon for taxon in [g.species for g in groups] + [p.species for p in plants]}.values()
    )
    label_width = min(26, max((len(_label(taxon)) for taxon in taxa), default=10) + 2, out.width // 3)
    drawn = False
    for field, unit in UNITS.items():
        rows = [BandRow(f"  {_label(taxon)}", taxon.band(field)) for taxon in taxa]
        lines = draw_bands(rows, _own(report, field), out.width, label_width)
        if lines:
            out.print()
            title = field if unit == field else f"{field}, {unit}"
            out.print(Text(title[0].upper() + title[1:] if field == "temperature" else title, style="bold"))
            for line in lines:
                out.print(Text(line), no_wrap=True, crop=True)
            drawn = True
    if drawn:
        out.print(Text("  ━ comfort   · tolerated   = comfort that all share   | this plan", style="dim"))


def _label(taxon: Species | PlantSpecies) -> str:
    return taxon.common_name or taxon.scientific_name


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


def _figures(report: Report) -> Grid:
    grid = Grid.grid(padding=(0, 2))
    for name in SHOWN:
        figure = report.facts.figures.get(name)
        if figure is not None:
            grid.add_row(
                f"  {_sentence_case(figure.label)}", f"{interval_text(figure.interval)} {figure.unit}"
            )
        else:
            grid.add_row(f"  {name}", "unknown: something it needs is missing, see above")
    return grid


def _sentence_case(text: str) -> str:
    return text[:1].upper() + text[1:]


def print_summary(plans: Sequence[Path], results: Sequence[Report | str], width: int | None = None) -> None:
    """One line a plan, for many plans."""
    out = console(width)
    grid = Grid.grid(padding=(0, 2))
    for path, result in zip(plans, results, strict=True):
        if isinstance(result, str):
            grid.add_row(str(path), "", "could not be used", "")
        else:
            overall = "–" if result.overall is None else f"{result.overall:.0f}"
            grid.add_row(str(path), MARKS.get(result.verdict, " "), result.verdict, f"headroom {overall}")
    out.print()
    out.print(Text("All plans", style="bold"))
    out.print(grid)


def print_explanation(told: Explanation, width: int | None = None) -> None:
    out = console(width)
    out.print(Text(f"{told.plan}: {told.topic}", style="bold"))
    for figure in told.figures:
        out.print()
        _print_figure(out, figure)


def _print_figure(out: Console, figure: Figure) -> None:
    title = Text(
        f"{_sentence_case(figure.label)}: {interval_text(figure.interval)} {figure.unit}", style="bold"
    )
    out.print(title)
    for index, step in enumerate(figure.steps, 1):
        result = f"{number(step.value)} {step.unit}".rstrip()
        body = Text(f"{index}. {step.name}\n   {step.formula} = {result}")
        body.append(f"\n   {step.source}", style="dim")
        out.print(Padding(body, (0, 0, 0, 2)))
    if figure.influences:
        moved = "; ".join(
            f"{item.name} ({number(item.down)} to {number(item.up)})" for item in figure.influences[:3]
        )
        out.print(Padding(Text(f"Moved most by: {moved}"), (0, 0, 0, 2)))


def _setpoint_lines(answer: Setpoint) -> Group:
    lines = [Text(answer.sentence, style="bold")]
    lines.extend(Text(f"  {note}") for note in answer.notes)
    if answer.unstated:
        names = ", ".join(_label(taxon) for taxon in answer.unstated)
        lines.append(
            Text(f"  ? No source states a temperature for {names}: find out before you set the dial.")
        )
    return Group(*lines)


def print_setpoint(answer: Setpoint, width: int | None = None) -> None:
    """The setpoint, why, and where there is none who falls short and which groups do share one."""
    out = console(width)
    out.print(_setpoint_lines(answer))
    if answer.value_c is not None:
        return
    if answer.shortfalls:
        out.print(Text("\nHalf way between them", style="bold"))
        grid = Grid.grid(padding=(0, 2))
        for short in answer.shortfalls:
            state = (
                "comfortable"
                if not short.kelvin
                else f"{abs(short.kelvin):.2g} K too {'cold' if short.kelvin > 0 else 'warm'}"
            )
            grid.add_row(
                f"  {_label(short.taxon)}", state, "" if short.tolerated else "beyond what it tolerates"
            )
        out.print(grid)
    if answer.parties:
        out.print(Text("\nThe largest groups that do share a band", style="bold"))
        for party in answer.parties:
            names = ", ".join(_label(taxon) for taxon in party.taxa)
            span = party.choice.span
            reach = f"comfortable {number(span.low)} to {number(span.high)} degC"
            out.print(Padding(Text(f"{degrees(party.choice.value_c)}: {names} ({reach})"), (0, 0, 0, 2)))


def print_taxon(taxon: Species | PlantSpecies, table: Table, width: int | None = None) -> None:
    """One taxon: what it is, its bands drawn and with their sources, its traits with their basis."""
    out = console(width)
    title = Text(taxon.scientific_name, style="bold italic")
    title.append(f"  {taxon.common_name}", style="not italic")
    out.print(title)
    kind = f"{taxon.kind}, {taxon.group}" if isinstance(taxon, Species) else f"plant, {taxon.habit}"
    out.print(
        Text(f"{kind}; family {taxon.family}; evidence grade {taxon.grade}, {GRADE_WORDS[taxon.grade]}")
    )
    for field, unit in UNITS.items():
        band = taxon.band(field)
        lines = draw_bands([BandRow(f"  {field}", band)], None, out.width, 14)
        if band is None:
            out.print(Text(f"\n  {field}: no source states it"))
            continue
        out.print()
        for line in lines:
            out.print(Text(line), no_wrap=True, crop=True)
        comfort = span_text(band.comfort_low, band.comfort_high, unit)
        tolerance = span_text(band.tolerance_low, band.tolerance_high, unit)
        out.print(Text(f"  comfort {comfort}, tolerated {tolerance}"))
        out.print(Padding(Text(_origin(band.grade, band.origins, band.sources), style="dim"), (0, 0, 0, 2)))
        if band.note:
            out.print(Padding(Text(band.note, style="dim"), (0, 0, 0, 2)))
    others = [band for name, band in taxon.bands.items() if name not in UNITS]
    if others:
        out.print()
        grid = Grid.grid(padding=(0, 2))
        for band in others:
            unit = "" if band.unit == "count" else band.unit
            span = span_text(band.comfort_low, band.comfort_high, unit)
            grid.add_row(f"  {_words(band.field)}", span, f"grade {band.grade}", _sources(band.sources))
        out.print(grid)
    out.print()
    grid = Grid.grid(padding=(0, 2))
    for name, value in _traits(taxon):
        grid.add_row(f"  {_words(name)}", _trait_text(value), taxon.basis.get(name, ""))
    out.print(Text("Traits, each with its basis", style="bold"))
    out.print(grid)
    if taxon.restricted:
        out.print()
        out.print(
            Text(f"The law: {taxon.restricted}. Check your local law; never release an animal or a plant.")
        )


def _origin(grade: str, origins: int, sources: tuple[str, ...]) -> str:
    count = f"{origins} independent {'source' if origins == 1 else 'sources'}"
    return f"grade {grade}, {count}: {_sources(sources)}"


def _sources(sources: tuple[str, ...]) -> str:
    shown = ", ".join(sources[:6])
    return f"{shown} and {len(sources) - 6} more" if len(sources) > 6 else shown


def _words(name: str) -> str:
    return name.replace("_", " ")


def _traits(taxon: Species | PlantSpecies) -> list[tuple[str, object]]:
    from dataclasses import fields

    named = {
        "slug",
        "scientific_name",
        "common_name",
        "kind",
        "group",
        "family",
        "basis",
        "bands",
        "grade",
        "restricted",
    }
    return [
        (item.name, value)
        for item in fields(taxon)
        if item.name not in named and (value := getattr(taxon, item.name)) not in (None, "", ())
    ]


def _trait_text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(value)
    return number(value) if isinstance(value, float) else str(value)


def print_suited(found: list[Suited], water: dict[str, float], width: int | None = None) -> None:
    """The taxa that a water suits, one a line."""
    out = console(width)
    asked = ", ".join(
        f"{name} {number(value)}{'' if name == 'pH' else ' ' + UNITS[name]}" for name, value in water.items()
    )
    comfortable = sum(suited.fit == "comfort" for suited in found)
    if water:
        out.print(
            Text(
                f"At {asked} {comfortable} taxa are comfortable; {len(found) - comfortable} more tolerate it.",
                style="bold",
            )
        )
    else:
        out.print(Text(f"{len(found)} taxa", style="bold"))
    grid = Grid.grid(padding=(0, 2))
    for suited in found:
        note = suited.fit if water else ""
        if suited.unstated:
            note += f" (no source states {', '.join(suited.unstated)})"
        grid.add_row(Text(suited.taxon.scientific_name, style="italic"), suited.taxon.common_name, note)
    out.print(grid)


def print_rules(rules: Sequence[Rule], width: int | None = None) -> None:
    """Every rule with the first line of its page."""
    out = console(width)
    grid = Grid.grid(padding=(0, 2))
    for rule in sorted(rules, key=lambda rule: rule.name):
        grid.add_row(rule.name, rule.page.strip().splitlines()[0])
    out.print(grid)
    out.print(Text("\nThe page of one: stockcheck rules NAME", style="dim"))


def print_rule(rule: Rule, width: int | None = None) -> None:
    """A rule's page with its two examples."""
    from inspect import cleandoc

    out = console(width)
    out.print(Text(rule.name, style="bold"))
    out.print(Text(cleandoc(rule.page)))
    for title, example in (("A plan that trips it", rule.trips), ("One that does not", rule.clears)):
        out.print(Text(f"\n{title} (beside an otherwise sound tank)", style="bold"))
        out.print(Padding(Text(cleandoc(example)), (0, 0, 0, 2)))
    if rule.sources:
        out.print(Text("\nSources", style="bold"))
        for source in rule.sources:
            out.print(Padding(Text(source), (0, 0, 0, 2)))
