"""All places of a class in one exact model: who takes which alternative.

One alternative a person and place; kit per window; landings and low hops per
person; versions in the room, masses a person, and where asked for the windows'
lengths. Used when the cheapest of everyone does not fit.
"""

from collections.abc import Sequence
from dataclasses import replace

from roundwright.optimise.choice_model import FormatModel, JointAnswer
from roundwright.optimise.choice_value import (
    Groups,
    KitSpan,
    fixed_seconds,
    kit_spans,
    span_groups,
    work_rows,
)
from roundwright.optimise.instance import Instance
from roundwright.optimise.kit_choice import KitKey
from roundwright.optimise.solver import Ended, Work


class JointModel(FormatModel):
    """Builds and solves the model for one way to group the people.

    Parameters
    ----------
    kit_factor : int
        2 doubles the kit of the positions and lets anybody work in either half: with
        one group of everyone `in_pairs` this relaxes every way to pair them.
    turning : bool
        Whether who of a pair works first is free, or as the groups say.
    """

    def __init__(
        self, instance: Instance, groups: Groups, *, kit_factor: int = 1, turning: bool = True
    ) -> None:
        super().__init__(instance.problem, instance.doses)
        self._instance = instance
        self._groups = groups
        self._factor = kit_factor
        self._turning = turning
        self._turns: list[tuple[int, int]] = []
        self._free_turns: list[int] = []

    def least_price(self, work: Work, seed: int, overrun_at_most: int | None = None) -> JointAnswer:
        """Minimise the price; with `overrun_at_most` the windows' lengths count too."""
        self._alternatives(priced=True)
        self._limits()
        self._versions()
        self._masses()
        if overrun_at_most is not None:
            self._time(overrun_at_most)
        return self._answer(work, seed)

    def _alternatives(self, *, priced: bool) -> None:
        for row in self._instance.table:
            offers = [self._offer(options, priced=priced) for options in row]
            for options in offers:
                self._model.row([(n, 1.0) for n, _ in options], low=1, high=1)
            self._offers.append(offers)

    def _limits(self) -> None:
        self._limits_of_people()
        for span in kit_spans(self._instance):
            groups = span_groups(span, self._groups)
            if self._factor != 1:
                groups = ((tuple(sorted(span.places)),),)
            self._kit(groups, span)

    def _kit(self, groups: Sequence[Sequence[Sequence[int]]], span: KitSpan) -> None:
        """Hold the units of each scarce kit in one window within what there is."""
        factor = 1 if span.is_burst else self._factor
        totals: dict[KitKey, list[tuple[int, float]]] = {}
        for halves in groups:
            uses = [self._half_use(half, span) for half in halves]
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
        self, half: Sequence[int], span: KitSpan
    ) -> dict[KitKey, list[tuple[int, float]]]:
        use: dict[KitKey, list[tuple[int, float]]] = {}
        for p in half:
            for number, alternative in self.options(p, span.places[p]):
                for key, units in alternative.kit_in(span.last):
                    use.setdefault(key, []).append((number, float(units)))
        return use

    def _time(self, overrun_at_most: int | None) -> None:
        """Add the windows' lengths; minimise the overrun, or hold it at most at a value."""
        instance, model = self._instance, self._model
        rows = list(work_rows(instance))
        alike: dict[tuple[int, bool, tuple[int, ...]], int] = {}
        for round_number, interval, people in rows:
            key = (interval, instance.is_last(interval, round_number), people)
            alike[key] = alike.get(key, 0) + 1
        flips = self._flips()
        lengths: list[tuple[int, float]] = []
        for (interval, last, people), times in alike.items():
            halves = [model.add() for _ in range(2 if self._groups.in_pairs else 1)]
            lengths += [(half, float(times)) for half in halves]
            for p in people:
                self._length_at_least(halves, p, instance.place_in(p, interval), last, flips)
            if self._free_turns:
                self._halves_at_least(halves, interval, last, people)
        allowed = instance.problem.spec.slot_s - fixed_seconds(instance, rows, self._groups)
        if overrun_at_most is None:
            over = model.add(cost=1)
            model.row([(over, 1.0), *((n, -t) for n, t in lengths)], low=-float(allowed))
        else:
            model.row(lengths, high=allowed + overrun_at_most)

    def _halves_at_least(
        self, halves: Sequence[int], place: int, last: bool, people: Sequence[int]
    ) -> None:
        """Say of free halves that neither is shorter than its people can be."""
        quicker = float(self._quicker_half(place, last, people))
        for half in halves:
            self._model.row([(half, 1.0)], low=quicker)
        for p in people:
            mine = [(n, -float(a.seconds_in(last))) for n, a in self.options(p, place)]
            self._model.row([*((h, 1.0) for h in halves), *mine], low=quicker)

    def _flips(self) -> dict[int, tuple[int, bool]]:
        """Give each person of a pair the variable that turns it, and whether they are second."""
        flips: dict[int, tuple[int, bool]] = {}
        if not self._groups.in_pairs:
            return flips
        if self._factor != 1:
            return self._free_halves()
        for g, group in enumerate(self._groups.members if self._turning else ()):
            if len(group) == 2:
                turn = self._model.add(upper=1, whole=True)
                self._turns.append((g, turn))
                flips |= {group[0]: (turn, False), group[1]: (turn, True)}
        return flips

    def _free_halves(self) -> dict[int, tuple[int, bool]]:
        """Let half of the people work second, whoever they are."""
        people = range(len(self._doses))
        self._free_turns = [self._model.add(upper=1, whole=True) for _ in people]
        second = len(people) // 2
        self._model.row([(n, 1.0) for n in self._free_turns], low=second, high=second)
        if len(people) % 2 == 0:
            self._model.row([(self._free_turns[0], 1.0)], high=0)
        return {p: (turn, False) for p, turn in enumerate(self._free_turns)}

    def _quicker_half(self, place: int, last: bool, people: Sequence[int]) -> int:
        """Give what the quicker half of a window lasts at least, however people are split, s.

        As many as are surely in it cannot all be quicker than that many of the quickest.
        """
        missing = len(self._doses) - len(people)
        inside = len(self._doses) // 2 - missing
        quickest = sorted(
            min(a.seconds_in(last) for _, a in self.options(p, place)) for p in people
        )
        return quickest[inside - 1] if inside > 0 else 0

    def _length_at_least(
        self,
        halves: Sequence[int],
        person: int,
        place: int,
        last: bool,
        flips: dict[int, tuple[int, bool]],
    ) -> None:
        model, options = self._model, self.options(person, place)
        mine = [(n, -float(a.seconds_in(last))) for n, a in options]
        if len(halves) == 1:
            model.row([(halves[0], 1.0), *mine], low=0)
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
        if any(not options for row in self._offers for options in row):
            return JointAnswer(Ended.INFEASIBLE, None, self._groups, 0)
        solved = self._model.solve(work, seed)
        if not solved.values:
            return JointAnswer(solved.ended, None, self._groups, solved.bound)
        choice = tuple(
            tuple(
                next(k for k, (n, _) in enumerate(self.options(p, place)) if solved.values[n] == 1)
                for place in range(self._instance.places)
            )
            for p in range(len(self._instance.people))
        )
        if self._free_turns:
            second = [solved.values[n] == 1 for n in self._free_turns]
            split = tuple(
                tuple(p for p, b in enumerate(second) if b is half) for half in (False, True)
            )
            return JointAnswer(
                solved.ended, choice, replace(self._groups, members=split), solved.bound
            )
        turned = {g for g, turn in self._turns if solved.values[turn] == 1}
        members = tuple(
            group[::-1] if g in turned else group for g, group in enumerate(self._groups.members)
        )
        return JointAnswer(
            solved.ended, choice, replace(self._groups, members=members), solved.bound
        )
