"""All places of a class in one exact model: who takes which alternative.

One alternative a person and place; kit per window; landings and low hops per
person; versions in the room, masses a person, and where asked for the windows'
lengths. Used when the cheapest of everyone does not fit.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from roundwright.optimise.choice_value import (
    Choice,
    Groups,
    fixed_seconds,
    kit_spans,
    span_groups,
    work_rows,
)
from roundwright.optimise.instance import Alternative, Instance
from roundwright.optimise.kit_choice import KitKey
from roundwright.optimise.solver import Ended, Model, Work


@dataclass(frozen=True, slots=True)
class JointAnswer:
    """What the model gave: a choice and groups (halves may be turned), and a bound."""

    ended: Ended
    choice: Choice | None
    groups: Groups
    bound: int


class JointModel:
    """Builds and solves the model for one way to group the people.

    Parameters
    ----------
    kit_factor : int
        2 doubles the kit of the positions and sets halves aside: with one group of
        everyone `in_pairs` this relaxes every way to pair them.
    """

    def __init__(self, instance: Instance, groups: Groups, *, kit_factor: int = 1) -> None:
        self._instance = instance
        self._groups = groups
        self._factor = kit_factor
        self._model = Model()
        self._first: list[list[int]] = []
        self._turns: list[tuple[int, int]] = []

    def least_price(self, work: Work, seed: int, overrun_at_most: int | None = None) -> JointAnswer:
        """Minimise the price; with `overrun_at_most` the windows' lengths count too."""
        self._alternatives(priced=True)
        self._limits()
        self._versions()
        self._masses()
        if overrun_at_most is not None:
            self._time(overrun_at_most)
        return self._answer(work, seed)

    def least_overrun(self, work: Work, seed: int) -> JointAnswer:
        """Minimise the seconds by which the class is longer than its slot."""
        self._alternatives(priced=False)
        self._limits()
        self._time(None)
        return self._answer(work, seed)

    def any_choice(self, work: Work, seed: int) -> JointAnswer:
        """Find any choice within kit and limits."""
        self._alternatives(priced=False)
        self._limits()
        return self._answer(work, seed)

    def _options(self, person: int, place: int) -> Sequence[tuple[int, Alternative]]:
        start = self._first[person][place]
        return [(start + k, a) for k, a in enumerate(self._instance.table[person][place])]

    def _alternatives(self, *, priced: bool) -> None:
        for row in self._instance.table:
            firsts = []
            for options in row:
                numbers = [
                    self._model.add(cost=a.price if priced else 0, upper=1, whole=True)
                    for a in options
                ]
                self._model.row([(n, 1.0) for n in numbers], low=1, high=1)
                firsts.append(numbers[0] if numbers else -1)
            self._first.append(firsts)

    def _limits(self) -> None:
        instance = self._instance
        for p, dose in enumerate(instance.doses):
            mine = [o for k in range(instance.places) for o in self._options(p, k)]
            for limit, terms in (
                (dose.contact_limit, [(n, float(a.contacts)) for n, a in mine if a.contacts]),
                (dose.low_hop_limit, [(n, float(a.low_hops)) for n, a in mine if a.low_hops]),
            ):
                if terms:
                    self._model.row(terms, high=limit)
        for span in kit_spans(instance):
            groups = span_groups(span, self._groups, instance.positions)
            if self._factor != 1:
                groups = ((tuple(sorted(span.people)),),)
            self._kit(groups, span.place, span.last)

    def _kit(self, groups: Sequence[Sequence[Sequence[int]]], place: int, last: bool) -> None:
        """Hold the units of each scarce kit in one window within what there is."""
        factor = 1 if place == self._instance.positions else self._factor
        totals: dict[KitKey, list[tuple[int, float]]] = {}
        for halves in groups:
            uses = [self._half_use(half, place, last) for half in halves]
            keys = sorted({key for use in uses for key in use})
            for key in keys:
                terms = [use[key] for use in uses if key in use]
                if len(terms) == 1:
                    totals.setdefault(key, []).extend(terms[0])
                    continue
                larger = self._model.add()
                for one in terms:
                    self._model.row([(larger, 1.0), *((n, -u) for n, u in one)], low=0)
                totals.setdefault(key, []).append((larger, 1.0))
        for key, all_terms in sorted(totals.items()):
            self._model.row(all_terms, high=self._instance.counts[key] * factor)

    def _half_use(
        self, half: Sequence[int], place: int, last: bool
    ) -> dict[KitKey, list[tuple[int, float]]]:
        use: dict[KitKey, list[tuple[int, float]]] = {}
        for p in half:
            for number, alternative in self._options(p, place):
                for key, units in alternative.kit_in(last):
                    use.setdefault(key, []).append((number, float(units)))
        return use

    def _versions(self) -> None:
        costs = self._instance.problem.costs
        most = self._instance.problem.rules.most_versions
        for place in range(self._instance.positions):
            people = range(len(self._instance.people))
            seen = sorted(
                {s for p in people for _, a in self._options(p, place) for s in a.signatures}
            )
            if len(seen) < 2:
                continue
            shown = {s: self._model.add(cost=costs.further_version, upper=1) for s in seen}
            some = any(all(a.signatures for _, a in self._options(p, place)) for p in people)
            if some:
                self._model.costs[self._constant()] -= costs.further_version
            else:
                self._first_version_free(list(shown.values()), costs.further_version)
            for p in people:
                for signature in seen:
                    terms = [
                        (n, -1.0) for n, a in self._options(p, place) if signature in a.signatures
                    ]
                    if terms:
                        self._model.row([(shown[signature], 1.0), *terms], low=0)
            if len(seen) > most and costs.crowded_version:
                over = self._model.add(cost=costs.crowded_version)
                self._model.row(
                    [(over, 1.0), *((n, -1.0) for n in shown.values())], low=-float(most)
                )

    def _first_version_free(self, shown: Sequence[int], price: int) -> None:
        """Take the first version's price back where perhaps nobody shows one."""
        free = self._model.add(cost=-float(price), upper=1)
        self._model.row([(free, -1.0), *((n, 1.0) for n in shown)], low=0)

    def _constant(self) -> int:
        """Give a variable that is always 1."""
        number = self._model.add(upper=1)
        self._model.row([(number, 1.0)], low=1, high=1)
        return number

    def _masses(self) -> None:
        price = self._instance.problem.costs.third_mass
        if not price:
            return
        for p in range(len(self._instance.people)):
            places = range(self._instance.positions)
            by_mass: dict[int, list[list[int]]] = {}
            for place in places:
                here: dict[int, list[int]] = {}
                for number, alternative in self._options(p, place):
                    if alternative.mass_g:
                        here.setdefault(alternative.mass_g, []).append(number)
                for mass, numbers in here.items():
                    by_mass.setdefault(mass, []).append(numbers)
            holding = sum(any(a.mass_g for _, a in self._options(p, place)) for place in places)
            if len(by_mass) < 3 or holding < 3:
                continue
            held = {mass: self._model.add(upper=1) for mass in sorted(by_mass)}
            for mass, rows in sorted(by_mass.items()):
                for numbers in rows:
                    self._model.row([(held[mass], 1.0), *((n, -1.0) for n in numbers)], low=0)
            more = self._model.add(cost=price)
            self._model.row([(more, 1.0), *((n, -1.0) for n in held.values())], low=-2)

    def _time(self, overrun_at_most: int | None) -> None:
        """Add the windows' lengths; minimise the overrun, or hold it at most at a value."""
        instance, model = self._instance, self._model
        rows = list(work_rows(instance))
        alike: dict[tuple[int, bool, tuple[int, ...]], int] = {}
        for round_number, place, people in rows:
            key = (place, instance.is_last(place, round_number), people)
            alike[key] = alike.get(key, 0) + 1
        flips = self._flips()
        lengths: list[tuple[int, float]] = []
        for (place, last, people), times in alike.items():
            halves = [model.add() for _ in range(2 if self._groups.in_pairs else 1)]
            lengths += [(half, float(times)) for half in halves]
            for p in people:
                self._length_at_least(halves, p, place, last, flips)
        allowed = instance.problem.spec.slot_s - fixed_seconds(instance, rows, self._groups)
        if overrun_at_most is None:
            over = model.add(cost=1)
            model.row([(over, 1.0), *((n, -t) for n, t in lengths)], low=-float(allowed))
        else:
            model.row(lengths, high=allowed + overrun_at_most)

    def _flips(self) -> dict[int, tuple[int, bool]]:
        """Give each person of a pair the variable that turns it, and whether they are second."""
        flips: dict[int, tuple[int, bool]] = {}
        if not self._groups.in_pairs or self._factor != 1:
            return flips
        for g, group in enumerate(self._groups.members):
            if len(group) == 2:
                turn = self._model.add(upper=1, whole=True)
                self._turns.append((g, turn))
                flips |= {group[0]: (turn, False), group[1]: (turn, True)}
        return flips

    def _length_at_least(
        self,
        halves: Sequence[int],
        person: int,
        place: int,
        last: bool,
        flips: dict[int, tuple[int, bool]],
    ) -> None:
        model, options = self._model, self._options(person, place)
        mine = [(n, -float(a.seconds_in(last))) for n, a in options]
        if len(halves) == 1 or self._factor != 1:
            model.row([*((h, 1.0) for h in halves), *mine], low=0)
            return
        if person not in flips:
            second = any(person in group[1::2] for group in self._groups.members)
            model.row([(halves[second], 1.0), *mine], low=0)
            return
        longest = float(max(a.seconds_in(last) for _, a in options))
        turn, is_second = flips[person]
        for half, away_when_turned in ((int(is_second), True), (1 - int(is_second), False)):
            weight = longest if away_when_turned else -longest
            low = 0.0 if away_when_turned else -longest
            model.row([(halves[half], 1.0), (turn, weight), *mine], low=low)

    def _answer(self, work: Work, seed: int) -> JointAnswer:
        if any(first < 0 for row in self._first for first in row):
            return JointAnswer(Ended.INFEASIBLE, None, self._groups, 0)
        solved = self._model.solve(work, seed)
        if not solved.values:
            return JointAnswer(solved.ended, None, self._groups, solved.bound)
        choice = tuple(
            tuple(
                next(k for k, (n, _) in enumerate(self._options(p, place)) if solved.values[n] == 1)
                for place in range(self._instance.places)
            )
            for p in range(len(self._instance.people))
        )
        turned = {g for g, turn in self._turns if solved.values[turn] == 1}
        members = tuple(
            group[::-1] if g in turned else group for g, group in enumerate(self._groups.members)
        )
        return JointAnswer(
            solved.ended, choice, Groups(members, self._groups.in_pairs), solved.bound
        )
