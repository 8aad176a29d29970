"""Everything that a plan must answer to, frozen as it was: the gate needs no other file."""

from datetime import date, time
from typing import Literal

from pydantic import Field

from roundwright.body.anatomy import Limb, Side
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.goals.class_wish import (
    AfterLastRound,
    BurstWish,
    ClassFormat,
    Count,
    KeptCell,
    Pace,
)
from roundwright.kit.inventory import Inventory, Room
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import Demand, StrengthFamily
from roundwright.people.capacity import Capacity
from roundwright.people.person import Clearance
from roundwright.plan.cost_table import CostTable
from roundwright.plan.recent import Recent
from roundwright.plan.rule_table import RuleTable, WorkRest

PROBLEM_SCHEMA = "roundwright.problem/1"


class PlannedExercise(Stored):
    """One place of the round: which exercise, and how much of it at full dose."""

    position: int = Field(ge=1)
    exercise_id: Slug
    count: Count


class ClassSpec(Stored):
    """The class as booked: day, slot, room, form. Defaults are filled in."""

    class_id: Slug
    name: str
    starts_on: date
    starts_at_local: time
    time_zone: str
    slot_s: int
    room_id: Slug
    format: ClassFormat
    groups: int | None = Field(
        default=None, description="how many groups take turns; null: the tool's choice"
    )
    coaches: int
    rounds: int
    pace: Pace
    change_s: int
    side_change_s: int
    partner_swap_s: int
    rest_s: int
    burst: BurstWish | None
    after_last_round: AfterLastRound
    warm_up_s: int
    demonstration_s: int
    cool_down_s: int
    exercises: tuple[PlannedExercise, ...]
    keep: tuple[KeptCell, ...] = ()
    ban: tuple[Slug, ...] = ()
    chance_on_time_bp: int = 9000
    reps_left: int | None = Field(
        default=None, description="reps in reserve that the class asks of everybody at least"
    )
    chosen_by: Literal["coach", "tool"] = Field(
        default="coach", description="who chose exercises and order; the tool's choice is priced"
    )
    length_by: Literal["coach", "tool"] = Field(
        default="coach",
        description="who chose rounds, work and rest; for the tool's choice minutes are priced",
    )
    work_rest: WorkRest | None = Field(
        default=None,
        description="the pair that the tool chose; null: work and change are the class's",
    )

    @property
    def positions(self) -> int:
        """How many exercises a round has (K)."""
        return len(self.exercises)


class ProblemPerson(Stored):
    """What planning may know of one person: effective limits without their reasons.

    `caps` maps a demand to the highest degree allowed (absent: 3). `level` is
    1 where unknown. `classes_done` None is treated as none. `effort_cap` is the
    highest effort of 10 that limits allow, where one does.
    """

    level: int
    level_by_family: dict[StrengthFamily, int] = Field(default_factory=dict)
    classes_done: int | None
    days_since_last: int | None = None
    youngest_age: int | None = None
    oldest_age: int | None = None
    body_mass_g: int
    body_mass_assumed: bool = False
    clearance: Clearance = Field(repr=False)
    effort_only: bool = Field(default=False, repr=False)
    caps: dict[Demand, int] = Field(default_factory=dict, repr=False)
    effort_cap: int | None = Field(default=None, repr=False)
    first_side: Side = Side.LEFT
    unused: dict[Limb, Side] = Field(
        default_factory=dict,
        repr=False,
        description="the side of a limb that is not used; both: neither, or not said",
    )
    capacities: tuple[Capacity, ...] = ()
    actions: tuple[str, ...] = Field(default=(), repr=False, description="what to do, never why")

    @property
    def classes(self) -> int:
        """Classes done, unknown counted as none."""
        return self.classes_done or 0

    def unused_side_of(self, limb: Limb | None) -> Side | None:
        """Give the side of a limb that is not used, None where both are or there is no limb."""
        return self.unused.get(limb) if limb else None

    @property
    def is_moderate_only(self) -> bool:
        """Whether only light to moderate work is allowed: also where nothing is known."""
        return self.clearance in (Clearance.MODERATE_ONLY, Clearance.UNKNOWN)

    def level_for(self, family: StrengthFamily | None) -> int:
        """Give the person's level in a family, or the general one."""
        return self.level_by_family.get(family, self.level) if family else self.level

    def capacity_for(self, movement_id: str, family: StrengthFamily | None) -> Capacity | None:
        """Give the capacity known for a movement, else for its family, else None."""
        of_movement = of_family = None
        for capacity in self.capacities:
            if capacity.key == movement_id:
                of_movement = capacity
            elif family is not None and capacity.key == family.value:
                of_family = capacity
        return of_movement or of_family


class Problem(Stored):
    """The frozen question that a plan answers. Health-classed: it stays on the coach's side."""

    schema_: str = Field(default=PROBLEM_SCHEMA, alias="schema")
    spec: ClassSpec
    people: dict[Slug, ProblemPerson]
    kit: Inventory
    room: Room
    library: Catalogue
    recent: Recent = Recent()
    substitutes: tuple[Slug, ...] = Field(
        default=(), description="lines that may stand in when a person has no version"
    )
    rules: RuleTable = RuleTable()
    costs: CostTable = CostTable()

    @property
    def taking_part(self) -> tuple[str, ...]:
        """People who may take part at all, in order; the others are 'not today'."""
        return tuple(
            p for p in sorted(self.people) if self.people[p].clearance is not Clearance.NOT_CLEARED
        )
