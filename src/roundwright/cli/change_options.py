"""What every command of ``roundwright change`` is told besides its own: one definition for all."""

from collections.abc import Callable
from functools import partial
from inspect import Parameter, Signature, signature
from typing import Annotated, Any

import typer

from roundwright.cli.change_desk import ChangeDesk, HallOption, PlanFile
from roundwright.cli.fit_command import AsJson, SearchBudget, Seed
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.plan.outcome import Budget

ShowOnly = Annotated[bool, typer.Option("--show-only", help="Say what it would do; keep nothing.")]
OpenDesk = Callable[[], ChangeDesk]
"""Opens the plan that a command changes."""
Command = Callable[..., None]


def _option(name: str, kind: object, default: object) -> Parameter:
    return Parameter(name, Parameter.KEYWORD_ONLY, default=default, annotation=kind)


def changes_a_plan(act: Command, *, budget: Budget = Budget.NORMAL) -> Command:
    """Make a command of what is done with a plan.

    Parameters
    ----------
    act : callable
        Its first parameter opens the plan; the others are the command's own.
    budget : Budget
        The work that is searched with when nothing is said.

    Returns
    -------
    callable
        With PLAN first, then the command's own, then the options of every change.
    """
    own = list(signature(act).parameters.values())[1:]
    plan = Parameter("plan_file", Parameter.POSITIONAL_OR_KEYWORD, annotation=PlanFile)
    shared = (
        _option("hall_folder", HallOption, None),
        _option("seed", Seed, DEFAULT_SEED),
        _option("budget", SearchBudget, budget),
        _option("show_only", ShowOnly, False),
        _option("as_json", AsJson, False),
    )

    def command(**told: Any) -> None:
        mine = {parameter.name: told[parameter.name] for parameter in own}
        rest = {name: value for name, value in told.items() if name not in mine}
        act(partial(ChangeDesk, **rest), **mine)

    parameters = [plan, *own, *shared]
    command.__name__, command.__doc__ = act.__name__, act.__doc__
    command.__module__ = act.__module__
    command.__annotations__ = {p.name: p.annotation for p in parameters}
    command.__signature__ = Signature(parameters)  # type: ignore[attr-defined]
    return command
