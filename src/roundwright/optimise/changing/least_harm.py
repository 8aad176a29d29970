"""The least harm for given groups, or over all groups of one arrangement: figure by figure (C3)."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from roundwright.foundation.errors import RoundwrightError
from roundwright.optimise.changing.bounds import earlier_bound
from roundwright.optimise.changing.harm_models import Aim, HarmModel, Held
from roundwright.optimise.changing.old_plan import OldPlan, harm_of
from roundwright.optimise.choice_model import JointAnswer
from roundwright.optimise.choice_value import Choice, Groups, is_feasible
from roundwright.optimise.instance import Instance
from roundwright.optimise.solver import Ended, Work
from roundwright.plan.changing.change import Harm


@dataclass(frozen=True, slots=True)
class Found:
    """A choice for some groups, its harm, and whether it is the least for what was asked.

    `ended` infeasible: there is no choice at all. `least` is a bound in the order of harm:
    nothing that was asked for is below it (None: there is nothing).
    """

    ended: Ended
    least: Harm | None = None
    harm: Harm | None = None
    instance: Instance | None = None
    choice: Choice = ()
    groups: Groups | None = None

    @property
    def is_proven(self) -> bool:
        """Whether nothing better exists for what was asked."""
        return self.ended is not Ended.LIMIT


@dataclass(frozen=True, slots=True)
class Question:
    """Models of one question, and how an answer of theirs is counted.

    Parameters
    ----------
    model : callable
        Gives a fresh model; True: only of what changes nothing that is counted.
    instance_of : callable
        Gives the table that an answer counts by, told the same.
    forced : Harm
        Figures that no answer can be below, each on its own.
    """

    model: Callable[[bool], HarmModel]
    instance_of: Callable[[Groups, bool], Instance]
    forced: Harm
    old: OldPlan
    besides: int
    size: tuple[int, int]
    """People and places, the burst included."""


Hears = Callable[[Found], None]
"""Told of each better choice of one question, with the bound so far."""


class Stages:
    """Goes through the figures of one question, one after the other.

    Parameters
    ----------
    known : Harm, optional
        Of an answer to the same question that is there already.
    hears : callable, optional
        Told of each choice that is better than all before.
    """

    def __init__(
        self,
        question: Question,
        known: Harm | None,
        work: Work,
        seed: int,
        hears: Hears | None = None,
    ) -> None:
        self._question = question
        self._hears = hears
        self._bounds = list(question.forced.order)
        self._work = work
        self._seed = seed
        self._known = known
        self._best: Found | None = None
        self._proven = True
        self._last_overrun_s = 0

    def run(self, below: Harm | None = None) -> Found:
        """Give the least harm.

        Parameters
        ----------
        below : Harm, optional
            Only less than its first four figures is of use: what is seen not to be less is left.

        Returns
        -------
        Found
            Without a choice where only the known answer is left, which is then the least if proven.
        """
        forced = self._question.forced
        if self._least() is None or self._figure(0) > forced.left_out:
            answer = self._solve(Aim.LEFT_OUT, Held())
            if answer.ended is Ended.INFEASIBLE:
                return Found(Ended.INFEASIBLE)
        if self._least() is None:
            return Found(Ended.LIMIT, self._bound())
        left_out = self._figure(0)
        if below is not None and left_out > below.left_out:
            return self._done()
        if self._figure(1) > 0:
            self._solve(Aim.OVERRUN, Held(left_out=left_out))
        over_s = self._figure(1)
        if below is not None and (left_out, over_s) > below.order[:2]:
            return self._done()
        if self._order()[2:4] > (forced.people, forced.cells):
            self._in_time(Aim.DISTURBED, Held(left_out=left_out), over_s)
        if below is not None and self._order()[:4] >= below.order[:4]:
            return self._done()
        people, cells = self._order()[2:4]
        disturbed = people * self._weight + cells
        self._in_time(Aim.PRICE, Held(left_out=left_out, disturbed=disturbed), over_s)
        return self._done()

    @property
    def _weight(self) -> int:
        people, places = self._question.size
        return people * places + 1

    def _least(self) -> Harm | None:
        """Give the least harm that is known."""
        mine = self._best.harm if self._best is not None else None
        harms = [h for h in (mine, self._known) if h is not None]
        return min(harms, key=lambda h: h.order, default=None)

    def _order(self) -> tuple[int, ...]:
        least = self._least()
        if least is None:
            raise RoundwrightError("a figure was asked for before any answer was known")
        return least.order

    def _figure(self, number: int) -> int:
        return self._order()[number]

    def _in_time(self, aim: Aim, held: Held, over_s: int) -> None:
        """Solve without looking at the length first: mostly the answer is not too long anyway."""
        answer = self._solve(aim, held)
        most_s = self._question.old.overrun_s + over_s
        if answer.choice is not None and self._last_overrun_s > over_s:
            self._solve(aim, Held(held.left_out, most_s, held.disturbed))
        elif answer.choice is None and answer.ended is Ended.LIMIT:
            self._proven = False

    def _solve(self, aim: Aim, held: Held) -> JointAnswer:
        answer = self._question.model(held.disturbed == 0).least(aim, held, self._work, self._seed)
        self._proven = self._proven and answer.ended is not Ended.LIMIT
        self._raise_bound(aim, answer)
        if answer.choice is not None:
            self._take(answer, held.disturbed == 0)
        return answer

    def _take(self, answer: JointAnswer, plain: bool) -> None:
        question = self._question
        instance = question.instance_of(answer.groups, plain)
        if answer.choice is None or not is_feasible(instance, answer.choice, answer.groups):
            raise RoundwrightError("the solver's answer does not hold when counted again")
        harm = harm_of(instance, answer.choice, answer.groups, question.old, question.besides)
        self._last_overrun_s = harm.overrun_s
        if self._best is None or self._best.harm is None or harm.order < self._best.harm.order:
            least = self._least()
            self._best = Found(
                Ended.LIMIT, self._bound(), harm, instance, answer.choice, answer.groups
            )
            if self._hears is not None and (least is None or harm.order < least.order):
                self._hears(replace(self._best, least=self._bound()))

    def _raise_bound(self, aim: Aim, answer: JointAnswer) -> None:
        """Take what a model gives for its figure; what it holds, the best known holds too.

        So whoever has less harm than the best known, and earlier figures as low as their
        bounds, was free in this model.
        """
        if answer.ended is Ended.INFEASIBLE:
            return
        bounds, question = self._bounds, self._question
        if aim is Aim.LEFT_OUT:
            bounds[0] = max(bounds[0], answer.bound)
        elif aim is Aim.OVERRUN:
            bounds[1] = max(bounds[1], answer.bound - question.old.overrun_s)
        elif aim is Aim.DISTURBED:
            both = divmod(max(0, answer.bound), self._weight)
            bounds[2:4] = max((bounds[2], bounds[3]), both)
        else:
            bounds[4] = max(bounds[4], answer.bound + question.besides)

    def _bound(self) -> Harm:
        """Give what nothing can be below, in the order of harm."""
        left_out, overrun_s, people, cells, price = self._bounds
        bound = Harm(
            left_out=left_out, overrun_s=overrun_s, people=people, cells=cells, price=price
        )
        least = self._least()
        return bound if least is None else earlier_bound(bound, least)

    def _done(self) -> Found:
        ended = Ended.OPTIMAL if self._proven else Ended.LIMIT
        if self._best is None:
            return Found(ended, self._bound())
        return replace(self._best, ended=ended, least=self._bound())
