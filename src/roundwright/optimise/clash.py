"""Why there is no plan: a smallest set of kit, places and people that cannot all hold.

Found by deletion: whatever can be dropped while it stays impossible is dropped,
so dropping any one member of what is left makes it possible.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.burst_options import NO_BURST
from roundwright.optimise.choice_value import Groups, together
from roundwright.optimise.groupings import all_groupings
from roundwright.optimise.instance import Alternative, Instance, Rotating, Table
from roundwright.optimise.joint_model import JointModel
from roundwright.optimise.kit_choice import KitKey
from roundwright.optimise.loose_rotation import LooseModel
from roundwright.optimise.pairs import MOST_ENUMERATED
from roundwright.optimise.rotation import MOST_EXACT, arrangements
from roundwright.optimise.rotation_model import RotationModel
from roundwright.optimise.solver import Ended, Work
from roundwright.plan.eased_in import Dose
from roundwright.plan.outcome import Clash

_PLENTY = 10**6
_IDLE = Alternative(NO_BURST, 0, 0, frozenset(), 0, 0, 0, 0, (), ())
"""What asks for nothing."""


@dataclass(frozen=True, slots=True)
class _Members:
    """What is still held: people, places and kit by number, and the limits of each person."""

    people: tuple[int, ...]
    places: tuple[int, ...]
    kit: tuple[KitKey, ...]
    limits: tuple[str, ...]


def smallest_clash(
    instance: Instance, *, in_pairs: bool, work: Work, seed: int
) -> tuple[Clash, ...]:
    """Give the members of a smallest clash of an impossible class.

    Parameters
    ----------
    in_pairs : bool
        Whether the class is impossible in every way to pair people, or together.
    """
    kept = [
        Clash(kind="kept", positions=(place + 1,), persons=(instance.people[p],))
        for p, row in enumerate(instance.table)
        for place, options in enumerate(row)
        if not options
    ]
    if kept:
        return (kept[0],)

    def impossible(members: _Members) -> bool:
        part = _part(instance, members)
        everyone = tuple(range(len(part.people)))
        if not everyone:
            return False
        if not in_pairs:
            return _none(part, together(len(everyone)), work, seed)
        if _none(part, Groups((everyone,), in_pairs=True), work, seed, kit_factor=2):
            return True
        return len(everyone) <= MOST_ENUMERATED and all(
            _none(part, Groups(g, in_pairs=True), work, seed) for g in all_groupings(everyone)
        )

    members = _Members(
        people=tuple(range(len(instance.people))),
        places=tuple(range(instance.places)),
        kit=tuple(sorted(instance.counts)),
        limits=("contacts", "low_hops"),
    )
    members = _shrunk(members, impossible)

    def figures(key: KitKey) -> Mapping[str, int]:
        return _kit_figures(instance, members, key)

    return _told(instance.people, instance.positions, members, figures)


def rotating_clash(
    rotating: Rotating, form: ClassFormat, *, work: Work, seed: int
) -> tuple[Clash, ...]:
    """Give the members of a smallest clash of stations or staggered groups.

    Too few people or positions for any groups, or for so many, is a clash of its own (`groups`).
    """
    people, positions = len(rotating.people), rotating.positions
    wished = rotating.problem.spec.groups
    ways = arrangements(form, people, positions, wished)
    if not ways:
        return (groups_clash(people, positions, wished),)
    kept = [
        Clash(kind="kept", positions=(place + 1,), persons=(rotating.people[p],))
        for p in range(people)
        for place in range(positions)
        if all(not table[p][place] for table in rotating.by_role.values())
    ]
    if kept:
        return (kept[0],)

    def impossible(members: _Members) -> bool:
        part = _rotating_part(rotating, members)
        if LooseModel(part, positions).solve(work, seed).ended is Ended.INFEASIBLE:
            return True
        return people <= MOST_EXACT and all(
            RotationModel(part, way).any_choice(work, seed).ended is Ended.INFEASIBLE
            for way in ways
        )

    members = _Members(
        people=tuple(range(people)),
        places=tuple(range(positions + 1)),
        kit=tuple(sorted(rotating.counts)),
        limits=("contacts", "low_hops"),
    )
    members = _shrunk(members, impossible)

    def figures(key: KitKey) -> Mapping[str, int]:
        return _rotating_figures(rotating, members, key)

    return _told(rotating.people, positions, members, figures)


def groups_clash(people: int, positions: int, wished: int | None) -> Clash:
    """Say that groups cannot take turns with so many people and positions."""
    figures = {"people": people, "positions": positions}
    return Clash(kind="groups", figures=figures | ({"groups": wished} if wished else {}))


def _shrunk(members: _Members, impossible: Callable[[_Members], bool]) -> _Members:
    """Drop, one by one, whatever is not needed for the class to be impossible."""
    for name in ("places", "kit", "limits", "people"):
        for one in getattr(members, name):
            left = tuple(x for x in getattr(members, name) if x != one)
            smaller = replace(members, **{name: left})
            members = smaller if impossible(smaller) else members
    return members


def _none(instance: Instance, groups: Groups, work: Work, seed: int, kit_factor: int = 1) -> bool:
    answer = JointModel(instance, groups, kit_factor=kit_factor).any_choice(work, seed)
    return answer.ended is Ended.INFEASIBLE


def _part(instance: Instance, members: _Members) -> Instance:
    """Give the class of some people in which other places ask for nothing."""
    table: Table = tuple(
        tuple(
            options if place in members.places else (_IDLE,)
            for place, options in enumerate(instance.table[p])
        )
        for p in members.people
    )
    return Instance(
        problem=instance.problem,
        people=tuple(instance.people[p] for p in members.people),
        doses=tuple(_dose(instance.doses[p], members.limits) for p in members.people),
        table=table,
        counts={k: n if k in members.kit else _PLENTY for k, n in instance.counts.items()},
    )


def _rotating_part(rotating: Rotating, members: _Members) -> Rotating:
    """Give the class in which other people and places ask for nothing; groups stay as they are."""
    people = range(len(rotating.people))
    return replace(
        rotating,
        by_role={
            role: tuple(
                tuple(
                    options if p in members.people and place in members.places else (_IDLE,)
                    for place, options in enumerate(table[p])
                )
                for p in people
            )
            for role, table in rotating.by_role.items()
        },
        doses=tuple(_dose(dose, members.limits) for dose in rotating.doses),
        counts={k: n if k in members.kit else _PLENTY for k, n in rotating.counts.items()},
    )


def _dose(dose: Dose, limits: Sequence[str]) -> Dose:
    return replace(
        dose,
        contact_limit=dose.contact_limit if "contacts" in limits else _PLENTY,
        low_hop_limit=dose.low_hop_limit if "low_hops" in limits else _PLENTY,
    )


def _told(
    people: Sequence[str],
    positions: int,
    members: _Members,
    figures: Callable[[KitKey], Mapping[str, int]],
) -> tuple[Clash, ...]:
    told = [
        Clash(kind="kit", item=key[1] or "dumbbell", figures=figures(key)) for key in members.kit
    ]
    told += [Clash(kind=limit) for limit in members.limits]
    told += [
        Clash(kind="burst")
        if place == positions
        else Clash(kind="position", positions=(place + 1,))
        for place in members.places
    ]
    told.append(Clash(kind="persons", persons=tuple(people[p] for p in members.people)))
    return tuple(told)


def _rotating_figures(rotating: Rotating, members: _Members, key: KitKey) -> Mapping[str, int]:
    """Give how many there are, and where that is more, the most needed in some interval at least.

    What is needed over a whole round is needed in its intervals together.
    """
    over_round = sum(
        min(
            dict(a.main_kit).get(key, 0)
            for table in rotating.by_role.values()
            for a in table[p][place]
        )
        for place in members.places
        if place < rotating.positions
        for p in members.people
    )
    there = rotating.counts[key]
    needed = -(-over_round // rotating.positions)
    figures = {"there": there} | ({"needed": needed} if needed > there else {})
    return figures | ({"unit_mass_g": key[0]} if key[0] else {})


def _kit_figures(instance: Instance, members: _Members, key: KitKey) -> Mapping[str, int]:
    """Give how many there are, and the most that these people need at least in one place."""
    needed = max(
        sum(
            min(dict(a.main_kit).get(key, 0) for a in instance.table[p][place])
            for p in members.people
        )
        for place in members.places
    )
    figures = {"there": instance.counts[key], "needed": needed}
    return figures | ({"unit_mass_g": key[0]} if key[0] else {})
