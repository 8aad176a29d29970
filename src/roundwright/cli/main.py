"""The commands as one program: what is typed, what is printed, and the exit code."""

import sys
from collections.abc import Sequence
from importlib.metadata import version
from typing import Annotated

import typer
from typer.main import get_command

from roundwright.cli.commands import Called
from roundwright.cli.faults_shown import tell_error, tell_unexpected, tell_usage
from roundwright.foundation.collecting import collect_seldom
from roundwright.foundation.errors import RoundwrightError

app = typer.Typer(name="roundwright", cls=Called, add_completion=False, rich_markup_mode=None)


def _tell_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"roundwright {version('roundwright')}")
        raise typer.Exit


@app.callback(no_args_is_help=True)
def roundwright(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_tell_version, is_eager=True, help="Tell the version."),
    ] = False,
    debug: Annotated[bool, typer.Option("--debug", help="Show the inside of a fault.")] = False,
) -> None:
    """Plan, fit and check circuit classes for real people in a real hall."""


def main(arguments: Sequence[str]) -> int:
    """Run one command and give its exit code; nothing but the code leaves it.

    Parameters
    ----------
    arguments : sequence of str
        What was typed after the program's name.
    """
    as_json = "--json" in arguments
    try:
        code = get_command(app).main(
            args=list(arguments), prog_name="roundwright", standalone_mode=False
        )
    except RoundwrightError as error:
        return tell_error(error, as_json)
    except typer.TyperException as error:
        return tell_usage(error, as_json)
    except Exception as error:
        return tell_unexpected(error, as_json, "--debug" in arguments)
    return int(code or 0)


def run() -> None:
    """Run what the command line says and leave with its exit code."""
    collect_seldom()
    sys.exit(main(sys.argv[1:]))
