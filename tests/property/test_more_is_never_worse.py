"""What a change of hall or people must do to the best plan, where the definition says it must.

Only changes that truly widen the choice are here. One more dumbbell of a mass of which there is
only one may raise a price (the target load of those who lift a pair rises), and a limit removed
may do so for a combination, whose parts are then harder; neither is claimed.
"""

from hypothesis import given

from roundwright.body.anatomy import MIRRORED, Side
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.fit import fit
from roundwright.plan.core import CellState, Core
from roundwright.plan.outcome import Outcome, Status
from roundwright.plan.problem import Problem
from tests.property.test_fitted_plans import PLAN_ID, a_few
from tests.support.random_halls import a_middling_hall
from tests.support.strategies import SEEDS, DrawnHall, middling_halls, tiny_halls


def outcome_of(problem: Problem) -> Outcome:
    return fit(problem, seed=1, plan_id=PLAN_ID).outcome


def is_no_worse(new: Outcome, old: Outcome) -> bool:
    """Whether the new least (overrun, price) is at most the old; impossible is worst."""
    if old.status is Status.IMPOSSIBLE:
        return True
    assert old.cost is not None
    if new.cost is None:
        return False
    return (new.overrun_s, new.cost) <= (old.overrun_s, old.cost)


def with_more_kit(problem: Problem) -> Problem:
    kit = problem.kit
    more = {
        "dumbbells": tuple(
            d.model_copy(update={"count": d.count + 2}) if d.count >= 2 else d
            for d in kit.dumbbells
        ),
        "items": tuple(i.model_copy(update={"count": i.count + 1}) for i in kit.items),
    }
    return problem.model_copy(update={"kit": kit.model_copy(update=more)})


@a_few(30)
@given(drawn=tiny_halls())
def test_more_of_the_same_kit_is_never_worse(drawn: DrawnHall) -> None:
    problem = drawn.problem
    assert is_no_worse(outcome_of(with_more_kit(problem)), outcome_of(problem))


@a_few(15)
@given(drawn=middling_halls(most_people=14, form=ClassFormat.TOGETHER))
def test_more_kit_is_never_worse_for_a_class_together(drawn: DrawnHall) -> None:
    problem = drawn.problem
    new, old = outcome_of(with_more_kit(problem)), outcome_of(problem)
    if old.status is Status.PROVEN and new.status is Status.PROVEN:
        assert is_no_worse(new, old)


@a_few(15)
@given(drawn=middling_halls(most_people=14, form=ClassFormat.TOGETHER))
def test_a_longer_slot_never_raises_the_overrun_and_lowers_it_by_no_more(drawn: DrawnHall) -> None:
    problem = drawn.problem
    old = outcome_of(problem)
    spec = problem.spec.model_copy(update={"slot_s": problem.spec.slot_s + 60})
    new = outcome_of(problem.model_copy(update={"spec": spec}))
    assert (new.cost is None) == (old.cost is None)
    assert max(0, old.overrun_s - 60) == new.overrun_s


@a_few(15)
@given(drawn=tiny_halls())
def test_pairs_or_together_is_as_good_as_either(drawn: DrawnHall) -> None:
    problem = drawn.problem
    each = {
        form: outcome_of(
            problem.model_copy(update={"spec": problem.spec.model_copy(update={"format": form})})
        )
        for form in (ClassFormat.ANY, ClassFormat.TOGETHER, ClassFormat.PAIRS)
    }
    either = each[ClassFormat.ANY]
    assert is_no_worse(either, each[ClassFormat.TOGETHER])
    assert is_no_worse(either, each[ClassFormat.PAIRS])


def _lines_alone_with_ample_kit(problem: Problem) -> Problem:
    """Leave lines only, and enough kit for everyone, so that nobody's choice binds another's."""
    lines = tuple(e for e in problem.spec.exercises if e.exercise_id in problem.library.lines)
    exercises = tuple(e.model_copy(update={"position": k}) for k, e in enumerate(lines, start=1))
    ample = {
        "dumbbells": tuple(d.model_copy(update={"count": 100}) for d in problem.kit.dumbbells),
        "items": tuple(i.model_copy(update={"count": 100}) for i in problem.kit.items),
    }
    changes = {"exercises": exercises, "keep": (), "burst": None, "slot_s": 14_400}
    return problem.model_copy(
        update={
            "spec": problem.spec.model_copy(update=changes),
            "kit": problem.kit.model_copy(update=ample),
        }
    )


def _stands_in(core: Core, person_id: str) -> bool:
    return any(c.person_id == person_id and c.state is not CellState.DO for c in core.cells)


@a_few(30)
@given(seed=SEEDS)
def test_a_limit_removed_is_never_worse_where_nothing_couples(seed: int) -> None:
    problem = _lines_alone_with_ample_kit(
        a_middling_hall(seed, most_people=8, form=ClassFormat.TOGETHER)
    )
    limited = [p for p in problem.taking_part if problem.people[p].caps]
    if not problem.spec.exercises or not limited:
        return
    old = fit(problem, seed=1, plan_id=PLAN_ID)
    if old.core is None or _stands_in(old.core, limited[0]):
        return
    free = problem.people[limited[0]].model_copy(update={"caps": {}})
    people = problem.people | {limited[0]: free}
    assert is_no_worse(outcome_of(problem.model_copy(update={"people": people})), old.outcome)


@a_few(25)
@given(drawn=middling_halls(most_people=12, form=ClassFormat.TOGETHER))
def test_other_first_sides_mirror_the_steps_at_the_same_cost(drawn: DrawnHall) -> None:
    problem = drawn.problem
    turned = {
        p: person.model_copy(
            update={
                "first_side": MIRRORED[person.first_side],
                "unused": {limb: MIRRORED[side] for limb, side in person.unused.items()},
            }
        )
        for p, person in problem.people.items()
    }
    old = fit(problem, seed=1, plan_id=PLAN_ID)
    new = fit(problem.model_copy(update={"people": turned}), seed=1, plan_id=PLAN_ID)
    assert (old.outcome.overrun_s, old.outcome.cost) == (new.outcome.overrun_s, new.outcome.cost)
    if old.core is None or new.core is None:
        return

    def sides(core: Core) -> list[tuple[str, int, int, tuple[Side, ...]]]:
        return [
            (c.person_id, c.position, c.round, tuple(s.side for s in c.steps)) for c in core.cells
        ]

    mirrored = [(p, k, r, tuple(MIRRORED[s] for s in steps)) for p, k, r, steps in sides(new.core)]
    assert sides(old.core) == mirrored
