"""Options turned into ways: first with names for kit and versions, then with numbers."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from roundwright.optimise.kit_choice import KitKey
from roundwright.optimise.options import Option, in_class
from roundwright.optimise.planning.set_table import Way, Ways

Signature = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NamedWay:
    """A way whose kit and versions still have their names."""

    way: Way
    kit: frozenset[tuple[KitKey, int]]
    signatures: frozenset[Signature]


def named(option: Option, rounds: int) -> NamedWay:
    """Turn an option of someone who does so many rounds into a way."""
    if option.main is None or option.last is None:
        return NamedWay(Way(price=option.price, versions=()), frozenset(), frozenset())
    contacts, low_hops = in_class(option.main, option.tail, rounds)
    # With a tail the last round's kit differs: only the main part's is held against it.
    way = Way(
        price=option.price,
        mass_g=option.mass_g,
        contacts=contacts,
        low_hops=low_hops,
        versions=(),
        seconds=option.main.seconds,
        last_seconds=option.last.seconds,
    )
    return NamedWay(way, frozenset(option.main.kit), option.signatures)


def needed(ways: Iterable[NamedWay]) -> list[NamedWay]:
    """Leave out ways for which another is at least as good in everything."""
    kept: list[NamedWay] = []
    for one in sorted(ways, key=lambda n: n.way.price):
        if not any(_serves(other, one) for other in kept):
            kept.append(one)
    return kept


def _serves(better: NamedWay, other: NamedWay) -> bool:
    b, o = better.way, other.way
    if b.mass_g not in (0, o.mass_g) or not better.signatures <= other.signatures:
        return False
    if b.contacts > o.contacts or b.low_hops > o.low_hops:
        return False
    if b.seconds > o.seconds or b.last_seconds > o.last_seconds:
        return False
    if better.kit <= other.kit:
        return True
    there = dict(other.kit)
    return all(units <= there.get(key, 0) for key, units in better.kit)


def joined(
    tables: Sequence[Sequence[Sequence[list[NamedWay]]]],
) -> tuple[tuple[list[NamedWay], ...], ...]:
    """Put the ways of several kinds of place together: someone may meet any of them."""
    first = tables[0]
    return tuple(
        tuple(needed(way for table in tables for way in table[e][p]) for p in range(len(first[e])))
        for e in range(len(first))
    )


def numbered(
    table: Sequence[Sequence[list[NamedWay]]],
    numbers: Mapping[KitKey, int],
    counts: Sequence[int],
) -> tuple[tuple[Ways, ...], ...]:
    """Give kit and versions numbers; kit that cannot run short at an exercise is left out."""
    made = []
    for row in table:
        seen: dict[Signature, int] = {}
        for ways in row:
            for one in ways:
                for signature in sorted(one.signatures):
                    seen.setdefault(signature, len(seen))
        scarce = _scarce(row, numbers, counts)
        made.append(
            tuple(
                tuple(
                    replace(
                        one.way,
                        kit=tuple(
                            sorted((numbers[k], n) for k, n in one.kit if numbers[k] in scarce)
                        ),
                        versions=tuple(sorted(seen[s] for s in one.signatures)),
                    )
                    for one in ways
                )
                for ways in row
            )
        )
    return tuple(made)


def _scarce(
    row: Sequence[list[NamedWay]], numbers: Mapping[KitKey, int], counts: Sequence[int]
) -> frozenset[int]:
    most: dict[int, int] = {}
    for ways in row:
        mine: dict[int, int] = {}
        for one in ways:
            for key, units in one.kit:
                mine[numbers[key]] = max(mine.get(numbers[key], 0), units)
        for number, units in mine.items():
            most[number] = most.get(number, 0) + units
    return frozenset(number for number, units in most.items() if units > counts[number])
