"""The best choice for one way to group people: least overrun, then least price.

Tried in this order: everyone's cheapest alternative, which is proven when it
fits; an assignment of scarce kit; the exact joint model.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from roundwright.foundation.errors import RoundwrightError
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.assignment import assigned
from roundwright.optimise.choice_model import JointAnswer
from roundwright.optimise.choice_value import (
    Choice,
    Groups,
    first_timers_price,
    is_feasible,
    overrun_of,
    price_of,
)
from roundwright.optimise.instance import Alternative, Instance
from roundwright.optimise.joint_model import JointModel
from roundwright.optimise.solver import Ended, Work


@dataclass(frozen=True, slots=True)
class Allotted:
    """The best choice known for one grouping, and what is known about it.

    `choice` None with `ended` infeasible: there is none; with limit: none found.
    `bound` holds for the price of any plan with this grouping, `least_s` for its overrun.
    """

    ended: Ended
    groups: Groups
    choice: Choice | None = None
    overrun_s: int = 0
    price: int = 0
    bound: int = 0
    least_s: int = 0

    @property
    def is_proven(self) -> bool:
        """Whether nothing better exists for this grouping."""
        return self.ended is not Ended.LIMIT

    @property
    def rank(self) -> tuple[int, int]:
        """What is compared: overrun first, then price."""
        return (self.overrun_s, self.price)


def allot(
    instance: Instance,
    groups: Groups,
    work: Work,
    seed: int,
    to_beat: tuple[int, int] | None = None,
) -> Allotted:
    """Find the best choice for a grouping within the work that is left.

    Parameters
    ----------
    to_beat : (int, int), optional
        Overrun and price of a plan that is known. Where this grouping is seen
        not to beat it, the answer says only that: it may not be this grouping's best.

    Raises
    ------
    RoundwrightError
        When the solver's answer does not hold when counted again: a fault of ours.
    """
    if any(not options for row in instance.table for options in row):
        return Allotted(Ended.INFEASIBLE, groups)
    partners = first_timers_price(instance, groups)
    least = instance.least_price() + partners
    quick = _without_solver(instance, groups, least)
    if quick is not None:
        return quick
    return by_model(_OneGrouping(instance, groups), least, partners, work, seed, to_beat)


def cheapest(instance: Instance, groups: Groups, work: Work, seed: int) -> Allotted:
    """Find the least price for a grouping, however long the class then is."""
    partners = first_timers_price(instance, groups)
    least = instance.least_price() + partners
    quick = _without_solver(instance, groups, least)
    if quick is not None:
        return quick
    return _untimed(_OneGrouping(instance, groups), least, partners, work, seed)


def within(instance: Instance, groups: Groups, overrun_s: int, work: Work, seed: int) -> Allotted:
    """Find the least price of pairs whose halves are given, within an overrun.

    The answer is proven only for these groups, halves and overrun.
    """
    partners = first_timers_price(instance, groups)
    model = JointModel(instance, groups, turning=False)
    answer = model.least_price(work, seed, overrun_at_most=overrun_s)
    if answer.choice is None:
        return Allotted(answer.ended, groups, bound=answer.bound + partners)
    return _counted(_OneGrouping(instance, groups), answer, partners)


class PricedModel(Protocol):
    """A model that is solved once, for a price or for a length."""

    def least_price(self, work: Work, seed: int, overrun_at_most: int | None = None) -> JointAnswer:
        """Minimise the price, within an overrun where one is given."""

    def least_overrun(self, work: Work, seed: int) -> JointAnswer:
        """Minimise the overrun."""


class Question(Protocol):
    """What is to be solved: one grouping, or every grouping of one arrangement."""

    def model(self) -> PricedModel:
        """Give a fresh model."""

    def instance_of(self, groups: Groups) -> Instance:
        """Give the table that an answer with these groups counts by."""


@dataclass(frozen=True, slots=True)
class _OneGrouping:
    """The question with its groups given."""

    instance: Instance
    groups: Groups

    def model(self) -> JointModel:
        """Give a fresh model of this grouping."""
        return JointModel(self.instance, self.groups)

    def instance_of(self, groups: Groups) -> Instance:
        """Give the table; turned halves do not change it."""
        return self.instance


def by_model(
    question: Question,
    least: int,
    partners: int,
    work: Work,
    seed: int,
    to_beat: tuple[int, int] | None = None,
) -> Allotted:
    """Solve by the exact model: the price first, and the length where the slot is too short.

    Parameters
    ----------
    least, partners : int
        A bound that is known, and the price of who is whose partner, which the model leaves out.
    to_beat : (int, int), optional
        As for `allot`.
    """
    answer = _untimed(question, least, partners, work, seed)
    if answer.choice is None or answer.overrun_s == 0:
        return answer
    if to_beat is not None and answer.is_proven and (0, answer.price) >= to_beat:
        return answer
    return _in_least_time(question, answer, partners, work, seed, to_beat)


def _untimed(question: Question, least: int, partners: int, work: Work, seed: int) -> Allotted:
    first = question.model().least_price(work, seed)
    if first.choice is None:
        return Allotted(first.ended, first.groups, bound=max(least, first.bound + partners))
    return _counted(question, first, partners)


def _without_solver(instance: Instance, groups: Groups, least: int) -> Allotted | None:
    favourites = tuple(tuple(_cheapest(options) for options in row) for row in instance.table)
    if is_feasible(instance, favourites, groups):
        price = price_of(instance, favourites, groups)
        overrun_s = overrun_of(instance, favourites, groups)
        if price == least and overrun_s == 0:
            return Allotted(Ended.OPTIMAL, groups, favourites, 0, price, price)
    choice = assigned(instance) if groups.format is ClassFormat.TOGETHER else None
    if choice is not None and overrun_of(instance, choice, groups) == 0:
        if not is_feasible(instance, choice, groups):
            raise RoundwrightError("an assignment of kit does not hold when counted again")
        price = price_of(instance, choice, groups)
        return Allotted(Ended.OPTIMAL, groups, choice, 0, price, price)
    return None


def _cheapest(options: Sequence[Alternative]) -> int:
    return min(range(len(options)), key=lambda k: (options[k].price, k))


def _counted(question: Question, answer: JointAnswer, partners: int) -> Allotted:
    """Count a solver's choice again, in integers."""
    instance = question.instance_of(answer.groups)
    if answer.choice is None or not is_feasible(instance, answer.choice, answer.groups):
        raise RoundwrightError("the solver's choice does not hold when counted again")
    price = price_of(instance, answer.choice, answer.groups)
    bound = answer.bound + partners
    if answer.ended is Ended.OPTIMAL:
        if price > bound:
            raise RoundwrightError(f"the solver says {bound} points, the choice counts {price}")
        bound = price
    return Allotted(
        answer.ended,
        answer.groups,
        answer.choice,
        overrun_of(instance, answer.choice, answer.groups),
        price,
        min(bound, price),
    )


def _in_least_time(
    question: Question,
    untimed: Allotted,
    partners: int,
    work: Work,
    seed: int,
    to_beat: tuple[int, int] | None,
) -> Allotted:
    """Minimise the overrun, then the price at that overrun."""
    shortest = question.model().least_overrun(work, seed)
    if (
        to_beat is not None
        and shortest.ended is Ended.OPTIMAL
        and (shortest.bound, untimed.bound) >= to_beat
    ):
        return untimed
    candidates = [untimed]
    least_s = shortest.bound
    if shortest.choice is not None:
        instance = question.instance_of(shortest.groups)
        overrun_s = overrun_of(instance, shortest.choice, shortest.groups)
        price = price_of(instance, shortest.choice, shortest.groups)
        candidates.append(
            Allotted(Ended.LIMIT, shortest.groups, shortest.choice, overrun_s, price, untimed.bound)
        )
        least_s = overrun_s
        timed = question.model().least_price(work, seed, overrun_at_most=overrun_s)
        if timed.choice is not None:
            best = _counted(question, timed, partners)
            proven = shortest.ended is Ended.OPTIMAL and timed.ended is Ended.OPTIMAL
            candidates.append(
                Allotted(
                    Ended.OPTIMAL if proven else Ended.LIMIT,
                    best.groups,
                    best.choice,
                    best.overrun_s,
                    best.price,
                    best.price if proven else untimed.bound,
                )
            )
    best = min(reversed(candidates), key=lambda a: a.rank)
    if best is untimed and not (untimed.is_proven and best.overrun_s == least_s):
        return replace(best, ended=Ended.LIMIT)
    return best
