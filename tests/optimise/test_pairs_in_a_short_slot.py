"""Pairs of many people whose slot is too short: halves decide the time, partners the price."""

import pytest

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.groupings import by_load
from roundwright.optimise.hasty_pairs import least_seconds, partners_of
from roundwright.optimise.instance import make_instance
from roundwright.plan.core import WindowKind
from roundwright.plan.outcome import Status
from roundwright.plan.problem import Problem
from tests.optimise.small_classes import core_of, fitted
from tests.support.builders import (
    a_catalogue,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    reps,
)
from tests.support.random_halls import a_hall_of

ROUND_S = 300 + 240 + 300 + 15 + 6


def _slow_and_quick(slow: int, quick: int) -> Problem:
    """Give newcomers, at 36 s a set, and regulars, at 30 s, in a slot without time for work."""
    library = a_catalogue([a_movement("sit", level=1)], [a_line("sit_line", "sit")])
    people = {
        f"p{n:03d}": a_person(f"p{n:03d}", level=1, classes_done=3 if n <= slow else 30)
        for n in range(1, slow + quick + 1)
    }
    spec = a_spec(("sit_line", reps(10)), format=ClassFormat.PAIRS, slot_s=ROUND_S)
    return a_problem(spec, library, people)


@pytest.mark.parametrize(("slow", "quick", "seconds"), [(4, 4, 66), (5, 3, 72), (4, 5, 66)])
def test_the_slow_work_in_one_half_where_they_can(slow: int, quick: int, seconds: int) -> None:
    problem = _slow_and_quick(slow, quick)
    assert least_seconds(make_instance(problem)) <= seconds
    result = fitted(problem)
    assert (result.outcome.overrun_s, result.outcome.status) == (seconds, Status.PROVEN)
    work = next(w for w in core_of(result).timeline if w.kind is WindowKind.WORK)
    assert sum(work.halves_s) == seconds


def test_first_timers_are_not_paired_by_halves_where_they_need_not_be() -> None:
    problem = _slow_and_quick(4, 4)
    people = {
        p: person.model_copy(update={"classes_done": 0 if p in ("p001", "p005") else 30})
        for p, person in problem.people.items()
    }
    instance = make_instance(problem.model_copy(update={"people": people}))
    choice = tuple(tuple(0 for _ in row) for row in instance.table)
    groups = partners_of(instance, choice, (0, 1, 2, 3), (4, 5, 6, 7))
    assert all(not {0, 4} <= set(group) for group in groups.members)
    assert {p for group in groups.members for p in group[0::2]} == {0, 1, 2, 3}


@pytest.mark.parametrize("seed", [1, 2])
def test_a_bound_without_a_proof_of_the_time_says_that_it_is_of_the_price(seed: int) -> None:
    problem = a_hall_of(seed, people=10, places=3)
    spec = problem.spec.model_copy(update={"format": ClassFormat.PAIRS, "slot_s": 1000})
    problem = problem.model_copy(update={"spec": spec})
    outcome = fitted(problem).outcome
    assert outcome.overrun_s >= least_seconds(make_instance(problem)) > 0
    assert outcome.bound_covers == ("all" if outcome.status is Status.PROVEN else "price")
    assert len(by_load(make_instance(problem)).members) == 5
