"""Asks whether the left and the right side do the same.

Why a coach cares: a side that does more, class after class, is how aches begin.
"""

from collections import Counter
from collections.abc import Iterator

from roundwright.body.anatomy import Side
from roundwright.plan.gate.found import of_person
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

UNEQUAL = "side.unequal"
GRADES = {UNEQUAL: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give each person whose one-sided reps of a movement differ by side over the class."""
    reps: Counter[tuple[str, str, Side]] = Counter()
    for work in reading.works:
        for step, movement in zip(work.listing.steps, work.listing.movements, strict=True):
            if movement.is_one_sided or step.side is not Side.BOTH:
                done = work.passes * step.times * len(work.rounds)
                reps[work.person_id, movement.slug, step.side] += done
    for person_id, slug in sorted({(p, m) for p, m, _ in reps}):
        left, right = (reps[person_id, slug, side] for side in (Side.LEFT, Side.RIGHT))
        if left != right or reps[person_id, slug, Side.BOTH]:
            yield of_person(UNEQUAL, Grade.NEVER, person_id, left=left, right=right, movement=slug)
