"""The company axis in figures: the arithmetic of each pressure, and of the young."""

from __future__ import annotations

from math import prod

import pytest
from planning import community, told

from stockcheck.advice.company_figures import company_figures
from stockcheck.facts.model import Figure
from stockcheck.rules.company.keeping import keepings, male_pressure
from stockcheck.table.read import Table


def figures_of(table: Table, *animals: str, cover: str = "some") -> dict[str, Figure]:
    facts = community(table, list(animals), cover=cover)
    return {figure.name: figure for figure in company_figures(facts)}


def test_parts_multiply_to_the_pressure_that_the_finding_names(table: Table) -> None:
    facts = community(table, ["4 male Xiphophorus hellerii"])
    (figure,) = company_figures(facts)
    assert figure.name == "male_rivalry_xiphophorus_hellerii"
    *parts, last = figure.steps
    assert prod(step.value for step in parts) == pytest.approx(last.value) == figure.interval.value
    assert figure.interval == male_pressure(keepings(facts)[0]).interval
    assert all(step.source for step in figure.steps)
    (finding,) = told("company/male-rivalry", facts)
    assert f"Rivalry pressure {figure.interval.value:.2f}, " in finding.message
    assert " x " not in finding.message and " x " in last.formula


def test_influences_are_the_parts_widest_first(table: Table) -> None:
    figure = figures_of(table, "2 male Betta splendens")["male_rivalry_betta_splendens"]
    reaches = [influence.reach for influence in figure.influences]
    assert reaches == sorted(reaches, reverse=True) and reaches[0] > 0


def test_unsexed_group_has_the_figures_of_its_calmest_mix(table: Table) -> None:
    figures = figures_of(table, "6 Xiphophorus hellerii")
    assert any("of them are males" in figure.label for figure in figures.values())


def test_young_by_hand_and_what_they_eat(table: Table) -> None:
    figures = figures_of(table, "2 male Poecilia reticulata", "4 female Poecilia reticulata")
    month = figures["fry_per_month_poecilia_reticulata"]
    step = {step.name: step.value for step in month.steps}
    by_hand = step["mothers"] * step["brood"] / step["interval"] * 30.4 * step["cover"] * step["companions"]
    assert step["mothers"] == 4 and month.interval.value == pytest.approx(by_hand)
    three, six = (figures[f"feed_with_fry_after_{n}_months_poecilia_reticulata"].interval for n in (3, 6))
    assert 1 < three.low <= three.value < six.value < six.high


def test_peaceful_egg_layers_have_no_figures(table: Table) -> None:
    assert figures_of(table, "10 Trigonostigma heteromorpha") == {}


def test_group_of_one_rank_is_judged_whole(table: Table) -> None:
    """Nobody sexes clown loaches: all spar for rank, which ends, and asks for no sexing."""
    facts = community(table, ["5 Chromobotia macracanthus"])
    (figure,) = company_figures(facts)
    assert figure.name == "rivalry_chromobotia_macracanthus"
    (finding,) = told("company/unsexed", facts)
    assert finding.level == "watch" and "spar for rank" in finding.message


def test_unknown_sexes_are_one_question(table: Table) -> None:
    facts = community(table, ["6 Xiphophorus hellerii", "6 Maylandia estherae"])
    (finding,) = told("company/unsexed", facts)
    assert finding.level == "unknown" and finding.species == ("xiphophorus-hellerii", "maylandia-estherae")
    assert finding.message.count("%") == 2


@pytest.mark.parametrize("count", [6, 900])
def test_a_large_unsexed_group_is_told_in_plain_numbers(table: Table, count: int) -> None:
    facts = community(table, [f"{count} Poecilia reticulata"], cover="open")
    (question,), (young,) = told("company/unsexed", facts), told("company/fry", facts)
    assert "e+" not in young.message and "mg a day" in young.message
    assert "100%" not in question.message, "both outcomes can come"
    assert ("more than 99%" in question.message) == (count > 6)
    assert ("calmest mix" in question.remedy) == (count <= 60), "a mix is only told where each was tried"
