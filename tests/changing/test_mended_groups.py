"""Groups after somebody came or left: even again, with as few people moved as can be."""

from datetime import date, time

import pytest

from roundwright.goals.class_wish import AfterLastRound, ClassFormat
from roundwright.optimise.changing.mended_groups import can_be_held, mended_groups
from roundwright.plan.core import Core, CoreClass, Window, WindowKind

Members = tuple[tuple[str, ...], ...]


def a_core(form: ClassFormat, groups: Members, positions: int = 3, offsets: tuple[int, ...] = ()):
    held = CoreClass(
        class_id="tuesday",
        starts_on=date(2026, 3, 3),
        starts_at_local=time(18, 0),
        slot_s=2700,
        room_id="hall",
        format=form,
        groups=tuple(tuple(f"p{p}" for p in group) for group in groups),
        rounds=2,
        positions=positions,
        after_last_round=AfterLastRound.NOTHING,
    )
    window = Window(
        at_s=0, length_s=30, kind=WindowKind.WORK, round=1, positions=tuple(o + 1 for o in offsets)
    )
    return Core.model_validate(
        {
            "plan_id": "p",
            "revision": 1,
            "class": held.model_dump(),
            "exercises": (),
            "people": (),
            "cells": (),
            "timeline": (window,) if offsets else (),
        }
    )


def named(core: Core, people: str, form: ClassFormat) -> list[Members]:
    ids = tuple(f"p{p}" for p in people)
    ways = mended_groups(core, ids, core.class_.positions, form)
    return [tuple(tuple(people[p] for p in group) for group in way.members) for way in ways]


@pytest.mark.parametrize(
    ("before", "people", "fewest_stay"),
    [
        ((("a", "b"), ("c", "d")), "abcd", 2),
        ((("a", "b"), ("c", "d")), "abcde", 1),
        ((("a", "b"), ("c", "d")), "abc", 0),
        ((("a", "b"), ("c", "d", "e")), "abce", 1),
        ((("a", "b"), ("c", "d", "e")), "acde", 0),
        ((("a", "b"), ("c", "d", "e")), "abcdef", 1),
        ((("a", "b"),), "a", 0),
        ((("a",),), "ab", 0),
    ],
)
def test_pairs_are_twos_with_one_three_if_odd(
    before: Members, people: str, fewest_stay: int
) -> None:
    for groups in named(a_core(ClassFormat.PAIRS, before), people, ClassFormat.PAIRS):
        assert sorted(p for group in groups for p in group) == sorted(people)
        threes = len(people) % 2 if len(people) > 1 else 0
        ones = int(len(people) == 1)
        sizes = sorted(len(group) for group in groups)
        assert sizes == [1] * ones + [2] * ((len(people) - 3 * threes - ones) // 2) + [3] * threes
        assert len(set(before) & set(groups)) >= fewest_stay


def test_groups_that_still_stand_are_the_only_way() -> None:
    core = a_core(ClassFormat.PAIRS, (("b", "a"), ("c", "d")))
    assert named(core, "abcd", ClassFormat.PAIRS) == [(("b", "a"), ("c", "d"))]


def test_at_most_one_person_changes_their_station() -> None:
    form = ClassFormat.STATIONS
    core = a_core(form, (("a", "b", "c"), ("d", "e"), ("f", "g")), offsets=(0, 1, 2))
    assert named(core, "abcdefg", form) == [(("a", "b", "c"), ("d", "e"), ("f", "g"))]
    ways = named(core, "abcefg", form)
    assert (("b", "c"), ("a", "e"), ("f", "g")) in ways
    assert len(ways) == 3
    assert len(named(core, "abcdefgh", form)) == 2


def test_fewer_people_than_stations_leave_the_last_ones_empty() -> None:
    form = ClassFormat.STATIONS
    core = a_core(form, (("a",), ("b",), ("c",)), offsets=(0, 1, 2))
    assert {len(groups) for groups in named(core, "ac", form)} == {2}


def test_staggered_groups_keep_their_distance() -> None:
    form = ClassFormat.STAGGERED
    core = a_core(form, (("a", "b"), ("c", "d")), offsets=(0, 2))
    [way] = mended_groups(core, ("pa", "pb", "pc"), 3, form)
    assert way.offsets == (0, 2)
    assert not can_be_held(form, 1, 3)
    assert can_be_held(form, 2, 3)
