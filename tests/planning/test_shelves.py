"""What is remembered from one planning to the next changes no plan, and is not made twice."""

from uuid import UUID

import pytest

from roundwright.goals.class_wish import ClassFormat
from roundwright.kit.inventory import Inventory
from roundwright.library.vocabulary import Demand
from roundwright.optimise.options import PersonOptions
from roundwright.optimise.planning.plan_class import PlanResult, plan_class
from roundwright.optimise.planning.shelves import Shelves
from roundwright.plan.outcome import Budget
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem
from tests.planning.test_plan_class import _names, _planning
from tests.support.builders import a_kit, a_person
from tests.support.random_planning import a_tiny_planning

PLAN_ID = str(UUID(int=1, version=4))


def _planned(planning: PlanningProblem, shelves: Shelves | None = None) -> PlanResult:
    return plan_class(planning, budget=Budget.QUICK, plan_id=PLAN_ID, shelves=shelves)


def _digest(result: PlanResult) -> str:
    return "" if result.core is None else result.core.digest


def _with(planning: PlanningProblem, **changes: object) -> PlanningProblem:
    return planning.model_copy(update={"base": planning.base.model_copy(update=changes)})


def _with_spec(planning: PlanningProblem, **changes: object) -> PlanningProblem:
    return _with(planning, spec=planning.base.spec.model_copy(update=changes))


def _with_person(planning: PlanningProblem, **changes: object) -> PlanningProblem:
    people = dict(planning.base.people)
    name = sorted(people)[0]
    people[name] = people[name].model_copy(update=changes)
    return _with(planning, people=people)


def _fewer(kit: Inventory) -> Inventory:
    return kit.model_copy(update={"dumbbells": kit.dumbbells[1:]})


def _variants(planning: PlanningProblem) -> list[PlanningProblem]:
    """Give the question, then the same asked otherwise in one point after the other."""
    base: Problem = planning.base
    return [
        planning,
        planning.model_copy(update={"candidates": planning.candidates[1:]}),
        planning.model_copy(update={"formats": (ClassFormat.STATIONS, ClassFormat.PAIRS)}),
        _with_spec(planning, rounds=base.spec.rounds + 1),
        _with_spec(planning, slot_s=base.spec.slot_s - 300),
        _with_spec(planning, rest_s=10),
        _with_spec(planning, rest_s=120),
        _with_spec(planning, change_s=40),
        _with_spec(planning, side_change_s=9),
        _with_spec(planning, ban=(planning.candidates[0].exercise_id,)),
        _with_spec(planning, burst=None),
        _with_spec(planning, reps_left=5),
        _with_person(planning, level=1),
        _with_person(planning, caps={Demand.OVERHEAD: 0, Demand.IMPACT: 0}),
        _with_person(planning, classes_done=0),
        _with_person(planning, capacities=()),
        _with_person(planning, body_mass_g=40_000),
        _with(planning, kit=_fewer(base.kit)),
        _with(planning, substitutes=()),
        _with(planning, costs=base.costs.model_copy(update={"load_short": 90})),
        _with(planning, rules=base.rules.model_copy(update={"usual_chance_bp": 9900})),
        planning,
    ]


@pytest.mark.parametrize("seed", [301, 304, 307])
def test_every_plan_is_the_same_with_and_without_what_is_remembered(seed: int) -> None:
    shelves = Shelves()
    for planning in _variants(a_tiny_planning(seed)):
        fresh, remembered = _planned(planning), _planned(planning, shelves)
        assert _digest(remembered) == _digest(fresh)
        assert remembered == fresh


def test_the_same_class_asked_again_makes_no_option_anew(monkeypatch) -> None:
    made = []
    original = PersonOptions._made

    def counting(self, place, wish, kept):
        made.append(place)
        return original(self, place, wish, kept)

    monkeypatch.setattr(PersonOptions, "_made", counting)
    shelves = Shelves()
    first = _planned(_planning(), shelves)
    at_first = len(made)
    made.clear()
    assert _planned(_planning(), shelves) == first
    assert not made
    another = _planned(_planning(besides=(_names(first),)), shelves)
    assert len(made) < at_first / 10
    assert _names(another) != _names(first)
    made.clear()
    _planned(_with_person(_planning(), level=2), shelves)
    places = len(made)
    assert places
    made.clear()
    _planned(_with(_planning(), kit=a_kit({4000: 40})), shelves)
    assert len(made) > places


def test_people_are_known_by_what_they_can_not_by_their_ids(monkeypatch) -> None:
    made = []
    original = PersonOptions._made
    monkeypatch.setattr(
        PersonOptions, "_made", lambda *asked: made.append(asked) or original(*asked)
    )
    shelves = Shelves()
    _planned(_planning(), shelves)
    made.clear()
    swapped = {"p001": a_person("p002", level=2), "p002": a_person()}
    other = _with(_planning(), people=swapped)
    remembered = _planned(other, shelves)
    assert not made
    assert remembered == _planned(other)


def test_it_is_bounded_and_the_longest_unused_is_forgotten() -> None:
    shelves = Shelves(most=3)
    for level in (1, 2, 3, 4, 5):
        planning = _with_person(_planning(), level=level)
        assert _digest(_planned(planning, shelves)) == _digest(_planned(planning))
        assert len(shelves) <= 3
