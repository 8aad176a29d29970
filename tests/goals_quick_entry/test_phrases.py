"""Lines as a coach writes them on paper: what each becomes, what is asked, what is not known."""

from datetime import date, time

import pytest

from roundwright.goals.class_wish import ClassFormat, Count, CountUnit, Pace
from roundwright.goals.quick_entry.entry import quick_entry
from roundwright.goals.quick_entry.names import Around
from roundwright.goals.quick_entry.people_phrases import banned_group
from roundwright.goals.quick_entry.results import Outcome, Question
from roundwright.library.vocabulary import Pattern
from tests.goals_quick_entry.spoken_classes import PEOPLE, ROOMS, around, entered

FIVE_A_SIDE = "5 a side split squat"


def wish_of(*lines: str):
    """Give the class of some lines, which are all understood."""
    entry = quick_entry(entered(*lines), around())
    assert (entry.asked, entry.not_understood) == ((), ())
    assert entry.wish is not None
    return entry.wish


def question_of(line: str) -> Question:
    """Give the one question about the last line of an otherwise whole class."""
    entry = quick_entry(entered(FIVE_A_SIDE, line), around())
    assert entry.wish is None
    assert len(entry.asked) == 1
    assert entry.asked[0].line == 4
    return entry.asked[0]


def test_a_class_as_it_stands_on_paper():
    wish = wish_of(
        "12 a side split squat",
        "hinge then row then squat then press 8 times",
        "8 x squat then press",
        "16 alternating reverse lunges",
        "40 s plank, 20 s rest",
        "burst: rope 60 s",
        "rest 60 s",
        "warm-up 6 min",
    )
    assert (wish.weekday, wish.start, wish.slot_s) == ("tuesday", time(18, 30), 45 * 60)
    assert (wish.room, wish.rounds, wish.people) == ("main_hall", 3, "all")
    assert [(e.exercise, e.count) for e in wish.exercise] == [
        ("split_squats", Count(value=12, unit=CountUnit.REPS_PER_SIDE)),
        ("hinge_row_squat_press", Count(value=8, unit=CountUnit.REPS)),
        ("squat_press", Count(value=8, unit=CountUnit.REPS)),
        ("reverse_lunges", Count(value=16, unit=CountUnit.REPS_ALTERNATING)),
        ("planks", Count(value=40, unit=CountUnit.SECONDS)),
    ]
    assert (wish.change_s, wish.rest_s, wish.warm_up_s) == (20, 60, 360)
    assert wish.burst is not None
    assert (wish.burst.line, wish.burst.length_s) == ("bursts", 60)


def test_defaults_are_read_back_as_usual():
    entry = quick_entry(entered(FIVE_A_SIDE), around())
    assert entry.read_back[-1].endswith(", as usual")
    assert "change 15 s" in entry.read_back[-1]
    assert "everyone" in entry.read_back[-1]
    said = quick_entry(entered(FIVE_A_SIDE, "change 15 s"), around())
    assert "change 15 s" in said.read_back
    assert "change 15 s" not in said.read_back[-1]


@pytest.mark.parametrize(
    ("line", "exercise", "value", "unit"),
    [
        ("twelve split squats each side", "split_squats", 12, CountUnit.REPS_PER_SIDE),
        ("split squats, 12 a side", "split_squats", 12, CountUnit.REPS_PER_SIDE),
        ("Split-squat 12 per side", "split_squats", 12, CountUnit.REPS_PER_SIDE),
        ("12 split squats on both sides", "split_squats", 12, CountUnit.REPS_PER_SIDE),
        ("eight one-arm rows a side", "one_arm_rows", 8, CountUnit.REPS_PER_SIDE),
        ("pushups 10 times", "push_ups", 10, CountUnit.REPS),
        ("10 push-ups", "push_ups", 10, CountUnit.REPS),
        ("10 reps of push ups", "push_ups", 10, CountUnit.REPS),
        ("10 presses", "presses", 10, CountUnit.REPS),
        ("16 alternating curls", "alternating_curls", 16, CountUnit.REPS),
        ("plank for 1.5 min", "planks", 90, CountUnit.SECONDS),
        ("20 s side plank each side", "side_planks", 20, CountUnit.SECONDS_PER_SIDE),
        ("12 goblet squats", "squats", 12, CountUnit.REPS),
        ("8 split squats each side then press", "split_squats_press", 8, CountUnit.REPS),
        ("8 a side split squat then one-arm row", "split_squat_one_arm_row", 8,
         CountUnit.REPS_PER_SIDE),
        ("6 x row then hinge then squat in blocks", "row_hinge_squat_blocks", 6, CountUnit.REPS),
        ("6 x push-up then mountain climber each side 2 in a row", "push_up_climbers", 6,
         CountUnit.REPS),
    ],
)  # fmt: skip
def test_one_exercise_in_many_wordings(line, exercise, value, unit):
    found = wish_of(line).exercise
    assert [(e.exercise, e.count) for e in found] == [(exercise, Count(value=value, unit=unit))]


@pytest.mark.parametrize(
    ("line", "missing", "near"),
    [
        ("12 split squats", "a side", "12 a side Split squat"),
        ("8 x qsuat", "meant", "8 times Squat"),
        ("12 a side squats", "no sides", "12 times Squat"),
        ("15 alternating reverse lunges", "even", "16 alternating Reverse lunge"),
        ("8 squats then 8 presses", "each pass", "presses 8 in a row"),
        ("8 x split squat then press", "which side", "Split squat each side"),
        ("601 squats", "1 to 600", ""),
        ("0 squats", "1 to 600", ""),
        ("12 a side", "for", ""),
        ("squat 30 kg", "whose load", ""),
        ("squats", "how often", "8 times Squat"),
        ("10 lunges", "meant", "10 times Side lunge"),
        ("8 times hinge, row, squat, press", "one exercise", "8 times Hinge then Row"),
        ("burst: march 40 s", "which burst", "burst: Cardio burst 40 s"),
        ("burst: rope", "how long", "burst: rope 60 s"),
        ("60 s", "what lasts", "rest 60 s"),
        ("warm-up 6", "minutes or seconds", "warm-up 6 min"),
        ("no jumps for Ann", "belongs to that person", ""),
        ("without rope", "left out", "no Rope skipping"),
        ("everyone but Anna", "who", "Ann"),
        ("with Cid", "which", "p3"),
        ("room attic", "which room", "Main hall"),
        ("Wednesday", "line 1", ""),
        ("31 April 2026", "there is", ""),
        ("25:10", "time of day", ""),
        ("4 rounds", "line 2 says: 3 rounds", ""),
        ("squat at place 2", "how many exercises", ""),
        ("Ann at place 3: rests", "stands for certain", ""),
        ("Ann at place 1: Goblet squat", "a version", "Split squat"),
        ("work and rest as fits", "seconds of work", "work 40 s"),
        ("2000 min warm-up", "warm up", ""),
    ],
)
def test_what_is_not_plain_is_asked(line, missing, near):
    asked = question_of(line)
    assert missing in asked.missing
    assert any(name.startswith(near) for name in asked.nearest or ("",))
    assert asked.nearest or not near


def test_words_without_meaning_are_listed_and_hold_the_class_back():
    entry = quick_entry(entered(FIVE_A_SIDE, "turquoise elephants, leave 2"), around())
    assert [(n.line, n.words) for n in entry.not_understood] == [(4, "turquoise elephants")]
    assert entry.wish is None
    assert entry.lines[3].outcome is Outcome.NOT_UNDERSTOOD
    assert "leave 2" in entry.read_back


@pytest.mark.parametrize(
    ("said", "form"),
    [
        (("4 groups",), ClassFormat.STAGGERED),
        (("in four staggered groups",), ClassFormat.STAGGERED),
        (("stations", "4 groups"), ClassFormat.STATIONS),
        (("4 groups", "staggered"), ClassFormat.STAGGERED),
    ],
)
def test_a_number_of_groups_is_read_and_read_back(said, form):
    entry = quick_entry(entered(FIVE_A_SIDE, *said), around())
    assert entry.wish is not None
    assert (entry.wish.format, entry.wish.groups) == (form, 4)
    assert "4 groups" in entry.read_back
    assert quick_entry("\n".join(entry.read_back), around()).wish == entry.wish


@pytest.mark.parametrize("said", [("5 groups",), ("1 groups",), ("in pairs", "3 groups")])
def test_groups_that_cannot_be_are_asked(said):
    entry = quick_entry(entered(FIVE_A_SIDE, *said), around())
    assert entry.wish is None
    assert "groups" in entry.asked[0].missing


@pytest.mark.parametrize(
    ("said", "left"),
    [("leave 2", 2), ("leaving about three", 3), ("stop with 4 reps left", 4), ("0 in reserve", 0)],
)
def test_reps_in_reserve_are_read_and_read_back(said, left):
    entry = quick_entry(entered(FIVE_A_SIDE, said), around())
    assert entry.wish is not None
    assert entry.wish.reps_left == left
    assert f"leave {left}" in entry.read_back
    assert wish_of(FIVE_A_SIDE).reps_left is None


def test_more_in_reserve_than_a_set_holds_is_asked():
    entry = quick_entry(entered(FIVE_A_SIDE, "leave 7"), around())
    assert entry.wish is None
    assert entry.asked[0].missing.endswith("0 to 6")


def test_a_timed_class_and_its_rest():
    wish = wish_of("work 40 rest 20", "squat", "row", "20 s a side side lunge", "stations")
    assert (wish.pace, wish.work_s, wish.change_s, wish.rest_s) == (Pace.TIMED, 40, 20, 60)
    assert [e.exercise for e in wish.exercise] == ["squats", "rows", "side_lunges"]
    assert wish.format is ClassFormat.STATIONS
    entry = quick_entry(entered("work 40 rest 20", "12 squats"), around())
    assert "seconds" in entry.asked[0].missing


def test_no_jumps_leaves_out_every_version_that_leaves_the_floor():
    catalogue = around().catalogue
    banned = set(wish_of(FIVE_A_SIDE, "no jumps for anyone").ban)
    for movement in catalogue.movements.values():
        leaves = movement.contacts_a_rep or movement.low_hops_a_rep
        assert (movement.slug in banned) == bool(leaves or movement.pattern is Pattern.JUMP)
    assert {"rope_skipping", "box_jump"} <= banned
    assert set(banned_group("jump", catalogue)) == banned


def test_who_comes():
    assert wish_of(FIVE_A_SIDE, "everyone but Ann").people == ("p2", "p3", "p4", "p5", "p6")
    assert wish_of(FIVE_A_SIDE, "with Ann, Bo Reed and p4").people == ("p1", "p2", "p4")
    nobody_known = Around(around().catalogue, ROOMS)
    entry = quick_entry(entered(FIVE_A_SIDE, "everyone but Ann"), nobody_known)
    assert "no people are given" in entry.asked[0].missing


def test_a_long_list_of_people_with_commas():
    many = {f"m{n}": f"Member {chr(65 + n // 26)}{chr(65 + n % 26)}" for n in range(60)}
    known = Around(around().catalogue, ROOMS, many)
    entry = quick_entry(entered(FIVE_A_SIDE, "with " + ", ".join(many.values())), known)
    assert entry.wish is not None
    assert entry.wish.people == tuple(many)


def test_what_is_kept_for_one_person():
    kept = wish_of(
        "8 times squat", "10 push-ups", "Ann at place 1: goblet squat with 8 kg",
        "joan-marie at place 2: rests", "Bo Reed at place 2: reach up instead",
    ).keep  # fmt: skip
    assert [(k.person, k.position, k.version, k.mass_g, k.rests, k.instead) for k in kept] == [
        ("p1", 1, "goblet_squat", 8000, False, None),
        ("p5", 2, None, None, True, None),
        ("p2", 2, None, None, False, "reaches"),
    ]
    assert PEOPLE["p5"] == "Joan-Marie"


def test_a_day_with_its_date():
    text = "Tuesday, 31 March 2026 at 6:30 pm\n1 hour\n2 to 4 rounds\nroom main hall\n9 squats"
    wish = quick_entry(text, around()).wish
    assert wish is not None
    assert (wish.on, wish.weekday, wish.start) == (date(2026, 3, 31), None, time(18, 30))
    assert (wish.slot_s, wish.rounds, wish.rounds_choice) == (3600, 2, (3, 4))
    assert wish.name == "31 March 2026 18:30"


def test_what_is_missing_is_asked_of_the_whole_class():
    entry = quick_entry("", around())
    assert {q.line for q in entry.asked} == {0}
    missing = " ".join(q.missing for q in entry.asked)
    for word in ("day", "time", "long", "rounds", "room", "exercises"):
        assert word in missing


def test_a_class_that_is_completed_needs_no_counts():
    wish = wish_of("5 exercises a round", "squat at place 2", "row", "any format")
    assert (wish.places, [e.position for e in wish.exercise]) == (5, [2, None])


def test_a_long_text_of_nonsense_is_taken_whole():
    text = "squat," * 170 + "\n"
    entry = quick_entry(text * 160, around())
    assert len(entry.lines) == 160
    assert entry.wish is None
    assert entry.lines[-1].outcome is Outcome.NOT_UNDERSTOOD
