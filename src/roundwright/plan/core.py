"""The core of a plan: who does what, with what, when. Integers and words only.

No names, no health values, no floats: the digest is over exactly this.
"""

from datetime import date, time
from enum import StrEnum
from typing import Literal

from pydantic import Field

from roundwright.foundation.canonical import digest_of
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.goals.class_wish import AfterLastRound, ClassFormat, Count
from roundwright.library.version import Step


class CellState(StrEnum):
    """Whether a person does the exercise, another one, or nothing at this place."""

    DO = "do"
    SUBSTITUTE = "substitute"
    SIT_OUT = "sit_out"


class KitUnits(Stored):
    """Units of one kit item that a person uses (dumbbells stand in the cell itself)."""

    item_id: Slug
    units: int = Field(ge=1)


class Cell(Stored):
    """What one person does at one place of the round; `round` 0 means every round they do.

    `steps` is one pass. With reps, `count.value` passes are done; with
    `reps_per_side` a pass holds both sides; with `reps_alternating` half as
    many passes as reps. `unit_mass_g` is one dumbbell; 0 when none is used.
    """

    person_id: Slug
    position: int = Field(ge=1)
    round: int = Field(default=0, ge=0)
    state: CellState = CellState.DO
    exercise_id: Slug | None = None
    steps: tuple[Step, ...] = ()
    count: Count | None = None
    unit_mass_g: int = Field(default=0, ge=0)
    units: int = Field(default=0, ge=0, le=2)
    kit: tuple[KitUnits, ...] = ()
    limited_by: Slug | None = None
    kept: bool = False
    chance_bp: int = Field(default=10_000, ge=0, le=10_000)

    @property
    def signature(self) -> tuple[str, ...]:
        """The version as the room sees it: the movements of one pass, in order."""
        return tuple(step.movement_id for step in self.steps)


class PersonDose(Stored):
    """How much of the class one person does: share, rounds (by number), burst, effort."""

    person_id: Slug
    dose_bp: int = Field(gt=0, le=10_000)
    rounds: tuple[int, ...]
    burst: Slug | None = None
    burst_kit: tuple[KitUnits, ...] = ()
    effort_ceiling: int = Field(ge=0, le=10)
    rir: int = Field(ge=0, le=10)


class WindowKind(StrEnum):
    """What a stretch of the timeline is for."""

    WARM_UP = "warm_up"
    DEMONSTRATION = "demonstration"
    WORK = "work"
    CHANGE = "change"
    BURST = "burst"
    REST = "rest"
    COOL_DOWN = "cool_down"


class Window(Stored):
    """One stretch of the timeline.

    `positions` maps each group (by its number) to a position, in work windows.
    In pairs `halves_s` are the two work halves, and the partner swap is what
    is left of `length_s`.
    """

    at_s: int = Field(ge=0)
    length_s: int = Field(ge=0)
    kind: WindowKind
    round: int = 0
    positions: tuple[int, ...] = ()
    halves_s: tuple[int, ...] = ()


class Handover(Stored):
    """Kit that goes from one person to another during a change."""

    round: int
    from_position: int
    to_position: int
    unit_mass_g: int = 0
    item_id: Slug | None = None
    units: int
    from_person: Slug
    to_person: Slug


class CoreClass(Stored):
    """When, where and in which form the class is held."""

    class_id: Slug
    starts_on: date
    starts_at_local: time
    slot_s: int
    room_id: Slug
    format: ClassFormat
    groups: tuple[tuple[Slug, ...], ...]
    rounds: int
    positions: int
    after_last_round: AfterLastRound


class PieceKind(StrEnum):
    """Which part of the class a piece belongs to."""

    WARM_UP = "warm_up"
    COOL_DOWN = "cool_down"


class Piece(Stored):
    """One piece of warm-up or cool-down: a line, its seconds, and who does which version.

    People who are allowed no version rest; they are not in `versions`.
    """

    kind: PieceKind
    line_id: Slug
    length_s: int = Field(gt=0)
    why: Literal["pulse", "mobilise", "pattern", "landing", "walk", "floor"]
    versions: dict[Slug, Slug] = Field(default_factory=dict)


class CoreExercise(Stored):
    """Which exercise stands at a position, and how much of it at full dose."""

    position: int
    exercise_id: Slug
    count: Count
    kept: bool = False


class Core(Stored):
    """The plan itself."""

    plan_id: str
    revision: int = Field(ge=1)
    parent_revision: int | None = None
    made_by: Literal["tool", "coach", "owner", "assistant"] = "tool"
    class_: CoreClass = Field(alias="class")
    exercises: tuple[CoreExercise, ...]
    people: tuple[PersonDose, ...]
    cells: tuple[Cell, ...]
    timeline: tuple[Window, ...]
    handovers: tuple[Handover, ...] = ()
    pieces: tuple[Piece, ...] = ()

    @property
    def digest(self) -> str:
        """SHA-256 over the canonical JSON of this core."""
        return digest_of(self.model_dump(mode="json", by_alias=True))

    def cells_of(self, person_id: str, round_number: int) -> tuple[Cell, ...]:
        """Give the cells that a person does in one round, by position."""
        mine = [c for c in self.cells if c.person_id == person_id and c.round in (0, round_number)]
        return tuple(sorted(mine, key=lambda c: c.position))
