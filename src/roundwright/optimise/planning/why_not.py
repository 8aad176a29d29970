"""Why no class is possible: the smallest clash, in named things.

Everything that is demanded is a member (`clash_members`). Members are let go one after the
other while no class becomes possible; letting go any one of those that are left makes one
possible. Each check is exact: sets and orders that hold the rules are made by `class_rules`,
and each is fitted; what cannot be fitted comes back as a cut with what it rests on.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from itertools import product

from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.goals.class_wish import ClassFormat
from roundwright.library.vocabulary import Pattern
from roundwright.optimise.clash import groups_clash
from roundwright.optimise.fit import fit
from roundwright.optimise.planning.alone import Alone
from roundwright.optimise.planning.clash_members import (
    CHOICE,
    KINDS,
    Member,
    members_of,
    without,
)
from roundwright.optimise.planning.class_rules import (
    ANYWHERE,
    ROTATING,
    ClassRules,
    Cut,
    Order,
    kind_of_place,
)
from roundwright.optimise.planning.told_clash import item_of, told_clash
from roundwright.plan.eased_in import eased_row
from roundwright.plan.number_of_groups import can_be_held
from roundwright.plan.outcome import Budget, Clash, Outcome, Status
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.rule_table import WorkRest

CHECKS = {Budget.QUICK: 100, Budget.NORMAL: 400, Budget.THOROUGH: 4_000}
"""Sets looked for and classes fitted that a budget allows; our choice."""
CHECKED_AGAIN = 20
"""Checks for one clash of a changed question; our choice."""
MOST_PLACES = 12
"""The most exercises that a round may have."""
CAPPED = frozenset({Pattern.LUNGE, Pattern.STEP, Pattern.HORIZONTAL_PUSH})
"""What the first classes cap over a whole class, so that counts depend on the other exercises."""
RESTED_ON = ("persons", "kit")
"""Kinds of members that a proof by fits names one by one."""
WITHOUT_KEEP = ("only", "first", "between", "last")
"""Kinds of places at which nothing is kept for a person."""
LIMITS = ("contacts", "low_hops", "burst")
"""Members that the clash of a fitted class names by their kind alone."""
_PLAN_ID = "00000000-0000-4000-8000-000000000000"


@dataclass(frozen=True, slots=True)
class _Reason:
    """A cut, the members that it rests on, and the state of what may widen anyone's options."""

    cut: Cut
    rests_on: frozenset[Member]
    widened: frozenset[Member]
    needed: tuple[tuple[str, int], ...] = ()


@dataclass(slots=True)
class _Checks:
    """Counted work left; the same sets are not fitted twice."""

    left: int

    def spend(self) -> bool:
        """Count one check; False when none is left."""
        self.left -= 1
        return self.left >= 0


@dataclass(slots=True)
class WhyNot:
    """Answers whether a class is possible when only some of the members are demanded."""

    planning: PlanningProblem
    seed: int
    checks: _Checks
    reasons: dict[tuple[ClassFormat, int, WorkRest | None], list[_Reason]] = field(
        default_factory=dict
    )
    alone: Alone = field(init=False)

    def __post_init__(self) -> None:
        """Begin with nothing worked out."""
        self.alone = Alone(self.seed)

    @property
    def members(self) -> tuple[Member, ...]:
        """Everything that is demanded."""
        return members_of(self.planning)

    def possible(self, held: frozenset[Member]) -> bool | None:
        """Say whether some class holds the members; None: not known within the work."""
        dropped = frozenset(self.members) - held
        asked = without(self.planning, dropped)
        places = asked.places
        free = not any(m.kind == "places" for m in held)
        unknown = False
        for number in self._numbers_of_places(asked) if free else (places,):
            lengths = product(asked.rounds_to_try, asked.pairs, _forms(asked.formats))
            for rounds, pair, form in lengths:
                timed = asked.with_pair(pair, form)
                reasons = self.reasons.setdefault((form, rounds, pair), [])
                answer = self._some_class(timed, held, dropped, number, rounds, form, reasons)
                if answer:
                    return True
                unknown = unknown or answer is None
        return None if unknown else False

    def _numbers_of_places(self, asked: PlanningProblem) -> tuple[int, ...]:
        """Give the number asked for, then fewer, then more."""
        most = min(MOST_PLACES, len(asked.candidates) + len(asked.kept))
        return (*range(asked.places, 0, -1), *range(asked.places + 1, most + 1))

    def _some_class(
        self,
        asked: PlanningProblem,
        held: frozenset[Member],
        dropped: frozenset[Member],
        places: int,
        rounds: int,
        form: ClassFormat,
        reasons: list[_Reason],
    ) -> bool | None:
        exact = frozenset(
            range(1, places + 1) if form in ROTATING else (k.position for k in asked.base.spec.keep)
        )
        rules = ClassRules(asked, held, places, form, exact)
        widened = frozenset(m for m in dropped if m.widens)
        cuts = [r.cut for r in reasons if r.widened == widened and r.rests_on <= held]
        unknown = False
        while self.checks.spend():
            order = rules.find(cuts, self.seed)
            if order is None:
                return None if unknown else False
            if not asked.base.taking_part:
                return True
            found = self._alone(asked, order, rounds, form, exact, held, widened)
            if found:
                reasons += found
                cuts += [reason.cut for reason in found]
                continue
            outcome = self._fitted(asked.concrete(order, form, rounds), form, reasons)
            if outcome.status in (Status.PROVEN, Status.FOUND):
                return True
            if any(c.kind == "groups" for c in outcome.clash):
                return None if unknown else False
            if outcome.status is Status.UNDECIDED:
                unknown = True
                cuts.append(_whole(order, exact, every_place=True))
                continue
            reason = self._reason(asked, order, outcome.clash, form, exact, held, widened)
            reasons.append(reason)
            cuts.append(reason.cut)
        return None

    def _alone(
        self,
        asked: PlanningProblem,
        order: Order,
        rounds: int,
        form: ClassFormat,
        exact: frozenset[int],
        held: frozenset[Member],
        widened: frozenset[Member],
    ) -> list[_Reason]:
        """Give the exercises of a class that by themselves ask too much kit of those held.

        What is kept for a person at a place changes what is open there: such places are
        left to the fit.
        """
        kept = asked.base.spec.keep
        if kept and form in ROTATING:
            return []
        kinds = WITHOUT_KEEP if kept else (ANYWHERE,)
        before = {m.person for some in self.reasons.values() for r in some for m in r.rests_on}
        made: list[_Reason] = []
        for position, candidate in enumerate(order, start=1):
            if kept and position in exact:
                continue
            short = self.alone.too_little(asked, candidate, form, rounds, widened, before)
            if short is None:
                continue
            rests_on = frozenset(
                m
                for m in held
                if (m.kind == "kit" and m.item in short.kit)
                or (m.kind == "persons" and m.person in short.people)
            )
            needed: tuple[tuple[str, int], ...] = ()
            if short.needed and form is ClassFormat.TOGETHER:
                needed = tuple((item, short.needed) for item in short.kit)
            for kind in kinds:
                cut = frozenset({(candidate.exercise_id, kind)})
                made.append(_Reason(cut, rests_on, widened, needed))
            before |= short.people
        return made

    def _fitted(self, problem: Problem, form: ClassFormat, reasons: Sequence[_Reason]) -> Outcome:
        """Fit a class: first only for people who were in the way before, then for all.

        What cannot be for some cannot be for all; groups that take turns depend on who is there.
        """
        named = {m.person for r in reasons for m in r.rests_on if m.kind == "persons"}
        some = {p: v for p, v in problem.people.items() if p in named}
        if form not in ROTATING and 0 < len(some) < len(problem.taking_part):
            part = problem.model_copy(update={"people": some})
            outcome = fit(part, seed=self.seed, budget=Budget.QUICK, plan_id=_PLAN_ID).outcome
            if outcome.status is Status.IMPOSSIBLE:
                return outcome
        return fit(problem, seed=self.seed, budget=Budget.QUICK, plan_id=_PLAN_ID).outcome

    def _reason(
        self,
        asked: PlanningProblem,
        order: Order,
        clash: Sequence[Clash],
        form: ClassFormat,
        exact: frozenset[int],
        held: frozenset[Member],
        widened: frozenset[Member],
    ) -> _Reason:
        """Turn the clash of one fitted class into a cut for all classes that share it."""
        places = sorted({k for c in clash for k in c.positions})
        people = {p for c in clash if c.kind in ("persons", "kept") for p in c.persons}
        if form in ROTATING:
            cut = _whole(order, exact, every_place=True)
        else:
            cut = frozenset(
                (order[k - 1].exercise_id, kind_of_place(k, len(order), exact)) for k in places
            )
            if _counts_depend_on_the_set(asked, order, places, people):
                cut |= _whole(order, exact, every_place=False)
        items = {c.item for c in clash if c.kind == "kit"}
        masses = {str(c.figures["unit_mass_g"]) for c in clash if "unit_mass_g" in c.figures}
        rests_on = frozenset(
            m
            for m in held
            if (m.kind == "kit" and m.item in items | masses)
            or (m.kind in LIMITS and any(c.kind == m.kind for c in clash))
            or (m.kind == "persons" and m.person in people)
        )
        needed = tuple(
            (str(c.figures.get("unit_mass_g", c.item)), c.figures["needed"])
            for c in clash
            if c.kind == "kit" and form is ClassFormat.TOGETHER
        )
        return _Reason(cut, rests_on, widened, needed)


def explain(
    planning: PlanningProblem,
    seed: int = DEFAULT_SEED,
    budget: Budget = Budget.NORMAL,
    *,
    proven: bool = False,
) -> tuple[Clash, ...]:
    """Give a smallest set of demands of an impossible class that cannot all hold.

    Parameters
    ----------
    planning : PlanningProblem
        A question without an answer.
    seed : int
        For ties; equal question, seed and budget give an equal clash.
    budget : Budget
        Counted work. When it runs out the clash still cannot hold, but a member
        that is not needed may be left in it; the rules of choice are then one
        member, `choice`.
    proven : bool
        Whether it is known already that no class is possible. Where the work does not even
        suffice to find that again, all demands are given: they cannot all hold.

    Returns
    -------
    tuple of Clash
        Empty when some class is possible, or, unless `proven`, when that is not known within
        the budget.
        Letting go any one member (any one person of `persons`) makes a class possible.
    """
    if not planning.base.taking_part:
        return (Clash(kind="persons"),)
    if not any(can_be_held(planning, form) for form in _forms(planning.formats)):
        people, wished = len(planning.base.taking_part), planning.base.spec.groups
        return (groups_clash(people, planning.places, wished),)
    asker = WhyNot(planning, seed, _Checks(CHECKS[budget]))
    everything = asker.members
    found = asker.possible(frozenset(everything))
    if found is None and proven:
        return told_clash(planning, everything, (), spent=True)
    if found is not False:
        return ()
    held = _smallest(asker, everything)
    reasons = [r for some in asker.reasons.values() for r in some]
    needed = [n for r in reasons if r.rests_on <= frozenset(held) for n in r.needed]
    return told_clash(planning, held, needed, spent=asker.checks.left < 0)


def still_clashes(planning: PlanningProblem, clash: Sequence[Clash], seed: int) -> bool:
    """Say whether the members of a clash, alone, cannot hold in a changed question.

    What is not settled within `CHECKED_AGAIN` checks counts as undone.
    """
    asker = WhyNot(planning, seed, _Checks(CHECKED_AGAIN))
    people = {p for c in clash if c.kind == "persons" for p in c.persons}
    named = {(c.kind, item_of(c), c.positions) for c in clash if c.kind != "persons"}
    rules = any(c.kind == "choice" for c in clash)
    held = frozenset(
        m
        for m in asker.members
        if (m.kind == "persons" and m.person in people)
        or (rules and m.kind in CHOICE)
        or (m.kind, m.item or m.person, m.positions) in named
    )
    return asker.possible(held) is False


def _smallest(asker: WhyNot, everything: Sequence[Member]) -> tuple[Member, ...]:
    """Let go whole kinds, then halves of what is left of a kind, then one at a time."""
    held = list(everything)

    def let_go(some: Sequence[Member]) -> bool:
        nonlocal held
        left = [m for m in held if m not in some]
        if len(left) < len(held) and left and asker.possible(frozenset(left)) is False:
            held = left
            return True
        return False

    proven_by = {m for some in asker.reasons.values() for r in some for m in r.rests_on}
    let_go([m for m in held if m.kind in RESTED_ON and m not in proven_by])
    hall = [m for m in held if KINDS.index(m.kind) <= KINDS.index("kept")]
    if not let_go(hall):
        let_go([m for m in held if m not in hall])
    for kind in KINDS:
        mine = [m for m in held if m.kind == kind]
        size = len(mine)
        while size >= 1:
            for start in range(0, len(mine), size):
                let_go(mine[start : start + size])
            mine = [m for m in mine if m in held]
            size = min(size, len(mine)) // 2
    before = len(held) + 1
    while len(held) < before:
        before = len(held)
        for m in tuple(held):
            let_go((m,))
    return tuple(held)


def _counts_depend_on_the_set(
    asked: PlanningProblem, order: Order, places: Sequence[int], people: Collection[str]
) -> bool:
    """Say whether lunges or push-ups of these people at these places are capped over the class."""
    base = asked.base
    rows = [eased_row(base.people[p], base.rules) for p in people]
    if not any(row and (row.lunges is not None or row.push_ups is not None) for row in rows):
        return False
    patterns = {
        movement.pattern
        for k in places
        for line in base.library.lines_of_exercise(order[k - 1].exercise_id)
        for movement in base.library.versions(line)
    }
    return bool(patterns & CAPPED)


def _forms(formats: Sequence[ClassFormat]) -> tuple[ClassFormat, ...]:
    """Give the forms to look at: `any` stands for all four."""
    if ClassFormat.ANY in formats:
        return tuple(f for f in ClassFormat if f is not ClassFormat.ANY)
    return tuple(dict.fromkeys(formats))


def _whole(order: Order, exact: frozenset[int], *, every_place: bool) -> Cut:
    """Give the cut of a whole class, in this order or in any."""
    return frozenset(
        (c.exercise_id, kind_of_place(k, len(order), exact) if every_place else ANYWHERE)
        for k, c in enumerate(order, start=1)
    )
