"""How a hall, a class and today's wishes become the question 'which class?'.

Keeps what the coach gives or keeps, offers the rest of the library, and says in words
what cannot be asked. Which choice is good is left to the planner and the gate.
"""

from dataclasses import dataclass, field
from datetime import date

from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.goals.class_wish import (
    ClassFormat,
    ClassWish,
    ExerciseWish,
    KeptCell,
    Pace,
    WorkRestWish,
)
from roundwright.hall.hall import Hall
from roundwright.library.catalogue import Catalogue
from roundwright.plan.build_problem import build_problem
from roundwright.plan.core import Core
from roundwright.plan.menu_table import MenuTable, default_count, may_be_proposed
from roundwright.plan.piece_table import PIECE_LINES
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import ClassSpec, Problem
from roundwright.plan.recent import Recent
from roundwright.plan.work_rest import fitting_pairs

EVERY_FORMAT = (
    ClassFormat.TOGETHER,
    ClassFormat.PAIRS,
    ClassFormat.STAGGERED,
    ClassFormat.STATIONS,
)
"""What `any` stands for, in the order in which ties are broken."""
MOST_PLACES = 12
OTHERS = 2
"""In so many exercises another class differs from those shown, where one can; our choice."""


@dataclass(frozen=True, slots=True)
class KeptWish:
    """An exercise that is to stay, at its place when one is given."""

    exercise_id: str
    position: int | None = None


@dataclass(frozen=True, slots=True)
class PlanWishes:
    """What the coach wants of this one class beyond its file.

    `ban` names versions and lines that nobody is given, and combinations; `leave_out`
    takes exercises from the choice and nothing more. `besides` are sets already shown.
    `work_rest` says who chooses the pair, or gives seconds of work and of change.
    With `anew` the file's own exercises are proposed like any other, not kept.
    """

    keep: tuple[KeptWish, ...] = ()
    ban: tuple[str, ...] = ()
    leave_out: frozenset[str] = frozenset()
    besides: tuple[tuple[str, ...], ...] = ()
    places: int | None = None
    class_format: ClassFormat | None = None
    rounds: tuple[int, ...] = ()
    work_rest: WorkRestWish | tuple[int, int] | None = None
    anew: bool = False
    menu: MenuTable = field(default_factory=MenuTable)


def build_planning(
    hall: Hall,
    class_id: str,
    on: date | None = None,
    recent: Recent | None = None,
    wishes: PlanWishes | None = None,
) -> PlanningProblem:
    """Give the planning problem of one class of a hall.

    Parameters
    ----------
    hall : Hall
        A hall as read and checked.
    class_id : str
        The class's slug.
    on : date, optional
        For a class that has a weekday: the earliest date it may be held on.
    recent : Recent, optional
        What the hall did before it; nothing when left out.
    wishes : PlanWishes, optional
        What is asked of this class beyond its file.

    Raises
    ------
    NotFoundError
        No such class.
    BadInputError
        With every wish that cannot be: unknown names, places that are too few or taken twice.
    """
    asked = wishes or PlanWishes()
    wish = _class_of(hall, class_id)
    if not asked.anew:
        _refuse_twice(wish, class_id)
    usual = asked.places or places_of(wish, asked.menu)
    kept = _merged(() if asked.anew else given_exercises(wish, usual), asked.keep)
    places = asked.places or max(usual, len(kept))
    _refuse_faults(hall.catalogue, kept, places, asked)
    bare = wish.model_copy(
        update={
            "exercise": (),
            "keep": _kept_cells(wish, kept),
            "ban": tuple(dict.fromkeys((*wish.ban, *asked.ban))),
            "format": asked.class_format or wish.format,
            "groups": None if asked.class_format not in (None, wish.format) else wish.groups,
            "rounds": asked.rounds[0] if asked.rounds else wish.rounds,
        }
        | _lengths(wish, asked)
    )
    classes = {**hall.classes, class_id: bare}
    base = build_problem(hall.model_copy(update={"classes": classes}), class_id, on)
    work_s = bare.work_s if bare.pace is Pace.TIMED else None
    _refuse_no_pair(base, bare.work_rest)
    counts = {e.exercise: e.count for e in wish.exercise if e.count is not None}
    candidates = _candidates(hall.catalogue, base, kept, asked)
    may_follow = work_s is not None
    return PlanningProblem(
        base=_with_library(hall, base, kept, candidates, recent or Recent()),
        places=places,
        kept=tuple(
            KeptExercise(
                exercise_id=k.exercise_id,
                count=counts.get(k.exercise_id)
                or default_count(hall.catalogue, k.exercise_id, work_s, asked.menu),
                follows_work=may_follow and k.exercise_id not in counts,
                position=k.position,
            )
            for k in kept
        ),
        candidates=tuple(
            Candidate(
                exercise_id=e,
                count=counts.get(e) or default_count(hall.catalogue, e, work_s, asked.menu),
                follows_work=may_follow and e not in counts,
            )
            for e in candidates
        ),
        formats=EVERY_FORMAT if bare.format is ClassFormat.ANY else (bare.format,),
        rounds_choice=_rounds_choice(wish, asked),
        work_rest=bare.work_rest,
        besides=tuple(tuple(sorted(shown)) for shown in asked.besides),
        others=OTHERS if asked.besides else 1,
    )


def build_chosen(
    hall: Hall, core: Core, recent: Recent, planned: ClassSpec | None = None
) -> Problem:
    """Give the problem of a class that the tool chose, with people, limits and kit as they are now.

    Parameters
    ----------
    hall : Hall
        The hall as it is.
    core : Core
        The plan: its exercises, counts, format and rounds are the class.
    recent : Recent
        What the choice was priced with.
    planned : ClassSpec, optional
        The class as it was planned: who chose, and its work, change and pair. Without it
        the exercises were the tool's and the lengths the class's own.

    Raises
    ------
    NotFoundError
        When the hall no longer has the plan's class.
    BadInputError
        When its room or its time is no longer there.
    """
    booked = core.class_
    wish = _class_of(hall, booked.class_id)
    chosen = sorted(core.exercises, key=lambda e: e.position)
    standing = tuple(KeptWish(e.exercise_id, e.position) for e in chosen)
    exercises = tuple(ExerciseWish(exercise=e.exercise_id, count=e.count) for e in chosen)
    asked = wish.model_copy(
        update={
            "exercise": exercises,
            "keep": _kept_cells(wish, standing),
            "format": booked.format,
            "rounds": booked.rounds,
        }
    )
    classes = {**hall.classes, booked.class_id: asked}
    today = hall.model_copy(update={"classes": classes})
    problem = build_problem(today, booked.class_id, booked.starts_on)
    said: dict[str, object] = {"chosen_by": "tool"}
    if planned is not None:
        said = {name: getattr(planned, name) for name in ("chosen_by", "length_by", "work_rest")}
        said |= {"change_s": planned.change_s} if planned.pace is Pace.TIMED else {}
    spec = problem.spec.model_copy(update=said)
    return problem.model_copy(update={"spec": spec, "recent": recent})


def given_exercises(wish: ClassWish, places: int) -> tuple[KeptWish, ...]:
    """Give the exercises of a class's file as kept ones, for a round of so many places.

    A written position holds, and so does the place of an exercise at which something is
    kept for a person. A complete class without positions stays in its order. All others
    may stand anywhere, as `order = "free"` says.
    """
    written = any(e.position for e in wish.exercise)
    in_order = places == len(wish.exercise) and wish.order != "free" and not written
    kept_at = frozenset() if written else frozenset(cell.position for cell in wish.keep)
    return tuple(
        KeptWish(e.exercise, e.position or (k if in_order or k in kept_at else None))
        for k, e in enumerate(wish.exercise, start=1)
    )


def is_complete(wish: ClassWish, menu: MenuTable | None = None) -> bool:
    """Say whether a class's file gives every exercise of its round."""
    return places_of(wish, menu) <= len(wish.exercise)


def places_of(wish: ClassWish, menu: MenuTable | None = None) -> int:
    """Give how many exercises a round has: as written, else the usual number or all given."""
    return max(wish.places or (menu or MenuTable()).places, len(wish.exercise))


def _class_of(hall: Hall, class_id: str) -> ClassWish:
    wish = hall.classes.get(class_id)
    if wish is None:
        known = tuple(hall.classes)
        near = nearest_names(class_id, known) or tuple(sorted(known))
        listed = f" Nearest: {', '.join(near)}." if near else " The hall has no classes."
        raise NotFoundError(f"There is no class '{class_id}' in this hall.{listed}")
    return wish


def _refuse_twice(wish: ClassWish, class_id: str) -> None:
    names = [e.exercise for e in wish.exercise]
    faults = [
        Fault(
            code="name.duplicate",
            file=f"classes/{class_id}.toml",
            field=f"exercise {k + 1}: exercise",
            value=name,
            remedy="A class that is planned has an exercise once; fit this one as it is.",
        )
        for k, name in enumerate(names)
        if name in names[:k]
    ]
    if faults:
        raise BadInputError(faults)


def _merged(given: tuple[KeptWish, ...], more: tuple[KeptWish, ...]) -> tuple[KeptWish, ...]:
    """Add what is kept on top; a place said now replaces the one of the file."""
    kept = {k.exercise_id: k for k in given}
    for one in more:
        known = kept.get(one.exercise_id)
        kept[one.exercise_id] = one if one.position is not None or known is None else known
    return tuple(kept.values())


def _kept_cells(wish: ClassWish, kept: tuple[KeptWish, ...]) -> tuple[KeptCell, ...]:
    """Give the kept cells whose exercise still stands at their place."""
    written = {e.position or k: e.exercise for k, e in enumerate(wish.exercise, start=1)}
    standing = {k.position: k.exercise_id for k in kept if k.position is not None}
    return tuple(
        cell
        for cell in wish.keep
        if cell.position in standing and standing[cell.position] == written.get(cell.position)
    )


def _lengths(wish: ClassWish, asked: PlanWishes) -> dict[str, object]:
    """Give what is asked of work and rest; only a timed class has any."""
    said = asked.work_rest
    if said is None:
        return {}
    if wish.pace is not Pace.TIMED and said is not WorkRestWish.OWN:
        raise BadInputError(
            [_fault("work_rest", _shown_pair(said), 'a class with pace = "timed", or own')]
        )
    if isinstance(said, WorkRestWish):
        return {"work_rest": said}
    work_s, change_s = said
    return {"work_s": work_s, "change_s": change_s, "work_rest": WorkRestWish.OWN}


def _shown_pair(said: WorkRestWish | tuple[int, int]) -> str:
    return said.value if isinstance(said, WorkRestWish) else f"{said[0]}:{said[1]}"


def _refuse_no_pair(base: Problem, wish: WorkRestWish) -> None:
    if wish is not WorkRestWish.OWN and not fitting_pairs(base, wish):
        expected = "own, as no pair of the table fits those who take part"
        raise BadInputError([_fault("work_rest", wish.value, expected)])


def _rounds_choice(wish: ClassWish, asked: PlanWishes) -> tuple[int, ...]:
    if asked.rounds:
        return asked.rounds if len(asked.rounds) > 1 else ()
    if not wish.rounds_choice:
        return ()
    return tuple(dict.fromkeys((wish.rounds, *wish.rounds_choice)))


def _candidates(
    catalogue: Catalogue, base: Problem, kept: tuple[KeptWish, ...], asked: PlanWishes
) -> tuple[str, ...]:
    banned = frozenset(base.spec.ban)
    taken = {k.exercise_id for k in kept} | asked.leave_out | set(asked.ban)
    return tuple(
        e
        for e in sorted((*catalogue.lines, *catalogue.combinations))
        if e not in taken
        and may_be_proposed(catalogue, e)
        and not any(
            banned.issuperset(catalogue.lines[line].versions)
            for line in catalogue.lines_of_exercise(e)
        )
    )


def _with_library(
    hall: Hall,
    base: Problem,
    kept: tuple[KeptWish, ...],
    candidates: tuple[str, ...],
    recent: Recent,
) -> Problem:
    used = {k.exercise_id for k in kept} | set(candidates) | set(base.substitutes)
    used |= hall.catalogue.lines.keys() & set(PIECE_LINES)
    used |= {r.exercise_id for r in recent.exercises if hall.catalogue.has_exercise(r.exercise_id)}
    if base.spec.burst is not None:
        used.add(base.spec.burst.line)
    return base.model_copy(
        update={"library": hall.catalogue.only(frozenset(used)), "recent": recent}
    )


def _refuse_faults(
    catalogue: Catalogue, kept: tuple[KeptWish, ...], places: int, asked: PlanWishes
) -> None:
    exercises = frozenset(catalogue.lines) | frozenset(catalogue.combinations)
    faults = []
    taken: dict[int, str] = {}
    for one in kept:
        if one.exercise_id not in exercises:
            faults.append(_unknown("keep", one.exercise_id, exercises))
        elif one.exercise_id in asked.ban or one.exercise_id in asked.leave_out:
            faults.append(
                _fault("ban", one.exercise_id, "something that is not kept at the same time")
            )
        if one.position is None:
            continue
        if not 1 <= one.position <= places:
            faults.append(
                _fault("keep", f"{one.exercise_id}@{one.position}", f"a place from 1 to {places}")
            )
        elif one.position in taken:
            expected = f"another place: {taken[one.position]} stands there"
            faults.append(_fault("keep", f"{one.exercise_id}@{one.position}", expected))
        else:
            taken[one.position] = one.exercise_id
    if not 1 <= places <= MOST_PLACES:
        faults.append(_fault("places", str(places), f"1 to {MOST_PLACES}"))
    elif len(kept) > places:
        expected = f"at least {len(kept)}, as so many exercises are kept"
        faults.append(_fault("places", str(places), expected))
    known = exercises | frozenset(catalogue.movements)
    faults += [_unknown("ban", name, known) for name in asked.ban if name not in known]
    if faults:
        raise BadInputError(faults)


def _fault(field_name: str, value: str, expected: str) -> Fault:
    return Fault(
        code="field.value", file="wishes", field=field_name, value=value, expected=expected
    )


def _unknown(field_name: str, name: str, known: frozenset[str]) -> Fault:
    return Fault(
        code="name.unknown",
        file="wishes",
        field=field_name,
        value=name,
        expected="a name of the library",
        nearest=nearest_names(name, known),
    )
