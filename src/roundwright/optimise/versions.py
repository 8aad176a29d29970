"""Which versions of an exercise a person may do, easy to hard (section 2, last paragraph)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from roundwright.body.anatomy import Side
from roundwright.foundation.quantities import BP
from roundwright.goals.class_wish import Count
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination, Part
from roundwright.library.version import Step
from roundwright.library.vocabulary import Laterality
from roundwright.optimise.movement_facts import MovementFacts
from roundwright.optimise.person_limits import PersonLimits, facts_of_steps
from roundwright.plan.counts_of_version import (
    contacts_of,
    converted,
    low_hops_of,
    passes_of,
    seconds_of,
    steps_of_movement,
    steps_of_parts,
    within_landings,
)
from roundwright.plan.problem import ClassSpec

LEVELS = range(1, 6)


@dataclass(frozen=True, slots=True)
class Version:
    """One version for one person at one place: what a pass holds, how much, how long.

    Contacts, hops and seconds are of one round. `cut_short`: landings a set leave less of the
    person's own count than is worth doing.
    """

    exercise_id: str
    steps: tuple[Step, ...]
    movements: tuple[MovementFacts, ...]
    count: Count
    passes: int
    seconds: int
    contacts: int
    low_hops: int
    cut_short: bool = False

    @property
    def signature(self) -> tuple[str, ...]:
        """The version as the room sees it: its movements in order."""
        return tuple(step.movement_id for step in self.steps)

    @property
    def dumbbells(self) -> int:
        """How many dumbbells of one mass are held: 0, 1 or 2."""
        return max(m.needed for m in self.movements)

    @property
    def lifts(self) -> bool:
        """Whether any step lifts a dumbbell."""
        return any(m.lifted for m in self.movements)

    @property
    def under_hands(self) -> bool:
        """Whether a step puts dumbbells under the hands."""
        return any(m.under_hands for m in self.movements)


def versions_of(
    exercise_id: str,
    wish: Count,
    limits: PersonLimits,
    library: Catalogue,
    facts: Mapping[str, MovementFacts],
    spec: ClassSpec,
) -> tuple[Version, ...]:
    """Give the versions of an exercise that rules 1 to 6 allow to a person, easy to hard.

    Parameters
    ----------
    wish : Count
        The person's own count at this place.
    """
    if exercise_id in limits.banned:
        return ()
    if exercise_id in library.combinations:
        combination = library.combinations[exercise_id]
        listings = _listings(combination, wish, limits, library, facts)
        counts = [wish] * len(listings)
    else:
        combination = None
        line = library.lines[exercise_id]
        allowed = [
            library.movements[slug]
            for slug in line.versions
            if limits.may_do(facts[slug], exercise_id, line.min_classes_for(slug))
        ]
        unused = [limits.person.unused_side_of(m.limb) for m in allowed]
        listings = [
            steps_of_movement(m, limits.person.first_side, side)
            for m, side in zip(allowed, unused, strict=True)
        ]
        counts = [
            converted(wish, m.laterality, one_side=side is not None)
            for m, side in zip(allowed, unused, strict=True)
        ]
    made = []
    for steps, whole in zip(listings, counts, strict=True):
        count = within_landings(whole, steps, library.movements, limits.most_landings)
        passes = passes_of(count, steps, library.movements, combination)
        contacts = contacts_of(steps, passes, library.movements)
        if count.is_timed and contacts > limits.most_landings:
            continue
        made.append(
            Version(
                exercise_id=exercise_id,
                steps=steps,
                movements=facts_of_steps(steps, facts),
                count=count,
                passes=passes,
                seconds=seconds_of(
                    count,
                    steps,
                    library.movements,
                    combination,
                    pace_bp=limits.dose.pace_bp,
                    side_change_s=spec.side_change_s,
                ),
                contacts=contacts,
                low_hops=low_hops_of(steps, passes, library.movements),
                cut_short=count.value * BP < whole.value * limits.least_cut_share_bp,
            )
        )
    return tuple(made)


def _listings(
    combination: Combination,
    wish: Count,
    limits: PersonLimits,
    library: Catalogue,
    facts: Mapping[str, MovementFacts],
) -> list[tuple[Step, ...]]:
    """Give the different listings of a combination by rising level."""
    allowed = [_of_part(part, combination, limits, library, facts) for part in combination.parts]
    listings: list[tuple[Step, ...]] = []
    for level in LEVELS:
        hardest = [[m for m in versions if m.level <= level] for versions in allowed]
        if not all(hardest):
            continue
        chosen = [library.movements[versions[-1].slug] for versions in hardest]
        steps = steps_of_parts(combination, chosen, wish, limits.person.first_side)
        if steps not in listings:
            listings.append(steps)
    return listings


def _of_part(
    part: Part,
    combination: Combination,
    limits: PersonLimits,
    library: Catalogue,
    facts: Mapping[str, MovementFacts],
) -> Sequence[MovementFacts]:
    line = library.lines[part.line]
    return [
        facts[slug]
        for slug in line.versions
        if limits.may_do(facts[slug], part.line, line.min_classes_for(slug))
        and (part.side is not Side.BOTH or facts[slug].laterality is Laterality.BILATERAL)
        and (combination.load == "held" or facts[slug].lifted == 0)
        and not _lacks_a_side(facts[slug], limits)
    ]


def _lacks_a_side(movement: MovementFacts, limits: PersonLimits) -> bool:
    """Say whether a one-sided part would ask for a side that is not used."""
    one_sided = movement.laterality is not Laterality.BILATERAL
    return one_sided and limits.person.unused_side_of(movement.limb) is not None
