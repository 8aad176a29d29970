"""One play of a class, person by person: who works, waits, changes or rests, from when to when.

The same draws as the play of that number in `play`, so both tell the same class.
"""

from collections.abc import Iterator
from enum import StrEnum

import numpy as np
from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.foundation.quantities import stored
from roundwright.plan.core import Core, WindowKind
from roundwright.plan.problem import Problem
from roundwright.rehearsal.pace import BLOCK, Floats, factors_of
from roundwright.rehearsal.play import change_window, drawn_seconds, work_window
from roundwright.rehearsal.played_class import PlayedClass, PlayedWindow, Sets, played_class


class Doing(StrEnum):
    """What somebody does in a stretch of a class."""

    WARM_UP = "warm_up"
    DEMONSTRATION = "demonstration"
    WORK = "work"
    WAIT = "wait"
    PARTNER = "partner"
    CHANGE = "change"
    BURST = "burst"
    REST = "rest"
    NOTHING = "nothing"
    COOL_DOWN = "cool_down"


OF_KIND = {
    WindowKind.WARM_UP: Doing.WARM_UP,
    WindowKind.DEMONSTRATION: Doing.DEMONSTRATION,
    WindowKind.BURST: Doing.BURST,
    WindowKind.REST: Doing.REST,
    WindowKind.COOL_DOWN: Doing.COOL_DOWN,
}


class Stretch(Stored):
    """What a person does from one second of the class to another; position 0 is no place."""

    from_s: int
    to_s: int
    doing: Doing
    round: int = 0
    position: int = 0


class PersonPlayed(Stored):
    """One person's class, without gaps from start to end."""

    person_id: Slug
    group: int = Field(description="number of the person's group, from 0")
    stretches: tuple[Stretch, ...]

    def at(self, second: int) -> Stretch | None:
        """Give what the person does at a second; None after the end."""
        return next((s for s in self.stretches if s.from_s <= second < s.to_s), None)


class OnePlay(Stored):
    """One play of a class, in whole seconds."""

    number: int = Field(description="which play of the rehearsal, from 0")
    class_s: int
    window_at_s: tuple[int, ...] = Field(description="when each window of the timeline begins")
    people: tuple[PersonPlayed, ...]


def one_play(core: Core, problem: Problem, *, seed: int, number: int) -> OnePlay:
    """Play one class and say what everybody does when.

    Parameters
    ----------
    core, problem
        The plan and what it answers to.
    seed : int
        The rehearsal's seed.
    number : int
        Which of its plays, from 0.

    Returns
    -------
    OnePlay
        People by group, then in order of their ids. Each second is rounded once, from its own
        moment, so that stretches meet.

    Raises
    ------
    BadInputError
        When the plan names what its problem does not hold.

    Notes
    -----
    Waiting is what it is in a rehearsal: after one's own set, and queueing at the rack.
    """
    played = played_class(core, problem)
    shape = (played.rounds, played.positions, len(played.people))
    block, row = divmod(number, BLOCK)
    drawn = factors_of(problem.rules, shape, seed=seed, block=block, plays=row + 1)
    factors = drawn[row : row + 1]
    reader = _Reader(core, played, factors)
    found = reader.stretches()
    groups = {p: g for g, group in enumerate(core.class_.groups) for p in group}
    people = sorted(played.people, key=lambda p: (groups[p], p))
    index = {person: n for n, person in enumerate(played.people)}
    return OnePlay(
        number=number,
        class_s=stored(reader.moments[-1]),
        window_at_s=tuple(stored(moment) for moment in reader.moments[:-1]),
        people=tuple(
            PersonPlayed(person_id=p, group=groups[p], stretches=tuple(_joined(found[index[p]])))
            for p in people
        ),
    )


Piece = tuple[float, float, Doing, int, int]
"""From and to, s of the class, what is done, round, position."""


class _Reader:
    """Walks through the windows of one play."""

    def __init__(self, core: Core, played: PlayedClass, factors: Floats) -> None:
        self.core, self.played, self.factors = core, played, factors
        self.moments: list[float] = [0.0]
        self.doses = {dose.person_id: dose for dose in core.people}

    def stretches(self) -> list[list[Piece]]:
        """Give everybody's pieces, by the number of the person."""
        people = len(self.played.people)
        found: list[list[Piece]] = [[] for _ in range(people)]
        ends = np.zeros((1, people))
        for n, window in enumerate(self.played.windows):
            at = self.moments[-1]
            length = float(window.planned_s)
            if window.sets is not None:
                drawn, ends, wait = work_window(window, window.sets, self.factors, people)
                length = float(drawn[0])
                pieces = self._work(window, window.sets, at, length, ends[0], wait[0])
            elif window.moves is not None:
                drawn, queue = change_window(window.moves, ends)
                length = float(drawn[0])
                queues = dict(zip(window.moves.walkers.tolist(), queue[0].tolist(), strict=True))
                pieces = self._change(n, at, length, queues)
            else:
                pieces = self._plain(window, at, length)
            for person, piece in pieces:
                found[person].append(piece)
            self.moments.append(at + length)
        return found

    def _is_in(self, person: int, window: PlayedWindow) -> bool:
        """Say whether a person does the round that a window belongs to."""
        rounds = self.doses[self.played.people[person]].rounds
        return not window.round or window.round in rounds

    def _work(
        self,
        window: PlayedWindow,
        sets: Sets,
        at: float,
        length: float,
        ends: Floats,
        wait: Floats,
    ) -> Iterator[tuple[int, Piece]]:
        seconds = dict(
            zip(sets.people.tolist(), drawn_seconds(sets, self.factors)[0].tolist(), strict=True)
        )
        places = dict(zip(sets.people.tolist(), sets.positions.tolist(), strict=True))
        in_pairs = bool(window.swap_s) or bool(sets.second_half.any())
        for person in range(len(self.played.people)):
            if person not in seconds:
                yield person, (at, at + length, Doing.NOTHING, window.round, 0)
                continue
            done = float(ends[person])
            begun, free = done - seconds[person], done + float(wait[person])
            here = (window.round, places[person])
            other = Doing.PARTNER if in_pairs else Doing.WAIT
            yield person, (at, at + begun, other, *here)
            yield person, (at + begun, at + done, Doing.WORK, *here)
            yield person, (at + done, at + free, Doing.WAIT, *here)
            yield person, (at + free, at + length, other, *here)

    def _change(
        self, n: int, at: float, length: float, queues: dict[int, float]
    ) -> Iterator[tuple[int, Piece]]:
        """Give the change before a window; who does nothing in it goes nowhere."""
        window = self.played.windows[n]
        following = self.played.windows[n + 1] if n + 1 < len(self.played.windows) else None
        sets = following.sets if following is not None else None
        places = (
            dict(zip(sets.people.tolist(), sets.positions.tolist(), strict=True)) if sets else {}
        )
        for person in range(len(self.played.people)):
            if not self._is_in(person, window):
                yield person, (at, at + length, Doing.NOTHING, window.round, 0)
                continue
            here = (window.round, places.get(person, 0))
            goes = at + queues.get(person, 0.0)
            yield person, (at, goes, Doing.WAIT, *here)
            yield person, (goes, at + length, Doing.CHANGE, *here)

    def _plain(self, window: PlayedWindow, at: float, length: float) -> Iterator[tuple[int, Piece]]:
        kind = OF_KIND.get(window.kind, Doing.NOTHING)
        for person in range(len(self.played.people)):
            doing = kind
            if kind is Doing.BURST and not self._has_burst(person, window):
                doing = Doing.NOTHING
            yield person, (at, at + length, doing, window.round, 0)

    def _has_burst(self, person: int, window: PlayedWindow) -> bool:
        dose = self.doses[self.played.people[person]]
        return dose.burst is not None and self._is_in(person, window)


def _joined(pieces: list[Piece]) -> Iterator[Stretch]:
    """Round each moment once, and leave out what rounds to no second."""
    for from_s, to_s, doing, round_number, position in pieces:
        start, end = stored(from_s), stored(to_s)
        if end > start:
            yield Stretch(
                from_s=start, to_s=end, doing=doing, round=round_number, position=position
            )
