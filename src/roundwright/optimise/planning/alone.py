"""Which exercises are ruled out by themselves: too little kit, whatever else is in the class.

What people could do of one exercise is taken at every kind of place, and with every count that
some class could leave them; tails and halves of windows are left aside. So less is asked here
than of a fitted class, and what cannot be here can be in no class.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.kit_choice import KitKey, Rack
from roundwright.optimise.planning.named_ways import NamedWay
from roundwright.optimise.planning.person_ways import Kind, PersonWays
from roundwright.optimise.solver import Ended, Model, Work
from roundwright.plan.planning_problem import Candidate, PlanningProblem
from roundwright.plan.problem import PlannedExercise

GROUPS = {
    ClassFormat.TOGETHER: 1,
    ClassFormat.PAIRS: 2,
    ClassFormat.STAGGERED: 3,
    ClassFormat.STATIONS: 12,
}
"""How often at most the kit goes round while everyone does an exercise once."""
KINDS = (Kind.MIDDLE, Kind.FIRST, Kind.LAST, Kind.ONLY)
_NODES = 2_000
"""Solver nodes for one check; where they run out nothing is said."""

Units = tuple[tuple[tuple[KitKey, int], ...], ...]
"""What each way of one person uses, every way once."""


@dataclass(frozen=True, slots=True)
class TooLittle:
    """People who cannot all do an exercise, and the kit that they have too little of.

    `needed` is what they need at least of the kit, where that is of one kind; else 0.
    """

    people: frozenset[str]
    kit: frozenset[str]
    needed: int


@dataclass(slots=True)
class Alone:
    """Answers for one state of what widens anyone's options; what was worked out is kept."""

    seed: int
    _makers: dict[tuple[object, ...], PersonWays] = field(default_factory=dict)
    _units: dict[tuple[object, ...], Units] = field(default_factory=dict)

    def too_little(
        self,
        asked: PlanningProblem,
        exercise: Candidate,
        form: ClassFormat,
        rounds: int,
        state: Collection[object],
        before: Collection[str],
    ) -> TooLittle | None:
        """Give who cannot all do an exercise, as few as can be told; None where all might.

        Parameters
        ----------
        state : collection
            What names the state of the question: equal states have equal options.
        before : collection of str
            People who were in the way of other exercises: they are looked at first.
        """
        people = asked.base.taking_part
        rack = Rack(asked.base.kit, asked.base.spec.room_id, asked.base.rules)
        times = GROUPS[form]
        if form is ClassFormat.STAGGERED:
            times = asked.base.spec.groups or times
        counts = {key: n * times for key, n in rack.counts.items()}
        for some in ([p for p in people if p in before], list(people)):
            units = {p: self._of(asked, exercise, rounds, p, frozenset(state)) for p in some}
            if some and not self._fits(units, counts):
                return self._least(units, counts, before)
        return None

    def _least(
        self, units: Mapping[str, Units], counts: Mapping[KitKey, int], before: Collection[str]
    ) -> TooLittle:
        """Let go people, then kit, one after the other, while there is still too little."""
        held = dict(units)
        for person in sorted(units, key=lambda p: (p in before, p)):
            fewer = {p: u for p, u in held.items() if p != person}
            if fewer and not self._fits(fewer, counts):
                held = fewer
        short = dict(counts)
        for key in sorted(counts):
            fewer_kinds = {k: n for k, n in short.items() if k != key}
            if not self._fits(held, fewer_kinds):
                short = fewer_kinds
        needed = 0
        if len(short) == 1:
            (only,) = short
            needed = sum(min(dict(way).get(only, 0) for way in ways) for ways in held.values())
        names = frozenset(str(mass_g) if mass_g else item for mass_g, item in short)
        return TooLittle(frozenset(held), names, needed)

    def _fits(self, units: Mapping[str, Units], counts: Mapping[KitKey, int]) -> bool:
        """Say whether everyone may have a way within the kit; also where that is not settled."""
        model = Model()
        use: dict[KitKey, list[tuple[int, float]]] = {}
        for ways in units.values():
            row = [model.add(cost=0, upper=1, whole=True) for _ in ways]
            model.row([(n, 1.0) for n in row], low=1, high=1)
            for n, way in zip(row, ways, strict=True):
                for key, number in way:
                    use.setdefault(key, []).append((n, float(number)))
        tight = {
            key: terms
            for key, terms in use.items()
            if key in counts and sum(number for _, number in terms) > counts[key]
        }
        if not tight:
            return True
        for key, terms in sorted(tight.items()):
            model.row(terms, high=counts[key])
        work = Work(nodes_left=_NODES, groupings_left=0, swaps_left=0)
        return model.solve(work, self.seed).ended is not Ended.INFEASIBLE

    def _of(
        self,
        asked: PlanningProblem,
        exercise: Candidate,
        rounds: int,
        person: str,
        state: frozenset[object],
    ) -> Units:
        """Give the kit of every way of one person, those that use no less left out."""
        key = (exercise.exercise_id, exercise.count, rounds, person, state)
        if key not in self._units:
            choices = _choices(asked)
            maker_key = (rounds, person, state)
            if maker_key not in self._makers:
                self._makers[maker_key] = _maker(asked, choices, rounds, person)
            at = [c.exercise_id for c in choices].index(exercise.exercise_id)
            maker = self._makers[maker_key]
            self._units[key] = _leanest(w for kind in KINDS for w in maker.ways(at, kind))
        return self._units[key]


def _choices(asked: PlanningProblem) -> tuple[Candidate, ...]:
    """Give everything that could be in the class, each once."""
    kept = {k.exercise_id: Candidate(exercise_id=k.exercise_id, count=k.count) for k in asked.kept}
    return tuple(({c.exercise_id: c for c in asked.candidates} | kept).values())


def _maker(
    asked: PlanningProblem, choices: Sequence[Candidate], rounds: int, person: str
) -> PersonWays:
    exercises = tuple(
        PlannedExercise(position=k, exercise_id=c.exercise_id, count=c.count)
        for k, c in enumerate(choices, start=1)
    )
    changes = {"exercises": exercises, "rounds": rounds, "keep": ()}
    spec = asked.base.spec.model_copy(update=changes)
    return PersonWays(asked.base.model_copy(update={"spec": spec}), person)


def _leanest(ways: Iterable[NamedWay]) -> Units:
    """Keep each use of kit once, and none that another one's is a part of."""
    uses = {way.kit for way in ways}
    return tuple(
        tuple(sorted(use)) for use in sorted(uses, key=sorted) if not any(o < use for o in uses)
    )
