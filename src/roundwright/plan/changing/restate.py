"""A change turns the problem of a plan into today's problem: section C1 of *How a plan is changed*.

Pure: nothing is searched here. What the plan did before is given back as cells by person
and position *as the new problem counts them*, so that answers can be compared with it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.goals.class_wish import Count, CountUnit, KeptCell
from roundwright.library.catalogue import Catalogue
from roundwright.plan.changing import change as c
from roundwright.plan.changing.kit_change import with_units
from roundwright.plan.core import Core
from roundwright.plan.number_of_groups import with_groups_that_can_be
from roundwright.plan.piece_table import PIECE_LINES
from roundwright.plan.problem import ClassSpec, PlannedExercise, Problem, ProblemPerson


@dataclass(frozen=True, slots=True)
class Restated:
    """Today's problem, and what of the plan before still stands where.

    `came_from` maps each new position to the old one; an open or swapped position is
    not in it. `persons` and `positions` are those that the change names. At each of
    `open_positions` the tool is to choose an exercise.
    """

    problem: Problem
    came_from: Mapping[int, int]
    persons: frozenset[str] = frozenset()
    positions: frozenset[int] = frozenset()
    open_positions: tuple[int, ...] = ()
    rounds_dropped: int = 0
    counts_cut: bool = False


def restate(problem: Problem, core: Core, change: c.Change, library: Catalogue) -> Restated:
    """Give the problem after a change.

    Parameters
    ----------
    problem : Problem
        The problem that the plan answers.
    core : Core
        The plan as it is: its exercises, format and rounds are the class.
    change : Change
        What is asked.
    library : Catalogue
        Everything that may be put into the class.

    Raises
    ------
    BadInputError
        Somebody or something that is not in the class, a position that is not there,
        kit that the hall does not have, or a floor that would be broken.
    """
    spec = _spec_of(problem.spec, core)
    made = _restated(problem.model_copy(update={"spec": spec}), change, library)
    return replace(made, problem=with_groups_that_can_be(made.problem))


def _restated(now: Problem, change: c.Change, library: Catalogue) -> Restated:
    spec = now.spec
    same = {k: k for k in range(1, spec.positions + 1)}
    match change:
        case c.PersonLeft() | c.PersonCame() | c.PersonLimited():
            people = _people(now, change)
            kept = tuple(k for k in spec.keep if k.person in people)
            now = _with_spec(now.model_copy(update={"people": people}), keep=kept)
            return Restated(now, same, frozenset({change.person}))
        case c.KitLost() | c.KitBack():
            units = change.units if isinstance(change, c.KitBack) else -change.units
            kit = with_units(now.kit, change.unit_mass_g, change.item_id, units)
            return Restated(now.model_copy(update={"kit": kit}), same)
        case c.SlotChanged(slot_s=slot_s):
            return Restated(_with_spec(now, slot_s=slot_s), same)
        case c.ExerciseSwapped():
            return _swapped(now, change, library)
        case c.ExercisesReordered(order=order):
            return _reordered(now, order)
        case c.Banned(slug=slug):
            return _banned(now, slug, library)
        case c.CellSet() | c.CellFreed() | c.SubstituteSet() | c.SatOut():
            return Restated(
                _with_library(_with_lock(now, change, library), library),
                same,
                frozenset({change.person}),
                frozenset(),
            )
        case c.RoundDropped():
            if spec.rounds == 1:
                raise _fault("rounds", "1", "two rounds or more")
            return Restated(_with_spec(now, rounds=spec.rounds - 1), same, rounds_dropped=1)
        case c.RestsCut():
            return Restated(_rests_cut(now, change), same)
        case c.RepsCut(share_bp=share_bp):
            cut = tuple(
                e.model_copy(update={"count": _cut(e.count, share_bp)}) for e in spec.exercises
            )
            return Restated(_with_spec(now, exercises=cut), same, counts_cut=True)
        case c.BurstCut(length_s=length_s):
            return Restated(_burst_cut(now, length_s), same)
        case c.SeveralCuts(cuts=cuts):
            made = [Restated(now, same)]
            for part in cuts:
                made.append(_restated(made[-1].problem, part, library))
            return Restated(
                made[-1].problem,
                same,
                rounds_dropped=sum(one.rounds_dropped for one in made),
                counts_cut=any(one.counts_cut for one in made),
            )


def _spec_of(spec: ClassSpec, core: Core) -> ClassSpec:
    """Give the class as the plan holds it: format `any` is settled by now."""
    return spec.model_copy(update={"format": core.class_.format, "rounds": core.class_.rounds})


def _with_spec(problem: Problem, **values: object) -> Problem:
    return problem.model_copy(update={"spec": problem.spec.model_copy(update=values)})


def _people(
    problem: Problem, change: c.PersonLeft | c.PersonCame | c.PersonLimited
) -> dict[str, ProblemPerson]:
    people = dict(problem.people)
    if isinstance(change, c.PersonCame):
        if change.person in people:
            raise _fault("person", change.person, "somebody who is not in the class yet")
        people[change.person] = change.known
        return dict(sorted(people.items()))
    known = people.pop(_person(problem, change.person))
    if isinstance(change, c.PersonLimited):
        caps = dict(known.caps)
        for demand, cap in change.caps.items():
            caps[demand] = min(cap, caps.get(demand, cap))
        efforts = [e for e in (known.effort_cap, change.effort_cap) if e is not None]
        people[change.person] = known.model_copy(
            update={"caps": caps, "effort_cap": min(efforts, default=None)}
        )
    return dict(sorted(people.items()))


def _swapped(problem: Problem, change: c.ExerciseSwapped, library: Catalogue) -> Restated:
    spec = problem.spec
    position = _position(problem, change.position)
    old = spec.exercises[position - 1]
    kept = tuple(k for k in spec.keep if k.position != position)
    came_from = {k: k for k in range(1, spec.positions + 1) if k != position}
    named = frozenset({position})
    if change.exercise_id is None:
        open_spec = _with_spec(problem, keep=kept)
        return Restated(open_spec, came_from, frozenset(), named, (position,))
    new = _exercise(library, change.exercise_id)
    count = change.count or old.count
    exercises = tuple(
        PlannedExercise(position=position, exercise_id=new, count=count) if e is old else e
        for e in spec.exercises
    )
    now = _with_spec(problem, exercises=exercises, keep=kept)
    return Restated(_with_library(now, library), came_from, frozenset(), named)


def _reordered(problem: Problem, order: tuple[int, ...]) -> Restated:
    spec = problem.spec
    if sorted(order) != list(range(1, spec.positions + 1)):
        shown = ", ".join(str(k) for k in order)
        raise _fault("order", shown, f"each of 1 to {spec.positions} once")
    new_of = {old: new for new, old in enumerate(order, start=1)}
    exercises = tuple(
        spec.exercises[old - 1].model_copy(update={"position": new})
        for new, old in enumerate(order, start=1)
    )
    kept = tuple(k.model_copy(update={"position": new_of[k.position]}) for k in spec.keep)
    now = _with_spec(problem, exercises=exercises, keep=kept)
    return Restated(now, dict(enumerate(order, start=1)))


def _banned(problem: Problem, slug: str, library: Catalogue) -> Restated:
    known = (*library.movements, *library.lines)
    if slug not in known:
        raise _fault("ban", slug, "a movement or line of the library", nearest_names(slug, known))
    names = library.lines[slug].versions if slug in library.lines else (slug,)
    ban = tuple(dict.fromkeys((*problem.spec.ban, *names)))
    now = _with_spec(problem, ban=ban)
    gone = [
        e.position
        for e in problem.spec.exercises
        if any(
            set(ban).issuperset(library.lines[line].versions)
            for line in library.lines_of_exercise(e.exercise_id)
        )
    ]
    same = {k: k for k in range(1, problem.spec.positions + 1)}
    if not gone:
        return Restated(now, same)
    came_from = {k: k for k in same if k not in gone}
    return Restated(now, came_from, frozenset(), frozenset(gone), tuple(gone))


def _with_lock(
    problem: Problem,
    change: c.CellSet | c.CellFreed | c.SubstituteSet | c.SatOut,
    library: Catalogue,
) -> Problem:
    person = _person(problem, change.person)
    position = _position(problem, change.position)
    others = tuple(k for k in problem.spec.keep if (k.person, k.position) != (person, position))
    match change:
        case c.CellFreed():
            return _with_spec(problem, keep=others)
        case c.CellSet(version=version, mass_g=mass_g):
            if version is None and mass_g is None:
                raise _fault("version", "", "a version, a mass or both")
            if version is not None and version not in library.movements:
                near = nearest_names(version, tuple(library.movements))
                raise _fault("version", version, "a movement of the library", near)
            lock = KeptCell(person=person, position=position, version=version, mass_g=mass_g)
        case c.SubstituteSet(exercise_id=exercise_id):
            lock = KeptCell(
                person=person, position=position, instead=_exercise(library, exercise_id)
            )
        case c.SatOut():
            lock = KeptCell(person=person, position=position, rests=True)
    keep = sorted((*others, lock), key=lambda k: (k.person, k.position))
    return _with_spec(problem, keep=tuple(keep))


def _rests_cut(problem: Problem, change: c.RestsCut) -> Problem:
    rules, spec = problem.rules, problem.spec
    if change.rest_s > spec.rest_s or change.change_s > spec.change_s:
        raise _fault("rest_s", str(change.rest_s), "no longer rests or changes than now")
    if change.rest_s < min(rules.rest_floor_s, spec.rest_s):
        raise _fault("rest_s", str(change.rest_s), f"at least {rules.rest_floor_s} s")
    if change.change_s < min(rules.change_floor_s, spec.change_s):
        raise _fault("change_s", str(change.change_s), f"at least {rules.change_floor_s} s")
    return _with_spec(problem, rest_s=change.rest_s, change_s=change.change_s)


def _burst_cut(problem: Problem, length_s: int | None) -> Problem:
    burst = problem.spec.burst
    if burst is None:
        raise _fault("burst", "", "a class with a burst")
    if length_s is None:
        return _with_spec(problem, burst=None)
    if length_s >= burst.length_s:
        raise _fault("burst", str(length_s), f"less than {burst.length_s} s")
    return _with_spec(problem, burst=burst.model_copy(update={"length_s": length_s}))


def _cut(count: Count, share_bp: int) -> Count:
    value = max(1, count.value * share_bp // 10_000)
    if count.unit is CountUnit.REPS_ALTERNATING:
        value = max(2, value - value % 2)
    return count.model_copy(update={"value": value})


def _with_library(problem: Problem, library: Catalogue) -> Problem:
    """Give a problem whose library holds what the class, its locks and pieces may use."""
    spec = problem.spec
    known = problem.library
    used = {e.exercise_id for e in spec.exercises} | set(problem.substitutes)
    used |= {k.instead for k in spec.keep if k.instead is not None}
    used |= {r.exercise_id for r in problem.recent.exercises if known.has_exercise(r.exercise_id)}
    used |= library.lines.keys() & set(PIECE_LINES)
    if spec.burst is not None:
        used.add(spec.burst.line)
    return problem.model_copy(update={"library": library.only(frozenset(used))})


def _person(problem: Problem, person: str) -> str:
    if person not in problem.people:
        near = nearest_names(person, tuple(problem.people))
        raise _fault("person", person, "somebody who is in the class", near)
    return person


def _position(problem: Problem, position: int) -> int:
    if position > problem.spec.positions:
        raise _fault("position", str(position), f"1 to {problem.spec.positions}")
    return position


def _exercise(library: Catalogue, exercise_id: str) -> str:
    if not library.has_exercise(exercise_id):
        near = nearest_names(exercise_id, (*library.lines, *library.combinations))
        raise _fault("exercise", exercise_id, "a line or combination of the library", near)
    return exercise_id


def _fault(name: str, value: str, expected: str, nearest: tuple[str, ...] = ()) -> BadInputError:
    return BadInputError(
        [
            Fault(
                code="field.value",
                file="change",
                field=name,
                value=value,
                expected=expected,
                nearest=nearest,
            )
        ]
    )
