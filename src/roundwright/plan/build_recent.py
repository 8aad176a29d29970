"""What the hall did lately, read from the plans that were kept.

Until classes are logged, a kept plan counts as held, unless it is a draft: a plan
that the gate stopped could not be started.
"""

from collections import Counter
from collections.abc import Iterable
from datetime import date, datetime, timedelta

from roundwright.body.anatomy import Muscle
from roundwright.foundation.instants import instant_of
from roundwright.library.catalogue import Catalogue
from roundwright.plan.core import CellState
from roundwright.plan.document import PlanDocument
from roundwright.plan.recent import Recent, RecentExercise
from roundwright.plan.rule_table import RuleTable


def build_recent(
    plans: Iterable[PlanDocument],
    class_id: str,
    starts_on: date,
    starts_at: datetime,
    rules: RuleTable | None = None,
) -> Recent:
    """Give what the exercises and people of a hall did before one class.

    Parameters
    ----------
    plans : iterable of PlanDocument
        Kept plans, in the order in which they were kept. Of one class and date one plan
        counts: the one kept last, in its latest revision.
    class_id, starts_on
        The class itself: its own plans of that date do not count.
    starts_at : datetime
        The instant at which the class begins; later classes do not count.
    rules : RuleTable, optional
        Days and hours that are looked back.
    """
    table = rules or RuleTable()
    exercises: list[RecentExercise] = []
    worked: dict[str, set[Muscle]] = {}
    for document in _held(plans):
        booked = document.core.class_
        if (booked.class_id, booked.starts_on) == (class_id, starts_on):
            continue
        began = _began(document)
        days_ago = (starts_on - booked.starts_on).days
        if began is None or began >= starts_at or days_ago > table.balance_days:
            continue
        exercises += [
            RecentExercise(exercise_id=e.exercise_id, days_ago=max(0, days_ago))
            for e in document.core.exercises
        ]
        if starts_at - began < timedelta(hours=table.overlap_hours):
            for person, muscles in _muscles(document).items():
                worked.setdefault(person, set()).update(muscles)
    return Recent(
        exercises=tuple(sorted(exercises, key=lambda e: (e.days_ago, e.exercise_id))),
        worked={
            person: tuple(m for m in Muscle if m in worked[person]) for person in sorted(worked)
        },
    )


def main_muscle(library: Catalogue, exercise_id: str) -> Muscle | None:
    """Give the authored main muscle, or the one with most share and times in the first versions.

    None when the library does not hold the exercise.
    """
    if not library.has_exercise(exercise_id):
        return None
    combination = library.combinations.get(exercise_id)
    if combination is not None and combination.main_muscle is not None:
        return combination.main_muscle
    parts = [(p.line, p.times) for p in combination.parts] if combination else [(exercise_id, 1)]
    work: Counter[Muscle] = Counter()
    for line, times in parts:
        for muscle, share in library.versions(line)[0].muscles.items():
            work[muscle] += round(share.share * 10_000) * times
    return max(work, key=lambda m: (work[m], -list(Muscle).index(m)), default=None)


def _held(plans: Iterable[PlanDocument]) -> list[PlanDocument]:
    """Give one plan of each class and date: the last kept, in its latest revision."""
    latest: dict[str, PlanDocument] = {}
    for document in plans:
        known = latest.pop(document.core.plan_id, None)
        newer = known is None or document.core.revision >= known.core.revision
        latest[document.core.plan_id] = document if newer or known is None else known
    by_class: dict[tuple[str, date], PlanDocument] = {}
    for document in latest.values():
        if document.verdict.is_clear:
            booked = document.core.class_
            by_class[booked.class_id, booked.starts_on] = document
    return list(by_class.values())


def _began(document: PlanDocument) -> datetime | None:
    booked = document.core.class_
    try:
        return instant_of(booked.starts_on, booked.starts_at_local, document.problem.spec.time_zone)
    except (ValueError, LookupError, OSError):
        return None  # a time that never was: such a class was not held


def _muscles(document: PlanDocument) -> dict[str, set[Muscle]]:
    """Give the main muscles of what each person was to do."""
    found: dict[str, set[Muscle]] = {}
    planned = {e.position: e.exercise_id for e in document.core.exercises}
    for cell in document.core.cells:
        if cell.state is CellState.SIT_OUT:
            continue
        exercise = cell.exercise_id or planned.get(cell.position)
        muscle = main_muscle(document.problem.library, exercise) if exercise else None
        if muscle is not None:
            found.setdefault(cell.person_id, set()).add(muscle)
    return found
