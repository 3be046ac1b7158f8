"""All that the program says is in one catalogue: a made-up translation of it reaches every sentence.

The translation puts each text between angle quotes, so what stands outside of them was never looked up.
"""

from __future__ import annotations

import html
import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from stockcheck.language import english, say

ROOT = Path(__file__).resolve().parent.parent
TEMPLATE = ROOT / "stockcheck" / "locale" / "stockcheck.pot"
PLANS = ("reading-room", "bachelor-hall", "cool-corridor", "mismatch")


@pytest.fixture(scope="module")
def translated(tmp_path_factory: pytest.TempPathFactory, database: Path) -> dict[str, str]:
    """An environment in which the program speaks the made-up language."""
    folder = tmp_path_factory.mktemp("locale")
    with TEMPLATE.open("rb") as file:
        catalogue = read_po(file)
    for message in catalogue:
        if message.id:
            message.string = f"«{message.id}»"
    target = folder / "xx" / "LC_MESSAGES" / "stockcheck.mo"
    target.parent.mkdir(parents=True)
    with target.open("wb") as file:
        write_mo(file, catalogue)
    chosen = {"STOCKCHECK_LOCALE": str(folder), "LANGUAGE": "xx", "STOCKCHECK_DATABASE": str(database)}
    return {**os.environ, **chosen}


def run(environment: dict[str, str], *arguments: str) -> str:
    command = [sys.executable, "-m", "stockcheck", *arguments]
    done = subprocess.run(command, env=environment, cwd=ROOT, capture_output=True, text=True, check=False)
    assert "Traceback" not in done.stderr, done.stderr
    return done.stdout + done.stderr


def outside(text: str) -> str:
    """What of a text stands outside of the angle quotes."""
    depth, kept = 0, []
    for char in text:
        depth += {"«": 1, "»": -1}.get(char, 0)
        if depth == 0 and char != "»":
            kept.append(char)
    return "".join(kept)


def words(text: str) -> list[str]:
    return re.findall(r"[A-Za-z]{3,}", outside(text))


def test_the_catalogue_holds_what_the_code_says() -> None:
    script = [sys.executable, str(ROOT / "scripts" / "catalogue"), "--check"]
    assert subprocess.run(script, check=False).returncode == 0


def sentences(document: dict[str, Any]) -> Iterator[str]:
    for finding in document["findings"]:
        yield finding["message"]
        yield finding["remedy"]
    yield from document["setpoint"]["notes"]
    yield from (limit["text"] for limit in document["limits"])
    yield document["water_change"]["text"]
    yield from (figure["missing"] for figure in document["figures"].values() if "missing" in figure)


@pytest.mark.parametrize("plan", PLANS)
def test_every_sentence_of_a_report_is_looked_up(translated: dict[str, str], plan: str) -> None:
    document = json.loads(run(translated, "check", f"data/plans/{plan}.toml", "--format", "json"))
    told = list(sentences(document))
    assert len(told) > 10
    for sentence in told:
        assert not words(sentence), (words(sentence), sentence)
    for axis, inputs in document["moved_most_by"].items():
        assert not words(" ".join(inputs)), (axis, inputs)


EXAMPLES = """
import json, sys
from stockcheck.check import report_on
from stockcheck.facts.build import build_facts
from stockcheck.plan.reader import read_document
from stockcheck.rules.core import RULES
from stockcheck.rules.examples import example_document
from stockcheck.table.read import Table

table, told = Table.open(), []
for rule in RULES.values():
    facts = build_facts(read_document(example_document(rule.trips)).plan, table)
    told += [(f.rule, f.message, f.remedy) for f in report_on(facts, table).findings]
json.dump(told, sys.stdout)
"""


def test_every_rule_is_looked_up(translated: dict[str, str]) -> None:
    done = subprocess.run(
        [sys.executable, "-c", EXAMPLES], env=translated, cwd=ROOT, capture_output=True, text=True, check=True
    )
    carriers = (ROOT / "data" / "carriers.csv").read_text(encoding="utf-8")  # the table's own words stay
    told = [
        [rule, *(text for text in texts if text not in carriers)] for rule, *texts in json.loads(done.stdout)
    ]
    assert len({rule for rule, *_ in told}) > 50
    left = {(rule, *words(text)): text for rule, *texts in told for text in texts if words(text)}
    assert not left, "\n".join(left.values())


def test_the_arithmetic_is_looked_up(translated: dict[str, str]) -> None:
    plan = (ROOT / "data" / "plans" / "reading-room.toml").read_text(encoding="utf-8")
    names = (ROOT / "data" / "names.csv").read_text(encoding="utf-8")
    for topic in ("volume", "waste", "breath", "heat", "water"):
        document = json.loads(
            run(translated, "explain", topic, "data/plans/reading-room.toml", "--format", "json")
        )
        for figure in document["figures"]:
            assert not words(figure["label"]), figure["label"]
            for step in figure["steps"]:
                own = step["name"] in plan or step["name"] in names  # as the table calls it
                assert own or not words(step["name"]), step["name"]


def test_faults_are_looked_up(translated: dict[str, str], tmp_path: Path) -> None:
    plan = tmp_path / "p.toml"
    plan.write_text(
        '[tank]\nlength = 3\nwidth = "2 parsnips"\nwater_volume = "nan L"\n[[animals]]\nmales = -1\n'
    )
    told = run(translated, "check", str(plan)).splitlines()
    assert len(told) >= 5
    for line in told:
        place, _, text = line.partition("«")
        assert place.endswith(": ") and not words("«" + text), line


def test_the_report_page_is_looked_up(translated: dict[str, str], tmp_path: Path) -> None:
    page = tmp_path / "report.html"
    run(translated, "check", "data/plans/mismatch.toml", "--html", str(page))
    text = page.read_text(encoding="utf-8")
    headings = re.findall(r"<h[23][^>]*>(.*?)</h[23]>", text, re.DOTALL)
    assert len(headings) > 8
    for heading in headings:
        assert not words(html.unescape(re.sub(r"<[^>]+>", "", heading))), heading


def test_what_is_stored_is_english() -> None:
    with english():
        assert say("{count} are too few", count=3) == "3 are too few"
