"""The search within one form of the class: the next promising order, and what is ruled out.

Everything that was learnt (exact prices, extras, fitted orders) stays; each stage of
the search makes its own cuts from it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

from roundwright.optimise.planning.coupling import Coupling, Stand
from roundwright.optimise.planning.form_table import FormTable
from roundwright.optimise.planning.order import Best, OrderRules, best_orders
from roundwright.optimise.planning.person_ways import Kind
from roundwright.optimise.planning.set_master import SetMaster
from roundwright.optimise.planning.set_parts import Cut, EndPrices, MasterAnswer
from roundwright.optimise.solver import Ended
from roundwright.plan.core import Core, WindowKind

MOST_ON_A_PATH = 40
"""Up to so many exercises the master sees the order; our choice."""
HASTY_AFTER = 4
"""Solves of the master after which a first class need not wait for exact prices; our choice."""

MOST_ALIKE = 3
"""Up to so many places the ends say the whole order."""

Place = tuple[frozenset[int], int, int]
"""A set with its first and last exercise: what people pay depends on no more of the order."""


@dataclass(frozen=True, slots=True)
class Next:
    """The next order to fit, or none: then `ended` says whether any is left.

    `hasty`: it need not be the most promising, but its people's prices are known.
    """

    ended: Ended
    order: tuple[int, ...] = ()
    bound: int = 0
    hasty: bool = False


@dataclass
class Stage:
    """What is sought now: least price within some overrun, or least overrun.

    Parameters
    ----------
    allowed_s : int
        The overrun that is allowed, s.
    by_time : bool
        Least overrun is sought; prices do not matter.
    """

    allowed_s: int = 0
    by_time: bool = False


@dataclass
class FormSearch:
    """One form's tables with all that is known about its sets and orders.

    `before` has searched the same form in another slot; what it learnt of people and orders holds.
    """

    tables: FormTable
    seed: int
    effort: float
    before: "FormSearch | None" = None
    bound: int = 0
    closed: bool = False
    masters: int = 0
    fitted: dict[tuple[Place, tuple[int, ...]], None] = field(default_factory=dict)
    _extras: dict[frozenset[Stand], int | None] = field(default_factory=dict)
    _orders: dict[frozenset[int], dict[tuple[int, int], Best]] = field(default_factory=dict)
    _dismissed: dict[Place, int] = field(default_factory=dict)
    _ruled_out: set[tuple[frozenset[int], int | None, int | None]] = field(default_factory=set)

    def __post_init__(self) -> None:
        table = self.tables.table
        by_kind = {kind.value: rows for kind, rows in self.tables.by_kind.items()}
        if self.before is None:
            self.coupling = Coupling(table, by_kind, self.seed)
        else:
            self.coupling = self.before.coupling
            self._extras, self._orders = self.before._extras, self.before._orders
            self._ruled_out = self.before._ruled_out
            self.before = None
        self.order_rules = OrderRules(
            names=table.exercises,
            neighbours=self.tables.neighbours,
            fixed=self.tables.fixed,
            never_at=self.tables.never_at,
            ring=self.tables.form.rotates,
            all_ends=self.tables.all_ends,
        )
        kept = bool(self.tables.planning.base.spec.keep)
        self.on_path = len(table.exercises) <= MOST_ON_A_PATH or kept
        self.by_order = kept or (self.on_path and self.order_counts)

    @property
    def order_counts(self) -> bool:
        """Whether the order between the ends tells who meets whom: where groups take turns."""
        return self.tables.form.rotates and self.tables.places > MOST_ALIKE

    def stands(self, order: Sequence[int]) -> tuple[Stand, ...]:
        """Give the stands of an order."""
        return tuple((e, self.tables.kind_at(k).value) for k, e in enumerate(order))

    def people_bound(self, order: Sequence[int], known: int | None = None) -> int | None:
        """Give a bound for what people pay in an order; None: it can't be.

        Parameters
        ----------
        known : int, optional
            A class of this price is known: a bound above it need not be sharp.
        """
        stands, enough = self.stands(order), self._enough(order, known)
        together = self.coupling.least(stands).price
        if together is not None and (enough is None or together < enough):
            together = self.coupling.joint(stands).price
        return None if together is None else together + self.tables.table.fixed_price

    def _enough(self, order: Sequence[int], known: int | None) -> int | None:
        """Give what people must pay, the fixed price apart, for an order to be above a class."""
        if known is None:
            return None
        return known + 1 - self.class_price(order) - self.tables.table.fixed_price

    def class_price(self, order: Sequence[int]) -> int:
        """Give the price of the class (P3): set and neighbours."""
        table, neighbours = self.tables.table, self.tables.neighbours
        pairs = list(pairwise(order))
        if self.tables.form.rotates and len(order) > 2:
            pairs.append((order[-1], order[0]))
        return (
            table.set_price(frozenset(order))
            - table.fixed_price
            + sum(int(neighbours.price[a, b]) for a, b in pairs)
        )

    def misplaced(self, order: Sequence[int], core: Core) -> bool:
        """Say whether a group starts or ends its round with what may not be next to the burst."""
        if not self.tables.form.rotates:
            return False
        works = [window for window in core.timeline if window.kind is WindowKind.WORK]
        here = [window.positions for window in works if window.round == 1]
        ends = {position - 1 for row in here[:1] + here[-1:] for position in row}
        return any(bool(self.tables.neighbours.not_at_ends[order[k]]) for k in ends)

    def key(self, order: Sequence[int]) -> tuple[Place, tuple[int, ...]]:
        """Give what decides what people pay: set and ends, with kept cells or turns the order."""
        whole = tuple(order) if self.by_order else ()
        return (frozenset(order), order[0], order[-1]), whole

    def next(
        self,
        stage: Stage,
        masters_left: int,
        *,
        hasty: bool = False,
        any_class: bool = False,
        known: int | None = None,
    ) -> Next:
        """Give the cheapest order neither ruled out nor fitted, and the bound of all left.

        Parameters
        ----------
        masters_left : int
            How many solves of the master may be spent; at the end: no order, and a limit.
        hasty : bool
            Where prices still rise after some solves, be content with the cheapest order of
            exercises whose prices are exact: the bound is that of all left nevertheless.
        any_class : bool
            No class is known yet: where the master sees the order and finds none within its
            effort, take a set without it, and its best order.
        known : int, optional
            The price of a class that is known: orders above it need not be told apart.
        """
        bound = 0
        for _ in range(masters_left):
            answer = self._solve(stage, known=known)
            self.masters += 1
            if not answer.order:
                lost = any_class and self.on_path and answer.ended is Ended.LIMIT
                some = self._order_off_the_path(stage) if lost else None
                if some is not None:
                    bound = self._with_burst(answer.bound, stage)
                    return Next(Ended.LIMIT, some, bound, hasty=True)
                return Next(answer.ended, bound=self._with_burst(answer.bound, stage))
            bound = self._with_burst(answer.bound, stage)
            stands = self.stands(answer.order)
            risen = [stand for stand in stands if self.coupling.strengthen(stand)]
            if risen:
                sure = self._sure_order(stage) if hasty and self.masters >= HASTY_AFTER else None
                if sure is not None:
                    return Next(Ended.LIMIT, sure, bound, hasty=True)
                continue
            order = self._best_order(answer.order)
            if order is None:
                continue
            return Next(answer.ended, order, bound)
        return Next(Ended.LIMIT, bound=bound)

    def _with_burst(self, bound: int, stage: Stage) -> int:
        return bound if stage.by_time else bound + (self.coupling.burst or 0)

    def _sure_order(self, stage: Stage) -> tuple[int, ...] | None:
        """Give the cheapest order of exercises whose prices are exact, if there is one."""
        self.masters += 1
        answer = self._solve(stage, sure=True)
        return self._best_order(answer.order) if answer.order else None

    def _order_off_the_path(self, stage: Stage) -> tuple[int, ...] | None:
        """Give the best order of a cheap set that was chosen without regard to its order."""
        for _ in range(HASTY_AFTER):
            self.masters += 1
            answer = self._solve(stage, on_path=False)
            order = self._ordered(answer.order) if answer.order else None
            if order is not None or not answer.order:
                return order
        return None

    def _best_order(self, order: tuple[int, ...]) -> tuple[int, ...] | None:
        """Give the best order with the same ends, or rule the ends or the set out."""
        return order if self.by_order else self._ordered(order)

    def _ordered(self, order: tuple[int, ...]) -> tuple[int, ...] | None:
        chosen = frozenset(order)
        if chosen not in self._orders:
            self._orders[chosen] = best_orders(chosen, self.order_rules)
        found = self._orders[chosen]
        if not found:
            self._ruled_out.add((chosen, None, None))
            return None
        if (order[0], order[-1]) not in found:
            self._ruled_out.add((chosen, order[0], order[-1]))
            return None
        return found[order[0], order[-1]][2]

    def learn(self, order: Sequence[int], known: int | None) -> None:
        """Look at the extras of an order's stands; the master then knows them.

        `known` is the price of the best class so far, if there is one.
        """
        cuts = self.coupling.cuts(self.stands(order), self._enough(order, known))
        for part, extra in cuts.items():
            self._extras[part] = extra
        bound = self.people_bound(order, known)
        if not self.on_path and bound is not None:
            self._dismissed[self.key(order)[0]] = bound + self._side_by_side(order)

    def _side_by_side(self, order: Sequence[int]) -> int:
        """Give the neighbours' price of an order where the master does not see it, else 0."""
        if self.on_path:
            return 0
        return (
            self.class_price(order)
            - self.tables.table.set_price(frozenset(order))
            + (self.tables.table.fixed_price)
        )

    def _solve(
        self,
        stage: Stage,
        *,
        sure: bool = False,
        on_path: bool = True,
        known: int | None = None,
    ) -> MasterAnswer:
        if self.coupling.burst is None:
            return MasterAnswer(Ended.INFEASIBLE, frozenset(), (), 0, 0.0)
        tables = self.tables
        master = SetMaster(
            table=tables.table,
            neighbours=tables.neighbours if self.on_path and on_path else None,
            ring=tables.form.rotates,
            fixed=tables.fixed,
            never_at=sorted(tables.never_at),
            cuts=self._cuts(stage),
        )
        return master.solve(
            self._ends(lambda e, kind: self._price(e, kind, sure)),
            seconds=[self._seconds(row) for row in range(tables.time_rows)],
            at_most_s=None if stage.by_time else tables.seconds_left + stage.allowed_s,
            by_time=stage.by_time,
            known=None if known is None or stage.by_time else known - self.coupling.burst,
            effort=self.effort,
            seed=self.seed,
        )

    def _price(self, exercise: int, kind: Kind, sure: bool) -> int | None:
        alone = self.coupling.alone((exercise, kind.value))
        return alone.price if alone.exact or not sure else None

    def _seconds(self, row: int) -> EndPrices:
        return self._ends(lambda e, kind: self.tables.seconds[kind][e][row])

    def _ends(self, value: Callable[[int, Kind], int | None]) -> EndPrices:
        """Give a figure of every exercise by where it stands; None: it may not."""
        tables, places = self.tables, self.tables.places
        exercises = range(len(tables.table.exercises))
        kinds = (
            tables.kind_at(1) if places > 2 else None,
            tables.kind_at(0),
            tables.kind_at(places - 1),
        )
        not_at_ends = tables.neighbours.not_at_ends
        rows: list[tuple[int | None, ...]] = []
        for where, kind in enumerate(kinds):
            barred = tables.all_ends or where > 0
            rows.append(
                tuple(
                    None
                    if kind is None or (barred and not_at_ends[e])
                    else self._if_any(value, e, kind)
                    for e in exercises
                )
            )
        return EndPrices(*rows)

    def _if_any(
        self, value: Callable[[int, Kind], int | None], exercise: int, kind: Kind
    ) -> int | None:
        possible = self.coupling.alone((exercise, kind.value)).price is not None
        return value(exercise, kind) if possible else None

    def _cuts(self, stage: Stage) -> list[Cut]:
        """Make the cuts of a stage from all that is known."""
        cuts = [
            Cut(chosen, None, first=first, last=last)
            for chosen, first, last in sorted(
                self._ruled_out, key=lambda r: (sorted(r[0]), r[1] or 0, r[2] or 0)
            )
        ]
        for part, extra in sorted(self._extras.items(), key=lambda item: sorted(item[0])):
            if extra is None or not stage.by_time:
                cuts.append(self._cut_of(part, extra))
        for (chosen, first, last), whole in self.fitted:
            cuts.append(Cut(chosen, None, first=first, last=last, order=whole))
        for place, price in self._dismissed.items() if not stage.by_time else ():
            chosen, first, last = place
            cuts.append(Cut(chosen, price - self._alone(place), first=first, last=last))
        return cuts

    def _alone(self, place: Place) -> int:
        """Give what the master counts for the people of a set with its ends."""
        stands = self._stands_of(place)
        return self.coupling.sum_alone(stands) + self.tables.table.fixed_price

    def _stands_of(self, place: Place) -> tuple[Stand, ...]:
        chosen, first, last = place
        inner = sorted(chosen - {first, last})
        return self.stands((first, *inner, last) if first != last else (first,))

    @cached_property
    def _alike_everywhere(self) -> frozenset[int]:
        """Exercises whose people have the same ways wherever they stand."""
        first, *others = self.tables.by_kind.values()
        return frozenset(
            e for e, row in enumerate(first) if all(other[e] == row for other in others)
        )

    def _cut_of(self, part: frozenset[Stand], extra: int | None) -> Cut:
        """Turn stands into a cut; an exercise that is alike everywhere stands anywhere."""
        anywhere, middle = set(), set()
        first = last = None
        for e, kind in sorted(part):
            if e in self._alike_everywhere:
                anywhere.add(e)
            elif kind == Kind.FIRST.value:
                first = e
            elif kind == Kind.LAST.value:
                last = e
            elif kind == Kind.MIDDLE.value:
                middle.add(e)
            else:
                anywhere.add(e)
        return Cut(frozenset(anywhere), extra, frozenset(middle), first, last)
