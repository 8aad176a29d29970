"""One form of the class (format, rounds, work and rest) as tables: sets, ends, order, time.

What a person may do depends on the place only through being first after a burst or
last of the class. So there is a table for the middle and one for each end; where
groups take turns every place may be an end for somebody, and one table holds all.
The prices of the tables are below or at those of any fitted class.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from roundwright.goals.class_wish import ClassFormat
from roundwright.library.vocabulary import Pattern
from roundwright.optimise.kit_choice import Rack
from roundwright.optimise.movement_facts import facts_of_movements
from roundwright.optimise.options import Shelf
from roundwright.optimise.planning.exercise_facts import (
    ExerciseFacts,
    Neighbours,
    burst_muscle_of,
    facts_of_exercise,
    neighbours_of,
)
from roundwright.optimise.planning.least_seconds import least_seconds
from roundwright.optimise.planning.named_ways import NamedWay, joined, numbered
from roundwright.optimise.planning.person_ways import ROTATING, Kind, PersonWays, WayKey
from roundwright.optimise.planning.set_of_class import balance_before, own_price, set_rules
from roundwright.optimise.planning.set_table import Minutes, SetPrices, SetTable, Ways
from roundwright.optimise.usual_length import seconds_around, seconds_free, usual_places
from roundwright.plan.eased_in import Dose
from roundwright.plan.planning_problem import Candidate, PlanningProblem
from roundwright.plan.problem import PlannedExercise, Problem
from roundwright.plan.rule_table import WorkRest

NEVER_CHOSEN = frozenset({Pattern.CARDIO, Pattern.MOBILITY})
MOST_STAGGERED = 3
"""The largest number of staggered groups where the class does not say (P4)."""


@dataclass(frozen=True, slots=True)
class Form:
    """A format, a number of rounds, and the pair of work and rest where the tool chooses it."""

    format: ClassFormat
    rounds: int
    pair: WorkRest | None = None

    @property
    def rotates(self) -> bool:
        """Whether groups stand at different positions at once."""
        return self.format in ROTATING


Alternatives = tuple[tuple[Ways, ...], ...]


@dataclass(frozen=True)
class FormTable:
    """All that decides sets and orders of one form.

    Parameters
    ----------
    table : SetTable
        Sets; its alternatives are those of the middle of a round.
    by_kind : dict
        Alternatives by kind of place.
    seconds : dict
        By kind of place and exercise: what it takes of the class at least, in rows that
        each hold, s.
    seconds_left : int
        What the slot leaves for work and changes, s.
    fixed : dict of int to int
        Kept exercises and their place, from 0.
    never_at : frozenset of (exercise, place)
        Where the class's `keep` leaves somebody nothing.
    """

    planning: PlanningProblem
    form: Form
    choices: tuple[Candidate, ...]
    facts: tuple[ExerciseFacts, ...]
    table: SetTable
    neighbours: Neighbours
    by_kind: dict[Kind, Alternatives]
    seconds: dict[Kind, tuple[tuple[int, ...], ...]]
    seconds_left: int
    fixed: dict[int, int]
    never_at: frozenset[tuple[int, int]]

    @property
    def places(self) -> int:
        """How many exercises a round has."""
        return self.planning.places

    @property
    def time_rows(self) -> int:
        """How many rows the seconds have."""
        return len(self.table.people) if self.form.rotates else 1

    @property
    def all_ends(self) -> bool:
        """Whether every place is first and last of a round for some group."""
        return self.form.format is ClassFormat.STATIONS

    def kind_at(self, place: int) -> Kind:
        """Give the kind of a place, from 0."""
        if self.form.rotates:
            return Kind.ANY
        if self.places == 1:
            return Kind.ONLY
        ends = {0: Kind.FIRST, self.places - 1: Kind.LAST}
        return ends.get(place, Kind.MIDDLE)

    def ids(self, order: Sequence[int]) -> tuple[str, ...]:
        """Give the exercises of an order by name."""
        return tuple(self.table.exercises[e] for e in order)


def choices_of(planning: PlanningProblem) -> tuple[Candidate, ...]:
    """Give what may stand in the class: the kept exercises, then the candidates allowed."""
    base, kept = planning.base, {k.exercise_id for k in planning.kept}
    library = base.library
    gone = set(base.spec.ban)
    some = [Candidate(exercise_id=k.exercise_id, count=k.count) for k in planning.kept]
    for candidate in planning.candidates:
        lines = library.lines_of_exercise(candidate.exercise_id)
        pattern = library.versions(lines[0])[0].pattern
        if (
            candidate.exercise_id in kept
            or gone & {candidate.exercise_id, *lines}
            or pattern in NEVER_CHOSEN
        ):
            continue
        some.append(candidate)
    return tuple(some)


NamedKinds = dict[Kind, tuple[tuple[list[NamedWay], ...], ...]]
"""Ways by kind of place, exercise and person: alike for every format."""
MadeWays = dict[tuple[int, WorkRest | None], NamedKinds]
"""Ways by number of rounds and pair of work and rest."""
UNPRICED = (
    *("push_pull", "knee_hip", "recent_use", "worked_lately", "combination"),
    *("repeated_part", "unloaded_hip"),
    *("shared_mover", "grip_run", "back_run", "overhead_run", "floor_change"),
)
"""What a class that is kept whole is not priced for: it is the coach's own."""


def make_form_table(
    planning: PlanningProblem,
    form: Form,
    made: MadeWays | None = None,
    shelf: Shelf | None = None,
    ways: dict[WayKey, list[NamedWay]] | None = None,
) -> FormTable:
    """Make the tables of one form.

    Parameters
    ----------
    made : dict, optional
        Ways by number of rounds and pair, kept from one form to the next.
    shelf : dict, optional
        Options by person, exercise, place and count; fits of the same planning take them.
    ways : dict, optional
        Ways by person, exercise, place and counts.
    """
    planning = planning.with_pair(form.pair, form.format)
    choices = choices_of(planning)
    problem = _all_at_once(planning, form, choices)
    if planning.is_all_kept:
        costs = problem.costs.model_copy(update=dict.fromkeys(UNPRICED, 0))
        problem = problem.model_copy(update={"costs": costs})
    library = problem.library
    facts = tuple(facts_of_exercise(c.exercise_id, library) for c in choices)
    known_facts = facts_of_movements(library)
    makers = [PersonWays(problem, p, shelf, known_facts, ways) for p in problem.taking_part]
    known = {} if made is None else made
    length = (form.rounds, form.pair)
    if length not in known:
        known[length] = {
            kind: tuple(tuple(maker.ways(e, kind) for maker in makers) for e in range(len(choices)))
            for kind in _kinds(planning.places)
        }
    named_kinds = known[length]
    if form.rotates:
        named_kinds = {Kind.ANY: joined(tuple(named_kinds.values()))}
    rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
    keys = sorted(rack.counts)
    numbers, counts = {key: k for k, key in enumerate(keys)}, [rack.counts[key] for key in keys]
    by_kind = {kind: numbered(rows, numbers, counts) for kind, rows in named_kinds.items()}
    bursts = numbered([[maker.bursts() for maker in makers]], numbers, counts)[0]
    doses = tuple(maker.dose for maker in makers)
    rounds_of = [dose.rounds for dose in doses]
    burst = problem.spec.burst
    kept = frozenset(range(len(planning.kept)))
    return FormTable(
        planning=planning,
        form=form,
        choices=choices,
        facts=facts,
        table=_set_table(problem, form, planning, facts, doses, by_kind, bursts, counts),
        neighbours=neighbours_of(
            facts, kept, burst_muscle_of(burst.line if burst else None, library), problem.costs
        ),
        by_kind=by_kind,
        seconds={
            kind: tuple(least_seconds(row, rounds_of, problem.spec, form.format) for row in rows)
            for kind, rows in by_kind.items()
        },
        seconds_left=problem.spec.slot_s - seconds_around(problem.spec),
        fixed={e: k.position - 1 for e, k in enumerate(planning.kept) if k.position is not None},
        never_at=_never_at(planning, problem, choices),
    )


def in_other_slot(tables: FormTable, planning: PlanningProblem) -> FormTable:
    """Give the tables of a class that differs only in its slot, or in how many others are asked.

    What people may do stays.
    """
    form = tables.form
    planning = planning.with_pair(form.pair, form.format)
    problem = _all_at_once(planning, form, tables.choices)
    return replace(
        tables,
        planning=planning,
        table=replace(
            tables.table,
            minutes=_minutes(planning, problem, form.format),
            rules=set_rules(planning, tables.facts),
        ),
        seconds_left=problem.spec.slot_s - seconds_around(problem.spec),
    )


def _kinds(places: int) -> tuple[Kind, ...]:
    if places == 1:
        return (Kind.ONLY,)
    return (Kind.FIRST, Kind.LAST, Kind.MIDDLE)


def _all_at_once(planning: PlanningProblem, form: Form, choices: Sequence[Candidate]) -> Problem:
    """Give a class that holds every choice, so that each has a position to ask about."""
    exercises = tuple(
        PlannedExercise(position=k, exercise_id=c.exercise_id, count=c.count)
        for k, c in enumerate(choices, start=1)
    )
    changes = {"exercises": exercises, "rounds": form.rounds, "format": form.format, "keep": ()}
    spec = planning.base.spec.model_copy(update=changes)
    return planning.base.model_copy(update={"spec": spec})


def _never_at(
    planning: PlanningProblem, problem: Problem, choices: Sequence[Candidate]
) -> frozenset[tuple[int, int]]:
    """Give the exercises that the class's `keep` rules out at a place."""
    keep = planning.base.spec.keep
    never: set[tuple[int, int]] = set()
    for e, choice in enumerate(choices):
        for place in sorted({k.position - 1 for k in keep if k.position <= planning.places}):
            exercises = tuple(
                PlannedExercise(position=k, exercise_id=choice.exercise_id, count=choice.count)
                for k in range(1, planning.places + 1)
            )
            spec = problem.spec.model_copy(update={"exercises": exercises, "keep": keep})
            asked = problem.model_copy(update={"spec": spec})
            people = {k.person for k in keep if k.position == place + 1}
            if any(
                not PersonWays(asked, person).has_any(place, planning.places)
                for person in sorted(people & set(asked.taking_part))
            ):
                never.add((e, place))
    return frozenset(never)


def _set_table(
    problem: Problem,
    form: Form,
    planning: PlanningProblem,
    facts: Sequence[ExerciseFacts],
    doses: Sequence[Dose],
    by_kind: dict[Kind, Alternatives],
    bursts: tuple[Ways, ...],
    counts: Sequence[int],
) -> SetTable:
    costs, people = problem.costs, problem.taking_part
    lines = sorted({line for f in facts for line in f.lines})
    patterns = sorted({f.pattern for f in facts})
    versions = {slug: n for n, slug in enumerate(sorted({v for f in facts for v in f.versions}))}
    push_pull, knee_hip = balance_before(problem)
    middle = by_kind.get(Kind.MIDDLE) or next(iter(by_kind.values()))
    groups, partners = _groups(form.format, planning.places, doses, problem.spec.groups)
    return SetTable(
        people=people,
        exercises=tuple(f.exercise_id for f in facts),
        alternatives=middle,
        kit_counts=tuple(counts),
        contact_limits=tuple(d.contact_limit for d in doses),
        low_hop_limits=tuple(d.low_hop_limit for d in doses),
        pattern=tuple(patterns.index(f.pattern) for f in facts),
        line=tuple(lines.index(f.line) for f in facts),
        versions=tuple(frozenset(versions[v] for v in f.versions) for f in facts),
        parts=tuple(frozenset(lines.index(line) for line in f.lines) for f in facts),
        accessory=tuple(f.accessory for f in facts),
        jumping=tuple(f.jumping for f in facts),
        loaded=tuple(f.loaded for f in facts),
        combination=tuple(f.combination for f in facts),
        push_pull=tuple(f.push_pull for f in facts),
        knee_hip=tuple(f.knee_hip for f in facts),
        own_price=tuple(own_price(f, problem) for f in facts),
        rules=set_rules(planning, facts),
        prices=SetPrices(
            push_pull=costs.push_pull,
            knee_hip=costs.knee_hip,
            third_mass=costs.third_mass,
            further_version=costs.further_version,
            crowded_version=costs.crowded_version,
            most_versions=problem.rules.most_versions,
        ),
        burst=bursts,
        push_pull_before=push_pull,
        knee_hip_before=knee_hip,
        kit_factor=groups,
        fixed_price=partners * costs.first_timer_pair,
        minutes=_minutes(planning, problem, form.format),
    )


def _minutes(
    planning: PlanningProblem, problem: Problem, class_format: ClassFormat
) -> Minutes | None:
    """Give the price of the minutes left; None where rounds and work are the coach's own."""
    if not planning.leaves_length_open:
        return None
    return Minutes(
        seconds=usual_places(problem, class_format, problem.spec.exercises),
        free_s=seconds_free(problem),
        spare_s=problem.rules.spare_s,
        unused=problem.costs.unused_minutes,
        hurried=problem.costs.hurried_minutes,
    )


def _groups(
    class_format: ClassFormat, places: int, doses: Sequence[Dose], wished: int | None
) -> tuple[int, int]:
    """Give how often kit counts over a round, and the fewest pairs of first-timers."""
    people = len(doses)
    if class_format is ClassFormat.STATIONS:
        return max(1, min(places, people)), 0
    if class_format is ClassFormat.STAGGERED:
        return wished or MOST_STAGGERED, 0
    if class_format is ClassFormat.TOGETHER:
        return 1, 0
    firsts = sum(dose.is_first_timer for dose in doses)
    extra = firsts - max(1, people // 2)
    if people < 2 or extra <= 0:
        return 2, 0
    return 2, extra - 1 if people % 2 and extra >= 2 else extra
