"""Every way in which one person can do one place of the round (sections 3, 4, 6 and 7).

An option is a version with a mass and item ids, and where it may not stand last
in the last round, an easier tail for that round.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import Count, KeptCell
from roundwright.library.version import Step
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH
from roundwright.optimise.kit_choice import ItemUse, KitKey, Rack
from roundwright.optimise.loads import Judged, PersonLoads
from roundwright.optimise.movement_facts import MovementFacts
from roundwright.optimise.person_limits import PersonLimits, facts_of_steps
from roundwright.optimise.prices import (
    could_lift,
    equals_price,
    held_back_price,
    levels_above,
    load_price,
    target_of,
    version_price,
)
from roundwright.optimise.versions import Version, versions_of
from roundwright.plan.core import CellState
from roundwright.plan.counts_of_version import in_total
from roundwright.plan.problem import Problem
from roundwright.plan.timeline import has_burst_after

LIFTED_PATTERNS = frozenset({*KNEE, *HIP, *PUSH, *PULL})
"""Main patterns for which somebody who could lift is expected to (section 8)."""


@dataclass(frozen=True, slots=True)
class Doing:
    """What a person does at a place in one round, with what, and how surely."""

    steps: tuple[Step, ...]
    count: Count
    signature: tuple[str, ...]
    mass_g: int
    units: int
    items: tuple[ItemUse, ...]
    chance_bp: int
    limited_by: str | None
    seconds: int
    contacts: int
    low_hops: int

    @property
    def kit(self) -> tuple[tuple[KitKey, int], ...]:
        """Everything in use: dumbbells by mass, items by id, with units."""
        held = (((self.mass_g, ""), self.units),) if self.units else ()
        return held + tuple(((0, item_id), units) for item_id, units in self.items)


@dataclass(frozen=True, slots=True)
class Option:
    """One way for one person to do one place; `main` is None for sitting out."""

    state: CellState
    exercise_id: str | None
    main: Doing | None
    tail: Doing | None
    price: int
    kept: bool = False
    cut_short: bool = False

    @property
    def last(self) -> Doing | None:
        """What is done in the last round of the class."""
        return self.tail or self.main

    @property
    def signatures(self) -> frozenset[tuple[str, ...]]:
        """The versions that the room sees; a substitute has no say in them."""
        if self.state is not CellState.DO:
            return frozenset()
        return frozenset(d.signature for d in (self.main, self.tail) if d is not None)

    @property
    def mass_g(self) -> int:
        """The mass of one dumbbell, 0 when none is used."""
        return self.main.mass_g if self.main is not None else 0


def in_class(main: Doing, tail: Doing | None, rounds: int) -> tuple[int, int]:
    """Give the landings and low hops over a class of someone who does some rounds."""
    if tail is None:
        return main.contacts * rounds, main.low_hops * rounds
    return (
        main.contacts * (rounds - 1) + tail.contacts,
        main.low_hops * (rounds - 1) + tail.low_hops,
    )


@dataclass(frozen=True, slots=True)
class Place:
    """Where a person meets an exercise, and which order rules hold there."""

    position: int
    after_burst: bool
    last_of_class: bool
    tail_possible: bool


ShelfKey = tuple[str, int, str, Count, bool, bool, bool, tuple[KeptCell, ...]]
"""Person, rounds, exercise, own count, how the place is met, and what is kept there."""
Shelf = dict[ShelfKey, tuple[Option, ...]]
"""Options made once for many classes of the same people, kit, rules and library."""


class PersonOptions:
    """Makes one person's options, with everything looked up once.

    Parameters
    ----------
    shelf : dict, optional
        Options of classes that differ from this one in nothing but their exercises, counts,
        format, rounds, slot and what is kept: they are taken from it and put there.
    """

    def __init__(
        self,
        problem: Problem,
        person_id: str,
        limits: PersonLimits,
        facts: Mapping[str, MovementFacts],
        rack: Rack,
        shelf: Shelf | None = None,
    ) -> None:
        self._shelf: Shelf = {} if shelf is None else shelf
        self._problem = problem
        self._person_id = person_id
        self._limits = limits
        self._facts = facts
        self._rack = rack
        self._loads = PersonLoads(limits)
        self._stand_ins: dict[tuple[str, Count, bool, bool], tuple[Option, ...]] = {}

    def at(self, place: Place, wish: Count) -> tuple[Option, ...]:
        """Give all options at a place; empty only when `keep` leaves none."""
        spec, position = self._problem.spec, place.position
        kept = tuple(k for k in spec.keep if k.person == self._person_id and k.position == position)
        name = spec.exercises[position - 1].exercise_id
        met = (place.after_burst, place.last_of_class, place.tail_possible)
        key = (self._person_id, spec.rounds, name, wish, *met, kept)
        if key not in self._shelf:
            self._shelf[key] = self._made(place, wish, kept)
        return self._shelf[key]

    def _made(self, place: Place, wish: Count, kept: Sequence[KeptCell]) -> tuple[Option, ...]:
        if any(k.rests for k in kept):
            return (self._sitting_out(kept=True),)
        options = self._unlocked(place, wish, next((k.instead for k in kept if k.instead), None))
        if not kept:
            options = options or (self._sitting_out(kept=False),)
        else:
            options = tuple(
                replace(o, kept=True) for o in options if all(_holds(o, keep) for keep in kept)
            )
        return _not_cut_short(self._own_level_first(options))

    def _own_level_first(self, options: tuple[Option, ...]) -> tuple[Option, ...]:
        """Leave out versions above the person's level where another is left (rule 11)."""
        return tuple(o for o in options if not self._is_above(o)) or options

    def _is_above(self, option: Option) -> bool:
        if option.main is None:
            return False
        movements = facts_of_steps(option.main.steps, self._facts)
        return levels_above(movements, self._limits) > 0

    def _unlocked(self, place: Place, wish: Count, instead: str | None) -> tuple[Option, ...]:
        """Give the options of the class's exercise, or of the one that the coach put in its place.

        Other lines stand in only where the class's own exercise has no version.
        """
        exercise_id = self._problem.spec.exercises[place.position - 1].exercise_id
        if instead is not None:
            if _is_uneven(instead, self._problem):
                return ()
            return self.of_exercise(instead, in_total(wish), place, CellState.SUBSTITUTE)
        options = self.of_exercise(exercise_id, wish, place, CellState.DO)
        return options or self._substitutes(exercise_id, wish, place)

    def _sitting_out(self, *, kept: bool) -> Option:
        return Option(CellState.SIT_OUT, None, None, None, self._problem.costs.sit_out, kept)

    def of_exercise(
        self, exercise_id: str, wish: Count, place: Place, state: CellState
    ) -> tuple[Option, ...]:
        """Give the options of one exercise, easy to hard, light to heavy."""
        problem, limits, costs = self._problem, self._limits, self._problem.costs
        versions = versions_of(
            exercise_id, wish, limits, problem.library, self._facts, problem.spec
        )
        combined = exercise_id in problem.library.combinations
        made: list[Option] = []
        lifting = False
        for rank, version in enumerate(versions):
            found = list(self._with_masses(versions[: rank + 1], place, state))
            judged = [j for j, _ in found]
            lifting = lifting or could_lift(version, judged, limits)
            target_g = target_of(version, judged, self._loads)
            base = (
                costs.substitute
                if state is CellState.SUBSTITUTE
                else version_price(version.movements, limits, costs)
                + equals_price(exercise_id, version.signature[0], problem.library, costs)
            )
            for one, ways in found:
                price = base + load_price(version, one, target_g, limits, costs)
                if combined:
                    held = self._loads.held_back(version, one.mass_g, self._masses(version))
                    price += held_back_price(held, costs)
                made += [
                    Option(state, exercise_id, main, tail, price, cut_short=version.cut_short)
                    for main, tail in ways
                ]
        if lifting and state is CellState.DO and self._is_for_the_whole_body(exercise_id):
            unlifted = {v.signature for v in versions if not v.lifts}
            made = [_dearer(o, costs.unloaded) if _is_one_of(o, unlifted) else o for o in made]
        return tuple(made)

    def _is_for_the_whole_body(self, exercise_id: str) -> bool:
        """Say whether an exercise's main pattern is for knees, hips, a push or a pull."""
        library = self._problem.library
        pattern = library.versions(library.lines_of_exercise(exercise_id)[0])[0].pattern
        return pattern in LIFTED_PATTERNS

    def _with_masses(
        self, versions: Sequence[Version], place: Place, state: CellState
    ) -> Iterator[tuple[Judged, list[tuple[Doing, Doing | None]]]]:
        """Give each allowed mass of the last version, with every way to equip it."""
        version, limits = versions[-1], self._limits
        for mass_g in self._masses(version):
            mains = self._doings(version, mass_g)
            if not mains:
                continue
            if place.after_burst and limits.breaks_after_burst(version.movements, mass_g):
                continue
            tails: list[Doing | None] = [None]
            if place.last_of_class and limits.breaks_last_place(version.movements, mass_g):
                if not place.tail_possible or state is CellState.SUBSTITUTE:
                    continue
                tails = list(self._tails(versions[:-1], mass_g, place))
            ways = [
                (main, tail) for main in mains for tail in tails if self._within_limits(main, tail)
            ]
            if ways:
                yield Judged(mass_g, mains[0].chance_bp), ways

    def _tails(self, easier: Sequence[Version], mass_g: int, place: Place) -> list[Doing]:
        """Give the hardest easier version that may stand last, in every way to equip it."""
        for version in reversed(easier):
            held_g = mass_g if version.dumbbells else 0
            if version.dumbbells and held_g not in self._masses(version):
                continue
            breaks = self._limits.breaks_last_place(version.movements, held_g) or (
                place.after_burst and self._limits.breaks_after_burst(version.movements, held_g)
            )
            doings = [] if breaks else self._doings(version, held_g)
            if doings:
                return doings
        return []

    def _within_limits(self, main: Doing, tail: Doing | None) -> bool:
        """Say whether the landings and hops of one place alone stay within the class's limits."""
        dose = self._limits.dose
        contacts, low_hops = in_class(main, tail, len(dose.rounds))
        return contacts <= dose.contact_limit and low_hops <= dose.low_hop_limit

    def _masses(self, version: Version) -> tuple[int, ...]:
        if not version.dumbbells:
            return (0,)
        return self._rack.masses_for(version.dumbbells, version.under_hands)

    def _doings(self, version: Version, mass_g: int) -> list[Doing]:
        """Give every way to equip a version with one mass, or nothing where it is not allowed."""
        limits = self._limits
        if limits.person.is_moderate_only and any(
            limits.is_heavy_overhead(m, mass_g) for m in version.movements
        ):
            return []
        choices = self._rack.item_choices(version.movements, limits.person.body_mass_g, mass_g)
        judged = self._loads.judge(version, mass_g) if choices else None
        if judged is None:
            return []
        limiter = self._loads.limiter(version, mass_g, self._masses(version))
        return [
            Doing(
                steps=version.steps,
                count=version.count,
                signature=version.signature,
                mass_g=mass_g,
                units=version.dumbbells,
                items=items,
                chance_bp=judged.chance_bp,
                limited_by=limiter,
                seconds=version.seconds,
                contacts=version.contacts,
                low_hops=version.low_hops,
            )
            for items in choices
        ]

    def place(self, position: int, *, is_first: bool, is_last: bool) -> Place:
        """Give a place as the person meets it.

        Parameters
        ----------
        is_first, is_last : bool
            Whether the person's group does the position first or last of a round.
        """
        spec, rounds = self._problem.spec, self._limits.dose.rounds
        hurried = (
            has_burst_after(spec, 1, spec.rounds)
            and spec.rest_s < self._problem.rules.walk_after_burst_s
        )
        does_last = rounds[-1] == spec.rounds
        return Place(
            position=position,
            after_burst=is_first and len(rounds) > 1 and hurried,
            last_of_class=is_last and does_last,
            tail_possible=does_last and len(rounds) > 1,
        )

    def _substitutes(self, exercise_id: str, wish: Count, place: Place) -> tuple[Option, ...]:
        """Give other lines in place of an exercise that the person can't do in any version."""
        library = self._problem.library
        own = library.lines_of_exercise(exercise_id)
        pattern = library.versions(own[0])[0].pattern
        others = [line for line in sorted(self._problem.substitutes) if line not in own]
        alike = [line for line in others if library.versions(line)[0].pattern is pattern]
        for lines in (alike, others):
            made = [
                option for line in lines for option in self._stand_in(line, in_total(wish), place)
            ]
            if made:
                return tuple(made)
        return ()

    def _stand_in(self, line: str, count: Count, place: Place) -> tuple[Option, ...]:
        """Give the options of a line in place of something else: the same whatever it is."""
        key = (line, count, place.after_burst, place.last_of_class)
        if key not in self._stand_ins:
            self._stand_ins[key] = self.of_exercise(line, count, place, CellState.SUBSTITUTE)
        return self._stand_ins[key]


def _dearer(option: Option, points: int) -> Option:
    return replace(option, price=option.price + points)


def _is_one_of(option: Option, signatures: set[tuple[str, ...]]) -> bool:
    return option.main is not None and option.main.signature in signatures


def _not_cut_short(options: tuple[Option, ...]) -> tuple[Option, ...]:
    """Leave out what landings a set cut to a few reps where another is left (rule 12)."""
    return tuple(o for o in options if not o.cut_short) or options


def _is_uneven(exercise_id: str, problem: Problem) -> bool:
    """Say whether an exercise can be counted a side only: a whole count cannot stand for it."""
    combination = problem.library.combinations.get(exercise_id)
    sides: dict[str, int] = {}
    for part in combination.parts if combination is not None else ():
        weight = {Side.LEFT: 1, Side.RIGHT: -1}.get(part.side, 0)
        sides[part.line] = sides.get(part.line, 0) + weight * part.times
    return any(sides.values())


def _holds(option: Option, keep: KeptCell) -> bool:
    if option.main is None:
        return False
    return (keep.version is None or keep.version in option.main.signature) and (
        keep.mass_g is None or keep.mass_g == option.main.mass_g
    )
