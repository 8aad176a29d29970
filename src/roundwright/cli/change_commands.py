"""``roundwright change``: a command for each thing that a coach changes about a kept plan."""

import typer

from roundwright.cli.change_cell_commands import fix, free, instead, sit_out
from roundwright.cli.change_class_commands import (
    fewer_reps,
    kit_back,
    kit_lost,
    leave_out,
    order,
    round_less,
    shorter_burst,
    shorter_rests,
    slot,
    swap,
)
from roundwright.cli.change_people_commands import came, hurts, left, walked_in
from roundwright.cli.finish_by_command import finish_by
from roundwright.cli.revision_commands import history, redo, undo

change = typer.Typer(
    help="Change a kept plan: who, what, kit, length; undo, redo, history.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
change.command()(left)
change.command()(came)
change.command("walk-in")(walked_in)
change.command()(hurts)
change.command("kit-lost")(kit_lost)
change.command("kit-back")(kit_back)
change.command()(slot)
change.command()(swap)
change.command()(order)
change.command("leave-out")(leave_out)
change.command()(fix)
change.command()(free)
change.command()(instead)
change.command("sit-out")(sit_out)
change.command("round-less")(round_less)
change.command("shorter-rests")(shorter_rests)
change.command("fewer-reps")(fewer_reps)
change.command("shorter-burst")(shorter_burst)
change.command("finish-by")(finish_by)
change.command()(undo)
change.command()(redo)
change.command()(history)
