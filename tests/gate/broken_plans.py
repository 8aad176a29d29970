"""The register of broken plans: for each rule a plan that is right, and one thing changed."""

from collections.abc import Callable
from dataclasses import dataclass

from tests.gate.small_class import Made


@dataclass(frozen=True)
class Case:
    """A plan on which a rule is silent, and the same with one thing changed so that it speaks."""

    rule: str
    name: str
    right: Made
    broken: Made


CASES: list[Callable[[], Case]] = []


def breaks(rule: str) -> Callable[[Callable[[], tuple[Made, Made]]], Callable[[], Case]]:
    """Register a function that gives a right and a broken plan for a rule."""

    def register(make: Callable[[], tuple[Made, Made]]) -> Callable[[], Case]:
        def build() -> Case:
            right, broken = make()
            return Case(rule, make.__name__, right, broken)

        build.__name__ = f"{rule}:{make.__name__}"
        CASES.append(build)
        return build

    return register
