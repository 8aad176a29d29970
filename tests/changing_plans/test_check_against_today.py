"""A changed plan judged by the hall of today, with its changes done again: contracts 9."""

from dataclasses import replace

import pytest

from roundwright.optimise.changing.mender import WorkerMender
from roundwright.optimise.worker import Worker
from roundwright.people.person import Clearance
from roundwright.plan.changing import change as c
from roundwright.plan.changing.revisions import Step
from roundwright.plan.core import CellState
from roundwright.plan.gate.judge import judge
from roundwright.plan.verdict import Grade
from roundwright.services.changing.replay import replayed
from roundwright.services.check_plan import UNKNOWN_CHANGES, check_plan
from roundwright.store.revision_files import (
    keep_change,
    open_plan,
    read_steps,
)
from roundwright.store.revision_pointer import pointer_path
from tests.changing_plans.some_plans import begun, changed, demo_using, every_kind
from tests.support.plans import a_fitted_plan, the_demo_hall

NEVER = Grade.NEVER


def kinds():
    return every_kind(a_fitted_plan(), the_demo_hall().catalogue)


class AtOnce(WorkerMender):
    """Gives the safe answer: what is judged here does not hang on how good it is."""

    def mend(self, before, asked, library, **more):
        return self.at_once(before, asked, library)


SAFE = replace(demo_using(), mender=AtOnce(Worker({})))


def steps_of(*changes, using=SAFE):
    """Change the demo plan step by step."""
    document, revisions, steps = a_fitted_plan(), None, []
    for change in changes:
        found = changed(change, document, using, revisions or begun(document))
        steps.append(Step(document, change, found.document))
        document, revisions = found.document, found.revisions
    return tuple(steps)


def never_of(verdict):
    return {f.rule for f in verdict.of_grade(NEVER)}


def hall_with(**fields):
    return the_demo_hall().model_copy(update=fields)


def with_clearance(person_id, clearance):
    people = tuple(
        p.model_copy(update={"clearance": clearance}) if p.person_id == person_id else p
        for p in the_demo_hall().people
    )
    return hall_with(people=people)


@pytest.mark.parametrize("number", range(len(kinds())))
def test_every_kind_of_change_is_judged_as_when_it_was_made(number):
    (step,) = steps_of(kinds()[number])
    today = check_plan(step.after, the_demo_hall(), (step,))
    assert today.not_replayed == ()
    assert today.verdict.findings == judge(step.after.core, step.after.problem).findings
    assert today.verdict.cost == step.after.verdict.cost


def test_without_its_changes_a_plan_may_be_refused_so_the_replay_matters():
    joined = next(change for change in kinds() if isinstance(change, c.PersonCame))
    (step,) = steps_of(joined)
    bare = check_plan(step.after, the_demo_hall())
    assert bare.verdict.is_refused
    assert bare.not_replayed == (UNKNOWN_CHANGES,)
    assert not check_plan(step.after, the_demo_hall(), (step,)).verdict.is_refused


def test_changes_on_changes_are_done_again_in_their_order():
    plan = a_fitted_plan()
    steps = steps_of(
        c.PersonLeft(person=plan.problem.taking_part[0]),
        c.ExerciseSwapped(position=2),
        c.ExercisesReordered(order=(2, 1, *range(3, plan.problem.spec.positions + 1))),
        c.RepsCut(share_bp=7500),
        using=demo_using(),
    )
    last = steps[-1].after
    today = check_plan(last, the_demo_hall(), steps)
    assert today.not_replayed == ()
    assert today.verdict.findings == judge(last.core, last.problem).findings


def test_a_limit_of_today_refuses_what_the_change_allowed():
    plan = a_fitted_plan()
    person = plan.problem.taking_part[1]
    (step,) = steps_of(c.PersonLeft(person=plan.problem.taking_part[0]))
    hall = with_clearance(person, Clearance.NOT_CLEARED)
    today = check_plan(step.after, hall, (step,))
    assert today.verdict.is_refused
    assert any(person in f.persons for f in today.verdict.of_grade(NEVER))


def test_who_came_and_is_not_cleared_today_is_not_let_in_again():
    hall, booked = the_demo_hall(), a_fitted_plan().problem.taking_part
    change = None
    for person in hall.people:
        if person.person_id not in booked and person.clearance is Clearance.CLEARED:
            from roundwright.services.changing.people_today import somebody_joins

            change = somebody_joins(hall, person.person_id, a_fitted_plan().problem)
            break
    (step,) = steps_of(change)
    assert not check_plan(step.after, hall, (step,)).verdict.is_refused
    today = check_plan(step.after, with_clearance(change.person, Clearance.NOT_CLEARED), (step,))
    assert today.verdict.is_refused
    assert len(today.not_replayed) == 1
    assert f"{{{change.person}}}" in today.not_replayed[0]


def test_kit_that_the_files_count_anew_is_not_counted_off_twice():
    plan = a_fitted_plan()
    bench = next(i for i in plan.problem.kit.items if i.id == "flat_bench")
    (step,) = steps_of(c.KitLost(item_id=bench.id, units=1))
    hall = the_demo_hall()

    def kit_with(count):
        items = tuple(
            i.model_copy(update={"count": count}) if i.id == bench.id else i for i in hall.kit.items
        )
        return hall_with(kit=hall.kit.model_copy(update={"items": items}))

    def benches(found):
        return next(i.count for i in found.problem.kit.items if i.id == bench.id)

    same = replayed(plan.problem, (step,), hall)
    assert (benches(same), same.not_replayed) == (bench.count - 1, ())
    written = check_plan(step.after, kit_with(bench.count - 1), (step,))
    assert benches(written) == bench.count - 1
    assert "flat_bench" in written.not_replayed[0]


def test_what_was_changed_for_somebody_who_is_not_booked_any_more_is_said():
    plan = a_fitted_plan()
    person = plan.problem.taking_part[1]
    (step,) = steps_of(c.SatOut(person=person, position=1))
    hall = the_demo_hall()
    wish = hall.classes[plan.core.class_.class_id]
    everyone = [p.person_id for p in hall.people] if wish.people == "all" else wish.people
    fewer = wish.model_copy(update={"people": tuple(p for p in everyone if p != person)})
    today = check_plan(
        step.after, hall_with(classes={**hall.classes, plan.core.class_.class_id: fewer}), (step,)
    )
    assert today.verdict.is_refused, "somebody who is not booked is in the plan"
    assert f"{{{person}}}" in today.not_replayed[0]
    rests = [x for x in step.after.core.cells if x.state is CellState.SIT_OUT]
    assert any(x.person_id == person for x in rests)


def test_steps_are_read_from_the_folder(tmp_path):
    from roundwright.store.plan_files import write_plan

    plan = a_fitted_plan()
    opened = open_plan(write_plan(plan, tmp_path))
    found = changed(c.RoundDropped(), plan, SAFE)
    keep_change(found.document, found.revisions, opened.revisions, tmp_path)
    again = open_plan(pointer_path(tmp_path, plan.core.plan_id))
    (step,) = read_steps(again)
    assert (step.before, step.change, step.after) == (plan, c.RoundDropped(), found.document)
    assert read_steps(opened) == ()
