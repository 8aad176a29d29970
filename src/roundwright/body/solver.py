"""Finds the freedoms that meet the goals best: damped least squares, all bodies at once."""

from dataclasses import dataclass

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.joints import COUNT, MIRROR_INDEX, MIRROR_SIGN
from roundwright.body.residuals import Asked

ROUNDS = ((8.0, 25), (1.0, 45))
"""Slack on points, and most steps: first roughly, then closely."""
LONGEST_TURN_RAD = 0.6
SMALL_GAIN = 1e-5


@dataclass(frozen=True)
class Found:
    """Where the solver ended: freedoms (n, freedoms), cost (n,) and steps taken."""

    q: Floats
    cost: Floats
    steps: int


def symmetric_map() -> Floats:
    """Give the map from free numbers to freedoms of positions whose sides are alike."""
    mirror = np.zeros((COUNT, COUNT))
    for i, (j, sign) in enumerate(zip(MIRROR_INDEX, MIRROR_SIGN, strict=True)):
        mirror[i, j] = sign
    both = (np.eye(COUNT) + mirror) / 2
    kept = [i for i in range(COUNT) if both[i, i] > 0 and MIRROR_INDEX[i] >= i]
    columns = both[:, kept]
    tied: Floats = columns / np.abs(columns).max(axis=0)
    return tied


_TIED = symmetric_map()


def search(asked: Asked, start: Floats, is_symmetric: bool, is_near: bool = False) -> Found:
    """Search from a start by damped steps; each body keeps its own damping.

    From a start that is near (the same position of another body) all goals count fully at once.
    """
    tied = _TIED if is_symmetric else np.eye(COUNT)
    q = start.copy()
    if is_symmetric:
        mirrored = q[:, list(MIRROR_INDEX)] * np.array(MIRROR_SIGN)
        q = (q + mirrored) / 2
    steps = 0
    cost = np.zeros(len(q))
    for slack, most in ROUNDS[1:] if is_near else ROUNDS:
        q, cost, used = _descend(asked, q, tied, slack, most)
        steps += used
    return Found(q, cost, steps)


def _descend(
    asked: Asked, q: Floats, tied: Floats, slack: float, most: int
) -> tuple[Floats, Floats, int]:
    damping = np.full(len(q), 1e-3)
    misses, slopes = asked.rows(q, slack, True)
    cost = (misses**2).sum(axis=1)
    quiet = 0
    used = 0
    while used < most:
        used += 1
        assert slopes is not None
        j = slopes @ tied
        square = np.swapaxes(j, 1, 2) @ j
        pull = np.einsum("nrf,nr->nf", j, misses)
        scale = np.einsum("nff->nf", square)
        damped = square.copy()
        np.einsum("nff->nf", damped)[...] += damping[:, None] * (scale + 1e-3)
        move = -np.linalg.solve(damped, pull[..., None])[..., 0] @ tied.T
        longest = np.abs(move[:, 3:]).max(axis=1)
        move *= np.minimum(1.0, LONGEST_TURN_RAD / np.maximum(longest, 1e-12))[:, None]
        tried = q + move
        new_misses, new_slopes = asked.rows(tried, slack, True)
        new_cost = (new_misses**2).sum(axis=1)
        better = new_cost < cost
        gain = np.where(better, (cost - new_cost) / np.maximum(cost, 1e-12), 0.0)
        damping = np.where(better, np.maximum(damping / 4, 1e-8), np.minimum(damping * 6, 1e6))
        if better.any():
            q = np.where(better[:, None], tried, q)
            cost = np.where(better, new_cost, cost)
            if better.all():
                misses, slopes = new_misses, new_slopes
            else:
                misses, slopes = asked.rows(q, slack, True)
        quiet = quiet + 1 if (gain < SMALL_GAIN).all() else 0
        if quiet >= 3 or (damping > 1e5).all():
            break
    return q, cost, used
