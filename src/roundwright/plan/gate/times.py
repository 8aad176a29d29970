"""How long everything takes, and the timeline that follows: the gate's own reckoning."""

from dataclasses import dataclass

from roundwright.goals.class_wish import AfterLastRound
from roundwright.plan.core import WindowKind
from roundwright.plan.gate.reading import Reading, burst_rounds


@dataclass(frozen=True, slots=True)
class Stretch:
    """One stretch of the class as it should be."""

    at_s: int
    length_s: int
    kind: WindowKind
    round: int = 0
    positions: tuple[int, ...] = ()
    halves_s: tuple[int, ...] = ()


def halves_in(reading: Reading, interval: int, round_number: int) -> tuple[int, ...]:
    """Give the seconds of work in an interval: two halves in pairs, one part otherwise."""
    works = reading.works_in(interval, round_number)
    if not reading.in_pairs:
        return (max((w.seconds for w in works), default=0),)
    second = [w.seconds for w in works if reading.in_second_half(w.person_id)]
    first = [w.seconds for w in works if not reading.in_second_half(w.person_id)]
    return (max(first, default=0), max(second, default=0))


def timeline_of(reading: Reading) -> tuple[Stretch, ...]:
    """Give the timeline that the readable cells make; stretches of no length are left out."""
    spec = reading.problem.spec
    made: list[Stretch] = []

    def add(
        kind: WindowKind,
        length_s: int,
        round_number: int = 0,
        positions: tuple[int, ...] = (),
        halves_s: tuple[int, ...] = (),
    ) -> None:
        if length_s > 0:
            at_s = made[-1].at_s + made[-1].length_s if made else 0
            made.append(Stretch(at_s, length_s, kind, round_number, positions, halves_s))

    add(WindowKind.WARM_UP, spec.warm_up_s)
    add(WindowKind.DEMONSTRATION, spec.demonstration_s)
    for number in range(1, spec.rounds + 1):
        for interval in reading.positions():
            halves = halves_in(reading, interval, number)
            if not any(halves):
                continue
            swap = spec.partner_swap_s if reading.in_pairs else 0
            shown = halves if reading.in_pairs else ()
            places = reading.positions_in(interval)
            add(WindowKind.WORK, sum(halves) + swap, number, places, shown)
            add(WindowKind.CHANGE, spec.change_s, number)
        if spec.burst is not None and number in burst_rounds(reading.problem):
            add(WindowKind.BURST, spec.burst.length_s, number)
        if number < spec.rounds or spec.after_last_round is AfterLastRound.BURST_AND_REST:
            add(WindowKind.REST, spec.rest_s, number)
    add(WindowKind.COOL_DOWN, spec.cool_down_s)
    return tuple(made)


def total_s(reading: Reading) -> int:
    """Give the planned length of the class, s."""
    return sum(stretch.length_s for stretch in timeline_of(reading))
