"""Broken plans about who does what: limits, clearance, first classes, levels."""

from roundwright.body.anatomy import Limb, Side
from roundwright.library.line import StepCriteria
from roundwright.library.version import Step
from roundwright.library.vocabulary import Demand, Pattern, StrengthFamily
from roundwright.people.person import Clearance
from tests.gate.broken_plans import breaks
from tests.gate.small_class import (
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
    with_core,
    with_dose,
    with_line,
    with_movement,
    with_person,
    with_spec,
)
from tests.support.builders import a_capacity

TWO = ("p001", "p002")


def with_newcomer(**changes: object) -> Made:
    """Make the small class with a first-timer: 6 of 10 reps, 3 of 6 a side, the march."""
    people = {"p001": regular("p001"), "p002": regular("p002", classes_done=0, **changes)}
    cells = cells_of("p001") + cells_of("p002", full=6, side=3)
    return a_plan(a_class(people, warm_up_s=480), cells, [a_dose("p001"), newcomer_dose("p002")])


def with_walk_in() -> Made:
    """Make the small class with somebody who may only do light to moderate work."""
    people = {
        "p001": regular("p001"),
        "p002": regular("p002", clearance=Clearance.MODERATE_ONLY, body_mass_g=120_000),
    }
    doses = [a_dose("p001"), a_dose("p002", rir=4, effort_ceiling=4)]
    return a_plan(a_class(people), doses=doses)


def with_jumps(person_id: str) -> Made:
    """Let one of the two do squat jumps in place of squats."""
    made = a_plan()
    return with_cell(
        made,
        person_id,
        1,
        steps=steps_of("squat_jump"),
        unit_mass_g=0,
        units=0,
        limited_by=None,
    )


@breaks("demand.above_cap")
def a_demand_above_a_cap() -> tuple[Made, Made]:
    made = with_movement(a_plan(), "squat", demands={Demand.KNEE: 2})
    eased = with_person(made, "p001", caps={Demand.KNEE: 2})
    return eased, with_person(made, "p001", caps={Demand.KNEE: 1})


@breaks("demand.above_cap")
def a_burst_above_a_cap() -> tuple[Made, Made]:
    made = with_movement(a_plan(), "march", demands={Demand.HIP: 1})
    return made, with_person(made, "p001", caps={Demand.HIP: 0})


@breaks("level.too_hard")
def two_levels_above() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_movement(made, "squat", level=4)


@breaks("level.too_hard")
def a_burst_one_level_above() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_movement(made, "march", level=3)


@breaks("version.level_above")
def one_level_above_in_a_family() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_person(made, "p001", level_by_family={StrengthFamily.SQUAT: 1})


@breaks("version.own_level_open")
def a_step_up_beside_a_version_at_the_own_level() -> tuple[Made, Made]:
    # the squat of level 2 for someone of level 1 in squats; the air squat counts by level 2
    made = with_person(a_plan(), "p001", level_by_family={StrengthFamily.SQUAT: 1})
    return with_line(made, "squat_line", versions=("squat", "squat_jump")), made


@breaks("clearance.not_cleared")
def somebody_who_should_see_a_doctor() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_person(made, "p002", clearance=Clearance.NOT_CLEARED)


@breaks("screen.unknown")
def nothing_known_of_a_walk_in() -> tuple[Made, Made]:
    made = with_walk_in()
    return made, with_person(made, "p002", clearance=Clearance.UNKNOWN)


@breaks("clearance.moderate_only")
def impact_for_light_to_moderate() -> tuple[Made, Made]:
    made = with_walk_in()
    return made, with_movement(made, "hinge", demands={Demand.IMPACT: 1})


@breaks("clearance.moderate_only")
def landings_for_light_to_moderate() -> tuple[Made, Made]:
    made = with_walk_in()
    return made, with_movement(made, "hinge", contacts_a_rep=1)


@breaks("clearance.moderate_only")
def vigorous_for_light_to_moderate() -> tuple[Made, Made]:
    made = with_movement(with_walk_in(), "hinge", demands={Demand.VIGOROUS: 1})
    return made, with_movement(made, "hinge", demands={Demand.VIGOROUS: 2})


@breaks("clearance.moderate_only")
def low_head_for_light_to_moderate() -> tuple[Made, Made]:
    made = with_movement(with_walk_in(), "hinge", demands={Demand.HEAD_LOW: 1})
    return made, with_movement(made, "hinge", demands={Demand.HEAD_LOW: 2})


@breaks("clearance.moderate_only")
def fast_level_change_for_light_to_moderate() -> tuple[Made, Made]:
    made = with_walk_in()
    return made, with_movement(made, "hinge", demands={Demand.FAST_LEVEL_CHANGE: 2})


@breaks("clearance.moderate_only")
def level_three_for_light_to_moderate() -> tuple[Made, Made]:
    made = with_person(with_walk_in(), "p002", level=3)
    return made, with_movement(made, "row", level=3)


@breaks("clearance.moderate_only")
def heavy_overhead_for_light_to_moderate() -> tuple[Made, Made]:
    # 2 x 8 kg are 16 kg; 15 % of 120 kg are 18 kg, of 100 kg 15 kg
    made = with_walk_in()
    return made, with_person(made, "p002", body_mass_g=100_000)


@breaks("clearance.moderate_only")
def too_few_reps_left_for_light_to_moderate() -> tuple[Made, Made]:
    made = with_walk_in()
    return made, with_dose(made, "p002", rir=3)


@breaks("clearance.moderate_only")
def effort_above_light_to_moderate() -> tuple[Made, Made]:
    made = with_walk_in()
    return made, with_dose(made, "p002", effort_ceiling=5)


@breaks("clearance.moderate_only")
def skipping_for_light_to_moderate() -> tuple[Made, Made]:
    made = with_walk_in()
    kit = [{"item_id": "rope", "units": 1}]
    return made, with_dose(
        made, "p002", burst="skip", burst_kit=a_dose("p002", burst_kit=kit).burst_kit
    )


@breaks("newcomer.dose")
def too_large_a_share_in_a_first_class() -> tuple[Made, Made]:
    made = with_newcomer()
    return made, with_dose(made, "p002", dose_bp=7000)


@breaks("newcomer.dose")
def too_many_rounds_in_a_first_class() -> tuple[Made, Made]:
    # cap 60 % of 3 rounds: 18,000; 5,000 x 3 = 15,000 would fit, but two rounds are the most
    people = {"p001": regular("p001"), "p002": regular("p002", classes_done=0)}
    problem = a_class(people, rounds=3, warm_up_s=480)
    doses = [a_dose("p001", rounds=(1, 2, 3)), newcomer_dose("p002", dose_bp=8500)]
    cells = cells_of("p001") + cells_of("p002", full=8, side=5)
    made = a_plan(problem, cells, doses)
    return made, with_dose(made, "p002", dose_bp=5000, rounds=(1, 2, 3))


@breaks("newcomer.dose")
def more_lunges_than_a_first_class_allows() -> tuple[Made, Made]:
    # 2 rounds x 12 a side (60 % of 20) x 2 = 48 lunges: 12 becomes floor(12 x 40 / 48) = 10
    people = {"p002": regular("p002", classes_done=0)}
    problem = a_class(people, warm_up_s=480)
    places = tuple(
        e.model_copy(update={"count": e.count.model_copy(update={"value": 20})})
        if e.position == 5
        else e
        for e in problem.spec.exercises
    )
    problem = problem.model_copy(
        update={"spec": problem.spec.model_copy(update={"exercises": places})}
    )
    # 6 x 3 x 1.2 = 21.6 -> 22 s; 10 a side: 20 x 3 x 1.2 = 72 s
    windows = (22, 22, 22, 22, 72)
    made = a_plan(
        problem,
        cells_of("p002", full=6, side=10),
        [newcomer_dose("p002")],
        timeline=a_timeline(problem, {1: windows, 2: windows}),
    )
    twelve = made.core.cells[-1].count
    assert twelve is not None
    return made, with_cell(made, "p002", 5, count=twelve.model_copy(update={"value": 12}))


@breaks("newcomer.dose")
def more_push_ups_than_a_first_class_allows() -> tuple[Made, Made]:
    # the hinge's place as a push-up: 2 rounds x 6 reps = 12; with 20 reps 12 x 2 = 24, above 20
    change = {
        "pattern": Pattern.HORIZONTAL_PUSH,
        "lifted_share": 0.3,
        "strength_family": None,
        "kit": (),
    }
    made = with_movement(with_newcomer(), "hinge", **change)
    for person_id in TWO:
        made = with_cell(made, person_id, 4, unit_mass_g=0, units=0, limited_by=None)
    places = list(made.problem.spec.exercises)
    twenty = places[3].count.model_copy(update={"value": 20})
    places[3] = places[3].model_copy(update={"count": twenty})
    made = with_spec(made, exercises=tuple(places))
    exercises = list(made.core.exercises)
    exercises[3] = exercises[3].model_copy(update={"count": twenty})
    made = with_core(made, exercises=tuple(exercises))
    windows = (30, 30, 30, 60, 36)
    made = with_core(made, timeline=a_timeline(made.problem, {1: windows, 2: windows}))
    made = with_cell(made, "p001", 4, count=twenty)
    # floor(12 x 20 / 24) = 10
    right = with_cell(made, "p002", 4, count=twenty.model_copy(update={"value": 10}))
    return right, with_cell(right, "p002", 4, count=twenty.model_copy(update={"value": 12}))


@breaks("newcomer.dose")
def a_landing_in_a_first_class() -> tuple[Made, Made]:
    made = with_newcomer()
    return made, with_movement(made, "row", contacts_a_rep=1)


@breaks("newcomer.dose")
def a_harder_burst_in_a_first_class() -> tuple[Made, Made]:
    made = with_newcomer()
    kit = a_dose("p002", burst_kit=[{"item_id": "rope", "units": 1}]).burst_kit
    return made, with_dose(made, "p002", burst="skip", burst_kit=kit)


@breaks("newcomer.dose")
def too_few_reps_left_in_a_first_class() -> tuple[Made, Made]:
    made = with_newcomer()
    return made, with_dose(made, "p002", rir=4)


@breaks("newcomer.dose")
def too_much_effort_in_a_first_class() -> tuple[Made, Made]:
    made = with_newcomer()
    return made, with_dose(made, "p002", effort_ceiling=7)


@breaks("newcomer.dose")
def full_volume_after_three_weeks_away() -> tuple[Made, Made]:
    made = with_person(a_plan(), "p001", days_since_last=13)
    return made, with_person(made, "p001", days_since_last=21)


@breaks("child.lifting")
def a_child_who_lifts() -> tuple[Made, Made]:
    made = with_person(a_plan(), "p001", youngest_age=16, oldest_age=17)
    return made, with_person(made, "p001", youngest_age=15, oldest_age=16)


@breaks("version.banned")
def a_version_that_is_ruled_out() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_spec(made, ban=("row",))


@breaks("version.banned")
def a_burst_that_is_ruled_out() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_spec(made, ban=("march",))


@breaks("side.unequal")
def one_side_left_out() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_cell(
        made, "p001", 5, steps=(Step(movement_id="split_squat", side=Side.LEFT),)
    )


@breaks("side.unused")
def a_side_that_is_not_used() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_person(made, "p001", unused={Limb.LEG: Side.RIGHT})


@breaks("side.unused")
def two_sides_for_somebody_of_whom_nobody_said_which() -> tuple[Made, Made]:
    made = with_person(a_plan(), "p001", unused={Limb.ARM: Side.BOTH})
    return made, with_person(made, "p001", unused={Limb.LEG: Side.BOTH})


@breaks("criteria.not_met")
def a_step_taken_early() -> tuple[Made, Made]:
    made = with_line(a_plan(), "row_line", steps=(StepCriteria(to="row", min_classes=30),))
    return made, with_line(made, "row_line", steps=(StepCriteria(to="row", min_classes=31),))


@breaks("load.may_fail")
def a_load_that_may_fail() -> tuple[Made, Made]:
    made = a_plan()
    weak = a_capacity("p001", "press", 23.0)
    return made, with_person(
        made, "p001", capacities=(*made.problem.people["p001"].capacities, weak)
    )


@breaks("load.may_fail")
def a_load_of_which_nothing_is_known() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_person(made, "p001", capacities=())
