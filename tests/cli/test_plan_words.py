"""A plan's cells in words a coach can fetch and call by."""

import pytest

from roundwright.cli.plan_words import (
    count_words,
    finish_words,
    load_words,
    note_words,
    rounds_words,
    rows_at,
    version_words,
)
from roundwright.cli.tables_shown import burst_words, print_count, print_plan
from roundwright.plan.core import CellState
from roundwright.plan.count import count_of
from roundwright.services.names import names_of
from tests.dose.hand_made_core import a_cell, count, steps, worked_core
from tests.support import worked_count
from tests.support.builders import a_person

BOTH = steps(("press", "both"))[0].side
NAMES = names_of(worked_count.problem())


@pytest.mark.parametrize(
    ("own", "words"),
    [
        (count(8), "8 reps"),
        (count(12, "reps_per_side"), "12 a side"),
        (count(16, "reps_alternating"), "16 alternating"),
        (count(40, "seconds"), "40 s"),
        (count(20, "seconds_per_side"), "20 s a side"),
    ],
)
def test_a_count_is_said_with_its_unit(own, words):
    assert count_words(own) == words


def test_a_load_is_said_as_it_is_fetched():
    assert load_words(2, 6000, "kg") == "pair of 6 kg"
    assert load_words(1, 7500, "kg") == "one 7.5 kg"
    assert load_words(2, 9072, "lb") == "pair of 20 lb"
    assert load_words(0, 0, "kg") == "–"


def test_the_weakest_part_decides_and_is_named_for_combinations_only():
    listing = steps(("squat", BOTH), ("press", BOTH))
    values = {"unit_mass_g": 6000, "units": 2, "limited_by": "press"}
    cell = a_cell(1, "hinge_row_squat_press", listing, count(8), **values)
    # the part's own name, whichever version of it is done
    assert note_words(cell, NAMES) == "the press line decides"
    alone = a_cell(1, "press_line", steps(("press", BOTH)), count(8), **values)
    assert note_words(alone, NAMES) == ""


def test_who_does_something_else_or_nothing_is_said():
    other = a_cell(1, "row_line", steps(("row", BOTH)), count(8), state=CellState.SUBSTITUTE)
    nothing = a_cell(1, None, (), None, state=CellState.SIT_OUT)
    assert note_words(other, NAMES) == "another exercise: needs your yes"
    assert note_words(nothing, NAMES) == "no version fits: sits out"
    assert version_words(nothing, NAMES) == "–"


def test_rounds_are_said_short():
    assert rounds_words((1, 2, 3)) == "1 to 3"
    assert rounds_words((1, 2)) == "1, 2"
    assert rounds_words((1, 3, 4)) == "1, 3, 4"
    assert rounds_words([2]) == "2"


def test_rows_name_each_version_once_and_every_person():
    rows = rows_at(worked_core(), 2, NAMES, "kg")
    assert [row.person for row in rows] == ["p001", "p002"]
    assert rows[0].version == "Split squat, Press"
    assert rows[0].load == "pair of 8 kg"
    assert rows[0].rounds == "1 to 3"


def test_the_finish_is_said_on_the_wall_clock():
    # 18:00 and 41 min 45 s
    assert finish_words(worked_core(), 2505) == (
        "41:45 of 45:00: starts 18:00, ends 18:41, slot ends 18:45"
    )


def test_the_printed_plan_holds_each_person_and_no_colour(capsys):
    core, problem = worked_core(), worked_count.problem()
    print_plan(core, problem, count_of(core, problem), NAMES, "kg")
    told = capsys.readouterr().out
    assert told.count("p001") == told.count("p002") == 6
    assert "\x1b" not in told
    assert "Box jump" in told
    assert "pair of 8 kg" in told
    assert "full count 10 a side" in told
    # twice 3,840 kg less nothing: both lift alike
    assert "Lifted 7680 kg in all; foot contacts 60." in told
    assert burst_words(core, NAMES) == "Skip rope: p001, p002"


def test_the_full_count_of_a_place_is_said_even_for_one_person(capsys):
    core, problem = worked_core(), worked_count.problem()
    alone = core.model_copy(
        update={
            "cells": tuple(c for c in core.cells if c.person_id == "p001"),
            "people": core.people[:1],
        }
    )
    print_plan(alone, problem, count_of(alone, problem), NAMES, "kg")
    told = capsys.readouterr().out
    assert told.count("full count") == 5


def test_the_printed_count_holds_sides_totals_and_times(capsys):
    core, problem = worked_core(), worked_count.problem()
    print_count(count_of(core, problem), problem, NAMES, "kg")
    told = capsys.readouterr().out
    assert "24 left, 24 right" in told
    assert "Round 3: 9:15 (work 96, 72, 72, 60, 60 s)" in told
    assert "Class: 41:45 of 45:00" in told
    assert "front delts 6" in told
    assert "foot contacts 60, low hops 360" in told


def test_names_fall_back_to_ids_and_never_fail():
    problem = worked_count.problem()
    stranger = names_of(problem.model_copy(update={"people": {"p009": a_person("p009")}}))
    assert stranger.person("p009") == "p009"
    assert stranger.movement("moon_walk") == "moon_walk"
    assert stranger.exercise(77) == "place 77"
