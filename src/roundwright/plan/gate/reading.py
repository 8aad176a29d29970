"""What the gate holds while it judges: core and problem side by side, as far as they can be read.

Nothing of the core is taken on trust. What cannot be read becomes a note (the rule
`plan.malformed` turns notes into findings) and takes no further part.
"""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from roundwright.goals.class_wish import AfterLastRound, ClassFormat, Count
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.plan.core import Cell, Core, KitUnits, PersonDose
from roundwright.plan.gate.recount import Listing, own_counts
from roundwright.plan.problem import Problem, ProblemPerson

if TYPE_CHECKING:
    from roundwright.plan.gate.loads import Demanded


@dataclass(frozen=True, slots=True)
class Note:
    """One thing in the core that cannot be read as the problem's class."""

    what: str
    persons: tuple[str, ...] = ()
    positions: tuple[int, ...] = ()
    round: int = 0


@dataclass(frozen=True, slots=True)
class Work:
    """One readable cell: what a person does at one place, when in the round, in which rounds."""

    person_id: str
    person: ProblemPerson
    position: int
    interval: int
    rounds: tuple[int, ...]
    cell: Cell
    exercise_id: str
    listing: Listing
    count: Count
    passes: int
    seconds: int
    last_round: int
    rounds_done: int

    @property
    def shown_round(self) -> int:
        """The round a finding names: 0 when the cell holds for every round."""
        return self.cell.round


@dataclass(frozen=True, slots=True)
class BurstWork:
    """What a person does in each burst, and with which kit."""

    person_id: str
    person: ProblemPerson
    movement: Movement
    kit: tuple[KitUnits, ...]
    rounds: tuple[int, ...]


@dataclass(slots=True)
class Reading:
    """Core and problem side by side, with everything that could be read.

    `asked` and `targets` hold what was worked out already, by the identity of the work,
    `counts` people's own counts by person, share and number of rounds.
    """

    core: Core
    problem: Problem
    doses: dict[str, PersonDose] = field(default_factory=dict)
    rounds: dict[str, tuple[int, ...]] = field(default_factory=dict)
    works: list[Work] = field(default_factory=list)
    sit_outs: list[Cell] = field(default_factory=list)
    bursts: list[BurstWork] = field(default_factory=list)
    without_burst: list[str] = field(default_factory=list)
    unheld: list[tuple[str, int]] = field(default_factory=list)
    groups: tuple[tuple[str, ...], ...] = ()
    offsets: tuple[int, ...] = ()
    notes: list[Note] = field(default_factory=list)
    asked: dict[int, tuple[Work, "Demanded"]] = field(default_factory=dict, repr=False)
    targets: dict[int, tuple[Work, int | None]] = field(default_factory=dict, repr=False)
    counts: dict[tuple[str, int, int], dict[int, Count]] = field(default_factory=dict, repr=False)

    @property
    def library(self) -> Catalogue:
        """The library entries that the class uses."""
        return self.problem.library

    @property
    def people(self) -> dict[str, ProblemPerson]:
        """Those who take part with a dose that can be read."""
        return {p: self.problem.people[p] for p in self.rounds}

    def own_counts(self, person_id: str, dose_bp: int, rounds_done: int) -> dict[int, Count]:
        """Give a person's own count at each place; worked out once a reading."""
        key = person_id, dose_bp, rounds_done
        if key not in self.counts:
            person = self.problem.people[person_id]
            self.counts[key] = own_counts(self.problem, person, dose_bp, rounds_done)
        return self.counts[key]

    def coach_gives(self, cell: Cell) -> bool:
        """Say whether the coach put this exercise in the place of the class's for this person."""
        return any(
            (k.person, k.position) == (cell.person_id, cell.position)
            and k.instead is not None
            and k.instead == cell.exercise_id
            for k in self.problem.spec.keep
        )

    @property
    def in_pairs(self) -> bool:
        """Whether the class is held in pairs."""
        return self.core.class_.format is ClassFormat.PAIRS

    @property
    def rotates(self) -> bool:
        """Whether groups work at different places of the round at one time."""
        return self.core.class_.format in (ClassFormat.STATIONS, ClassFormat.STAGGERED)

    def offset_of(self, person_id: str) -> int:
        """Give how many places a person's group is ahead of the first group; 0 for no group."""
        at = zip(self.groups, self.offsets, strict=False)
        return next((offset for group, offset in at if person_id in group), 0)

    def interval_of(self, person_id: str, position: int) -> int:
        """Give the interval of the round (from 1) in which a person is at a place."""
        return (position - 1 - self.offset_of(person_id)) % self.problem.spec.positions + 1

    def positions_in(self, interval: int) -> tuple[int, ...]:
        """Give the place of each group in an interval of the round."""
        count = self.problem.spec.positions
        return tuple((interval - 1 + offset) % count + 1 for offset in self.offsets)

    def in_second_half(self, person_id: str) -> bool:
        """Say whether a person works in the second half of a window."""
        return any(person_id in group[1:2] for group in self.groups)

    def works_in(self, interval: int, round_number: int) -> list[Work]:
        """Give who works in one interval of one round; all are at one place unless they rotate."""
        return [w for w in self.works if w.interval == interval and round_number in w.rounds]

    def positions(self) -> range:
        """Give the places of a round, which has as many intervals."""
        return range(1, self.problem.spec.positions + 1)


def burst_rounds(problem: Problem) -> range:
    """Give the rounds after which there is a burst."""
    spec = problem.spec
    if spec.burst is None:
        return range(0)
    last = spec.after_last_round is not AfterLastRound.NOTHING
    return range(1, spec.rounds + 1 if last else spec.rounds)
