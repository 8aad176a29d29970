"""Asks whether the left and the right side do the same, and whether each is there.

Why a coach cares: a side that does more, class after class, is how aches begin; and
nobody is told to lift with an arm they do not have.
"""

from collections import Counter
from collections.abc import Iterator

from roundwright.body.anatomy import MIRRORED, Side
from roundwright.library.movement import Movement
from roundwright.plan.gate.found import at_work, of_person
from roundwright.plan.gate.people_limits import lacks_sides
from roundwright.plan.gate.reading import Reading, Work
from roundwright.plan.verdict import Finding, Grade

UNEQUAL, UNUSED = "side.unequal", "side.unused"
GRADES = {UNEQUAL: Grade.NEVER, UNUSED: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give each person whose sides differ over the class, and each step on an unused side."""
    reps: Counter[tuple[str, str, Side]] = Counter()
    for work in reading.works:
        for step, movement in zip(work.listing.steps, work.listing.movements, strict=True):
            if movement.is_one_sided or step.side is not Side.BOTH:
                done = work.passes * step.times * len(work.rounds)
                reps[work.person_id, movement.slug, step.side] += done
        for slug in dict.fromkeys(_on_an_unused_side(work)):
            yield at_work(UNUSED, Grade.NEVER, work, movement=slug)
    for person_id, slug in sorted({(p, m) for p, m, _ in reps}):
        left, right = (reps[person_id, slug, side] for side in (Side.LEFT, Side.RIGHT))
        only = _only_side(reading, person_id, reading.library.movements[slug])
        if only is not None and not reps[person_id, slug, MIRRORED[only]]:
            continue
        if left != right or reps[person_id, slug, Side.BOTH]:
            yield of_person(UNEQUAL, Grade.NEVER, person_id, left=left, right=right, movement=slug)


def _only_side(reading: Reading, person_id: str, movement: Movement) -> Side | None:
    unused = reading.problem.people[person_id].unused_side_of(movement.limb)
    return None if unused in (None, Side.BOTH) else MIRRORED[unused]


def _on_an_unused_side(work: Work) -> Iterator[str]:
    """Give one-sided movements that are done where a side of their limb is not used."""
    for step, movement in zip(work.listing.steps, work.listing.movements, strict=True):
        unused = work.person.unused_side_of(movement.limb)
        if unused is None or not movement.is_one_sided:
            continue
        in_a_combination = work.listing.combination is not None
        if in_a_combination or lacks_sides(work.person, movement) or step.side is unused:
            yield movement.slug
