"""The report as one HTML file: whole, self-contained, and without markup from the plan."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from stockcheck.check import Report, check_file, check_text
from stockcheck.report.html import html_report
from stockcheck.report.wording import verdict_sentence
from stockcheck.table.read import Table

VOID = {"meta", "link", "br", "input", "img", "hr"}


class Reader(HTMLParser):
    """Collects tags and text, and checks that every element is closed in its turn."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.addresses: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.addresses += [value or "" for name, value in attrs if name in ("src", "href")]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open[-1] == tag, f"</{tag}> closes {self.open[-1:]}"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.text += data


def read(html: str) -> Reader:
    reader = Reader()
    reader.feed(html)
    assert reader.open == []
    return reader


def plan_path(data_folder: Path, name: str) -> Path:
    return data_folder / "plans" / f"{name}.toml"


@pytest.fixture(params=["reading-room", "bachelor-hall", "cool-corridor", "mismatch"])
def report(request: pytest.FixtureRequest, data_folder: Path, table: Table) -> Report:
    return check_file(plan_path(data_folder, request.param), table)


def test_says_all_that_the_check_found(report: Report) -> None:
    said = " ".join(read(html_report(report)).text.split())
    assert verdict_sentence(report) in said
    for finding in report.findings:
        assert " ".join(finding.message.split()) in said
        assert " ".join(finding.remedy.split()) in said
    for figure in report.facts.figures.values():
        assert figure.label[1:] in said


def test_needs_nothing_else(report: Report) -> None:
    html = html_report(report)
    reader = read(html)
    assert reader.addresses == []
    assert not {"script", "link", "img", "iframe"} & set(reader.tags)
    assert "url(" not in html and "@import" not in html
    assert reader.tags.count("svg") >= 6


def test_same_report_same_bytes(report: Report) -> None:
    assert html_report(report) == html_report(report)


def test_markup_in_a_plan_stays_text(data_folder: Path, table: Table) -> None:
    plan = plan_path(data_folder, "reading-room").read_text(encoding="utf-8")
    hostile = plan.replace('"Reading-room tank"', '"<script>alert(1)</script><b>\'"')
    html = html_report(check_text(hostile, table))
    assert "<script" not in html and "<b>" not in html
    assert "<script>alert(1)</script><b>'" in read(html).text


def test_draws_what_it_knows_and_no_more(table: Table) -> None:
    """A plan without a filter, a water change or measures has no flow of time to draw, and says so."""
    html = html_report(
        check_text('[tank]\nwater_volume = "60 L"\n[[animals]]\nspecies = "guppy"\nmales = 3\n', table)
    )
    kinds = set(re.findall(r'class="picture (\w[\w-]*)', html))
    assert "tank" not in kinds
    assert {"headroom", "overlap-sheet"} <= kinds
