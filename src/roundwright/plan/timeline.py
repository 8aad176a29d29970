"""When what happens: the one place where a class becomes a list of windows.

Read by rehearsal, live class and documents; the gate recomputes it on its own.
"""

from collections.abc import Mapping, Sequence

from roundwright.goals.class_wish import AfterLastRound, ClassFormat
from roundwright.plan.core import Window, WindowKind
from roundwright.plan.problem import ClassSpec

Halves = Mapping[tuple[int, int], tuple[int, ...]]


def make_timeline(
    spec: ClassSpec,
    class_format: ClassFormat,
    rounds: int,
    halves: Halves,
    groups: int = 1,
    offsets: Sequence[int] = (),
) -> tuple[Window, ...]:
    """Make the timeline of a class: one work window for each interval of a round.

    Together and in pairs all groups work the same position in an interval; in
    stations and staggered groups each group stands `offsets` further on.

    Parameters
    ----------
    spec : ClassSpec
        Warm-up, change, burst, rest and so on, s.
    class_format : ClassFormat
        `pairs` adds the partner swap to each work window.
    rounds : int
        How many rounds the class has.
    halves : mapping of (round, interval) to tuple of int
        Seconds of work: two halves in pairs, else one part. What is not
        there, or all 0, has no window and no change.
    groups : int
        How many groups there are; each work window lists a position for each.
    offsets : sequence of int, optional
        How many positions each group is ahead; none: all work the same position.

    Returns
    -------
    tuple of Window
        In order; windows of length 0 are left out.
    """
    made: list[Window] = []
    ahead = tuple(offsets) or (0,) * groups
    at_s = 0

    def add(
        kind: WindowKind,
        length_s: int,
        round_number: int = 0,
        interval: int | None = None,
        parts: tuple[int, ...] = (),
    ) -> None:
        nonlocal at_s
        if length_s <= 0:
            return
        made.append(
            Window(
                at_s=at_s,
                length_s=length_s,
                kind=kind,
                round=round_number,
                positions=()
                if interval is None
                else tuple(position_in(interval, o, spec.positions) for o in ahead),
                halves_s=parts,
            )
        )
        at_s += length_s

    in_pairs = class_format is ClassFormat.PAIRS
    add(WindowKind.WARM_UP, spec.warm_up_s)
    add(WindowKind.DEMONSTRATION, spec.demonstration_s)
    for round_number in range(1, rounds + 1):
        for interval in range(1, spec.positions + 1):
            work = halves.get((round_number, interval), ())
            if not any(work):
                continue
            swap_s = spec.partner_swap_s if in_pairs else 0
            parts = tuple(work) if in_pairs else ()
            add(WindowKind.WORK, sum(work) + swap_s, round_number, interval, parts)
            add(WindowKind.CHANGE, spec.change_s, round_number)
        is_last = round_number == rounds
        if spec.burst is not None and has_burst_after(spec, round_number, rounds):
            add(WindowKind.BURST, spec.burst.length_s, round_number)
        if not is_last or spec.after_last_round is AfterLastRound.BURST_AND_REST:
            add(WindowKind.REST, spec.rest_s, round_number)
    add(WindowKind.COOL_DOWN, spec.cool_down_s)
    return tuple(made)


def position_in(interval: int, offset: int, positions: int) -> int:
    """Give where a group stands in an interval of a round, both counted from 1."""
    return (interval - 1 + offset) % positions + 1


def has_burst_after(spec: ClassSpec, round_number: int, rounds: int) -> bool:
    """Say whether a burst follows a round."""
    if spec.burst is None:
        return False
    return round_number < rounds or spec.after_last_round is not AfterLastRound.NOTHING


def total_s(timeline: Sequence[Window]) -> int:
    """Give the length of the whole class, s."""
    return sum(window.length_s for window in timeline)
