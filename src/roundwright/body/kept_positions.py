"""A solved posture out of the table's kept positions: pictures need no search."""

import numpy as np

from roundwright.body.body_table import POSITION_UNIT, PostureRow
from roundwright.body.build import bodies_of
from roundwright.body.pose_merge import full_pose
from roundwright.body.posture import Posture
from roundwright.body.solved import (
    REFERENCE,
    SolvedKey,
    SolvedPosture,
    solving_order,
    what_is_asked,
)


def solved_as_kept(posture: Posture, row: PostureRow) -> SolvedPosture:
    """Give the reference body's solved posture as it was solved for the table.

    Parameters
    ----------
    posture : Posture
        The posture that the row was made from; see `BodyTable.stale`.
    row : PostureRow
        Its row of the table.

    Raises
    ------
    ValueError
        When the row belongs to another posture.
    """
    if row.posture != posture.digest or len(row.positions) != len(posture.key):
        raise ValueError(f"the row of {posture.slug} belongs to another posture")
    bodies = bodies_of([REFERENCE])
    keys: dict[int, SolvedKey] = {}
    for place, before in solving_order(posture):
        pose = full_pose(posture, posture.key[place])
        goals, asked = what_is_asked(posture, bodies, pose, keys.get(before))
        q = np.array([row.positions[place]]) * POSITION_UNIT
        keys[place] = SolvedKey(pose, goals, asked, q, asked.skeleton.place(q), np.zeros(1))
    return SolvedPosture(posture, bodies, tuple(keys[i] for i in range(len(posture.key))))
