"""A number of groups that the class says: held by maker, gate and brute force, or told why not."""

from functools import cache

import pytest

from roundwright.goals.class_wish import ClassFormat, ClassWish
from roundwright.optimise.fit import fit
from roundwright.optimise.planning.plan_class import plan_class
from roundwright.optimise.planning.ways_out import ways_out
from roundwright.optimise.planning.why_not import explain
from roundwright.plan.changing import change as c
from roundwright.plan.changing.restate import restate
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Clash, Status, WayOut
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Grade
from roundwright.services.clash_words import clash_lines, way_lines
from roundwright.services.take_way_out import wish_after
from tests.planning_brute_force.oracle_fit import Best, best_fit
from tests.planning_brute_force.plan_ids import OF_THE_WISH, plan_id
from tests.support.builders import a_kit, a_person, a_problem, a_spec, reps
from tests.support.random_planning import a_tiny_rotation
from tests.why_not.small_menu import a_base, asking, people, the_library

STAGGERED, STATIONS = ClassFormat.STAGGERED, ClassFormat.STATIONS
MENU = ("lifted_squat", "push", "pull", "lifted_hinge")
SEEDS = tuple((n, groups) for n in (*range(24), 29, 37, 62, 64, 68) for groups in (2, 3))


def _with_groups(problem: Problem, groups: int | None) -> Problem:
    spec = problem.spec.model_copy(update={"groups": groups})
    return problem.model_copy(update={"spec": spec})


@cache
def _case(seed: int, groups: int) -> tuple[Problem, Best | None]:
    problem = _with_groups(a_tiny_rotation(seed, STAGGERED), groups)
    return problem, best_fit(problem, STAGGERED)


@pytest.mark.parametrize(("seed", "groups"), SEEDS)
def test_the_best_of_so_many_groups_is_found(seed: int, groups: int) -> None:
    problem, best = _case(seed, groups)
    result = fit(problem, seed=1, plan_id=plan_id(seed))
    if best is None:
        assert result.outcome.status is Status.IMPOSSIBLE
        assert result.outcome.clash
        return
    assert result.core is not None
    assert len(result.core.class_.groups) == groups
    assert result.outcome.status is Status.PROVEN
    assert (result.outcome.overrun_s, result.outcome.cost) == best.value
    verdict = judge(result.core, problem)
    assert verdict.of_grade(Grade.NEVER) == ()
    assert {f.rule for f in verdict.of_grade(Grade.STOP)} <= OF_THE_WISH
    assert verdict.cost == best.value[1]
    other = judge(result.core, _with_groups(problem, 5 - groups))
    assert "plan.malformed" in {f.rule for f in other.of_grade(Grade.NEVER)}


def test_the_cases_are_found_and_impossible_and_better_left_open() -> None:
    bests = {key: _case(*key)[1] for key in SEEDS}
    assert sum(best is not None for best in bests.values()) >= 20
    assert sum(best is None for best in bests.values()) >= 5
    both = [(bests[seed, 2], bests[seed, 3]) for seed, groups in SEEDS if groups == 2]
    differ = [a.value != b.value for a, b in both if a is not None and b is not None]
    assert len(differ) >= 6
    assert any(differ)


def _four_lines(number: int, **spec: object) -> Problem:
    lines = ("squat_line", "push_line", "pull_line", "hinge_line")
    return a_problem(
        a_spec(*((line, reps(8)) for line in lines), **spec),
        the_library(),
        {f"p{n:03d}": a_person(f"p{n:03d}") for n in range(1, number + 1)},
        a_kit(),
    )


@pytest.mark.parametrize("groups", [2, 3, 4])
def test_four_groups_are_made_where_they_are_asked_for(groups: int) -> None:
    problem = _four_lines(6, format=STAGGERED, groups=groups)
    result = fit(problem, plan_id=plan_id(1))
    assert result.core is not None
    assert len(result.core.class_.groups) == groups
    assert judge(result.core, problem).of_grade(Grade.NEVER) == ()


NAMES = {f"p{n:03d}": f"Person {n}" for n in range(1, 9)}


@pytest.mark.parametrize(
    ("number", "form", "groups", "words"),
    [
        (3, STAGGERED, 4, "Four groups that take turns do not fit three people and four exercises"),
        (6, STATIONS, 3, "Three groups that take turns do not fit six people and four exercises"),
    ],
)
def test_groups_that_cannot_be_are_told_with_a_way_out(
    number: int, form: ClassFormat, groups: int, words: str
) -> None:
    problem = _four_lines(number, format=form, groups=groups)
    outcome = fit(problem, plan_id=plan_id(1)).outcome
    assert outcome.status is Status.IMPOSSIBLE
    (line,) = clash_lines(outcome.clash, problem, NAMES, "kg")
    assert words in line
    ways = ways_out(problem, outcome.clash)
    assert ways[0].kind == "any_groups"
    assert way_lines(ways[:1], problem, NAMES, "kg") == ("Leave the number of groups to the tool.",)


def test_a_class_that_is_chosen_says_so_too() -> None:
    base = a_base(people(6), format=STATIONS, groups=3)
    planning = asking(base, 4, *MENU, formats=(STATIONS,))
    result = plan_class(planning, plan_id=plan_id(1))
    assert result.outcome.status is Status.IMPOSSIBLE
    clash = explain(planning)
    figures = {"people": 6, "positions": 4, "groups": 3}
    assert clash == (Clash(kind="groups", figures=figures),)
    kinds = [way.kind for way in ways_out(planning, clash)]
    assert kinds[0] == "any_groups"
    assert {"format", "fewer_places"} <= set(kinds)
    freed = planning.model_copy(update={"base": _with_groups(base, None)})
    assert plan_class(freed, plan_id=plan_id(1)).core is not None


def test_a_class_that_is_chosen_keeps_its_number_of_groups() -> None:
    for groups in (2, 3, 4):
        base = a_base(people(6), format=STAGGERED, groups=groups)
        planning = asking(base, 4, *MENU, formats=(STAGGERED,))
        result = plan_class(planning, plan_id=plan_id(1))
        assert result.core is not None
        assert result.problem is not None
        assert len(result.core.class_.groups) == groups
        assert judge(result.core, result.problem).of_grade(Grade.NEVER) == ()


def test_whoever_leaves_makes_the_number_the_tools_where_it_cannot_be_held() -> None:
    problem = _four_lines(5, format=STAGGERED, groups=4)
    core = fit(problem, plan_id=plan_id(1)).core
    assert core is not None
    one = restate(problem, core, c.PersonLeft(person="p001"), problem.library).problem
    assert one.spec.groups == 4
    fewer = restate(one, core, c.PersonLeft(person="p002"), problem.library).problem
    assert fewer.spec.groups is None


def test_a_way_out_is_taken_by_one_press() -> None:
    wish = ClassWish.model_validate(
        {
            "name": "A class",
            "weekday": "monday",
            "start": "18:00",
            "slot": 2700,
            "room": "main",
            "rounds": 3,
            "format": "staggered",
            "groups": 4,
        }
    )
    freed = wish_after(wish, WayOut(kind="any_groups"))
    assert freed is not None
    assert (freed.format, freed.groups) == (STAGGERED, None)
    together = wish_after(wish, WayOut(kind="format", item="together"))
    assert together is not None
    assert (together.format, together.groups) == (ClassFormat.TOGETHER, None)
    with pytest.raises(ValueError, match="stations or staggered"):
        ClassWish.model_validate(wish.model_dump(by_alias=True) | {"format": "pairs"})
