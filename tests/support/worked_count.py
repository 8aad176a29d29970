"""The worked count of the contracts page: its own tiny library, class and people.

Three rounds of five exercises; 3 s a part, one-arm row 2.5 s, no link or side-change time,
everyone at full dose. Expected totals stand in the tests that use it.
"""

from roundwright.body.anatomy import Muscle, Side
from roundwright.goals.class_wish import AfterLastRound, BurstWish
from roundwright.kit.inventory import KitItem
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import (
    Demand,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)
from roundwright.plan.problem import Problem
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_side,
    a_spec,
    lifting,
    mover,
    reps,
)

BOX = KitNeed(item=KitKind.BOX, use=KitUse.STEP_ON)


def library() -> Catalogue:
    """Make the tiny library: one version a line but for the step-up, which has a jump."""
    movements = (
        a_movement(
            "hinge",
            pattern=Pattern.HINGE,
            strength_family=StrengthFamily.HINGE,
            kit=lifting(),
            muscles=mover(Muscle.HAMSTRINGS),
        ),
        a_movement(
            "row",
            pattern=Pattern.HORIZONTAL_PULL,
            strength_family=StrengthFamily.HORIZONTAL_PULL,
            kit=lifting(),
            muscles=mover(Muscle.LATS),
        ),
        a_movement(
            "squat",
            strength_family=StrengthFamily.SQUAT,
            kit=lifting(),
            lifted_share=0.88,
        ),
        a_movement(
            "press",
            pattern=Pattern.VERTICAL_PUSH,
            strength_family=StrengthFamily.VERTICAL_PUSH,
            kit=lifting(),
            muscles=mover(Muscle.FRONT_DELTS),
            demands={Demand.OVERHEAD: 2},
        ),
        a_movement(
            "split_squat",
            pattern=Pattern.LUNGE,
            laterality=Laterality.UNILATERAL,
            strength_family=StrengthFamily.LUNGE_STEP,
            kit=lifting(),
            muscles=mover(Muscle.GLUTES),
        ),
        a_movement(
            "push_up",
            pattern=Pattern.HORIZONTAL_PUSH,
            strength_family=StrengthFamily.HORIZONTAL_PUSH,
            lifted_share=0.64,
            muscles=mover(Muscle.CHEST),
        ),
        a_movement(
            "plank_row",
            pattern=Pattern.TRUNK_ANTI_ROTATION,
            laterality=Laterality.UNILATERAL,
            kit=(
                KitNeed(item=KitKind.DUMBBELL, units=1, use=KitUse.LIFT),
                KitNeed(item=KitKind.DUMBBELL, units=1, use=KitUse.UNDER_HANDS),
            ),
            strength_family=StrengthFamily.HORIZONTAL_PULL,
            muscles=mover(Muscle.OBLIQUES),
        ),
        a_movement(
            "one_arm_row",
            pattern=Pattern.HORIZONTAL_PULL,
            laterality=Laterality.UNILATERAL,
            strength_family=StrengthFamily.HORIZONTAL_PULL,
            seconds_a_rep=2.5,
            kit=lifting(1),
            muscles=mover(Muscle.LATS),
        ),
        a_movement(
            "step_up",
            pattern=Pattern.STEP,
            laterality=Laterality.UNILATERAL,
            kit=(BOX,),
            strength_family=StrengthFamily.LUNGE_STEP,
            lifted_share=0.88,
        ),
        a_movement(
            "box_jump",
            pattern=Pattern.JUMP,
            level=4,
            contacts_a_rep=1,
            kit=(KitNeed(item=KitKind.BOX, use=KitUse.JUMP_ON),),
            demands={Demand.IMPACT: 3},
        ),
        a_movement(
            "skip_rope",
            pattern=Pattern.CARDIO,
            level=3,
            seconds_a_rep=0.5,
            low_hops_a_rep=1,
            rate_a_min=120,
            kit=(KitNeed(item=KitKind.ROPE, use=KitUse.SKIP),),
            demands={Demand.IMPACT: 1, Demand.VIGOROUS: 2},
            muscles=mover(Muscle.CALVES),
        ),
    )
    names = ("hinge", "row", "squat", "press", "split_squat", "push_up", "plank_row")
    lines = (
        *(a_line(f"{name}_line", name) for name in names),
        a_line("one_arm_row_line", "one_arm_row"),
        a_line("step_up_line", "step_up", "box_jump"),
        a_line("skip_line", "skip_rope"),
    )
    both, left, right = Side.BOTH, Side.LEFT, Side.RIGHT
    combinations = (
        a_combination(
            "hinge_row_squat_press",
            ("hinge_line", both),
            ("row_line", both),
            ("squat_line", both),
            ("press_line", both),
        ),
        a_combination(
            "split_squats_press",
            ("split_squat_line", left),
            ("split_squat_line", right),
            ("press_line", both),
        ),
        a_combination(
            "push_up_rows_squat",
            ("push_up_line", both),
            ("plank_row_line", left),
            ("plank_row_line", right),
            ("squat_line", both),
        ),
    )
    return a_catalogue(movements, lines, combinations)


def problem(people: int = 2) -> Problem:
    """Make the class of the worked count for some people, who all know every version."""
    spec = a_spec(
        ("hinge_row_squat_press", reps(8)),
        ("split_squats_press", reps(8)),
        ("push_up_rows_squat", reps(6)),
        ("one_arm_row_line", a_side(12)),
        ("step_up_line", a_side(10)),
        rounds=3,
        burst=BurstWish(line="skip_line", length_s=60, rate_a_min=120),
        after_last_round=AfterLastRound.BURST_AND_REST,
    )
    items = (
        KitItem(id="box", kind=KitKind.BOX, count=20, height=300, strength=200_000, stable=True),
        KitItem(id="rope", kind=KitKind.ROPE, count=20),
    )
    ids = [f"p{n:03d}" for n in range(1, people + 1)]
    return a_problem(
        spec,
        library(),
        {p: a_person(p, level=3) for p in ids},
        a_kit({8000: 40}, *items),
    )
