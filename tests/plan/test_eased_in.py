"""Doses and own counts, each worked by hand from section 1 of the definition."""

import pytest

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.library.vocabulary import Pattern
from roundwright.people.person import Clearance
from roundwright.plan.eased_in import dose_of, own_counts
from roundwright.plan.rule_table import EasedIn, RuleTable
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_side,
    a_spec,
    reps,
)

RULES = RuleTable()


@pytest.mark.parametrize(
    ("changes", "rounds", "share", "done"),
    [
        # first class, cap 60 % of three rounds = 18,000: 8,500 x 2 = 17,000 is the largest
        ({"classes_done": 0}, 3, 8500, 2),
        ({"classes_done": None}, 3, 8500, 2),
        # first class of two rounds, cap 12,000: 6,000 x 2 beats 10,000 x 1
        ({"classes_done": 0}, 2, 6000, 2),
        # second class, cap 21,000: 7,000 x 3 = 21,000
        ({"classes_done": 1}, 3, 7000, 3),
        ({"classes_done": 2}, 3, 8500, 3),
        ({"classes_done": 3}, 3, 10_000, 3),
        # away 14 days: cap 70 %; of one round 7,000
        ({"days_since_last": 14}, 1, 7000, 1),
        ({"days_since_last": 13}, 1, 10_000, 1),
        # a first class after a long time: the lesser of both caps
        ({"classes_done": 2, "days_since_last": 40}, 3, 7000, 3),
    ],
)
def test_share_and_rounds_are_the_largest_product_within_the_cap(
    changes: dict[str, int], rounds: int, share: int, done: int
) -> None:
    dose = dose_of(a_person(**changes), a_spec(("x_line", reps(8)), rounds=rounds), RULES)
    assert (dose.dose_bp, dose.rounds) == (share, tuple(range(1, done + 1)))


def test_when_nothing_fits_it_is_the_least_share_and_one_round() -> None:
    rules = RuleTable(eased_in=(EasedIn(classes_done=0, share_bp=1000),))
    dose = dose_of(a_person(classes_done=0), a_spec(("x_line", reps(8)), rounds=3), rules)
    assert (dose.dose_bp, dose.rounds) == (5000, (1,))


def test_effort_reserve_limits_and_pace_follow_the_tables() -> None:
    spec = a_spec(("x_line", reps(8)))
    first = dose_of(a_person(classes_done=0), spec, RULES)
    assert (first.rir, first.effort_ceiling, first.contact_limit, first.low_hop_limit) == (
        5,
        6,
        0,
        0,
    )
    assert (first.pace_bp, first.aim_bp, first.easiest_burst) == (12_000, 7500, True)
    regular = dose_of(a_person(classes_done=40, level=4, effort_cap=5), spec, RULES)
    assert (regular.rir, regular.effort_ceiling, regular.contact_limit) == (2, 5, 60)
    assert (regular.low_hop_limit, regular.pace_bp, regular.aim_bp) == (360, 10_000, 6000)


def test_what_the_class_asks_to_leave_only_raises() -> None:
    people = (
        a_person(classes_done=0),
        a_person(classes_done=10),
        a_person(classes_done=40, level=4),
    )
    for asked, left in ((None, [5, 3, 2]), (0, [5, 3, 2]), (4, [5, 4, 4]), (6, [6, 6, 6])):
        spec = a_spec(("x_line", reps(8)), reps_left=asked)
        assert [dose_of(person, spec, RULES).rir for person in people] == left


def test_unknown_clearance_is_moderate_only_and_age_slows_the_pace() -> None:
    person = a_person(
        classes_done=40, level=4, clearance=Clearance.UNKNOWN, youngest_age=64, oldest_age=65
    )
    dose = dose_of(person, a_spec(("x_line", reps(8))), RULES)
    assert (dose.rir, dose.effort_ceiling, dose.contact_limit) == (4, 4, 0)
    assert (dose.pace_bp, dose.easiest_burst, dose.is_newcomer) == (14_000, True, False)


def test_own_counts_floor_and_keep_alternating_even() -> None:
    library = a_catalogue([a_movement("sit")], [a_line("sit_line", "sit")])
    alternating = Count(value=10, unit=CountUnit.REPS_ALTERNATING)
    spec = a_spec(("sit_line", reps(9)), ("sit_line", alternating), ("sit_line", reps(1)), rounds=3)
    # second class: 70 %: 6.3 -> 6; 7 -> 6; 0.7 -> 1
    problem = a_problem(spec, library, {"p001": a_person(classes_done=1)})
    assert [c.value for c in own_counts(problem, "p001")] == [6, 6, 1]


def test_a_first_timers_lunges_and_push_ups_are_capped_over_the_class() -> None:
    library = a_catalogue(
        [
            a_movement("sit"),
            a_movement("lunge", pattern=Pattern.LUNGE),
            a_movement("push_up", pattern=Pattern.HORIZONTAL_PUSH, lifted_share=0.6),
        ],
        [
            # a line concerns lunges when any of its versions is one
            a_line("split_line", "sit", "lunge"),
            a_line("sit_line", "sit"),
            a_line("push_line", "push_up"),
        ],
        [a_combination("lunge_sit", ("split_line", Side.LEFT), ("sit_line", Side.BOTH))],
    )
    spec = a_spec(
        ("split_line", a_side(12)),
        ("lunge_sit", reps(10)),
        ("sit_line", reps(10)),
        ("push_line", reps(20)),
        rounds=3,
    )
    problem = a_problem(spec, library, {"p001": a_person(classes_done=0)})
    # 85 %, two rounds: 10 a side, 8, 8, 17. Lunges 2 x (10 x 2 + 8) = 56 > 40:
    # 10 x 40 // 56 = 7, 8 x 40 // 56 = 5. Push-ups 2 x 17 = 34 > 20: 17 x 20 // 34 = 10.
    assert [c.value for c in own_counts(problem, "p001")] == [7, 5, 8, 10]
