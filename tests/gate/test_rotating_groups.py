"""Stations and staggered groups by hand: length, empty intervals, tails, late facts."""

from roundwright.goals.class_wish import ClassFormat
from roundwright.library.vocabulary import Demand
from roundwright.plan.core import CellState
from tests.gate.rotating_class import TWO_GROUPS, staggered, stations, turned
from tests.gate.small_class import (
    Made,
    a_class,
    a_plan,
    regular,
    rules_of,
    steps_of,
    verdict_of,
    with_cell,
    with_core,
    with_line,
    with_movement,
)

FIVE = ("p001", "p002", "p003", "p004", "p005")


def test_staggered_groups_and_stations_pass_without_a_finding_at_their_own_length() -> None:
    # 300 + 240 + 2 x (162 + 75 + 60) + 60 + 300
    for made in (staggered(), stations()):
        assert verdict_of(made).findings == ()
        assert verdict_of(made).total_s == 1494


def test_a_class_in_any_form_may_be_staggered() -> None:
    assert verdict_of(staggered(format=ClassFormat.ANY)).findings == ()


def test_five_people_at_five_stations_all_wait_for_the_longest_place() -> None:
    people = {p: regular(p, body_mass_g=120_000) for p in FIVE}
    problem = a_class(people, format=ClassFormat.STATIONS)
    made = a_plan(
        problem,
        groups=tuple((p,) for p in people),
        timeline=turned(problem, (36,) * 5, range(5)),
        form=ClassFormat.STATIONS,
    )
    # 300 + 240 + 2 x (180 + 75 + 60) + 60 + 300
    assert verdict_of(made).total_s == 1530
    assert verdict_of(made).is_clear


def nothing_at(made: Made, person_id: str, position: int) -> Made:
    nothing = {"steps": (), "count": None, "unit_mass_g": 0, "units": 0, "limited_by": None}
    return with_cell(
        made, person_id, position, state=CellState.SIT_OUT, exercise_id=None, **nothing
    )


def test_an_interval_without_anybody_has_no_window_and_no_change() -> None:
    # in the first interval p001 is at the first place and p002 at the fourth
    made = nothing_at(nothing_at(staggered(3, (0, 36, 30, 30, 36)), "p001", 1), "p002", 4)
    assert rules_of(made) == {"sit_out"}
    assert verdict_of(made).total_s == 1494 - 2 * (30 + 15)


def test_a_tail_stands_where_the_own_group_ends() -> None:
    # p002 ends with the row on one leg: in the last round the steady version
    made = with_line(staggered(), "row_line", versions=("air_squat", "row"))
    made = with_movement(made, "row", demands={Demand.BALANCE: 3})
    assert "order.last_place" in rules_of(made)
    row = next(c for c in made.core.cells if (c.person_id, c.position) == ("p002", 3))
    easy = {"steps": steps_of("air_squat"), "unit_mass_g": 0, "units": 0, "limited_by": None}
    cells = [c for c in made.core.cells if c is not row]
    cells += [row.model_copy(update={"round": 1}), row.model_copy(update={"round": 2} | easy)]
    tailed = with_core(made, cells=tuple(cells))
    assert "order.last_place" not in rules_of(tailed)
    assert verdict_of(tailed).is_clear


def test_lying_at_the_groups_first_place_is_fine_when_the_rest_is_long() -> None:
    made = with_movement(staggered(), "hinge", demands={Demand.ON_BACK: 1})
    assert "order.after_burst" not in rules_of(made)


def test_a_staggered_class_of_one_person_or_one_place_is_none() -> None:
    problem = a_class({"p001": regular("p001")}, format=ClassFormat.STAGGERED)
    made = a_plan(
        problem,
        groups=(("p001",),),
        timeline=turned(problem, (30, 30, 30, 30, 36), (0,)),
        form=ClassFormat.STAGGERED,
    )
    assert "plan.malformed" in rules_of(made)


def test_groups_may_be_named_in_any_order_of_people() -> None:
    made = staggered()
    groups = (TWO_GROUPS[1], TWO_GROUPS[0])
    swapped = with_core(made, class_=made.core.class_.model_copy(update={"groups": groups}))
    assert verdict_of(swapped).is_clear
