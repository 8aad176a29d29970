"""One exact model over groups and choices, for groups that stand at different positions.

A person belongs to the group of one offset and takes, at each position, one of the
alternatives that this start allows. So kit and time of each interval are sums and
largest values over everybody, whatever the groups.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.choice_model import FormatModel, JointAnswer, Offer
from roundwright.optimise.choice_value import Groups
from roundwright.optimise.instance import Rotating
from roundwright.optimise.kit_choice import KitKey
from roundwright.optimise.solver import Ended, Work
from roundwright.plan.timeline import has_burst_after, make_timeline, total_s


@dataclass(frozen=True, slots=True)
class Arrangement:
    """In how many groups, how many positions ahead each stands, and under which name."""

    form: ClassFormat
    offsets: tuple[int, ...]

    def groups(self, members: tuple[tuple[int, ...], ...]) -> Groups:
        """Give the grouping with these people, by group."""
        return Groups(members, in_pairs=False, offsets=self.offsets, rotating=self.form)

    def sizes(self, people: int) -> tuple[int, int]:
        """Give the least and the most people of a group: they differ by at most one."""
        return people // len(self.offsets), -(-people // len(self.offsets))


class RotationModel(FormatModel):
    """Builds and solves the model of one arrangement over every way to group the people.

    Parameters
    ----------
    price_below : int, optional
        Only prices below it are sought.
    """

    def __init__(
        self, rotating: Rotating, arrangement: Arrangement, price_below: int | None = None
    ) -> None:
        super().__init__(rotating.problem, rotating.doses)
        self._rotating = rotating
        self._arrangement = arrangement
        self._price_below = price_below
        self._in_group: list[list[int]] = []
        self._by_offset: list[list[list[list[Offer]]]] = []

    def least_price(self, work: Work, seed: int, overrun_at_most: int | None = None) -> JointAnswer:
        """Minimise the price; with `overrun_at_most` the intervals' lengths count too."""
        self._alternatives(priced=True)
        self._limits()
        self._versions()
        self._masses()
        if self._price_below is not None:
            priced = [(n, c) for n, c in enumerate(self._model.costs) if c]
            self._model.row(priced, high=self._price_below - 1)
        if overrun_at_most is not None:
            self._time(overrun_at_most)
        return self._answer(work, seed)

    def _alternatives(self, *, priced: bool) -> None:
        positions, offsets = self._rotating.positions, self._arrangement.offsets
        people = range(len(self._doses))
        for p in people:
            mine = [self._model.add(upper=1, whole=True) for _ in offsets]
            self._in_group.append(mine)
            self._model.row([(y, 1.0) for y in mine], low=1, high=1)
            rows = [self._rotating.row(p, offset) for offset in offsets]
            by_offset = [
                [self._offer(options, priced=priced) for options in row[:positions]] for row in rows
            ]
            for y, places in zip(mine, by_offset, strict=True):
                for options in places:
                    terms = [(n, 1.0) for n, _ in options]
                    self._model.row([*terms, (y, -1.0)], low=0, high=0)
            burst = self._offer(rows[0][positions], priced=priced)
            self._model.row([(n, 1.0) for n, _ in burst], low=1, high=1)
            self._by_offset.append(by_offset)
            merged = [[o for places in by_offset for o in places[k]] for k in range(positions)]
            self._offers.append([*merged, burst])
        least, most = self._arrangement.sizes(len(self._doses))
        for g in range(len(offsets)):
            self._model.row([(self._in_group[p][g], 1.0) for p in people], low=least, high=most)

    def _at(self, person: int, interval: int) -> Iterator[Offer]:
        """Give what a person may do in an interval, whichever group they are in."""
        for offset, places in zip(self._arrangement.offsets, self._by_offset[person], strict=True):
            yield from places[(interval + offset) % self._rotating.positions]

    def _in_round(self, round_number: int) -> tuple[int, ...]:
        return tuple(p for p, dose in enumerate(self._doses) if round_number in dose.rounds)

    def _limits(self) -> None:
        self._limits_of_people()
        rounds = self._problem.spec.rounds
        for interval in range(self._rotating.positions):
            if interval < self._rotating.positions - 1 or rounds > 1:
                self._kit({p: list(self._at(p, interval)) for p in self._in_round(1)}, last=False)
            if interval == self._rotating.positions - 1:
                people = self._in_round(rounds)
                self._kit({p: list(self._at(p, interval)) for p in people}, last=True)
        bursts = [n for n in range(1, rounds + 1) if has_burst_after(self._problem.spec, n, rounds)]
        if bursts:
            place = self._rotating.positions
            people = self._in_round(bursts[0])
            self._kit({p: self._offers[p][place] for p in people}, last=False)

    def _kit(self, offers: dict[int, list[Offer]], *, last: bool) -> None:
        totals: dict[KitKey, list[tuple[int, float]]] = {}
        for number, alternative in (o for options in offers.values() for o in options):
            for key, units in alternative.kit_in(last):
                totals.setdefault(key, []).append((number, float(units)))
        for key, terms in sorted(totals.items()):
            self._model.row(terms, high=self._rotating.counts[key])

    def _time(self, overrun_at_most: int | None) -> None:
        """Add each interval's length and its change, where somebody works in it."""
        spec, model = self._problem.spec, self._model
        alike: dict[tuple[int, bool, tuple[int, ...]], int] = {}
        for round_number in range(1, spec.rounds + 1):
            people = self._in_round(round_number)
            for interval in range(self._rotating.positions) if people else ():
                last = interval == self._rotating.positions - 1 and round_number == spec.rounds
                key = (interval, last, people)
                alike[key] = alike.get(key, 0) + 1
        lengths: list[tuple[int, float]] = []
        for (interval, last, people), times in alike.items():
            length, held = model.add(), model.add(upper=1)
            lengths += [(length, float(times)), (held, float(times * spec.change_s))]
            for p in people:
                offers = list(self._at(p, interval))
                working = [(n, -1.0) for n, a in offers if a.works]
                model.row([(held, 1.0), *working], low=0)
                seconds = [(n, -float(a.seconds_in(last))) for n, a in offers]
                model.row([(length, 1.0), *seconds], low=0)
        empty = total_s(make_timeline(spec, self._arrangement.form, spec.rounds, {}))
        allowed = spec.slot_s - empty
        if overrun_at_most is None:
            over = model.add(cost=1)
            model.row([(over, 1.0), *((n, -t) for n, t in lengths)], low=-float(allowed))
        else:
            model.row(lengths, high=allowed + overrun_at_most)

    def _answer(self, work: Work, seed: int) -> JointAnswer:
        nobody = self._arrangement.groups(())
        if any(not options for row in self._offers for options in row):
            return JointAnswer(Ended.INFEASIBLE, None, nobody, 0)
        solved = self._model.solve(work, seed)
        if not solved.values:
            return JointAnswer(solved.ended, None, nobody, solved.bound)
        people = range(len(self._doses))
        group_of = [_only(solved.values, self._in_group[p]) for p in people]
        choice = tuple(
            tuple(
                _only(solved.values, [n for n, _ in options])
                for options in (
                    *self._by_offset[p][group_of[p]],
                    self._offers[p][self._rotating.positions],
                )
            )
            for p in people
        )
        members = tuple(
            tuple(p for p in people if group_of[p] == g)
            for g in range(len(self._arrangement.offsets))
        )
        return JointAnswer(solved.ended, choice, self._arrangement.groups(members), solved.bound)


def _only(values: Sequence[int], numbers: Sequence[int]) -> int:
    return next(k for k, n in enumerate(numbers) if values[n] == 1)
