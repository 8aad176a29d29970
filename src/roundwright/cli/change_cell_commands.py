"""``roundwright change``: what one person does at one place."""

from typing import Annotated

import typer

from roundwright.cli.change_desk import (
    HallOption,
    PersonArgument,
    PlaceArgument,
    PlanFile,
    ShowOnly,
    desk_of,
)
from roundwright.cli.fit_command import AsJson, SearchBudget, Seed
from roundwright.foundation.quantities import mass_g
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.plan.changing import change as c
from roundwright.plan.outcome import Budget


def fix(
    plan_file: PlanFile,
    person: PersonArgument,
    place: PlaceArgument,
    version: Annotated[
        str | None, typer.Option(metavar="VERSION", help="The movement that is done.")
    ] = None,
    load: Annotated[
        str | None, typer.Option(metavar="MASS", help="Of one dumbbell, as '6 kg'.")
    ] = None,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Fix somebody's version, load or both at a place."""
    if version is None and load is None:
        raise typer.BadParameter("give --version, --load or both")
    try:
        grams = None if load is None else mass_g(load)
    except ValueError as error:
        raise typer.BadParameter("as '6 kg'", param_hint="--load") from error
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    who = desk.person(person)
    desk.answer(c.CellSet(person=who, position=place, version=version, mass_g=grams))


def free(
    plan_file: PlanFile,
    person: PersonArgument,
    place: PlaceArgument,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Free what was fixed for somebody at a place."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.CellFreed(person=desk.person(person), position=place))


def instead(
    plan_file: PlanFile,
    person: PersonArgument,
    place: PlaceArgument,
    exercise: Annotated[str, typer.Argument(metavar="EXERCISE", help="A line or combination.")],
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Give one person another exercise at a place: your yes to it."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    who = desk.person(person)
    desk.answer(c.SubstituteSet(person=who, position=place, exercise_id=exercise))


def sit_out(
    plan_file: PlanFile,
    person: PersonArgument,
    place: PlaceArgument,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Give one person nothing to do at a place."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.SatOut(person=desk.person(person), position=place))
