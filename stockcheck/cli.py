"""The terminal command.  Thin: each command reads its arguments, asks one question and prints the answer.

Imports stand inside the commands so that ``--help`` and ``check`` load no more than they use.
Exit status: 0 nothing at fix or stop; 1 there is; 2 the input could not be used.
"""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from stockcheck import __version__
from stockcheck.language import say

if TYPE_CHECKING:
    from stockcheck.check import Report
    from stockcheck.table.read import Table

UNUSABLE = 2

_format = click.option(
    "--format", "output", type=click.Choice(["text", "json"]), default="text", help="How to print the answer."
)
_database = click.option(
    "--database",
    type=click.Path(path_type=Path),
    help="A built table to use instead of the one that came with the program.",
)
_width = click.option(
    "--width", type=click.IntRange(40, 400), help="Columns to print in; the terminal's own by default."
)


def _fail(message: str) -> NoReturn:
    click.echo(message, err=True)
    sys.exit(UNUSABLE)


def _open_table(database: Path | None) -> Table:
    from stockcheck.table.read import Table, TableError

    try:
        return Table.open(database)
    except TableError as error:
        _fail(str(error))


def _print_json(document: Any) -> None:
    import json

    click.echo(json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False))


def _write_whole(path: Path, text: str) -> None:
    """Write a file so that it is there whole or not at all."""
    import tempfile

    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        _fail(
            say(
                "{path}: cannot write there ({strerror}). Choose a folder that exists and is yours.",
                path=path,
                strerror=error.strerror,
            )
        )
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
        umask = os.umask(0)
        os.umask(umask)
        os.chmod(name, 0o666 & ~umask)  # mkstemp's own mode shuts everyone else out
        os.replace(name, path)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        _fail(say("{path}: could not be written ({strerror}).", path=path, strerror=error.strerror))


def _checked(path: Path, table: Table) -> Report | str:
    """A report, or the text of what is wrong with the plan."""
    from stockcheck.check import check_file
    from stockcheck.plan.reader import PlanError

    try:
        return check_file(path, table)
    except PlanError as error:
        return str(error)


def _one_report(plan: Path, database: Path | None) -> Report:
    report = _checked(plan, _open_table(database))
    if isinstance(report, str):
        _fail(report)
    return report


class _Commands(click.Group):
    """Ends with a clear word where the table turns out to be damaged half way, or the output has no room."""

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except Exception as error:
            from stockcheck.table.read import TableError

            if isinstance(error, TableError):
                _fail(str(error))
            if isinstance(error, OSError) and error.errno == errno.ENOSPC:
                # what could not be written is dropped, or the interpreter would try again at its end
                os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
                _fail(say("The answer could not be written: {strerror}.", strerror=error.strerror))
            raise


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="stockcheck")
def main() -> None:
    """Will this tank's animals live well together?

    Give it a plan of a planted freshwater tank (a TOML file); it answers with findings, their arithmetic
    and their sources.  Start with: stockcheck check PLAN
    """


@main.command()
@click.argument("plans", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="PLAN...")
@_format
@click.option(
    "--html", type=click.Path(path_type=Path), metavar="FILE", help="Also write the report as one HTML file."
)
@_width
@_database
def check(
    plans: tuple[Path, ...], output: str, html: Path | None, width: int | None, database: Path | None
) -> None:
    """Check one plan or several."""
    if html and len(plans) > 1:
        _fail(say("--html writes the report of one plan; give one plan."))
    table = _open_table(database)
    results = [_checked(path, table) for path in plans]
    faults = [result for result in results if isinstance(result, str)]
    reports = [result for result in results if not isinstance(result, str)]
    for fault in faults:
        click.echo(fault, err=True)
    if html and reports:
        from stockcheck.report.html import html_report

        _write_whole(html, html_report(reports[0]))
    if output == "json":
        from stockcheck.report.json import report_document

        documents = [report_document(report) for report in reports]
        if documents:
            _print_json(documents[0] if len(plans) == 1 else documents)
    else:
        from stockcheck.report.terminal.checked import print_report, print_summary

        for report in reports:
            print_report(report, width)
        if len(plans) > 1:
            print_summary(plans, results, width)
    if faults:
        sys.exit(UNUSABLE)
    sys.exit(int(any(report.verdict in ("fix", "stop") for report in reports)))


@main.command()
@click.argument("topic", metavar="FIGURE")
@click.argument("plan", type=click.Path(path_type=Path))
@_format
@_width
@_database
def explain(topic: str, plan: Path, output: str, width: int | None, database: Path | None) -> None:
    """Show the arithmetic behind a figure, step by step, with this plan's own numbers.

    FIGURE is an axis or subject (volume, waste, breath, heat, water, company, limits) or the name of one
    figure as the JSON report has it.
    """
    report = _one_report(plan, database)
    from stockcheck.report.explain import UnknownTopic, explanation

    try:
        told = explanation(report, topic)
    except UnknownTopic as error:
        _fail(str(error))
    if output == "json":
        _print_json(told.document())
    else:
        from stockcheck.report.terminal.explained import print_explanation

        print_explanation(told, width)


@main.command()
@click.argument("subjects", nargs=-1, required=True, metavar="PLAN | NAME...")
@click.option(
    "--prefer",
    type=click.Choice(["coolest", "cooler", "middle", "warmest"]),
    default="cooler",
    help="Where in the common band to set the dial; cooler is a little below the middle.",
)
@click.option("--swing", default="0.5 K", help="The thermostat's swing, for bare names.", show_default=True)
@click.option("--step", default="0.5 K", help="The dial's step, for bare names.", show_default=True)
@_format
@_width
@_database
def setpoint(
    subjects: tuple[str, ...],
    prefer: str,
    swing: str,
    step: str,
    output: str,
    width: int | None,
    database: Path | None,
) -> None:
    """Find the heater setpoint that suits every species of a plan, or of a list of names."""
    table = _open_table(database)
    from stockcheck.advice.setpoint import setpoint_document, setpoint_of, setpoint_of_species

    if len(subjects) == 1 and _looks_like_a_file(subjects[0]):
        report = _checked(Path(subjects[0]), table)
        if isinstance(report, str):
            _fail(report)
        answer = setpoint_of(report.facts, prefer=prefer)
    else:
        from stockcheck.units import UnitError, parse_between

        try:
            swing_c = parse_between(swing, "temperature_difference", 0, 5)
            step_c = parse_between(step, "temperature_difference", 0.05, 5)
        except UnitError as error:
            _fail(say("--swing or --step: {error}", error=error))
        taxa = _taxa(table, subjects)
        answer = setpoint_of_species(taxa, prefer=prefer, swing_c=swing_c, step_c=step_c)
    if output == "json":
        _print_json(setpoint_document(answer))
    else:
        from stockcheck.report.terminal.setpoint import print_setpoint

        print_setpoint(answer, width)
    sys.exit(0 if answer.value_c is not None else 1)


def _looks_like_a_file(text: str) -> bool:
    return text.lower().endswith(".toml") or "/" in text or Path(text).is_file()


def _taxon(table: Table, name: str) -> Any:
    """The animal or plant of a name, or the text of what to write instead."""
    matches = table.find(name)
    if len(matches) == 1:
        match = matches[0]
        return table.species(match.slug) if match.kind == "animal" else table.plant(match.slug)
    if matches:
        choices = ", ".join(f'"{match.scientific_name}"' for match in matches)
        return say(
            '"{name}" fits several taxa. Write the one you mean: {choices}.', name=name, choices=choices
        )
    near = ", ".join(f'"{found}"' for found in table.nearest(name))
    hint = say("Nearest names: {near}.", near=near) if near else say("`stockcheck species` lists every name.")
    return say('"{name}" is not in the table. {hint}', name=name, hint=hint)


def _taxa(table: Table, names: Sequence[str]) -> list[Any]:
    """The animals and plants of names, or exit with what to write instead of each that is none."""
    found = [_taxon(table, name) for name in names]
    faults = [taxon for taxon in found if isinstance(taxon, str)]
    if faults:
        _fail("\n".join(faults))
    return found


@main.command()
@click.argument("name", required=False)
@click.option("--kind", help="fish, shrimp, snail, crayfish, crab, bivalve, amphibian or plant.")
@click.option("--temperature", help='Water they should be comfortable in, e.g. "22 degC".')
@click.option("--pH", "ph", help="e.g. 7.4")
@click.option("--GH", "gh", help='e.g. "15 dGH" or "270 mg/L".')
@click.option("--KH", "kh", help='e.g. "7 dKH".')
@_format
@_width
@_database
def species(
    name: str | None,
    kind: str | None,
    temperature: str | None,
    ph: str | None,
    gh: str | None,
    kh: str | None,
    output: str,
    width: int | None,
    database: Path | None,
) -> None:
    """Show one taxon with its bands and sources, or list those that suit a water."""
    table = _open_table(database)
    if name is not None:
        (taxon,) = _taxa(table, [name])
        if output == "json":
            from stockcheck.report.json import taxon_document

            _print_json(taxon_document(taxon, table))
        else:
            from stockcheck.report.terminal.taxa import print_taxon

            print_taxon(taxon, table, width)
        return
    from stockcheck.advice.suits import POSSIBLE, suiting
    from stockcheck.units import UnitError, parse_between

    water: dict[str, float] = {}
    for field, text in {"temperature": temperature, "pH": ph, "GH": gh, "KH": kh}.items():
        if text is not None:
            try:
                water[field] = parse_between(text, field, *POSSIBLE[field])
            except UnitError as error:
                _fail(f"--{field}: {error}")
    try:
        found = suiting(table, water, kind)
    except ValueError as error:
        _fail(str(error))
    if output == "json":
        from stockcheck.report.json import suited_document

        _print_json(suited_document(found, water))
    else:
        from stockcheck.report.terminal.taxa import print_suited

        print_suited(found, water, width)


@main.command()
@click.argument("plan", type=click.Path(path_type=Path))
@_format
@_width
@_database
def pairs(plan: Path, output: str, width: int | None, database: Path | None) -> None:
    """Show the plan's animals against one another, each cell naming the mechanism."""
    report = _one_report(plan, database)
    from stockcheck.advice.pairs import pairs as pair_table

    told = pair_table(report.facts)
    if output == "json":
        from stockcheck.report.json import pairs_document

        _print_json(pairs_document(told))
    else:
        from stockcheck.report.terminal.paired import print_pairs

        print_pairs(told, width)


@main.command()
@click.argument("name", required=False)
@_width
def rules(name: str | None, width: int | None) -> None:
    """List the rules, or print the page of one."""
    import stockcheck.rules  # noqa: F401  (registers them)
    from stockcheck.report.terminal.rule_pages import print_rule, print_rules
    from stockcheck.rules.core import RULES

    if name is None:
        print_rules(list(RULES.values()), width)
    elif name in RULES:
        print_rule(RULES[name], width)
    else:
        near = [key for key in RULES if name in key] or list(RULES)
        _fail(say('There is no rule "{name}". Rules: {join}.', name=name, join=", ".join(near)))


@main.command()
@click.option(
    "--port", type=click.IntRange(0, 65535), default=8001, show_default=True, help="0: any free port."
)
@click.option("--open", "open_browser", is_flag=True, help="Open the front page in the browser.")
@_database
def browse(port: int, open_browser: bool, database: Path | None) -> None:
    """Serve the table, species pages and the check page on this machine (127.0.0.1), read-only."""
    table = _open_table(database)
    from stockcheck.web.serve import serve

    serve(table.path, port=port, open_browser=open_browser)


@main.command()
@click.option("--data", type=click.Path(path_type=Path), help="The data package to build from.")
@click.option("--output", "database", type=click.Path(path_type=Path), help="The SQLite file to write.")
@click.option(
    "--diff",
    "old",
    type=click.Path(path_type=Path),
    metavar="OLD.db",
    help="Afterwards say which bands moved against an older table, and which plans change their verdict.",
)
@click.option(
    "--plan",
    "plans",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Plans to compare with --diff; the demo plans by default.",
)
@click.option(
    "--export",
    "folder",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Also write there what can be passed on: database, Frictionless package, Darwin Core Archive.",
)
@click.option("--quiet", is_flag=True, help="Print nothing when all goes well.")
def build(
    data: Path | None,
    database: Path | None,
    old: Path | None,
    plans: tuple[Path, ...],
    folder: Path | None,
    quiet: bool,
) -> None:
    """Build the species table (SQLite) from the open data package."""
    from tempfile import TemporaryDirectory

    from stockcheck.advice.whole_table import build_whole_table
    from stockcheck.table.location import data_dir, database_path
    from stockcheck.table.package import BuildError

    source, target = data or data_dir(), database or database_path()
    if old is not None and not _is_table(old):
        _fail(
            say(
                "--diff: {old} is no species table of this version; name the one from before the change.",
                old=old,
            )
        )
    with TemporaryDirectory() as spare:
        before = _kept(old, target, Path(spare)) if old else None
        try:
            summary = build_whole_table(source, target)
        except BuildError as error:
            _fail(str(error))
        if not quiet:
            click.echo(
                say(
                    "{target}: {animals} animals, {plants} plants, {figures} figures, {bands} bands.",
                    target=target,
                    animals=summary.animals,
                    plants=summary.plants,
                    figures=summary.figures,
                    bands=summary.bands,
                )
            )
        if before is not None:
            _print_diff(before, target, plans or tuple(sorted((source / "plans").glob("*.toml"))))
    if folder is not None:
        _export(source, target, folder)


def _is_table(path: Path) -> bool:
    from stockcheck.table.read import Table, TableError

    try:
        Table.open(path).close()
    except TableError:
        return False
    return True


def _kept(old: Path, target: Path, spare: Path) -> Path:
    """The older table, set aside first where the build is about to replace that very file."""
    import shutil

    if not (old.exists() and target.exists() and old.samefile(target)):
        return old
    return Path(shutil.copy(old, spare / old.name))


def _export(data: Path, database: Path, folder: Path) -> None:
    import shutil

    from stockcheck.table.export import export_darwin_core, export_notices, export_package
    from stockcheck.table.package import BuildError

    try:
        folder.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(database, folder / "stockcheck.db")
        export_notices(data, database, folder)
        export_package(data, database, folder / "stockcheck-data-package.zip")
        export_darwin_core(data, database, folder / "stockcheck-darwin-core-archive.zip")
    except OSError as error:
        _fail(say("{folder}: cannot write there ({strerror}).", folder=folder, strerror=error.strerror))
    except BuildError as error:
        _fail(str(error))


def _print_diff(old: Path, new: Path, plans: tuple[Path, ...]) -> None:
    from stockcheck.report.terminal.changes import print_table_diff
    from stockcheck.table.diff import diff

    before, after = _open_table(old), _open_table(new)
    verdicts = [(plan, _verdict(plan, before), _verdict(plan, after)) for plan in plans]
    print_table_diff(diff(old, new), verdicts)


def _verdict(plan: Path, table: Table) -> str:
    result = _checked(plan, table)
    return "unusable" if isinstance(result, str) else result.verdict


if __name__ == "__main__":
    main()
