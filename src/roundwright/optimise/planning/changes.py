"""Changes that may give a class where there is none: each one idea, mildest form first.

Nothing is promised here: `ways_out` solves each again and lists only what then works.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from roundwright.goals.class_wish import AfterLastRound, ClassFormat, Count, CountUnit
from roundwright.optimise.planning.clash_members import Member, with_more, without
from roundwright.plan.outcome import Clash, WayOut
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem

KINDS = (
    "free_place",
    "any_groups",
    "format",
    "drop_ban",
    "show_again",
    "let_go_cell",
    "fewer_reps",
    "no_last_burst",
    "shorter_burst",
    "no_burst",
    "more_jumping",
    "more_of_a_pattern",
    "more_combinations",
    "more_accessories",
    "more_of_a_line",
    "let_go_kept",
    "fewer_places",
    "more_places",
    "without_coverage",
    "leave_out",
    "round_less",
    "sit_out",
    "more_kit",
    "several",
)
"""Ways out, the least change first; our choice."""
FORMATS = (
    ClassFormat.TOGETHER,
    ClassFormat.PAIRS,
    ClassFormat.STAGGERED,
    ClassFormat.STATIONS,
)
SHARES = (90, 75, 60, 50)
"""How much of each count is tried where less is to be done, %; our choice."""
NEVER = 99
"""More places than any round has: from so many on nothing must be covered."""
MOST_STEPS = 6
"""So many sizes of one change are tried at most; our choice."""


@dataclass(frozen=True, slots=True)
class Change:
    """One change: how it is told, and the question that it leaves. `disturbed` counts people."""

    way: WayOut
    question: PlanningProblem | Problem
    disturbed: int = 0


Idea = Sequence[Change]
"""One change in rising size: the first that works is enough."""


def of_planning(planning: PlanningProblem, clash: Sequence[Clash]) -> Iterator[Idea]:
    """Give what may help a class that is to be chosen."""
    base, rules = planning.base, planning.base.rules
    kinds = {c.kind for c in clash}
    if kinds & {"kit", "neighbours", "groups"}:
        free = with_spec(base, groups=None)
        if base.spec.groups is not None:
            yield (_changed(planning, "any_groups", base=free),)
        for form in FORMATS:
            if form not in planning.formats:
                yield (_changed(planning, "format", item=form.value, formats=(form,), base=free),)
    for c in clash:
        member = Member(c.kind, c.item)
        if c.kind == "ban":
            yield (_freed(planning, WayOut(kind="drop_ban", item=c.item), member),)
        elif c.kind == "kept":
            cell = Member("kept", person=c.persons[0], positions=c.positions)
            way = WayOut(kind="let_go_cell", persons=c.persons, positions=c.positions)
            yield (_freed(planning, way, cell, disturbed=1),)
        elif c.kind == "kept_exercise":
            yield from _of_kept(planning, c)
        elif c.kind == "kit":
            yield _of_kit(planning, c)
    for name, rule in (("four", "least_places_for_four"), ("trunk", "least_places_for_trunk")):
        items = {c.item for c in clash if c.kind == "coverage"}
        if any((item == "trunk") == (name == "trunk") for item in items):
            yield (_ruled(planning, "without_coverage", {rule: NEVER}),)
    if "pattern_cap" in kinds:
        items = {c.item for c in clash if c.kind == "pattern_cap"}
        more = rules.most_of_a_pattern + 1
        changes = {"most_of_a_pattern": more}
        for item in sorted(items):
            yield (_ruled(planning, "more_of_a_pattern", changes, item=item, number=more),)
    for kind, more_of, name in (
        ("jumping_cap", "more_jumping", "most_jumping"),
        ("combinations_cap", "more_combinations", "most_new_combinations"),
        ("accessories_cap", "more_accessories", "most_accessories"),
        ("line_cap", "more_of_a_line", "most_of_a_line"),
    ):
        if kind in kinds:
            more = getattr(rules, name) + 1
            yield (_ruled(planning, more_of, {name: more}, number=more),)
    if "besides" in kinds:
        yield (_changed(planning, "show_again", besides=()),)
    if "places" in kinds or ("groups" in kinds and base.spec.groups is not None):
        yield from _of_places(planning)
    if kinds & {"contacts", "low_hops", "burst", "beside_burst"}:
        yield from _of_effort(planning, base)


def _changed(
    planning: PlanningProblem,
    kind: str,
    item: str = "",
    figures: dict[str, int] | None = None,
    **changes: object,
) -> Change:
    way = WayOut(kind=kind, item=item, figures=figures or {})
    return Change(way, planning.model_copy(update=changes))


def _freed(planning: PlanningProblem, way: WayOut, member: Member, disturbed: int = 0) -> Change:
    return Change(way, without(planning, frozenset({member})), disturbed)


def _ruled(
    planning: PlanningProblem,
    kind: str,
    changes: dict[str, int],
    item: str = "",
    number: int = 0,
) -> Change:
    rules = planning.base.rules.model_copy(update=changes)
    figures = {"number": number} if number else {}
    base = planning.base.model_copy(update={"rules": rules})
    return _changed(planning, kind, item, figures, base=base)


def _of_kept(planning: PlanningProblem, c: Clash) -> Iterator[Idea]:
    kept = tuple(
        k.model_copy(update={"position": None}) if k.exercise_id == c.item else k
        for k in planning.kept
    )
    if c.positions:
        way = WayOut(kind="free_place", item=c.item, positions=c.positions)
        yield (Change(way, planning.model_copy(update={"kept": kept})),)
    way = WayOut(kind="let_go_kept", item=c.item)
    yield (_freed(planning, way, Member("kept_exercise", c.item, positions=c.positions)),)


def _of_kit(question: PlanningProblem | Problem, c: Clash) -> Idea:
    """Give one more unit, or one more pair of a mass, then more, up to what is short."""
    mass_g = c.figures.get("unit_mass_g", 0)
    step = 2 if mass_g else 1
    short = c.figures.get("needed", 0) - c.figures.get("there", 0)
    enough = -(-max(short, step) // step)
    numbers = sorted({*range(1, MOST_STEPS), enough})[:MOST_STEPS]
    name = str(mass_g) if mass_g else c.item
    base = question.base if isinstance(question, PlanningProblem) else question
    made = []
    for number in numbers:
        kit = with_more(base.kit, {name: number * step})
        more = base.model_copy(update={"kit": kit})
        figures = {"units": number * step} | ({"unit_mass_g": mass_g} if mass_g else {})
        made.append(
            Change(
                WayOut(kind="more_kit", item=c.item, figures=figures),
                question.model_copy(update={"base": more})
                if isinstance(question, PlanningProblem)
                else more,
            )
        )
    return made


def _of_places(planning: PlanningProblem) -> Iterator[Idea]:
    kept, most = planning.kept, len(planning.candidates) + len(planning.kept)
    least = max([len(kept), 1, *(k.position or 0 for k in kept)])
    fewer = range(planning.places - 1, least - 1, -1)
    more = range(planning.places + 1, min(12, most) + 1)
    for kind, numbers in (("fewer_places", fewer), ("more_places", more)):
        yield [
            _changed(planning, kind, figures={"places": n}, places=n)
            for n in list(numbers)[:MOST_STEPS]
        ]


def _of_effort(planning: PlanningProblem, base: Problem) -> Iterator[Idea]:
    for idea in of_effort(base):
        changes: dict[str, object] = {}
        made = []
        for change in idea:
            if not isinstance(change.question, Problem):
                continue
            changes = {"base": change.question}
            if change.way.kind == "round_less":
                changes["rounds_choice"] = ()
            if change.way.kind == "fewer_reps":
                share = change.way.figures["per_cent"]
                changes |= {
                    name: tuple(
                        e.model_copy(update={"count": _part(e.count, share)})
                        for e in getattr(planning, name)
                    )
                    for name in ("kept", "candidates")
                }
            made.append(Change(change.way, planning.model_copy(update=changes), change.disturbed))
        yield made


def of_effort(problem: Problem) -> Iterator[Idea]:
    """Give less work in the whole class: reps, burst, rounds."""
    spec = problem.spec
    yield [
        Change(
            WayOut(kind="fewer_reps", figures={"per_cent": share}),
            with_spec(problem, exercises=_with_part(problem, share)),
        )
        for share in SHARES
    ]
    if spec.burst is not None:
        if spec.after_last_round is not AfterLastRound.NOTHING and spec.rounds > 1:
            shorter = with_spec(problem, after_last_round=AfterLastRound.NOTHING)
            yield (Change(WayOut(kind="no_last_burst"), shorter),)
        half = spec.burst.length_s // 2
        if half:
            burst = spec.burst.model_copy(update={"length_s": half})
            way = WayOut(kind="shorter_burst", figures={"seconds": half})
            yield (Change(way, with_spec(problem, burst=burst)),)
        yield (Change(WayOut(kind="no_burst"), with_spec(problem, burst=None)),)
    if spec.rounds > 1:
        way = WayOut(kind="round_less", figures={"rounds": spec.rounds - 1})
        yield (Change(way, with_spec(problem, rounds=spec.rounds - 1)),)


def with_spec(problem: Problem, **changes: object) -> Problem:
    """Give the problem with another form of class."""
    return problem.model_copy(update={"spec": problem.spec.model_copy(update=changes)})


def _with_part(problem: Problem, share: int) -> object:
    return tuple(
        e.model_copy(update={"count": _part(e.count, share)}) for e in problem.spec.exercises
    )


def _part(count: Count, per_cent: int) -> Count:
    value = max(1, count.value * per_cent // 100)
    if count.unit is CountUnit.REPS_ALTERNATING:
        value = max(2, value - value % 2)
    return Count(value=value, unit=count.unit)


def of_fit(problem: Problem, clash: Sequence[Clash]) -> Iterator[Idea]:
    """Give what may help a class whose exercises are given."""
    spec = problem.spec
    kinds = {c.kind for c in clash}
    if kinds & {"kit", "groups"} and spec.format is not ClassFormat.ANY:
        if spec.groups is not None:
            yield (Change(WayOut(kind="any_groups"), with_spec(problem, groups=None)),)
        for form in FORMATS:
            if form is not spec.format:
                way = WayOut(kind="format", item=form.value)
                yield (Change(way, with_spec(problem, format=form, groups=None)),)
    for c in clash:
        if c.kind == "kit":
            yield _of_kit(problem, c)
        if c.kind == "kept":
            keep = tuple(
                k for k in spec.keep if (k.person, k.position) != (c.persons[0], c.positions[0])
            )
            way = WayOut(kind="let_go_cell", persons=c.persons, positions=c.positions)
            yield (Change(way, with_spec(problem, keep=keep), disturbed=1),)
    yield from _bans_of(problem)
    if kinds & {"contacts", "low_hops", "burst"}:
        yield from of_effort(problem)
    if spec.positions > 1:
        for position in sorted({k for c in clash for k in c.positions}):
            yield (_left_out(problem, position),)


def _bans_of(problem: Problem) -> Iterator[Idea]:
    asked = PlanningProblem(base=problem, places=1)
    for name in dict.fromkeys(problem.spec.ban):
        freed = without(asked, frozenset({Member("ban", name)})).base
        if freed.spec.ban != problem.spec.ban:
            yield (Change(WayOut(kind="drop_ban", item=name), freed),)


def _left_out(problem: Problem, position: int) -> Change:
    """Leave one exercise out; what is kept at later places moves up with them."""
    spec = problem.spec
    exercises = [e for e in spec.exercises if e.position != position]
    gone = next(e.exercise_id for e in spec.exercises if e.position == position)
    keep = tuple(
        k.model_copy(update={"position": k.position - (k.position > position)})
        for k in spec.keep
        if k.position != position
    )
    shorter = with_spec(
        problem,
        exercises=tuple(
            e.model_copy(update={"position": k}) for k, e in enumerate(exercises, start=1)
        ),
        keep=keep,
    )
    return Change(WayOut(kind="leave_out", positions=(position,), item=gone), shorter)
