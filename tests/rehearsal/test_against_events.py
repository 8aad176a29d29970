"""The vectorised play agrees with an event simulation, window by window, in every format."""

from collections import Counter

import numpy as np
import pytest

from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.gate.judge import judge
from roundwright.rehearsal.pace import factors_of
from roundwright.rehearsal.play import play
from tests.rehearsal.drawn_plans import Plan, fitted_plans, rotating_plans
from tests.rehearsal.event_simulation import Simulation
from tests.rehearsal.kit_simulation import blocked, most_used, stock_of

PLAYS = 3
NEAR_S = 1e-9


def _plans() -> list[Plan]:
    return [*fitted_plans(), *rotating_plans()]


def _largest_difference(plan: Plan, seed: int) -> float:
    core, problem = plan
    ours = play(core, problem, seed=seed, plays=PLAYS)
    people, places = len(core.people), core.class_.positions
    shape = (core.class_.rounds, places, people)
    drawn = factors_of(problem.rules, shape, seed=seed, block=0, plays=PLAYS)
    largest = 0.0
    for n in range(PLAYS):
        row = drawn[n].reshape(shape)
        theirs = Simulation(core, problem, lambda r, k, p, row=row: row[r - 1, k - 1, p]).run()
        assert len(theirs.lengths) == len(core.timeline)
        waited = [theirs.waiting[p] for p in ours.people]
        for mine, other in (
            (ours.lengths_s[n], theirs.lengths),
            (ours.starts_s[n], theirs.starts),
            (ours.waiting_s[n], waited),
        ):
            largest = max(largest, float(np.abs(mine - np.array(other)).max()))
    return largest


def test_there_are_at_least_two_hundred_plans_of_all_formats():
    formats = Counter(core.class_.format for core, _ in _plans())
    assert sum(formats.values()) >= 200
    for form in (
        ClassFormat.TOGETHER,
        ClassFormat.PAIRS,
        ClassFormat.STAGGERED,
        ClassFormat.STATIONS,
    ):
        assert formats[form] >= 50, formats


def test_every_window_start_and_wait_of_every_play_agrees():
    differences = [_largest_difference(plan, seed) for seed, plan in enumerate(_plans())]
    assert max(differences) <= NEAR_S


def test_the_drawn_plans_hold_queues_waits_and_timed_sets():
    plays = [play(core, problem, plays=5) for core, problem in _plans()]
    assert sum(bool((p.rack_wait_s > 0).any()) for p in plays) >= 40
    assert sum(bool((p.finished_wait_s > 0).any()) for p in plays) >= 200
    assert sum(bool((p.missed_reps > 0).any()) for p in plays) >= 40


def test_the_gate_refuses_none_of_the_rotating_plans_with_just_enough_kit():
    for core, problem in rotating_plans():
        assert not judge(core, problem).is_refused


@pytest.mark.parametrize("kind", ["fitted", "rotating"])
def test_nobody_finds_the_rack_empty(kind):
    for core, problem in fitted_plans() if kind == "fitted" else rotating_plans():
        assert blocked(core, stock_of(problem)) == 0


def test_with_one_unit_less_of_the_fullest_kit_somebody_does():
    controls = 0
    for core, problem in _plans():
        for key, units in most_used(core).items():
            stock = stock_of(problem) | {key: units - 1}
            assert blocked(core, stock) > 0
            controls += 1
    assert controls >= 600
