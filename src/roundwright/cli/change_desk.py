"""One change of a kept plan by command: open it, ask, keep the answer, tell it."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.changing import changing
from roundwright.bootstrap.wiring import Adapters, wired
from roundwright.cli.change_shown import changed_values, print_changed
from roundwright.cli.faults_shown import print_json, tell_error
from roundwright.cli.kept_plan_shown import draft_words
from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError
from roundwright.foundation.identifiers import nearest_names
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.hall.hall import Hall
from roundwright.plan.changing.change import Change
from roundwright.plan.outcome import Budget
from roundwright.services.changing.change_plan import ChangedPlan, Changing, change_plan
from roundwright.services.changing.moves import named_error
from roundwright.services.check_plan import refusal_of
from roundwright.services.names import Names, everyone_of, names_of
from roundwright.store.revision_files import OpenedPlan

PlanFile = Annotated[
    Path,
    typer.Argument(
        metavar="PLAN", help="The plan's file; its .revisions.json stands for the current one."
    ),
]
HallOption = Annotated[
    Path | None,
    typer.Option("--hall", metavar="HALL", help="The hall's folder; the one PLAN lies in."),
]
PersonArgument = Annotated[
    str, typer.Argument(metavar="PERSON", help="Somebody's id, or name as it is shown.")
]
PlaceArgument = Annotated[
    int, typer.Argument(metavar="PLACE", min=1, max=20, help="The place in the round, from 1.")
]


class ChangeDesk:
    """The plan and the hall of one command, and how its answer is told."""

    def __init__(
        self,
        plan_file: Path,
        hall_folder: Path | None,
        *,
        show_only: bool = False,
        as_json: bool = False,
        seed: int = DEFAULT_SEED,
        budget: Budget = Budget.NORMAL,
    ) -> None:
        self.adapters: Adapters = wired()
        self.opened: OpenedPlan = self.adapters.opened(plan_file)
        self.hall: Hall = self.adapters.hall(hall_of(plan_file, hall_folder))
        self.seed, self.budget = seed, budget
        self.show_only, self.as_json = show_only, as_json

    @property
    def base_revision(self) -> int:
        """The revision that whoever typed the command has before them."""
        return self.opened.document.core.revision

    @property
    def names(self) -> Names:
        """How people and places of the plan as it is are called."""
        return names_of(self.opened.document.problem, self.hall)

    def everyone(self) -> dict[str, str]:
        """Give everybody's name who may be in any revision, by id."""
        return everyone_of(self.opened.document, self.opened.revisions, self.hall)

    def person(self, text: str) -> str:
        """Give the id of somebody, by id or shown name.

        Raises
        ------
        NotFoundError
            Nobody, or more than one, is called so.
        """
        ids = {*self.opened.document.problem.people, *(p.person_id for p in self.hall.people)}
        if text in ids:
            return text
        known = self.everyone()
        called = [p for p, name in known.items() if name.casefold() == text.casefold()]
        if len(called) == 1:
            return called[0]
        if called:
            raise NotFoundError(f"{len(called)} people are called '{text}'.", "Give the id.")
        near = ", ".join(nearest_names(text, (*known.values(), *ids)))
        raise NotFoundError(
            f"Nobody is called '{text}'." + (f" Nearest: {near}." if near else ""),
            "Give an id, or a name as it is shown.",
        )

    @contextmanager
    def using(self) -> Iterator[Changing]:
        """Give what changes are answered with; its process ends with the block."""
        with changing(self.adapters, self.hall, seed=self.seed, budget=self.budget) as using:
            yield using

    @contextmanager
    def naming(self) -> Iterator[None]:
        """Have what happened meanwhile told with names."""
        try:
            yield
        except ChangedMeanwhileError as error:
            raise named_error(error, self.everyone()) from error

    def answer(self, change: Change) -> None:
        """Answer a change, keep it and tell it; the command ends with the exit code."""
        with self.naming():
            with self.using() as using:
                changed = change_plan(
                    self.opened.document,
                    self.opened.revisions,
                    change,
                    self.base_revision,
                    using=using,
                )
            self.keep_and_tell(changed)

    def keep_and_tell(self, changed: ChangedPlan) -> None:
        """Keep an answer and tell it; the command ends with the exit code."""
        path = None
        if not self.show_only:
            path = self.adapters.keep_change(
                changed.document, changed.revisions, self.opened.revisions, self.opened.folder
            )
        refusal = refusal_of(changed.document)
        if self.as_json:
            told = changed_values(changed, path, refusal)
            print_json(told if refusal is None else refusal.as_problem() | {"changed": told})
        else:
            names = names_of(changed.document.problem, self.hall)
            print_changed(changed, names, {**names.people, **self.everyone()})
            typer.echo(f"Plan: {path}" if path else "Nothing was kept.")
            if refusal is not None:
                tell_error(draft_words(), as_json=False)
        if refusal is not None:
            raise typer.Exit(refusal.exit_code)


def hall_of(plan_file: Path, hall_folder: Path | None) -> Path:
    """Give the hall's folder: the one that is named, or the one that a plan lies in."""
    folder = hall_folder or plan_file.resolve().parent.parent
    if hall_folder is None and not (folder / "hall.toml").is_file():
        raise typer.BadParameter("PLAN lies in no hall's folder: say which", param_hint="--hall")
    return folder
