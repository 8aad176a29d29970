"""Pages on a port of this machine: said where, opened if there is a screen, until Ctrl+C."""

import os
import socket
import sys
import webbrowser

import typer
import uvicorn
from starlette.types import ASGIApp

from roundwright.bootstrap.settings import Settings
from roundwright.foundation.collecting import collect_seldom
from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault


def serve_pages(
    application: ASGIApp, settings: Settings, name: str, *, open_it: bool, at: str = ""
) -> None:
    """Serve an application until it is stopped, and say where.

    Parameters
    ----------
    name : str
        What is served, in words.
    at : str, optional
        The page that is opened, within the address.

    Raises
    ------
    BadInputError
        The port is taken.
    """
    with _listening(settings) as listener:
        typer.echo(f"{name}: {settings.address}")
        typer.echo("Stop it with Ctrl+C.")
        sys.stdout.flush()
        if open_it and _has_screen():
            webbrowser.open(settings.address + at)
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
        collect_seldom()
        try:
            server.run(sockets=[listener])
        except KeyboardInterrupt:
            typer.echo("Stopped.")


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
