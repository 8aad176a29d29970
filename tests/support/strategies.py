"""Hypothesis strategies over drawn halls; a failing example is named by its seed."""

from hypothesis import strategies as st

from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.problem import Problem
from tests.support.random_halls import a_middling_hall, a_tiny_hall

SEEDS = st.integers(min_value=0, max_value=100_000)


class DrawnHall:
    """A problem that shows itself as its seed alone."""

    def __init__(self, seed: int, problem: Problem) -> None:
        self.seed = seed
        self.problem = problem

    def __repr__(self) -> str:
        return f"hall of seed {self.seed}"


def tiny_halls() -> st.SearchStrategy[DrawnHall]:
    """Draw problems of 2 to 4 people."""
    return SEEDS.map(lambda seed: DrawnHall(seed, a_tiny_hall(seed)))


def middling_halls(
    most_people: int = 20, form: ClassFormat | None = None
) -> st.SearchStrategy[DrawnHall]:
    """Draw problems of 5 to `most_people` people and 3 to 6 exercises."""
    return SEEDS.map(lambda seed: DrawnHall(seed, a_middling_hall(seed, most_people, form)))
