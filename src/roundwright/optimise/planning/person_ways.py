"""What one person may do of every exercise that could be chosen, by kind of place."""

from collections.abc import Mapping
from enum import Enum

from roundwright.goals.class_wish import ClassFormat, Count, CountUnit
from roundwright.library.vocabulary import Demand
from roundwright.optimise.burst_options import burst_options
from roundwright.optimise.kit_choice import Rack
from roundwright.optimise.movement_facts import MovementFacts, facts_of_movements
from roundwright.optimise.options import PersonOptions, Place, Shelf
from roundwright.optimise.person_limits import limits_of
from roundwright.optimise.planning.named_ways import NamedWay, named, needed
from roundwright.optimise.planning.set_table import Way
from roundwright.plan.eased_in import Dose, dose_of, eased_row, own_counts
from roundwright.plan.problem import Problem

ROTATING = frozenset({ClassFormat.STATIONS, ClassFormat.STAGGERED})
"""Formats in which groups stand at different positions at once."""


Ways = list[NamedWay]
"""What somebody can do at a place; not changed once it is made."""
WayKey = tuple[str, int, str, tuple[Count, ...], bool, bool, bool]
"""Person, rounds of the class, exercise, own counts, and how the place is met."""


class Kind(Enum):
    """Which order rules hold at a place."""

    MIDDLE = "middle"
    FIRST = "first"
    LAST = "last"
    ONLY = "only"
    ANY = "any"


class PersonWays:
    """One person's ways at every exercise of a class that holds all choices.

    Parameters
    ----------
    problem : Problem
        The class; its exercises are the choices, in order.
    person_id : str
        Somebody who takes part.
    shelf : dict, optional
        Options made before for classes of the same planning.
    facts : mapping, optional
        Figures of the library's movements, where they were looked up before.
    made : dict, optional
        Ways made before for classes of the same planning.
    """

    def __init__(
        self,
        problem: Problem,
        person_id: str,
        shelf: Shelf | None = None,
        facts: Mapping[str, MovementFacts] | None = None,
        made: dict[WayKey, Ways] | None = None,
    ) -> None:
        person = problem.people[person_id]
        self._problem = problem
        self._person_id = person_id
        self.dose: Dose = dose_of(person, problem.spec, problem.rules)
        self._facts = facts or facts_of_movements(problem.library)
        self._rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
        self._limits = limits_of(person, self.dose, problem.rules, problem.spec.ban)
        self._options = PersonOptions(
            problem, person_id, self._limits, self._facts, self._rack, shelf
        )
        self._fewest = own_counts(problem, person_id)
        self._made: dict[Place, Ways] = {}
        self._known: dict[WayKey, Ways] = {} if made is None else made
        self._capped = eased_row(person, problem.rules) is not None

    def ways(self, exercise: int, kind: Kind) -> list[NamedWay]:
        """Give a person's ways to do an exercise at a kind of place, needless ones left out."""
        place = self._options.place(
            exercise + 1,
            is_first=kind in (Kind.FIRST, Kind.ONLY),
            is_last=kind in (Kind.LAST, Kind.ONLY),
        )
        if place not in self._made:
            middle = self.ways(exercise, Kind.MIDDLE) if kind is Kind.LAST else []
            alike = self._is_harmless(exercise) and all(one.signatures for one in middle)
            self._made[place] = middle if middle and alike else self._ways_at(place, exercise)
        return self._made[place]

    def _is_harmless(self, exercise: int) -> bool:
        """Say whether nothing of an exercise's own is ruled out in the last place."""
        library = self._problem.library
        name = self._problem.spec.exercises[exercise].exercise_id
        return not any(
            m.contacts_a_rep
            or m.demand(Demand.OVERHEAD)
            or m.demand(Demand.BALANCE) >= self._problem.rules.one_leg_balance
            for line in library.lines_of_exercise(name)
            for m in library.versions(line)
        )

    def _ways_at(self, place: Place, exercise: int) -> Ways:
        wishes, spec = self._wishes(exercise), self._problem.spec
        met = (place.after_burst, place.last_of_class, place.tail_possible)
        key = (self._person_id, spec.rounds, spec.exercises[exercise].exercise_id, wishes, *met)
        if key not in self._known:
            self._known[key] = needed(
                named(option, len(self.dose.rounds))
                for wish in wishes
                for option in self._options.at(place, wish)
            )
        return self._known[key]

    def has_any(self, place: int, places: int) -> bool:
        """Say whether a place, from 0, leaves the person any option, wherever they start."""
        ends = ((place == 0, place == places - 1), (False, False), (True, False), (False, True))
        rotates = self._problem.spec.format in ROTATING
        for is_first, is_last in ends if rotates else ends[:1]:
            at = self._options.place(place + 1, is_first=is_first, is_last=is_last)
            if any(self._options.at(at, wish) for wish in self._wishes(place)):
                return True
        return False

    def bursts(self) -> list[NamedWay]:
        """Give a person's bursts."""
        options = burst_options(self._problem, self._limits, self._facts, self._rack)
        return [
            NamedWay(
                Way(price=b.price, contacts=b.contacts, low_hops=b.low_hops, versions=()),
                frozenset(((0, item_id), units) for item_id, units in b.items),
                frozenset(),
            )
            for b in options
        ]

    def _wishes(self, exercise: int) -> tuple[Count, ...]:
        """Give every own count that some set could leave the person.

        The caps of the first classes depend on the whole class: the more of a kind, the
        fewer of each. With every choice at once the count is least.
        """
        fewest = self._fewest[exercise]
        if not self._capped:
            return (fewest,)
        planned = self._problem.spec.exercises[exercise]
        alone = self._problem.spec.model_copy(
            update={"exercises": (planned.model_copy(update={"position": 1}),)}
        )
        most = own_counts(self._problem.model_copy(update={"spec": alone}), self._person_id)[0]
        if most == fewest:
            return (most,)
        step = 2 if most.unit is CountUnit.REPS_ALTERNATING else 1
        return tuple(Count(value=v, unit=most.unit) for v in range(step, most.value + 1, step))
