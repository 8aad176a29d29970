"""Counts, passes, seconds and landings of a version, worked by hand from section 2."""

import pytest

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import BurstWish, Count, CountUnit
from roundwright.library.vocabulary import DoneAs, Laterality
from roundwright.plan.counts_of_version import (
    burst_reps,
    contacts_of,
    converted,
    half_even,
    in_total,
    passes_of,
    seconds_of,
    steps_of_movement,
    steps_of_parts,
)
from tests.support.builders import a_combination, a_movement

R, S, A, T, TS = (
    CountUnit.REPS,
    CountUnit.REPS_PER_SIDE,
    CountUnit.REPS_ALTERNATING,
    CountUnit.SECONDS,
    CountUnit.SECONDS_PER_SIDE,
)
BI, UNI, ALT = Laterality.BILATERAL, Laterality.UNILATERAL, Laterality.ALTERNATING


@pytest.mark.parametrize(
    ("wish", "laterality", "expected"),
    [
        ((9, R), BI, (9, R)),
        ((9, R), UNI, (4, S)),
        ((1, R), UNI, (1, S)),
        ((9, R), ALT, (8, A)),
        ((1, R), ALT, (2, A)),
        ((12, S), BI, (24, R)),
        ((12, S), UNI, (12, S)),
        ((12, S), ALT, (24, A)),
        ((16, A), BI, (16, R)),
        ((16, A), UNI, (8, S)),
        ((16, A), ALT, (16, A)),
        ((41, T), BI, (41, T)),
        ((41, T), UNI, (20, TS)),
        ((1, T), UNI, (1, TS)),
        ((41, T), ALT, (41, T)),
        ((20, TS), BI, (40, T)),
        ((20, TS), UNI, (20, TS)),
        ((20, TS), ALT, (40, T)),
    ],
)
def test_a_version_keeps_the_total_of_the_wish(
    wish: tuple[int, CountUnit], laterality: Laterality, expected: tuple[int, CountUnit]
) -> None:
    count = converted(Count(value=wish[0], unit=wish[1]), laterality)
    assert (count.value, count.unit) == expected


@pytest.mark.parametrize(
    ("wish", "expected"),
    [
        ((12, S), (12, R)),
        ((12, R), (6, R)),
        ((1, R), (1, R)),
        ((16, A), (8, R)),
        ((40, T), (20, T)),
        ((20, TS), (20, T)),
    ],
)
def test_on_one_side_only_the_count_a_side_is_kept(
    wish: tuple[int, CountUnit], expected: tuple[int, CountUnit]
) -> None:
    count = converted(Count(value=wish[0], unit=wish[1]), UNI, one_side=True)
    assert (count.value, count.unit) == expected


def test_on_one_side_only_the_listing_is_the_side_that_is_used() -> None:
    row = a_movement("row", laterality=UNI)
    assert [s.side for s in steps_of_movement(row, Side.LEFT, Side.LEFT)] == [Side.RIGHT]
    assert [s.side for s in steps_of_movement(row, Side.LEFT, Side.RIGHT)] == [Side.LEFT]
    squat = a_movement("squat")
    assert [s.side for s in steps_of_movement(squat, Side.LEFT, Side.RIGHT)] == [Side.BOTH]


def test_a_substitute_takes_over_totals() -> None:
    assert in_total(Count(value=12, unit=S)) == Count(value=24, unit=R)
    assert in_total(Count(value=16, unit=A)) == Count(value=16, unit=R)
    assert in_total(Count(value=20, unit=TS)) == Count(value=40, unit=T)


def test_half_even_rounds_halves_to_even_both_ways() -> None:
    assert [half_even(n, 2) for n in (1, 3, 5, -1, -3)] == [0, 2, 2, 0, -2]


def test_the_first_side_comes_first_and_mirrors_a_whole_listing() -> None:
    row = a_movement("row", laterality=UNI)
    squat = a_movement("squat")
    sides = [s.side for s in steps_of_movement(row, Side.RIGHT)]
    assert sides == [Side.RIGHT, Side.LEFT]
    both = a_combination("row_squat", ("row_line", Side.LEFT), ("squat_line", Side.BOTH))
    listing = steps_of_parts(both, (row, squat), Count(value=5, unit=S), Side.RIGHT)
    assert [s.side for s in listing] == [Side.RIGHT, Side.BOTH, Side.LEFT, Side.BOTH]
    # a two-sided version in place of a one-sided part is done with both sides
    stood_in = steps_of_parts(both, (squat, squat), Count(value=5, unit=R), Side.LEFT)
    assert [s.side for s in stood_in] == [Side.BOTH, Side.BOTH]


def test_passes_from_reps_and_from_seconds() -> None:
    row = a_movement("row", laterality=UNI, seconds_a_rep=2.5)
    movements = {"row": row}
    steps = steps_of_movement(row, Side.LEFT)
    assert passes_of(Count(value=16, unit=A), steps, movements, None) == 8
    # 20 s a side of 2.5 s = 8; 41 s of passes of 5 s = 8
    assert passes_of(Count(value=20, unit=TS), steps, movements, None) == 8
    assert passes_of(Count(value=41, unit=T), steps, movements, None) == 8


def test_seconds_take_links_pace_and_one_side_change() -> None:
    row = a_movement("row", laterality=UNI, seconds_a_rep=2.5)
    squat = a_movement("squat", seconds_a_rep=3.0)
    movements = {"row": row, "squat": squat}
    pair = a_combination(
        "row_squat", ("row_line", Side.LEFT), ("squat_line", Side.BOTH), link_s=0.7
    )
    count = Count(value=8, unit=S)
    steps = steps_of_parts(pair, (row, squat), count, Side.LEFT)
    # 8 x 2 x (2.5 + 3.0 + 0.7) = 99.2 s, x 1.2 = 119.04, + 4
    assert seconds_of(count, steps, movements, pair, pace_bp=12_000, side_change_s=4) == 123
    blocks = pair.model_copy(update={"done_as": DoneAs.COMPLEX})
    # 8 x 2 x 5.5 + 2 x 0.7 = 89.4
    assert seconds_of(count, steps, movements, blocks, pace_bp=10_000, side_change_s=4) == 93
    timed = Count(value=20, unit=TS)
    assert seconds_of(timed, steps, movements, pair, pace_bp=14_000, side_change_s=4) == 44
    # 5 x 2.5 x 1 = 12.5 s: half to even
    single = a_movement("curl", seconds_a_rep=2.5)
    one = steps_of_movement(single, Side.LEFT)
    reps = Count(value=5, unit=R)
    assert seconds_of(reps, one, {"curl": single}, None, pace_bp=10_000, side_change_s=4) == 12


def test_landings_hold_every_step_of_a_pass() -> None:
    hop = a_movement("hop", laterality=ALT, contacts_a_rep=1)
    steps = steps_of_movement(hop, Side.LEFT)
    assert contacts_of(steps, 8, {"hop": hop}) == 16


def test_a_burst_counts_by_the_classes_rate_only_where_there_are_low_hops() -> None:
    burst = BurstWish(line="burst_line", length_s=45, rate_a_min=130)
    rope = a_movement("rope", low_hops_a_rep=1, rate_a_min=120)
    jack = a_movement("jack", contacts_a_rep=2, rate_a_min=60)
    march = a_movement("march", seconds_a_rep=0.6)
    assert [burst_reps(m, burst) for m in (rope, jack, march)] == [97, 45, 75]
