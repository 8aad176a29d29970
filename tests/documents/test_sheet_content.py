"""What the sheet says of the hand-written class, worked out by hand."""

from datetime import time

import pytest

from roundwright.documents.plan_view import joined_names
from roundwright.documents.sheet_content import sheet_of
from roundwright.documents.spoken import load_words, wall_clock
from roundwright.foundation.errors import ChangedMeanwhileError, UnsafePlanError
from roundwright.plan.core import CellState
from roundwright.plan.document import PlanDocument
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import PRINTED_AT, a_hall, a_sheet, sealed


def test_only_a_plan_that_the_gate_sealed_is_accepted() -> None:
    with pytest.raises(UnsafePlanError):
        sheet_of(document(2), a_hall(names(2)), PRINTED_AT)  # type: ignore[arg-type]


def test_a_plan_that_changed_after_its_check_is_refused() -> None:
    plan = document(2)
    checked = sealed(plan)
    object.__setattr__(plan.core, "revision", 2)
    with pytest.raises(ChangedMeanwhileError):
        sheet_of(checked, a_hall(names(2)), PRINTED_AT)


def test_day_room_and_times_are_those_of_the_plan() -> None:
    sheet = a_sheet(10)
    # 600 s before, 3 × (5 × 60 + 60) + 2 × 60 of rounds, 300 s after: 2,100 s.
    assert (sheet.starts, sheet.ends, sheet.slot_ends) == ("18:00", "18:35", "18:45")
    assert (sheet.day, sheet.room) == ("Tuesday 3 March 2026", "Main hall")


def test_each_exercise_has_a_clock_time_for_every_round() -> None:
    squat, combination = a_sheet(10).exercises[:2]
    assert squat.starts == ("18:10:00", "18:17:00", "18:24:00")
    assert combination.starts == ("18:11:00", "18:18:00", "18:25:00")


def test_versions_go_from_easy_to_hard_with_people_by_load() -> None:
    squat = a_sheet(10).exercises[0]
    assert [v.name for v in squat.versions] == [
        "Sit to stand",
        "Goblet squat",
        "Two-dumbbell squat",
    ]
    goblet = {g.load: [p.name for p in g.people] for g in squat.versions[1].loads}
    assert goblet == {
        "one 4": ["Ana R", "Gwen T"],
        "one 6": ["Edda S"],
        "one 8": ["Cleo M", "Iris N"],
    }
    assert squat.versions[0].loads[0].load == "no load"


def test_own_counts_and_rounds_stand_beside_the_person() -> None:
    sheet = a_sheet(10)
    newcomer = {
        person.name: person.note
        for version in sheet.exercises[2].versions
        for group in version.loads
        for person in group.people
    }
    assert newcomer["Jon B"] == "6 a side, rounds 1 and 2"
    assert newcomer["Ana R"] == ""
    assert sheet.exercises[0].versions[0].count == "7 reps"


def test_another_version_in_the_last_round_is_said() -> None:
    jump = a_sheet(10).exercises[2].versions[1]
    assert jump.name == "Jump to a low box"
    assert jump.loads[0].people[0].note == "round 3: step-up 10 a side"


def test_a_combination_names_its_limiter_and_what_sets_versions_apart() -> None:
    block = a_sheet(10).exercises[1]
    assert block.parts == "Two-dumbbell hinge, bent-over row"
    assert [v.name for v in block.versions] == ["With seated press", "With standing press"]
    assert block.limiter == "The press decides the load; for Ana R and Gwen T the row."


def test_burst_groups_go_from_easy_to_hard() -> None:
    burst = a_sheet(10).burst
    assert burst is not None
    assert dict(burst.groups)["March on the spot"] == ("Ana R", "Edda S", "Iris N", "Jon B")
    assert [name for name, _ in burst.groups] == ["March on the spot", "Rope skipping"]


def test_kit_is_the_most_in_use_at_once() -> None:
    rows = {row.what: row.how_many for row in a_sheet(10).kit}
    # Combination: everyone holds a pair; 4 kg for persons 1, 4, 7, 10.
    assert rows["dumbbell 4 kg"] == 8
    assert rows["low box, 20 cm"] == 10


def test_in_pairs_partners_share_what_they_use_in_turn() -> None:
    rows = {row.what: row.how_many for row in a_sheet(10, in_pairs=True).kit}
    assert rows["low box, 20 cm"] == 5
    # Pairs (1,2) (3,4) (5,6) (7,8) (9,10): one of each of them but (5,6) holds 4 kg.
    assert rows["dumbbell 4 kg"] == 8


def test_handovers_name_both_people_and_the_rounds() -> None:
    assert a_sheet(10).handovers == (
        "After 2, before 3: Ana R hands the pair of 6 kg to Jon B (rounds 1 and 2)",
    )


def test_actions_are_said_without_reasons() -> None:
    person = a_sheet(10).people[-1]
    assert person.actions == (
        "ask the three questions first",
        "first class: brief beforehand",
        "no jumps",
        "rounds 1 and 2 only",
        "effort to 4 of 10, leave 5",
    )


def test_who_does_not_take_part_is_only_named_as_to_talk_to() -> None:
    sheet = a_sheet(10)
    assert sheet.to_talk_to == ("Quin Z",)
    assert "Quin Z" not in [p.name for p in sheet.people]


def test_places_lie_in_the_room_and_never_overlap() -> None:
    for people in (1, 7, 16, 24):
        floor = a_sheet(people).floor
        assert len(floor.places) == people
        spots = {(p.x_mm, p.y_mm) for p in floor.places}
        assert len(spots) == people
        for p in floor.places:
            assert 0 <= p.x_mm <= floor.length_mm - p.width_mm
            assert floor.front_mm <= p.y_mm <= floor.width_mm - p.depth_mm
            assert all(
                abs(p.x_mm - q.x_mm) >= p.width_mm or abs(p.y_mm - q.y_mm) >= p.depth_mm
                for q in floor.places
                if q is not p
            )


def test_people_without_a_place_on_the_drawing_are_counted() -> None:
    floor = a_sheet(40).floor
    assert len(floor.places) + len(floor.unplaced) == 40
    assert "16 more do not fit at this spacing" in floor.words


def test_the_script_has_at_most_five_steps_and_two_cues() -> None:
    for item in a_sheet(10).script:
        assert 1 <= len(item.steps) <= 5
        assert len(item.cues) == 2
        assert "The back rounds." in item.stop_fault


def test_people_who_share_a_name_are_told_apart() -> None:
    assert joined_names({"p001": "Ana R", "p002": "Ana R", "p003": "Ben O"}) == {
        "p001": "Ana R (p001)",
        "p002": "Ana R (p002)",
        "p003": "Ben O",
    }


def test_a_person_whose_row_is_gone_is_someone() -> None:
    sheet = a_sheet(2, shown={"p001": "Ana R"})
    assert sheet.people[1].name == "someone (p002)"


def _with_first_cell(plan: PlanDocument, **changes: object) -> PlanDocument:
    first, *rest = plan.core.cells
    cells = (first.model_copy(update=changes), *rest)
    return plan.model_copy(update={"core": plan.core.model_copy(update={"cells": cells})})


def test_a_substitute_and_sitting_out_are_said_as_such() -> None:
    plan = _with_first_cell(document(3), state=CellState.SUBSTITUTE)
    sheet = sheet_of(sealed(plan), a_hall(names(3)), PRINTED_AT)
    assert sheet.exercises[0].versions[-1].is_substitute
    plan = _with_first_cell(document(3), state=CellState.SIT_OUT, steps=(), count=None)
    sheet = sheet_of(sealed(plan), a_hall(names(3)), PRINTED_AT)
    assert sheet.exercises[0].sitting_out == ("Ana R",)
    assert sheet.people[0].cells[0].version == "sits out"


def test_a_wall_clock_passes_midnight() -> None:
    assert wall_clock(time(23, 50), 900) == "00:05:00"


def test_a_load_in_pounds_leaves_the_unit_to_the_heading() -> None:
    assert load_words(2, 9072, {9072: "20 lb"}, "lb") == "pair 20"
    assert load_words(1, 9072, {9072: "blue 20"}, "lb") == "one blue 20"
