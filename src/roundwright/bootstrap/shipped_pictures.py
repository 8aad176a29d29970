"""Pictures of the shipped movements, drawn from their kept positions when they are asked for."""

from collections.abc import Sequence
from functools import cache

from roundwright.body.anatomy import Side
from roundwright.body.drawing.picture import chief_place, draw_key, strip
from roundwright.body.mirror import mirrored_solution
from roundwright.body.moving_sequence import MovingSequence, sequence_of
from roundwright.body.solved import SolvedPosture
from roundwright.bootstrap.shipped_bodies import shipped_bodies


class ShippedPictures:
    """Draws the movements of the shipped library; a hall's own ones: see `hall_pictures`."""

    def small(self, movement_id: str, side: Side = Side.LEFT) -> str | None:
        """Give the one picture that shows a movement best, as SVG text."""
        return _small(movement_id, side) if _has(movement_id) else None

    def key_pictures(self, movement_id: str) -> tuple[str, ...]:
        """Give the pictures of all key positions in order, as SVG text."""
        return _strip(movement_id) if _has(movement_id) else ()

    def moving(self, steps: Sequence[tuple[str, Side]]) -> MovingSequence | None:
        """Give one rep of some movements as a moving figure; None where one has no posture."""
        if not steps or not all(_has(movement_id) for movement_id, _ in steps):
            return None
        return _moving(tuple(steps))


def _has(movement_id: str) -> bool:
    return movement_id in shipped_bodies().postures


@cache
def _small(movement_id: str, side: Side) -> str:
    solved = shipped_bodies().solved(movement_id)
    if side is Side.RIGHT:
        solved = mirrored_solution(solved)
    return draw_key(solved, chief_place(solved))


@cache
def _strip(movement_id: str) -> tuple[str, ...]:
    return tuple(strip(shipped_bodies().solved(movement_id)))


@cache
def _moving(steps: tuple[tuple[str, Side], ...]) -> MovingSequence:
    bodies = shipped_bodies()
    return sequence_of(
        [(slug, seen_from_the_same_side(bodies.solved(slug), side)) for slug, side in steps]
    )


def seen_from_the_same_side(solved: SolvedPosture, side: Side) -> SolvedPosture:
    """Give a movement for one side, seen from where the left one is seen: the camera stays."""
    if side is not Side.RIGHT:
        return solved
    other = mirrored_solution(solved)
    posture = other.posture.model_copy(update={"view": solved.posture.view})
    return SolvedPosture(posture, other.bodies, other.keys)
