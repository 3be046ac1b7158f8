"""The reading side: names, taxa, materials, and a database that cannot be read."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from stockcheck.table.model import ANIMAL_KINDS, GRADES
from stockcheck.table.names import name_key
from stockcheck.table.read import MATERIAL_TABLES, Table, TableError


def slugs(table: Table, name: str) -> list[str]:
    return [match.slug for match in table.find(name)]


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("Paracheirodon innesi", "paracheirodon-innesi"),
        ("NEON TETRA", "paracheirodon-innesi"),
        ("neon tetras", "paracheirodon-innesi"),
        ("guppies", "poecilia-reticulata"),
        ("mollies", "poecilia-sphenops"),
        ("angel fish", "pterophyllum-scalare"),
        ("angelfishes", "pterophyllum-scalare"),
        ("Beckett’s water trumpet", "cryptocoryne-beckettii"),
        ("Cryptocoryne × willisii", "cryptocoryne-x-willisii"),
        ("Betta splendens", "betta-splendens"),
        ("Betta splendens 'long-finned'", "betta-splendens-long-finned"),
        ("fancy goldfish", "carassius-auratus-fancy"),
        ("convict", "amatitlania-nigrofasciata"),
        ("Amazon swords", "echinodorus-grisebachii"),
        ("Java fern", "leptochilus-pteropus"),
        ("discus", "symphysodon-aequifasciatus"),
    ],
)
def test_a_name_finds_its_taxon(table: Table, name: str, slug: str) -> None:
    assert slugs(table, name) == [slug]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("Rasbora heteromorpha", "Trigonostigma heteromorpha"),
        ("Corydoras panda", "Hoplisoma panda"),
        ("Corydoras aeneus", "Osteogaster aenea"),
        ("Corydoras pygmaeus", "Gastrodermus pygmaeus"),
        ("Hemichromis bimaculatus", "Rubricatochromis bimaculatus"),
        ("Herotilapia multispinosa", "Archocentrus multispinosus"),
        ("Hyphessobrycon megalopterus", "Megalamphodus megalopterus"),
        ("Hemigrammus bleheri", "Petitella bleheri"),
        ("Hemigrammus pulcher", "Holopristis pulchra"),
        ("Puntius tetrazona", "Puntigrus tetrazona"),
        ("Colisa lalia", "Trichogaster lalius"),
        ("Microsorum pteropus", "Leptochilus pteropus"),
        ("Clea helena", "Anentome helena"),
        ("Caridina japonica", "Caridina multidentata"),
        ("Botia macracanthus", "Chromobotia macracanthus"),
    ],
)
def test_old_and_new_names_are_one_taxon(table: Table, old: str, new: str) -> None:
    assert slugs(table, old) == slugs(table, new) != []


def test_an_ambiguous_common_name_gives_all_it_may_mean(table: Table) -> None:
    assert set(slugs(table, "yoyo loach")) == {"botia-almorhae", "botia-lohachata"}
    assert not any(match.partial for match in table.find("yoyo loach"))


@pytest.mark.parametrize("name", ["betta", "Siamese fighting fish", "Betta splendens"])
def test_a_species_wins_over_its_own_trade_form(table: Table, name: str) -> None:
    assert slugs(table, name) == ["betta-splendens"]
    assert slugs(table, "halfmoon betta") == ["betta-splendens-long-finned"]


def test_a_shorthand_gives_all_it_fits(table: Table) -> None:
    cory = table.find("cory")
    assert {"corydoras-panda", "corydoras-sterbai", "brochis-splendens"} <= {match.slug for match in cory}
    assert all(match.partial for match in cory)
    assert len(slugs(table, "Corydoras")) >= 20
    assert set(slugs(table, "Trigonostigma")) == {
        "trigonostigma-espei",
        "trigonostigma-hengeli",
        "trigonostigma-heteromorpha",
    }


def test_an_accepted_name_wins_over_the_same_name_misapplied(table: Table) -> None:
    assert slugs(table, "Synodontis petricola") == ["synodontis-petricola"]
    assert slugs(table, "Xenotoca eiseni") == ["xenotoca-eiseni"]


@pytest.mark.parametrize("nothing", ["", "   ", "%", "_", "'; DROP TABLE names; --", "x", "unicorn", "💧"])
def test_what_is_no_name_finds_nothing(table: Table, nothing: str) -> None:
    assert table.find(nothing) == []


def test_nearest_names_for_slips_of_the_pen(table: Table) -> None:
    assert table.nearest("gupy")[0] == "guppy"
    assert table.nearest("neon tetr")[0] == "neon tetra"
    assert table.nearest("Siamese figthing fish")[0] == "Siamese fighting fish"
    assert len(table.nearest("tetra", limit=3)) == 3
    assert table.nearest("qqqqqqqq") == []


def test_names_are_compared_in_one_form() -> None:
    assert name_key("Rückenschwimmender  Kongowels!") == name_key("ruckenschwimmender-kongowels")
    assert name_key("discus") == "discus"
    assert name_key("platies") == name_key("platy")
    assert name_key("catfishes") == name_key("catfish")


def test_every_taxon_can_be_found_by_its_own_name(table: Table) -> None:
    for taxon in [*table.all_species(), *table.all_plants()]:
        assert slugs(table, taxon.scientific_name) == [taxon.slug]


def test_every_animal_is_complete_and_in_the_vocabulary(table: Table) -> None:
    for species in table.all_species():
        assert species.kind in ANIMAL_KINDS
        assert species.grade in GRADES
        assert species.adult_length_mm
        assert species.zone
        assert set(species.basis.values()) <= {"seen", "common practice"}


def test_bands_are_ordered_and_comfort_lies_inside_tolerance(table: Table) -> None:
    for taxon in [*table.all_species(), *table.all_plants()]:
        for band in taxon.bands.values():
            ends = (band.tolerance_low, band.comfort_low, band.comfort_high, band.tolerance_high)
            known = [end for end in ends if end is not None]
            assert known == sorted(known), (taxon.slug, band)
            assert band.origins == len(band.sources)


def test_a_band_leads_to_its_evidence_and_sources(table: Table) -> None:
    band = table.species("paracheirodon-innesi").bands["temperature"]
    rows = table.evidence("paracheirodon-innesi", "temperature")
    assert set(band.sources) <= {row.source for row in rows}
    assert {table.source(key).kind for key in band.sources} & {"specialist", "encyclopaedia", "database"}
    assert len(table.evidence("paracheirodon-innesi")) > len(rows)


def test_unknown_keys(table: Table) -> None:
    for ask in (table.species, table.plant, table.source):
        with pytest.raises(KeyError):
            ask("no-such-thing")


@pytest.mark.parametrize(
    ("use", "name", "slug"),
    [
        ("media", "Ceramic Rings", "ceramic-rings"),
        ("media", "bio balls", "plastic-balls"),
        ("substrates", "planted soil", "planted-soil"),
        ("rocks", "lava", "lava-rock"),
        ("feeds", "flakes", "flake"),
        ("treatments", "baking soda", "sodium-bicarbonate"),
    ],
)
def test_materials_by_any_name(table: Table, use: str, name: str, slug: str) -> None:
    material = table.material(use, name)
    assert material is not None
    assert material.slug == slug
    assert table.material(use, "unobtainium") is None


def test_every_property_is_an_interval_with_unit_and_source(table: Table) -> None:
    for use in MATERIAL_TABLES:
        for material in table.materials(use):
            assert material.properties, material.slug
            for name, (low, value, high) in material.properties.items():
                assert low <= value <= high
                assert material.units[name]
                assert name in material.source


def test_degrees_of_hardness_follow_from_their_definition(table: Table) -> None:
    """1 dGH is 10 mg CaO per litre; gypsum is CaSO4.2H2O (IUPAC weights): 30.7 mg/L."""
    gypsum = table.material("treatments", "gypsum")
    assert gypsum is not None
    expected = 10 / (40.078 + 15.999) * (40.078 + 32.06 + 4 * 15.999 + 2 * 18.015)
    assert gypsum.properties["mg_l_per_dgh"][1] == pytest.approx(expected, rel=1e-3)


def test_a_missing_database(tmp_path: Path) -> None:
    with pytest.raises(TableError, match="stockcheck build"):
        Table.open(tmp_path / "none.db")


@pytest.mark.parametrize("content", [b"", b"not a database", b"SQLite format 3\0" + bytes(200), bytes(5000)])
def test_a_corrupt_database(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "broken.db"
    path.write_bytes(content)
    with pytest.raises(TableError, match="stockcheck build"):
        Table.open(path)


def test_a_database_cut_short(tmp_path: Path, database: Path) -> None:
    path = tmp_path / "short.db"
    path.write_bytes(database.read_bytes()[: database.stat().st_size // 2])
    with pytest.raises(TableError, match="cut short"):
        Table.open(path)


def test_a_directory_in_its_place(tmp_path: Path) -> None:
    with pytest.raises(TableError):
        Table.open(tmp_path)


def test_a_database_of_another_version(tmp_path: Path, database: Path) -> None:
    path = tmp_path / "other.db"
    path.write_bytes(database.read_bytes())
    with sqlite3.connect(path) as connection:
        connection.execute("UPDATE build_stamp SET schemaVersion = 999")
    connection.close()
    with pytest.raises(TableError, match="version 999"):
        Table.open(path)


def test_nothing_can_be_written_through_the_reading_side(table: Table) -> None:
    with pytest.raises(TableError, match="readonly"):
        table._rows("DELETE FROM species")
