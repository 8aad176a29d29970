"""Where random draws come from: (seed, purpose, index), never global state."""

import hashlib

import numpy as np

DEFAULT_SEED = 1


def generator(seed: int, purpose: str, index: int = 0) -> np.random.Generator:
    """Give the generator that belongs to one purpose.

    Parameters
    ----------
    seed : int
        The caller's seed, 0 or larger.
    purpose : str
        A name for what is drawn, so that two uses never share a stream.
    index : int
        Which of several like draws this is.
    """
    word = hashlib.sha256(purpose.encode()).digest()[:8]
    return np.random.default_rng([seed, int.from_bytes(word, "big"), index])
