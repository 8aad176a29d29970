"""How often the interpreter looks for garbage in cycles: seldom, and never in what was loaded."""

import gc

EVERY_ALLOCATED = 50_000
"""Objects made and not yet let go before the youngest are looked through; our choice."""
YOUNGER_FOR_EACH_OLDER = (20, 20)
"""How many looks through the younger come before one through the older; our choice."""


def collect_seldom() -> None:
    """Leave what is there now out of every collection, and collect the rest seldom.

    A library, a hall and the modules live as long as their process: looking through them again
    at each full collection took a quarter of a second in the middle of a press. What is no
    part of a cycle is let go at once as before. May be called again when more was loaded.
    """
    gc.freeze()
    gc.set_threshold(EVERY_ALLOCATED, *YOUNGER_FOR_EACH_OLDER)
