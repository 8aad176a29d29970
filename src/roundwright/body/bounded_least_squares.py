"""Least squares in which some unknowns may not be negative: an active-set search.

Exact up to rounding: it ends where no unknown at its bound would gain by leaving it.
"""

import numpy as np

from roundwright.body.build import Floats

MOST_ROUNDS = 200
TINY = 1e-10


def least_squares(a: Floats, b: Floats, bounded: np.ndarray) -> Floats:
    """Give x that makes |a x - b| least with ``x[bounded] >= 0``.

    Parameters
    ----------
    a : array
        Shape (rows, unknowns).
    b : array
        Shape (rows,).
    bounded : array of bool
        Shape (unknowns,).
    """
    count = a.shape[1]
    at_zero = bounded.copy()
    x = np.zeros(count)
    x[~at_zero] = _solved(a, b, ~at_zero)
    for _ in range(MOST_ROUNDS):
        slope = a.T @ (b - a @ x)
        scale = TINY * float(np.abs(a).max()) * max(1.0, float(np.abs(b).max()))
        leaving = np.where(at_zero, slope, -np.inf)
        best = int(np.argmax(leaving))
        if not at_zero.any() or leaving[best] <= scale:
            return x
        at_zero[best] = False
        x = _step_down(a, b, x, at_zero, bounded, best)
    return x


def _step_down(
    a: Floats, b: Floats, x: Floats, at_zero: np.ndarray, bounded: np.ndarray, entered: int
) -> Floats:
    """Move to the best point of the free unknowns, stopping at every bound on the way."""
    while True:
        wanted = np.zeros_like(x)
        wanted[~at_zero] = _solved(a, b, ~at_zero)
        bad = bounded & ~at_zero & (wanted <= 0)
        if not bad.any():
            return wanted
        if bad[entered] and x[entered] == 0:
            at_zero[entered] = True
            return x
        steps = np.where(bad, x / np.maximum(x - wanted, 1e-300), np.inf)
        share = float(steps.min())
        x = x + share * (wanted - x)
        hit = bad & (x <= TINY)
        hit[int(np.argmin(steps))] = True
        x[hit] = 0.0
        at_zero |= hit


def _solved(a: Floats, b: Floats, free: np.ndarray) -> Floats:
    return np.array(np.linalg.lstsq(a[:, free], b, rcond=1e-13)[0], dtype=np.float64)
