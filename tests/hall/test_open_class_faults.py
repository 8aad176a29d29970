"""Classes that are to be completed: how many places, who stands where, and what is said."""

import pytest

from roundwright.goals.class_wish import WorkRestWish
from roundwright.hall.written_hall import written_hall
from tests.hall.hall_files import CLASS, hall_files, only_fault, read

SECOND = '[[exercise]]\nexercise = "split_squats_press"'
HEAD = CLASS.split("[[exercise]]", maxsplit=1)[0].replace("[burst]", "places = 4\n\n[burst]")


def opened(places: object = 4, second: str = SECOND, **more: object) -> dict[str, bytes]:
    lines = "".join(f"{name} = {value}\n" for name, value in more.items())
    given = "" if places is None else f"places = {places}\n"
    text = CLASS.replace("rounds = 2\n", f"rounds = 2\n{given}{lines}")
    assert SECOND in text
    return hall_files(tuesday=text.replace(SECOND, second))


def open_rounds(said: str) -> dict[str, bytes]:
    return hall_files(tuesday=CLASS.replace("rounds = 2\n", f"rounds = {said}\n"))


def test_a_class_with_places_needs_no_exercises():
    wish = read(hall_files(tuesday=HEAD)).classes["tuesday"]
    assert (wish.places, wish.exercise) == (4, ())


def test_a_class_with_open_places_needs_no_counts():
    bare = opened()["classes/tuesday.toml"].decode().split("\n")
    text = "\n".join(line for line in bare if not line.startswith("count"))
    wish = read(hall_files(tuesday=text)).classes["tuesday"]
    assert [e.count for e in wish.exercise] == [None, None]


def test_positions_and_rounds_that_may_be_chosen_are_read():
    files = opened(second=SECOND + "\nposition = 4", rounds_choice="[3, 4]")
    wish = read(files).classes["tuesday"]
    assert [e.position for e in wish.exercise] == [None, 4]
    assert wish.rounds_choice == (3, 4)


def test_fewer_places_than_exercises_are_a_fault():
    fault = only_fault(opened(places=1))
    assert (fault.code, fault.field, fault.line) == ("field.range", "places", 8)
    assert "at least 2" in fault.expected


def test_a_position_beyond_the_places_is_a_fault():
    fault = only_fault(opened(second=SECOND + "\nposition = 5"))
    assert (fault.code, fault.field) == ("field.range", "exercise 2: position")
    assert fault.expected == "1 to 4"


def test_two_exercises_at_one_position_are_a_fault():
    files = opened(second=SECOND + "\nposition = 2")
    text = files["classes/tuesday.toml"].decode()
    twice = text.replace('exercise = "squat_line"', 'exercise = "squat_line"\nposition = 2')
    fault = only_fault(hall_files(tuesday=twice))
    assert (fault.code, fault.field) == ("name.duplicate", "exercise 2: position")
    assert "squat_line" in fault.expected


def test_a_position_without_places_is_a_fault():
    fault = only_fault(opened(places=None, second=SECOND + "\nposition = 2"))
    assert (fault.code, fault.field) == ("field.missing", "places")


def test_a_position_in_a_free_order_is_a_fault():
    fault = only_fault(opened(second=SECOND + "\nposition = 2", order='"free"'))
    assert fault.field == "exercise 2: position"
    assert "free" in fault.expected


def test_an_exercise_twice_in_an_open_class_is_a_fault():
    fault = only_fault(opened(second=SECOND.replace("split_squats_press", "squat_line")))
    assert fault.field.startswith("exercise 2")


@pytest.mark.parametrize("choice", ["[2, 2]", "[0]", "[11]", "[true]", '"2"'])
def test_rounds_that_cannot_be_chosen_are_a_fault(choice):
    assert only_fault(opened(rounds_choice=choice)).field.startswith("rounds_choice")


@pytest.mark.parametrize(
    ("said", "rounds"),
    [
        ('"any"', (3, (2, 4))),
        ("[4, 2]", (4, (2,))),
        ("[3]", (3, ())),
        ('"2 to 4"', (2, (3, 4))),
        ('"4 to 4"', (4, ())),
        ("3", (3, ())),
    ],
)
def test_rounds_may_be_a_list_a_range_or_any_and_come_back_when_written(said, rounds):
    hall = read(open_rounds(said))
    wish = hall.classes["tuesday"]
    assert (wish.rounds, wish.rounds_choice) == rounds
    again = read(hall_files(tuesday=written_hall(hall)["classes/tuesday.toml"]))
    assert again.classes["tuesday"] == wish


@pytest.mark.parametrize(
    "said",
    ['"many"', '"4 to 2"', '"0 to 2"', '"1 to 11"', '"1 to 10"', "[]", "[0, 2]", "[true]", "[2.5]"],
)
def test_rounds_that_name_none_are_a_fault(said):
    fault = only_fault(open_rounds(said))
    assert (fault.code, fault.field) == ("field.value", "rounds")
    assert "any" in fault.expected


def test_the_same_rounds_twice_and_rounds_said_in_two_ways_are_faults():
    assert only_fault(open_rounds("[2, 3, 2]")).code == "name.duplicate"
    fault = only_fault(open_rounds("[2, 3]\nrounds_choice = [4]"))
    assert (fault.field, fault.code) == ("rounds", "field.value")


def test_work_and_rest_are_chosen_only_where_the_clock_ends_an_exercise():
    timed = 'pace = "timed"\nwork = "30 s"\nwork_rest = "any"\nrounds = 2\n'
    bare = "\n".join(line for line in CLASS.split("\n") if not line.startswith("count"))
    wish = read(hall_files(tuesday=bare.replace("rounds = 2\n", timed))).classes["tuesday"]
    assert wish.work_rest is WorkRestWish.ANY
    counted = CLASS.replace("rounds = 2\n", 'rounds = 2\nwork_rest = "heavier"\n')
    fault = only_fault(hall_files(tuesday=counted))
    assert (fault.field, fault.code) == ("work_rest", "field.value")
    assert "timed" in fault.expected
    unknown = CLASS.replace("rounds = 2\n", 'rounds = 2\nwork_rest = "hard"\n')
    assert only_fault(hall_files(tuesday=unknown)).field == "work_rest"


KEEP = '\n[[keep]]\nperson = "p001"\nposition = 4\nversion = "squat"\n'


def test_what_is_kept_in_an_open_class_stands_at_a_written_position():
    text = opened()["classes/tuesday.toml"].decode()
    fixed = text.replace('exercise = "squat_line"', 'exercise = "squat_line"\nposition = 4')
    assert read(hall_files(tuesday=fixed + KEEP)).classes["tuesday"].keep[0].position == 4
    fault = only_fault(hall_files(tuesday=text + KEEP))
    assert (fault.code, fault.field) == ("field.range", "keep 1: position")
    assert "an exercise with its position" in fault.expected
