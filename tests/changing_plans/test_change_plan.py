"""The service around a mender: the gate has the last word, stale edits are told, answers stream."""

from dataclasses import dataclass, field, replace

import pytest

from roundwright.foundation.errors import ChangedMeanwhileError, UnsafePlanError
from roundwright.optimise.fit import fit
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.change import Harm, KitBack, PersonLimited, SlotChanged
from roundwright.plan.verdict import Grade
from roundwright.rehearsal.finishing_time import chance_on_time
from roundwright.services.changing.change_plan import Changing, change_plan
from tests.changing_plans.some_plans import begun
from tests.support.plans import a_fitted_plan, the_demo_hall

NO_HARM = Harm(overrun_s=0, left_out=0, people=0, cells=0, price=0)
SHORTER = SlotChanged(slot_s=2640)


@dataclass
class FitsAnew:
    """Fits the restated class anew, after telling of the plan as it was."""

    goes_on: list[bool] = field(default_factory=list)
    gives_old: bool = False

    def at_once(self, before, asked, library):
        return Answer(asked.problem, before.core, NO_HARM, 0, before.outcome)

    def mend(self, before, asked, library, *, seed, budget, on_better=None):
        safe = self.at_once(before, asked, library)
        if on_better is not None:
            self.goes_on.append(on_better(safe))
        if self.gives_old or self.goes_on == [False]:
            return safe
        found = fit(asked.problem, seed=seed, budget=budget, plan_id="another")
        return Answer(asked.problem, found.core, NO_HARM, 1, found.outcome)


def _using(mender):
    return Changing(the_demo_hall().catalogue, mender)


def _forbidding():
    """Forbid what somebody does now, so that the plan as it was is one the gate refuses."""
    plan = a_fitted_plan()
    movements = plan.problem.library.movements
    cell = next(x for x in plan.core.cells if x.steps)
    demand = next(iter(movements[cell.steps[0].movement_id].demands))
    return PersonLimited(person=cell.person_id, caps={demand: 0})


def _changed(mender, change=SHORTER, base=1, revisions=None, on_better=None):
    plan = a_fitted_plan()
    revisions = revisions or begun(plan)
    using = _using(mender)
    return change_plan(plan, revisions, change, base, using=using, on_better=on_better)


def test_the_answer_keeps_its_plan_id_and_is_one_revision_on():
    core = _changed(FitsAnew()).document.core
    assert core.plan_id == a_fitted_plan().core.plan_id
    assert (core.revision, core.parent_revision, core.made_by) == (2, 1, "coach")


def test_what_the_gate_says_never_of_is_never_given():
    with pytest.raises(UnsafePlanError):
        _changed(FitsAnew(gives_old=True), _forbidding())


def test_better_answers_are_told_judged_and_can_stop_the_search():
    told = []
    more = KitBack(unit_mass_g=2000)
    found = _changed(FitsAnew(), more, on_better=lambda changed: told.append(changed) or False)
    assert [one.document.core.digest for one in told] == [found.document.core.digest]
    assert not told[0].document.verdict.of_grade(Grade.NEVER)


def test_an_answer_that_the_gate_refuses_is_not_told_on_the_way():
    told = []
    mender = FitsAnew()
    found = _changed(mender, _forbidding(), on_better=lambda changed: told.append(changed) or True)
    assert told == []
    assert mender.goes_on == [True]
    assert not found.document.verdict.is_refused


def test_a_stale_edit_is_told_and_nobody_is_asked():
    mender = FitsAnew()
    plan = a_fitted_plan()
    moved = begun(plan).with_change(1, "0" * 64, SHORTER, "The slot is 44:00.")
    with pytest.raises(ChangedMeanwhileError, match="44:00"):
        _changed(mender, revisions=moved, on_better=lambda _: True)
    assert mender.goes_on == []


def test_another_plan_than_the_one_that_was_kept_is_refused():
    plan = a_fitted_plan()
    other = begun(plan).model_copy(
        update={"revisions": (begun(plan).revisions[0].model_copy(update={"digest": "0" * 64}),)}
    )
    with pytest.raises(ChangedMeanwhileError, match="not the one"):
        _changed(FitsAnew(), revisions=other)


def test_with_a_rehearsal_the_chance_is_told_before_and_after():
    plan = a_fitted_plan()

    def few(core, problem, seed):
        return chance_on_time(core, problem, seed, 100)

    using = replace(_using(FitsAnew()), rehearse=few)
    long = change_plan(plan, begun(plan), SlotChanged(slot_s=5400), 1, using=using)
    short = change_plan(plan, begun(plan), SlotChanged(slot_s=2100), 1, using=using)
    assert long.after.chance_on_time_bp == 10_000
    assert short.after.chance_on_time_bp < 10_000
    assert long.before.chance_on_time_bp is None


def test_numbers_of_revisions_are_never_used_again():
    plan = a_fitted_plan()
    undone = begun(plan).with_change(1, "0" * 64, SHORTER, "One.").undone()
    core = _changed(FitsAnew(), revisions=undone).document.core
    assert (core.revision, core.parent_revision) == (3, 1)
