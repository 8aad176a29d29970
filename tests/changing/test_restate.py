"""A change turns the problem into today's problem, and says what it names."""

import pytest

from roundwright.foundation.errors import BadInputError
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import Demand
from roundwright.plan.changing import change as c
from roundwright.plan.changing.restate import Restated, restate
from roundwright.plan.document import PlanDocument
from tests.support.builders import a_person
from tests.support.plans import a_fitted_plan, the_demo_hall


@pytest.fixture(scope="module")
def plan() -> PlanDocument:
    return a_fitted_plan()


@pytest.fixture(scope="module")
def library() -> Catalogue:
    return the_demo_hall().catalogue


def _asked(plan: PlanDocument, library: Catalogue, change: c.Change) -> Restated:
    return restate(plan.problem, plan.core, change, library)


def _somebody(plan: PlanDocument) -> str:
    return plan.core.people[0].person_id


def test_who_left_is_gone_with_their_locks(plan: PlanDocument, library: Catalogue) -> None:
    person = _somebody(plan)
    locked = _asked(plan, library, c.SatOut(person=person, position=1)).problem
    asked = restate(locked, plan.core, c.PersonLeft(person=person), library)
    assert person not in asked.problem.people
    assert all(k.person != person for k in asked.problem.spec.keep)
    assert asked.persons == {person}


def test_who_came_is_known_as_said(plan: PlanDocument, library: Catalogue) -> None:
    newcomer = a_person("p900")
    asked = _asked(plan, library, c.PersonCame(person="p900", known=newcomer))
    assert asked.problem.people["p900"] == newcomer
    with pytest.raises(BadInputError, match="person"):
        restate(asked.problem, plan.core, c.PersonCame(person="p900", known=newcomer), library)


def test_a_limit_is_only_ever_added(plan: PlanDocument, library: Catalogue) -> None:
    person = _somebody(plan)
    first = _asked(plan, library, c.PersonLimited(person=person, caps={Demand.KNEE: 1}))
    second = restate(
        first.problem,
        plan.core,
        c.PersonLimited(person=person, caps={Demand.KNEE: 3, Demand.IMPACT: 0}, effort_cap=4),
        library,
    )
    known = second.problem.people[person]
    assert known.caps[Demand.KNEE] == 1
    assert known.caps[Demand.IMPACT] == 0
    assert known.effort_cap is not None
    assert known.effort_cap <= 4


def test_swapping_frees_the_place_and_its_locks(plan: PlanDocument, library: Catalogue) -> None:
    person = _somebody(plan)
    locked = _asked(plan, library, c.SatOut(person=person, position=2)).problem
    taken = {e.exercise_id for e in plan.core.exercises}
    other = next(line for line in sorted(library.lines) if line not in taken)
    asked = restate(locked, plan.core, c.ExerciseSwapped(position=2, exercise_id=other), library)
    assert asked.problem.spec.exercises[1].exercise_id == other
    assert asked.problem.library.has_exercise(other)
    assert not asked.problem.spec.keep
    assert 2 not in asked.came_from
    assert asked.positions == {2}


def test_an_open_place_is_the_tools_to_fill(plan: PlanDocument, library: Catalogue) -> None:
    asked = _asked(plan, library, c.ExerciseSwapped(position=1))
    assert asked.open_positions == (1,)


def test_reordering_moves_exercises_and_locks(plan: PlanDocument, library: Catalogue) -> None:
    person = _somebody(plan)
    locked = _asked(plan, library, c.SatOut(person=person, position=1)).problem
    places = plan.problem.spec.positions
    order = (*range(2, places + 1), 1)
    asked = restate(locked, plan.core, c.ExercisesReordered(order=order), library)
    before = [e.exercise_id for e in plan.problem.spec.exercises]
    after = [e.exercise_id for e in asked.problem.spec.exercises]
    assert after == [*before[1:], before[0]]
    assert [e.position for e in asked.problem.spec.exercises] == list(range(1, places + 1))
    assert [k.position for k in asked.problem.spec.keep] == [places]
    assert asked.came_from[places] == 1


def test_a_banned_line_opens_its_place(plan: PlanDocument, library: Catalogue) -> None:
    first = plan.problem.spec.exercises[0]
    line = library.lines_of_exercise(first.exercise_id)[0]
    asked = _asked(plan, library, c.Banned(slug=line))
    assert asked.open_positions
    assert set(library.lines[line].versions) <= set(asked.problem.spec.ban)


def test_a_banned_version_leaves_the_class_as_it_is(plan: PlanDocument, library: Catalogue) -> None:
    first = plan.problem.spec.exercises[0]
    line = library.lines[library.lines_of_exercise(first.exercise_id)[0]]
    if len(line.versions) == 1:
        pytest.fail("the demo's first line has one version: choose another for this test")
    asked = _asked(plan, library, c.Banned(slug=line.versions[0]))
    assert asked.open_positions == ()
    assert line.versions[0] in asked.problem.spec.ban


def test_locks_replace_each_other(plan: PlanDocument, library: Catalogue) -> None:
    person = _somebody(plan)
    one = _asked(plan, library, c.CellSet(person=person, position=1, mass_g=4000)).problem
    two = restate(one, plan.core, c.SatOut(person=person, position=1), library).problem
    assert [k.rests for k in two.spec.keep if k.person == person] == [True]
    three = restate(two, plan.core, c.CellFreed(person=person, position=1), library).problem
    assert all(k.person != person for k in three.spec.keep)


def test_the_class_gets_shorter(plan: PlanDocument, library: Catalogue) -> None:
    spec = plan.problem.spec
    dropped = _asked(plan, library, c.RoundDropped())
    assert dropped.problem.spec.rounds == plan.core.class_.rounds - 1
    assert dropped.rounds_dropped == 1
    cut = _asked(plan, library, c.RepsCut(share_bp=5000)).problem.spec
    assert [e.count.value for e in cut.exercises] == [
        max(1, e.count.value // 2)
        if "alternating" not in e.count.unit
        else max(2, e.count.value // 2 - e.count.value // 2 % 2)
        for e in spec.exercises
    ]
    assert _asked(plan, library, c.BurstCut()).problem.spec.burst is None
    assert _asked(plan, library, c.SlotChanged(slot_s=1800)).problem.spec.slot_s == 1800


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (c.PersonLeft(person="p999"), "person"),
        (c.ExerciseSwapped(position=19), "position"),
        (c.ExerciseSwapped(position=1, exercise_id="no_such_line"), "exercise"),
        (c.ExercisesReordered(order=(1, 1, 2)), "order"),
        (c.Banned(slug="no_such_line"), "ban"),
        (c.RestsCut(rest_s=1, change_s=8), "rest_s"),
        (c.RestsCut(rest_s=60, change_s=1), "change_s"),
        (c.BurstCut(length_s=600), "burst"),
        (c.KitLost(unit_mass_g=1, units=1), "mass"),
        (c.KitLost(item_id="no_such_item", units=1), "item"),
        (c.KitLost(item_id="mat", units=400), "units"),
    ],
)
def test_what_cannot_be_is_said(
    plan: PlanDocument, library: Catalogue, change: c.Change, said: str
) -> None:
    with pytest.raises(BadInputError) as caught:
        _asked(plan, library, change)
    assert caught.value.faults[0].field == said


def test_a_lock_needs_something_to_hold(plan: PlanDocument, library: Catalogue) -> None:
    with pytest.raises(BadInputError, match="version"):
        _asked(plan, library, c.CellSet(person=_somebody(plan), position=1))


def test_a_single_round_stays(plan: PlanDocument, library: Catalogue) -> None:
    once = plan.core.model_copy(
        update={"class_": plan.core.class_.model_copy(update={"rounds": 1})}
    )
    with pytest.raises(BadInputError, match="rounds"):
        restate(plan.problem, once, c.RoundDropped(), library)
