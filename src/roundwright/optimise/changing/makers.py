"""Options that outlive one change: most people's stay what they were from one to the next."""

from collections import OrderedDict
from collections.abc import Mapping
from hashlib import sha256

from roundwright.kit.inventory import Dumbbells, Inventory
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.optimise.instance import Alternative, RowMaker
from roundwright.optimise.kit_choice import Rack
from roundwright.optimise.movement_facts import MovementFacts, facts_of_movement
from roundwright.optimise.options import Place
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.plan.recent import Recent

MOST_KEPT = 4_000
"""How many people's places are remembered; our choice."""

MOST_DUMBBELLS = 2
"""One person holds at most so many."""

NO_LIBRARY = Catalogue(movements={}, lines={}, combinations={})
"""Stands for the library where that is looked at apart."""

Key = tuple[object, ...]

_APART = {
    "keep": (),
    "slot_s": 0,
    "exercises": (),
    "change_s": 0,
    "rest_s": 0,
    "burst": None,
    "chance_on_time_bp": 0,
}
"""Fields of a class that no option hangs on, or only by the place that it is looked up by."""


class Makers:
    """Remembers the last options that were made, by everything that they depend on."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self._most = most
        self._kept: OrderedDict[Key, list[Alternative]] = OrderedDict()
        self._people: OrderedDict[int, tuple[ProblemPerson, str]] = OrderedDict()
        self._movements: OrderedDict[int, tuple[Movement, MovementFacts, bytes]] = OrderedDict()

    def person_key(self, person: ProblemPerson) -> str:
        """Give what somebody's options hang on, as text; read once from the same object."""
        known = self._people.get(id(person))
        if known is None or known[0] is not person:
            known = self._people[id(person)] = (person, person.model_dump_json())
            while len(self._people) > self._most:
                self._people.popitem(last=False)
        return known[1]

    def movement(self, movement: Movement) -> tuple[Movement, MovementFacts, bytes]:
        """Give a movement with its figures and a digest of it; read once from the same object."""
        known = self._movements.get(id(movement))
        if known is None or known[0] is not movement:
            known = (movement, facts_of_movement(movement), _digest(movement))
            self._movements[id(movement)] = known
            while len(self._movements) > self._most:
                self._movements.popitem(last=False)
        return known

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
        self._exercises: dict[str, tuple[bytes, frozenset[str]]] = {}
        self._mine: dict[str, RowMaker] = {}

    def maker(self, person_id: str) -> RowMaker:
        """Give the maker of somebody who takes part."""
        if person_id not in self._mine:
            problem = self._problem
            if self._shared is None:
                rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
                movements = problem.library.movements.items()
                facts = {slug: self._makers.movement(m)[1] for slug, m in movements}
                self._shared = (self._base(), rack, facts)
            base, rack, facts = self._shared
            person = (base, person_id, self._makers.person_key(problem.people[person_id]))
            self._mine[person_id] = _RememberedRow(
                problem, person_id, facts, rack, self._makers, person, self
            )
        return self._mine[person_id]

    def of_exercise(self, exercise_id: str) -> tuple[bytes, frozenset[str]]:
        """Give a digest of an exercise and its versions, and which of them are banned."""
        if exercise_id not in self._exercises:
            alone = self._problem.library.only(frozenset({exercise_id}))
            self._exercises[exercise_id] = (self._digest_of(alone), self._banned(alone))
        return self._exercises[exercise_id]

    def _banned(self, library: Catalogue) -> frozenset[str]:
        """Give what of a part of the library is banned."""
        return frozenset(self._problem.spec.ban).intersection((*library.movements, *library.lines))

    def _base(self) -> bytes:
        """Give a digest of all that everybody's options at positions depend on.

        Not in it is what a place is looked up by (order rules), an exercise's own, and how many
        there are of a kit beyond what one person can use.
        """
        problem = self._problem
        library = problem.library.only(frozenset(problem.substitutes))
        apart = _APART | {"ban": tuple(sorted(self._banned(library)))}
        spec = problem.spec.model_copy(update=apart)
        alone = problem.model_copy(
            update={
                "spec": spec,
                "people": {},
                "library": NO_LIBRARY,
                "kit": self._kit_of_one(),
                "recent": Recent(),
            }
        )
        return sha256(_digest(alone) + self._digest_of(library)).digest()

    def _digest_of(self, library: Catalogue) -> bytes:
        """Give a digest of a part of the library; its movements were mostly read before."""
        movements = {s: self._makers.movement(m)[2] for s, m in library.movements.items()}
        besides = library.model_copy(update={"movements": {}})
        named = b"".join(slug.encode() + b" " + digest for slug, digest in movements.items())
        return sha256(_digest(besides) + named).digest()

    def _kit_of_one(self) -> Inventory:
        """Give the kit with no more of each than one person can use."""
        kit, movements = self._problem.kit, self._problem.library.movements.values()
        most = max((n.units for m in movements for n in m.other_kit), default=1)
        by_mass: dict[tuple[int, bool], list[Dumbbells]] = {}
        for entry in kit.dumbbells:
            by_mass.setdefault((entry.unit_mass_g, entry.in_use), []).append(entry)
        dumbbells = [
            entries[0].model_copy(
                update={
                    "count": min(sum(e.count for e in entries), MOST_DUMBBELLS),
                    "flat_sided": all(e.flat_sided for e in entries),
                }
            )
            for _, entries in sorted(by_mass.items())
        ]
        items = [i.model_copy(update={"count": min(i.count, most)}) for i in kit.items]
        return kit.model_copy(update={"dumbbells": tuple(dumbbells), "items": tuple(items)})


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
        digest = self._of_class.of_exercise(exercise_id)
        key = (*self._key, exercise_id, digest, self.wishes[at], flags, locks)
        found = self._makers.find(key)
        if found is None:
            found = super()._make(place, at)
            self._makers.keep(key, found)
        return found


def _digest(model: Problem | Catalogue | Movement) -> bytes:
    return sha256(model.model_dump_json().encode()).digest()
