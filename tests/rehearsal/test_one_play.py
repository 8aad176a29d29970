"""One play told person by person is the play of that number, second by second."""

import numpy as np
import pytest

from roundwright.plan.core import WindowKind
from roundwright.rehearsal.one_play import Doing, one_play
from roundwright.rehearsal.play import play
from roundwright.rehearsal.report import rehearse
from tests.rehearsal.drawn_plans import few_plans
from tests.rehearsal.test_play_by_hand import TWO_PLACES, a_class


def _some_plans():
    return few_plans()


def _seconds(person, doing):
    return sum(s.to_s - s.from_s for s in person.stretches if s.doing is doing)


@pytest.mark.parametrize("number", [0, 3, 251])
def test_lengths_starts_and_waiting_are_those_of_the_play_of_that_number(number):
    for core, problem in _some_plans():
        whole = play(core, problem, seed=4, plays=252)
        one = one_play(core, problem, seed=4, number=number)
        assert abs(one.class_s - whole.class_s[number]) <= 0.5
        assert np.abs(np.array(one.window_at_s) - whole.starts_s[number]).max() <= 0.5
        index = {p: n for n, p in enumerate(whole.people)}
        for person in one.people:
            waited = whole.waiting_s[number, index[person.person_id]]
            times = sum(s.doing is Doing.WAIT for s in person.stretches)
            assert abs(_seconds(person, Doing.WAIT) - waited) <= 1 + 1.0 * len(core.timeline)
            assert bool(times) <= bool(waited > 0)


def test_everybodys_class_has_no_gap_and_no_overlap():
    for core, problem in _some_plans():
        one = one_play(core, problem, seed=1, number=0)
        assert {p.person_id for p in one.people} == {d.person_id for d in core.people}
        for person in one.people:
            assert person.person_id in core.class_.groups[person.group]
            assert person.stretches[0].from_s == 0
            assert person.stretches[-1].to_s == one.class_s
            for before, after in zip(person.stretches, person.stretches[1:], strict=False):
                assert before.to_s == after.from_s
            assert person.at(one.class_s) is None


def test_a_person_works_only_where_the_plan_has_them():
    for core, problem in _some_plans():
        for person in one_play(core, problem, seed=1, number=0).people:
            cells = {
                (r, c.position)
                for dose in core.people
                if dose.person_id == person.person_id
                for r in dose.rounds
                for c in core.cells_of(person.person_id, r)
                if c.count is not None
            }
            worked = {(s.round, s.position) for s in person.stretches if s.doing is Doing.WORK}
            assert worked == cells


def test_partners_never_work_at_once_and_rest_while_the_other_does():
    seen = 0
    for core, problem in few_plans():
        if core.class_.format.value != "pairs":
            continue
        one = one_play(core, problem, seed=1, number=0)
        by_person = {p.person_id: p for p in one.people}
        for group in core.class_.groups:
            if len(group) != 2:
                continue
            first, second = (by_person[p] for p in group)
            for stretch in first.stretches:
                if stretch.doing is Doing.WORK:
                    other = second.at((stretch.from_s + stretch.to_s) // 2)
                    assert other.doing is not Doing.WORK
                    seen += other.doing is Doing.PARTNER
    assert seen > 20


def test_by_hand_the_early_one_waits_and_the_late_one_queues_at_the_rack():
    core, problem = a_class(
        {"p001": (8000, 6000), "p002": (6000, 8000)},
        values={"p001": 10, "p002": 2},
        timeline=TWO_PLACES,
        kit={8000: 2, 6000: 2},
    )
    slow, quick = one_play(core, problem, seed=1, number=0).people
    told = [(s.from_s, s.to_s, s.doing.value, s.position) for s in quick.stretches]
    assert told[:2] == [(0, 6, "work", 1), (6, 30, "wait", 1)]
    queues = [s for s in slow.stretches if s.doing is Doing.WAIT]
    assert [(s.to_s - s.from_s, s.position) for s in queues] == [(3, 2)]


def test_the_middle_play_is_a_play_of_median_length():
    for core, problem in _some_plans():
        rehearsal = play(core, problem, plays=25)
        assert rehearsal.class_s[rehearsal.middle_play] == np.median(rehearsal.class_s)
        report = rehearse(core, problem, plays=25)
        assert report.middle.number == rehearsal.middle_play


def test_finishes_hold_every_play_once_and_the_slot_is_an_edge():
    for core, problem in _some_plans():
        rehearsal, report = play(core, problem, plays=80), rehearse(core, problem, plays=80)
        assert sum(f.plays for f in report.finishes) == 80
        assert 1 <= len(report.finishes) <= 24
        on_time = sum(f.plays for f in report.finishes if f.to_s <= report.slot_s)
        assert on_time == np.count_nonzero(rehearsal.class_s <= report.slot_s)
        assert not any(f.from_s < report.slot_s < f.to_s for f in report.finishes)
        for before, after in zip(report.finishes, report.finishes[1:], strict=False):
            assert before.to_s == after.from_s
        for step in report.finishes:
            inside = (rehearsal.class_s > step.from_s) & (rehearsal.class_s <= step.to_s)
            assert np.count_nonzero(inside) == step.plays


def test_there_are_drawn_plans_of_every_kind_of_window():
    kinds = {w.kind for core, _ in _some_plans() for w in core.timeline}
    assert kinds >= {WindowKind.WORK, WindowKind.CHANGE}
