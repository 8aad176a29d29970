"""``roundwright change``: exercises, their order, kit, slot, and a shorter class."""

from typing import Annotated

import typer

from roundwright.cli.change_desk import HallOption, PlaceArgument, PlanFile, ShowOnly, desk_of
from roundwright.cli.fit_command import AsJson, SearchBudget, Seed
from roundwright.cli.typed_values import count_of_text, kit_of, seconds_of
from roundwright.foundation.quantities import BP
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.plan.changing import change as c
from roundwright.plan.outcome import Budget


def kit_lost(
    plan_file: PlanFile,
    kit: Annotated[str, typer.Argument(metavar="KIT", help="'8 kg', or an item's id.")],
    units: Annotated[int, typer.Option(min=1, help="How many; dumbbells counted singly.")] = 1,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Take kit out of use."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    mass_g, item = kit_of(kit, desk.opened.document.problem.kit)
    desk.answer(c.KitLost(unit_mass_g=mass_g, item_id=item, units=units))


def kit_back(
    plan_file: PlanFile,
    kit: Annotated[str, typer.Argument(metavar="KIT", help="'8 kg', or an item's id.")],
    units: Annotated[int, typer.Option(min=1, help="How many; dumbbells counted singly.")] = 1,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Bring kit into use that was lost, or is new."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    mass_g, item = kit_of(kit, desk.opened.document.problem.kit)
    desk.answer(c.KitBack(unit_mass_g=mass_g, item_id=item, units=units))


def slot(
    plan_file: PlanFile,
    length: Annotated[str, typer.Argument(metavar="LENGTH", help="As '40 min'.")],
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Give the class a longer or shorter slot; see also finish-by."""
    length_s = seconds_of(length, "LENGTH", least=60, most=4 * 3600)
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.SlotChanged(slot_s=length_s))


def swap(
    plan_file: PlanFile,
    place: PlaceArgument,
    exercise: Annotated[
        str | None,
        typer.Argument(metavar="[EXERCISE]", help="A line or combination; left out: chosen."),
    ] = None,
    count: Annotated[
        str | None, typer.Option(metavar="COUNT", help="As '8 reps', '12 a side', '30 s'.")
    ] = None,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Put another exercise at a place; without one the tool chooses."""
    wanted = None if count is None else count_of_text(count)
    if wanted is not None and exercise is None:
        raise typer.BadParameter("a count needs the exercise", param_hint="--count")
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.ExerciseSwapped(position=place, exercise_id=exercise, count=wanted))


def order(
    plan_file: PlanFile,
    places: Annotated[
        list[int], typer.Argument(metavar="PLACES", help="Places of now in their new order: 2 1 3.")
    ],
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Put the exercises in another order."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.ExercisesReordered(order=tuple(places)))


def leave_out(
    plan_file: PlanFile,
    name: Annotated[str, typer.Argument(metavar="NAME", help="A version (movement) or a line.")],
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Give nobody a version, or any of a line; something else comes to its place."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.Banned(slug=name))


def round_less(
    plan_file: PlanFile,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Do one round less."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.RoundDropped())


def shorter_rests(
    plan_file: PlanFile,
    rest: Annotated[
        str | None, typer.Option(metavar="LENGTH", help="Between rounds; as it is when left out.")
    ] = None,
    change_over: Annotated[
        str | None,
        typer.Option("--change", metavar="LENGTH", help="Between places; as it is when left out."),
    ] = None,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Shorten rests and changes, never below their floors."""
    if rest is None and change_over is None:
        raise typer.BadParameter("give --rest, --change or both")
    rest_s = None if rest is None else seconds_of(rest, "--rest", least=0, most=900)
    change_s = (
        None if change_over is None else seconds_of(change_over, "--change", least=0, most=600)
    )
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    spec = desk.opened.document.problem.spec
    desk.answer(
        c.RestsCut(
            rest_s=spec.rest_s if rest_s is None else rest_s,
            change_s=spec.change_s if change_s is None else change_s,
        )
    )


def fewer_reps(
    plan_file: PlanFile,
    per_cent: Annotated[
        int, typer.Argument(metavar="PERCENT", min=1, max=99, help="Of each count, as 75.")
    ],
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Do a share of each count."""
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.RepsCut(share_bp=per_cent * BP // 100))


def shorter_burst(
    plan_file: PlanFile,
    length: Annotated[
        str | None,
        typer.Argument(metavar="[LENGTH]", help="As '20 s'; left out: no burst."),
    ] = None,
    hall_folder: HallOption = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    show_only: ShowOnly = False,
    as_json: AsJson = False,
) -> None:
    """Shorten the burst, or leave it out."""
    length_s = None if length is None else seconds_of(length, "LENGTH", least=1, most=600)
    desk = desk_of(plan_file, hall_folder, seed, budget, show_only, as_json)
    desk.answer(c.BurstCut(length_s=length_s))
