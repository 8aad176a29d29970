"""``roundwright change``: exercises, their order, kit, slot, and a shorter class."""

from typing import Annotated

import typer

from roundwright.cli.change_desk import PlaceArgument
from roundwright.cli.change_options import OpenDesk
from roundwright.cli.typed_values import count_of_text, kit_of, seconds_of
from roundwright.foundation.quantities import BP
from roundwright.plan.changing import change as c


def kit_lost(
    open_desk: OpenDesk,
    kit: Annotated[str, typer.Argument(metavar="KIT", help="'8 kg', or an item's id.")],
    units: Annotated[int, typer.Option(min=1, help="How many; dumbbells counted singly.")] = 1,
) -> None:
    """Take kit out of use."""
    desk = open_desk()
    mass_g, item = kit_of(kit, desk.opened.document.problem.kit)
    desk.answer(c.KitLost(unit_mass_g=mass_g, item_id=item, units=units))


def kit_back(
    open_desk: OpenDesk,
    kit: Annotated[str, typer.Argument(metavar="KIT", help="'8 kg', or an item's id.")],
    units: Annotated[int, typer.Option(min=1, help="How many; dumbbells counted singly.")] = 1,
) -> None:
    """Bring kit into use that was lost, or is new."""
    desk = open_desk()
    mass_g, item = kit_of(kit, desk.opened.document.problem.kit)
    desk.answer(c.KitBack(unit_mass_g=mass_g, item_id=item, units=units))


def slot(
    open_desk: OpenDesk,
    length: Annotated[str, typer.Argument(metavar="LENGTH", help="As '40 min'.")],
) -> None:
    """Give the class a longer or shorter slot; see also finish-by."""
    length_s = seconds_of(length, "LENGTH", least=60, most=4 * 3600)
    desk = open_desk()
    desk.answer(c.SlotChanged(slot_s=length_s))


def swap(
    open_desk: OpenDesk,
    place: PlaceArgument,
    exercise: Annotated[
        str | None,
        typer.Argument(metavar="[EXERCISE]", help="A line or combination; left out: chosen."),
    ] = None,
    count: Annotated[
        str | None, typer.Option(metavar="COUNT", help="As '8 reps', '12 a side', '30 s'.")
    ] = None,
) -> None:
    """Put another exercise at a place; without one the tool chooses."""
    wanted = None if count is None else count_of_text(count)
    if wanted is not None and exercise is None:
        raise typer.BadParameter("a count needs the exercise", param_hint="--count")
    desk = open_desk()
    desk.answer(c.ExerciseSwapped(position=place, exercise_id=exercise, count=wanted))


def order(
    open_desk: OpenDesk,
    places: Annotated[
        list[int], typer.Argument(metavar="PLACES", help="Places of now in their new order: 2 1 3.")
    ],
) -> None:
    """Put the exercises in another order."""
    desk = open_desk()
    desk.answer(c.ExercisesReordered(order=tuple(places)))


def leave_out(
    open_desk: OpenDesk,
    name: Annotated[str, typer.Argument(metavar="NAME", help="A version (movement) or a line.")],
) -> None:
    """Give nobody a version, or any of a line; something else comes to its place."""
    desk = open_desk()
    desk.answer(c.Banned(slug=name))


def drop_round(
    open_desk: OpenDesk,
) -> None:
    """Do one round less."""
    desk = open_desk()
    desk.answer(c.RoundDropped())


def shorter_rests(
    open_desk: OpenDesk,
    rest: Annotated[
        str | None, typer.Option(metavar="LENGTH", help="Between rounds; as it is when left out.")
    ] = None,
    change_over: Annotated[
        str | None,
        typer.Option("--change", metavar="LENGTH", help="Between places; as it is when left out."),
    ] = None,
) -> None:
    """Shorten rests and changes, never below what is allowed."""
    if rest is None and change_over is None:
        raise typer.BadParameter("give --rest, --change or both")
    rest_s = None if rest is None else seconds_of(rest, "--rest", least=0, most=900)
    change_s = (
        None if change_over is None else seconds_of(change_over, "--change", least=0, most=600)
    )
    desk = open_desk()
    spec = desk.opened.document.problem.spec
    desk.answer(
        c.RestsCut(
            rest_s=spec.rest_s if rest_s is None else rest_s,
            change_s=spec.change_s if change_s is None else change_s,
        )
    )


def fewer_reps(
    open_desk: OpenDesk,
    per_cent: Annotated[
        int, typer.Argument(metavar="PERCENT", min=1, max=99, help="Of each count, as 75.")
    ],
) -> None:
    """Do a share of each count."""
    desk = open_desk()
    desk.answer(c.RepsCut(share_bp=per_cent * BP // 100))


def shorter_burst(
    open_desk: OpenDesk,
    length: Annotated[
        str | None,
        typer.Argument(metavar="[LENGTH]", help="As '20 s'; left out: no burst."),
    ] = None,
) -> None:
    """Shorten the burst, or leave it out."""
    length_s = None if length is None else seconds_of(length, "LENGTH", least=1, most=600)
    desk = open_desk()
    desk.answer(c.BurstCut(length_s=length_s))
