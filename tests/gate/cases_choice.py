"""Broken plans about the choice of exercises: what a round has too much or too little of."""

from roundwright.body.anatomy import Muscle, Side
from roundwright.library.vocabulary import Pattern
from roundwright.plan.core import Cell
from roundwright.plan.problem import ClassSpec
from roundwright.plan.recent import Recent, RecentExercise
from tests.gate.broken_plans import breaks
from tests.gate.small_class import (
    Made,
    a_class,
    a_dose,
    a_plan,
    a_timeline,
    library,
    regular,
    steps_of,
    with_cell,
    with_core,
    with_line,
    with_movement,
    with_problem,
    with_spec,
)
from tests.support.builders import a_combination, mover, reps

NAMES = ("first_pair", "second_pair", "third_pair")
PARTS = {
    "first_pair": ("squat", "row"),
    "second_pair": ("row", "hinge"),
    "third_pair": ("hinge", "squat"),
}


def of_combinations(number: int) -> Made:
    """Make a class of so many combinations for one regular: 10 x (3 + 3) s = 60 s each."""
    catalogue = library().model_copy(
        update={
            "combinations": {
                name: a_combination(name, *((f"{p}_line", Side.BOTH) for p in PARTS[name]))
                for name in NAMES
            }
        }
    )
    problem = a_class({"p001": regular("p001")}, catalogue)
    exercises = tuple(
        e.model_copy(update={"exercise_id": NAMES[e.position - 1]})
        for e in problem.spec.exercises[:number]
    )
    spec: ClassSpec = problem.spec.model_copy(update={"exercises": exercises})
    problem = problem.model_copy(update={"spec": spec})
    cells = [
        Cell(
            person_id="p001",
            position=k,
            exercise_id=name,
            steps=tuple(s for p in PARTS[name] for s in steps_of(p)),
            count=reps(10),
            unit_mass_g=8000,
            units=2,
            limited_by=PARTS[name][0],
        )
        for k, name in enumerate(NAMES[:number], start=1)
    ]
    windows = (60,) * number
    timeline = a_timeline(problem, {1: windows, 2: windows})
    return a_plan(problem, cells, [a_dose("p001")], timeline=timeline)


@breaks("set.combinations_many")
def three_combinations() -> tuple[Made, Made]:
    return of_combinations(2), of_combinations(3)


@breaks("set.lines_twice")
def squats_twice_in_a_round() -> tuple[Made, Made]:
    made = a_plan()
    wished, planned = list(made.problem.spec.exercises), list(made.core.exercises)
    wished[2] = wished[2].model_copy(update={"exercise_id": "squat_line"})
    planned[2] = planned[2].model_copy(update={"exercise_id": "squat_line"})
    broken = with_core(with_spec(made, exercises=tuple(wished)), exercises=tuple(planned))
    for person_id in ("p001", "p002"):
        squat = {"exercise_id": "squat_line", "steps": steps_of("squat"), "limited_by": "squat"}
        broken = with_cell(broken, person_id, 3, **squat)
    return made, broken


@breaks("set.versions_twice")
def splits_that_begin_as_squats_do() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_line(made, "split_line", versions=("air_squat", "split_squat"))


@breaks("set.line_many")
def rows_in_two_exercises_where_one_may_hold_them() -> tuple[Made, Made]:
    made = of_combinations(2)  # squat and row, row and hinge
    strict = made.problem.rules.model_copy(update={"most_of_a_line": 1})
    return made, with_problem(made, rules=strict)


@breaks("set.accessories_many")
def two_exercises_for_one_muscle_each() -> tuple[Made, Made]:
    made = with_movement(a_plan(), "press", muscles=mover(Muscle.FRONT_DELTS))
    return made, with_movement(made, "hinge", muscles=mover(Muscle.HAMSTRINGS))


@breaks("set.accessories_many")
def an_elbow_exercise_beside_another_accessory() -> tuple[Made, Made]:
    made = with_movement(a_plan(), "press", muscles=mover(Muscle.FRONT_DELTS))
    return made, with_movement(made, "row", pattern=Pattern.ELBOW_FLEXION)


@breaks("set.pattern_missing")
def a_pull_for_one_muscle_alone() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_movement(made, "row", muscles=mover(Muscle.LATS))


@breaks("set.pattern_many")
def three_lunges() -> tuple[Made, Made]:
    made = with_movement(a_plan(), "press", pattern=Pattern.LUNGE)
    return made, with_movement(made, "row", pattern=Pattern.LUNGE)


@breaks("set.pattern_missing")
def no_pull() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_movement(made, "row", pattern=Pattern.LUNGE)


@breaks("set.pattern_missing")
def no_trunk_in_a_class_of_five() -> tuple[Made, Made]:
    made = a_plan()
    rules = made.problem.rules.model_copy(update={"least_places_for_trunk": 5})
    asked = with_problem(made, rules=rules)
    right = with_movement(asked, "split_squat", pattern=Pattern.TRUNK_ROTATION)
    return right, asked


@breaks("set.jumping_many")
def three_lines_with_a_jump() -> tuple[Made, Made]:
    made = with_line(a_plan(), "press_line", versions=("press", "squat_jump"))
    return made, with_line(made, "row_line", versions=("row", "squat_jump"))


@breaks("set.loaded_few")
def two_lifted_exercises_of_five() -> tuple[Made, Made]:
    # press, row and hinge are lifted; the squat's usual version, of level 3, is a jump
    made = with_movement(a_plan(), "press", kit=(), strength_family=None)
    for person_id in ("p001", "p002"):
        made = with_cell(made, person_id, 2, unit_mass_g=0, units=0, limited_by=None)
    return a_plan(), made


@breaks("coverage")
def more_than_three_times_as_many_pulls_as_pushes() -> tuple[Made, Made]:
    # 10 presses; 10 rows and 12 more pulls, then 10 more
    made = with_movement(a_plan(), "split_squat", pattern=Pattern.HORIZONTAL_PULL)
    return made, with_movement(made, "hinge", pattern=Pattern.HORIZONTAL_PULL)


def lately(made: Made, *exercises: tuple[str, int]) -> Made:
    """Let the hall have done these exercises so many days ago."""
    recent = tuple(RecentExercise(exercise_id=e, days_ago=d) for e, d in exercises)
    return with_problem(made, recent=Recent(exercises=recent))


@breaks("coverage.two_weeks")
def four_pulls_to_one_push_in_two_weeks() -> tuple[Made, Made]:
    pulls = [("row_line", 2), ("row_line", 7)]
    return lately(a_plan(), *pulls), lately(a_plan(), *pulls, ("row_line", 14))
