"""A bound for stations and staggered groups that holds for every grouping and offset."""

from dataclasses import dataclass

from roundwright.optimise.choice_model import ChoiceModel
from roundwright.optimise.dominance import undominated
from roundwright.optimise.instance import Alternative, Rotating
from roundwright.optimise.kit_choice import KitKey
from roundwright.optimise.solver import Ended, Work
from roundwright.plan.timeline import has_burst_after


@dataclass(frozen=True, slots=True)
class Loose:
    """What the relaxation gave: a bound, and what each person takes at each place."""

    ended: Ended
    bound: int
    taken: tuple[tuple[Alternative, ...], ...]


class LooseModel(ChoiceModel):
    """A relaxation that every arrangement of so many groups obeys: it gives the bound.

    Nobody is in a group: each person takes anything that some start allows. At one
    position as much kit is there as all groups could use one after the other, and
    over a whole round as much as all intervals hold.
    """

    def __init__(self, rotating: Rotating, groups: int) -> None:
        super().__init__(rotating.problem, rotating.doses)
        self._rotating = rotating
        self._groups = groups

    def solve(self, work: Work, seed: int) -> Loose:
        """Minimise the price."""
        for p in range(len(self._doses)):
            offers = [
                self._offer(self._of_any_start(p, k), priced=True)
                for k in range(self._rotating.positions + 1)
            ]
            for options in offers:
                self._model.row([(n, 1.0) for n, _ in options], low=1, high=1)
            self._offers.append(offers)
        self._limits_of_people()
        self._kit()
        self._versions()
        self._masses()
        if any(not options for row in self._offers for options in row):
            return Loose(Ended.INFEASIBLE, 0, ())
        solved = self._model.solve(work, seed)
        if not solved.values:
            return Loose(solved.ended, solved.bound, ())
        taken = tuple(
            tuple(next(a for n, a in options if solved.values[n] == 1) for options in row)
            for row in self._offers
        )
        return Loose(solved.ended, solved.bound, taken)

    def _of_any_start(self, person: int, place: int) -> tuple[Alternative, ...]:
        costs = self._problem.costs
        return undominated(
            [a for table in self._rotating.by_role.values() for a in table[person][place]],
            new_signature=costs.further_version + costs.crowded_version,
            new_mass=costs.third_mass,
        )

    def _kit(self) -> None:
        positions, spec = self._rotating.positions, self._problem.spec
        over_round: dict[KitKey, list[tuple[int, float]]] = {}
        for place in range(positions + 1):
            here: dict[KitKey, list[tuple[int, float]]] = {}
            for row in self._offers:
                for number, alternative in row[place]:
                    for key, units in alternative.main_kit:
                        here.setdefault(key, []).append((number, float(units)))
            is_burst = place == positions
            if is_burst and not has_burst_after(spec, 1, spec.rounds):
                continue
            for key, terms in sorted(here.items()):
                factor = 1 if is_burst else self._groups
                self._model.row(terms, high=self._rotating.counts[key] * factor)
                if not is_burst:
                    over_round.setdefault(key, []).extend(terms)
        for key, terms in sorted(over_round.items()):
            self._model.row(terms, high=self._rotating.counts[key] * positions)
