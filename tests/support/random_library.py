"""A hand-made library of 30 movements, twelve lines and seven combinations for drawn halls.

It holds one of everything that the rules look at; lunges, steps and holds work one muscle
and so are accessories. The figures are invented for tests and say nothing about people.
"""

from typing import Any

from roundwright.body.anatomy import Muscle, Side
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination, Part
from roundwright.library.line import StepCriteria
from roundwright.library.movement import KitNeed, Movement
from roundwright.library.vocabulary import (
    Demand,
    DoneAs,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_line,
    a_movement,
    lifting,
    mover,
    movers,
)

BURST_LINE = "burst_line"
ONE_SIDED = frozenset({"one_side_pulls", "bug_and_squat"})
"""Combinations that work one side: only a count per side treats both sides alike."""
UNLOADED_HIPS = ("wall_hinge", "one_leg_hinge")


def _need(kind: KitKind, use: KitUse, **more: Any) -> KitNeed:
    return KitNeed(item=kind, use=use, **more)


def _legs() -> tuple[Movement, ...]:
    lunge = {
        "pattern": Pattern.LUNGE,
        "strength_family": StrengthFamily.LUNGE_STEP,
        "muscles": mover(Muscle.GLUTES),
    }
    squat = {"strength_family": StrengthFamily.SQUAT, "muscles": movers(Muscle.QUADS)}
    hinge = {"pattern": Pattern.HINGE, "muscles": movers(Muscle.HAMSTRINGS)}
    return (
        a_movement(
            "seat_squat",
            level=1,
            lifted_share=0.7,
            kit=(_need(KitKind.CHAIR, KitUse.LIE_OR_SIT),),
            demands={Demand.KNEE: 1},
            **squat,
        ),
        a_movement("air_squat", level=2, lifted_share=0.88, demands={Demand.KNEE: 2}, **squat),
        a_movement(
            "goblet_squat",
            level=2,
            lifted_share=0.88,
            kit=lifting(1),
            demands={Demand.KNEE: 2},
            **squat,
        ),
        a_movement(
            "pair_squat",
            level=3,
            lifted_share=0.88,
            kit=lifting(2),
            demands={Demand.KNEE: 2},
            **squat,
        ),
        a_movement("wall_hinge", level=1, kit=(_need(KitKind.WALL, KitUse.SUPPORT),), **hinge),
        a_movement(
            "pair_hinge",
            level=2,
            strength_family=StrengthFamily.HINGE,
            kit=lifting(2),
            demands={Demand.LOW_BACK: 2},
            **hinge,
        ),
        a_movement(
            "one_leg_hinge",
            level=4,
            strength_family=StrengthFamily.HINGE,
            laterality=Laterality.UNILATERAL,
            kit=lifting(1),
            seconds_a_rep=3.5,
            demands={Demand.BALANCE: 3, Demand.LOW_BACK: 1},
            **hinge,
        ),
        a_movement(
            "split_squat",
            level=2,
            laterality=Laterality.UNILATERAL,
            lifted_share=0.8,
            limb_factor_bp=7000,
            demands={Demand.KNEE: 2, Demand.BALANCE: 1},
            **lunge,
        ),
        a_movement(
            "turn_lunge",
            level=3,
            laterality=Laterality.ALTERNATING,
            lifted_share=0.8,
            kit=lifting(2),
            demands={Demand.KNEE: 2, Demand.BALANCE: 2},
            **lunge,
        ),
        a_movement(
            "lunge_switch",
            level=4,
            laterality=Laterality.ALTERNATING,
            seconds_a_rep=1.3,
            contacts_a_rep=1,
            demands={Demand.KNEE: 3, Demand.IMPACT: 2},
            pattern=Pattern.LUNGE,
            muscles=mover(Muscle.GLUTES),
        ),
        a_movement("floor_step", level=1, pattern=Pattern.STEP, laterality=Laterality.ALTERNATING),
        a_movement(
            "box_step",
            level=2,
            pattern=Pattern.STEP,
            laterality=Laterality.UNILATERAL,
            strength_family=StrengthFamily.LUNGE_STEP,
            lifted_share=0.8,
            limb_factor_bp=7000,
            kit=(_need(KitKind.BOX, KitUse.STEP_ON, min_height=200, max_height=400),),
            demands={Demand.KNEE: 2},
        ),
        a_movement(
            "box_jump",
            level=3,
            pattern=Pattern.JUMP,
            contacts_a_rep=1,
            seconds_a_rep=4.0,
            kit=(_need(KitKind.BOX, KitUse.JUMP_ON, min_height=200),),
            demands={Demand.KNEE: 2, Demand.IMPACT: 3, Demand.FAST_LEVEL_CHANGE: 1},
        ),
    )


def _arms_and_trunk() -> tuple[Movement, ...]:
    push = {
        "pattern": Pattern.HORIZONTAL_PUSH,
        "strength_family": StrengthFamily.HORIZONTAL_PUSH,
        "seconds_a_rep": 2.5,
        "muscles": movers(Muscle.CHEST),
    }
    press = {
        "pattern": Pattern.VERTICAL_PUSH,
        "strength_family": StrengthFamily.VERTICAL_PUSH,
        "seconds_a_rep": 2.5,
        "muscles": movers(Muscle.FRONT_DELTS),
    }
    pull = {
        "pattern": Pattern.HORIZONTAL_PULL,
        "seconds_a_rep": 2.5,
        "muscles": movers(Muscle.LATS),
    }
    under = _need(KitKind.DUMBBELL, KitUse.UNDER_HANDS)
    return (
        a_movement(
            "wall_push",
            level=1,
            lifted_share=0.2,
            kit=(_need(KitKind.WALL, KitUse.SUPPORT),),
            **push,
        ),
        a_movement(
            "bench_push",
            level=2,
            lifted_share=0.45,
            kit=(_need(KitKind.BENCH, KitUse.SUPPORT),),
            demands={Demand.WRIST: 2},
            **push,
        ),
        a_movement(
            "handle_push",
            level=3,
            lifted_share=0.64,
            kit=(_need(KitKind.DUMBBELL, KitUse.UNDER_HANDS, units=2),),
            demands={Demand.ON_FRONT: 1, Demand.FLOOR_RISE: 1},
            **push,
        ),
        a_movement(
            "seat_press",
            level=1,
            kit=(*lifting(2), _need(KitKind.BENCH, KitUse.LIE_OR_SIT)),
            demands={Demand.OVERHEAD: 1, Demand.SHOULDER: 1},
            **press,
        ),
        a_movement(
            "stand_press",
            level=3,
            kit=lifting(2),
            demands={Demand.OVERHEAD: 2, Demand.SHOULDER: 2},
            **press,
        ),
        a_movement("band_pull", level=1, kit=(_need(KitKind.BAND, KitUse.PULL),), **pull),
        a_movement(
            "one_arm_row",
            level=2,
            strength_family=StrengthFamily.HORIZONTAL_PULL,
            laterality=Laterality.UNILATERAL,
            kit=(*lifting(1), _need(KitKind.BENCH, KitUse.SUPPORT)),
            **pull,
        ),
        a_movement(
            "bent_row",
            level=3,
            strength_family=StrengthFamily.HORIZONTAL_PULL,
            kit=lifting(2),
            demands={Demand.LOW_BACK: 2},
            **pull,
        ),
        a_movement(
            "dead_bug",
            level=1,
            pattern=Pattern.TRUNK_ANTI_EXTENSION,
            laterality=Laterality.ALTERNATING,
            seconds_a_rep=3.5,
            kit=(_need(KitKind.MAT, KitUse.LIE_OR_SIT),),
            demands={Demand.ON_BACK: 2, Demand.FLOOR_RISE: 1},
            muscles=mover(Muscle.ABDOMINALS),
        ),
        a_movement(
            "plank_row",
            level=3,
            pattern=Pattern.TRUNK_ANTI_ROTATION,
            strength_family=StrengthFamily.HORIZONTAL_PULL,
            laterality=Laterality.UNILATERAL,
            kit=(*lifting(1), under),
            demands={Demand.ON_FRONT: 1, Demand.FLOOR_RISE: 1, Demand.WRIST: 2},
            muscles=mover(Muscle.OBLIQUES),
        ),
        a_movement(
            "side_hold",
            level=2,
            pattern=Pattern.CARRY,
            laterality=Laterality.UNILATERAL,
            seconds_a_rep=2.0,
            kit=lifting(1),
            assumed_load_by_level={"1": 4000, "2": 6000, "3": 8000, "4": 10_000},
            demands={Demand.GRIP: 2},
            muscles=mover(Muscle.OBLIQUES),
        ),
    )


def _bursts() -> tuple[Movement, ...]:
    cardio = {"pattern": Pattern.CARDIO, "muscles": mover(Muscle.CALVES)}
    return (
        a_movement("march", level=1, seconds_a_rep=0.6, **cardio),
        a_movement("heel_raise", level=1, seconds_a_rep=1.5, **cardio),
        a_movement(
            "low_hop",
            level=2,
            seconds_a_rep=0.8,
            low_hops_a_rep=1,
            demands={Demand.IMPACT: 1},
            **cardio,
        ),
        a_movement(
            "side_steps", level=2, seconds_a_rep=0.8, demands={Demand.VIGOROUS: 1}, **cardio
        ),
        a_movement(
            "jack",
            level=2,
            seconds_a_rep=1.0,
            contacts_a_rep=2,
            demands={Demand.IMPACT: 2, Demand.VIGOROUS: 2},
            **cardio,
        ),
        a_movement(
            "rope_skip",
            level=3,
            seconds_a_rep=0.55,
            low_hops_a_rep=1,
            rate_a_min=110,
            kit=(_need(KitKind.ROPE, KitUse.SKIP),),
            demands={Demand.IMPACT: 1, Demand.VIGOROUS: 2},
            **cardio,
        ),
    )


def _combinations() -> tuple[Combination, ...]:
    both, left, right = Side.BOTH, Side.LEFT, Side.RIGHT
    return (
        a_combination("squat_to_press", ("squat_line", both), ("press_line", both), link_s=0.7),
        a_combination(
            "splits_and_press",
            ("lunge_line", left),
            ("lunge_line", right),
            ("press_line", both),
            link_s=0.7,
        ),
        a_combination(
            "hinge_row_blocks",
            ("hinge_line", both),
            ("row_line", both),
            link_s=1.3,
            done_as=DoneAs.COMPLEX,
        ),
        a_combination("one_side_pulls", ("row_line", left), ("lunge_line", left)),
        a_combination(
            "steps_and_squat",
            ("step_line", left),
            ("step_line", right),
            ("squat_line", both),
            link_s=0.7,
        ),
        a_combination("bug_and_squat", ("bug_line", left), ("squat_line", both), load="none"),
        Combination(
            slug="squats_and_plank_rows",
            name="Two squats and plank rows",
            parts=(
                Part(line="squat_line", times=2),
                Part(line="plank_row_line", side=left),
                Part(line="plank_row_line", side=right),
            ),
        ),
    )


def a_library() -> Catalogue:
    """Make the library; lines run from easy to hard."""
    seen = StepCriteria(to="box_jump", min_classes=8, seen=("Lands softly five times.",))
    lines = (
        a_line("squat_line", "seat_squat", "air_squat", "goblet_squat", "pair_squat"),
        a_line("hinge_line", "wall_hinge", "pair_hinge", "one_leg_hinge"),
        a_line("lunge_line", "split_squat", "turn_lunge", "lunge_switch"),
        a_line("step_line", "floor_step", "box_step", "box_jump", steps=(seen,)),
        a_line("push_line", "wall_push", "bench_push", "handle_push"),
        a_line("press_line", "seat_press", "stand_press"),
        a_line("row_line", "band_pull", "one_arm_row", "bent_row"),
        a_line("bug_line", "dead_bug"),
        a_line("plank_row_line", "plank_row"),
        a_line("hold_line", "side_hold"),
        a_line("hop_line", "heel_raise", "low_hop"),
        a_line(BURST_LINE, "march", "side_steps", "jack", "rope_skip"),
    )
    return a_catalogue((*_legs(), *_arms_and_trunk(), *_bursts()), lines, _combinations())


def with_common_versions(library: Catalogue) -> Catalogue:
    """Let steps begin as lunges do, and holds as rows do."""
    begun = {
        "step_line": ("split_squat", "box_step", "box_jump"),
        "hold_line": ("band_pull", "side_hold"),
    }
    lines = {
        slug: library.lines[slug].model_copy(update={"versions": versions})
        for slug, versions in begun.items()
    }
    return library.model_copy(update={"lines": library.lines | lines})


def with_unloaded_hips(library: Catalogue) -> Catalogue:
    """Let most of a room hinge without a load: the versions that lift are above level 3."""
    line = library.lines["hinge_line"].model_copy(update={"versions": UNLOADED_HIPS})
    return library.model_copy(update={"lines": library.lines | {line.slug: line}})
