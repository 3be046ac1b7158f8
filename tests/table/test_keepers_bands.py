"""Bands of animals that every keeper knows.  Common practice, no source."""

from __future__ import annotations

import pytest

from stockcheck.table.read import Table

#: slug, field: a value that must be comfortable, one that must not be.
CASES = [
    ("poecilia-reticulata", "temperature", 25, 17),
    ("poecilia-reticulata", "GH", 15, 2),
    ("paracheirodon-innesi", "temperature", 24, 30),
    ("paracheirodon-innesi", "pH", 6.5, 8.2),
    ("symphysodon-aequifasciatus", "temperature", 28.5, 22),
    ("symphysodon-aequifasciatus", "GH", 4, 20),
    ("carassius-auratus", "temperature", 20, 28),
    ("carassius-auratus-fancy", "temperature", 21, 29),
    ("carassius-auratus", "pH", 7.4, 5.5),
    ("neocaridina-davidi", "temperature", 23, 32),
    ("neocaridina-davidi", "GH", 10, 30),
    ("caridina-cantonensis", "temperature", 22, 28),
    ("betta-splendens", "temperature", 26, 18),
    ("corydoras-panda", "temperature", 23, 30),
    ("corydoras-sterbai", "temperature", 26, 16),
    ("astronotus-ocellatus", "temperature", 25, 15),
    ("carinotetraodon-travancoricus", "temperature", 25, 18),
    ("carinotetraodon-travancoricus", "pH", 7.2, 5.0),
    ("tanichthys-albonubes", "temperature", 19, 27),
    ("mikrogeophagus-ramirezi", "temperature", 28, 21),
    ("pelvicachromis-pulcher", "GH", 8, 40),
    ("labidochromis-caeruleus", "pH", 8.0, 6.0),
    ("danio-erythromicron", "pH", 7.6, 5.5),
    ("kryptopterus-vitreolus", "pH", 6.5, 8.5),
    ("ambystoma-mexicanum", "temperature", 17, 24),
    ("pomacea-diffusa", "temperature", 24, 32),
    ("vallisneria-americana", "GH", 12, 0.5),
    ("pterophyllum-scalare", "temperature", 26, 20),
    ("danio-rerio", "temperature", 22, 30),
    ("xiphophorus-hellerii", "pH", 7.5, 5.5),
]


@pytest.mark.parametrize(("slug", "field", "good", "bad"), CASES)
def test_comfort_is_what_keepers_expect(table: Table, slug: str, field: str, good: float, bad: float) -> None:
    taxon = table.plant(slug) if slug.startswith("vallisneria") else table.species(slug)
    band = taxon.bands[field]
    low = band.comfort_low if band.comfort_low is not None else float("-inf")
    high = band.comfort_high if band.comfort_high is not None else float("inf")
    assert low <= good <= high
    assert not low <= bad <= high


def test_goldfish_and_discus_share_no_temperature(table: Table) -> None:
    goldfish = table.species("carassius-auratus").bands["temperature"]
    discus = table.species("symphysodon-aequifasciatus").bands["temperature"]
    assert goldfish.comfort_high is not None
    assert discus.comfort_low is not None
    assert goldfish.comfort_high < discus.comfort_low


def test_settled_disagreements(table: Table) -> None:
    """Ropefish stay below 40 cm; the glass catfish of the trade is not the 15 cm one."""
    ropefish = table.species("erpetoichthys-calabaricus").bands["adult_length"]
    catfish = table.species("kryptopterus-vitreolus").bands["adult_length"]
    assert ropefish.comfort_high is not None
    assert catfish.comfort_high is not None
    assert ropefish.comfort_high < 400
    assert catfish.comfort_high <= 80
    assert ropefish.note
