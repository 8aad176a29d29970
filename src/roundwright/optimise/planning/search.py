"""The search over all forms: fit the most promising order, learn, until nothing can be better.

Stage one asks for the least price within the slot. Where every class overruns, stage
two finds the least overrun and stage three the least price at it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import product

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.fit import FitResult, fit
from roundwright.optimise.planning.form_search import FormSearch, Stage
from roundwright.optimise.planning.form_table import (
    Form,
    MadeWays,
    in_other_slot,
    make_form_table,
)
from roundwright.optimise.planning.shelves import Shelves, Tables
from roundwright.optimise.solver import Ended
from roundwright.plan.number_of_groups import can_be_held
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem

Rank = tuple[int, int, int, int, int, tuple[str, ...], int]
"""Overrun, price, changes of rounds, format and pair by place in their list, exercises, rounds."""

FORMATS = (
    ClassFormat.TOGETHER,
    ClassFormat.PAIRS,
    ClassFormat.STAGGERED,
    ClassFormat.STATIONS,
)
"""What `any` stands for, in order."""


@dataclass(frozen=True, slots=True)
class Allowance:
    """Counted work: fits, solves of the master, solves spent on ties, effort of one solve."""

    fits: int
    masters: int
    ties: int
    effort: float


ALLOWED = {
    Budget.QUICK: Allowance(fits=8, masters=60, ties=4, effort=1.0),
    Budget.NORMAL: Allowance(fits=60, masters=400, ties=10, effort=5.0),
    Budget.THOROUGH: Allowance(fits=1000, masters=6000, ties=200, effort=60.0),
}
"""What a budget allows; our choice."""


@dataclass(frozen=True, slots=True)
class Incumbent:
    """The best class so far."""

    rank: Rank
    problem: Problem
    fitted: FitResult


OnBetter = Callable[[Incumbent, int | None], bool]
"""Hears of each better class, with the bound of the price where one holds for it; gives
whether the search is to go on."""


@dataclass
class Search:
    """Searches every form of a planning problem within counted work.

    `before` has searched for the same class in another slot, or for fewer others: what people
    may do, and what that costs them, is as it was. `shelves` remember that from earlier plannings.
    `on_better` hears of each better class; once it gives False, the search ends (`is_stopped`).
    """

    planning: PlanningProblem
    seed: int
    budget: Budget
    plan_id: str
    before: "Search | None" = None
    shelves: Shelves | None = None
    best: Incumbent | None = None
    fits: int = 0
    fit_work: int = 0
    left_over: int | None = None
    on_better: OnBetter | None = None
    is_stopped: bool = False
    forms: dict[Form, FormSearch] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.allowed = ALLOWED[self.budget]
        self.formats = _formats(self.planning.formats)
        self.pairs = self.planning.pairs
        self.tables = self._known_tables()
        made: MadeWays = {}
        for n, pair in product(self.planning.rounds_to_try, self.pairs):
            for class_format in self.formats:
                if not can_be_held(self.planning, class_format):
                    continue
                form = Form(class_format, n, pair)
                known = None if self.before is None else self.before.forms[form]
                if known is None:
                    tables = make_form_table(
                        self.planning, form, made, self.tables.options, self.tables.ways
                    )
                else:
                    tables = in_other_slot(known.tables, self.planning)
                self.forms[form] = FormSearch(tables, self.seed, self.allowed.effort, before=known)
        self._work_before = sum(search.coupling.work_used for search in self.forms.values())

    def _known_tables(self) -> Tables:
        if self.before is not None:
            return self.before.tables
        return Tables() if self.shelves is None else self.shelves.opened(self.planning)

    @property
    def masters(self) -> int:
        """How many solves of the master were spent."""
        return sum(search.masters for search in self.forms.values())

    @property
    def work_used(self) -> int:
        """All counted work."""
        prices = sum(search.coupling.work_used for search in self.forms.values())
        return self.fit_work + self.masters + prices - self._work_before

    def run(self) -> tuple[bool, int | None]:
        """Search through the stages.

        Returns
        -------
        (proven, bound)
            Whether nothing better exists, and the bound of the price at the best's overrun;
            None: there is no class at all, if proven.
        """
        found = self._run()
        if self.shelves is not None:
            self.shelves.keep(self.planning, self.tables)
        return found

    def _run(self) -> tuple[bool, int | None]:
        closed = self._stage(Stage(), _price_of)
        if self.best is not None and self.best.rank[0] == 0:
            return closed, self._bound()
        if not closed or self.is_stopped:
            return False, self._bound()
        least = self._stage(Stage(by_time=True), _overrun_of)
        if self.best is None:
            return least, None
        if self.is_stopped:
            return False, None
        allowed_s = self.best.rank[0]
        closed = self._stage(Stage(allowed_s=allowed_s), _price_of)
        return least and closed, self._bound()

    def _bound(self) -> int | None:
        bounds = [search.bound for search in self.forms.values() if not search.closed]
        if self.left_over is not None:
            bounds.append(self.left_over)
        if self.best is not None:
            bounds.append(self.best.rank[1])
        return min(bounds, default=None)

    def _stage(self, stage: Stage, value: Callable[[Incumbent], int]) -> bool:
        """Close one stage in every form; say whether it was closed by proof."""
        self.left_over = None
        for search in self.forms.values():
            search.bound, search.closed = 0, False
        ties = self.allowed.ties
        while True:
            open_forms = [f for f, search in self.forms.items() if not search.closed]
            if not open_forms:
                return self._is_proven(stage, value)
            form = min(open_forms, key=lambda f: (self.forms[f].bound, self._preference(f)))
            search = self.forms[form]
            known = self._known(stage, value)
            if known is not None and search.bound > known:
                return self._is_proven(stage, value)
            if known is not None and search.bound == known:
                ties -= 1
            if ties < 0:
                return self._is_proven(stage, value)
            if self.is_stopped or self.fits >= self.allowed.fits:
                return self._is_proven(stage, value)
            if self.masters >= self.allowed.masters:
                return self._is_proven(stage, value)
            self._step(form, search, stage, known)

    def _is_proven(self, stage: Stage, value: Callable[[Incumbent], int]) -> bool:
        """Say whether every form is closed, or can at best equal what is known."""
        known = self._known(stage, value)
        bounds = [search.bound for search in self.forms.values() if not search.closed]
        bounds += [] if self.left_over is None else [self.left_over]
        return all(known is not None and bound >= known for bound in bounds)

    def _known(self, stage: Stage, value: Callable[[Incumbent], int]) -> int | None:
        """Give what the best class has of what this stage minimises, if it counts here."""
        if self.best is None:
            return None
        if not stage.by_time and self.best.rank[0] > stage.allowed_s:
            return None
        return value(self.best)

    def _step(self, form: Form, search: FormSearch, stage: Stage, known: int | None) -> None:
        """Take a form's most promising order: settle it by its bound, or fit it."""
        unknown = known is None and not stage.by_time
        found = search.next(
            stage,
            self.allowed.masters - self.masters,
            hasty=unknown and not self.fits,
            any_class=unknown,
            known=known,
        )
        bound = found.bound
        if stage.by_time:
            bound = max(0, bound - search.tables.seconds_left)
        if not found.order:
            search.closed = found.ended is Ended.INFEASIBLE
            if not search.closed:
                self._give_up(search, max(search.bound, bound))
            return
        search.bound = max(search.bound, bound)
        order = found.order
        if known is not None and search.bound > known:
            return
        if not stage.by_time and not found.hasty:
            search.learn(order, known)
            people = search.people_bound(order, known)
            if people is None:
                return
            if known is not None and people + search.class_price(order) > known:
                return
        search.fitted[search.key(order)] = None
        self._fit(form, search, order, stage)

    def _give_up(self, search: FormSearch, bound: int) -> None:
        """Leave a form whose master brings nothing new, with its bound."""
        self.left_over = bound if self.left_over is None else min(self.left_over, bound)
        search.closed = True

    def _fit(self, form: Form, search: FormSearch, order: Sequence[int], stage: Stage) -> None:
        """Fit people and kit to one order, and keep the class if it is the best."""
        problem = search.tables.planning.concrete(
            tuple(search.tables.choices[e] for e in order), form.format, form.rounds
        )
        as_coach = problem.spec.model_copy(update={"chosen_by": "coach", "length_by": "coach"})
        result = fit(
            problem.model_copy(update={"spec": as_coach}),
            seed=self.seed,
            budget=self.budget,
            plan_id=self.plan_id,
            shelf=self.tables.options,
        )
        self.fits += 1
        outcome = result.outcome
        self.fit_work += outcome.work_used
        own = search.class_price(order)
        misplaced = result.core is not None and search.misplaced(order, result.core)
        # Without its order a set is ruled out with its ends: other orders of them are left over.
        others = search.order_counts and not search.by_order
        exact = outcome.status in (Status.PROVEN, Status.IMPOSSIBLE)
        if misplaced or others or not exact:
            people = search.people_bound(order) or 0
            if not (misplaced or others):
                people = max(people, outcome.bound or 0)
            least = search.bound if stage.by_time else people + search.class_price(order)
            self.left_over = least if self.left_over is None else min(self.left_over, least)
        if result.core is None or outcome.cost is None or misplaced:
            return
        rank = (
            outcome.overrun_s,
            outcome.cost + own,
            abs(form.rounds - self.planning.base.spec.rounds),
            self.formats.index(form.format),
            self.pairs.index(form.pair),
            search.tables.ids(order),
            form.rounds,
        )
        if self.best is None or rank < self.best.rank:
            self.best = Incumbent(rank, problem, result)
            self._tell(self.best, stage)

    def _tell(self, best: Incumbent, stage: Stage) -> None:
        """Tell of a better class; the bound of a stage holds for the overrun that it allows."""
        if self.on_better is None:
            return
        holds = not stage.by_time and best.rank[0] <= stage.allowed_s
        self.is_stopped |= not self.on_better(best, self._bound() if holds else None)

    def _preference(self, form: Form) -> tuple[int, int, int, int]:
        changes = abs(form.rounds - self.planning.base.spec.rounds)
        places = self.formats.index(form.format), self.pairs.index(form.pair)
        return changes, *places, form.rounds


def _price_of(best: Incumbent) -> int:
    return best.rank[1]


def _overrun_of(best: Incumbent) -> int:
    return best.rank[0]


def _formats(wished: Sequence[ClassFormat]) -> tuple[ClassFormat, ...]:
    """Give the formats to try, `any` spelt out."""
    spelt = [f for wish in wished for f in (FORMATS if wish is ClassFormat.ANY else (wish,))]
    return tuple(dict.fromkeys(spelt))
