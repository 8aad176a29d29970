"""Broken plans about the class: order, time, floor, landings, teaching, company."""

from roundwright.body.anatomy import Muscle
from roundwright.goals.class_wish import ClassFormat
from roundwright.kit.inventory import Room
from roundwright.library.vocabulary import Demand
from roundwright.plan.core import CellState
from roundwright.plan.problem import ProblemPerson
from tests.gate.broken_plans import breaks
from tests.gate.cases_kit_and_load import ROPES
from tests.gate.small_class import (
    WINDOWS,
    Made,
    a_class,
    a_dose,
    a_plan,
    a_timeline,
    cells_of,
    newcomer_dose,
    regular,
    steps_of,
    with_cell,
    with_class,
    with_core,
    with_dose,
    with_movement,
    with_person,
    with_problem,
    with_spec,
)
from tests.support.builders import mover, reps


def with_jumps(count: int) -> Made:
    """Let p001 do so many squat jumps a round in place of ten squats, at the first place."""
    made = a_plan()
    places = [
        e.model_copy(update={"count": reps(count)}) if e.position == 1 else e
        for e in made.problem.spec.exercises
    ]
    made = with_spec(made, exercises=tuple(places))
    planned = [
        e.model_copy(update={"count": reps(count)}) if e.position == 1 else e
        for e in made.core.exercises
    ]
    made = with_core(made, exercises=tuple(planned))
    windows = (3 * count, *WINDOWS[1:])
    made = with_core(made, timeline=a_timeline(made.problem, {1: windows, 2: windows}))
    made = with_cell(made, "p002", 1, count=reps(count))
    jumps = {"steps": steps_of("squat_jump"), "unit_mass_g": 0, "units": 0, "limited_by": None}
    return with_cell(made, "p001", 1, count=reps(count), **jumps)


def with_rest(rest_s: int) -> Made:
    """Make the small class with another rest between rounds."""
    return a_plan(a_class(rest_s=rest_s))


def everyone(
    people: dict[str, ProblemPerson], new: frozenset[str] | set[str] = frozenset()
) -> Made:
    """Make the small class for other people; the new ones with the dose of a first class."""
    cells = [c for p in people for c in (cells_of(p, 6, 3) if p in new else cells_of(p))]
    doses = [newcomer_dose(p) if p in new else a_dose(p) for p in people]
    problem = a_class(people, warm_up_s=480)
    problem = problem.model_copy(
        update={
            "kit": problem.kit.model_copy(
                update={
                    "dumbbells": tuple(
                        d.model_copy(update={"count": 200}) for d in problem.kit.dumbbells
                    )
                }
            )
        }
    )
    return a_plan(problem, cells, doses)


def some(number: int) -> dict[str, ProblemPerson]:
    """Make so many regulars."""
    return {p: regular(p) for p in (f"p{n:03d}" for n in range(1, number + 1))}


def in_pairs(new: frozenset[str] | set[str] = frozenset()) -> Made:
    """Make the small class in pairs: p001 first, then p002; halves 30 and 30 s, swap 6 s."""
    people = {p: regular(p, classes_done=0 if p in new else 30) for p in ("p001", "p002")}
    problem = a_class(people, warm_up_s=480, format=ClassFormat.PAIRS)
    cells = [c for p in people for c in (cells_of(p, 6, 3) if p in new else cells_of(p))]
    doses = [newcomer_dose(p) if p in new else a_dose(p) for p in people]
    # 6 reps x 3 s x 1.2 = 21.6 -> 22 s
    each = {p: (22, 22, 22, 22, 22) if p in new else WINDOWS for p in people}
    halves = {k: (each["p001"][k - 1], each["p002"][k - 1]) for k in range(1, 6)}
    windows = tuple(sum(halves[k]) + 6 for k in range(1, 6))
    timeline = a_timeline(problem, {1: windows, 2: windows}, halves=halves)
    return a_plan(problem, cells, doses, timeline=timeline, form=ClassFormat.PAIRS)


def stands_in(made: Made, person_id: str, position: int) -> Made:
    """Let somebody do bridges for another exercise; 10 reps of 3 s, as long as the rest."""
    total = 12 if position == 5 else 10
    return with_cell(
        made,
        person_id,
        position,
        state=CellState.SUBSTITUTE,
        exercise_id="bridge_line",
        steps=steps_of("bridge"),
        count=reps(total),
        unit_mass_g=0,
        units=0,
        limited_by=None,
    )


@breaks("order.after_burst")
def lying_right_after_a_burst() -> tuple[Made, Made]:
    made = with_movement(with_rest(30), "squat", demands={Demand.ON_BACK: 1})
    short = with_movement(with_rest(29), "squat", demands={Demand.ON_BACK: 1})
    rules = made.problem.rules.model_copy(update={"rest_floor_s": 20})
    return with_problem(made, rules=rules), with_problem(short, rules=rules)


@breaks("order.last_place")
def a_jump_at_the_very_end() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_movement(made, "split_squat", contacts_a_rep=1)


@breaks("order.last_place")
def one_leg_balance_at_the_very_end() -> tuple[Made, Made]:
    made = with_movement(a_plan(), "split_squat", demands={Demand.BALANCE: 2})
    return made, with_movement(made, "split_squat", demands={Demand.BALANCE: 3})


@breaks("contacts.over_limit")
def one_landing_too_many() -> tuple[Made, Made]:
    # classes 30, level 2: 20 landings; 2 rounds of 10 are 20, where a set may be as long
    def of_long_sets(made: Made) -> Made:
        rules = made.problem.rules.model_copy(update={"most_landings_a_set": 11})
        return with_problem(made, rules=rules)

    return of_long_sets(with_jumps(10)), of_long_sets(with_jumps(11))


@breaks("contacts.long_set")
def nine_jumps_in_one_set() -> tuple[Made, Made]:
    # floor page D: sets of at most 8 landings (common practice, no source)
    return with_jumps(8), with_jumps(9)


@breaks("contacts.cut_short")
def ten_reps_cut_to_two_jumps() -> tuple[Made, Made]:
    # level 3, so that the jump is at their level; 10 squats are the own count, of which sets
    # of 3 landings leave three tenths and sets of 2 less
    def of_short_sets(most: int) -> Made:
        made = with_person(with_jumps(10), "p001", level=3)
        made = with_cell(made, "p001", 1, count=reps(most))
        rules = made.problem.rules.model_copy(update={"most_landings_a_set": most})
        return with_problem(made, rules=rules)

    return of_short_sets(3), of_short_sets(2)


@breaks("low_hops.over_limit")
def more_skips_than_usual() -> tuple[Made, Made]:
    # 60 s at 120 a minute, two rounds: 240; classes 8: 360, classes 7: 180
    made = with_dose(a_plan(), "p001", burst="skip", burst_kit=ROPES)
    made = with_dose(made, "p001", rir=3)
    made = with_person(made, "p001", classes_done=8)
    return made, with_person(made, "p001", classes_done=7)


@breaks("slot.overrun")
def a_class_longer_than_its_slot() -> tuple[Made, Made]:
    made = with_class(with_spec(a_plan(), slot_s=1482), slot_s=1482)
    return made, with_class(with_spec(made, slot_s=1481), slot_s=1481)


@breaks("slot.no_margin")
def nothing_left_to_clear_up() -> tuple[Made, Made]:
    made = with_class(with_spec(a_plan(), slot_s=1782), slot_s=1782)
    return made, with_class(with_spec(made, slot_s=1781), slot_s=1781)


def with_room(made: Made, **changes: object) -> Made:
    """Change the room."""
    values = {"id": "main", "name": "Main hall", "length": 5000, "width": 2000} | changes
    return with_problem(made, room=Room.model_validate(values))


@breaks("space.floor")
def too_little_floor_for_the_people() -> tuple[Made, Made]:
    # 2 people of 4.65 m2 are 9.3 m2
    return with_room(a_plan()), with_room(a_plan(), length=4600)


@breaks("space.floor")
def too_little_floor_for_a_movement() -> tuple[Made, Made]:
    # each moves on 4 m2: 8 m2 of the 10; with 3 by 2 m they need 12
    made = with_room(a_plan())
    floor = made.problem.library.movements["row"].floor.model_copy(update={"length": 3000})
    return made, with_movement(made, "row", floor=floor)


@breaks("time.below_floor")
def a_short_warm_up() -> tuple[Made, Made]:
    return a_plan(a_class(warm_up_s=300)), a_plan(a_class(warm_up_s=299))


@breaks("time.below_floor")
def a_short_cool_down() -> tuple[Made, Made]:
    return a_plan(a_class(cool_down_s=240)), a_plan(a_class(cool_down_s=239))


@breaks("time.below_floor")
def a_short_change() -> tuple[Made, Made]:
    return a_plan(a_class(change_s=8)), a_plan(a_class(change_s=7))


@breaks("time.below_floor")
def a_short_rest() -> tuple[Made, Made]:
    return with_rest(30), with_rest(29)


@breaks("warm_up.short_for_eased")
def a_short_warm_up_for_an_older_person() -> tuple[Made, Made]:
    made = with_person(a_plan(), "p001", oldest_age=64)
    windows = (42, 42, 42, 42, 50)
    older = with_person(made, "p001", oldest_age=65)
    # 30 x 1.4 = 42 s; 36 x 1.4 = 50.4 -> 50 s
    timeline = a_timeline(older.problem, {1: windows, 2: windows})
    return made, with_core(older, timeline=timeline)


@breaks("timeline.wrong")
def a_window_a_second_longer() -> tuple[Made, Made]:
    made = a_plan()
    windows = (30, 31, 30, 30, 36)
    return made, with_core(made, timeline=a_timeline(made.problem, {1: WINDOWS, 2: windows}))


@breaks("timeline.wrong")
def the_cool_down_left_out() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_core(made, timeline=made.core.timeline[:-1])


@breaks("timeline.wrong")
def halves_that_are_not_those_of_the_pair() -> tuple[Made, Made]:
    made = in_pairs()
    windows = list(made.core.timeline)
    windows[2] = windows[2].model_copy(update={"halves_s": (29, 31)})
    return made, with_core(made, timeline=tuple(windows))


@breaks("substitute.asks")
def another_exercise_for_one_person() -> tuple[Made, Made]:
    made = a_plan()
    return made, stands_in(made, "p001", 3)


@breaks("substitute.many")
def two_other_exercises_for_one_person() -> tuple[Made, Made]:
    made = stands_in(a_plan(), "p001", 3)
    return made, stands_in(made, "p001", 2)


@breaks("substitute.many")
def four_other_exercises_in_a_class() -> tuple[Made, Made]:
    made = everyone(some(4))
    for n in (1, 2, 3):
        made = stands_in(made, f"p00{n}", n)
    return made, stands_in(made, "p004", 3)


@breaks("sit_out")
def a_place_left_out() -> tuple[Made, Made]:
    made = a_plan()
    nothing = {"steps": (), "count": None, "unit_mass_g": 0, "units": 0, "limited_by": None}
    return made, with_cell(made, "p001", 3, state=CellState.SIT_OUT, exercise_id=None, **nothing)


@breaks("sit_out")
def a_burst_left_out() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_dose(made, "p001", burst=None)


@breaks("versions.many")
def four_versions_of_one_exercise() -> tuple[Made, Made]:
    made = everyone(some(4))
    lines = made.problem.library.lines
    line = lines["split_line"].model_copy(
        update={"versions": ("split_squat", "march", "bridge", "air_squat")}
    )
    catalogue = made.problem.library.model_copy(update={"lines": lines | {"split_line": line}})
    made = with_problem(made, library=catalogue)
    for n, slug in ((2, "bridge"), (3, "air_squat")):
        made = with_cell(made, f"p00{n}", 5, steps=steps_of(slug), count=reps(12))
    return made, with_cell(made, "p004", 5, steps=steps_of("march"), count=reps(12))


@breaks("neighbours.same_muscle")
def two_in_a_row_for_the_same_muscle() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_movement(made, "row", muscles=mover(Muscle.FRONT_DELTS))


@breaks("neighbours.same_muscle")
def the_burst_beside_its_own_muscle() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_movement(made, "march", muscles=mover(Muscle.GLUTES))


@breaks("people.many")
def more_people_than_one_coach_can_watch() -> tuple[Made, Made]:
    return everyone(some(16)), everyone(some(17))


@breaks("people.many")
def more_jumpers_than_one_coach_can_watch() -> tuple[Made, Made]:
    jumps = {"steps": steps_of("squat_jump"), "unit_mass_g": 0, "units": 0, "limited_by": None}
    jumps["count"] = reps(8)  # one set holds eight landings
    right, broken = everyone(some(12)), everyone(some(13))
    return with_cell(right, "p001", 1, **jumps), with_cell(broken, "p001", 1, **jumps)


@breaks("first_timers.many")
def four_first_timers_for_one_coach() -> tuple[Made, Made]:
    def plan(number: int) -> Made:
        people = some(5)
        new = set(list(people)[:number])
        people = {p: regular(p, classes_done=0 if p in new else 30) for p in people}
        return everyone(people, new)

    return plan(3), plan(4)


@breaks("first_timers.paired")
def two_first_timers_as_partners() -> tuple[Made, Made]:
    return in_pairs({"p002"}), in_pairs({"p001", "p002"})
