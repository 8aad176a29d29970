"""The only place that names adapters: who plans, reads, writes, prints, and tells the time."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Literal

from roundwright.body.posture import Posture
from roundwright.bootstrap.file_watch import saves_of
from roundwright.bootstrap.hall_pictures import HallPictures, check_hall_postures
from roundwright.bootstrap.shipped_bodies import check_bodies, shipped_bodies
from roundwright.bootstrap.shipped_library import authored_catalogue, shipped_catalogue
from roundwright.bootstrap.shipped_pictures import ShippedPictures
from roundwright.bootstrap.system_clock import SystemClock
from roundwright.bootstrap.text_files import read_text, write_new_text, write_text
from roundwright.documents.class_sheet_html import class_sheet_html
from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.sheet_content import SheetContent, sheet_of
from roundwright.foundation.identifiers import SeededIds
from roundwright.hall.hall import Hall
from roundwright.library.catalogue import Catalogue
from roundwright.optimise.fit import fit
from roundwright.plan.changing.revisions import Revisions, Step
from roundwright.plan.core import Core
from roundwright.plan.document import ChanceOnTime, PlanDocument
from roundwright.plan.gate.checked_plan import check
from roundwright.plan.outcome import Budget
from roundwright.plan.problem import Problem
from roundwright.rehearsal.finishing_time import chance_on_time
from roundwright.services.ports import Fit, IdsFor
from roundwright.store.hall_folder import read_hall
from roundwright.store.plan_files import KeptPlans, read_plan, read_plans, write_plan
from roundwright.store.revision_files import (
    OpenedPlan,
    keep_change,
    move_pointer,
    open_plan,
    read_steps,
)

PaperSize = Literal["a4", "letter"]


class ExactPlanner:
    """The planner that proves its plans."""

    def fit(self, problem: Problem, *, seed: int, budget: Budget, plan_id: str) -> Fit:
        """Search within counted work."""
        return fit(problem, seed=seed, budget=budget, plan_id=plan_id)


@dataclass(frozen=True, slots=True)
class Adapters:
    """What the commands and pages reach outside with."""

    planner: ExactPlanner
    clock: SystemClock
    ids: IdsFor
    pictures: ShippedPictures

    def catalogue(self) -> Catalogue:
        """Give the shipped library."""
        return shipped_catalogue()

    def check_bodies(self) -> None:
        """Check that shipped movements, postures and figures of the body model belong together.

        Raises
        ------
        BadInputError
            A movement without a posture, a posture that contradicts its movement, or figures
            of another posture.
        """
        check_bodies(authored_catalogue().movements)

    def hall(self, folder: Path) -> Hall:
        """Read a hall folder on top of the shipped library.

        Raises
        ------
        NotFoundError
            No such folder.
        BadInputError
            Every fault of its files.
        StoreError
            It could not be read.
        """
        hall = read_hall(folder, shipped_catalogue())
        check_hall_postures(hall)
        return hall

    def pictures_of(self, hall: Hall) -> HallPictures:
        """Give who draws a hall's movements: the shipped ones, and its own that have a posture."""
        return HallPictures(hall, self.pictures)

    def postures(self) -> Mapping[str, Posture]:
        """Give the shipped postures."""
        return shipped_bodies().postures

    def text(self, path: Path) -> str:
        """Read one authored file as text.

        Raises
        ------
        NotFoundError
            No such file.
        BadInputError
            Not UTF-8 text, or far too large for a file of this kind.
        StoreError
            It could not be read.
        """
        return read_text(path)

    def write_new_text(self, path: Path, text: str) -> None:
        """Write a file that is not there yet; nothing is written over.

        Raises
        ------
        StoreError
            Something of that name is there, or it could not be written.
        """
        write_new_text(path, text)

    def write_text(self, path: Path, text: str) -> Path:
        """Write a picture or the like, over an older one, and give its path.

        Raises
        ------
        StoreError
            It could not be written.
        """
        return write_text(path, text)

    def saves_of(self, path: Path) -> Iterator[None]:
        """Yield at once, then whenever a file is saved.

        Raises
        ------
        NotFoundError
            No such file.
        """
        return saves_of(path)

    def plan(self, path: Path) -> PlanDocument:
        """Read a plan file.

        Raises
        ------
        NotFoundError
            No such file.
        BadInputError
            Not a plan that this version reads.
        """
        return read_plan(path)

    def kept_plans(self, folder: Path, days: Collection[date] | None = None) -> KeptPlans:
        """Read the plans that a folder keeps, and name those that cannot be read.

        Raises
        ------
        StoreError
            The folder could not be listed.
        """
        return read_plans(folder, days)

    def rehearse(self, core: Core, problem: Problem, seed: int) -> ChanceOnTime:
        """Play a plan through and give its chance on time."""
        return chance_on_time(core, problem, seed)

    def keep(self, document: PlanDocument, folder: Path) -> Path:
        """Write a plan into a folder and give its path.

        Raises
        ------
        StoreError
            It could not be written.
        """
        return write_plan(document, folder)

    def opened(self, path: Path) -> OpenedPlan:
        """Read a plan with its revisions, by a revision's file or by its file of revisions.

        Raises
        ------
        NotFoundError
            No such file, or no such revision.
        ChangedMeanwhileError
            A file is not what was kept.
        BadInputError
            Not files that this version reads.
        """
        return open_plan(path)

    def steps(self, opened: OpenedPlan) -> tuple[Step, ...]:
        """Read the changes from a plan's first revision to the one that was opened.

        Raises
        ------
        NotFoundError
            The file of a revision on the way is gone.
        ChangedMeanwhileError
            A file is not what was kept.
        """
        return read_steps(opened)

    def keep_change(
        self, document: PlanDocument, grown: Revisions, before: Revisions, folder: Path
    ) -> Path:
        """Write a changed plan and point to it, whole or not at all; give its path.

        Raises
        ------
        ChangedMeanwhileError
            The plan was changed since `before` was read.
        StoreError
            Nothing was changed.
        """
        return keep_change(document, grown, before, folder)

    def move(self, moved: Revisions, before: Revisions, folder: Path) -> PlanDocument:
        """Point to another revision, and give it as it was kept.

        Raises
        ------
        ChangedMeanwhileError
            The plan was changed since `before` was read, or a file is not what was kept.
        StoreError
            Nothing was changed.
        """
        return move_pointer(moved, before, folder)

    def sheet(self, document: PlanDocument, hall: Hall) -> SheetContent:
        """Put a class sheet together, from a plan that passes the gate now.

        Raises
        ------
        UnsafePlanError
            The gate stops or refuses the plan.
        """
        return sheet_of(check(document), hall, self.clock.stamp(), self.pictures_of(hall))

    def sheet_pdf(self, content: SheetContent, paper: PaperSize) -> bytes:
        """Set a class sheet as PDF.

        Raises
        ------
        DocumentError
            The page could not be made.
        """
        return class_sheet_pdf(content, paper)

    def sheet_html(self, content: SheetContent, paper: PaperSize) -> str:
        """Write a class sheet as one page without script."""
        return class_sheet_html(content, paper)


def wired() -> Adapters:
    """Give the real adapters."""
    return Adapters(
        planner=ExactPlanner(), clock=SystemClock(), ids=SeededIds, pictures=ShippedPictures()
    )
