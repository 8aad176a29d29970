"""Stations and staggered groups: who stands where and when, kit by interval, order by group."""

import pytest

from roundwright.goals.class_wish import BurstWish, ClassFormat, KeptCell
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import Demand, Pattern
from roundwright.optimise.fit import FitResult, fit
from roundwright.optimise.rotation import arrangements
from roundwright.plan.core import CellState, WindowKind
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.problem import Problem
from tests.optimise.small_classes import PLAN_ID, an_assumed_lift, cell, core_of, fitted, masses
from tests.support.builders import (
    a_catalogue,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    reps,
)
from tests.support.random_halls import a_hall_of, a_tiny_hall

LENGTHS = {"short": 2.0, "middle": 3.0, "long": 5.0}


def _three_lengths(people: int, form: ClassFormat, **changes: object) -> Problem:
    """Give a class of 20, 30 and 50 s for everybody."""
    library = a_catalogue(
        [a_movement(slug, level=3, seconds_a_rep=s) for slug, s in LENGTHS.items()],
        [a_line(f"{slug}_line", slug) for slug in LENGTHS],
    )
    spec = a_spec(*((f"{slug}_line", reps(10)) for slug in LENGTHS), format=form, **changes)
    everybody = {f"p{n:03d}": a_person(f"p{n:03d}") for n in range(1, people + 1)}
    return a_problem(spec, library, everybody)


def _works(result: FitResult) -> list[tuple[int, tuple[int, ...]]]:
    windows = core_of(result).timeline
    return [(w.length_s, w.positions) for w in windows if w.kind is WindowKind.WORK]


def test_three_stations_last_as_long_as_the_slowest_in_every_interval() -> None:
    result = fitted(_three_lengths(3, ClassFormat.STATIONS))
    assert _works(result) == [(50, (1, 2, 3)), (50, (2, 3, 1)), (50, (3, 1, 2))]
    assert [len(g) for g in core_of(result).class_.groups] == [1, 1, 1]
    # warm-up 300, demonstration 240, three times 50 and 15, cool-down 300
    assert sum(w.length_s for w in core_of(result).timeline) == 1035
    assert result.outcome.status is Status.PROVEN


def test_fewer_people_than_positions_make_as_many_groups_as_people() -> None:
    result = fitted(_three_lengths(2, ClassFormat.STATIONS))
    assert _works(result) == [(30, (1, 2)), (50, (2, 3)), (50, (3, 1))]


def test_staggered_groups_are_two_or_three_of_nearly_one_size() -> None:
    result = fitted(_three_lengths(5, ClassFormat.STAGGERED))
    sizes = sorted(len(g) for g in core_of(result).class_.groups)
    assert sizes in ([2, 3], [1, 2, 2])
    offsets = [k - 1 for k in _works(result)[0][1]]
    assert offsets[0] == 0
    assert len(set(offsets)) == len(offsets)


def test_every_offset_is_open_to_staggered_groups_and_one_to_stations() -> None:
    staggered = [way.offsets for way in arrangements(ClassFormat.STAGGERED, 6, 4)]
    assert staggered == [(0, 1), (0, 2), (0, 3), (0, 1, 2), (0, 1, 3), (0, 2, 3)]
    assert [w.offsets for w in arrangements(ClassFormat.STATIONS, 9, 4)] == [(0, 1, 2, 3)]
    assert arrangements(ClassFormat.STAGGERED, 6, 1) == ()


def test_an_offset_is_chosen_that_keeps_the_slot() -> None:
    # Two groups of one over places of 20, 30, 50 and 50 s. One or three ahead: 30, 50,
    # 50, 50. Two ahead: 50, 50, 50, 50.
    slot = 300 + 240 + 300 + 4 * 15 + 180
    problem = _three_lengths(2, ClassFormat.STAGGERED, slot_s=slot)
    again = problem.spec.exercises[2].model_copy(update={"position": 4})

    def with_slot(seconds: int) -> FitResult:
        changes = {"exercises": (*problem.spec.exercises, again), "slot_s": seconds}
        spec = problem.spec.model_copy(update=changes)
        return fitted(problem.model_copy(update={"spec": spec}))

    kept = with_slot(slot)
    assert (kept.outcome.overrun_s, kept.outcome.status) == (0, Status.PROVEN)
    assert _works(kept)[0][1] in ((1, 2), (1, 4))
    short = with_slot(slot - 9)
    assert (short.outcome.overrun_s, short.outcome.status) == (9, Status.PROVEN)


def test_too_few_people_or_positions_for_staggered_groups_is_said() -> None:
    result = fitted(_three_lengths(1, ClassFormat.STAGGERED))
    assert result.outcome.status is Status.IMPOSSIBLE
    (clash,) = result.outcome.clash
    assert (clash.kind, clash.figures) == ("groups", {"people": 1, "positions": 3})


def _two_lifts(form: ClassFormat, people: int, dumbbells: int) -> Problem:
    library = a_catalogue(
        [an_assumed_lift("lift", 12), a_movement("sit", level=3)],
        [a_line("lift_line", "lift"), a_line("sit_line", "sit")],
    )
    spec = a_spec(("lift_line", reps(8)), ("sit_line", reps(8)), format=form)
    everybody = {f"p{n:03d}": a_person(f"p{n:03d}") for n in range(1, people + 1)}
    return a_problem(spec, library, everybody, a_kit({12_000: dumbbells}))


@pytest.mark.parametrize("form", [ClassFormat.STATIONS, ClassFormat.STAGGERED])
def test_half_the_kit_is_enough_and_is_handed_over(form: ClassFormat) -> None:
    together = fitted(_two_lifts(ClassFormat.TOGETHER, 4, 2))
    assert together.outcome.status is Status.IMPOSSIBLE
    result = fitted(_two_lifts(form, 4, 2))
    assert (result.outcome.status, result.outcome.cost) == (Status.PROVEN, 0)
    assert set(masses(result).values()) == {12_000}
    first, second = core_of(result).class_.groups
    passed = core_of(result).handovers
    assert {h.from_person for h in passed} == set(first)
    assert {h.to_person for h in passed} == set(second)
    # givers let go of position 1, takers lift at position 1 in the next interval
    assert {(h.from_position, h.to_position) for h in passed} == {(1, 1)}


def test_a_clash_of_stations_names_kit_and_the_people_who_need_it() -> None:
    result = fitted(_two_lifts(ClassFormat.STATIONS, 4, 1))
    assert result.outcome.status is Status.IMPOSSIBLE
    by_kind = {c.kind: c for c in result.outcome.clash}
    assert set(by_kind) == {"kit", "position", "persons"}
    assert by_kind["kit"].figures == {"there": 1, "needed": 2, "unit_mass_g": 12_000}
    assert len(by_kind["persons"].persons) == 3
    assert by_kind["position"].positions == (1,)
    fewer = _two_lifts(ClassFormat.STATIONS, 2, 1)
    assert fitted(fewer).outcome.status is Status.PROVEN


def _with_a_jump(**changes: object) -> Problem:
    """Give jumps (or steps) at place 1, and a seat at place 2, for two people in stations."""
    library = a_catalogue(
        [
            a_movement("step", level=2),
            a_movement("jump", level=3, contacts_a_rep=1, pattern=Pattern.JUMP),
            a_movement("sit", level=3),
            a_movement("march", level=1, pattern=Pattern.CARDIO),
        ],
        [
            a_line("jump_line", "step", "jump"),
            a_line("sit_line", "sit"),
            a_line("burst_line", "march"),
        ],
    )
    values = {"format": ClassFormat.STATIONS, "rounds": 2} | changes
    spec = a_spec(("jump_line", reps(4)), ("sit_line", reps(8)), **values)
    people = {p: a_person(p) for p in ("p001", "p002")}
    return a_problem(spec, library, people)


def test_the_group_that_ends_with_the_jump_has_a_tail_and_the_other_none() -> None:
    result = fitted(_with_a_jump())
    (first,), (second,) = core_of(result).class_.groups
    # the first group ends at place 2; the second starts there and ends at place 1
    assert cell(result, first, 1).signature == ("jump",)
    assert cell(result, second, 1, 1).signature == ("jump",)
    assert cell(result, second, 1, 2).signature == ("step",)
    # one further version in the room
    assert result.outcome.cost == 10


def test_the_group_that_starts_with_the_jump_after_a_burst_steps_and_the_other_has_a_tail() -> None:
    burst = BurstWish(line="burst_line", length_s=30)
    problem = _with_a_jump(burst=burst, rest_s=0)
    costs = problem.costs.model_copy(update={"further_version": 3})
    result = fitted(problem.model_copy(update={"costs": costs}))
    (first,), (second,) = core_of(result).class_.groups
    assert cell(result, first, 1).signature == ("step",)
    assert cell(result, second, 1, 1).signature == ("jump",)
    assert cell(result, second, 1, 2).signature == ("step",)
    # a step below the level 8, one further version 3, each burst two levels below 8
    assert result.outcome.cost == 8 + 3 + 16


def test_what_is_kept_decides_the_group() -> None:
    # p001 keeps the jump, which may not be first after a burst: so p001 stands ahead
    keep = (KeptCell(person="p001", position=1, version="jump"),)
    burst = BurstWish(line="burst_line", length_s=30)
    result = fitted(_with_a_jump(burst=burst, rest_s=0, keep=keep))
    assert core_of(result).class_.groups == (("p002",), ("p001",))


def _lying_first() -> Catalogue:
    down = a_movement("lie", level=3, demands={Demand.ON_BACK: 2})
    march = a_movement("march", level=1, pattern=Pattern.CARDIO)
    lines = [a_line("lie_line", "lie"), a_line("sit_line", "sit"), a_line("burst_line", "march")]
    return a_catalogue([down, a_movement("sit", level=3), march], lines)


def test_lying_right_after_a_burst_is_left_out_for_the_group_that_starts_there_alone() -> None:
    spec = a_spec(
        ("sit_line", reps(8)),
        ("lie_line", reps(8)),
        format=ClassFormat.STATIONS,
        rounds=2,
        rest_s=0,
        burst=BurstWish(line="burst_line", length_s=30),
    )
    people = {p: a_person(p) for p in ("p001", "p002")}
    result = fitted(a_problem(spec, _lying_first(), people))
    (first,), (second,) = core_of(result).class_.groups
    states = {c.person_id: c.state for c in core_of(result).cells if c.position == 2}
    assert states == {first: CellState.DO, second: CellState.SIT_OUT}


@pytest.mark.parametrize("form", [ClassFormat.STATIONS, ClassFormat.STAGGERED])
@pytest.mark.parametrize("slot_s", [2000, 5400])
def test_equal_input_gives_equal_rotations(form: ClassFormat, slot_s: int) -> None:
    problem = a_hall_of(3, people=9, places=4)
    spec = problem.spec.model_copy(update={"format": form, "slot_s": slot_s})
    problem = problem.model_copy(update={"spec": spec})
    one = fitted(problem, seed=5, budget=Budget.QUICK)
    again = fitted(problem, seed=5, budget=Budget.QUICK)
    assert core_of(one).digest == core_of(again).digest
    assert one.outcome == again.outcome
    assert one.outcome.bound is not None
    assert one.outcome.cost is not None
    assert one.outcome.bound <= one.outcome.cost


@pytest.mark.parametrize("seed", [178, 221])
def test_one_person_at_stations_needs_nobody_to_change_places_with(seed: int) -> None:
    hall = a_tiny_hall(seed)
    assert len(hall.taking_part) == 1
    spec = hall.spec.model_copy(update={"format": ClassFormat.STATIONS})
    problem = hall.model_copy(update={"spec": spec})
    result = fit(problem, budget=Budget.QUICK, plan_id=PLAN_ID)
    assert result.core is not None
    assert judge(result.core, problem).cost == result.outcome.cost
