"""The changes of a plan on today's problem, so that a changed plan is judged against today.

What the hall's files say now comes first: who is booked, what somebody must avoid, what kit there
is. A recorded change is done again on top of it, as far as that can still be done.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from roundwright.foundation.errors import BadInputError
from roundwright.goals.class_wish import ClassFormat
from roundwright.hall.hall import Hall
from roundwright.kit.inventory import Inventory
from roundwright.plan.changing import change as c
from roundwright.plan.changing.restate import restate
from roundwright.plan.changing.revisions import Step
from roundwright.plan.core import Core
from roundwright.plan.outcome import NotToday
from roundwright.plan.problem import PlannedExercise, Problem
from roundwright.services.changing.people_today import somebody_joins
from roundwright.services.changing.said_words import not_today_words


@dataclass(frozen=True, slots=True)
class Replayed:
    """Today's problem with what was changed, and what could not be done again, in words.

    People stand in the words as `{p001}`.
    """

    problem: Problem
    not_replayed: tuple[str, ...]


def replayed(problem: Problem, steps: Sequence[Step], hall: Hall) -> Replayed:
    """Do the changes of a plan again on today's problem.

    Kit that was lost or brought is counted off or added only while the hall's files still
    have as many as when the plan was made: once they were written anew, they are right. An
    exercise that the tool chose in answer to a change stands where it was put.

    Parameters
    ----------
    problem : Problem
        Of the plan's first revision, as the hall is now.
    steps : sequence of Step
        From the first revision to the one that is judged.
    """
    words: list[str] = []
    first = steps[0].before.problem if steps else problem
    now, then = _counts(problem.kit), _counts(first.kit)
    for step in steps:
        change, why = _today(step.change, problem, hall)
        if why:
            words.append(why)
        kit = _kit_of(step.change)
        if kit is not None and now.get(kit) != then.get(kit):
            words.append(f"{_kit_words(kit)}: counted as the hall's files have it now.")
            change = None
        if change is not None:
            try:
                problem = restate(
                    problem, _as_held(step.before.core, problem), change, hall.catalogue
                ).problem
            except BadInputError as error:
                fault = error.faults[0]
                words.append(
                    f"Revision {step.after.core.revision} could not be done again"
                    f" ({fault.field}: {fault.expected} is needed)."
                )
        problem = _as_chosen(problem, step, hall)
    return Replayed(problem, tuple(words))


def _today(change: c.Change, problem: Problem, hall: Hall) -> tuple[c.Change | None, str]:
    """Give a change as it is asked of today, or none; and what is to be said of that."""
    person = getattr(change, "person", None)
    if isinstance(change, c.PersonCame):
        if change.person in problem.people:
            return None, ""
        if hall.person(change.person) is None:
            return change, ""
        joining = somebody_joins(hall, change.person, problem)
        if isinstance(joining, NotToday):
            return None, not_today_words(change.person)
        return joining, ""
    if person is None or person in problem.people:
        return change, ""
    if isinstance(change, c.PersonLeft):
        return None, ""
    return None, f"{{{person}}} is not in the class any more; what was changed for them is left."


def _as_held(core: Core, problem: Problem) -> Core:
    """Give the plan with the rounds of today's class, and its form where the plan settled that."""
    form, spec = core.class_.format, problem.spec
    held = form if spec.format is ClassFormat.ANY else spec.format
    booked = core.class_.model_copy(update={"format": held, "rounds": spec.rounds})
    return core.model_copy(update={"class_": booked})


def _as_chosen(problem: Problem, step: Step, hall: Hall) -> Problem:
    """Put what the tool chose itself in answer to a change: exercises, and the form."""
    before, after = step.before, step.after.problem.spec
    asked = restate(before.problem, before.core, step.change, hall.catalogue).problem.spec
    spec = problem.spec
    if after.format is not asked.format:
        spec = spec.model_copy(update={"format": after.format})
    chosen = {
        mine.position: mine
        for mine, wish in zip(after.exercises, asked.exercises, strict=True)
        if mine.exercise_id != wish.exercise_id
    }
    exercises = tuple(
        e.model_copy(update=_exercise(chosen[e.position])) if e.position in chosen else e
        for e in spec.exercises
    )
    keep = tuple(k for k in spec.keep if k.position not in chosen)
    spec = spec.model_copy(update={"exercises": exercises, "keep": keep})
    library = problem.library
    used = {*library.lines, *library.combinations, *(e.exercise_id for e in chosen.values())}
    here = frozenset(e for e in used if hall.catalogue.has_exercise(e))
    return problem.model_copy(update={"spec": spec, "library": hall.catalogue.only(here)})


def _exercise(chosen: PlannedExercise) -> dict[str, object]:
    return {"exercise_id": chosen.exercise_id, "count": chosen.count}


Kit = tuple[int, str]
"""A mass in g and no item, or no mass and an item's id."""


def _kit_of(change: c.Change) -> Kit | None:
    if isinstance(change, c.KitLost | c.KitBack):
        return change.unit_mass_g if change.item_id is None else 0, change.item_id or ""
    return None


def _counts(kit: Inventory) -> dict[Kit, int]:
    found: dict[Kit, int] = {}
    for entry in kit.dumbbells:
        if entry.in_use:
            key = (entry.unit_mass_g, "")
            found[key] = found.get(key, 0) + entry.count
    return found | {(0, item.id): item.count for item in kit.items if item.in_use}


def _kit_words(kit: Kit) -> str:
    mass_g, item_id = kit
    return item_id or f"{mass_g / 1000:g} kg"
