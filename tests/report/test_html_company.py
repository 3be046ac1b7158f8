"""The HTML report says of company and limits what the terminal says."""

from __future__ import annotations

from pathlib import Path

from markupsafe import escape

from stockcheck.advice.change import change_advice
from stockcheck.advice.pairs import pairs
from stockcheck.check import check_file
from stockcheck.report.html import html_report
from stockcheck.table.read import Table


def test_every_pair_limit_and_change_stands_in_the_file(table: Table, data_folder: Path) -> None:
    report = check_file(data_folder / "plans" / "mismatch.toml", table)
    page = html_report(report)
    told = pairs(report.facts)
    count = len(told.slugs)
    assert count > 3 and page.count('<th scope="row">') >= count
    spoken = [cell.words for cell in told.cells.values() if cell.level != "clear"]
    assert spoken
    for words in (*spoken, *(limit.text for limit in report.limits if limit.in_sight)):
        assert str(escape(words)) in page
    change = change_advice(report.facts)
    assert change is not None and str(escape(change.text)) in page
