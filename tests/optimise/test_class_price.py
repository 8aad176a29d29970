"""What a class costs as a whole when the tool chose it, worked out by hand."""

from roundwright.body.anatomy import Muscle
from roundwright.goals.class_wish import ClassFormat
from roundwright.library.vocabulary import Demand, Pattern
from roundwright.optimise.class_price import class_price
from roundwright.people.person import Clearance
from roundwright.plan.problem import Problem
from roundwright.plan.recent import Recent, RecentExercise
from tests.optimise.small_classes import fitted
from tests.support.builders import (
    a_catalogue,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    lifting,
    mover,
    movers,
    reps,
)


def _chosen(form: ClassFormat = ClassFormat.TOGETHER, recent: Recent | None = None) -> Problem:
    """Give squat, press from the floor, and row: two people, chosen by the tool."""
    movements = [
        a_movement("squat", level=3, demands={Demand.GRIP: 2}),
        a_movement(
            "press",
            level=3,
            pattern=Pattern.HORIZONTAL_PUSH,
            muscles=mover(Muscle.CHEST),
            demands={Demand.FLOOR_RISE: 2},
        ),
        a_movement(
            "row",
            level=3,
            pattern=Pattern.HORIZONTAL_PULL,
            muscles=mover(Muscle.QUADS),
            demands={Demand.GRIP: 2},
        ),
    ]
    slugs = [m.slug for m in movements]
    library = a_catalogue(movements, [a_line(f"{s}_line", s) for s in slugs])
    exercises = ((f"{s}_line", reps(8)) for s in slugs)
    spec = a_spec(*exercises, format=form, chosen_by="tool")
    people = {p: a_person(p) for p in ("p001", "p002")}
    return a_problem(spec, library, people, recent=recent or Recent())


def test_balance_and_neighbours_in_a_line_and_closed_where_groups_rotate() -> None:
    # one push and one pull: 0; one knee and no hip: 6; to the floor and up again: 2 + 2
    assert class_price(_chosen()) == 10
    # row and squat then also follow each other: a shared mover 5, grip 4
    assert class_price(_chosen(ClassFormat.STATIONS)) == 19
    assert class_price(_chosen(ClassFormat.ANY), ClassFormat.STAGGERED) == 19
    assert class_price(_chosen(ClassFormat.ANY), ClassFormat.PAIRS) == 10


def test_what_was_done_lately_counts_by_entry_and_by_person() -> None:
    recent = Recent(
        exercises=(
            RecentExercise(exercise_id="squat_line", days_ago=3),
            RecentExercise(exercise_id="press_line", days_ago=10),
            RecentExercise(exercise_id="row_line", days_ago=20),
            RecentExercise(exercise_id="elsewhere_line", days_ago=2),
        ),
        worked={"p001": (Muscle.QUADS,), "p009": (Muscle.CHEST,)},
    )
    # pushes 2 and pull 1: 6; knees 2: 12; floor 4; squat again 8; p001 by squat and row: 6
    assert class_price(_chosen(recent=recent)) == 6 + 12 + 4 + 8 + 6


def test_the_price_of_the_class_is_in_the_outcome_and_in_the_bound() -> None:
    for form, price in ((ClassFormat.TOGETHER, 10), (ClassFormat.PAIRS, 10)):
        outcome = fitted(_chosen(form)).outcome
        assert (outcome.cost, outcome.bound) == (price, price)
    assert fitted(_chosen(ClassFormat.STATIONS)).outcome.cost == 19


def test_a_coachs_own_class_has_no_price_of_its_own() -> None:
    problem = _chosen()
    spec = problem.spec.model_copy(update={"chosen_by": "coach"})
    assert class_price(problem.model_copy(update={"spec": spec})) == 0


def _hips(loaded: bool, *levels: int, clearance: Clearance = Clearance.CLEARED) -> Problem:
    """Give a bridge as the tool's choice, with or without a load, for people of some levels."""
    bridge = a_movement(
        "bridge",
        level=2,
        pattern=Pattern.HINGE,
        muscles=movers(Muscle.HAMSTRINGS),
        kit=lifting(1) if loaded else (),
    )
    spec = a_spec(("bridge_line", reps(8)), chosen_by="tool")
    people = {
        f"p{n:03d}": a_person(f"p{n:03d}", level=level, clearance=clearance)
        for n, level in enumerate(levels)
    }
    return a_problem(spec, a_catalogue([bridge], [a_line("bridge_line", "bridge")]), people)


def test_a_hip_exercise_that_is_not_loaded_costs_by_who_is_strong() -> None:
    # one hip exercise and no knee: 6; two points for each person of level 3 or more
    assert class_price(_hips(False, 1, 2, 3, 5)) == 6 + 4
    assert class_price(_hips(False, 1, 2)) == 6
    assert class_price(_hips(True, 1, 2, 3, 5)) == 6
    assert class_price(_hips(False, 4, clearance=Clearance.UNKNOWN)) == 6
