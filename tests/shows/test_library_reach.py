"""Nobody with one common limitation is left without a version in a main pattern.

The bar is for the shipped library. A gap that is right stands in `LEFT_OUT` with
its reason, and one that has closed must leave it.
"""

from collections import Counter

import pytest
from tools.library_reach import (
    MAIN,
    ONE_LIMB,
    PEOPLE,
    generated,
    table_of_people,
    versions_left,
    with_one,
)

from roundwright.people.limitation import WITH_WEEKS, Amount, Concern

LEFT_OUT: dict[tuple[Concern, Amount, str], str] = {}
"""(concern, amount, main pattern) to why there is no version."""


def gaps(concern: Concern, amount: Amount, weeks: int | None = None) -> set[str]:
    left = versions_left(with_one(concern, amount, weeks), highest_level_step=0)
    return {name for name in MAIN if not left[name]}


def left_out(concern: Concern, amount: Amount) -> set[str]:
    return {name for c, a, name in LEFT_OUT if (c, a) == (concern, amount)}


@pytest.mark.parametrize("amount", Amount)
@pytest.mark.parametrize("concern", [c for c in Concern if c not in ONE_LIMB])
def test_one_limitation_leaves_a_version_of_level_one_in_every_main_pattern(
    concern: Concern, amount: Amount
) -> None:
    assert gaps(concern, amount) == left_out(concern, amount)


@pytest.mark.parametrize("amount", Amount)
@pytest.mark.parametrize("concern", ONE_LIMB)
def test_people_with_one_arm_or_one_leg_have_a_version_in_every_main_pattern(
    concern: Concern, amount: Amount
) -> None:
    assert gaps(concern, amount) == left_out(concern, amount)


@pytest.mark.parametrize("weeks", [0, 5, 12, 20, 34, 50])
@pytest.mark.parametrize("concern", WITH_WEEKS)
def test_no_week_leaves_anybody_without(concern: Concern, weeks: int) -> None:
    assert gaps(concern, Amount.AVOID, weeks) <= left_out(concern, Amount.AVOID)


def test_of_the_generated_people_few_are_left_without_and_none_with_one_limit() -> None:
    people = [generated(index) for index in range(PEOPLE)]
    without: Counter[int] = Counter()
    for someone in people:
        left = versions_left(someone)
        if not all(left.values()):
            without[len(someone.limitations)] += 1
    assert without[0] == without[1] == 0
    assert sum(without.values()) <= PEOPLE // 20


def test_the_generated_people_are_the_same_each_time_and_differ() -> None:
    assert generated(3) == generated(3)
    rows = Counter(len(generated(index).limitations) for index in range(PEOPLE))
    assert set(rows) == {0, 1, 2, 3}
    assert generated(3, seed=2) != generated(3)


def test_the_table_says_how_many_versions_each_pattern_leaves() -> None:
    lines = table_of_people([generated(index) for index in range(20)])
    assert [line.split()[0] for line in lines[:4]] == ["20", "least", "median", "most"]
    assert all(name in lines[0] for name in MAIN)
