"""``roundwright change``: what one person does at one place."""

from typing import Annotated

import typer

from roundwright.cli.change_desk import PersonArgument, PlaceArgument
from roundwright.cli.change_options import OpenDesk
from roundwright.foundation.quantities import mass_g
from roundwright.plan.changing import change as c


def fix(
    open_desk: OpenDesk,
    person: PersonArgument,
    place: PlaceArgument,
    version: Annotated[
        str | None, typer.Option(metavar="VERSION", help="The movement that is done.")
    ] = None,
    load: Annotated[
        str | None, typer.Option(metavar="MASS", help="Of one dumbbell, as '6 kg'.")
    ] = None,
) -> None:
    """Set somebody's version, load or both at a place."""
    if version is None and load is None:
        raise typer.BadParameter("give --version, --load or both")
    try:
        grams = None if load is None else mass_g(load)
    except ValueError as error:
        raise typer.BadParameter("as '6 kg'", param_hint="--load") from error
    desk = open_desk()
    who = desk.person(person)
    desk.answer(c.CellSet(person=who, position=place, version=version, mass_g=grams))


def free(
    open_desk: OpenDesk,
    person: PersonArgument,
    place: PlaceArgument,
) -> None:
    """Let the tool choose again what was set for somebody."""
    desk = open_desk()
    desk.answer(c.CellFreed(person=desk.person(person), position=place))


def instead(
    open_desk: OpenDesk,
    person: PersonArgument,
    place: PlaceArgument,
    exercise: Annotated[str, typer.Argument(metavar="EXERCISE", help="A line or combination.")],
) -> None:
    """Give one person another exercise at a place: your yes to it."""
    desk = open_desk()
    who = desk.person(person)
    desk.answer(c.SubstituteSet(person=who, position=place, exercise_id=exercise))


def sit_out(
    open_desk: OpenDesk,
    person: PersonArgument,
    place: PlaceArgument,
) -> None:
    """Give one person nothing to do at a place."""
    desk = open_desk()
    desk.answer(c.SatOut(person=desk.person(person), position=place))
