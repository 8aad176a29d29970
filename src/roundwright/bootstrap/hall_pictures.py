"""Pictures for one hall: the shipped movements, and its own ones that have a posture."""

from collections.abc import Mapping, Sequence
from functools import cached_property

from roundwright.body.anatomy import Side
from roundwright.body.body_table import gate_faults
from roundwright.body.build import bodies_of
from roundwright.body.drawing.picture import chief_place, draw_key, strip
from roundwright.body.mirror import mirrored_solution
from roundwright.body.moving_sequence import MovingSequence, sequence_of
from roundwright.body.posture import Posture
from roundwright.body.solved import REFERENCE, SolvedPosture, solve_posture
from roundwright.bootstrap.shipped_bodies import shipped_bodies
from roundwright.bootstrap.shipped_pictures import ShippedPictures, seen_from_the_same_side
from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.hall.hall import Hall
from roundwright.library.own_postures import has_postures, read_own_postures


def check_hall_postures(hall: Hall) -> None:
    """Check the postures in a hall's own library files by the rules of the shipped ones.

    Raises
    ------
    BadInputError
        With every fault of words, names and agreement with their movements.
    """
    _, faults = _postures_of(hall)
    if faults:
        raise BadInputError(faults)


def _postures_of(hall: Hall) -> tuple[dict[str, Posture], tuple[Fault, ...]]:
    if not has_postures(hall.library_texts):
        return {}, ()
    return read_own_postures(
        hall.library_texts, hall.catalogue.movements, shipped_bodies().postures
    )


class HallPictures:
    """Draws a hall's movements; one without a posture, or whose posture no body can take, has none.

    A posture of one's own is solved when its picture is first asked for, and kept.
    """

    def __init__(self, hall: Hall, shipped: ShippedPictures) -> None:
        self._hall = hall
        self._shipped = shipped
        self._solved: dict[str, SolvedPosture | None] = {}

    @cached_property
    def _own(self) -> Mapping[str, Posture]:
        return _postures_of(self._hall)[0]

    def small(self, movement_id: str, side: Side = Side.LEFT) -> str | None:
        """Give the one picture that shows a movement best, as SVG text."""
        if movement_id not in self._own:
            return self._shipped.small(movement_id, side)
        solved = self._solution(movement_id)
        if solved is None:
            return None
        if side is Side.RIGHT:
            solved = mirrored_solution(solved)
        return draw_key(solved, chief_place(solved))

    def key_pictures(self, movement_id: str) -> tuple[str, ...]:
        """Give the pictures of all key positions in order, as SVG text; empty without posture."""
        if movement_id not in self._own:
            return self._shipped.key_pictures(movement_id)
        solved = self._solution(movement_id)
        return () if solved is None else tuple(strip(solved))

    def moving(self, steps: Sequence[tuple[str, Side]]) -> MovingSequence | None:
        """Give one rep of some movements as a moving figure; None where one has no posture."""
        if not any(movement_id in self._own for movement_id, _ in steps):
            return self._shipped.moving(steps)
        turned = []
        for movement_id, side in steps:
            solved = self._solution(movement_id)
            if solved is None:
                return None
            turned.append((movement_id, seen_from_the_same_side(solved, side)))
        return sequence_of(turned)

    def _solution(self, movement_id: str) -> SolvedPosture | None:
        if movement_id not in self._own:
            bodies = shipped_bodies()
            return bodies.solved(movement_id) if movement_id in bodies.postures else None
        if movement_id not in self._solved:
            posture = self._own[movement_id]
            solved = solve_posture(posture, bodies_of([REFERENCE]))
            fails = gate_faults(posture, solved, "library", words=True)
            self._solved[movement_id] = None if fails else solved
        return self._solved[movement_id]
