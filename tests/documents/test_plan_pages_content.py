"""What cards, personal sheets, room page and script say, and what never stands on them."""

from dataclasses import asdict

import pytest

from roundwright.documents.coach_script import ScriptContent, script_of
from roundwright.documents.personal_sheets import (
    SPEAK_FIRST,
    PersonalContent,
    effort_in_words,
    personal_of,
)
from roundwright.documents.room_page import RoomContent, minutes_words, room_of
from roundwright.documents.speaking_time import WORDS_A_MINUTE, showing_s, spoken_s
from roundwright.documents.standing_words import CAUTIONS
from roundwright.documents.station_cards import CardsContent, cards_of
from roundwright.foundation.errors import UnsafePlanError
from roundwright.plan.core import CellState, WindowKind
from roundwright.plan.document import PlanDocument
from roundwright.plan.recent import Recent, RecentExercise
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import PRINTED_AT, a_hall, sealed


def cards(plan: PlanDocument, people: int = 10) -> CardsContent:
    return cards_of(sealed(plan), a_hall(names(people)), PRINTED_AT)


def personal(plan: PlanDocument, people: int = 10) -> PersonalContent:
    return personal_of(sealed(plan), a_hall(names(people)), PRINTED_AT)


def room(plan: PlanDocument, people: int = 10) -> RoomContent:
    return room_of(sealed(plan), a_hall(names(people)), PRINTED_AT)


def script(plan: PlanDocument, people: int = 10) -> ScriptContent:
    return script_of(sealed(plan), a_hall(names(people)), PRINTED_AT)


def with_demonstration(plan: PlanDocument, length_s: int) -> PlanDocument:
    windows = tuple(
        w.model_copy(update={"length_s": length_s}) if w.kind is WindowKind.DEMONSTRATION else w
        for w in plan.core.timeline
    )
    return plan.model_copy(update={"core": plan.core.model_copy(update={"timeline": windows})})


@pytest.mark.parametrize("make", [cards_of, personal_of, room_of, script_of])
def test_nothing_is_made_of_a_plan_that_the_gate_did_not_pass(make):
    with pytest.raises(UnsafePlanError):
        make(document(), a_hall(names(10)), PRINTED_AT)


def test_a_card_shows_versions_from_easy_to_hard_with_all_loads():
    squat = cards(document()).cards[0]
    assert [v.name for v in squat.versions] == [
        "Sit to stand",
        "Goblet squat",
        "Two-dumbbell squat",
    ]
    assert [v.loads for v in squat.versions] == ["no load", "one 4 / 6 / 8", "pair 4 / 6 / 8"]
    assert (squat.count, squat.count_differs) == ("12 reps", True)
    assert squat.cue == "Knees follow the toes."
    assert squat.watch == "Balance."


def test_a_tail_stands_on_the_card_and_a_substitute_is_called_so():
    plan = document()
    first = plan.core.cells[0]
    other = first.model_copy(
        update={"state": CellState.SUBSTITUTE, "exercise_id": "push_line", "steps": ()}
    )
    wall = next(c for c in plan.core.cells if c.exercise_id == "push_line")
    other = other.model_copy(update={"steps": wall.steps, "units": 0, "unit_mass_g": 0})
    core = plan.core.model_copy(update={"cells": (other, *plan.core.cells[1:])})
    found = cards(plan.model_copy(update={"core": core})).cards
    assert [v.is_substitute for v in found[0].versions] == [False, False, False, True]
    assert {v.name for v in found[2].versions} == {"Step-up", "Jump to a low box"}


def test_no_name_stands_on_a_card():
    told = str(asdict(cards(document(16), 16)))
    for name in names(16).values():
        assert name not in told


def test_everyone_has_a_sheet_with_their_own_cells_and_nobody_elses():
    content = personal(document())
    assert [s.name for s in content.sheets] == list(names(10).values())[:10]
    last = content.sheets[-1]
    assert last.rows[0].version == "Sit to stand"
    assert (last.rows[0].count, last.rows[0].load) == ("7 reps", "no load")
    assert last.rounds == "rounds 1 and 2 of 3"
    assert last.burst == "March on the spot"
    for sheet in content.sheets:
        others = set(names(10).values()) - {sheet.name}
        assert not any(name in str(asdict(sheet)) for name in others)


def test_partners_are_named_to_each_other():
    sheets = personal(document(in_pairs=True)).sheets
    assert sheets[0].partners == ("Ben O",)
    assert sheets[1].partners == ("Ana R",)


def test_rounds_that_differ_have_a_row_each():
    jumper = personal(document()).sheets[2]
    rows = [r for r in jumper.rows if r.position == 3]
    assert [(r.version, r.rounds) for r in rows] == [
        ("Jump to a low box", "rounds 1 and 2"),
        ("Step-up", "round 3"),
    ]


def test_what_is_meant_for_the_coach_is_not_on_a_person_s_sheet():
    last = personal(document()).sheets[-1]
    assert last.actions[0].lower() == SPEAK_FIRST
    assert "no jumps" in last.actions
    told = " ".join(last.actions)
    assert "three questions" not in told
    assert "brief" not in told


def test_the_cautions_of_every_plan_stand_on_script_and_personal_sheets():
    assert personal(document()).cautions == CAUTIONS
    assert script(document()).cautions == CAUTIONS
    assert "you want to stop" in personal(document()).stop_signs


@pytest.mark.parametrize("ceiling", range(11))
def test_every_effort_has_words(ceiling):
    feels, stop = effort_in_words(ceiling, 3)
    assert f"{ceiling} of 10" in feels
    assert "3 more reps" in stop
    assert "pace" in effort_in_words(ceiling, 3, by_time=True)[1]


def test_places_kit_and_exits_stand_on_the_room_page():
    content = room(document())
    assert len(content.places) == 10
    assert content.places[1].pieces == ("pair 6", "low box, 20 cm")
    assert content.exits == (
        "No door or exit is entered for this room: find them, and keep them free.",
    )
    assert content.handovers


def test_setting_up_goes_from_big_to_small_and_its_minutes_add_up():
    content = room(document())
    words = [step.words for step in content.steps]
    assert words[0].startswith("Walk the room")
    assert words[2] == "10 boxes: each stands firm, can neither slide nor tip"
    assert words[3].startswith("20 dumbbells")
    total = 60 + 10 * 5 + 10 * 20 + 20 * 8
    assert sum(step.length_s for step in content.steps) == total
    assert content.total == f"about {minutes_words(total)}"
    assert "no source" in content.estimate


def test_partners_set_out_one_set_between_two():
    alone, shared = room(document()), room(document(in_pairs=True))
    boxes = [next(s for s in r.steps if "box" in s.words) for r in (alone, shared)]
    assert [b.words.split()[0] for b in boxes] == ["10", "5"]
    assert "share" in shared.shared
    assert alone.shared == ""


def test_the_hardest_skill_is_taught_first_and_its_easier_version_shown_first():
    content = script(document())
    assert [p.position for p in content.paragraphs] == [2, 3, 1, 4, 5]
    lines = {line.label: line.words for line in content.paragraphs[1].lines}
    assert lines["Show"].startswith("Step-up.")
    assert lines["Harder"] == "Jump to a low box."


def test_an_exercise_has_at_most_five_lines_and_one_cue():
    for paragraph in script(document()).paragraphs:
        labels = [line.label for line in paragraph.lines]
        assert len(labels) <= 5
        assert labels.count("Say") == 1
        cue = next(line.words for line in paragraph.lines if line.label == "Say")
        assert cue == "Knees follow the toes."


def test_said_seconds_follow_the_words_that_are_said_aloud():
    for p in script(document()).paragraphs:
        words = f"{p.name} {p.count} " + " ".join(x.words for x in p.lines if x.is_said)
        least = len(words.split()) * 60 / WORDS_A_MINUTE
        assert least <= p.said_s < least + 1
        assert p.needs_s == max(p.said_s, p.shown_s)


def test_the_script_says_by_how_much_it_does_not_fit_and_what_to_show_later():
    plan = document()
    needs = script(plan).time.needs_s
    fits = script(with_demonstration(plan, needs)).time
    assert fits.fits
    assert "fits" in fits.words
    assert fits.way_out == ""
    short = script(with_demonstration(plan, needs - 25)).time
    assert not short.fits
    assert "25 s too long" in short.words
    assert "5 Squat just before its turn" in short.way_out
    shortest = script(with_demonstration(plan, 5)).time
    assert "Plan a longer demonstration" in shortest.way_out


def test_what_the_class_did_lately_takes_less_time_to_show():
    plan = document()
    lately = Recent(exercises=(RecentExercise(exercise_id="step_line", days_ago=3),))
    known = plan.model_copy(update={"problem": plan.problem.model_copy(update={"recent": lately})})
    before = {p.position: p.shown_s for p in script(plan).paragraphs}
    after = {p.position: p.shown_s for p in script(known).paragraphs}
    assert before[3] - after[3] == 20
    assert {k: v for k, v in before.items() if k != 3} == {k: v for k, v in after.items() if k != 3}


@pytest.mark.parametrize(
    ("shape", "seconds"),
    [
        ({"parts": 1, "versions": 1, "is_known": True}, 20),
        ({"parts": 1, "versions": 1, "is_known": False}, 40),
        ({"parts": 3, "versions": 1, "is_known": True}, 30),
        ({"parts": 3, "versions": 1, "is_known": False}, 60),
        ({"parts": 4, "versions": 2, "is_known": False}, 90),
        ({"parts": 1, "versions": 1, "is_known": True, "is_station": True}, 35),
    ],
)
def test_seconds_of_showing_are_those_of_the_trade(shape, seconds):
    assert showing_s(**shape) == seconds


def test_a_recap_tells_every_count_in_class_order():
    recap = script(document()).recap
    assert recap.index("1 Squat, 12 reps") < recap.index("3 Step-up, 10 a side")
    assert recap.endswith("3 rounds.")


def test_no_words_take_no_time():
    assert spoken_s([]) == 0
    assert spoken_s([""]) == 0


def test_first_timers_are_briefed_before_the_class():
    content = script(document())
    assert "Jon B" in content.first_timers
    assert "60 s" in content.first_timers
    plan = document()
    people = {
        p: person.model_copy(update={"classes_done": 20})
        for p, person in plan.problem.people.items()
    }
    seasoned = plan.problem.model_copy(update={"people": people})
    assert script(plan.model_copy(update={"problem": seasoned})).first_timers == ""
