"""What holds in the model of every format: limits of a person, versions in the room, masses.

A model of a format adds one alternative a person and place, kit and time.
"""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass

from roundwright.optimise.choice_value import Choice, Groups
from roundwright.optimise.instance import Alternative
from roundwright.optimise.solver import Ended, Model, Work
from roundwright.plan.eased_in import Dose
from roundwright.plan.problem import Problem

Offer = tuple[int, Alternative]
"""The number of a 0-1 variable, and the alternative that it stands for."""


@dataclass(frozen=True, slots=True)
class JointAnswer:
    """What the model gave: a choice and groups (halves may be turned), and a bound.

    From a relaxation of all pairs in least time: `groups` holds the two halves.
    """

    ended: Ended
    choice: Choice | None
    groups: Groups
    bound: int


class ChoiceModel:
    """Variables and rows over who takes which alternative.

    `offers` holds by person and place every alternative that may be taken there; a
    derived model fills it, with exactly one to be taken.
    """

    def __init__(self, problem: Problem, doses: Sequence[Dose]) -> None:
        self._problem = problem
        self._doses = doses
        self._model = Model()
        self._offers: list[list[list[Offer]]] = []

    def options(self, person: int, place: int) -> Sequence[Offer]:
        """Give what a person may take at a place."""
        return self._offers[person][place]

    def _offer(self, options: Sequence[Alternative], *, priced: bool) -> list[Offer]:
        return [
            (self._model.add(cost=a.price if priced else 0, upper=1, whole=True), a)
            for a in options
        ]

    def _limits_of_people(self) -> None:
        """Hold landings and low hops over the class within each person's limits."""
        for p, dose in enumerate(self._doses):
            mine = [offer for offers in self._offers[p] for offer in offers]
            for limit, terms in (
                (dose.contact_limit, [(n, float(a.contacts)) for n, a in mine if a.contacts]),
                (dose.low_hop_limit, [(n, float(a.low_hops)) for n, a in mine if a.low_hops]),
            ):
                if terms:
                    self._model.row(terms, high=limit)

    def _versions(self) -> None:
        costs = self._problem.costs
        most = self._problem.rules.most_versions
        for place in range(self._problem.spec.positions):
            people = range(len(self._doses))
            seen = sorted(
                {s for p in people for _, a in self.options(p, place) for s in a.signatures}
            )
            if len(seen) < 2:
                continue
            shown = {s: self._model.add(cost=costs.further_version, upper=1) for s in seen}
            some = any(all(a.signatures for _, a in self.options(p, place)) for p in people)
            if some:
                self._model.costs[self._constant()] -= costs.further_version
            else:
                self._first_version_free(list(shown.values()), costs.further_version)
            for p in people:
                for signature in seen:
                    terms = [
                        (n, -1.0) for n, a in self.options(p, place) if signature in a.signatures
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
        price = self._problem.costs.third_mass
        if not price:
            return
        for p in range(len(self._doses)):
            places = range(self._problem.spec.positions)
            by_mass: dict[int, list[list[int]]] = {}
            for place in places:
                here: dict[int, list[int]] = {}
                for number, alternative in self.options(p, place):
                    if alternative.mass_g:
                        here.setdefault(alternative.mass_g, []).append(number)
                for mass, numbers in here.items():
                    by_mass.setdefault(mass, []).append(numbers)
            holding = sum(any(a.mass_g for _, a in self.options(p, place)) for place in places)
            if len(by_mass) < 3 or holding < 3:
                continue
            held = {mass: self._model.add(upper=1) for mass in sorted(by_mass)}
            for mass, rows in sorted(by_mass.items()):
                for numbers in rows:
                    self._model.row([(held[mass], 1.0), *((n, -1.0) for n in numbers)], low=0)
            more = self._model.add(cost=price)
            self._model.row([(more, 1.0), *((n, -1.0) for n in held.values())], low=-2)


class FormatModel(ChoiceModel, ABC):
    """The whole model of one format: what may be asked of it besides the least price."""

    def least_overrun(self, work: Work, seed: int) -> JointAnswer:
        """Minimise the seconds by which the class is longer than its slot."""
        self._alternatives(priced=False)
        self._limits()
        self._time(None)
        return self._answer(work, seed)

    def any_choice(self, work: Work, seed: int) -> JointAnswer:
        """Find any choice (and groups, where they are free) within kit and limits."""
        self._alternatives(priced=False)
        self._limits()
        return self._answer(work, seed)

    @abstractmethod
    def _alternatives(self, *, priced: bool) -> None:
        """Add one alternative a person and place, and whatever groups are free."""

    @abstractmethod
    def _limits(self) -> None:
        """Add the limits of people and of kit."""

    @abstractmethod
    def _time(self, overrun_at_most: int | None) -> None:
        """Add the lengths of windows; minimise the overrun, or hold it at most at a value."""

    @abstractmethod
    def _answer(self, work: Work, seed: int) -> JointAnswer:
        """Solve, and read the choice back."""
