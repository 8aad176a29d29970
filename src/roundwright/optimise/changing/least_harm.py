"""The least harm for given groups, or over all groups of one arrangement: figure by figure (C3)."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from roundwright.foundation.errors import RoundwrightError
from roundwright.optimise.changing.harm_models import Aim, HarmModel, Held
from roundwright.optimise.changing.old_plan import OldPlan, changed_of, harm_of, left_out_of
from roundwright.optimise.choice_model import JointAnswer
from roundwright.optimise.choice_value import Choice, Groups, is_feasible
from roundwright.optimise.instance import Instance
from roundwright.optimise.solver import Ended, Work
from roundwright.plan.changing.change import Harm


@dataclass(frozen=True, slots=True)
class Found:
    """A choice for some groups, its harm, and whether it is the least for what was asked.

    `ended` infeasible: there is no choice at all.
    """

    ended: Ended
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
        What no answer can be below, but for the price.
    """

    model: Callable[[bool], HarmModel]
    instance_of: Callable[[Groups, bool], Instance]
    forced: Harm
    old: OldPlan
    besides: int
    size: tuple[int, int]
    """People and places, the burst included."""


def forced_harm(instances: list[Instance]) -> Harm:
    """Give figures that no choice in any of these tables can be below; the price is left 0."""
    people, places = range(len(instances[0].people)), range(instances[0].places)
    left_out = cells = disturbed = 0
    for p in people:
        rows = [instance.table[p] for instance in instances]
        left_out += sum(min(left_out_of(a) for row in rows for a in row[k]) for k in places)
        mine = sum(min(changed_of(a) for row in rows for a in row[k]) for k in places)
        cells += mine
        disturbed += mine > 0
    return Harm(left_out=left_out, overrun_s=0, people=disturbed, cells=cells, price=0)


class Stages:
    """Goes through the figures of one question, one after the other.

    Parameters
    ----------
    known : Harm, optional
        Of an answer to the same question that is there already.
    """

    def __init__(self, question: Question, known: Harm | None, work: Work, seed: int) -> None:
        self._question = question
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
            return Found(Ended.LIMIT)
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
            self._best = Found(Ended.LIMIT, harm, instance, answer.choice, answer.groups)

    def _done(self) -> Found:
        ended = Ended.OPTIMAL if self._proven else Ended.LIMIT
        if self._best is None:
            return Found(ended)
        return replace(self._best, ended=ended)
