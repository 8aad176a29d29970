"""The commands by name, each loaded when it is called: none waits for what the others need."""

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from typing import Any

import typer
from typer.core import TyperGroup
from typer.main import get_command

PLACES = {
    "fit": "fit_command:fit",
    "plan": "plan_command:plan",
    "check": "check_command:check",
    "count": "count_command:count",
    "rehearse": "rehearse_command:rehearse",
    "write-class": "write_class_command:write_class",
    "print": "print_command:print_",
    "serve": "serve_command:serve",
    "house": "house_command:house",
    "change": "change_commands:change",
    "library": "library_commands:library",
    "keep": "keep_commands:keep",
}
"""Where each command, or group of commands, is: `module:name` of this folder."""


class Commands(Mapping[str, Any]):
    """Every command by its name, in the order in which help shows them."""

    def __getitem__(self, name: str) -> Any:
        return _loaded(name)

    def __iter__(self) -> Iterator[str]:
        return iter(PLACES)

    def __len__(self) -> int:
        return len(PLACES)


class Called(TyperGroup):
    """A group whose commands are those of `PLACES`."""

    def __init__(self, **attrs: Any) -> None:
        super().__init__(**attrs)
        self.commands = Commands()  # type: ignore[assignment]  # only ever read


@cache
def _loaded(name: str) -> Any:
    module, found = PLACES[name].split(":")
    command = getattr(import_module(f"roundwright.cli.{module}"), found)
    alone = typer.Typer(add_completion=False, rich_markup_mode=None)
    if isinstance(command, typer.Typer):
        alone.add_typer(command, name=name)
        return get_command(alone).commands[name]  # type: ignore[attr-defined]
    alone.command(name)(command)
    return get_command(alone)
