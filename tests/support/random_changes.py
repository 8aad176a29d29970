"""Drawn changes of a plan: every kind that makes sense for it, what it names drawn from a seed."""

from uuid import UUID

from roundwright.library.vocabulary import Demand
from roundwright.optimise.fit import fit
from roundwright.plan.changing import change as c
from roundwright.plan.document import Facts, PlanDocument
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget
from roundwright.plan.problem import Problem, ProblemPerson
from tests.support.random_halls import Dice

LIMITS: tuple[dict[Demand, int], ...] = (
    {Demand.KNEE: 0},
    {Demand.IMPACT: 0, Demand.KNEE: 1},
    {Demand.GRIP: 1, Demand.WRIST: 0},
    {Demand.OVERHEAD: 0},
    {Demand.LOW_BACK: 0},
)


def a_plan_of(
    problem: Problem, seed: int = 1, budget: Budget = Budget.QUICK
) -> PlanDocument | None:
    """Fit a class and have it judged; None where it is impossible."""
    found = fit(problem, seed=1, budget=budget, plan_id=str(UUID(int=seed, version=4)))
    if found.core is None:
        return None
    spec = problem.spec.model_copy(update={"format": found.core.class_.format})
    settled = problem.model_copy(update={"spec": spec})
    return PlanDocument(
        core=found.core,
        problem=settled,
        outcome=found.outcome,
        verdict=judge(found.core, settled),
        facts=Facts(),
    )


def drawn_changes(plan: PlanDocument, seed: int, stranger: ProblemPerson) -> list[c.Change]:
    """Give one change of every kind that the plan allows.

    Parameters
    ----------
    stranger : ProblemPerson
        Who comes.
    """
    problem, dice = plan.problem, Dice(seed, "changes")
    spec, people = problem.spec, problem.taking_part
    person, position = dice.one_of(people), dice.between(1, spec.positions)
    lines = [e for e in problem.library.lines if spec.burst is None or e != spec.burst.line]
    order = tuple(dice.some_of(range(1, spec.positions + 1), spec.positions))
    changes: list[c.Change] = [
        c.PersonCame(person="p999", known=stranger),
        c.PersonLimited(
            person=person,
            caps=dice.one_of(LIMITS),
            effort_cap=dice.one_of((None, 5)),
        ),
        c.SlotChanged(slot_s=max(60, spec.slot_s - dice.one_of((60, 300, 900)))),
        c.SatOut(person=person, position=position),
        c.CellFreed(person=person, position=position),
        c.ExercisesReordered(order=order),
        c.ExerciseSwapped(position=position, exercise_id=dice.one_of(lines)),
        c.SubstituteSet(
            person=person,
            position=position,
            exercise_id=dice.one_of((*lines, *problem.library.combinations)),
        ),
        c.Banned(slug=dice.one_of(lines)),
        c.Banned(slug=dice.one_of(tuple(problem.library.movements))),
        c.RepsCut(share_bp=dice.one_of((7500, 5000))),
        c.RestsCut(rest_s=min(spec.rest_s, 30), change_s=min(spec.change_s, 15)),
    ]
    if len(people) > 1:
        changes.append(c.PersonLeft(person=person))
    changes += _of_kit(dice, plan)
    cell = next(x for x in plan.core.cells if (x.person_id, x.position) == (person, position))
    if cell.exercise_id is not None:
        line = problem.library.lines_of_exercise(cell.exercise_id)[0]
        version = dice.one_of(problem.library.lines[line].versions)
        changes.append(c.CellSet(person=person, position=position, version=version))
    if spec.rounds > 1:
        changes.append(c.RoundDropped())
    if spec.burst is not None:
        changes.append(c.BurstCut())
        changes.append(c.BurstCut(length_s=max(1, spec.burst.length_s // 2)))
    return changes


def _of_kit(dice: Dice, plan: PlanDocument) -> list[c.Change]:
    """Lose and give back dumbbells and items; the ones in use are drawn more often."""
    kit = plan.problem.kit
    held = [x.unit_mass_g for x in plan.core.cells if x.unit_mass_g]
    used = [k.item_id for x in plan.core.cells for k in x.kit]
    rack = [d for d in kit.dumbbells if d.in_use and d.count]
    items = [i for i in kit.items if i.in_use and i.count]
    changes: list[c.Change] = []
    if rack:
        mass = dice.one_of(held or [d.unit_mass_g for d in rack])
        there = sum(d.count for d in rack if d.unit_mass_g == mass)
        changes.append(c.KitLost(unit_mass_g=mass, units=dice.between(1, there)))
        changes.append(c.KitBack(unit_mass_g=mass, units=2))
    if items:
        item = dice.one_of(used or [i.id for i in items])
        there = next(i.count for i in kit.items if i.id == item)
        changes.append(c.KitLost(item_id=item, units=dice.between(1, there)))
        changes.append(c.KitBack(item_id=item))
    return changes
