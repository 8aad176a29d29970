import pytest

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.foundation.errors import BadInputError
from roundwright.goals.class_wish import Pace
from roundwright.hall.hall_text import read_hall_texts
from tests.hall.hall_files import CLASS, HALL, hall_files, only_fault, read

KEEP = """
[[keep]]
person = "p001"
position = 1
version = "squat"
mass = "8 kg"
"""


def changed(old: str, new: str) -> dict[str, bytes]:
    assert old in CLASS
    return hall_files(tuesday=CLASS.replace(old, new))


def test_an_unknown_exercise_gives_the_nearest():
    fault = only_fault(changed("squat_line", "sqat_line"))
    assert (fault.code, fault.line, fault.nearest[0]) == ("name.unknown", 14, "squat_line")


def test_a_version_in_place_of_its_line_is_answered_with_the_line():
    fault = only_fault(changed('"squat_line"', '"box_jump"'))
    assert fault.nearest == ("step_up_line",)
    assert "progression line" in fault.remedy


def test_an_unknown_burst_line_gives_the_nearest():
    assert only_fault(changed("skip_line", "skip_lin")).nearest[0] == "skip_line"


def test_an_unknown_room_gives_the_nearest():
    assert only_fault(changed("main_floor", "man_floor")).nearest == ("main_floor",)


@pytest.mark.parametrize("slot", ['"0 min"', "0", "-5", '"59 s"', '"5 h"'])
def test_a_slot_of_no_minutes_is_out_of_range(slot):
    fault = only_fault(changed('"45 min"', slot))
    assert (fault.code, fault.field, fault.line) == ("field.range", "slot", 5)


def test_a_limit_of_seconds_says_its_unit():
    assert only_fault(changed('"45 min"', "0")).expected == "at least 60 s"


def test_a_class_without_exercises_is_a_fault():
    head = CLASS.split("[[exercise]]", maxsplit=1)[0]
    assert only_fault(hall_files(tuesday=head)).field == "exercise"


@pytest.mark.parametrize(
    ("day", "start", "word"),
    [("2026-03-29", "01:30", "missing"), ("2026-10-25", "01:30", "double")],
)
def test_a_local_time_that_is_missing_or_double_is_a_fault(day, start, word):
    text = CLASS.replace("2026-03-03", day).replace("18:30", start)
    fault = only_fault(hall_files(tuesday=text))
    assert (fault.code, fault.line) == ("field.time", 4)
    assert word in fault.value


@pytest.mark.parametrize("start", ['"half past six"', "18", '"18:30Z"', '"25:00"', "true"])
def test_a_start_that_is_no_local_time_is_a_fault(start):
    fault = only_fault(changed('"18:30"', start))
    assert (fault.code, fault.field) == ("field.value", "start")


@pytest.mark.parametrize("day", ["20", '"tomorrow"', "2026-03-03T10:00:00"])
def test_a_day_that_is_no_date_is_a_fault(day):
    fault = only_fault(changed("on = 2026-03-03", f"on = {day}"))
    assert (fault.code, fault.field) == ("field.value", "on")


@pytest.mark.parametrize("day", ["", 'on = 2026-03-03\nweekday = "tuesday"'])
def test_a_class_has_a_date_or_a_weekday_and_not_both(day):
    assert only_fault(changed("on = 2026-03-03", day)).field == "on"


def test_a_timed_pace_needs_its_seconds():
    timed = CLASS.replace("rounds = 2", 'rounds = 2\npace = "timed"').replace('"reps"', '"seconds"')
    text = timed.replace('"reps_per_side"', '"seconds"')
    fault = only_fault(hall_files(tuesday=text))
    assert (fault.code, fault.field) == ("field.missing", "work")


def test_a_timed_class_needs_no_counts():
    text = CLASS.replace("rounds = 2", 'rounds = 2\npace = "timed"\nwork = "40 s"')
    bare = "\n".join(line for line in text.split("\n") if not line.startswith("count"))
    assert read(hall_files(tuesday=bare)).classes["tuesday"].pace is Pace.TIMED


def test_reps_in_a_timed_class_are_a_fault():
    text = CLASS.replace("rounds = 2", 'rounds = 2\npace = "timed"\nwork = "40 s"')
    text = text.replace("reps_per_side", "seconds")
    assert only_fault(hall_files(tuesday=text)).field == "exercise 1: count.unit"


def test_a_counted_exercise_needs_its_count():
    fault = only_fault(changed('count = { value = 8, unit = "reps" }\n', ""))
    assert (fault.code, fault.field) == ("field.missing", "exercise 1: count")


def test_an_odd_alternating_count_is_a_fault():
    fault = only_fault(changed('8, unit = "reps"', '7, unit = "reps_alternating"'))
    assert (fault.code, fault.line) == ("class.odd_alternating", 15)


def test_an_alternating_count_on_a_combination_is_a_fault():
    fault = only_fault(changed("reps_per_side", "reps_alternating"))
    assert (fault.code, fault.line) == ("library.sides", 19)


@pytest.mark.parametrize("unit", ["reps_per_side", "seconds_per_side"])
def test_a_count_a_side_on_a_combination_without_sides_is_a_fault(unit):
    text = CLASS.replace("split_squats_press", "hinge_row_squat_press")
    fault = only_fault(hall_files(tuesday=text.replace("reps_per_side", unit)))
    assert fault.code == "library.sides"


def test_an_unknown_unit_gives_the_nearest():
    fault = only_fault(changed("reps_per_side", "reps_a_side"))
    assert (fault.code, fault.nearest[0]) == ("field.value", "reps_per_side")


@pytest.mark.parametrize(
    ("people", "code", "line"),
    [
        ('["p001", "p003"]', "name.unknown", 8),
        ('["p001", "p001"]', "name.duplicate", 8),
        ("[]", "people.none", 8),
        ('"everyone"', "field.value", 8),
        ("[1, 2]", "field.value", 8),
    ],
)
def test_people_of_a_class_must_be_there_once(people, code, line):
    fault = only_fault(changed("rounds = 2", f"rounds = 2\npeople = {people}"))
    assert (fault.code, fault.line) == (code, line)


def test_what_is_kept_and_known_is_accepted():
    assert read(hall_files(tuesday=CLASS + KEEP)).classes["tuesday"].keep[0].mass_g == 8000


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('"p001"', '"p012"', "name.unknown"),
        ("position = 1", "position = 3", "field.range"),
        ("position = 1", "position = 0", "field.range"),
        ('"squat"', '"press"', "name.unknown"),
        ('"squat"', '"sqat"', "name.unknown"),
        ('"8 kg"', '"9 kg"', "field.value"),
        ('"8 kg"', '"-8 kg"', "field.range"),
    ],
)
def test_what_is_kept_must_be_known(old, new, code):
    fault = only_fault(hall_files(tuesday=CLASS + KEEP.replace(old, new)))
    assert (fault.code, fault.field.startswith("keep 1: ")) == (code, True)


def test_a_ban_of_something_unknown_gives_the_nearest():
    fault = only_fault(changed("rounds = 2", 'rounds = 2\nban = ["squat", "box_jmp"]'))
    assert (fault.code, fault.field, fault.nearest[0]) == ("name.unknown", "ban 2", "box_jump")


def test_true_is_not_a_number_of_rounds():
    assert only_fault(changed("rounds = 2", "rounds = true")).field == "rounds"


def test_a_class_is_judged_even_where_the_hall_has_no_zone():
    faulty = hall_files(hall=HALL.replace('time_zone = "Europe/London"\n', ""))
    assert only_fault(faulty).field == "time_zone"


def test_a_combination_that_does_one_side_only_needs_a_count_a_side():
    # shipped library: split squat left with a row left; a pass with `reps` would never do the right
    text = CLASS.replace("squat_line", "squats").replace("skip_line", "bursts")
    text = text.replace("split_squats_press", "split_squat_one_arm_row")
    library = shipped_catalogue()
    read_hall_texts(hall_files(tuesday=text), library)
    with pytest.raises(BadInputError) as caught:
        read_hall_texts(hall_files(tuesday=text.replace("reps_per_side", "reps")), library)
    assert [(f.code, f.line) for f in caught.value.faults] == [("library.sides", 19)]
