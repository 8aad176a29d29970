"""How a rule about one movement says what it found."""

from collections.abc import Iterator

from roundwright.library.contradiction import Contradiction
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand

Found = Iterator[Contradiction]


def says(
    movement: Movement, path: tuple[str | int, ...], value: object, expected: str, **rest: str
) -> Contradiction:
    """Make a contradiction of one movement; `rest` may name another code and a remedy."""
    code = rest.pop("code", "library.consistency")
    return Contradiction(code, "movement", movement.slug, path, str(value), expected, **rest)


def lacks(movement: Movement, demand: Demand, because: str) -> Found:
    """Yield that a demand is 0, where a reason says that it cannot be."""
    if movement.demand(demand) == 0:
        expected = f"{demand.value} 1 or more, because {because}"
        yield says(movement, ("demands", demand.value), 0, expected)


def without_reason(movement: Movement, demand: Demand, expected: str) -> Contradiction:
    """Make the contradiction of a demand that nothing else in the entry explains."""
    remedy = "Add what asks for it, or take the demand out."
    path = ("demands", demand.value)
    return says(movement, path, movement.demand(demand), expected, remedy=remedy)
