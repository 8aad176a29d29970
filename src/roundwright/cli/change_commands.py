"""``roundwright change``: a command for each thing that a coach changes about a kept plan."""

import typer

from roundwright.cli.change_cell_commands import fix, free, instead, sit_out
from roundwright.cli.change_class_commands import (
    drop_round,
    fewer_reps,
    kit_back,
    kit_lost,
    leave_out,
    order,
    shorter_burst,
    shorter_rests,
    slot,
    swap,
)
from roundwright.cli.change_options import Command, changes_a_plan
from roundwright.cli.change_people_commands import came, hurts, left, walked_in
from roundwright.cli.finish_by_command import finish_by
from roundwright.cli.revision_commands import history, redo, undo
from roundwright.plan.outcome import Budget

change = typer.Typer(
    help="Change a kept plan: who, what, kit, length; undo, redo, history.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
COMMANDS: dict[str, Command] = {
    "leaves": left,
    "joins": came,
    "walk-in": walked_in,
    "hurts": hurts,
    "kit-lost": kit_lost,
    "kit-back": kit_back,
    "slot": slot,
    "swap": swap,
    "order": order,
    "leave-out": leave_out,
    "set": fix,
    "unset": free,
    "instead": instead,
    "sit-out": sit_out,
    "drop-round": drop_round,
    "shorter-rests": shorter_rests,
    "fewer-reps": fewer_reps,
    "shorter-burst": shorter_burst,
}
for name, act in COMMANDS.items():
    change.command(name)(changes_a_plan(act))
change.command("finish-by")(changes_a_plan(finish_by, budget=Budget.QUICK))
change.command()(undo)
change.command()(redo)
change.command()(history)
