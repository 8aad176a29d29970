"""Which alternatives can be left out without ever losing the best plan.

One alternative of the same person and place makes another needless when it asks
for no more of anything shared and stays cheaper even if it were to bring a new
version into the room and a new mass to the person. The relation is transitive,
so leaving out is safe in any order; equals are settled by their order.
"""

from collections.abc import Mapping, Sequence
from typing import Protocol, TypeVar

from roundwright.optimise.kit_choice import KitKey


class _Asks(Protocol):
    """What is compared of an alternative."""

    @property
    def price(self) -> int: ...
    @property
    def mass_g(self) -> int: ...
    @property
    def signatures(self) -> frozenset[tuple[str, ...]]: ...
    @property
    def contacts(self) -> int: ...
    @property
    def low_hops(self) -> int: ...
    @property
    def seconds(self) -> int: ...
    @property
    def last_seconds(self) -> int: ...
    @property
    def main_kit(self) -> tuple[tuple[KitKey, int], ...]: ...
    @property
    def last_kit(self) -> tuple[tuple[KitKey, int], ...]: ...
    @property
    def works(self) -> bool: ...


A = TypeVar("A", bound=_Asks)


def undominated(alternatives: Sequence[A], *, new_signature: int, new_mass: int) -> tuple[A, ...]:
    """Give the alternatives that are worth keeping, in their order.

    Parameters
    ----------
    new_signature, new_mass : int
        The most that one more version in the room, and one more mass for the
        person, can cost.
    """
    order = sorted(range(len(alternatives)), key=lambda k: (alternatives[k].price, k))
    kept: list[int] = []
    for k in order:
        candidate = alternatives[k]
        if not any(
            _makes_needless(alternatives[j], candidate, new_signature, new_mass) for j in kept
        ):
            kept.append(k)
    return tuple(alternatives[k] for k in sorted(kept))


def _makes_needless(better: _Asks, other: _Asks, new_signature: int, new_mass: int) -> bool:
    extra = new_signature * len(better.signatures - other.signatures)
    if better.mass_g not in (0, other.mass_g):
        extra += new_mass
    return (
        better.price + extra <= other.price
        and better.contacts <= other.contacts
        and better.low_hops <= other.low_hops
        and better.seconds <= other.seconds
        and better.last_seconds <= other.last_seconds
        and better.works == other.works
        and _within(better.main_kit, other.main_kit)
        and _within(better.last_kit, other.last_kit)
    )


def _within(better: Sequence[tuple[KitKey, int]], other: Sequence[tuple[KitKey, int]]) -> bool:
    if not better:
        return True
    there: Mapping[KitKey, int] = dict(other)
    return all(units <= there.get(key, 0) for key, units in better)
