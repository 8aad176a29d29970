"""Squats, hinges, lunges, steps and jumps beyond the first ones: paces, landings, reach."""

from datetime import date
from itertools import pairwise

import pytest

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.foundation.quantities import BP
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, KitUse, Pattern
from roundwright.people.demand_caps import effective_limits
from roundwright.people.limitation import Amount, Concern, Limitation

ON = date(2026, 3, 3)
LINES = {
    "wall_sits": "wall_sit",
    "pause_squats": "goblet_pause_squat",
    "wide_squats": "dumbbell_wide_squat",
    "one_leg_sit_to_stands": "one_leg_sit_to_stand",
    "seated_drives": "seated_drive",
    "seated_hinges": "seated_dumbbell_hinge",
    "stiff_leg_deadlifts": "stiff_leg_deadlift",
    "one_leg_hinges": "one_leg_hinge",
    "one_leg_bridges": "one_leg_bridge",
    "hip_thrusts": "dumbbell_hip_thrust",
    "seated_lunges": "seated_split_press",
    "reverse_lunges": "dumbbell_reverse_lunge",
    "walking_lunges": "walking_lunge",
    "side_lunges": "dumbbell_side_lunge",
    "curtsy_lunges": "dumbbell_curtsy_lunge",
    "rear_foot_raised": "dumbbell_rear_foot_raised",
    "high_step_ups": "dumbbell_high_step_up",
    "side_step_ups": "side_step_up",
    "step_downs": "step_down",
    "squat_jumps": "squat_jump_reset",
    "low_jumps": "box_jump",
    "lunge_switches": "lunge_switch",
    "calf_raises": "dumbbell_calf_raise",
}
"""Each line with the hardest of its versions."""
NEED_TWO_LEGS = set(LINES) - {
    "seated_drives",
    "seated_hinges",
    "one_leg_bridges",
    "hip_thrusts",
    "calf_raises",
}
WITHOUT_VERSION = {
    Concern.HIP: {"seated_hinges", "stiff_leg_deadlifts"},
    Concern.ONE_LEG: NEED_TWO_LEGS,
}
"""Lines that an *avoid* rightly leaves without a version: they bend the hip, or need two legs."""


def movement(slug: str) -> Movement:
    return shipped_catalogue().movements[slug]


@pytest.mark.parametrize(("line", "hardest"), LINES.items())
def test_a_line_ends_in_its_hardest_version(line: str, hardest: str) -> None:
    assert shipped_catalogue().versions(line)[-1].slug == hardest


@pytest.mark.parametrize(
    ("seconds", "slugs"),
    [
        (3.0, "stiff_leg_deadlift reverse_lunge rear_foot_raised_split_squat high_step_up"),
        (3.5, "side_lunge curtsy_lunge one_leg_hinge"),
        (2.5, "walking_lunge one_leg_bridge bench_hip_thrust"),
        (1.3, "lunge_switch"),
    ],
)
def test_a_rep_takes_what_the_floor_knows(seconds: float, slugs: str) -> None:
    assert {movement(slug).seconds_a_rep for slug in slugs.split()} == {seconds}


def test_jumps_are_counted_wait_for_eight_classes_and_have_an_easier_version() -> None:
    library = shipped_catalogue()
    jumps = {
        m.slug: m.contacts_a_rep for m in library.movements.values() if m.pattern is Pattern.JUMP
    }
    assert {slug: jumps[slug] for slug in ("squat_jump_reset", "lunge_switch", "box_jump")} == {
        "squat_jump_reset": 1,
        "lunge_switch": 1,
        "box_jump": 1,
    }
    assert movement("squat_jump_reset").seconds_a_rep == 3.0
    for name in LINES:
        line = library.lines[name]
        for version in library.versions(name):
            if version.contacts_a_rep:
                assert version.level >= 4
                assert version.demand(Demand.IMPACT) == 3
                assert line.min_classes_for(version.slug) >= 8
                assert "Fit to jump today, seen by the coach." in [
                    seen for step in line.steps if step.to == version.slug for seen in step.seen
                ]


def test_low_hops_are_counted_apart_and_come_after_four_classes() -> None:
    hops = movement("low_hops")
    assert (hops.contacts_a_rep, hops.low_hops_a_rep) == (0, 1)
    assert shipped_catalogue().lines["low_jumps"].min_classes_for("low_hops") == 4


@pytest.mark.parametrize(
    "slug",
    [
        "one_leg_sit_to_stand",
        "one_leg_hinge",
        "curtsy_lunge",
        "rear_foot_raised_split_squat",
        "knee_drive_step_up",
        "step_down",
        "lunge_switch",
    ],
)
def test_what_stands_on_one_leg_is_balance_of_the_highest_degree(slug: str) -> None:
    assert movement(slug).demand(Demand.BALANCE) == 3


def test_boxes_to_step_on_are_low_or_at_most_knee_height() -> None:
    heights = {
        (slug, need.min_height, need.max_height)
        for name in LINES
        for slug in shipped_catalogue().lines[name].versions
        for need in movement(slug).kit
        if need.use is KitUse.STEP_ON and need.item == "box"
    }
    assert {(low, high) for _, low, high in heights} == {(150, 200), (300, 450)}
    assert {slug for slug, low, _ in heights if low == 300} == {
        "high_step_up",
        "dumbbell_high_step_up",
    }


def test_each_leg_pattern_has_a_seated_and_a_supported_version_of_the_first_level() -> None:
    first = [m for m in shipped_catalogue().movements.values() if m.level == 1]
    for pattern in (Pattern.SQUAT, Pattern.HINGE, Pattern.LUNGE, Pattern.STEP):
        own = [m for m in first if m.pattern is pattern]
        assert any(m.demand(Demand.NEEDS_STANDING) == 0 for m in own)
        assert any(need.use is KitUse.SUPPORT for m in own for need in m.kit)


def test_a_rear_foot_on_a_bench_is_no_part_of_a_combination() -> None:
    library = shipped_catalogue()
    parts = {part.line for each in library.combinations.values() for part in each.parts}
    assert "rear_foot_raised" not in parts


@pytest.mark.parametrize("line", LINES)
def test_what_a_limb_lifts_of_the_body_never_falls_along_a_line(line: str) -> None:
    lifted = [
        m.lifted_share_bp * BP / (m.limb_factor_bp or BP)
        for m in shipped_catalogue().versions(line)
        if m.lifted_share
    ]
    assert all(easier <= harder for easier, harder in pairwise(lifted))


@pytest.mark.parametrize("concern", list(Concern))
def test_each_limit_leaves_a_first_version_in_every_sensible_line(concern: Concern) -> None:
    row = Limitation(person_id="p001", concern=concern, amount=Amount.AVOID, from_on=ON)
    caps = effective_limits((row,), ON).caps
    without = {
        line
        for line in LINES
        if not any(
            m.level == 1 and all(m.demand(demand) <= cap for demand, cap in caps.items())
            for m in shipped_catalogue().versions(line)
        )
    }
    assert without == WITHOUT_VERSION.get(concern, set())


def test_each_line_of_a_script_can_be_read_at_arms_length() -> None:
    used = {slug for name in LINES for slug in shipped_catalogue().lines[name].versions}
    for slug in used:
        said = movement(slug).teaching
        faults = [text for each in said.faults for text in (each.fault, each.fix)]
        texts = (*said.steps, *said.cues, said.start, said.end, said.feel, said.breathing, *faults)
        assert max(map(len, texts)) <= 95
