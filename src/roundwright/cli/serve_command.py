"""``roundwright serve``: fit or plan a class and show its page on this machine."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.planning import planner_process
from roundwright.bootstrap.settings import host_fault, read_settings
from roundwright.bootstrap.wiring import Adapters, wired
from roundwright.cli.fit_command import OnDay, day_of
from roundwright.cli.served_pages import serve_pages
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from roundwright.hall.hall import Hall
from roundwright.plan.document import PlanDocument
from roundwright.services.plan_class import days_looked_back
from roundwright.web.application import make_application
from roundwright.web.class_making import ClassMaking
from roundwright.web.planning_desk import PlanningDesk


def serve(
    hall_folder: Annotated[
        Path | None, typer.Argument(metavar="[HALL]", help="The hall's folder; or give --demo.")
    ] = None,
    demo: Annotated[
        bool, typer.Option("--demo", help="Show the class of an invented hall.")
    ] = False,
    class_id: Annotated[
        str | None,
        typer.Option("--class", metavar="CLASS", help="Which class; needless if there is one."),
    ] = None,
    host: Annotated[
        str | None,
        typer.Option(metavar="HOST", help="A loopback address; 127.0.0.1 when left out."),
    ] = None,
    port: Annotated[
        int | None, typer.Option(metavar="PORT", help="The port; 8737 when left out.")
    ] = None,
    on: OnDay = None,
    planned: Annotated[
        bool, typer.Option("--plan", help="Begin with a planned class, not a fitted one.")
    ] = False,
    no_open: Annotated[bool, typer.Option("--no-open", help="Do not open the browser.")] = False,
) -> None:
    """Fit or plan a class and show its page in the browser. Nothing is written."""
    if (hall_folder is None) != demo:
        raise typer.BadParameter("give a hall's folder or --demo, one of the two")
    settings = read_settings({"host": host, "port": port})
    if not settings.is_loopback:
        raise host_fault(
            settings,
            "a loopback address such as 127.0.0.1; another one needs an owner account:"
            " see roundwright house",
        )
    adapters = wired()
    hall = adapters.hall(hall_folder or demo_hall_folder())
    chosen = _chosen_class(hall, class_id, demo)
    day = day_of(on) or adapters.clock.today()
    plans = () if hall_folder is None else _kept_plans(adapters, hall_folder / "plans", day)
    with planner_process() as (worker, planner):
        worker.start()
        making = ClassMaking(adapters, hall, chosen, day, plans, planner, settings.port)
        first = making.planned_first() if planned else making.fitted()
        kept = making.kept_from_start() if planned else frozenset()
        desk = PlanningDesk(first, making.choose, worker.stop, kept)
        serve_pages(
            make_application(first, desk), settings, hall.settings.name, open_it=not no_open
        )


def _kept_plans(adapters: Adapters, folder: Path, day: date) -> tuple[PlanDocument, ...]:
    found = adapters.kept_plans(folder, days_looked_back(day))
    for fault in found.faults:
        typer.echo(f"Not counted as recent work. {fault.in_words()}", err=True)
    return found.plans


def _chosen_class(hall: Hall, class_id: str | None, demo: bool) -> str:
    if class_id is not None:
        return class_id
    if demo:
        return DEMO_CLASS
    if len(hall.classes) == 1:
        return next(iter(hall.classes))
    known = ", ".join(sorted(hall.classes)) or "none"
    raise typer.BadParameter(f"say which class with --class; there are: {known}")
