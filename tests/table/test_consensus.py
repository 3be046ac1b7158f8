"""The consensus rule, worked by hand on small examples."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stockcheck.table.consensus import CURATOR, Evidence, consensus, grade_of


def row(
    source: str,
    low: float | None,
    high: float | None,
    kind: str = "page",
    use: str = "comfort",
    reason: str = "",
) -> Evidence:
    return Evidence("x", "temperature", low, high, "degC", "", "", source, "", use, reason, kind)


def test_one_source_is_its_own_band() -> None:
    result = consensus([row("a", 22, 26)])
    assert result.comfort == (22, 26)
    assert result.tolerance == (22, 26)
    assert result.origins == ("a",)


def test_comfort_is_median_of_lows_to_median_of_highs() -> None:
    # lows 20 22 24 -> 22; highs 25 26 30 -> 26
    result = consensus([row("a", 20, 26), row("b", 22, 25), row("c", 24, 30)])
    assert result.comfort == (22, 26)
    assert result.tolerance == (20, 30)


def test_copies_of_one_text_count_once() -> None:
    # Three pages of origin "a" are one vote: lows 24 and 20 -> 22; highs 28 and 26 -> 27
    result = consensus([row("a", 24, 28), row("a", 24, 28), row("a", 24, 28), row("b", 20, 26)])
    assert result.comfort == (22, 27)
    assert len(result.origins) == 2


def test_an_origins_own_interval_is_the_median_of_its_rows() -> None:
    # origin "a": lows 20 22 24 -> 22, highs 26 27 28 -> 27; its tolerance is all it ever states
    result = consensus([row("a", 20, 26), row("a", 22, 27), row("a", 24, 28)])
    assert result.comfort == (22, 27)
    assert result.tolerance == (20, 28)


def test_reference_kinds_count_twice() -> None:
    # lows 20 20 (specialist) 24 -> 20; highs 25 25 28 -> 25
    result = consensus([row("s", 20, 25, kind="specialist"), row("p", 24, 28)])
    assert result.comfort == (20, 25)


def test_survival_and_wild_rows_feed_tolerance_only() -> None:
    result = consensus([row("a", 18, 24), row("b", 0, 41, use="tolerance")])
    assert result.comfort == (18, 24)
    assert result.tolerance == (0, 41)
    assert result.origins == ("a",)


def test_only_wild_rows_leave_comfort_open() -> None:
    result = consensus([row("a", 6, 7, use="tolerance")])
    assert result.comfort == (None, None)
    assert result.tolerance == (6, 7)


def test_with_four_origins_the_most_extreme_of_each_side_is_left_out() -> None:
    rows = [row("a", 10, 25), row("b", 20, 26), row("c", 21, 27), row("d", 22, 40)]
    assert consensus(rows).tolerance == (20, 27)
    assert consensus(rows[:3]).tolerance == (10, 27)


def test_one_sided_evidence_leaves_the_other_end_open() -> None:
    result = consensus([row("a", None, 20), row("b", None, 12)])
    assert result.comfort == (None, 16)
    assert result.tolerance == (None, 20)


def test_a_row_set_aside_counts_for_nothing() -> None:
    result = consensus([row("a", 22, 26), row("b", 2, 99, use="none", reason="a slip of the pen")])
    assert result == consensus([row("a", 22, 26)])


def test_comfort_stays_inside_tolerance_after_trimming() -> None:
    # Every low but one is 24: the trim would leave a tolerance narrower than one vote weighs.
    rows = [row("a", 24, 26, kind="database"), row("b", 20, 26), row("c", 20, 26), row("d", 20, 30)]
    low, high = consensus(rows).tolerance
    comfort_low, comfort_high = consensus(rows).comfort
    assert None not in (low, high, comfort_low, comfort_high)
    assert low <= comfort_low <= comfort_high <= high  # type: ignore[operator]


def test_a_curators_row_wins_and_shows_its_reason() -> None:
    rows = [row("a", 10, 30), row("b", 22, 26), row(CURATOR, 20, 25, reason="10 and 30 are survival")]
    result = consensus(rows)
    assert result.comfort == (20, 25)
    assert result.tolerance == (10, 30)
    assert result.note == "10 and 30 are survival"


def test_a_curators_one_sided_row_replaces_that_end_only() -> None:
    assert consensus([row("a", 10, 30), row(CURATOR, 18, None, reason="why")]).comfort == (18, 30)


def test_under_a_curators_row_only_agreeing_origins_count() -> None:
    rows = [row("near", 21, 24), row("far", 30, 34), row(CURATOR, 20, 25, reason="why")]
    assert consensus(rows).origins == ("near",)
    tanks = [row("strict", 200, None), row("lax", 40, None), row(CURATOR, 150, None, reason="why")]
    assert consensus(tanks).origins == ("strict",)


def test_a_curators_row_without_evidence_has_no_origin() -> None:
    result = consensus([row(CURATOR, 2, 12, reason="common practice, no source")])
    assert result.comfort == (2, 12)
    assert grade_of(len(result.origins)) == "D"


def test_grades() -> None:
    assert [grade_of(n) for n in (0, 1, 2, 3, 9)] == ["D", "C", "B", "A", "A"]


intervals = st.tuples(st.floats(0, 50), st.floats(0, 50)).map(lambda pair: (min(pair), max(pair)))
evidence = st.lists(
    st.builds(
        lambda source, ends, use, open_end: row(
            source,
            None if open_end == "low" else ends[0],
            None if open_end == "high" else ends[1],
            "database" if source in "abc" else "page",
            use,
        ),
        st.sampled_from("abcdef"),
        intervals,
        st.sampled_from(["comfort", "tolerance"]),
        st.sampled_from(["low", "high", ""]),
    ),
    min_size=1,
    max_size=12,
)


@given(evidence)
def test_any_evidence_gives_an_ordered_band_inside_its_tolerance(rows: list[Evidence]) -> None:
    result = consensus(rows)
    ends = [result.tolerance[0], *result.comfort, result.tolerance[1]]
    known = [end for end in ends if end is not None]
    assert known == sorted(known)


@given(evidence, st.randoms())
def test_the_order_of_rows_does_not_matter(rows: list[Evidence], random: object) -> None:
    shuffled = list(rows)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert consensus(shuffled) == consensus(rows)
