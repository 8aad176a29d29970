"""Which pieces a class has, in which order, and for how long."""

import pytest

from roundwright.library.vocabulary import Pattern
from roundwright.plan.build_problem import standing_in
from roundwright.plan.core import PieceKind
from roundwright.plan.piece_table import MOBILISE, PIECE_LINES, STRETCH
from roundwright.plan.pieces import pieces_for, with_piece_lines, with_pieces
from tests.pieces.piece_class import LIBRARY, a_class, a_core, jumper, made, of
from tests.support.builders import a_person

PEOPLE = {"p001": a_person(), "p002": jumper()}
JUMPS = frozenset({"p002"})


def test_the_warm_up_goes_from_pulse_to_landing() -> None:
    pieces = of(made(PEOPLE, JUMPS), PieceKind.WARM_UP)
    assert [(p.why, p.line_id) for p in pieces] == [
        ("pulse", "pulse_raisers"),
        ("mobilise", "hip_circles"),
        ("mobilise", "knee_bends"),
        ("mobilise", "shoulder_rolls"),
        ("mobilise", "balance_stands"),
        ("pattern", "squats"),
        ("pattern", "pull_backs"),
        ("pattern", "split_squats"),
        ("pattern", "step_ups"),
        ("pattern", "reach_ups"),
        ("landing", "landing_drills"),
    ]
    # A third of 480 s; five reps at 1.5 × 3.0 s; both sides and no side change; 5 × 4.0 s × 1.5.
    lengths = {p.line_id: p.length_s for p in pieces}
    assert (lengths["pulse_raisers"], lengths["squats"], lengths["split_squats"]) == (160, 23, 45)
    assert 30 <= lengths["landing_drills"] < 34


def test_the_cool_down_walks_first_and_stretches_what_worked_most() -> None:
    walk, *stretches = of(made(PEOPLE, JUMPS), PieceKind.COOL_DOWN)
    assert (walk.why, walk.length_s) == ("walk", 180)
    assert [(p.why, p.length_s) for p in stretches] == [("floor", 30)] * 4
    # Share × reps of both people: thighs 29.2, outer hips 21.3 + 3.1, back 7.0 + 6.6,
    # back of the shoulders 2.4 + 3.0 + 4.0, hamstrings 7.1.
    assert [p.line_id for p in stretches] == [
        "thigh_stretches",
        "outer_hip_stretches",
        "back_stretches",
        "shoulder_stretches",
    ]


@pytest.mark.parametrize("warm_up", [30, 90, 91, 110, 119, 140, 200, 300, 301, 480, 617, 1200])
@pytest.mark.parametrize("cool_down", [20, 180, 181, 209, 240, 299, 300, 601])
def test_seconds_sum_exactly_to_the_class_s_own(warm_up: int, cool_down: int) -> None:
    pieces = made(PEOPLE, JUMPS, warm_up_s=warm_up, cool_down_s=cool_down)
    assert sum(p.length_s for p in of(pieces, PieceKind.WARM_UP)) == warm_up
    assert sum(p.length_s for p in of(pieces, PieceKind.COOL_DOWN)) == cool_down
    assert all(p.length_s >= 20 for p in pieces if p.why == "mobilise")
    assert all(p.length_s >= 30 for p in pieces if p.why == "floor")


def test_no_warm_up_and_no_cool_down_have_no_pieces() -> None:
    assert made(PEOPLE, JUMPS, warm_up_s=0, cool_down_s=0) == ()
    assert of(made(PEOPLE, warm_up_s=0), PieceKind.COOL_DOWN) != []


def test_a_short_warm_up_keeps_the_landing_practice_before_the_patterns() -> None:
    reasons = [p.why for p in of(made(PEOPLE, JUMPS, warm_up_s=125), PieceKind.WARM_UP)]
    assert reasons == ["pulse", "landing"]


def test_a_pattern_is_practised_at_the_easiest_version_that_lifts_nothing() -> None:
    by_line = {p.line_id: set(p.versions.values()) for p in made(PEOPLE)}
    assert by_line["squats"] == {"chair_sit_to_stand"}
    assert by_line["pull_backs"] == {"standing_pull_back"}
    assert by_line["reach_ups"] == {"standing_reach_up"}


def test_a_class_without_one_leg_work_loosens_a_fourth_region_instead() -> None:
    problem = a_class(PEOPLE)
    core = a_core(problem)
    calm = core.model_copy(update={"cells": tuple(c for c in core.cells if c.position != 3)})
    loosened = [p.line_id for p in pieces_for(problem, calm) if p.why == "mobilise"]
    assert "balance_stands" not in loosened
    assert len(loosened) == 4


def test_a_library_without_the_lines_gives_no_pieces_and_with_them_the_same() -> None:
    problem = a_class(PEOPLE)
    used = frozenset(e.exercise_id for e in problem.spec.exercises)
    bare = problem.model_copy(update={"library": LIBRARY.only(used)})
    core = a_core(problem)
    assert pieces_for(bare, core) == ()
    filled = with_piece_lines(bare, LIBRARY)
    assert filled.library.lines.keys() == used | set(PIECE_LINES)
    assert pieces_for(filled, core) == pieces_for(problem, core)
    assert with_piece_lines(bare, bare.library) == bare


def test_with_pieces_changes_nothing_else_and_can_be_said_twice() -> None:
    problem = a_class(PEOPLE)
    core = a_core(problem, JUMPS)
    once = with_pieces(core, problem)
    assert once.pieces == pieces_for(problem, core)
    assert once.model_copy(update={"pieces": ()}) == core
    assert with_pieces(once, problem) == once


def test_every_line_of_the_table_is_shipped_and_no_choice_of_planning() -> None:
    assert set(PIECE_LINES) <= LIBRARY.lines.keys()
    assert {*MOBILISE.values(), *STRETCH.values()} <= set(PIECE_LINES)
    for line in PIECE_LINES:
        versions = LIBRARY.versions(line)
        assert versions[0].pattern is Pattern.MOBILITY
        assert all(v.level <= 2 and v.dumbbells_needed == 0 for v in versions)
        assert any("seated" in v.slug for v in versions)
    assert set(PIECE_LINES).isdisjoint(standing_in(LIBRARY))
