"""Which sets and orders the rules of choice allow at all (P2), as one exact model.

An exercise stands at a place or not; every rule can be left out, so that the reason
for an empty answer can be found. People, kit and prices are not in here: sets that they
rule out come back as cuts.
"""

from collections.abc import Callable, Collection, Iterable

from ortools.sat.python import cp_model

from roundwright.body.anatomy import Muscle
from roundwright.foundation.errors import RoundwrightError
from roundwright.goals.class_wish import ClassFormat
from roundwright.library.vocabulary import Pattern
from roundwright.optimise.planning.clash_members import NEEDS, Member
from roundwright.optimise.planning.exercise_facts import ExerciseFacts, facts_of_exercise
from roundwright.plan.planning_problem import Candidate, PlanningProblem

Order = tuple[Candidate, ...]
Cut = frozenset[tuple[str, str]]
"""Exercises at kinds of places (or "any") that cannot all be in one class."""

ROTATING = (ClassFormat.STAGGERED, ClassFormat.STATIONS)
ANYWHERE = "any"
_WORK = 60.0
"""Deterministic work of one solve; the largest model seen needs less than one unit."""


def kind_of_place(position: int, places: int, exact: frozenset[int]) -> str:
    """Give what a place is to the people in it: first, last, between, or itself where one is kept.

    Parameters
    ----------
    exact : frozenset of int
        Places that are like no other.
    """
    if position in exact:
        return f"place {position} of {places}"
    if places == 1:
        return "only"
    return {1: "first", places: "last"}.get(position, "between")


class ClassRules:
    """The rules of choice for one number of places and one format.

    Parameters
    ----------
    held : iterable of Member
        Which rules are demanded; members of other kinds are passed over.
    places : int
        How many exercises a round has here.
    exact : frozenset of int
        Places that cuts must name one by one.
    """

    def __init__(
        self,
        planning: PlanningProblem,
        held: Iterable[Member],
        places: int,
        class_format: ClassFormat,
        exact: frozenset[int],
    ) -> None:
        self._planning = planning
        self._library = planning.base.library
        self._places = places
        self._format = class_format
        self._exact = exact
        self._held = {(m.kind, m.item): m for m in held}
        kept = [Candidate(exercise_id=k.exercise_id, count=k.count) for k in planning.kept]
        self._kept = frozenset(k.exercise_id for k in planning.kept)
        banned = set(planning.base.spec.ban)
        choice = [
            c
            for c in planning.candidates
            if c.exercise_id not in self._kept and c.exercise_id not in banned
        ]
        facts = {
            c.exercise_id: facts_of_exercise(c.exercise_id, self._library) for c in (*kept, *choice)
        }
        unfit = (Pattern.CARDIO, Pattern.MOBILITY)
        self._choice = {
            c.exercise_id: c
            for c in (*choice, *kept)
            if c.exercise_id in self._kept or facts[c.exercise_id].pattern not in unfit
        }
        self._facts = facts
        self._model = cp_model.CpModel()
        self._at: dict[tuple[str, int], cp_model.IntVar] = {
            (e, k): self._model.new_bool_var(f"{e}@{k}")
            for e in self._choice
            for k in self._positions()
        }
        self._places_filled()
        self._set_rules()
        self._order_rules()

    def find(self, cuts: Iterable[Cut], seed: int) -> Order | None:
        """Give some class that holds the rules and no cut, or None: there is none.

        Raises
        ------
        RoundwrightError
            When the solver ends without an answer: a fault of ours.
        """
        model = self._model.clone()
        for cut in cuts:
            if not cut:
                return None
            terms = [self._literal(model, e, kind) for e, kind in sorted(cut)]
            model.add(sum(sum(t) for t in terms) <= len(terms) - 1)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = seed % 2**31
        solver.parameters.max_deterministic_time = _WORK
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE:
            return None
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            raise RoundwrightError(f"the search for a set ended with {solver.status_name(status)}")
        order: list[Candidate] = []
        for k in self._positions():
            order += [c for e, c in self._choice.items() if solver.value(self._at[e, k])]
        return tuple(order)

    def _literal(
        self, model: cp_model.CpModel, exercise_id: str, kind: str
    ) -> list[cp_model.IntVar]:
        return [
            model.get_bool_var_from_proto_index(self._at[exercise_id, k].index)
            for k in self._positions()
            if exercise_id in self._choice
            and kind in (ANYWHERE, kind_of_place(k, self._places, self._exact))
        ]

    def _positions(self) -> range:
        return range(1, self._places + 1)

    def _in(self, exercise_id: str) -> cp_model.LinearExprT:
        return sum(self._at[exercise_id, k] for k in self._positions())

    def _places_filled(self) -> None:
        for k in self._positions():
            self._model.add(sum(self._at[e, k] for e in self._choice) == 1)
        for e in self._choice:
            self._model.add(self._in(e) == 1 if e in self._kept else self._in(e) <= 1)
        for one in self._planning.kept:
            if one.position is None:
                continue
            if one.position > self._places:
                self._model.add_bool_or([])
            else:
                self._model.add(self._at[one.exercise_id, one.position] == 1)

    def _where(self, holds: Callable[[ExerciseFacts], bool]) -> list[str]:
        return [e for e in self._choice if holds(self._facts[e])]

    def _of_muscle(self, muscle: Muscle) -> list[str]:
        return [e for e in self._choice if self._facts[e].muscle is muscle]

    def _kept_where(self, holds: Callable[[ExerciseFacts], bool]) -> int:
        return sum(holds(self._facts[e]) for e in self._kept)

    def _at_most(self, kind: str, item: str, holds: Callable[[ExerciseFacts], bool]) -> None:
        """Hold a cap; what the kept exercises alone break is not held against the rest."""
        member = self._held.get((kind, item))
        if member is not None:
            most = max(member.figure, self._kept_where(holds))
            self._model.add(sum(self._in(e) for e in self._where(holds)) <= most)

    def _set_rules(self) -> None:
        for pattern in Pattern:
            self._at_most("pattern_cap", pattern.value, _of_patterns({pattern}))
        self._at_most("jumping_cap", "", lambda t: t.jumping)
        self._at_most("combinations_cap", "", lambda t: t.combination)
        self._at_most("accessories_cap", "", lambda t: t.accessory)
        for line in sorted({line for f in self._facts.values() for line in f.lines}):
            self._at_most("line_cap", "", _holding(line))
        free = self._places - len(self._kept)
        loaded = self._held.get(("loaded_least", ""))
        if loaded is not None:
            least = min(loaded.figure, self._kept_where(lambda t: t.loaded) + free)
            self._model.add(sum(self._in(e) for e in self._where(lambda t: t.loaded)) >= least)
        for name, patterns in NEEDS.items():
            if ("coverage", name) in self._held and free > 0:
                mine = self._where(_meets(patterns))
                self._model.add(sum(self._in(e) for e in mine) >= 1)
        if ("same_line", "") in self._held:
            self._versions_once()
        if ("besides", "") in self._held:
            for shown in {frozenset(s) for s in self._planning.besides}:
                if shown <= self._choice.keys() and len(shown) == self._places:
                    self._model.add(sum(self._in(e) for e in sorted(shown)) < self._places)

    def _versions_once(self) -> None:
        for version in sorted({v for t in self._facts.values() for v in t.versions}):
            mine = [e for e in self._choice if version in self._facts[e].versions]
            new = [e for e in mine if e not in self._kept]
            if len(new) < len(mine):
                self._model.add(sum(self._in(e) for e in new) == 0)
            else:
                self._model.add(sum(self._in(e) for e in new) <= 1)

    def _order_rules(self) -> None:
        rotating = self._format in ROTATING
        if ("neighbours", "") in self._held and self._places > 1:
            pairs = [(k, k + 1) for k in range(1, self._places)]
            if rotating and self._places > 2:
                pairs.append((self._places, 1))
            for muscle in sorted({t.muscle for t in self._facts.values()}):
                mine = self._of_muscle(muscle)
                for one, other in pairs:
                    self._apart(mine, one, other)
        burst = self._planning.base.spec.burst
        if burst is not None and ("beside_burst", burst.line) in self._held:
            self._beside_burst(facts_of_exercise(burst.line, self._library).muscle)

    def _apart(self, mine: list[str], one: int, other: int) -> None:
        """Keep exercises of one muscle from being neighbours, unless both are kept."""
        new = [e for e in mine if e not in self._kept]
        if not new:
            return
        for first, second in ((mine, new), (new, mine)):
            self._model.add(
                sum(self._at[e, one] for e in first) + sum(self._at[e, other] for e in second) <= 1
            )

    def _beside_burst(self, muscle: Muscle) -> None:
        """Keep the burst's muscle from what somebody does first or last; kept ones may stand."""
        mine = [e for e in self._of_muscle(muscle) if e not in self._kept]
        last, ends = self._places, {1, self._places}
        if self._format is ClassFormat.STATIONS:
            groups = min(last, len(self._planning.base.taking_part))
            ends |= set(range(1, groups + 1)) | set(range(1, groups))
        for k in sorted(ends):
            self._model.add(sum(self._at[e, k] for e in mine) == 0)
        if self._format is ClassFormat.STAGGERED and last > 1:
            offsets = [self._model.new_bool_var(f"offset {d}") for d in range(1, last)]
            self._model.add_bool_or(offsets)
            for d, offset in enumerate(offsets, start=1):
                beside = [self._at[e, k] for e in mine for k in (d, d + 1)]
                self._model.add(sum(beside) == 0).only_enforce_if(offset)


def _of_patterns(patterns: Collection[Pattern]) -> Callable[[ExerciseFacts], bool]:
    return lambda facts: facts.pattern in patterns


def _holding(line: str) -> Callable[[ExerciseFacts], bool]:
    return lambda facts: line in facts.lines


def _meets(patterns: Collection[Pattern]) -> Callable[[ExerciseFacts], bool]:
    """Give what meets a need of coverage: of such a pattern, its main line no accessory."""
    return lambda facts: facts.pattern in patterns and not facts.main_accessory
