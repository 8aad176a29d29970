"""The figures of one movement that the search asks for again and again, looked up once."""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.body.anatomy import Limb, Muscle
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import KitNeed, Movement
from roundwright.library.vocabulary import (
    Demand,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)

DEFAULT_LIMB_BP = 5000
"""What one limb can do of what both can, where the library gives nothing; our choice."""


@dataclass(frozen=True, slots=True)
class MovementFacts:
    """One movement's figures, flat: masses in g, shares in 1/10,000."""

    slug: str
    pattern: Pattern
    limb: Limb | None
    laterality: Laterality
    level: int
    family: StrengthFamily | None
    contacts: int
    low_hops: int
    lifted: int
    needed: int
    under_hands: bool
    other_kit: tuple[KitNeed, ...]
    demands: Mapping[Demand, int]
    lifted_share_bp: int
    limb_bp: int
    prime_movers: frozenset[Muscle]
    assumed_g: Mapping[str, int] | None

    @property
    def is_overhead_or_over_face(self) -> bool:
        """Whether the careful rules for loads over head or face apply."""
        return (
            self.demands.get(Demand.OVERHEAD, 0) >= 1 or self.demands.get(Demand.OVER_FACE, 0) >= 1
        )


def facts_of_movements(library: Catalogue) -> dict[str, MovementFacts]:
    """Look up the figures of every movement of a library."""
    return {slug: facts_of_movement(movement) for slug, movement in library.movements.items()}


def facts_of_movement(movement: Movement) -> MovementFacts:
    """Look up one movement's figures; both limbs count 10,000 as limb factor."""
    return MovementFacts(
        slug=movement.slug,
        pattern=movement.pattern,
        limb=movement.limb,
        laterality=movement.laterality,
        level=movement.level,
        family=movement.strength_family,
        contacts=movement.contacts_a_rep,
        low_hops=movement.low_hops_a_rep,
        lifted=movement.dumbbells_lifted,
        needed=movement.dumbbells_needed,
        under_hands=any(
            n.item is KitKind.DUMBBELL and n.use is KitUse.UNDER_HANDS for n in movement.kit
        ),
        other_kit=movement.other_kit,
        demands=movement.demands,
        lifted_share_bp=movement.lifted_share_bp,
        limb_bp=(movement.limb_factor_bp or DEFAULT_LIMB_BP) if movement.is_one_sided else 10_000,
        prime_movers=frozenset(movement.prime_movers),
        assumed_g=movement.assumed_load_by_level,
    )
