"""What the model of pressure and of prey claims of every keeping, tried on many (hypothesis)."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from stockcheck.rules.company import broods
from stockcheck.rules.company.encounter import Place, Side
from stockcheck.rules.company.predation import swallowed
from stockcheck.rules.company.pressure import BASE, COURTSHIP_BASE, Rivals, courtship, rivalry
from stockcheck.table.read import Table

COVERS = ("open", "some", "dense")
rivals = st.builds(
    Rivals,
    trait=st.sampled_from(sorted(BASE)),
    count=st.integers(2, 30),
    body_cm=st.floats(1.5, 60.0),
    floor_cm2=st.floats(200.0, 30_000.0),
    run_cm=st.floats(20.0, 300.0),
    cover=st.sampled_from(COVERS),
    opposite=st.integers(0, 30),
    opposite_wanted=st.floats(0.5, 4.0),
    single_sex=st.sampled_from((None, "fits", "needs-cover", "unsafe", "unknown")),
    sharing=st.booleans(),
    crowding=st.booleans(),
    nipped_fins=st.booleans(),
    size_spread=st.floats(0.0, 0.8),
    raised_together=st.booleans(),
    lookalikes=st.booleans(),
    other_trait=st.sampled_from(("", *sorted(BASE))),
    cave_each=st.booleans(),
)
SLACK = 1 + 1e-9


@given(rivals)
def test_more_cover_never_raises_the_pressure(group: Rivals) -> None:
    """Of the middle value only: the interval admits the opposite (Woodward, Winder & Watt 2019)."""
    values = [rivalry(replace(group, cover=cover)).value for cover in COVERS]
    assert values[0] * SLACK >= values[1] and values[1] * SLACK >= values[2]


@given(rivals, st.floats(1.0, 5.0))
def test_more_floor_or_a_longer_run_never_raises_it(group: Rivals, times: float) -> None:
    assert group.floor_cm2 is not None and group.run_cm is not None
    here = rivalry(group).value
    assert rivalry(replace(group, floor_cm2=group.floor_cm2 * times)).value <= here * SLACK
    assert rivalry(replace(group, run_cm=group.run_cm * times)).value <= here * SLACK


@given(rivals)
def test_what_calms_calms_and_what_rouses_rouses(group: Rivals) -> None:
    here = rivalry(replace(group, raised_together=False, nipped_fins=False, cave_each=False)).value
    calm = replace(group, raised_together=True, nipped_fins=False, cave_each=True)
    rough = replace(group, raised_together=False, nipped_fins=True, cave_each=False)
    assert rivalry(calm).value < here <= rivalry(rough).value * SLACK


@given(rivals)
def test_tempers_keep_their_order_and_intervals_hold_the_value(group: Rivals) -> None:
    tempers = ("display", "spar", "territorial", "lethal")
    alike = [rivalry(replace(group, trait=trait, crowding=False, lookalikes=False)) for trait in tempers]
    values = [pressure.value for pressure in alike if pressure.parts]
    assert len(values) == len(tempers)
    assert (
        values[0] <= values[1] * SLACK and values[1] <= values[3] * SLACK and values[2] <= values[3] * SLACK
    )
    for pressure in alike:
        low, value, high = pressure.interval
        assert 0 < low <= value * SLACK and value <= high * SLACK


@given(rivals, st.sampled_from(sorted(BASE)))
def test_a_milder_opponent_never_makes_it_worse(group: Rivals, other: str) -> None:
    own = replace(group, lookalikes=True, other_trait=group.trait)
    assert rivalry(replace(own, other_trait=other)).value <= rivalry(own).value * SLACK


@given(
    st.sampled_from(sorted(COURTSHIP_BASE)),
    st.integers(1, 12),
    st.integers(1, 30),
    st.floats(0.5, 4.0),
    st.sampled_from(COVERS),
)
def test_one_more_female_never_makes_it_worse_nor_one_less_male(
    trait: str, males: int, females: int, wanted: float, cover: str
) -> None:
    here = courtship(trait, males, females, wanted, cover).value
    assert courtship(trait, males, females + 1, wanted, cover).value <= here * SLACK
    assert courtship(trait, males + 1, females, wanted, cover).value * SLACK >= here


@given(
    length=st.floats(5.0, 200.0),
    longer=st.floats(1.0, 3.0),
    eater=st.sampled_from(("oscar", "angel", "gold")),
)
def test_longer_prey_is_never_in_more_danger(length: float, longer: float, eater: str, table: Table) -> None:
    slug = {"oscar": "astronotus-ocellatus", "angel": "pterophyllum-scalare", "gold": "carassius-auratus"}[
        eater
    ]
    hunter = table.species(slug)
    actor = Side(hunter, 1, hunter.adult_length_mm, hunter.adult_length_mm)
    prey = table.species("paracheirodon-innesi")
    small, large = (swallowed(actor, Side(prey, 6, mm, mm), Place()) for mm in (length, length * longer))
    assert small is not None and large is not None
    assert small.headroom <= large.headroom * SLACK + 1e-9


@given(
    st.floats(1.0, 20.0),
    st.floats(5.0, 80.0),
    st.floats(20.0, 60.0),
    st.floats(0.0, 0.6),
    st.integers(1, 12),
)
def test_young_grow_in_number_with_time_mothers_and_survival(
    females: float, brood: float, days: float, survival: float, months: int
) -> None:
    here = broods.raised_young(females, brood, days, survival, months)
    assert here <= broods.raised_young(females, brood, days, survival, months + 1) * SLACK
    assert here <= broods.raised_young(females + 1, brood, days, survival, months) * SLACK
    assert here <= broods.raised_young(females, brood, days, survival + 0.1, months) * SLACK
