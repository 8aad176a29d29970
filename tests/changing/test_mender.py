"""Answers to changes of the demo class: here without a solver, there by the warm process."""

import json
import subprocess
import sys
from collections.abc import Iterator

import pytest

from roundwright.library.vocabulary import Demand
from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.mender import WorkerMender
from roundwright.optimise.changing.old_plan import overrun_before
from roundwright.optimise.changing.search import answer_tier_one
from roundwright.optimise.planning_by_worker import planning_worker
from roundwright.plan.changing import change as c
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.restate import Restated, restate
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status, StoppedBy
from tests.planning_brute_force.plan_ids import OF_THE_WISH
from tests.support.plans import a_fitted_plan, the_demo_hall

ALONE = """
import json, sys
from roundwright.optimise.changing.mender import WorkerMender
from roundwright.optimise.worker import Worker
from roundwright.plan.changing.change import PersonLeft
from roundwright.plan.changing.restate import restate
from roundwright.plan.document import PlanDocument
plan = PlanDocument.model_validate_json(sys.stdin.read())
person = plan.problem.taking_part[0]
asked = restate(plan.problem, plan.core, PersonLeft(person=person), plan.problem.library)
answer = WorkerMender(Worker({})).at_once(plan, asked, plan.problem.library)
loaded = sorted({"highspy", "ortools", "scipy"} & set(sys.modules))
print(json.dumps([answer.harm.people, len(answer.core.people), loaded]))
"""


class EndsBy:
    """A worker whose every call ends so."""

    def __init__(self, ended: StoppedBy) -> None:
        self.ended = ended

    def try_call(self, name: str, payload: bytes, told: object = None) -> StoppedBy:
        assert name == "mend"
        assert json.loads(payload)["seed"] == 1
        return self.ended


@pytest.fixture(scope="module")
def mender() -> Iterator[WorkerMender]:
    worker = planning_worker()
    yield WorkerMender(worker)
    worker.close()


def asked_of(change: c.Change) -> Restated:
    plan = a_fitted_plan()
    return restate(plan.problem, plan.core, change, the_demo_hall().catalogue)


def told(mender: WorkerMender, change: c.Change, **more: object) -> Answer:
    return mender.mend(
        a_fitted_plan(),
        asked_of(change),
        the_demo_hall().catalogue,
        seed=1,
        budget=Budget.QUICK,
        **more,  # type: ignore[arg-type]
    )


def is_sound(answer: Answer) -> bool:
    verdict = judge(answer.core, answer.problem)
    stops = {f.rule for f in verdict.findings if f.grade != "advise"}
    return verdict.cost == answer.harm.price and stops <= OF_THE_WISH


def test_the_safe_answer_loads_no_solver() -> None:
    plan = a_fitted_plan()
    done = subprocess.run(
        [sys.executable, "-c", ALONE],
        input=plan.model_dump_json(by_alias=True),
        capture_output=True,
        text=True,
        check=True,
    )
    assert json.loads(done.stdout) == [0, len(plan.core.people) - 1, []]


def test_the_other_process_gives_what_this_one_would(mender: WorkerMender) -> None:
    plan = a_fitted_plan()
    change = c.PersonLimited(person=plan.problem.taking_part[1], caps={Demand.KNEE: 0})
    overrun_s = overrun_before(plan.core, plan.problem.spec.slot_s)
    here = answer_tier_one(Asked(plan.core, overrun_s, asked_of(change), 1, Budget.QUICK), Makers())
    there = told(mender, change)
    assert there.outcome.status is Status.PROVEN
    assert there.harm == here.harm
    assert is_sound(there)
    assert told(mender, change).core.digest == there.core.digest
    assert (there.core.revision, there.core.parent_revision) == (2, 1)


def test_answers_come_one_after_the_other_and_never_worse(mender: WorkerMender) -> None:
    seen: list[Answer] = []

    def better(answer: Answer) -> bool:
        seen.append(answer)
        return True

    last = told(mender, c.ExerciseSwapped(position=2), on_better=better)
    assert seen[0].tier == 0
    assert seen[-1].core == last.core
    assert last.tier == 2
    before, after = a_fitted_plan().problem.spec.exercises, last.problem.spec.exercises
    assert before[1].exercise_id != after[1].exercise_id
    assert [e for e in before if e.position != 2] == [e for e in after if e.position != 2]
    assert is_sound(last)


def test_who_asks_may_stop_after_the_safe_answer() -> None:
    mender = WorkerMender(EndsBy(StoppedBy.GUARD))  # type: ignore[arg-type]
    person = a_fitted_plan().problem.taking_part[0]
    answer = told(mender, c.PersonLeft(person=person), on_better=lambda _: False)
    assert (answer.tier, answer.outcome.stopped_by) == (0, StoppedBy.CALLER)
    assert is_sound(answer)


def test_a_guard_leaves_the_safe_answer_standing() -> None:
    mender = WorkerMender(EndsBy(StoppedBy.GUARD))  # type: ignore[arg-type]
    answer = told(mender, c.PersonLeft(person=a_fitted_plan().problem.taking_part[0]))
    assert (answer.tier, answer.outcome.stopped_by) == (0, StoppedBy.GUARD)
    assert answer.outcome.status is Status.FOUND
    assert not answer.outcome.repeatable


def test_a_lock_that_is_forbidden_today_rests_and_the_gate_says_so(mender: WorkerMender) -> None:
    plan = a_fitted_plan()
    cell = next(x for x in plan.core.cells if x.unit_mass_g and x.exercise_id)
    locked = told(
        mender,
        c.CellSet(person=cell.person_id, position=cell.position, mass_g=1_000_000),
    )
    mine = [
        x for x in locked.core.cells if (x.person_id, x.position) == (cell.person_id, cell.position)
    ]
    assert [x.state for x in mine] == ["sit_out"]
    assert locked.harm.left_out == 1
    assert is_sound(locked)
    found = judge(locked.core, locked.problem).findings
    assert any(f.rule == "sit_out" and f.figures.get("what") == "not_held" for f in found)
