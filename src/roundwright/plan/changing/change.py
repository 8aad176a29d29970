"""What a coach changes about a plan, as values: docs/explanation/how-a-plan-is-changed.md, C1."""

from typing import Annotated, Literal

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.goals.class_wish import Count
from roundwright.library.vocabulary import Demand
from roundwright.plan.problem import ProblemPerson


class PersonLeft(Stored):
    """A person does not take part any more."""

    kind: Literal["person_left"] = "person_left"
    person: Slug


class PersonCame(Stored):
    """A person joins, with what planning may know of them."""

    kind: Literal["person_came"] = "person_came"
    person: Slug
    known: ProblemPerson = Field(repr=False)


class PersonLimited(Stored):
    """A person must avoid more than before; a change never lifts a limit."""

    kind: Literal["person_limited"] = "person_limited"
    person: Slug
    caps: dict[Demand, int] = Field(default_factory=dict, repr=False)
    effort_cap: int | None = Field(default=None, ge=0, le=10, repr=False)


class KitLost(Stored):
    """Dumbbells of one mass, or units of one item, can't be used."""

    kind: Literal["kit_lost"] = "kit_lost"
    unit_mass_g: int = Field(default=0, ge=0)
    item_id: Slug | None = None
    units: int = Field(default=1, ge=1)


class KitBack(Stored):
    """Kit that was lost, or that was brought, can be used."""

    kind: Literal["kit_back"] = "kit_back"
    unit_mass_g: int = Field(default=0, ge=0)
    item_id: Slug | None = None
    units: int = Field(default=1, ge=1)


class SlotChanged(Stored):
    """The class has another slot, in seconds from its start."""

    kind: Literal["slot_changed"] = "slot_changed"
    slot_s: int = Field(ge=60, le=4 * 3600)


class ExerciseSwapped(Stored):
    """Another exercise stands at a position; without one the tool chooses."""

    kind: Literal["exercise_swapped"] = "exercise_swapped"
    position: int = Field(ge=1)
    exercise_id: Slug | None = None
    count: Count | None = None


class ExercisesReordered(Stored):
    """The exercises stand in another order: old positions in their new order."""

    kind: Literal["exercises_reordered"] = "exercises_reordered"
    order: tuple[int, ...]


class Banned(Stored):
    """A movement or a line is ruled out for this class."""

    kind: Literal["banned"] = "banned"
    slug: Slug


class CellSet(Stored):
    """What one person does at one position is fixed: version (a movement), mass, or both."""

    kind: Literal["cell_set"] = "cell_set"
    person: Slug
    position: int = Field(ge=1)
    version: Slug | None = None
    mass_g: int | None = Field(default=None, gt=0)


class CellFreed(Stored):
    """A person's cell is fixed no more."""

    kind: Literal["cell_freed"] = "cell_freed"
    person: Slug
    position: int = Field(ge=1)


class SubstituteSet(Stored):
    """One person does another exercise at a position: the coach says yes to it."""

    kind: Literal["substitute_set"] = "substitute_set"
    person: Slug
    position: int = Field(ge=1)
    exercise_id: Slug


class SatOut(Stored):
    """One person has nothing to do at a position."""

    kind: Literal["sat_out"] = "sat_out"
    person: Slug
    position: int = Field(ge=1)


class RoundDropped(Stored):
    """One round less."""

    kind: Literal["round_dropped"] = "round_dropped"


class RestsCut(Stored):
    """Shorter rests and changes; never below the floors."""

    kind: Literal["rests_cut"] = "rests_cut"
    rest_s: int = Field(ge=0)
    change_s: int = Field(ge=0)


class RepsCut(Stored):
    """A share of every count is done."""

    kind: Literal["reps_cut"] = "reps_cut"
    share_bp: int = Field(gt=0, lt=10_000)


class BurstCut(Stored):
    """A shorter burst, or none."""

    kind: Literal["burst_cut"] = "burst_cut"
    length_s: int | None = Field(default=None, gt=0)


Cut = Annotated[RoundDropped | RestsCut | RepsCut | BurstCut, Field(discriminator="kind")]
"""What makes a class shorter."""


class SeveralCuts(Stored):
    """Several cuts at once, as one change."""

    kind: Literal["several_cuts"] = "several_cuts"
    cuts: tuple[Cut, ...] = Field(min_length=2)


Change = Annotated[
    PersonLeft
    | PersonCame
    | PersonLimited
    | KitLost
    | KitBack
    | SlotChanged
    | ExerciseSwapped
    | ExercisesReordered
    | Banned
    | CellSet
    | CellFreed
    | SubstituteSet
    | SatOut
    | RoundDropped
    | RestsCut
    | RepsCut
    | BurstCut
    | SeveralCuts,
    Field(discriminator="kind"),
]
"""Any change of a plan."""


class Harm(Stored):
    """How much an answer takes from people: compared from the first figure on (C3)."""

    left_out: int = Field(ge=0, description="people and places newly without anything to do")
    overrun_s: int = Field(ge=0, description="s beyond what the plan before had")
    people: int = Field(ge=0, description="people disturbed")
    cells: int = Field(ge=0, description="cells changed")
    price: int

    @property
    def order(self) -> tuple[int, int, int, int, int]:
        """Give the figures in the order in which they count; less is better."""
        return (self.left_out, self.overrun_s, self.people, self.cells, self.price)
