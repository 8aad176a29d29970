"""From a hall and wishes to the question 'which class?': what is kept, offered and refused."""

from datetime import date, time

import pytest

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.goals.class_wish import (
    BurstWish,
    ClassFormat,
    ClassWish,
    Count,
    CountUnit,
    ExerciseWish,
    KeptCell,
    Pace,
    WorkRestWish,
)
from roundwright.library.vocabulary import Pattern
from roundwright.optimise.fit import fit
from roundwright.optimise.planning.exercise_facts import facts_of_exercise
from roundwright.plan.build_planning import (
    EVERY_FORMAT,
    KeptWish,
    PlanWishes,
    build_chosen,
    build_planning,
)
from roundwright.plan.menu_table import MenuTable, default_count, may_be_proposed
from roundwright.plan.planning_problem import Candidate
from roundwright.plan.recent import Recent, RecentExercise
from roundwright.plan.rule_table import RuleTable
from tests.services.a_hall import a_hall
from tests.support.builders import a_side, reps

DAY = date(2026, 3, 3)


def a_wish(**changes):
    values = {
        "name": "Tuesday circuit",
        "weekday": "tuesday",
        "start": time(18, 0),
        "slot_s": 2700,
        "room": "main",
        "rounds": 2,
        "burst": BurstWish(line="bursts", length_s=30),
    }
    return ClassWish(**(values | changes))


def asked(wish, wishes=None, recent=None):
    hall = a_hall(catalogue=shipped_catalogue(), classes={"tuesday": wish})
    return build_planning(hall, "tuesday", DAY, recent, wishes)


GIVEN = (
    ExerciseWish(exercise="squats", count=reps(12)),
    ExerciseWish(exercise="push_ups", count=reps(9)),
)


def test_a_class_without_exercises_is_all_open():
    planning = asked(a_wish(places=4))
    assert (planning.places, planning.kept) == (4, ())
    assert {"squats", "push_ups", "squat_press"} <= {c.exercise_id for c in planning.candidates}


@pytest.mark.parametrize(("given", "places"), [(0, 5), (2, 5), (5, 5), (6, 6)])
def test_a_round_has_five_places_unless_more_are_given(given, places):
    names = ("squats", "push_ups", "hinges", "rows", "planks", "presses")[:given]
    wish = a_wish(exercise=tuple(ExerciseWish(exercise=n, count=reps(8)) for n in names))
    assert asked(wish).places == places


def test_given_exercises_of_an_open_class_are_kept_anywhere_with_their_count():
    planning = asked(a_wish(places=4, exercise=GIVEN))
    assert [(k.exercise_id, k.position, k.count) for k in planning.kept] == [
        ("squats", None, reps(12)),
        ("push_ups", None, reps(9)),
    ]
    assert not {"squats", "push_ups"} & {c.exercise_id for c in planning.candidates}


def test_a_written_position_holds():
    exercise = (GIVEN[0].model_copy(update={"position": 3}), GIVEN[1])
    planning = asked(a_wish(places=4, exercise=exercise))
    assert [k.position for k in planning.kept] == [3, None]


def test_a_complete_class_stays_in_its_order_unless_it_is_free():
    assert [k.position for k in asked(a_wish(places=2, exercise=GIVEN)).kept] == [1, 2]
    free = a_wish(places=2, exercise=GIVEN, order="free")
    assert [k.position for k in asked(free).kept] == [None, None]


def test_what_is_kept_for_a_person_keeps_its_exercise_in_place():
    cell = KeptCell(person="p001", position=2, version="wall_push_up")
    planning = asked(a_wish(places=4, exercise=GIVEN, keep=(cell,)))
    assert [k.position for k in planning.kept] == [None, 2]
    assert planning.base.spec.keep == (cell,)
    assert asked(a_wish(exercise=GIVEN, keep=(cell,)), PlanWishes(anew=True)).base.spec.keep == ()


def test_anew_offers_the_given_exercises_with_their_counts():
    planning = asked(a_wish(exercise=GIVEN), PlanWishes(anew=True))
    assert planning.kept == ()
    counts = {c.exercise_id: c.count for c in planning.candidates}
    assert (counts["squats"], counts["push_ups"]) == (reps(12), reps(9))


def test_wishes_are_added_to_the_file():
    wishes = PlanWishes(
        keep=(KeptWish("planks", 1),),
        ban=("presses",),
        leave_out=frozenset({"rows"}),
        besides=(("squats", "hinges"),),
        places=6,
        class_format=ClassFormat.PAIRS,
        rounds=(3, 2),
    )
    planning = asked(a_wish(exercise=GIVEN, ban=("hinges",)), wishes)
    offered = {c.exercise_id for c in planning.candidates}
    assert planning.places == 6
    assert ("planks", 1) in [(k.exercise_id, k.position) for k in planning.kept]
    assert not offered & {"presses", "rows", "hinges", "squat_press", "row_hinge_squat_blocks"}
    assert {"seated_half_press", "dumbbell_hinge"} <= set(planning.base.spec.ban)
    assert "bent_over_row" not in planning.base.spec.ban
    assert (planning.besides, planning.others) == ((("hinges", "squats"),), 2)
    assert planning.formats == (ClassFormat.PAIRS,)
    assert (planning.base.spec.rounds, planning.rounds_choice) == (3, (3, 2))


def test_any_format_means_each_in_the_order_of_ties():
    assert asked(a_wish(format=ClassFormat.ANY)).formats == EVERY_FORMAT


def test_rounds_that_may_be_planned_instead_include_the_wished_ones():
    assert asked(a_wish(rounds_choice=(3, 4))).rounds_choice == (2, 3, 4)
    assert asked(a_wish()).rounds_choice == ()


def test_nothing_of_cardio_mobility_or_only_for_beginners_is_offered():
    catalogue = shipped_catalogue()
    offered = {c.exercise_id for c in asked(a_wish()).candidates}
    assert not offered & {"bursts", "reaches", "seated_marches"}
    for exercise in offered:
        for line in catalogue.lines_of_exercise(exercise):
            first = catalogue.versions(line)[0].pattern
            assert first not in (Pattern.CARDIO, Pattern.MOBILITY)
    assert not may_be_proposed(catalogue, "bursts")


@pytest.mark.parametrize(
    ("exercise", "value", "unit"),
    [
        ("squats", 10, CountUnit.REPS),
        ("split_squats", 8, CountUnit.REPS_PER_SIDE),
        ("step_ups", 16, CountUnit.REPS_ALTERNATING),
        ("planks", 8, CountUnit.REPS),
        ("taps_and_rows", 16, CountUnit.REPS_ALTERNATING),
        ("squat_press", 8, CountUnit.REPS),
        ("split_squats_press", 8, CountUnit.REPS),
        ("hinge_row_squat_press", 6, CountUnit.REPS),
        ("split_squat_one_arm_row", 6, CountUnit.REPS_PER_SIDE),
        ("row_hinge_squat_blocks", 6, CountUnit.REPS),
        ("mountain_climbers", 20, CountUnit.REPS_ALTERNATING),  # 20 s of 1 s at the wall
        ("bird_dogs", 14, CountUnit.REPS_ALTERNATING),  # 16 would take 64 s
        ("overhead_carries", 7, CountUnit.REPS_PER_SIDE),  # 8 a side would take 64 s
    ],
)
def test_each_kind_has_its_default_count(exercise, value, unit):
    count = default_count(shipped_catalogue(), exercise, None, MenuTable())
    assert count == Count(value=value, unit=unit)


def test_in_a_timed_class_the_clock_is_the_count():
    planning = asked(a_wish(pace=Pace.TIMED, work_s=45))
    counts = {c.exercise_id: c.count for c in planning.candidates}
    assert counts["squats"] == Count(value=45, unit=CountUnit.SECONDS)
    assert counts["split_squat_one_arm_row"] == Count(value=22, unit=CountUnit.SECONDS_PER_SIDE)


def test_recent_work_is_known_with_its_exercises():
    recent = Recent(exercises=(RecentExercise(exercise_id="reaches", days_ago=2),))
    base = asked(a_wish(), recent=recent).base
    assert base.recent == recent
    assert base.library.has_exercise("reaches")


@pytest.mark.parametrize(
    ("wishes", "field"),
    [
        (PlanWishes(keep=(KeptWish("sqats"),)), "keep"),
        (PlanWishes(keep=(KeptWish("planks", 6),)), "keep"),
        (PlanWishes(keep=(KeptWish("planks", 2), KeptWish("rows", 2))), "keep"),
        (PlanWishes(keep=(KeptWish("planks"),), ban=("planks",)), "ban"),
        (PlanWishes(keep=(KeptWish("planks"),), leave_out=frozenset({"planks"})), "ban"),
        (PlanWishes(ban=("burpes",)), "ban"),
        (PlanWishes(places=1), "places"),
        (PlanWishes(places=13), "places"),
    ],
)
def test_wishes_that_cannot_be_are_refused_in_words(wishes, field):
    with pytest.raises(BadInputError) as caught:
        asked(a_wish(exercise=GIVEN), wishes)
    assert {f.field for f in caught.value.faults} == {field}


def test_an_exercise_given_twice_is_refused_because_a_planned_class_has_it_once():
    with pytest.raises(BadInputError) as caught:
        asked(a_wish(exercise=(GIVEN[0], GIVEN[0])))
    assert caught.value.faults[0].field == "exercise 2: exercise"


def test_an_unknown_class_names_the_nearest():
    with pytest.raises(NotFoundError, match="tuesday"):
        build_planning(a_hall(), "tuesdy", DAY)


def test_a_chosen_class_is_put_together_again_with_today_s_people(fitted_core):
    hall, core = fitted_core
    problem = build_chosen(hall, core, Recent())
    assert [e.exercise_id for e in problem.spec.exercises] == ["step_up_line", "squat_line"]
    assert problem.spec.chosen_by == "tool"
    assert problem.spec.format is core.class_.format
    assert set(problem.people) == {"p001", "p002"}


@pytest.fixture
def fitted_core():
    hall = a_hall()
    planning = build_planning(hall, "tuesday", DAY, wishes=PlanWishes(places=2, anew=True))
    chosen = (
        Candidate(exercise_id="step_up_line", count=a_side(6)),
        Candidate(exercise_id="squat_line", count=reps(8)),
    )
    problem = planning.concrete(chosen, ClassFormat.TOGETHER, 2)
    return hall, fit(problem, plan_id="00000000-0000-4000-8000-000000000001").core


TIMED = {"pace": Pace.TIMED, "work_s": 40}


def test_work_and_rest_are_asked_for_by_the_class_or_by_the_wish():
    wish = a_wish(**TIMED, work_rest=WorkRestWish.ANY)
    planning = asked(wish)
    assert planning.work_rest is WorkRestWish.ANY
    assert [(p.room, p.work_s) for p in planning.pairs if p] == [("trained", 45)]
    assert all(c.follows_work for c in planning.candidates)
    own = asked(wish, PlanWishes(work_rest=WorkRestWish.OWN))
    assert own.pairs == (None,)
    heavier = asked(a_wish(**TIMED), PlanWishes(work_rest=WorkRestWish.HEAVIER))
    assert [p.rest_s for p in heavier.pairs if p] == [60]


def test_seconds_of_work_and_change_said_now_are_the_coach_s_own():
    planning = asked(a_wish(**TIMED, work_rest=WorkRestWish.ANY), PlanWishes(work_rest=(25, 20)))
    assert planning.pairs == (None,)
    assert not planning.leaves_length_open
    assert planning.base.spec.change_s == 20
    assert {c.count.value for c in planning.candidates} <= {25, 12}


def test_a_written_count_does_not_follow_the_work():
    thirty = Count(value=30, unit=CountUnit.SECONDS)
    given = (ExerciseWish(exercise="squats", count=thirty), ExerciseWish(exercise="push_ups"))
    wish = a_wish(**TIMED, work_rest=WorkRestWish.ANY, places=3, exercise=given)
    kept = {k.exercise_id: k for k in asked(wish).kept}
    assert (kept["squats"].follows_work, kept["push_ups"].follows_work) == (False, True)
    timed = asked(wish)
    (pair,) = timed.pairs
    spec = timed.with_pair(pair, ClassFormat.TOGETHER)
    counts = {k.exercise_id: k.count.value for k in spec.kept}
    assert counts == {"squats": 30, "push_ups": 45}
    assert spec.base.spec.change_s == 15


@pytest.mark.parametrize("said", [WorkRestWish.ANY, WorkRestWish.HEAVIER, (40, 20)])
def test_a_counted_class_has_no_work_and_rest_to_choose(said):
    with pytest.raises(BadInputError) as caught:
        asked(a_wish(), PlanWishes(work_rest=said))
    assert {f.field for f in caught.value.faults} == {"work_rest"}


def test_no_pair_of_the_table_for_who_is_there_is_a_fault_and_not_a_class_without(monkeypatch):
    monkeypatch.setattr("roundwright.plan.build_planning.fitting_pairs", lambda *_: ())
    with pytest.raises(BadInputError, match="work_rest"):
        asked(a_wish(**TIMED, work_rest=WorkRestWish.ANY))


def test_a_chosen_class_keeps_the_pair_and_the_change_that_it_was_planned_with(fitted_core):
    hall, core = fitted_core
    today = build_chosen(hall, core, Recent())
    pair = RuleTable().work_rests[0]
    planned = today.spec.model_copy(
        update={
            "chosen_by": "coach",
            "length_by": "tool",
            "work_rest": pair,
            "change_s": 40,
            "pace": Pace.TIMED,
        }
    )
    spec = build_chosen(hall, core, Recent(), planned).spec
    assert (spec.chosen_by, spec.length_by) == ("coach", "tool")
    assert (spec.work_rest, spec.change_s) == (pair, 40)
    assert build_chosen(hall, core, Recent(), today.spec).spec.work_rest is None


def test_what_stands_for_push_pull_knee_and_hip_in_the_shipped_library_is_no_accessory() -> None:
    library = shipped_catalogue()
    accessories = {e for e in library.lines if facts_of_exercise(e, library).accessory}
    assert {
        "curls",
        "hammer_curls",
        "triceps_extensions",
        "kickbacks",
        "calf_raises",
    } <= accessories
    assert {"side_raises", "front_raises", "straight_arm_pulls"} <= accessories
    whole = {"squats", "hinges", "push_ups", "rows", "presses", "band_rows", "one_arm_rows"}
    assert not accessories & {*whole, "planks", "side_planks", "bridges", "chest_presses"}
