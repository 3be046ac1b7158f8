"""What is not known: missing figures, traits that rest on no source, names that fit several taxa."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.table.audit.model import Doubt, OpenTable
from stockcheck.table.names import name_key

#: Traits on which an animal's life depends in company.
_SEX_TRAITS = ("maleMale", "allMaleGroup", "femalesPerMale")


def missing_figures(table: OpenTable) -> Iterator[Doubt]:
    """Animals without a comfort band for temperature, pH or GH, or without an adult length."""
    for slug, taxon in table.animals.items():
        bands = table.bands.get(slug, {})
        for field in ("temperature", "pH", "GH"):
            band = bands.get(field)
            if band is None:
                yield Doubt("gap", slug, field, "no source states it")
            elif band.comfort_low is None and band.comfort_high is None:
                yield Doubt("gap", slug, field, "only the wild habitat is known")
        if not taxon["adultMale_mm"] and not taxon["adultFemale_mm"]:
            yield Doubt("gap", slug, "adult_length", "no adult length")


def traits_without_source(table: OpenTable) -> Iterator[Doubt]:
    """Harsh verdicts on a sex that rest on common practice alone."""
    for slug, taxon in table.animals.items():
        seen = str(taxon["basisSeen"]).split("|")
        for trait in _SEX_TRAITS:
            if trait not in seen and taxon[trait] in ("lethal", "territorial", "unsafe"):
                yield Doubt("gap", slug, trait, f"{taxon[trait]} is common practice, no source")


def shared_names(table: OpenTable) -> Iterator[Doubt]:
    """Common names that fit several taxa: the program asks which is meant."""
    owners: dict[str, set[str]] = {}
    for row in table.names:
        if row["nameType"] == "vernacular":
            owners.setdefault(name_key(str(row["name"])), set()).add(str(row["slug"]))
    for name, slugs in sorted(owners.items()):
        if len(slugs) > 1:
            yield Doubt("gap", sorted(slugs)[0], "name", f"{name!r}: {', '.join(sorted(slugs))}")
