"""Real plans to change: of the demo class, and of drawn halls; and every kind of change of one."""

import atexit
from functools import cache

from roundwright.foundation.seeds import DEFAULT_SEED, generator
from roundwright.library.vocabulary import Demand
from roundwright.optimise.changing.mender import WorkerMender
from roundwright.optimise.fit import fit
from roundwright.optimise.planning_by_worker import planning_worker
from roundwright.plan.changing import change as c
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.core import CellState
from roundwright.plan.outcome import Budget
from roundwright.services.changing.change_plan import Changing, change_plan
from roundwright.services.judged_plan import judged_plan
from tests.support.builders import a_person
from tests.support.plans import a_fitted_plan, the_demo_hall
from tests.support.random_halls import a_middling_hall

PLAN_ID = "00000000-0000-4000-8000-0000000000{:02d}"


@cache
def demo_using():
    worker = planning_worker()
    atexit.register(worker.close)
    return Changing(
        the_demo_hall().catalogue, WorkerMender(worker), None, DEFAULT_SEED, Budget.QUICK
    )


@cache
def a_drawn_plan(seed):
    """Give the plan of a drawn hall; None where it has none."""
    problem = a_middling_hall(seed, most_people=7)
    plan_id = PLAN_ID.format(seed)
    found = fit(problem, seed=1, budget=Budget.QUICK, plan_id=plan_id)
    return None if found.core is None else judged_plan(found.core, problem, found.outcome, 1, None)


def drawn_using(document):
    using = demo_using()
    return Changing(document.problem.library, using.mender, None, 1, Budget.QUICK)


def begun(document):
    return Revisions.begun(document.core.plan_id, document.core.digest, document.core.revision)


def changed(change, document=None, using=None, revisions=None):
    """Change a plan once; the demo plan when none is given."""
    document = document or a_fitted_plan()
    revisions = revisions or begun(document)
    using = using or demo_using()
    return change_plan(document, revisions, change, document.core.revision, using=using)


def somebody_who_lifts(document):
    """Give a cell with dumbbells, of somebody who does every round."""
    return next(
        cell
        for cell in document.core.cells
        if cell.state is CellState.DO and cell.units and cell.round == 0
    )


def every_kind(document, library, seed=1):
    """Give one change of every kind that can be asked of a plan, drawn from a seed."""
    dice = generator(seed, "every kind of change", 0)

    def one_of(values):
        values = list(values)
        return values[int(dice.integers(len(values)))]

    core, spec, kit = document.core, document.problem.spec, document.problem.kit
    people = [p.person_id for p in core.people]
    places = spec.positions
    taken = {e.exercise_id for e in core.exercises}
    free = sorted(set(document.problem.substitutes or library.lines) - taken)
    lifted = [d for d in kit.dumbbells if d.in_use and d.count]
    order = list(range(1, places + 1))
    kinds = [
        c.PersonCame(person="walk_in_1", known=a_person("walk_in_1")),
        c.PersonLimited(person=one_of(people), caps={Demand.KNEE: 1, Demand.IMPACT: 0}),
        c.SlotChanged(slot_s=spec.slot_s - 60),
        c.ExerciseSwapped(position=one_of(order)),
        c.ExercisesReordered(order=tuple(order[1:] + order[:1])),
        c.Banned(slug=one_of(taken & set(library.lines) or library.lines)),
        c.SatOut(person=one_of(people), position=one_of(order)),
        c.CellFreed(person=one_of(people), position=one_of(order)),
        c.RepsCut(share_bp=7500),
        c.RestsCut(rest_s=spec.rest_s, change_s=spec.change_s),
    ]
    if len(people) > 1:
        kinds.append(c.PersonLeft(person=one_of(people)))
    if free:
        kinds.append(c.ExerciseSwapped(position=one_of(order), exercise_id=one_of(free)))
        where = {"person": one_of(people), "position": one_of(order)}
        kinds.append(c.SubstituteSet(**where, exercise_id=one_of(free)))
    if lifted:
        kinds.append(c.KitLost(unit_mass_g=one_of(lifted).unit_mass_g))
        kinds.append(c.KitBack(unit_mass_g=one_of(lifted).unit_mass_g, units=2))
    cells = [x for x in core.cells if x.state is CellState.DO and x.steps and x.round == 0]
    if cells:
        cell = one_of(cells)
        version = cell.steps[0].movement_id
        fixed = {"person": cell.person_id, "position": cell.position, "version": version}
        kinds.append(c.CellSet(**fixed))
    if core.class_.rounds > 1:
        kinds.append(c.RoundDropped())
        kinds.append(c.SeveralCuts(cuts=(c.RoundDropped(), c.RepsCut(share_bp=5000))))
    if spec.burst is not None:
        kinds.append(c.BurstCut())
    return kinds
