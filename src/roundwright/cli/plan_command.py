"""``roundwright plan``: choose and fit a class or the hall's week, keep the plans, say why."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Annotated, Any

import typer

from roundwright.bootstrap.planning import class_search
from roundwright.bootstrap.wiring import Adapters, wired
from roundwright.cli.faults_shown import print_json, tell_error
from roundwright.cli.fit_command import (
    AsJson,
    HallFolder,
    OnDay,
    Paper,
    PlansFolder,
    SearchBudget,
    Seed,
    SheetFile,
    SheetPaper,
    day_of,
)
from roundwright.cli.kept_plan_shown import (
    SHEET_KINDS,
    draft_words,
    plan_values,
    print_kept_plan,
    write_sheet,
)
from roundwright.cli.outcome_words import no_plan_error, on_time_words
from roundwright.cli.progress_words import progress, teller
from roundwright.cli.tables_shown import say
from roundwright.foundation.errors import NotFoundError, RoundwrightError
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.goals.class_wish import ClassFormat, WorkRestWish
from roundwright.hall.hall import Hall
from roundwright.plan.build_planning import KeptWish, PlanWishes
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, StoppedBy
from roundwright.services.check_plan import refusal_of
from roundwright.services.clash_words import shopping_line
from roundwright.services.class_reasons import reason_lines
from roundwright.services.late_class import with_ways_on_time
from roundwright.services.length_wishes import (
    ROUNDS_WORDS,
    WORK_REST_WORDS,
    rounds_asked,
    work_rest_asked,
)
from roundwright.services.names import names_of
from roundwright.services.plan_class import (
    PlannedClass,
    PlanRequest,
    days_looked_back,
    plan_class,
    week_of,
    with_shopping,
)
from roundwright.services.steady_class import attendance_of, holds_words, steady_plan

PLANNED_SCHEMA = "roundwright.planned/1"
WEEK_SCHEMA = "roundwright.planned_week/1"
WORST_FIRST = (5, 6, 4, 0)
"""Exit codes of several classes: the first of these that occurred is the command's."""


def plan(
    hall_folder: HallFolder,
    class_id: Annotated[
        str | None,
        typer.Argument(
            metavar="[CLASS]", help="The class: the name of its file in classes/; or give --all."
        ),
    ] = None,
    on: OnDay = None,
    places: Annotated[
        int | None,
        typer.Option(min=1, max=12, help="Exercises a round; the class's own when left out."),
    ] = None,
    class_format: Annotated[
        ClassFormat | None, typer.Option("--format", help="How people move through a round.")
    ] = None,
    rounds: Annotated[
        list[str] | None,
        typer.Option(
            metavar="N|any",
            help="Rounds; given several times: any of them, the first best; any: 3, 2 or 4.",
        ),
    ] = None,
    work_rest: Annotated[
        str | None,
        typer.Option(
            metavar="own|any|heavier|W:C",
            help="Of a timed class: seconds of work and of change, or who chooses them.",
        ),
    ] = None,
    keep: Annotated[
        list[str] | None,
        typer.Option(
            metavar="EXERCISE[@PLACE]", help="An exercise that stays, at its place if one is given."
        ),
    ] = None,
    ban: Annotated[
        list[str] | None,
        typer.Option(metavar="NAME", help="A version, line or combination not to be used."),
    ] = None,
    anew: Annotated[
        bool, typer.Option("--anew", help="Keep none of the exercises of the class's file.")
    ] = False,
    another: Annotated[
        int, typer.Option(min=0, max=20, metavar="N", help="Pass over the N best sets.")
    ] = 0,
    whoever_comes: Annotated[
        bool,
        typer.Option(
            "--whoever-comes", help="Take the plan that holds for most numbers of people; slower."
        ),
    ] = False,
    every: Annotated[
        bool, typer.Option("--all", help="Plan each class of the seven days, in order.")
    ] = False,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    out: PlansFolder = None,
    sheet: SheetFile = None,
    paper: SheetPaper = None,
    as_json: AsJson = False,
) -> None:
    """Choose the exercises of a class, fit it, and keep the plan."""
    if (class_id is None) != every:
        raise typer.BadParameter("give a class or --all, one of the two")
    if sheet is not None and every:
        raise typer.BadParameter("a sheet is of one class, not of --all", param_hint="--sheet")
    if whoever_comes and every:
        raise typer.BadParameter("it is for one class, not for --all", param_hint="--whoever-comes")
    if sheet is not None and sheet.suffix.lower() not in SHEET_KINDS:
        raise typer.BadParameter("a sheet's name ends in .pdf or .html", param_hint="--sheet")
    wishes = PlanWishes(
        keep=tuple(_kept(text) for text in keep or ()),
        ban=tuple(ban or ()),
        places=places,
        class_format=class_format,
        rounds=_rounds(rounds or ()),
        work_rest=None if work_rest is None else _work_rest(work_rest),
        anew=anew,
    )
    folders = tuple(dict.fromkeys((hall_folder / "plans", out or hall_folder / "plans")))
    desk = _Desk(hall_folder, folders, seed, budget, another, as_json)
    if class_id is not None:
        request = PlanRequest(class_id, day_of(on), wishes, seed, budget)
        code = desk.one(request, sheet, paper, whoever_comes=whoever_comes)
    else:
        code = desk.week(day_of(on) or desk.adapters.clock.today(), wishes)
    if code:
        raise typer.Exit(code)


def _rounds(texts: Sequence[str]) -> tuple[int, ...]:
    found = rounds_asked(texts)
    if found is None:
        raise typer.BadParameter(f"give {ROUNDS_WORDS}", param_hint="--rounds")
    return found


def _work_rest(text: str) -> WorkRestWish | tuple[int, int]:
    found = work_rest_asked(text)
    if found is None:
        raise typer.BadParameter(f"give {WORK_REST_WORDS}", param_hint="--work-rest")
    return found


def _kept(text: str) -> KeptWish:
    """Read EXERCISE or EXERCISE@PLACE."""
    exercise, at, place = text.partition("@")
    if not at:
        return KeptWish(exercise)
    if not (place.isascii() and place.isdigit()):
        raise typer.BadParameter("as squats or squats@2", param_hint="--keep")
    return KeptWish(exercise, int(place))


class _Desk:
    """One run of the command: the hall, what was kept, and how it is told.

    Plans of all `folders` count as recent work; new ones go into the last.
    """

    def __init__(
        self,
        hall_folder: Path,
        folders: tuple[Path, ...],
        seed: int,
        budget: Budget,
        another: int,
        as_json: bool,
    ) -> None:
        self.adapters: Adapters = wired()
        self.hall: Hall = self.adapters.hall(hall_folder)
        self.folders, self.seed, self.budget = folders, seed, budget
        self.another, self.as_json = another, as_json
        self.search = class_search()

    def one(
        self, request: PlanRequest, sheet: Path | None, paper: Paper | None, *, whoever_comes: bool
    ) -> int:
        """Plan one class, tell it, and give the exit code."""
        kept = self._kept_plans(request.on or self.adapters.clock.today())
        planned = self._planned(request, kept)
        if whoever_comes and planned.document is not None:
            planned = self._steady(request, planned)
        document = planned.document
        if document is None:
            more = {"outcome": planned.outcome.model_dump(mode="json", by_alias=True)}
            return tell_error(self._no_plan(planned), self.as_json, more)
        document = with_ways_on_time(document, self.seed, self.search)
        planned = with_shopping(planned, self.seed, self.search)
        path, refusal = self._keep(document)
        written = sheet if refusal is None else None
        if written is not None:
            chosen = (paper or self.hall.settings.paper).value
            write_sheet(self.adapters, document, self.hall, written, chosen)
        if self.as_json:
            told = _values(document, planned, path, refusal)
            print_json(told if refusal is None else refusal.as_problem() | {"plan": told})
        else:
            self._tell(document, planned, path, written, refusal)
        return refusal.exit_code if refusal is not None else 0

    def week(self, first_day: date, wishes: PlanWishes) -> int:
        """Plan every class of the seven days, each knowing those before it."""
        kept = list(self._kept_plans(first_day))
        told: list[dict[str, Any]] = []
        codes: list[int] = []
        for class_id, day in week_of(self.hall, first_day):
            request = PlanRequest(class_id, day, wishes, self.seed, self.budget)
            planned = self._planned(request, kept)
            document = planned.document
            if document is None:
                error = self._no_plan(planned)
                codes.append(error.exit_code)
                told.append({"class": class_id} | error.as_problem())
                if not self.as_json:
                    say(f"{planned.problem.spec.name}, {planned.problem.spec.starts_on}:")
                    tell_error(error, as_json=False)
                continue
            document = with_ways_on_time(document, self.seed, self.search)
            kept.append(document)
            path, refusal = self._keep(document)
            codes.append(refusal.exit_code if refusal is not None else 0)
            told.append({"class": class_id} | _values(document, planned, path, refusal))
            if not self.as_json:
                self._tell(document, planned, path, None, refusal)
                say("")
        if not codes:
            raise NotFoundError(
                f"The hall has no class in the seven days from {first_day}.",
                "Give another first day with --on.",
            )
        if self.as_json:
            print_json({"schema": WEEK_SCHEMA, "classes": told})
        return next(code for code in WORST_FIRST if code in codes)

    def _kept_plans(self, day: date) -> tuple[PlanDocument, ...]:
        plans: list[PlanDocument] = []
        for folder in self.folders:
            found = self.adapters.kept_plans(folder, days_looked_back(day))
            plans += found.plans
            for fault in found.faults:
                typer.echo(f"Not counted as recent work. {fault.in_words()}", err=True)
        return tuple(plans)

    def _planned(self, request: PlanRequest, kept: Sequence[PlanDocument]) -> PlannedClass:
        """Plan a class, passing over as many sets as was asked."""
        planned = self._best(request, kept)
        for _ in range(self.another):
            if planned.document is None:
                break
            shown = tuple(sorted(e.exercise_id for e in planned.document.core.exercises))
            wishes = replace(request.wishes, besides=(*request.wishes.besides, shown))
            request = replace(request, wishes=wishes)
            planned = self._best(request, kept)
        return planned

    def _steady(self, request: PlanRequest, planned: PlannedClass) -> PlannedClass:
        """Take the plan that holds for most drawn rosters, and tell how far it is."""
        from roundwright.bootstrap.mending import mending_process  # loaded only where asked for

        with mending_process() as mender:
            steady = steady_plan(
                planned,
                attendance_of(self.hall, planned.planning, mender, self.seed),
                request,
                planner=self.search,
                rehearse=self.adapters.rehearse,
                told=progress(self.as_json),
            )
        document = steady.chosen.document
        return replace(
            planned, problem=document.problem, outcome=document.outcome, document=document
        )

    def _best(self, request: PlanRequest, kept: Sequence[PlanDocument]) -> PlannedClass:
        return plan_class(
            self.hall,
            request,
            planner=self.search,
            clock=self.adapters.clock,
            ids=self.adapters.ids,
            kept=kept,
            rehearse=self.adapters.rehearse,
            adviser=self.search,
            on_better=teller(self.as_json),
        )

    def _keep(self, document: PlanDocument) -> tuple[Path, RoundwrightError | None]:
        return self.adapters.keep(document, self.folders[-1]), refusal_of(document)

    def _no_plan(self, planned: PlannedClass) -> RoundwrightError:
        names = names_of(planned.problem, self.hall)
        return no_plan_error(planned.outcome, planned.problem, names, self.hall.settings.units)

    def _tell(
        self,
        document: PlanDocument,
        planned: PlannedClass,
        path: Path,
        sheet: Path | None,
        refusal: RoundwrightError | None,
    ) -> None:
        names = names_of(planned.problem, self.hall)
        lines = list(reason_lines(document))
        if document.facts.holds_for is not None:
            lines.append(holds_words(document))
        if planned.shopping:
            units = self.hall.settings.units
            lines.append(shopping_line(planned.shopping, planned.problem, units))
        print_kept_plan(document, names, self.hall, path, sheet, why=lines)
        for line in on_time_words(document, names, self.hall.settings.units):
            say(line)
        if planned.outcome.stopped_by in (StoppedBy.CALLER, StoppedBy.GUARD):
            say(f"{planned.ended} This is the best class that was found till then.".lstrip())
        if refusal is not None:
            tell_error(draft_words(), as_json=False)


def _values(
    document: PlanDocument, planned: PlannedClass, path: Path, refusal: RoundwrightError | None
) -> dict[str, Any]:
    return plan_values(document, path, refusal, PLANNED_SCHEMA) | {
        "why": list(reason_lines(document)),
        "worth_buying": [w.model_dump(mode="json", by_alias=True) for w in planned.shopping],
    }
