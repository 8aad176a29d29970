"""Who gets what when there is too little, each case worked by hand."""

from roundwright.goals.class_wish import ClassFormat, KeptCell
from roundwright.kit.inventory import KitItem
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import KitKind, KitUse
from roundwright.optimise.allotment import allot
from roundwright.optimise.assignment import assigned
from roundwright.optimise.choice_value import price_of, together
from roundwright.optimise.instance import make_instance
from roundwright.optimise.joint_model import JointModel
from roundwright.optimise.solver import Work
from roundwright.plan.outcome import Status
from roundwright.plan.problem import Problem
from tests.optimise.small_classes import a_squat_line, an_assumed_lift, fitted, masses, moves
from tests.support.builders import (
    a_capacity,
    a_catalogue,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    reps,
)


def _three_want_more_than_there_is() -> Problem:
    middling = (a_capacity("p003", "squat", 38.0, sd=0.05),)
    people = {
        "p001": a_person("p001"),
        "p002": a_person("p002"),
        "p003": a_person("p003", capacities=middling),
    }
    kit = a_kit({6000: 40, 12_000: 2, 16_000: 2})
    return a_problem(a_spec(("squat_line", reps(8))), a_squat_line(), people, kit)


def test_the_pair_goes_where_going_without_costs_most() -> None:
    # p001 and p002 aim at 16 kg, p003 at 12 kg; one pair of each, plenty of 6 kg.
    # p002 on 12 and p003 on 6: 40 x 4/16 + 40 x 6/12 = 10 + 20 = 30.
    # p002 on 6 and p003 on 12: 40 x 10/16 = 25.
    result = fitted(_three_want_more_than_there_is())
    assert (result.outcome.status, result.outcome.cost, result.outcome.bound) == (
        Status.PROVEN,
        25,
        25,
    )
    held = masses(result)
    assert held["p003"] == 12_000
    assert sorted([held["p001"], held["p002"]]) == [6000, 16_000]


def test_assignment_and_joint_model_agree_where_both_apply() -> None:
    instance = make_instance(_three_want_more_than_there_is())
    groups = together(3)
    choice = assigned(instance)
    assert choice is not None
    assert price_of(instance, choice, groups) == 25
    work = Work(nodes_left=1000, groupings_left=1, swaps_left=0)
    answer = JointModel(instance, groups).least_price(work, seed=1)
    assert answer.choice is not None
    assert price_of(instance, answer.choice, groups) == 25


def test_the_assignment_steps_back_where_versions_couple() -> None:
    low, high = a_movement("low", level=2), a_movement("high", level=3)
    library = a_catalogue([low, high], [a_line("any_line", "low", "high")])
    people = {"p001": a_person("p001"), "p002": a_person("p002", level=2)}
    problem = a_problem(a_spec(("any_line", reps(8))), library, people)
    assert assigned(make_instance(problem)) is None


def test_two_benches_for_three_people_cost_the_easier_version_and_a_second_one() -> None:
    bench = KitNeed(item=KitKind.BENCH, use=KitUse.LIE_OR_SIT)
    floor = a_movement("floor_press", level=2)
    on_bench = a_movement("bench_press", level=3, kit=(bench,))
    library = a_catalogue([floor, on_bench], [a_line("press_line", "floor_press", "bench_press")])
    people = {p: a_person(p) for p in ("p001", "p002", "p003")}
    item = KitItem(id="bench", kind=KitKind.BENCH, count=2, strength=150_000)
    problem = a_problem(a_spec(("press_line", reps(8))), library, people, a_kit({8000: 4}, item))
    # one on the floor: 8 for the version, 10 for a second version in the room = 18;
    # all three on the floor: 24
    result = fitted(problem)
    assert (result.outcome.cost, result.outcome.status) == (18, Status.PROVEN)
    assert sorted(moves(result).values()) == ["bench_press", "bench_press", "floor_press"]


def test_pairs_halve_the_need_and_any_format_finds_it() -> None:
    people = {f"p00{n}": a_person(f"p00{n}") for n in range(1, 5)}
    spec = a_spec(("squat_line", reps(8)))
    problem = a_problem(spec, a_squat_line(), people, a_kit({12_000: 4}))
    alone = fitted(problem)
    assert (alone.outcome.status, alone.core) == (Status.IMPOSSIBLE, None)
    for form in (ClassFormat.PAIRS, ClassFormat.ANY):
        changed = problem.model_copy(update={"spec": spec.model_copy(update={"format": form})})
        result = fitted(changed)
        assert (result.outcome.status, result.outcome.cost) == (Status.PROVEN, 0)
        assert result.core is not None
        assert result.core.class_.format is ClassFormat.PAIRS
        assert [len(g) for g in result.core.class_.groups] == [2, 2]


def test_a_third_mass_is_used_only_where_it_saves_its_price() -> None:
    slugs = {"eight": 8, "ten": 10, "twelve": 12}
    library = a_catalogue(
        [an_assumed_lift(slug, kg) for slug, kg in slugs.items()],
        [a_line(f"{slug}_line", slug) for slug in slugs],
    )
    spec = a_spec(*((f"{slug}_line", reps(8)) for slug in slugs))
    kit = a_kit({8000: 4, 10_000: 4, 12_000: 4})
    problem = a_problem(spec, library, {"p001": a_person()}, kit)
    # 8, 10, 12: third mass 15. 8, 10, 10: 40 x 2/12 = 6.67 -> 7. 8, 8, 12: 40 x 2/10 = 8.
    result = fitted(problem)
    assert result.outcome.cost == 7
    assert [masses(result, k)["p001"] for k in (1, 2, 3)] == [8000, 10_000, 10_000]
    cheap = problem.model_copy(update={"costs": problem.costs.model_copy(update={"third_mass": 6})})
    assert fitted(cheap).outcome.cost == 6


def test_kit_passes_on_during_the_change_from_whoever_lets_go() -> None:
    library = a_catalogue(
        [an_assumed_lift("lift", 12), an_assumed_lift("other", 12)],
        [a_line("lift_line", "lift"), a_line("other_line", "other")],
    )
    keep = (
        KeptCell(person="p001", position=1, mass_g=12_000),
        KeptCell(person="p002", position=2, mass_g=12_000),
    )
    spec = a_spec(("lift_line", reps(8)), ("other_line", reps(8)), keep=keep, rounds=2)
    people = {"p001": a_person("p001"), "p002": a_person("p002")}
    problem = a_problem(spec, library, people, a_kit({8000: 4, 12_000: 1}))
    result = fitted(problem)
    assert result.core is not None
    passed = [
        (h.round, h.unit_mass_g, h.units, h.from_person, h.to_person) for h in result.core.handovers
    ]
    assert passed == [(n, 12_000, 1, "p001", "p002") for n in (1, 2)]
    assert all(c.kept for c in result.core.cells if c.unit_mass_g == 12_000)


def test_favourites_that_fit_need_no_solver() -> None:
    people = {p: a_person(p) for p in ("p001", "p002")}
    problem = a_problem(a_spec(("squat_line", reps(8))), a_squat_line(), people)
    instance = make_instance(problem)
    work = Work(nodes_left=0, groupings_left=0, swaps_left=0)
    found = allot(instance, together(2), work, seed=1)
    assert (found.price, found.is_proven, work.used) == (0, True, 0)
