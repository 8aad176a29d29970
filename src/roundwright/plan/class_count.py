"""What a counted class looks like: the form of ``count PLAN --json``."""

from typing import Literal

from pydantic import Field

from roundwright.dose.counting import MovementReps
from roundwright.foundation.model import Stored

COUNT_SCHEMA = "roundwright.count/1"


class MovementCount(Stored):
    """Reps of one movement over the class; `expected` where seconds were turned into reps."""

    movement_id: str
    total: int
    both: int = 0
    left: int = 0
    right: int = 0
    expected: bool = False

    @classmethod
    def of(cls, reps: MovementReps) -> "MovementCount":
        """Give added-up reps in their stored form."""
        return cls(
            movement_id=reps.movement_id,
            total=reps.total,
            both=reps.both,
            left=reps.left,
            right=reps.right,
            expected=reps.expected,
        )


class PlaceTonnage(Stored):
    """What one person lifts at one place over the class, g, dumbbells only."""

    position: int
    tonnage_g: int


class PersonCount(Stored):
    """Totals of one person over the class.

    `low_hops` stand apart from `contacts`. `half_sets` holds hard sets by muscle
    in halves (2 is one set); `muscle_volume` is reps by share of the work, in
    1/100 rep. Body tonnage rests on an assumed mass where `body_mass_assumed`.
    """

    person_id: str
    movements: tuple[MovementCount, ...] = ()
    contacts: int = 0
    low_hops: int = 0
    tonnage_g: int = 0
    body_tonnage_g: int = 0
    body_mass_assumed: bool = False
    by_place: tuple[PlaceTonnage, ...] = ()
    half_sets: dict[str, int] = Field(default_factory=dict)
    muscle_volume: dict[str, int] = Field(default_factory=dict)
    burst: str | None = None
    burst_s: int = 0


class RoundLengths(Stored):
    """One round: its work windows in order, and all of it with changes, burst and rest, s."""

    round: int
    work_s: tuple[int, ...]
    total_s: int


class FullDoseCount(Stored):
    """Totals of someone who does the whole class at full dose, by choice of versions."""

    versions: Literal["easiest", "hardest"]
    movements: tuple[MovementCount, ...]
    contacts: int
    low_hops: int


class ClassCount(Stored):
    """Totals that follow from the core: by person, by round, and of the class."""

    schema_: str = Field(default=COUNT_SCHEMA, alias="schema")
    plan_id: str
    revision: int
    total_s: int
    rounds: tuple[RoundLengths, ...]
    people: tuple[PersonCount, ...]
    full_dose: tuple[FullDoseCount, ...] = ()

    def of(self, person_id: str) -> PersonCount:
        """Give the totals of one person.

        Raises
        ------
        KeyError
            When the person has no part in the plan.
        """
        return {p.person_id: p for p in self.people}[person_id]
