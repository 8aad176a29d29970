"""A menu of exercises for small planning problems: one muscle and one pattern each."""

from typing import Any

from roundwright.body.anatomy import Muscle, Side
from roundwright.goals.class_wish import ClassFormat
from roundwright.kit.inventory import Inventory
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import Demand, KitKind, KitUse, Pattern, StrengthFamily
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.plan.rule_table import RuleTable
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_kit,
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

_BENCH = (KitNeed(item=KitKind.BENCH, use=KitUse.SUPPORT),)
_BOX = (KitNeed(item=KitKind.BOX, use=KitUse.SUPPORT),)
_ROPE = (KitNeed(item=KitKind.ROPE, use=KitUse.SKIP),)
MENU: dict[str, dict[str, Any]] = {
    "squat": {"muscles": movers(Muscle.QUADS)},
    "lifted_squat": {
        "muscles": movers(Muscle.QUADS),
        "kit": lifting(),
        "strength_family": StrengthFamily.SQUAT,
        "level": 3,
    },
    "lunge": {"pattern": Pattern.LUNGE, "muscles": movers(Muscle.GLUTES)},
    "prop_lunge": {"pattern": Pattern.LUNGE, "muscles": movers(Muscle.GLUTES), "kit": _BOX},
    "hinge": {"pattern": Pattern.HINGE, "muscles": movers(Muscle.HAMSTRINGS)},
    "lifted_hinge": {
        "pattern": Pattern.HINGE,
        "muscles": movers(Muscle.HAMSTRINGS),
        "kit": lifting(),
        "strength_family": StrengthFamily.HINGE,
        "level": 3,
    },
    "push": {
        "pattern": Pattern.HORIZONTAL_PUSH,
        "muscles": movers(Muscle.CHEST),
        "demands": {Demand.WRIST: 2},
    },
    "lifted_press": {
        "pattern": Pattern.VERTICAL_PUSH,
        "muscles": movers(Muscle.FRONT_DELTS),
        "kit": lifting(),
        "strength_family": StrengthFamily.VERTICAL_PUSH,
        "level": 3,
    },
    "pull": {"pattern": Pattern.HORIZONTAL_PULL, "muscles": movers(Muscle.LATS)},
    "bench_pull": {
        "pattern": Pattern.HORIZONTAL_PULL,
        "muscles": movers(Muscle.LATS),
        "kit": _BENCH,
    },
    "curl": {
        "pattern": Pattern.ELBOW_FLEXION,
        "muscles": mover(Muscle.BICEPS),
        "kit": lifting(),
        "strength_family": StrengthFamily.ELBOW_FLEXION,
        "level": 3,
    },
    "side_raise": {"pattern": Pattern.VERTICAL_PUSH, "muscles": mover(Muscle.SIDE_DELTS)},
    "plank": {"pattern": Pattern.TRUNK_ANTI_EXTENSION, "muscles": movers(Muscle.ABDOMINALS)},
    "hop": {"pattern": Pattern.JUMP, "muscles": mover(Muscle.CALVES), "contacts_a_rep": 1},
    "leap": {"pattern": Pattern.JUMP, "muscles": movers(Muscle.GLUTES), "contacts_a_rep": 1},
    "skip": {
        "pattern": Pattern.CARDIO,
        "muscles": mover(Muscle.CALVES),
        "low_hops_a_rep": 1,
        "kit": _ROPE,
        "level": 1,
    },
    "march": {"pattern": Pattern.CARDIO, "muscles": mover(Muscle.HIP_FLEXORS), "level": 1},
}


def the_library() -> Catalogue:
    """Each movement as a line of its own, named alike, and four combinations."""
    return a_catalogue(
        [a_movement(slug, **values) for slug, values in MENU.items()],
        [
            *(a_line(f"{slug}_line", slug) for slug in MENU),
            a_line("any_squat_line", "squat", "lifted_squat"),
        ],
        [
            a_combination(
                "squat_and_push",
                ("squat_line", Side.BOTH),
                ("push_line", Side.BOTH),
                main_muscle=Muscle.CHEST,
            ),
            a_combination("hinge_and_pull", ("hinge_line", Side.BOTH), ("pull_line", Side.BOTH)),
            a_combination(
                "squat_and_pull",
                ("squat_line", Side.BOTH),
                ("pull_line", Side.BOTH),
                main_muscle=Muscle.LATS,
            ),
            a_combination(
                "any_squat_and_pull",
                ("any_squat_line", Side.BOTH),
                ("pull_line", Side.BOTH),
                main_muscle=Muscle.LATS,
            ),
        ],
    )


def people(number: int, **changes: Any) -> dict[str, ProblemPerson]:
    """So many regulars, p001 and on."""
    return {f"p{n:03d}": a_person(f"p{n:03d}", **changes) for n in range(1, number + 1)}


def a_base(
    who: dict[str, ProblemPerson] | None = None,
    kit: Inventory | None = None,
    rules: dict[str, Any] | None = None,
    substitutes: tuple[str, ...] = (),
    **spec: Any,
) -> Problem:
    """A class without exercises."""
    return a_problem(
        a_spec(**spec),
        the_library(),
        who or people(2),
        kit or a_kit(),
        rules=RuleTable(**(rules or {})),
        substitutes=substitutes,
    )


def named(exercise: str) -> str:
    """Give the exercise's slug: a menu name stands for its line."""
    return f"{exercise}_line" if exercise in MENU else exercise


def asking(
    base: Problem,
    places: int,
    *candidates: str,
    kept: tuple[str | tuple[str, int], ...] = (),
    formats: tuple[ClassFormat, ...] = (ClassFormat.TOGETHER,),
    count: int = 8,
    **more: Any,
) -> PlanningProblem:
    """Ask for a class of so many places from some exercises."""
    return PlanningProblem(
        base=base,
        places=places,
        candidates=tuple(Candidate(exercise_id=named(c), count=reps(count)) for c in candidates),
        kept=tuple(
            KeptExercise(exercise_id=named(k), count=reps(count))
            if isinstance(k, str)
            else KeptExercise(exercise_id=named(k[0]), count=reps(count), position=k[1])
            for k in kept
        ),
        formats=formats,
        **more,
    )
