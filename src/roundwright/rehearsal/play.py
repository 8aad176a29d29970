"""A class played through many times: when each window starts, when it ends, who waits.

Implements section P6 of *How a class is planned*, read as *How a class is rehearsed*
says. All plays of a part are moved on together, window by window.
"""

from dataclasses import dataclass

import numpy as np

from roundwright.foundation.quantities import BP, stored
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.plan.core import Core
from roundwright.plan.document import ChanceOnTime
from roundwright.plan.problem import Problem
from roundwright.rehearsal.pace import Floats, factors_of_part, parts_of
from roundwright.rehearsal.played_class import Moves, PlayedClass, PlayedWindow, Sets, played_class

USUAL_PLAYS = 2000
RACK_S = 3
"""Seconds that one person stands at the rack before the next can; CP."""
LATE_SHARE = 0.9
"""`late_s` is the length that one class in ten exceeds; our choice."""


@dataclass(frozen=True, slots=True, eq=False)
class Rehearsal:
    """What many plays of one class came to. Arrays are read-only.

    Shapes: W windows as in the plan's timeline, P people in order of their ids, N plays.

    Attributes
    ----------
    people : tuple of str
        Ids, ascending.
    starts_s, lengths_s : ndarray, shape (N, W)
        Of each window in each play, s from the start of the class.
    class_s : ndarray, shape (N,)
        Length of the whole class, s.
    waiting_s : ndarray, shape (N, P)
        Seconds that each person waits in a class, in work windows and at the rack.
    positions : ndarray, shape (P, W)
        Where each person works in a window, or goes to in a change; 0 for nowhere.
    finished_wait_s : ndarray, shape (P, W)
        Mean seconds in a work window (in pairs: in one's own half) after one's own set.
    rack_wait_s : ndarray, shape (P, W)
        Mean seconds of queueing at the rack in a change.
    missed_reps : ndarray, shape (P, W)
        Mean reps (passes) of a timed set that were expected and do not fit.
    """

    people: tuple[str, ...]
    seed: int
    slot_s: int
    starts_s: Floats
    lengths_s: Floats
    class_s: Floats
    waiting_s: Floats
    positions: np.typing.NDArray[np.intp]
    finished_wait_s: Floats
    rack_wait_s: Floats
    missed_reps: Floats

    @property
    def plays(self) -> int:
        """How many plays there were."""
        return len(self.class_s)

    @property
    def middle_play(self) -> int:
        """The play, from 0, of median length: the lower of two, the first of equals."""
        order = np.argsort(self.class_s, kind="stable")
        return int(order[(self.plays - 1) // 2])

    @property
    def chance_on_time(self) -> ChanceOnTime:
        """Share of plays that end within the slot, the median length and the late one."""
        in_time = np.count_nonzero(self.class_s <= self.slot_s)
        return ChanceOnTime(
            chance_bp=stored(in_time / self.plays * BP),
            seed=self.seed,
            plays=self.plays,
            typical_s=stored(float(np.median(self.class_s))),
            late_s=stored(float(np.quantile(self.class_s, LATE_SHARE))),
        )


def play(
    core: Core, problem: Problem, *, seed: int = DEFAULT_SEED, plays: int = USUAL_PLAYS
) -> Rehearsal:
    """Play a class through many times.

    Parameters
    ----------
    core : Core
        The plan, of any format; groups and positions are read from its timeline.
    problem : Problem
        What it answers to: paces, kit, figures, and the slot that is kept or not.
    seed : int
        0 or larger. Equal seeds give equal plays, and the first plays of many
        are those of few.
    plays : int
        1 or more.

    Returns
    -------
    Rehearsal
        Lengths, waiting and misses. A chance from N plays has a sampling SD of at
        most 0.5 / sqrt(N): 1.1 per cent at 2,000.

    Raises
    ------
    BadInputError
        When the plan names what its problem does not hold.
    ValueError
        When plays is below 1.

    Notes
    -----
    A counted set takes planned seconds x between x within x (1 + slower x (round - 1)) x
    (2 + last_third) / 3; a timed one as planned. Work ends with its last set, in pairs
    each half does. A change ends with its slowest person, and not before its
    planned length: see `changes` in *How a class is rehearsed*.

    References
    ----------
    Spreads and seconds: common practice, no source (`plan/rule_table.py`).
    """
    if plays < 1:
        raise ValueError("a class is played at least once")
    played = played_class(core, problem)
    count, people, windows = plays, len(played.people), len(played.windows)
    lengths = np.empty((windows, count))
    waiting = np.zeros((count, people))
    finished = np.zeros((windows, people))
    rack = np.zeros((windows, people))
    missed = np.zeros((windows, people))
    shape = (played.rounds, played.positions, people)
    for inside in parts_of(plays):
        size = inside.stop - inside.start
        factors = factors_of_part(problem.rules, shape, seed=seed, part=inside)
        ends = np.zeros((size, people))
        for n, window in enumerate(played.windows):
            if window.sets is not None:
                length, ends, wait = work_window(window, window.sets, factors, people)
                missed[n, window.sets.people] += _missed(window.sets, factors)
                finished[n] += wait.sum(axis=0)
                waiting[inside] += wait
            elif window.moves is not None:
                length, wait = change_window(window.moves, ends)
                rack[n, window.moves.walkers] += wait.sum(axis=0)
                waiting[inside, window.moves.walkers] += wait
            else:
                length = np.full(size, float(window.planned_s))
            lengths[n, inside] = length
    ends_s = np.cumsum(lengths, axis=0)
    starts = np.vstack([np.zeros((1, count)), ends_s[:-1]])[:windows]
    return Rehearsal(
        people=played.people,
        seed=seed,
        slot_s=problem.spec.slot_s,
        starts_s=_kept(starts.T),
        lengths_s=_kept(lengths.T),
        class_s=_kept(ends_s[-1] if windows else np.zeros(count)),
        waiting_s=_kept(waiting),
        positions=_positions(played),
        finished_wait_s=_kept(finished.T / count),
        rack_wait_s=_kept(rack.T / count),
        missed_reps=_kept(missed.T / count),
    )


def drawn_seconds(sets: Sets, factors: Floats) -> Floats:
    """Give what each set takes in each play, s, shape (plays, sets)."""
    work: Floats = factors[:, sets.columns]
    work[:, ~sets.counted] = 1.0
    work *= sets.seconds
    return work


def work_window(
    window: PlayedWindow, sets: Sets, factors: Floats, people: int
) -> tuple[Floats, Floats, Floats]:
    """Give the window's length, when everyone ends after its start, and how long each waits."""
    work = drawn_seconds(sets, factors)
    ends = np.zeros((len(factors), people))
    wait = np.zeros((len(factors), people))
    length = np.zeros(len(factors))
    for second in (False, True):
        inside = np.flatnonzero(sets.second_half == second)
        if second:
            length += window.swap_s
        if len(inside) == 0:
            continue
        whole = len(inside) == work.shape[1]
        mine = work if whole else work[:, inside]
        half = mine.max(axis=1)
        who = sets.people[inside]
        ends[:, who] = mine + length[:, None]
        wait[:, who] = half[:, None] - mine
        length += half
    return length, ends, wait


def _missed(sets: Sets, factors: Floats) -> Floats:
    """Give the reps that do not fit into timed sets, summed over plays."""
    missed = np.zeros(len(sets.people))
    timed = np.flatnonzero(sets.expected > 0)
    if len(timed):
        slow = factors[:, sets.columns[timed]] * sets.stretch[timed]
        missed[timed] = sets.expected[timed] * np.maximum(0.0, 1 - 1 / slow).sum(axis=0)
    return missed


def change_window(moves: Moves, ends: Floats) -> tuple[Floats, Floats]:
    """Give the change's length, and how long each walker queues, in order of `walkers`.

    Whoever ended first is first at the rack; who ended together goes in order of ids.
    """
    length = np.full(len(ends), moves.stays_s)
    if len(moves.walkers) == 0:
        return length, np.zeros((len(ends), 0))
    order = np.argsort(ends[:, moves.walkers], axis=1, kind="stable")
    queue = np.empty(order.shape)
    turns = np.arange(len(moves.walkers), dtype=np.float64) * RACK_S
    np.put_along_axis(queue, order, np.broadcast_to(turns, order.shape), axis=1)
    return np.maximum(length, (queue + moves.walk_s).max(axis=1)), queue


def _positions(played: PlayedClass) -> np.typing.NDArray[np.intp]:
    """Say where each person is in each window; in a change, where they go."""
    where = np.zeros((len(played.people), len(played.windows)), np.intp)
    for n, window in enumerate(played.windows):
        if window.sets is not None:
            where[window.sets.people, n] = window.sets.positions
            if n and played.windows[n - 1].moves is not None:
                where[window.sets.people, n - 1] = window.sets.positions
    where.setflags(write=False)
    return where


def _kept(array: Floats) -> Floats:
    array.setflags(write=False)
    return array
