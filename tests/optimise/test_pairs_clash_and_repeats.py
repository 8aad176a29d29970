"""Groupings, the smallest clash, and that equal input gives equal plans."""

from itertools import combinations

import pytest

from roundwright.goals.class_wish import ClassFormat, KeptCell
from roundwright.kit.inventory import Inventory, KitItem
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import KitKind, KitUse
from roundwright.optimise.groupings import all_groupings, by_load, fewest_first_timer_groups
from roundwright.optimise.instance import make_instance
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.problem import Problem
from tests.optimise.small_classes import (
    a_squat_line,
    core_of,
    fitted,
    with_kit,
    with_people,
)
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
from tests.support.random_halls import a_hall_of


@pytest.mark.parametrize(
    ("people", "ways"), [(1, 1), (2, 1), (3, 3), (4, 3), (5, 30), (6, 15), (7, 315)]
)
def test_all_groupings_are_there_once(people: int, ways: int) -> None:
    made = list(all_groupings(range(people)))
    assert len(made) == len(set(made)) == ways
    assert all(sorted(p for g in one for p in g) == list(range(people)) for one in made)


def _in_pairs(*classes_done: int, kit: int = 40) -> Problem:
    people = {
        f"p{n:03d}": a_person(f"p{n:03d}", classes_done=done)
        for n, done in enumerate(classes_done, start=1)
    }
    spec = a_spec(("squat_line", reps(8)), format=ClassFormat.PAIRS)
    return a_problem(spec, a_squat_line(), people, a_kit({12_000: kit}))


def test_first_timers_are_kept_apart_and_the_unavoidable_pair_is_proven() -> None:
    apart = fitted(_in_pairs(0, 0, 30, 30))
    assert (apart.outcome.cost, apart.outcome.status) == (0, Status.PROVEN)
    groups = [set(g) for g in core_of(apart).class_.groups]
    assert {"p001", "p002"} not in groups
    three = fitted(_in_pairs(0, 0, 0, 30))
    assert (three.outcome.cost, three.outcome.status) == (100, Status.PROVEN)


def test_many_people_are_paired_without_two_first_timers_and_proven() -> None:
    problem = _in_pairs(0, 0, 0, 30, 30, 30, 30, 30, 30)
    instance = make_instance(problem)
    groups = by_load(instance)
    assert sorted(len(g) for g in groups.members) == [2, 2, 2, 3]
    assert all(not {a, b} <= {0, 1, 2} for g in groups.members for a, b in combinations(g, 2))
    assert fewest_first_timer_groups(instance) == 0
    result = fitted(problem)
    assert (result.outcome.cost, result.outcome.status) == (0, Status.PROVEN)


def test_a_three_uses_what_two_of_them_lift_at_once() -> None:
    # the first and third work at once: two pairs; with one pair it can't be
    assert fitted(_in_pairs(30, 30, 30, kit=4)).outcome.status is Status.PROVEN
    short = fitted(_in_pairs(30, 30, 30, kit=2))
    assert short.outcome.status is Status.IMPOSSIBLE
    assert {c.kind for c in short.outcome.clash} == {"kit", "position", "persons"}


def test_dropping_any_member_of_a_clash_makes_it_possible() -> None:
    box = KitNeed(item=KitKind.BOX, use=KitUse.SUPPORT)
    library = a_catalogue(
        [a_movement("sit", level=3), a_movement("prop", level=3, kit=(box,))],
        [a_line("sit_line", "sit"), a_line("prop_line", "prop")],
    )
    people = {f"p00{n}": a_person(f"p00{n}") for n in range(1, 6)}
    spec = a_spec(("sit_line", reps(8)), ("prop_line", reps(8)))

    def kit_of(boxes: int) -> Inventory:
        return a_kit({8000: 2}, KitItem(id="box", kind=KitKind.BOX, count=boxes))

    problem = a_problem(spec, library, people, kit_of(2))
    result = fitted(problem)
    assert (result.outcome.status, result.core) == (Status.IMPOSSIBLE, None)
    by_kind = {c.kind: c for c in result.outcome.clash}
    assert set(by_kind) == {"kit", "position", "persons"}
    assert by_kind["position"].positions == (2,)
    assert (by_kind["kit"].item, by_kind["kit"].figures) == ("box", {"there": 2, "needed": 3})
    clashing = by_kind["persons"].persons
    assert len(clashing) == 3
    fewer = {p: people[p] for p in clashing[1:]}
    assert fitted(with_people(problem, fewer)).outcome.status is Status.PROVEN
    assert fitted(with_kit(problem, kit_of(5))).outcome.status is Status.PROVEN


def test_what_is_kept_but_cannot_be_is_named() -> None:
    keep = (KeptCell(person="p001", position=1, mass_g=14_000),)
    spec = a_spec(("squat_line", reps(8)), keep=keep)
    result = fitted(a_problem(spec, a_squat_line(), {"p001": a_person()}))
    assert result.outcome.status is Status.IMPOSSIBLE
    (clash,) = result.outcome.clash
    assert (clash.kind, clash.persons, clash.positions) == ("kept", ("p001",), (1,))


@pytest.mark.parametrize("form", [ClassFormat.TOGETHER, ClassFormat.PAIRS])
def test_equal_input_gives_equal_plans_and_outcomes(form: ClassFormat) -> None:
    problem = a_hall_of(3, people=9, places=4)
    spec = problem.spec.model_copy(update={"format": form, "slot_s": 5400})
    problem = problem.model_copy(update={"spec": spec})
    one = fitted(problem, seed=5, budget=Budget.QUICK)
    again = fitted(problem, seed=5, budget=Budget.QUICK)
    assert core_of(one).digest == core_of(again).digest
    assert one.outcome == again.outcome
    assert one.outcome.work_used > 0
    assert set(one.outcome.versions) == {"highspy", "scipy", "numpy"}


def test_a_plan_not_proven_states_a_bound_below_its_cost() -> None:
    seen = set()
    for seed in range(1, 7):
        problem = a_hall_of(seed, people=10, places=3, rounds=1)
        spec = problem.spec.model_copy(update={"format": ClassFormat.PAIRS, "slot_s": 5400})
        outcome = fitted(problem.model_copy(update={"spec": spec}), budget=Budget.QUICK).outcome
        seen.add(outcome.status)
        if outcome.status is Status.FOUND:
            assert outcome.bound is not None
            assert outcome.cost is not None
            assert outcome.bound < outcome.cost
        elif outcome.status is Status.PROVEN:
            assert outcome.bound == outcome.cost
    assert Status.PROVEN in seen
