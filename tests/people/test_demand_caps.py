from datetime import date

import pytest

from roundwright.body.anatomy import Limb, Side
from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand
from roundwright.people.demand_cap_table import TABLE
from roundwright.people.demand_caps import effective_limits
from roundwright.people.limitation import (
    Amount,
    Concern,
    Limitation,
    LimitedSide,
    OverrideRole,
    SetBy,
)

DAY = date(2026, 3, 3)


def a_limitation(concern=Concern.KNEE, amount=Amount.AVOID, **changes):
    values = {"person_id": "p001", "from_on": date(2026, 1, 1)}
    return Limitation(concern=concern, amount=amount, **(values | changes))


def caps_of(*rows, on=DAY):
    return effective_limits(rows, on).caps


@pytest.mark.parametrize("amount", Amount)
@pytest.mark.parametrize("concern", Concern)
def test_every_concern_caps_something_says_what_to_do_and_names_its_source(concern, amount):
    row = TABLE[concern, amount]
    assert row.caps
    assert row.actions
    assert all(0 <= degree < HIGHEST_DEMAND for degree in row.caps.values())
    assert "common practice, no source" in row.source or "ref: " in row.source
    assert row.effort_cap is None or 4 <= row.effort_cap <= 8


@pytest.mark.parametrize("concern", Concern)
def test_avoid_is_never_looser_than_ease(concern):
    avoid, ease = TABLE[concern, Amount.AVOID], TABLE[concern, Amount.EASE]
    for demand, degree in ease.caps.items():
        assert avoid.caps.get(demand, HIGHEST_DEMAND) <= degree, demand
    assert (avoid.effort_cap or 10) <= (ease.effort_cap or 10)


@pytest.mark.parametrize("concern", [c for c in Concern if c.value in set(Demand)])
def test_a_region_to_avoid_takes_no_clear_demand_and_one_to_ease_no_high_one(concern):
    region = Demand(concern.value)
    assert caps_of(a_limitation(concern))[region] <= 1
    assert caps_of(a_limitation(concern, Amount.EASE))[region] <= 2


@pytest.mark.parametrize("concern", Concern)
def test_the_action_words_do_not_tell_the_condition(concern):
    telling = {c.value.replace("_", " ") for c in Concern}
    telling -= {"knee", "hip", "ankle", "neck", "shoulder", "elbow", "wrist", "balance"}
    for amount in Amount:
        for action in TABLE[concern, amount].actions:
            assert not [word for word in telling if word in action.words.lower()]


def test_an_action_that_follows_from_a_cap_names_one_of_its_row():
    for row in TABLE.values():
        for action in row.actions:
            assert action.follows_from is None or action.follows_from in row.caps


def test_a_painful_knee_takes_no_jump_and_no_landing():
    caps = caps_of(a_limitation())
    assert (caps[Demand.KNEE], caps[Demand.IMPACT], caps[Demand.ONE_FOOT_LANDING]) == (1, 0, 0)


@pytest.mark.parametrize("amount", Amount)
def test_in_pregnancy_nobody_lies_on_the_back_and_effort_stays_at_five(amount):
    limits = effective_limits([a_limitation(Concern.PREGNANCY, amount)], DAY)
    assert (limits.caps[Demand.ON_BACK], limits.caps[Demand.IMPACT]) == (0, 0)
    assert limits.effort_cap == 5


def test_several_limitations_take_the_least_of_each():
    rows = [a_limitation(amount=Amount.EASE), a_limitation(Concern.PREGNANCY)]
    limits = effective_limits([*rows, a_limitation(Concern.HIGH_BLOOD_PRESSURE)], DAY)
    assert limits.caps[Demand.KNEE] == 2
    assert limits.caps[Demand.IMPACT] == 0
    assert limits.effort_cap == 5


def test_a_limit_starts_on_its_day():
    row = a_limitation(from_on=DAY)
    assert caps_of(row, on=date(2026, 3, 2)) == {}
    assert caps_of(row, on=DAY)[Demand.KNEE] == 1


def test_a_limit_past_its_end_stays_in_force():
    row = a_limitation(until_on=date(2026, 2, 1))
    assert caps_of(row) == caps_of(a_limitation())


def overridden(**changes):
    values = {
        "override_demand": Demand.IMPACT,
        "override_reason": "seen by the physiotherapist",
        "override_by": OverrideRole.COACH,
        "override_until_on": DAY,
    }
    return a_limitation(**(values | changes))


def test_an_override_lifts_its_one_demand_up_to_its_last_day():
    limits = effective_limits([overridden()], DAY)
    assert limits.caps == {d: c for d, c in caps_of(a_limitation()).items() if d != Demand.IMPACT}
    assert "no jumps" not in limits.actions
    assert caps_of(overridden(), on=date(2026, 3, 4)) == caps_of(a_limitation())


@pytest.mark.parametrize("part", ["override_reason", "override_by", "override_until_on"])
def test_an_override_without_reason_role_or_end_lifts_nothing(part):
    assert caps_of(overridden(**{part: None})) == caps_of(a_limitation())


@pytest.mark.parametrize("role", [OverrideRole.COACH, OverrideRole.OWNER])
def test_nobody_but_a_clinician_lifts_what_a_clinician_set(role):
    assert caps_of(overridden(set_by=SetBy.CLINICIAN, override_by=role)) == caps_of(a_limitation())
    own = overridden(set_by=SetBy.CLINICIAN, override_by=OverrideRole.CLINICIAN)
    assert caps_of(own) == caps_of(overridden())


def test_an_override_lifts_nothing_of_another_limitation():
    caps = caps_of(overridden(), a_limitation(Concern.PELVIC_FLOOR))
    assert caps[Demand.IMPACT] == 0


@pytest.mark.parametrize(
    ("sides", "first"),
    [
        ((), Side.LEFT),
        ((LimitedSide.RIGHT,), Side.RIGHT),
        ((LimitedSide.LEFT,), Side.LEFT),
        ((LimitedSide.NONE, LimitedSide.RIGHT), Side.RIGHT),
        ((LimitedSide.BOTH, LimitedSide.RIGHT), Side.LEFT),
        ((LimitedSide.LEFT, LimitedSide.RIGHT), Side.LEFT),
    ],
)
def test_the_sore_side_goes_first(sides, first):
    rows = [a_limitation(side=side) for side in sides]
    assert effective_limits(rows, DAY).first_side is first


def test_limits_do_not_show_their_caps():
    limits = effective_limits([a_limitation(Concern.HIGH_BLOOD_PRESSURE)], DAY)
    assert "caps" not in repr(limits)
    assert "effort_cap" not in repr(limits)


@pytest.mark.parametrize(
    ("rows", "unused"),
    [
        ([("one_arm", "left", "avoid")], {Limb.ARM: Side.LEFT}),
        ([("one_leg", "right", "avoid")], {Limb.LEG: Side.RIGHT}),
        ([("one_arm", "none", "avoid")], {Limb.ARM: Side.BOTH}),
        ([("one_arm", "both", "avoid")], {Limb.ARM: Side.BOTH}),
        ([("one_arm", "left", "ease")], {}),
        ([("shoulder", "left", "avoid")], {}),
        ([("one_arm", "left", "avoid"), ("one_arm", "right", "avoid")], {Limb.ARM: Side.BOTH}),
        (
            [("one_arm", "left", "avoid"), ("one_leg", "left", "avoid")],
            {Limb.ARM: Side.LEFT, Limb.LEG: Side.LEFT},
        ),
    ],
)
def test_which_side_of_a_limb_is_not_used(rows, unused):
    limitations = [
        a_limitation(Concern(concern), Amount(amount), side=LimitedSide(side))
        for concern, side, amount in rows
    ]
    limits = effective_limits(limitations, DAY)
    assert limits.unused == unused
    asks = "ask before the start: which side?" in limits.actions
    assert asks == ("none" in {side for _, side, _ in rows})


def test_the_missing_side_does_not_go_first():
    row = a_limitation(Concern.ONE_ARM, side=LimitedSide.RIGHT)
    assert effective_limits([row], DAY).first_side is Side.LEFT


def test_an_override_of_needing_both_arms_says_that_both_are_used():
    row = overridden(
        concern=Concern.ONE_ARM, side=LimitedSide.LEFT, override_demand=Demand.NEEDS_BOTH_ARMS
    )
    assert effective_limits([row], DAY).unused == {}
