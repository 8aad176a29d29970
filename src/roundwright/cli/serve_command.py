"""``roundwright serve``: fit a class and show its page on this machine."""

import os
import socket
import sys
import webbrowser
from pathlib import Path
from typing import Annotated

import typer
import uvicorn

from roundwright.bootstrap.settings import Settings, read_settings
from roundwright.bootstrap.wiring import Adapters, wired
from roundwright.cli.fit_command import OnDay, day_of
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.hall.hall import Hall
from roundwright.services.fit_class import FitRequest, fit_class
from roundwright.web.application import make_application
from roundwright.web.page_state import PageState, state_of_plan, state_without_plan


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
    no_open: Annotated[bool, typer.Option("--no-open", help="Do not open the browser.")] = False,
) -> None:
    """Fit a class and show its page in the browser. Nothing is written."""
    if (hall_folder is None) != demo:
        raise typer.BadParameter("give a hall's folder or --demo, one of the two")
    settings = read_settings({"host": host, "port": port})
    adapters = wired()
    hall = adapters.hall(hall_folder or demo_hall_folder())
    request = FitRequest(_chosen_class(hall, class_id, demo), day_of(on))
    application = make_application(_page(adapters, hall, request, settings.port))
    with _listening(settings) as listener:
        typer.echo(f"{hall.settings.name}: {settings.address}")
        typer.echo("Stop it with Ctrl+C.")
        sys.stdout.flush()
        if not no_open and _has_screen():
            webbrowser.open(settings.address)
        server = uvicorn.Server(
            uvicorn.Config(
                application,
                log_config=None,
                log_level=settings.log_level,
                access_log=False,
                server_header=False,
                ssl_certfile=settings.tls_cert,
                ssl_keyfile=settings.tls_key,
            )
        )
        try:
            server.run(sockets=[listener])
        except KeyboardInterrupt:
            typer.echo("Stopped.")


def _page(adapters: Adapters, hall: Hall, request: FitRequest, port: int) -> PageState:
    fitted = fit_class(
        hall, request, planner=adapters.planner, clock=adapters.clock, ids=adapters.ids
    )
    if fitted.document is None:
        return state_without_plan(fitted.problem, fitted.outcome, hall, port)
    return state_of_plan(fitted.document, hall, adapters.clock.stamp(), port)


def _chosen_class(hall: Hall, class_id: str | None, demo: bool) -> str:
    if class_id is not None:
        return class_id
    if demo:
        return DEMO_CLASS
    if len(hall.classes) == 1:
        return next(iter(hall.classes))
    known = ", ".join(sorted(hall.classes)) or "none"
    raise typer.BadParameter(f"say which class with --class; there are: {known}")


def _listening(settings: Settings) -> socket.socket:
    """Give a socket that listens already, so that the browser never comes too early."""
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    listener = socket.socket(family)
    try:
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind((settings.host, settings.port))
        listener.listen()
    except OSError as error:
        listener.close()
        fault = Fault(
            code="field.value",
            file="settings",
            field="port",
            value=str(settings.port),
            expected=f"a port that is free on {settings.host}",
            remedy="Choose another one with --port, or stop what uses it.",
        )
        raise BadInputError([fault]) from error
    return listener


def _has_screen() -> bool:
    """Say whether there is a person at a terminal with a screen to open a browser on."""
    if not sys.stdout.isatty():
        return False
    if sys.platform in ("darwin", "win32"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
