"""Every way out gives a class when it is taken, and the kindest stands first."""

from typing import Any

import pytest

from roundwright.goals.class_wish import ClassFormat, KeptCell
from roundwright.kit.inventory import KitItem
from roundwright.library.vocabulary import KitKind
from roundwright.optimise.fit import fit
from roundwright.optimise.planning.plan_class import plan_class
from roundwright.optimise.planning.ways_out import ways_out
from roundwright.optimise.planning.why_not import explain
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Status, WayOut
from roundwright.plan.planning_problem import Candidate, PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Grade
from tests.support.builders import a_kit, a_problem, a_spec, reps
from tests.why_not.every_class import PLAN_ID
from tests.why_not.impossible import CASES, Impossible, a_bare_hall
from tests.why_not.small_menu import a_base, asking, people, the_library


def _with_kit(base: Problem, way: WayOut) -> Problem:
    name, units = way.figures.get("unit_mass_g", way.item), way.figures["units"]
    kit = base.kit
    masses = [
        d.model_copy(update={"count": d.count + units * (d.unit_mass_g == name)})
        for d in kit.dumbbells
    ]
    items = [i.model_copy(update={"count": i.count + units * (i.id == name)}) for i in kit.items]
    more = kit.model_copy(update={"dumbbells": tuple(masses), "items": tuple(items)})
    return base.model_copy(update={"kit": more})


def taken(planning: PlanningProblem, way: WayOut) -> PlanningProblem:
    """Take a way out, written apart from the maker's own changes."""
    if way.kind == "several":
        for part in way.parts:
            planning = taken(planning, part)
        return planning
    base, spec, rules = planning.base, planning.base.spec, planning.base.rules
    if way.kind == "format":
        return planning.model_copy(update={"formats": (ClassFormat(way.item),)})
    if way.kind in ("fewer_places", "more_places"):
        return planning.model_copy(update={"places": way.figures["places"]})
    if way.kind == "show_again":
        return planning.model_copy(update={"besides": ()})
    if way.kind == "free_place":
        kept = [
            k.model_copy(update={"position": None}) if k.exercise_id == way.item else k
            for k in planning.kept
        ]
        return planning.model_copy(update={"kept": tuple(kept)})
    if way.kind == "let_go_kept":
        gone = next(k for k in planning.kept if k.exercise_id == way.item)
        more = (*planning.candidates, Candidate(exercise_id=way.item, count=gone.count))
        kept = [k for k in planning.kept if k != gone]
        return planning.model_copy(update={"kept": tuple(kept), "candidates": more})
    if way.kind == "more_kit":
        return planning.model_copy(update={"base": _with_kit(base, way)})
    changed: dict[str, Any] = {}
    number = way.figures.get("number")
    if way.kind == "drop_ban":
        own = (way.item, *base.library.lines[way.item].versions)
        changed["ban"] = tuple(b for b in spec.ban if b not in own)
    elif way.kind == "let_go_cell":
        changed["keep"] = tuple(k for k in spec.keep if k.person not in way.persons)
    elif way.kind == "no_burst":
        changed["burst"] = None
    elif way.kind == "no_last_burst":
        changed["after_last_round"] = "nothing"
    elif way.kind == "shorter_burst":
        assert spec.burst is not None
        changed["burst"] = spec.burst.model_copy(update={"length_s": way.figures["seconds"]})
    elif way.kind == "round_less":
        changed["rounds"] = way.figures["rounds"]
    elif way.kind == "fewer_reps":
        share = way.figures["per_cent"]
        return planning.model_copy(
            update={
                name: tuple(
                    e.model_copy(update={"count": reps(e.count.value * share // 100)})
                    for e in getattr(planning, name)
                )
                for name in ("kept", "candidates")
            }
        )
    else:
        rule = {
            "more_of_a_pattern": "most_of_a_pattern",
            "more_jumping": "most_jumping",
            "more_combinations": "most_new_combinations",
            "more_accessories": "most_accessories",
            "more_of_a_line": "most_of_a_line",
        }
        changes = (
            {"least_places_for_trunk": 13}
            if way.item == "trunk"
            else {"least_places_for_four": 13}
            if way.kind == "without_coverage"
            else {rule[way.kind]: number}
        )
        base = base.model_copy(update={"rules": rules.model_copy(update=changes)})
    base = base.model_copy(update={"spec": spec.model_copy(update=changed)})
    return planning.model_copy(update={"base": base})


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)
def test_every_way_out_gives_a_class_of_its_price(case: Impossible) -> None:
    ways = ways_out(case.planning, explain(case.planning))
    assert ways
    for way in ways:
        found = plan_class(taken(case.planning, way), plan_id=PLAN_ID)
        assert found.problem is not None, way
        assert found.core is not None
        verdict = judge(found.core, found.problem)
        assert verdict.of_grade(Grade.NEVER) == ()
        assert (found.outcome.overrun_s, found.outcome.cost) <= (way.overrun_s, way.cost)


def _kinds(case_name: str) -> list[str]:
    case = next(c for c in CASES if c.name == case_name)
    return [w.kind for w in ways_out(case.planning, explain(case.planning))]


def test_less_change_stands_before_more_and_sitting_out_comes_last() -> None:
    assert _kinds("what is kept at the start cannot stand between two squats") == [
        "free_place",
        "let_go_kept",
        "fewer_places",
    ]
    landing = _kinds("two that are kept land too often for someone in the fifth class")
    assert landing[:2] == ["fewer_reps", "round_less"]
    assert "free_place" in landing[2:]


def test_what_would_not_help_is_not_listed() -> None:
    # one bench for four: pairs need two, and so do two groups of two
    base = a_base(people(4), a_kit(None, KitItem(id="bench", kind=KitKind.BENCH, count=1)))
    planning = asking(base, 2, "lifted_squat", kept=("bench_pull",))
    ways = ways_out(planning, explain(planning))
    assert "format" not in {w.kind for w in ways}
    assert [w.figures["units"] for w in ways if w.kind == "more_kit"] == [3]


def _given(*exercises: str, benches: int = 1, number: int = 3, **spec: Any) -> Problem:
    bench = KitItem(id="bench", kind=KitKind.BENCH, count=benches)
    return a_problem(
        a_spec(*((f"{e}_line", reps(8)) for e in exercises), **spec),
        the_library(),
        people(number),
        a_kit(None, bench),
    )


def _ways(problem: Problem) -> dict[str, WayOut]:
    outcome = fit(problem, plan_id=PLAN_ID).outcome
    assert outcome.status is Status.IMPOSSIBLE
    return {f"{w.kind} {w.item}".strip(): w for w in ways_out(problem, outcome.clash)}


def test_a_given_class_short_of_benches() -> None:
    ways = _ways(_given("lifted_squat", "bench_pull"))
    assert {"leave_out bench_pull_line", "more_kit bench", "sit_out"} <= ways.keys()
    assert ways["more_kit bench"].figures["units"] == 2
    resting = ways["sit_out"]
    assert (len(resting.persons), resting.positions) == (2, (2,))
    assert resting.cost >= 2 * 1000
    assert list(ways)[-1] == "sit_out"


def test_two_people_and_one_bench_go_in_pairs_first() -> None:
    ways = _ways(_given("lifted_squat", "bench_pull", number=2))
    assert next(iter(ways)) == "format pairs"
    assert len(ways["sit_out"].persons) == 1


def test_a_kept_load_that_is_not_there_is_let_go() -> None:
    keep = (KeptCell(person="p002", position=1, mass_g=14_000),)
    ways = _ways(_given("lifted_squat", keep=keep))
    assert ways["let_go_cell"].persons == ("p002",)


def test_where_three_clashes_stand_side_by_side_changes_are_taken_together() -> None:
    planning = a_bare_hall("squat")
    ways = ways_out(planning, explain(planning))
    assert {way.kind for way in ways} == {"several"}
    kits = [w for w in ways if {p.kind for p in w.parts} == {"more_kit"}]
    assert len(kits) == 1
    # four people: eight dumbbells, of which three are there, in whole pairs; four benches and boxes
    asked = {(p.item, p.figures["units"]) for p in kits[0].parts}
    assert asked == {("dumbbell", 6), ("bench", 3), ("box", 3)}
    for way in ways:
        answer = plan_class(taken(planning, way), seed=1, plan_id=PLAN_ID)
        assert answer.core is not None
        for k in range(len(way.parts)):
            parts = (*way.parts[:k], *way.parts[k + 1 :])
            fewer = taken(planning, way.model_copy(update={"parts": parts}))
            assert plan_class(fewer, seed=1, plan_id=PLAN_ID).outcome.status is Status.IMPOSSIBLE
