"""Findings of company are few and telling: what is alike is said once."""

from __future__ import annotations

from planning import community, told

from stockcheck.table.read import Table


def test_one_nipper_is_told_of_once_with_all_whom_it_nips(table: Table) -> None:
    facts = community(table, ["8 Puntigrus tetrazona", "4 Pterophyllum scalare", "2 male Trichopodus leerii"])
    nippings = [f for f in told("company/fin-nipping", facts) if f.species[0] == "puntigrus-tetrazona"]
    assert len(nippings) == 1
    assert "The same goes for " in nippings[0].message
    assert set(nippings[0].species[1:]) == {"pterophyllum-scalare", "trichopodus-leerii"}


def test_levels_are_not_mixed_in_one_finding(table: Table) -> None:
    facts = community(table, ["1 Astronotus ocellatus", "10 Paracheirodon innesi", "6 Puntigrus tetrazona"])
    levels = {finding.level: finding for finding in told("company/eaten", facts)}
    assert levels["stop"].species == ("astronotus-ocellatus", "paracheirodon-innesi")
    assert levels["fix"].species == ("astronotus-ocellatus", "puntigrus-tetrazona")


def test_all_that_are_short_of_company_are_told_of_together(table: Table) -> None:
    facts = community(table, ["2 Paracheirodon innesi", "1 Corydoras aeneus", "1 Danio rerio"])
    (finding,) = told("company/group-too-small", facts)
    assert "neon tetras (2 of at least 6)" in finding.message.lower()
    assert len(finding.species) == 3


def test_all_hybrids_of_one_kind_are_told_of_together(table: Table) -> None:
    stock = ["4 Maylandia estherae", "12 Chindongo demasoni", "6 Melanochromis auratus"]
    (finding,) = told("company/hybrids", community(table, stock))
    assert len(finding.species) == 3


def test_a_hunter_still_young_is_told_of_as_grown(table: Table) -> None:
    facts = community(table, ["1 Astronotus ocellatus", "10 Paracheirodon innesi"])
    facts.groups[0].entry.stage = "juvenile"
    (finding,) = told("company/eaten", facts)
    assert finding.level == "stop" and "it will not last" in finding.message


def test_what_the_young_eat_is_said_in_feed_and_ammonia(table: Table) -> None:
    facts = community(table, ["2 male Poecilia reticulata", "6 female Poecilia reticulata"], cover="dense")
    (finding,) = told("company/fry", facts)
    assert "times today's" in finding.message and "ammonia nitrogen from " in finding.message
    alone = community(table, ["6 female Poecilia reticulata"])
    (finding,) = told("company/fry", alone)
    assert "sperm stored for up to 10 months" in finding.message


def test_names_stand_inside_a_sentence_as_they_should(table: Table) -> None:
    """Names that begin with a place or a person keep their capital, others do not."""
    names = {species.common_name for species in table.all_species()}
    assert {"Siamese algae eater", "Endler's livebearer", "Amano shrimp", "spotted raphael catfish"} <= names
