"""Which taxa a given water suits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stockcheck.rules.bands import Taxon, comfort_of, tolerance_of
from stockcheck.table.model import ANIMAL_KINDS

if TYPE_CHECKING:
    from stockcheck.table.read import Table

#: Water that is asked about lies within these, in the fields' own units.
POSSIBLE = {"temperature": (0.0, 45.0), "pH": (2.0, 12.0), "GH": (0.0, 100.0), "KH": (0.0, 100.0)}
#: From best to least known.
FITS = ("comfort", "tolerance", "unknown")


@dataclass(frozen=True, slots=True)
class Suited:
    """A taxon with its fit: ``comfort``, ``tolerance``, or ``unknown`` where no source gives ``unstated``."""

    taxon: Taxon
    fit: str
    unstated: tuple[str, ...]


def suiting(table: Table, water: Mapping[str, float], kind: str | None = None) -> list[Suited]:
    """Taxa whose bands hold every given value, the comfortable ones first, the unknown ones last.

    Parameters
    ----------
    water : mapping
        ``temperature`` degC, ``pH``, ``GH`` dGH, ``KH`` dKH; any of them.
    kind : str, optional
        One of the table's kinds, or ``plant``.

    Raises
    ------
    ValueError
        For a kind that there is not.
    """
    taxa: list[Taxon] = []
    if kind is None or kind in ANIMAL_KINDS:
        taxa.extend(x for x in table.all_species() if kind in (None, x.kind))
    if kind in (None, "plant"):
        taxa.extend(table.all_plants())
    if not taxa:
        raise ValueError(f'There is no kind "{kind}". Kinds: {", ".join((*ANIMAL_KINDS, "plant"))}.')
    found = [suited for taxon in taxa if (suited := _fit(taxon, water)) is not None]
    return sorted(found, key=lambda suited: (FITS.index(suited.fit), suited.taxon.scientific_name))


def _fit(taxon: Taxon, water: Mapping[str, float]) -> Suited | None:
    fit, unstated = "comfort", []
    for field, value in water.items():
        band = taxon.band(field)
        if band is None:
            unstated.append(field)
        elif not tolerance_of(band).holds(value):
            return None
        elif not comfort_of(band).holds(value):
            fit = "tolerance"
    return Suited(taxon, "unknown" if unstated else fit, tuple(unstated))
