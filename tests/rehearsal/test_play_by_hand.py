"""Plays whose every second can be worked out by hand: no spread, so one play says all."""

import numpy as np
import pytest

from roundwright.body.anatomy import Side
from roundwright.foundation.errors import BadInputError
from roundwright.goals.class_wish import AfterLastRound, BurstWish, ClassFormat, Count, CountUnit
from roundwright.kit.inventory import KitItem
from roundwright.library.version import Step
from roundwright.library.vocabulary import Demand, KitKind, Pattern
from roundwright.plan.core import (
    Cell,
    Core,
    CoreClass,
    CoreExercise,
    KitUnits,
    PersonDose,
    Window,
    WindowKind,
)
from roundwright.plan.problem import Problem
from roundwright.plan.rule_table import RuleTable
from roundwright.rehearsal.finishing_time import chance_on_time
from roundwright.rehearsal.play import play
from tests.support.builders import (
    CLASS_DAY,
    a_catalogue,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    lifting,
    reps,
)

EVEN = RuleTable(pace_between_bp=0, pace_within_bp=0, last_third_bp=10_000, round_slower_bp=0)
WORK, CHANGE = WindowKind.WORK, WindowKind.CHANGE


def a_class(
    masses: dict[str, tuple[int, ...]],
    *,
    values: dict[str, int] | None = None,
    timeline: tuple[tuple[WindowKind, int, int, tuple[int, ...], tuple[int, ...]], ...],
    groups: tuple[tuple[str, ...], ...] | None = None,
    form: ClassFormat = ClassFormat.TOGETHER,
    kit: dict[int, int] | None = None,
    rules: RuleTable = EVEN,
    movements: tuple[str, ...] = ("squat", "squat"),
    timed: bool = False,
    slot_s: int = 2700,
) -> tuple[Core, Problem]:
    """Make two places of squats (3 s a rep) for people with a mass in g at each place (0: none)."""
    library = a_catalogue(
        [
            a_movement("squat", kit=lifting()),
            a_movement(
                "floor_press",
                pattern=Pattern.HORIZONTAL_PUSH,
                kit=lifting(),
                demands={Demand.FLOOR_RISE: 2},
            ),
            a_movement("march", pattern=Pattern.CARDIO, level=1, seconds_a_rep=1.0),
        ],
        [a_line("squat_line", "squat"), a_line("press_line", "floor_press"), a_line("go", "march")],
    )
    lines = {"squat": "squat_line", "floor_press": "press_line"}
    rounds = max(row[1] for row in timeline)
    spec = a_spec(
        *((lines[m], reps(10)) for m in movements),
        rounds=rounds,
        burst=BurstWish(line="go", length_s=30),
        after_last_round=AfterLastRound.NOTHING,
        slot_s=slot_s,
    )
    problem = a_problem(
        spec,
        library,
        {p: a_person(p) for p in masses},
        a_kit(kit or {8000: 40, 6000: 40}, KitItem(id="rope", kind=KitKind.ROPE, count=1)),
        rules=rules,
    )
    unit = CountUnit.SECONDS if timed else CountUnit.REPS
    cells = tuple(
        Cell(
            person_id=p,
            position=k,
            exercise_id=lines[movements[k - 1]],
            steps=(Step(movement_id=movements[k - 1], side=Side.BOTH),),
            count=Count(value=(values or {}).get(p, 10), unit=unit),
            unit_mass_g=mass,
            units=2 if mass else 0,
        )
        for p, mine in masses.items()
        for k, mass in enumerate(mine, start=1)
    )
    at_s, windows = 0, []
    for kind, n, length_s, positions, halves in timeline:
        windows.append(
            Window(
                at_s=at_s,
                length_s=length_s,
                kind=kind,
                round=n,
                positions=positions,
                halves_s=halves,
            )
        )
        at_s += length_s
    core = Core(
        plan_id="plan",
        revision=1,
        class_=CoreClass(
            class_id=spec.class_id,
            starts_on=CLASS_DAY,
            starts_at_local=spec.starts_at_local,
            slot_s=slot_s,
            room_id="main",
            format=form,
            groups=groups or (tuple(masses),),
            rounds=rounds,
            positions=2,
            after_last_round=spec.after_last_round,
        ),
        exercises=tuple(
            CoreExercise(position=k, exercise_id=lines[m], count=reps(10))
            for k, m in enumerate(movements, start=1)
        ),
        people=tuple(
            PersonDose(
                person_id=p,
                dose_bp=10_000,
                rounds=tuple(range(1, rounds + 1)),
                effort_ceiling=8,
                rir=3,
            )
            for p in masses
        ),
        cells=cells,
        timeline=tuple(windows),
    )
    return core, problem


TWO_PLACES = ((WORK, 1, 30, (1,), ()), (CHANGE, 1, 15, (), ()), (WORK, 1, 30, (2,), ()))


def lengths(core: Core, problem: Problem) -> list[float]:
    return [float(s) for s in play(core, problem, plays=1).lengths_s[0]]


def test_with_the_same_dumbbells_a_class_goes_as_planned():
    core, problem = a_class({"p001": (8000, 8000), "p002": (8000, 8000)}, timeline=TWO_PLACES)
    assert lengths(core, problem) == [30, 15, 30]


def test_three_at_the_rack_come_by_their_finish_three_seconds_apart():
    # one pair of each mass, and each person next wants what another has
    masses = {"p001": (8000, 6000), "p002": (6000, 4000), "p003": (4000, 8000)}
    values = {"p001": 10, "p002": 6, "p003": 10}
    pairs = {8000: 2, 6000: 2, 4000: 2}
    core, problem = a_class(masses, values=values, timeline=TWO_PLACES, kit=pairs)
    played = play(core, problem, plays=1)
    # p002 is done first; p001 and p003 together, so by id. The last waits 6 s, then 30 s + 5 s.
    assert played.rack_wait_s[:, 1].tolist() == [3, 0, 6]
    assert played.lengths_s[0].tolist() == [30, 41, 30]
    assert played.finished_wait_s[:, 0].tolist() == [0, 12, 0]
    assert played.waiting_s[0].tolist() == [3, 24, 6]


def test_dumbbells_left_at_ones_place_are_at_hand_unless_somebody_took_them():
    rounds = (*TWO_PLACES, (CHANGE, 1, 10, (), ()), (WORK, 2, 30, (1,), ()))
    plenty = a_class({"p001": (8000, 0), "p002": (0, 8000)}, timeline=rounds)
    # both were set out: p002 swaps within the change of 15 s, p001 takes 12 s of a change of 10 s
    assert lengths(*plenty) == [30, 15, 30, 12, 30]
    scarce = a_class({"p001": (8000, 0), "p002": (0, 8000)}, timeline=rounds, kit={8000: 2})
    assert lengths(*scarce) == [30, 35, 30, 35, 30]


def test_rising_from_the_floor_is_added_to_the_swap():
    core, problem = a_class(
        {"p001": (8000, 6000)}, timeline=TWO_PLACES, movements=("floor_press", "squat")
    )
    assert lengths(core, problem) == [30, 12 + 8, 30]
    core, problem = a_class(
        {"p001": (8000, 6000)}, timeline=TWO_PLACES, movements=("squat", "floor_press")
    )
    assert lengths(core, problem) == [30, 15, 30]


def test_rounds_and_the_last_third_slow_counted_sets_and_leave_timed_ones():
    rules = EVEN.model_copy(update={"last_third_bp": 11_000, "round_slower_bp": 500})
    rounds = ((WORK, 1, 30, (1,), ()), (CHANGE, 1, 15, (), ()), (WORK, 2, 30, (1,), ()))
    core, problem = a_class({"p001": (0, 0)}, timeline=rounds, rules=rules)
    assert lengths(core, problem) == pytest.approx([31, 15, 31 * 1.05])
    core, problem = a_class(
        {"p001": (0, 0)}, timeline=rounds, rules=rules, timed=True, values={"p001": 30}
    )
    played = play(core, problem, plays=1)
    assert played.lengths_s[0].tolist() == [30, 15, 30]
    # Ten reps are expected; at 31/30 of the time each, and 5 % more in round 2, some do not fit.
    assert played.missed_reps[0] == pytest.approx([10 * (1 - 30 / 31), 0, 10 * (1 - 30 / 32.55)])


def test_pairs_have_two_halves_and_wait_only_in_their_own():
    core, problem = a_class(
        {"p001": (8000, 8000), "p002": (8000, 8000), "p003": (0, 0), "p004": (0, 0)},
        values={"p001": 10, "p002": 8, "p003": 4, "p004": 10},
        timeline=((WORK, 1, 66, (1, 1), (30, 30)), (CHANGE, 1, 15, (), ())),
        groups=(("p001", "p002"), ("p003", "p004")),
        form=ClassFormat.PAIRS,
    )
    played = play(core, problem, plays=1)
    assert played.lengths_s[0].tolist() == [30 + 6 + 30, 15]
    assert played.waiting_s[0].tolist() == [0, 6, 18, 0]


def test_groups_at_different_places_end_a_window_together():
    core, problem = a_class(
        {"p001": (8000, 8000), "p002": (6000, 6000)},
        values={"p001": 10, "p002": 5},
        timeline=((WORK, 1, 30, (1, 2), ()), (CHANGE, 1, 15, (), ()), (WORK, 1, 30, (2, 1), ())),
        groups=(("p001",), ("p002",)),
        form=ClassFormat.STATIONS,
    )
    played = play(core, problem, plays=1)
    assert played.lengths_s[0].tolist() == [30, 15, 30]
    assert played.positions.tolist() == [[1, 2, 2], [2, 1, 1]]
    assert played.waiting_s[0].tolist() == [0, 30]


def test_a_rope_for_the_burst_lies_ready():
    rounds = []
    for n in (1, 2):
        rounds += [
            (WORK, n, 30, (1,), ()),
            (CHANGE, n, 15, (), ()),
            (WindowKind.BURST, n, 30, (), ()),
            (WindowKind.REST, n, 60, (), ()),
        ]
    core, problem = a_class({"p001": (0, 0)}, timeline=tuple(rounds))
    dose = core.people[0].model_copy(
        update={"burst": "march", "burst_kit": (KitUnits(item_id="rope", units=1),)}
    )
    core = core.model_copy(update={"people": (dose,)})
    assert lengths(core, problem) == [30, 15, 30, 60, 30, 15, 30, 60]


def test_who_sits_a_place_out_does_not_wait_and_nobody_else_waits_for_them():
    core, problem = a_class({"p001": (0, 0), "p002": (0, 0)}, timeline=TWO_PLACES)
    out = Cell(person_id="p002", position=1, state="sit_out")
    cells = tuple(out if (c.person_id, c.position) == ("p002", 1) else c for c in core.cells)
    played = play(core.model_copy(update={"cells": cells}), problem, plays=1)
    assert played.lengths_s[0].tolist() == [30, 15, 30]
    assert played.waiting_s[0].tolist() == [0, 0]


@pytest.mark.parametrize(("slot_s", "chance"), [(75, 10_000), (74, 0)])
def test_ending_with_the_slot_is_on_time(slot_s, chance):
    core, problem = a_class({"p001": (8000, 8000)}, timeline=TWO_PLACES, slot_s=slot_s)
    told = chance_on_time(core, problem, seed=4, plays=10)
    assert (told.chance_bp, told.seed, told.plays) == (chance, 4, 10)
    assert (told.typical_s, told.late_s) == (75, 75)


def test_half_of_the_plays_are_slower_than_the_plan():
    rules = EVEN.model_copy(update={"pace_between_bp": 1500, "pace_within_bp": 800})
    core, problem = a_class({"p001": (0, 0)}, timeline=TWO_PLACES, rules=rules, slot_s=75)
    played = play(core, problem, plays=4000)
    logs = np.log(played.lengths_s[:, 0] / 30)
    assert abs(played.chance_on_time.chance_bp - 5000) < 250
    assert abs(logs.mean()) < 0.01
    assert logs.std() == pytest.approx((0.15**2 + 0.08**2) ** 0.5, rel=0.05)
    assert np.corrcoef(logs, np.log(played.lengths_s[:, 2] / 30))[0, 1] == pytest.approx(
        0.15**2 / (0.15**2 + 0.08**2), abs=0.04
    )


@pytest.mark.parametrize("few", [1, 250, 300, 1000, 1100])
def test_the_first_plays_of_many_are_the_plays_of_few_and_seeds_differ(few):
    rules = EVEN.model_copy(update={"pace_between_bp": 1500})
    core, problem = a_class({"p001": (0, 0)}, timeline=TWO_PLACES, rules=rules)
    many = play(core, problem, seed=3, plays=1300).class_s
    assert play(core, problem, seed=3, plays=few).class_s.tolist() == many[:few].tolist()
    assert (play(core, problem, seed=4, plays=1300).class_s != many).all()
    assert len(set(many.tolist())) == 1300


def test_a_plan_that_names_what_is_not_there_is_refused():
    core, problem = a_class({"p001": (0, 0)}, timeline=TWO_PLACES)
    stranger = core.people[0].model_copy(update={"person_id": "p009"})
    with pytest.raises(BadInputError) as refused:
        play(core.model_copy(update={"people": (stranger,)}), problem)
    assert {fault.field for fault in refused.value.faults} == {"person", "group"}
    window = core.timeline[0].model_copy(update={"positions": ()})
    with pytest.raises(BadInputError):
        play(core.model_copy(update={"timeline": (window,)}), problem)
    with pytest.raises(ValueError, match="at least once"):
        play(core, problem, plays=0)


def test_arrays_cannot_be_written_and_a_class_of_nothing_lasts_nothing():
    core, problem = a_class({"p001": (0, 0)}, timeline=TWO_PLACES)
    played = play(core, problem, plays=2)
    with pytest.raises(ValueError, match="read-only"):
        played.lengths_s[0, 0] = 0
    empty = play(core.model_copy(update={"timeline": ()}), problem, plays=2)
    assert empty.class_s.tolist() == [0, 0]
    assert empty.chance_on_time.chance_bp == 10_000
