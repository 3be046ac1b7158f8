"""The table's test bench: what in the open table a curator should look at.

An *error* is a row that is most likely wrong and that no curator has settled; a row is settled once it
carries a reason, whatever was decided.  A *question* deserves a look; a *gap* is something not known.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from stockcheck.table.audit import bands, gaps, names, reproduce, rows
from stockcheck.table.audit.model import LEVELS, Doubt, OpenTable, read_open_table

__all__ = ["CHECKS", "LEVELS", "Doubt", "OpenTable", "audit", "read_open_table"]

#: Every check, by the name it is reported under.
CHECKS = {
    "low above high": rows.low_above_high,
    "unit slip": rows.unit_slips,
    "outlier": rows.outliers,
    "contradiction": rows.contradictions,
    "beyond all others": rows.beyond_all_others,
    "does not reproduce": reproduce.not_reproduced,
    "standard for total length": rows.length_mix_ups,
    "size unlike its band": bands.sizes_unlike_their_band,
    "group unlike its band": bands.groups_unlike_their_band,
    "size no source shares": bands.sizes_no_source_shares,
    "sexes unlike in size": bands.sexes_unlike_in_size,
    "unlike its relatives": bands.unlike_relatives,
    "narrower than its sources": bands.narrower_than_sources,
    "tank smaller than the animal": bands.tanks_too_small,
    "single source": bands.single_source,
    "no source": bands.common_practice_bands,
    "missing figure": gaps.missing_figures,
    "trait without source": gaps.traits_without_source,
    "name of several taxa": gaps.shared_names,
    "unlike the taxonomy": names.unlike_the_taxonomy,
}


def audit(data: Path) -> Iterator[Doubt]:
    """Every doubt about the open table in ``data``, check by check.

    Raises
    ------
    BuildError
        When a file of the table cannot be used at all.
    """
    table = read_open_table(data)
    for name, check in CHECKS.items():
        for doubt in check(table):
            yield doubt._replace(check=name)
