"""Minutes left, and pairs of work and rest, by hand on the small class (1,482 s as usual)."""

import pytest

from roundwright.goals.class_wish import Pace
from roundwright.library.vocabulary import DoneAs
from roundwright.people.person import Clearance
from roundwright.plan.rule_table import WorkRest
from roundwright.plan.verdict import Grade
from tests.gate.cases_choice import of_combinations
from tests.gate.cases_class import in_pairs
from tests.gate.cases_work_and_rest import with_pair
from tests.gate.small_class import (
    Made,
    a_plan,
    points_of,
    rules_of,
    verdict_of,
    with_person,
    with_problem,
    with_spec,
)

MINUTES = {"unused_minutes", "hurried_minutes"}
HEAVIER = WorkRest(room="heavier", work_s=30, rest_s=60)


def minutes(made: Made, slot_s: int) -> dict[str, int]:
    """Give the terms of the minutes when the tool chose the lengths in such a slot."""
    chosen = with_spec(made, length_by="tool", slot_s=slot_s)
    return {term: points for term, points in points_of(chosen).items() if term in MINUTES}


@pytest.mark.parametrize(
    ("left_s", "terms"),
    [
        (-61, {"hurried_minutes": 24}),
        (-60, {"hurried_minutes": 12}),
        (-1, {"hurried_minutes": 12}),
        (0, {}),
        (179, {}),
        (180, {"unused_minutes": 6}),
        (239, {"unused_minutes": 6}),
        (240, {"unused_minutes": 12}),
    ],
)
def test_minutes_beyond_two_spare_ones_cost_and_so_do_those_missing_to_clear_up(
    left_s: int, terms: dict[str, int]
) -> None:
    # 300 s to register and to clear up, 120 s spare
    assert minutes(a_plan(), 1482 + 300 + left_s) == terms


def own_times(change_s: int, **person: object) -> Made:
    """Let a coach have timed the class: 30 s each (the last 36 s), and p002 be somebody else."""
    made = with_spec(a_plan(), pace=Pace.TIMED, change_s=change_s)
    made = with_problem(
        made, rules=made.problem.rules.model_copy(update={"newcomer_pace_bp": 10_000})
    )
    return with_person(made, "p002", **({"classes_done": 3} | person))


def short_of(made: Made) -> tuple[tuple[str, ...], tuple[int, ...], dict[str, int | str]] | None:
    """Give what is said of too little rest in a coach's own times."""
    found = [f for f in verdict_of(made).findings if f.rule == "work_rest.own_short"]
    assert len(found) < 2
    return (found[0].persons, found[0].positions, found[0].figures) if found else None


def test_newcomers_need_as_much_rest_as_work_in_a_coach_s_own_class() -> None:
    # the last place is followed by the burst: 36 s of work, 35 s to change
    assert short_of(own_times(36)) is None
    assert short_of(own_times(35)) == (("p002",), (5,), {"work_s": 36, "rest_s": 35})
    assert short_of(own_times(29)) == (
        ("p002",),
        (1, 2, 3, 4, 5),
        {"work_s": 36, "rest_s": 29},
    )


def test_the_last_place_may_have_the_rest_between_rounds_and_ends_the_class() -> None:
    # without a burst 30 s to change and 60 s of rest follow the last place, then the cool-down
    assert short_of(with_spec(own_times(30), burst=None)) is None
    short = short_of(with_spec(own_times(29), burst=None))
    assert short is not None
    assert short[1] == (1, 2, 3, 4)


def test_only_newcomers_and_light_to_moderate_work_are_asked_and_only_where_work_is_timed() -> None:
    assert short_of(own_times(10, classes_done=4)) is None
    limited = own_times(10, classes_done=40, clearance=Clearance.MODERATE_ONLY)
    assert short_of(limited) is not None
    assert short_of(with_spec(own_times(10), pace=Pace.COUNTED)) is None
    assert short_of(with_spec(own_times(10), work_rest=HEAVIER)) is None


def test_in_a_coach_s_own_class_too_the_partner_s_turn_is_rest() -> None:
    halves = with_spec(in_pairs(), pace=Pace.TIMED)
    assert short_of(with_person(halves, "p002", clearance=Clearance.UNKNOWN)) is None
    # 15 s to change, 6 s to swap and 30 s of the partner for 30 s of work: not without the partner
    assert short_of(with_person(with_spec(a_plan(), pace=Pace.TIMED), "p002", classes_done=3))


def test_a_coach_s_own_lengths_cost_nothing() -> None:
    assert not MINUTES & points_of(with_spec(a_plan(), chosen_by="tool", slot_s=7200)).keys()


def test_minutes_are_counted_by_what_is_usual_and_not_by_who_comes() -> None:
    slot_s = 1482 + 300 + 180
    slow = with_person(a_plan(), "p001", youngest_age=80, oldest_age=81)
    assert minutes(slow, slot_s) == {"unused_minutes": 6}


def test_in_pairs_both_turns_and_the_swap_are_usual() -> None:
    # 180 s more of warm-up; in each of two rounds 156 s more of work and 5 swaps of 6 s
    usual_s = 1482 + 180 + 2 * (156 + 30)
    assert minutes(in_pairs(), usual_s + 300 + 179) == {}
    assert minutes(in_pairs(), usual_s + 300 + 180) == {"unused_minutes": 6}


@pytest.mark.parametrize(("done_as", "set_s"), [(DoneAs.COMBINATION, 67), (DoneAs.COMPLEX, 61)])
def test_links_count_in_every_pass_of_a_combination_and_once_of_a_complex(
    done_as: DoneAs, set_s: int
) -> None:
    # 10 x (3 + 3) s, and 0.7 s a link: 10 of them or one (60.7 s)
    made = of_combinations(1)
    library = made.problem.library
    combined = {
        name: c.model_copy(update={"done_as": done_as, "link_s": 0.7})
        for name, c in library.combinations.items()
    }
    made = with_problem(made, library=library.model_copy(update={"combinations": combined}))
    # warm-up, demonstration, cool-down 840, bursts 120, rest 60, changes 30
    usual_s = 840 + 120 + 60 + 2 * (set_s + 15)
    assert minutes(made, usual_s + 300 + 179) == {}
    assert minutes(made, usual_s + 300 + 180) == {"unused_minutes": 6}


def test_the_partner_s_turn_is_rest() -> None:
    # in pairs: 15 s to change, 30 s of the partner, 6 s to swap; 60 s are asked for
    made = with_spec(in_pairs(), work_rest=HEAVIER)
    assert "work_rest.short_change" in rules_of(made)
    assert "work_rest.short_change" not in rules_of(with_spec(made, change_s=24))
    assert "work_rest.short_change" in rules_of(with_spec(made, change_s=23))


def test_as_much_rest_as_work_is_enough_for_light_to_moderate_work() -> None:
    even = WorkRest(room="mixed", work_s=30, rest_s=30)
    made = with_person(with_pair(even), "p002", clearance=Clearance.MODERATE_ONLY)
    rested = with_spec(made, change_s=30)
    assert "work_rest.too_little_rest" not in rules_of(rested)
    (found,) = [f for f in verdict_of(made).findings if f.rule == "work_rest.too_little_rest"]
    assert (found.grade, found.persons) == (Grade.STOP, ("p002",))
    assert found.figures == {"work_s": 30, "rest_s": 15}


def test_somebody_whose_clearance_is_open_makes_the_room_mixed() -> None:
    mixed = WorkRest(room="mixed", work_s=30, rest_s=30)
    assert "work_rest.room" in rules_of(with_pair(mixed))
    unknown = with_person(with_pair(mixed), "p002", clearance=Clearance.UNKNOWN)
    assert "work_rest.room" not in rules_of(unknown)


def test_a_coach_s_own_work_and_change_are_not_judged_by_any_pair() -> None:
    made = with_person(a_plan(), "p002", classes_done=0, clearance=Clearance.UNKNOWN)
    assert not {rule for rule in rules_of(made) if rule.startswith("work_rest.")}
