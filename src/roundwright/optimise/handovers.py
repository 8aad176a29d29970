"""Which kit goes from whom to whom in each change within a round.

Kit that lies free on the rack is taken first; takers and givers come in the
order of people. In pairs a group hands over as one, by its first member who
uses the kit. Where groups stand at different positions, the giver's position
before the change and the taker's after it are named.
"""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from roundwright.optimise.choice_value import Choice, Groups, chosen, halves_of
from roundwright.optimise.instance import Instance
from roundwright.optimise.kit_choice import KitKey, Rack
from roundwright.optimise.options import Doing, Option
from roundwright.plan.core import Handover

_Use = Mapping[KitKey, tuple[int, int]]
"""By kit: the units a group uses, and the person who stands for it."""


def handovers_of(instance: Instance, choice: Choice, groups: Groups) -> tuple[Handover, ...]:
    """Give the handovers of a choice, in order of the timeline."""
    problem = instance.problem
    counts = Rack(problem.kit, problem.spec.room_id, problem.rules).counts
    windows = sorted(halves_of(instance, choice, groups))
    made: list[Handover] = []
    alike: dict[tuple[object, ...], list[Handover]] = {}
    for (round_a, before), (round_b, after) in pairwise(windows):
        if round_a != round_b:
            continue
        inside = tuple(instance.is_in(p, round_a) for p in range(len(instance.people)))
        key = (inside, before, after, instance.is_last(after - 1, round_a))
        if key not in alike:
            alike[key] = _change(instance, choice, groups, counts, (round_a, before, after))
        made += [h.model_copy(update={"round": round_a}) for h in alike[key]]
    return tuple(made)


def doing_of(
    instance: Instance, choice: Choice, person: int, round_number: int, interval: int
) -> Doing | None:
    """Give what a person does in an interval (from 1) of a round, None for nothing."""
    if not instance.is_in(person, round_number):
        return None
    what = chosen(instance, choice, person, instance.place_in(person, interval - 1)).what
    if not isinstance(what, Option):
        return None
    return what.last if instance.is_last(interval - 1, round_number) else what.main


def _change(
    instance: Instance,
    choice: Choice,
    groups: Groups,
    counts: Mapping[KitKey, int],
    change: tuple[int, int, int],
) -> list[Handover]:
    round_number, before, after = change
    parts = groups.halves() if groups.in_pairs else _one_each(groups)
    old = [_use(instance, choice, halves, round_number, before) for halves in parts]
    new = [_use(instance, choice, halves, round_number, after) for halves in parts]
    made: list[Handover] = []
    for key in sorted({key for use in new for key in use}):
        free = counts[key] - sum(use.get(key, (0, 0))[0] for use in old)
        givers = [
            [use[key][0] - later.get(key, (0, 0))[0], use[key][1]]
            for use, later in zip(old, new, strict=True)
            if key in use
        ]
        for use, earlier in zip(new, old, strict=True):
            if key not in use:
                continue
            wanted = use[key][0] - earlier.get(key, (0, 0))[0]
            from_rack = min(max(0, free), max(0, wanted))
            free, wanted = free - from_rack, wanted - from_rack
            for giver in givers:
                units = min(max(0, giver[0]), wanted)
                if units <= 0:
                    continue
                giver[0] -= units
                wanted -= units
                made.append(
                    Handover(
                        round=round_number,
                        from_position=instance.place_in(giver[1], before - 1) + 1,
                        to_position=instance.place_in(use[key][1], after - 1) + 1,
                        unit_mass_g=key[0],
                        item_id=key[1] or None,
                        units=units,
                        from_person=instance.people[giver[1]],
                        to_person=instance.people[use[key][1]],
                    )
                )
    return made


def _one_each(groups: Groups) -> tuple[tuple[tuple[int, ...], ...], ...]:
    return tuple(((p,),) for group in groups.members for p in group)


def _use(
    instance: Instance,
    choice: Choice,
    halves: Sequence[Sequence[int]],
    round_number: int,
    interval: int,
) -> _Use:
    most: dict[KitKey, tuple[int, int]] = {}
    for half in halves:
        mine: dict[KitKey, tuple[int, int]] = {}
        for p in half:
            doing = doing_of(instance, choice, p, round_number, interval)
            for key, units in () if doing is None else doing.kit:
                mine[key] = (mine.get(key, (0, p))[0] + units, mine.get(key, (0, p))[1])
        for key, (units, person) in mine.items():
            if key not in most or units > most[key][0]:
                most[key] = (units, person)
    return most
