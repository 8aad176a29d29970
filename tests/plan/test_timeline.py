"""The timeline of a class, held to the worked count of the contracts."""

from roundwright.goals.class_wish import AfterLastRound, BurstWish, ClassFormat
from roundwright.plan.core import WindowKind
from roundwright.plan.timeline import make_timeline, total_s
from tests.support import worked_count
from tests.support.builders import a_spec, reps

WORK = {1: 96, 2: 72, 3: 72, 4: 60, 5: 60}


def test_the_worked_count_lasts_2505_seconds_with_rounds_of_555() -> None:
    spec = worked_count.problem().spec
    halves = {(n, k): (s,) for n in (1, 2, 3) for k, s in WORK.items()}
    timeline = make_timeline(spec, ClassFormat.TOGETHER, 3, halves)
    assert total_s(timeline) == 2505
    assert sum(w.length_s for w in timeline if w.round == 2) == 555
    works = [w.length_s for w in timeline if w.kind is WindowKind.WORK and w.round == 3]
    assert works == [96, 72, 72, 60, 60]
    ends = [w.at_s + w.length_s for w in timeline]
    assert [w.at_s for w in timeline] == [0, *ends[:-1]]


def test_pairs_add_the_swap_and_list_a_position_for_each_group() -> None:
    spec = a_spec(("x_line", reps(8)), warm_up_s=0, cool_down_s=0, demonstration_s=0)
    timeline = make_timeline(spec, ClassFormat.PAIRS, 1, {(1, 1): (30, 0)}, groups=3)
    work = timeline[0]
    assert (work.length_s, work.halves_s, work.positions) == (36, (30, 0), (1, 1, 1))


def test_groups_ahead_stand_further_on_and_go_round() -> None:
    spec = a_spec(*(("x_line", reps(8)),) * 3, warm_up_s=0, demonstration_s=0)
    halves = {(1, k): (30,) for k in (1, 2, 3)}
    timeline = make_timeline(spec, ClassFormat.STAGGERED, 1, halves, groups=2, offsets=(0, 2))
    works = [w for w in timeline if w.kind is WindowKind.WORK]
    assert [w.positions for w in works] == [(1, 3), (2, 1), (3, 2)]
    assert [w.at_s for w in works] == [0, 45, 90]
    assert all(w.halves_s == () for w in works)


def test_nobody_at_a_place_leaves_no_window_and_no_change() -> None:
    spec = a_spec(("x_line", reps(8)), ("x_line", reps(8)), warm_up_s=0)
    timeline = make_timeline(spec, ClassFormat.TOGETHER, 1, {(1, 2): (30,)})
    kinds = [w.kind for w in timeline]
    assert kinds == [
        WindowKind.DEMONSTRATION,
        WindowKind.WORK,
        WindowKind.CHANGE,
        WindowKind.COOL_DOWN,
    ]


def test_what_follows_the_last_round_is_as_wished() -> None:
    def after(wish: AfterLastRound) -> list[WindowKind]:
        spec = a_spec(
            ("x_line", reps(8)),
            rounds=2,
            burst=BurstWish(line="burst_line", length_s=60),
            after_last_round=wish,
        )
        timeline = make_timeline(spec, ClassFormat.TOGETHER, 2, {(1, 1): (30,), (2, 1): (30,)})
        return [w.kind for w in timeline if w.kind in (WindowKind.BURST, WindowKind.REST)]

    burst, rest = WindowKind.BURST, WindowKind.REST
    assert after(AfterLastRound.NOTHING) == [burst, rest]
    assert after(AfterLastRound.BURST) == [burst, rest, burst]
    assert after(AfterLastRound.BURST_AND_REST) == [burst, rest, burst, rest]
