"""Who waits is told by place, with a task that is never a jump and always allowed; words say it."""

import pytest

from roundwright.library.vocabulary import Demand
from roundwright.people.person import Clearance
from roundwright.rehearsal.play import play
from roundwright.rehearsal.rehearsal_words import lines_of
from roundwright.rehearsal.report import RehearsalReport, rehearse
from roundwright.rehearsal.waiting import TaskKind, WaitKind, finisher_task, waiting_of
from tests.rehearsal.drawn_plans import few_plans
from tests.rehearsal.test_play_by_hand import TWO_PLACES, a_class
from tests.support.builders import a_line, a_movement


def _named(words: str) -> str:
    return words.replace("_", " ")


def _told(report: RehearsalReport) -> str:
    return "\n".join(lines_of(report, _named, lambda k: f"place {k}", _named))


def _one_is_early():
    return a_class(
        {"p001": (8000, 6000), "p002": (6000, 8000)},
        values={"p001": 10, "p002": 2},
        timeline=TWO_PLACES,
        kit={8000: 2, 6000: 2},
    )


def test_waits_are_told_by_person_place_and_reason():
    core, problem = _one_is_early()
    slow, quick = sorted(
        waiting_of(play(core, problem, plays=3), core, problem), key=lambda w: w.person_id
    )
    assert [(w.position, w.kind, w.each_s) for w in slow.waits] == [(2, WaitKind.RACK, 3)]
    assert [(w.position, w.kind, w.each_s, w.times) for w in quick.waits] == [
        (1, WaitKind.OTHERS, 24, 1),
        (2, WaitKind.OTHERS, 24, 1),
    ]
    assert (quick.typical_s, quick.late_s) == (48, 48)
    assert all(w.task is not None and w.task.movement_id == "march" for w in quick.waits)
    assert all(w.task is None for w in slow.waits)


def test_a_short_wait_has_no_task():
    core, problem = a_class(
        {"p001": (0, 0), "p002": (0, 0)}, values={"p001": 10, "p002": 4}, timeline=TWO_PLACES
    )
    waits = [w for p in waiting_of(play(core, problem, plays=2), core, problem) for w in p.waits]
    assert {(w.each_s, w.task) for w in waits} == {(18, None)}


@pytest.mark.parametrize(
    ("person", "movement"),
    [
        ({"caps": {Demand.KNEE: 0}}, {"demands": {Demand.KNEE: 1}}),
        ({"clearance": Clearance.UNKNOWN}, {"level": 3}),
        ({}, {"demands": {Demand.VIGOROUS: 2}}),
        ({}, {"demands": {Demand.IMPACT: 1}}),
        ({}, {"contacts_a_rep": 1}),
        ({}, {"low_hops_a_rep": 1}),
    ],
    ids=["knee", "unknown", "vigorous", "impact", "contacts", "hops"],
)
def test_a_march_that_is_not_allowed_or_not_gentle_becomes_a_hold(person, movement):
    core, problem = _one_is_early()
    march = problem.library.movements["march"].model_copy(update=movement)
    library = problem.library.model_copy(
        update={"movements": problem.library.movements | {"march": march}}
    )
    people = problem.people | {"p002": problem.people["p002"].model_copy(update=person)}
    problem = problem.model_copy(update={"library": library, "people": people})
    assert finisher_task(core, problem, "p002").kind is TaskKind.HOLD


def test_a_banned_march_becomes_a_hold_and_a_gentle_own_burst_comes_first():
    core, problem = _one_is_early()
    spec = problem.spec.model_copy(update={"ban": ("march",)})
    banned = problem.model_copy(update={"spec": spec})
    assert finisher_task(core, banned, "p002").kind is TaskKind.HOLD
    library = problem.library
    step = a_movement("step_touch", level=2)
    library = library.model_copy(
        update={
            "movements": library.movements | {"step_touch": step},
            "lines": library.lines | {"go": a_line("go", "march", "step_touch")},
        }
    )
    problem = problem.model_copy(update={"library": library})
    dose = core.people[1].model_copy(update={"burst": "step_touch"})
    core = core.model_copy(update={"people": (core.people[0], dose)})
    assert finisher_task(core, problem, "p002").movement_id == "step_touch"
    assert finisher_task(core, problem, "p001").movement_id == "march"


def test_in_drawn_plans_a_task_never_jumps_and_never_breaks_a_limit():
    seen = set()
    for core, problem in few_plans():
        for dose in core.people:
            task = finisher_task(core, problem, dose.person_id)
            seen.add(task.kind)
            if task.movement_id is None:
                continue
            movement = problem.library.movements[task.movement_id]
            caps = problem.people[dose.person_id].caps
            assert movement.contacts_a_rep == movement.low_hops_a_rep == 0
            assert all(movement.demands.get(d, 0) <= most for d, most in caps.items())
    assert seen == set(TaskKind)


def test_the_words_say_ending_slow_changes_waits_and_tasks():
    core, problem = _one_is_early()
    assert _told(rehearse(core, problem, plays=10)).splitlines() == [
        "Ends within 45:00 nearly always (100 % of 10 plays, seed 1).",
        "Planned 1:15, typically 1:38; one class in ten takes longer than 1:38.",
        "Change to place 2: planned 15 s, typically 38 s in round 1.",
        "p002 is done about 24 s before the others at place 1. Until then: march.",
        "p002 is done about 24 s before the others at place 2. Until then: march.",
    ]


def test_a_class_too_full_for_its_slot_is_told_so():
    core, problem = a_class({"p001": (0, 0)}, timeline=TWO_PLACES, slot_s=60)
    told = _told(rehearse(core, problem, plays=10))
    assert "Ends within 1:00 less than once in 10" in told
    assert "The class asks for 90 %: it is too full for its slot." in told


def test_the_report_comes_back_equal_from_json():
    core, problem = few_plans()[0]
    report = rehearse(core, problem, seed=2, plays=20)
    text = report.model_dump_json(by_alias=True)
    assert '"schema":"roundwright.rehearsal/1"' in text
    assert RehearsalReport.model_validate_json(text) == report
