"""The bounded least squares of the supports against a general solver."""

import numpy as np
import pytest
from scipy.optimize import lsq_linear

from roundwright.body.bounded_least_squares import least_squares


@pytest.mark.parametrize("seed", range(40))
def test_it_finds_what_a_general_solver_finds(seed):
    rng = np.random.default_rng(seed)
    unknowns = int(rng.integers(2, 12))
    a = rng.normal(size=(unknowns + 6, unknowns))
    a[0] *= 300
    b = rng.normal(size=unknowns + 6)
    bounded = rng.random(unknowns) < 0.6
    ours = least_squares(a, b, bounded)
    low = np.where(bounded, 0.0, -np.inf)
    other = lsq_linear(a, b, bounds=(low, np.inf), tol=1e-12, method="bvls")
    assert (ours[bounded] >= 0).all()
    assert np.linalg.norm(a @ ours - b) == pytest.approx(np.linalg.norm(a @ other.x - b), rel=1e-7)
