"""Accepted names and families against a taxonomy."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.table.audit.model import Doubt, OpenTable


def unlike_the_taxonomy(table: OpenTable) -> Iterator[Doubt]:
    """Taxa whose name or family the taxonomy does not share and that carry no remark; taxa not looked up."""
    rows = {str(row["slug"]): row for row in table.taxonomy}
    for slug, taxon in table.taxa.items():
        row = rows.get(slug)
        if row is None:
            yield Doubt("gap", slug, "scientificName", "was not looked up; run scripts/check-names")
        elif not row["taxonRemarks"]:
            edition, name = row["nameAccordingTo"], str(taxon["scientificName"])
            species = name.partition(" '")[0]  # of a trade form: the name that a taxonomy has
            if row["match"] == "none":
                yield Doubt("question", slug, "scientificName", f"{edition} has neither {name} nor a synonym")
            elif row["match"] == "synonym" or row["acceptedNameUsage"] not in (species, ""):
                text = f"{edition} calls {name} {row['acceptedNameUsage']}"
                yield Doubt("question", slug, "scientificName", text)
            if row["family"] and row["family"] != taxon["family"]:
                text = f"{edition} has it in {row['family']}, the table in {taxon['family']}"
                yield Doubt("question", slug, "family", text)
