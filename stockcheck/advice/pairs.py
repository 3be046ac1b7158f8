"""Who can live with whom: a plan's animals against one another, and one taxon against the whole table."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from stockcheck.advice.meetings import meet_in_general, meet_in_plan
from stockcheck.facts.model import Facts
from stockcheck.language import english, say
from stockcheck.rules.company.encounter import place, sides
from stockcheck.rules.core import LEVELS, RULES, Finding
from stockcheck.rules.wording import name_of, sentence

if TYPE_CHECKING:
    from stockcheck.rules.company.encounter import Encounter
    from stockcheck.table.model import Species

#: Rules on a taxon's company with its own kind, and the words for a cell.
OWN_KIND = {
    "company/male-rivalry": say("males fight"),
    "company/female-rivalry": say("females fight"),
    "company/unsexed": say("depends on the sexes"),
    "company/harassment": say("females harassed"),
    "company/group-too-small": say("too few"),
    "company/solitary": say("loners"),
    "company/pair-or-harem": say("one left over"),
}


class Cell(NamedTuple):
    """Two taxa (or one with its own kind): the worst level, the mechanisms in a few words, and all
    messages.
    """

    level: str
    words: str
    messages: tuple[str, ...] = ()
    remedies: tuple[str, ...] = ()


#: What a cell says where nothing speaks against it.
NOTHING_AGAINST = Cell("clear", say("nothing against it"))


class PairTable(NamedTuple):
    """The plan's taxa, in its order, and a cell for every two of them and for each with its own kind."""

    slugs: tuple[str, ...]
    names: tuple[str, ...]
    cells: dict[tuple[str, str], Cell]

    def cell(self, one: str, other: str) -> Cell:
        """The cell of two slugs, whichever way round."""
        return self.cells.get((one, other)) or self.cells.get((other, one)) or NOTHING_AGAINST


def pairs(facts: Facts) -> PairTable:
    """The plan's animals against one another, each cell naming the mechanisms in words."""
    present = sides(facts)
    cells = {
        (one.species.slug, other.species.slug): _cell(meet_in_plan(one, other, place(facts)))
        for one, other in combinations(present, 2)
    }
    own = [finding for name in OWN_KIND for finding in RULES[name].check(facts)]
    for side in present:
        slug = side.species.slug
        cells[slug, slug] = _own_cell([finding for finding in own if slug in finding.species])
    return PairTable(
        tuple(side.species.slug for side in present),
        tuple(name_of(side.species) for side in present),
        cells,
    )


def _cell(encounters: list[Encounter]) -> Cell:
    if not encounters:
        return NOTHING_AGAINST
    return Cell(
        max((encounter.level for encounter in encounters), key=LEVELS.index),
        _words(encounters),
        tuple(sentence(encounter.message) for encounter in encounters),
        tuple(encounter.remedy for encounter in encounters if encounter.remedy),
    )


def _words(encounters: list[Encounter]) -> str:
    """``neon tetra: eaten; may interbreed``: whom it befalls, the worst first."""
    words = []
    for encounter in encounters:
        bearer = "" if encounter.mutual else f"{name_of(encounter.target)}: "
        words.append(f"{bearer}{encounter.mechanism}")
    return "; ".join(dict.fromkeys(words))


def _own_cell(findings: list[Finding]) -> Cell:
    telling = sorted(
        (finding for finding in findings if finding.level != "clear"),
        key=lambda finding: -LEVELS.index(finding.level),
    )
    if not telling:
        return NOTHING_AGAINST
    return Cell(
        telling[0].level,
        "; ".join(dict.fromkeys(OWN_KIND[finding.rule] for finding in telling)),
        tuple(finding.message for finding in telling),
        tuple(finding.remedy for finding in telling if finding.remedy),
    )


_SCHEMA = """
DROP VIEW IF EXISTS company;
DROP TABLE IF EXISTS pairs;
CREATE TABLE pairs (
    slug TEXT NOT NULL REFERENCES species(slug),
    other TEXT NOT NULL REFERENCES species(slug),
    level TEXT NOT NULL,
    mechanisms TEXT NOT NULL,
    PRIMARY KEY (slug, other)
) WITHOUT ROWID;
"""
#: The pairs read from either side, so that one can ask for a single taxon's company.
_VIEW = """
CREATE VIEW company AS
    SELECT slug, other, level, mechanisms FROM pairs
    UNION ALL SELECT other AS slug, slug AS other, level, mechanisms FROM pairs;
"""


def precompute_pairs(database: Path) -> int:
    """Write what speaks against every two animals of the table into its ``pairs`` table; how many rows.

    Two that nothing speaks against have no row.  The view ``company`` reads the pairs from either side.
    It writes into the file itself, so give it one that nobody reads yet; the same table gives the same bytes.
    """
    from stockcheck.table.read import Table

    table = Table.open(database)
    with english():
        rows = list(_pair_rows(sorted(table.all_species(), key=lambda species: species.slug)))
    table.close()
    connection = sqlite3.connect(database)
    try:
        connection.executescript(_SCHEMA)
        connection.executemany("INSERT INTO pairs VALUES (?, ?, ?, ?)", rows)
        connection.executescript(_VIEW)
        connection.commit()
        connection.execute("VACUUM")
    finally:
        connection.close()
    return len(rows)


def _pair_rows(species: list[Species]) -> Iterator[tuple[str, str, str, str]]:
    for one, other in combinations(species, 2):
        cell = _cell(meet_in_general(one, other))
        if cell.level != "clear":
            yield one.slug, other.slug, cell.level, cell.words
