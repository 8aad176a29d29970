"""The typed Python interface: the same use cases as the commands, as plain functions.

>>> from roundwright import fit, read_hall  # doctest: +SKIP
>>> fitted = fit(read_hall("my_hall"), "tuesday", on=date(2026, 3, 3))  # doctest: +SKIP
"""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from roundwright.bootstrap.changing import changing
from roundwright.bootstrap.planning import class_search
from roundwright.bootstrap.wiring import PaperSize, wired
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.hall.hall import Hall
from roundwright.library.catalogue import Catalogue
from roundwright.plan.build_planning import PlanWishes
from roundwright.plan.changing.change import Change
from roundwright.plan.class_count import ClassCount
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget
from roundwright.services.changing.change_plan import ChangedPlan
from roundwright.services.changing.change_plan import change_plan as changed_plan
from roundwright.services.changing.finish_by import FinishBy
from roundwright.services.changing.finish_by import finish_by as finished_by
from roundwright.services.changing.moves import Way, moved
from roundwright.services.check_plan import PlanCheck, check_plan
from roundwright.services.count_plan import count_plan
from roundwright.services.fit_class import FitRequest, FittedClass, fit_class
from roundwright.services.plan_class import PlannedClass, PlanRequest, plan_class
from roundwright.store.revision_files import OpenedPlan


def shipped_library() -> Catalogue:
    """Give the shipped library."""
    return wired().catalogue()


def read_hall(folder: str | Path) -> Hall:
    """Read a hall folder.

    Raises
    ------
    NotFoundError
        No such folder.
    BadInputError
        Every fault of its files, at once.
    StoreError
        It could not be read.
    """
    return wired().hall(Path(folder))


def fit(
    hall: Hall,
    class_id: str,
    *,
    on: date | None = None,
    seed: int = DEFAULT_SEED,
    budget: Budget = Budget.NORMAL,
) -> FittedClass:
    """Fit one class: everyone's version, load, dose and kit, judged by the gate.

    Parameters
    ----------
    on : date, optional
        The class's day, or the first day it may be; today when left out.

    Returns
    -------
    FittedClass
        `document` is None when no plan is possible or none was found; `outcome` says which,
        and where it is impossible what clashes and what would help (`ways_out`).

    Raises
    ------
    NotFoundError
        The hall has no such class.
    """
    adapters = wired()
    request = FitRequest(class_id, on, seed, budget)
    return fit_class(
        hall,
        request,
        planner=adapters.planner,
        clock=adapters.clock,
        ids=adapters.ids,
        rehearse=adapters.rehearse,
        adviser=class_search(),
    )


def propose(
    hall: Hall,
    class_id: str,
    *,
    on: date | None = None,
    wishes: PlanWishes | None = None,
    recent_plans: Sequence[PlanDocument] = (),
    seed: int = DEFAULT_SEED,
    budget: Budget = Budget.NORMAL,
) -> PlannedClass:
    """Plan one class: choose and order exercises around what is kept, fitted to everyone.

    Where there is none, the outcome says what clashes and what would help (`ways_out`).

    Parameters
    ----------
    wishes : PlanWishes, optional
        What to keep, to leave out and to try; the class file's own wishes when left out.
    recent_plans : sequence of PlanDocument
        The hall's kept plans: its recent work.

    Raises
    ------
    NotFoundError
        The hall has no such class.
    BadInputError
        The class cannot be planned as it is wished.
    """
    adapters, search = wired(), class_search()
    request = PlanRequest(class_id, on, wishes or PlanWishes(), seed, budget)
    return plan_class(
        hall,
        request,
        planner=search,
        adviser=search,
        clock=adapters.clock,
        ids=adapters.ids,
        kept=recent_plans,
        rehearse=adapters.rehearse,
    )


def check(plan: PlanDocument | OpenedPlan, hall: Hall | None = None) -> PlanCheck:
    """Judge a plan again: by its own problem, or by the hall as it is now.

    A plan that was changed is judged by the hall of today with its changes: give it as
    `open_plan` opened it.
    """
    if isinstance(plan, PlanDocument):
        return check_plan(plan, hall)
    steps = wired().steps(plan) if hall is not None else ()
    return check_plan(plan.document, hall, steps)


def count(document: PlanDocument) -> ClassCount:
    """Count a plan as the trade does: reps, sides, contacts, skips, tonnage, minutes."""
    return count_plan(document)


def read_plan(path: str | Path) -> PlanDocument:
    """Read a plan file.

    Raises
    ------
    NotFoundError
        No such file.
    BadInputError
        Not a plan that this version reads.
    """
    return wired().plan(Path(path))


def keep_plan(document: PlanDocument, folder: str | Path) -> Path:
    """Write a plan into a folder, whole or not at all, and give its path.

    Raises
    ------
    ChangedMeanwhileError
        Another plan stands under this name.
    StoreError
        It could not be written.
    """
    return wired().keep(document, Path(folder))


def class_sheet(document: PlanDocument, hall: Hall, paper: PaperSize = "a4") -> bytes:
    """Print the class sheet of a plan that passes the gate now, as PDF.

    Raises
    ------
    UnsafePlanError
        The gate stops or refuses the plan.
    DocumentError
        The page could not be made.
    """
    adapters = wired()
    return adapters.sheet_pdf(adapters.sheet(document, hall), paper)


def open_plan(path: str | Path) -> OpenedPlan:
    """Open a kept plan to change it: by a revision's file, or by its file of revisions.

    Raises
    ------
    NotFoundError
        No such file, or no such revision.
    ChangedMeanwhileError
        A file is not what was kept.
    BadInputError
        Not files that this version reads.
    """
    return wired().opened(Path(path))


def change_plan(
    opened: OpenedPlan,
    change: Change,
    hall: Hall,
    *,
    seed: int = DEFAULT_SEED,
    budget: Budget = Budget.NORMAL,
) -> ChangedPlan:
    """Answer a change of a plan, judged; nothing is kept yet (`keep_change`).

    Parameters
    ----------
    opened : OpenedPlan
        The plan, which must be at the revision that was opened.
    change : Change
        What is asked, one of the values of `roundwright.plan.changing.change`.
    hall : Hall
        Its library is what may be put into the class.

    Raises
    ------
    ChangedMeanwhileError
        The opened revision is not the current one.
    BadInputError
        What is asked can't be.
    NoPlanError
        Nobody would take part any more.
    """
    base = opened.document.core.revision
    with changing(wired(), hall, seed=seed, budget=budget) as using:
        return changed_plan(opened.document, opened.revisions, change, base, using=using)


def finish_by(
    opened: OpenedPlan,
    by_s: int,
    hall: Hall,
    *,
    seed: int = DEFAULT_SEED,
    budget: Budget = Budget.QUICK,
) -> FinishBy:
    """Give what ends a class by a given second from its start, kindest first.

    Raises
    ------
    ChangedMeanwhileError
        The opened revision is not the current one.
    """
    base = opened.document.core.revision
    with changing(wired(), hall, seed=seed, budget=budget) as using:
        return finished_by(opened.document, opened.revisions, by_s, base, using=using)


def keep_change(changed: ChangedPlan, opened: OpenedPlan) -> Path:
    """Keep an answer beside the plan it changes, and give its path.

    Raises
    ------
    ChangedMeanwhileError
        The plan was changed since it was opened.
    StoreError
        Nothing was changed.
    """
    return wired().keep_change(changed.document, changed.revisions, opened.revisions, opened.folder)


def undo(opened: OpenedPlan) -> OpenedPlan:
    """Go back to the plan before the last change, as it was kept.

    Raises
    ------
    NotFoundError
        There is nothing to undo.
    ChangedMeanwhileError
        The opened revision is not the current one.
    """
    return _moved(opened, "undo")


def redo(opened: OpenedPlan) -> OpenedPlan:
    """Go on to the change that was undone last, as it was kept.

    Raises
    ------
    NotFoundError
        There is nothing to redo.
    ChangedMeanwhileError
        The opened revision is not the current one.
    """
    return _moved(opened, "redo")


def _moved(opened: OpenedPlan, way: Way) -> OpenedPlan:
    after = moved(opened.revisions, way, opened.document.core.revision)
    document = wired().move(after, opened.revisions, opened.folder)
    return OpenedPlan(document, after, opened.folder)
