"""Small planning problems worked by hand: everyone level 2, loads that suit exactly."""

from typing import Any

from roundwright.body.anatomy import Muscle
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, Pattern
from roundwright.plan.planning_problem import Candidate, PlanningProblem
from roundwright.plan.recent import Recent
from roundwright.plan.rule_table import RuleTable
from tests.support.builders import (
    a_catalogue,
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

AROUND_S = 300 + 240 + 300
"""Warm-up, demonstration and cool-down of `a_spec`."""


def loaded(slug: str, pattern: Pattern, muscle: Muscle, **changes: Any) -> Movement:
    """A movement of level 2 that lifts one dumbbell of exactly 8 kg."""
    return a_movement(
        slug,
        pattern=pattern,
        muscles=movers(muscle),
        kit=lifting(1),
        assumed_load_by_level={"2": 8000},
        **changes,
    )


MOVEMENTS = (
    loaded("squat", Pattern.SQUAT, Muscle.QUADS),
    loaded("lunge", Pattern.LUNGE, Muscle.QUADS),
    loaded("hinge", Pattern.HINGE, Muscle.HAMSTRINGS, demands={Demand.LOW_BACK: 2}),
    loaded("push", Pattern.HORIZONTAL_PUSH, Muscle.CHEST),
    loaded("press", Pattern.VERTICAL_PUSH, Muscle.FRONT_DELTS),
    loaded("row", Pattern.HORIZONTAL_PULL, Muscle.LATS, demands={Demand.LOW_BACK: 2}),
    loaded("pull", Pattern.HORIZONTAL_PULL, Muscle.LATS),
    loaded("plank", Pattern.TRUNK_ANTI_EXTENSION, Muscle.ABDOMINALS),
    a_movement("sit_up", pattern=Pattern.TRUNK_FLEXION, muscles=mover(Muscle.ABDOMINALS)),
    a_movement("bridge", pattern=Pattern.HINGE, muscles=movers(Muscle.GLUTES)),
    a_movement("march", pattern=Pattern.CARDIO, level=2, muscles=mover(Muscle.CALVES)),
    a_movement("skip_burst", pattern=Pattern.CARDIO, level=2, muscles=mover(Muscle.QUADS)),
)
LIBRARY = a_catalogue(MOVEMENTS, [a_line(f"{m.slug}_line", m.slug) for m in MOVEMENTS])


def a_planning(
    *names: str,
    places: int = 2,
    people: int = 1,
    units: int = 40,
    library: Catalogue = LIBRARY,
    rules: RuleTable | None = None,
    recent: Recent | None = None,
    substitutes: tuple[str, ...] = (),
    spec: dict[str, Any] | None = None,
    person: dict[str, Any] | None = None,
    **changes: Any,
) -> PlanningProblem:
    """Choose `places` of the named lines, ten reps each, for people of level 2."""
    base = a_problem(
        a_spec(**(spec or {})),
        library,
        {
            f"p{n:03d}": a_person(f"p{n:03d}", **({"level": 2} | (person or {})))
            for n in range(1, people + 1)
        },
        a_kit({8000: units}),
        rules=rules or RuleTable(),
        recent=recent or Recent(),
        substitutes=substitutes,
    )
    values: dict[str, Any] = {
        "base": base,
        "places": places,
        "candidates": tuple(Candidate(exercise_id=f"{n}_line", count=reps(10)) for n in names),
    }
    return PlanningProblem(**(values | changes))
