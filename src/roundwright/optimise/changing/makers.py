"""Options that outlive one change: most people's stay what they were from one to the next."""

from collections import OrderedDict
from collections.abc import Mapping
from hashlib import sha256

from roundwright.library.catalogue import Catalogue
from roundwright.optimise.instance import Alternative, RowMaker
from roundwright.optimise.kit_choice import Rack
from roundwright.optimise.movement_facts import MovementFacts, facts_of_movement
from roundwright.optimise.options import Place
from roundwright.plan.problem import Problem

MOST_KEPT = 4_000
"""How many people's places are remembered; our choice."""

Key = tuple[object, ...]


class Makers:
    """Remembers the last options that were made, by everything that they depend on."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self._most = most
        self._kept: OrderedDict[Key, list[Alternative]] = OrderedDict()

    def of(self, problem: Problem) -> "ClassMakers":
        """Give the makers of one class."""
        return ClassMakers(self, problem)

    def find(self, key: Key) -> list[Alternative] | None:
        """Give options that were made for an equal question."""
        found = self._kept.get(key)
        if found is not None:
            self._kept.move_to_end(key)
        return found

    def keep(self, key: Key, made: list[Alternative]) -> None:
        """Remember options; those unused for longest are forgotten."""
        self._kept[key] = made
        while len(self._kept) > self._most:
            self._kept.popitem(last=False)


class ClassMakers:
    """The makers of one class, each made when its person is first asked for."""

    def __init__(self, makers: Makers, problem: Problem) -> None:
        self._makers = makers
        self._problem = problem
        self._shared: tuple[bytes, Rack, dict[str, MovementFacts]] | None = None
        self._exercises: dict[str, bytes] = {}
        self._mine: dict[str, RowMaker] = {}

    def maker(self, person_id: str) -> RowMaker:
        """Give the maker of somebody who takes part."""
        if person_id not in self._mine:
            problem = self._problem
            if self._shared is None:
                rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
                facts = {s: facts_of_movement(m) for s, m in problem.library.movements.items()}
                self._shared = (self._base(), rack, facts)
            base, rack, facts = self._shared
            person = (base, person_id, problem.people[person_id].model_dump_json())
            self._mine[person_id] = _RememberedRow(
                problem, person_id, facts, rack, self._makers, person, self
            )
        return self._mine[person_id]

    def exercise_digest(self, exercise_id: str) -> bytes:
        """Give a digest of an exercise and its versions as the library has them."""
        if exercise_id not in self._exercises:
            alone = self._problem.library.only(frozenset({exercise_id}))
            self._exercises[exercise_id] = _digest(alone)
        return self._exercises[exercise_id]

    def _base(self) -> bytes:
        """Give a digest of all that everybody's options depend on, whatever the exercise."""
        problem = self._problem
        spec = problem.spec.model_copy(
            update={"keep": (), "slot_s": 0, "exercises": (), "change_s": 0}
        )
        burst = () if spec.burst is None else (spec.burst.line,)
        library = problem.library.only(frozenset((*problem.substitutes, *burst)))
        alone = problem.model_copy(update={"spec": spec, "people": {}, "library": library})
        return _digest(alone)


class _RememberedRow(RowMaker):
    """A maker that looks up what was made for an equal question before."""

    def __init__(
        self,
        problem: Problem,
        person_id: str,
        facts: Mapping[str, MovementFacts],
        rack: Rack,
        makers: Makers,
        key: Key,
        of_class: ClassMakers,
    ) -> None:
        super().__init__(problem, person_id, facts, rack)
        self._problem = problem
        self._makers = makers
        self._key = key
        self._of_class = of_class
        self._locks: dict[int, list[tuple[object, ...]]] = {}
        for k in problem.spec.keep:
            if k.person == person_id:
                lock = (k.version, k.mass_g, k.rests, k.instead)
                self._locks.setdefault(k.position, []).append(lock)

    def _make(self, place: Place, at: int) -> list[Alternative]:
        locks = tuple(self._locks.get(at + 1, ()))
        if any(instead is not None for *_, instead in locks):
            return super()._make(place, at)
        exercise_id = self._problem.spec.exercises[at].exercise_id
        flags = (place.after_burst, place.last_of_class, place.tail_possible)
        digest = self._of_class.exercise_digest(exercise_id)
        key = (*self._key, exercise_id, digest, self.wishes[at], flags, locks)
        found = self._makers.find(key)
        if found is None:
            found = super()._make(place, at)
            self._makers.keep(key, found)
        return found


def _digest(model: Problem | Catalogue) -> bytes:
    return sha256(model.model_dump_json().encode()).digest()
