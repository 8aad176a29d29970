"""The shipped library is sound, complete, and has a version for people with limits."""

from collections.abc import Mapping
from datetime import date

import pytest

from roundwright.bootstrap import shipped_library
from roundwright.bootstrap.shipped_library import (
    authored_catalogue,
    shipped_catalogue,
    shipped_texts,
)
from roundwright.foundation.errors import BadInputError
from roundwright.library.catalogue_text import read_catalogue
from roundwright.library.consistency import contradictions
from roundwright.library.vocabulary import Demand, KitKind, KitUse, Pattern
from roundwright.people.demand_caps import effective_limits
from roundwright.people.limitation import Amount, Concern, Limitation

ON = date(2026, 3, 3)
MODERATE = {
    Demand.IMPACT: 0,
    Demand.ONE_FOOT_LANDING: 0,
    Demand.VIGOROUS: 1,
    Demand.FAST_LEVEL_CHANGE: 1,
    Demand.HEAD_LOW: 1,
}
OVERHEAD_OR_ABOVE = {
    "band_pull_downs",
    "front_raises",
    "half_kneeling_presses",
    "one_arm_presses",
    "one_arm_pull_downs",
    "overhead_carries",
    "presses",
    "reaches",
    "side_raises",
    "straight_arm_pulls",
}
WITHOUT_VERSION = {
    Concern.HIP: {
        "bench_supported_rows",
        "hinges",
        "inner_thigh_stretches",
        "rows",
        "seated_hinges",
        "stiff_leg_deadlifts",
        "triceps_extensions",
    },
    Concern.LOW_BACK: {"band_turns"},
    Concern.SHOULDER: OVERHEAD_OR_ABOVE | {"kickbacks", "rear_flies", "triceps_extensions"},
    Concern.ELBOW: {
        "alternating_curls",
        "band_curls",
        "curls",
        "hammer_curls",
        "kickbacks",
        "push_downs",
        "triceps_extensions",
    },
    Concern.EPILEPSY: OVERHEAD_OR_ABOVE,
    Concern.HIGH_BLOOD_PRESSURE: {
        "bear_holds",
        "carries",
        "overhead_carries",
        "planks",
        "side_planks",
        "suitcase_carries",
    },
    Concern.POSTNATAL: {"band_turns"},
    Concern.OSTEOPOROSIS: {"band_turns"},
}
"""Lines that an *avoid* rightly leaves without a version; another exercise stands in."""
ONE_LIMB = {Concern.ONE_ARM, Concern.ONE_LEG}
"""They leave many lines; what they must reach is held by the show of the library's reach."""


def lines_without(caps: Mapping[Demand, int], level: int) -> set[str]:
    library = shipped_catalogue()
    return {
        slug
        for slug in library.lines
        if not any(
            version.level <= level and all(version.demand(d) <= cap for d, cap in caps.items())
            for version in library.versions(slug)
        )
    }


def test_the_shipped_files_have_no_fault() -> None:
    catalogue, faults = read_catalogue(shipped_texts())
    assert [fault.in_words() for fault in faults] == []
    assert catalogue == authored_catalogue()
    assert contradictions(authored_catalogue()) == ()
    assert contradictions(shipped_catalogue()) == ()


def test_the_shipped_library_is_large_enough_for_a_class() -> None:
    library = shipped_catalogue()
    counts = (len(library.movements), len(library.lines), len(library.combinations))
    assert counts == (243, 107, 16)
    used = {slug for line in library.lines.values() for slug in line.versions}
    assert used == set(library.movements)
    in_parts = {part.line for each in library.combinations.values() for part in each.parts}
    assert in_parts <= set(library.lines)


def test_a_damaged_shipped_file_is_refused_with_its_faults(monkeypatch: pytest.MonkeyPatch) -> None:
    broken = shipped_texts() | {"squat.toml": 'schema = "roundwright.library/1"\nx = 1\n'}
    monkeypatch.setattr(shipped_library, "shipped_texts", lambda: broken)
    with pytest.raises(BadInputError, match="squat"):
        authored_catalogue.__wrapped__()


def test_a_person_of_whom_nothing_is_known_has_a_version_in_every_line() -> None:
    assert lines_without(MODERATE, level=2) == set()


@pytest.mark.parametrize("amount", list(Amount))
@pytest.mark.parametrize("concern", [c for c in Concern if c not in ONE_LIMB])
def test_each_limit_leaves_a_version_in_every_sensible_line(
    concern: Concern, amount: Amount
) -> None:
    limit = Limitation(person_id="p001", concern=concern, amount=amount, from_on=ON)
    caps = effective_limits((limit,), ON).caps
    expected = WITHOUT_VERSION.get(concern, set()) if amount is Amount.AVOID else set()
    assert lines_without(caps, level=1) == expected


def test_the_first_version_of_each_line_is_for_a_first_class() -> None:
    library = shipped_catalogue()
    first = {slug: library.versions(slug)[0] for slug in library.lines}
    assert {slug for slug, version in first.items() if version.level > 1} == set()
    assert {slug for slug, version in first.items() if version.demand(Demand.IMPACT)} == set()
    assert {slug for slug, version in first.items() if version.demand(Demand.FLOOR_RISE)} == set()


def test_landings_are_counted_and_the_box_jump_waits_for_eight_classes() -> None:
    library = shipped_catalogue()
    landing = {m.slug: m.contacts_a_rep for m in library.movements.values() if m.contacts_a_rep}
    # common practice, no source: jack 2, high knee 1 a step, burpee with a jump 3, else 1 a landing
    assert landing == {
        "box_jump": 1,
        "burpee": 3,
        "drop_and_hold": 1,
        "high_knees": 1,
        "jumping_jack": 2,
        "lunge_switch": 1,
        "skater_hop": 1,
        "squat_jump_reset": 1,
    }
    practice = library.lines["landing_drills"]
    assert practice.versions[-1] == "drop_and_hold"
    assert practice.min_classes_for("drop_and_hold") == 4
    line = library.lines["step_ups"]
    assert line.versions[-1] == "box_jump"
    assert line.min_classes_for("box_jump") == 8
    (criteria,) = [step for step in line.steps if step.to == "box_jump"]
    assert len(criteria.seen) >= 5


def test_published_shares_of_body_mass_stand_as_published() -> None:
    movements = shipped_catalogue().movements
    # ref: pushup-load-ebben (Ebben 2011): regular 0.64; hands on 30 cm 0.55, on 61 cm 0.41
    assert movements["floor_push_up"].lifted_share == 0.64
    raised = movements["bench_push_up"].lifted_share
    assert raised is not None
    assert raised == pytest.approx(0.55 + (45 - 30.48) / (60.96 - 30.48) * (0.41 - 0.55), abs=0.01)
    # ref: squat-body-fraction (Hartmann 0.86; de Leva men 0.886, women 0.878)
    for slug in ("box_squat", "goblet_squat", "dumbbell_squat"):
        assert 0.86 <= (movements[slug].lifted_share or 0) <= 0.886


def test_the_burst_runs_from_marching_to_skipping() -> None:
    library = shipped_catalogue()
    march, *_, rope = library.versions("bursts")
    assert (march.slug, march.contacts_a_rep, march.low_hops_a_rep) == ("march_on_the_spot", 0, 0)
    assert (rope.slug, rope.level, rope.low_hops_a_rep, rope.rate_a_min) == (
        "rope_skipping",
        3,
        1,
        120,
    )
    assert [need.item for need in rope.kit] == [KitKind.ROPE]


def test_the_plank_row_asks_for_dumbbells_fit_to_lean_on() -> None:
    uses = [need.use for need in shipped_catalogue().movements["plank_row"].kit]
    assert uses == [KitUse.LIFT, KitUse.UNDER_HANDS]


def test_a_line_begins_with_the_pattern_it_stands_for() -> None:
    catalogue = shipped_catalogue()
    patterns = {slug: catalogue.versions(slug)[0].pattern for slug in catalogue.lines}
    assert set(Pattern) - {Pattern.JUMP} == set(patterns.values())


def test_no_text_claims_that_a_joint_is_spared_or_safe() -> None:
    text = "\n".join(shipped_texts().values()).casefold()
    for word in ("spare", "protects", "safe for", "harmless"):
        assert word not in text


def test_what_warms_up_and_cools_down_lifts_nothing_and_is_never_hard() -> None:
    pieces = [m for m in shipped_catalogue().movements.values() if m.pattern is Pattern.MOBILITY]
    assert len(pieces) == 40
    for movement in pieces:
        assert movement.level <= 2
        assert not movement.dumbbells_needed
        assert movement.lifted_share is None
        seated = any(need.use is KitUse.LIE_OR_SIT for need in movement.kit)
        assert seated != bool(movement.demand(Demand.NEEDS_STANDING))
