"""What one movement is: everything that counts, loads, teaches and limits it."""

from collections.abc import Mapping
from functools import cached_property
from typing import Annotated, Any, Self

from pydantic import Field

from roundwright.body.anatomy import Limb, Muscle, MuscleRole
from roundwright.foundation.authored_types import LengthMm, MassG
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.foundation.quantities import BP, stored
from roundwright.library.vocabulary import (
    LIMBS,
    Demand,
    FigureSource,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)

Level = Annotated[int, Field(ge=1, le=5)]
DemandDegree = Annotated[int, Field(ge=0, le=3)]
Sentence = Annotated[str, Field(min_length=2, max_length=240)]

_MUSCLES = tuple(Muscle)


class KitNeed(Authored):
    """One kind of kit that a movement uses: how many, how high, and what for."""

    item: KitKind
    units: int = Field(default=1, ge=1, le=2)
    min_height: LengthMm | None = Field(default=None, gt=0, description="mm; text like '30 cm'")
    max_height: LengthMm | None = Field(default=None, gt=0, description="mm; text like '30 cm'")
    use: KitUse = KitUse.LIFT


class FloorNeed(Authored):
    """The floor that one person needs, in mm (authored as '2 m')."""

    length: LengthMm = Field(gt=0)
    width: LengthMm = Field(gt=0)


class MuscleShare(Authored):
    """What a muscle does in the movement, and its share of the work."""

    role: MuscleRole
    share: float = Field(ge=0, le=1)


class FaultAndFix(Authored):
    """A common fault, how urgent it is, and what to say."""

    fault: Sentence
    fix: Sentence
    urgency: str = Field(default="fix_now", pattern="^(stop|fix_now|later)$")


class Teaching(Authored):
    """What a coach says, in the imperative, short enough to read at arm's length."""

    set_up: Sentence
    steps: tuple[Sentence, ...] = Field(min_length=1, max_length=5)
    start: Sentence
    end: Sentence
    feel: Sentence
    breathing: Sentence
    cues: tuple[Sentence, ...] = Field(min_length=2, max_length=4)
    faults: tuple[FaultAndFix, ...] = Field(min_length=1)
    watch: Sentence


class Movement(Authored):
    """One atomic movement of the library, the same for everyone.

    `lifted_share` is the part of body mass that is lifted with each rep;
    `limb_factor_bp` is what one limb can do of what both can (only for
    one-sided movements; our choice where the author gives none).
    """

    slug: Slug
    name: Annotated[str, Field(min_length=2, max_length=60)]
    pattern: Pattern
    strength_family: StrengthFamily | None = None
    laterality: Laterality
    level: Level
    seconds_a_rep: float = Field(gt=0, le=30, description="one side where one-sided")
    contacts_a_rep: int = Field(ge=0, le=10)
    low_hops_a_rep: int = Field(ge=0, le=10)
    rate_a_min: int | None = Field(default=None, gt=0, le=300)
    kit: tuple[KitNeed, ...] = ()
    floor: FloorNeed
    muscles: dict[Muscle, MuscleShare] = Field(min_length=1)
    tempo: str = Field(pattern=r"^\d-\d-\d(-\d)?$", description="lower-pause-lift[-pause], s")
    demands: dict[Demand, DemandDegree]
    lifted_share: float | None = Field(default=None, ge=0, le=1)
    lifted_share_by: FigureSource = FigureSource.AUTHOR
    limb_factor_bp: int | None = Field(default=None, gt=0, le=BP)
    assumed_load_by_level: dict[str, MassG] | None = Field(
        default=None, description="g by level '1'..'5' for a loaded movement without a family"
    )
    teaching: Teaching
    posture: dict[str, object] | None = None
    was: tuple[Slug, ...] = ()

    @cached_property
    def dumbbells_lifted(self) -> int:
        """How many dumbbells are lifted with each rep: 0, 1 or 2."""
        return sum(n.units for n in self.kit if n.item is KitKind.DUMBBELL and n.use is KitUse.LIFT)

    @cached_property
    def dumbbells_needed(self) -> int:
        """How many dumbbells of one mass the person needs at their place: 0, 1 or 2."""
        return min(2, sum(n.units for n in self.kit if n.item is KitKind.DUMBBELL))

    @cached_property
    def other_kit(self) -> tuple[KitNeed, ...]:
        """What is needed besides dumbbells."""
        return tuple(need for need in self.kit if need.item is not KitKind.DUMBBELL)

    def __copy__(self) -> Self:
        """Copy the fields alone: what was worked out of them may not hold for a copy's own."""
        return self._without_worked_out(super().__copy__())

    def __deepcopy__(self, memo: dict[int, Any] | None = None) -> Self:
        """Copy the fields alone, and what is in them."""
        return self._without_worked_out(super().__deepcopy__(memo))

    def _without_worked_out(self, copied: Self) -> Self:
        for name in vars(copied).keys() - type(self).model_fields.keys():
            del vars(copied)[name]
        return copied

    @property
    def lifted_share_bp(self) -> int:
        """Share of body mass lifted with each rep, in 1/10,000."""
        return stored((self.lifted_share or 0.0) * BP)

    @property
    def limb(self) -> Limb | None:
        """Which limb the movement is about, where its pattern says so."""
        return LIMBS.get(self.pattern)

    @property
    def is_one_sided(self) -> bool:
        """Whether a rep belongs to one side."""
        return self.laterality is not Laterality.BILATERAL

    def demand(self, name: Demand) -> int:
        """Give how much of one demand the movement makes, 0 when it is not named."""
        return self.demands.get(name, 0)

    def asking_at_least(self, degrees: Mapping[Demand, int]) -> "Movement":
        """Give the movement with the higher of its own and the given degree of each demand."""
        higher = {d: degree for d, degree in degrees.items() if degree > self.demand(d)}
        if not higher:
            return self
        return self.model_copy(update={"demands": {**self.demands, **higher}})

    @cached_property
    def prime_movers(self) -> tuple[Muscle, ...]:
        """The prime movers, in the vocabulary's order."""
        return tuple(
            muscle
            for muscle in _MUSCLES
            if (share := self.muscles.get(muscle)) and share.role is MuscleRole.PRIME_MOVER
        )
