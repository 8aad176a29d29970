"""A small class whose plan is written by hand, and the means to change one thing in it.

Two rounds of five exercises for two regulars of level 2. Work windows 30, 30, 30, 30, 36 s,
change 15 s after each, burst 60 s after both rounds, rest 60 s after the first:
300 + 240 + (156 + 75 + 60 + 60) + (156 + 75 + 60) + 300 = 1,482 s.
Trunk work is asked for from six places on, so that five have everything.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from roundwright.body.anatomy import Muscle, Side
from roundwright.goals.class_wish import AfterLastRound, BurstWish, ClassFormat
from roundwright.kit.inventory import KitItem
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import KitNeed, Movement
from roundwright.library.version import Step
from roundwright.library.vocabulary import (
    Demand,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)
from roundwright.plan.core import (
    Cell,
    Core,
    CoreClass,
    CoreExercise,
    PersonDose,
    Window,
    WindowKind,
)
from roundwright.plan.document import Facts
from roundwright.plan.gate.judge import judge
from roundwright.plan.gate.late import with_late_finding
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.plan.rule_table import RuleTable
from roundwright.plan.verdict import Verdict
from tests.support.builders import (
    a_catalogue,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_side,
    a_spec,
    lifting,
    mover,
    movers,
    reps,
)

WINDOWS = (30, 30, 30, 30, 36)
LIFTED = {1: "squat", 2: "press", 3: "row", 4: "hinge"}
ROPE = KitNeed(item=KitKind.ROPE, use=KitUse.SKIP)


@dataclass(frozen=True)
class Made:
    """A plan and the problem it answers, with the facts stored beside it."""

    core: Core
    problem: Problem
    facts: Facts = field(default_factory=Facts)


def verdict_of(made: Made) -> Verdict:
    """Judge a plan with its facts."""
    return with_late_finding(judge(made.core, made.problem), made.facts, made.problem)


def rules_of(made: Made) -> set[str]:
    """Give the rules that speak of a plan."""
    return {finding.rule for finding in verdict_of(made).findings}


def points_of(made: Made) -> dict[str, int]:
    """Give the terms of the price that the gate counts."""
    return {line.term: line.points for line in verdict_of(made).cost_lines}


def movements() -> dict[str, Movement]:
    """Make the small library's movements by slug, all of level 2 but the jumps and the march."""
    push, pull = StrengthFamily.VERTICAL_PUSH, StrengthFamily.HORIZONTAL_PULL
    quads = movers(Muscle.QUADS)
    made = (
        a_movement("squat", strength_family=StrengthFamily.SQUAT, kit=lifting(), muscles=quads),
        a_movement("air_squat", level=1, muscles=quads),
        a_movement("squat_jump", pattern=Pattern.JUMP, level=3, contacts_a_rep=1, muscles=quads),
        a_movement(
            "press",
            pattern=Pattern.VERTICAL_PUSH,
            strength_family=push,
            kit=lifting(),
            muscles=movers(Muscle.FRONT_DELTS),
            demands={Demand.OVERHEAD: 2},
        ),
        a_movement(
            "row",
            pattern=Pattern.HORIZONTAL_PULL,
            strength_family=pull,
            kit=lifting(),
            muscles=movers(Muscle.LATS),
        ),
        a_movement(
            "hinge",
            pattern=Pattern.HINGE,
            strength_family=StrengthFamily.HINGE,
            kit=lifting(),
            muscles=movers(Muscle.HAMSTRINGS),
        ),
        a_movement(
            "split_squat",
            pattern=Pattern.LUNGE,
            laterality=Laterality.UNILATERAL,
            muscles=movers(Muscle.GLUTES),
        ),
        a_movement(
            "march",
            pattern=Pattern.CARDIO,
            level=1,
            seconds_a_rep=1.0,
            muscles=mover(Muscle.CALVES),
        ),
        a_movement(
            "skip",
            pattern=Pattern.CARDIO,
            seconds_a_rep=0.5,
            low_hops_a_rep=1,
            rate_a_min=120,
            kit=(ROPE,),
            muscles=mover(Muscle.CALVES),
        ),
        a_movement("bridge", pattern=Pattern.HINGE, muscles=movers(Muscle.HAMSTRINGS)),
    )
    return {m.slug: m for m in made}


def library(**changed: Mapping[str, Any]) -> Catalogue:
    """Make the small library, with fields of some movements changed by keyword."""
    made = [m.model_copy(update=dict(changed.get(s, {}))) for s, m in movements().items()]
    lines = (
        a_line("squat_line", "air_squat", "squat", "squat_jump"),
        *(a_line(f"{name}_line", name) for name in ("press", "row", "hinge", "bridge")),
        a_line("split_line", "split_squat"),
        a_line("burst_line", "march", "skip"),
    )
    return a_catalogue(made, lines)


def regular(person_id: str, **changes: Any) -> ProblemPerson:
    """Make a regular of level 2 with thirty classes."""
    return a_person(person_id, **({"level": 2} | changes))


def a_class(
    people: Mapping[str, ProblemPerson] | None = None,
    catalogue: Catalogue | None = None,
    **spec: Any,
) -> Problem:
    """Make the problem of the small class."""
    values: dict[str, Any] = {
        "rounds": 2,
        "burst": BurstWish(line="burst_line", length_s=60),
        "after_last_round": AfterLastRound.BURST,
    }
    made = a_spec(
        ("squat_line", reps(10)),
        ("press_line", reps(10)),
        ("row_line", reps(10)),
        ("hinge_line", reps(10)),
        ("split_line", a_side(6)),
        **(values | spec),
    )
    items = (
        KitItem(id="rope", kind=KitKind.ROPE, count=10),
        KitItem(id="box", kind=KitKind.BOX, count=10, height=300, strength=200_000, stable=True),
        KitItem(id="chair", kind=KitKind.CHAIR, count=10, strength=200_000),
    )
    everyone = people or {p: regular(p) for p in ("p001", "p002")}
    return a_problem(
        made,
        catalogue or library(),
        everyone,
        a_kit({8000: 40}, *items),
        substitutes=("bridge_line",),
        rules=RuleTable(least_places_for_trunk=6),
    )


def steps_of(slug: str, sided: bool = False) -> tuple[Step, ...]:
    """Give one pass: both sides together, or left and then right."""
    sides = (Side.LEFT, Side.RIGHT) if sided else (Side.BOTH,)
    return tuple(Step(movement_id=slug, side=side) for side in sides)


def cells_of(person_id: str, full: int = 10, side: int = 6) -> list[Cell]:
    """Give one person's five cells: 2 x 8 kg for all but the last, which needs nothing."""
    made = [
        Cell(
            person_id=person_id,
            position=position,
            exercise_id=f"{slug}_line",
            steps=steps_of(slug),
            count=reps(full),
            unit_mass_g=8000,
            units=2,
            limited_by=slug,
        )
        for position, slug in LIFTED.items()
    ]
    made.append(
        Cell(
            person_id=person_id,
            position=5,
            exercise_id="split_line",
            steps=steps_of("split_squat", sided=True),
            count=a_side(side),
        )
    )
    return made


def a_dose(person_id: str, **changes: Any) -> PersonDose:
    """Give a regular's dose."""
    values: dict[str, Any] = {
        "person_id": person_id,
        "dose_bp": 10_000,
        "rounds": (1, 2),
        "burst": "march",
        "effort_ceiling": 8,
        "rir": 3,
    }
    return PersonDose(**(values | changes))


def newcomer_dose(person_id: str, **changes: Any) -> PersonDose:
    """Give the dose of a first class: 60 % of two rounds of two, effort 6, 5 left."""
    return a_dose(person_id, **({"dose_bp": 6000, "effort_ceiling": 6, "rir": 5} | changes))


def a_timeline(
    problem: Problem,
    works: Mapping[int, Sequence[int]],
    groups: int = 1,
    halves: Mapping[int, tuple[int, int]] | None = None,
) -> tuple[Window, ...]:
    """Write a timeline from the seconds of each round's work windows."""
    spec, made, at = problem.spec, [], 0
    rows: list[tuple[WindowKind, int, int, int]] = [
        (WindowKind.WARM_UP, spec.warm_up_s, 0, 0),
        (WindowKind.DEMONSTRATION, spec.demonstration_s, 0, 0),
    ]
    for number, windows in works.items():
        for position, length in enumerate(windows, start=1):
            if length:
                rows.append((WindowKind.WORK, length, number, position))
                rows.append((WindowKind.CHANGE, spec.change_s, number, 0))
        if spec.burst:
            rows.append((WindowKind.BURST, spec.burst.length_s, number, 0))
        if number < spec.rounds:
            rows.append((WindowKind.REST, spec.rest_s, number, 0))
    rows.append((WindowKind.COOL_DOWN, spec.cool_down_s, 0, 0))
    for kind, length, number, position in rows:
        made.append(
            Window(
                at_s=at,
                length_s=length,
                kind=kind,
                round=number,
                positions=(position,) * groups if position else (),
                halves_s=(halves or {}).get(position, ()) if position else (),
            )
        )
        at += length
    return tuple(w for w in made if w.length_s)


def a_plan(
    problem: Problem | None = None,
    cells: Iterable[Cell] | None = None,
    doses: Iterable[PersonDose] | None = None,
    groups: tuple[tuple[str, ...], ...] | None = None,
    timeline: tuple[Window, ...] | None = None,
    form: ClassFormat = ClassFormat.TOGETHER,
) -> Made:
    """Write a plan; what is not given is that of two regulars in the small class."""
    problem = problem or a_class()
    people = sorted(problem.people)
    spec = problem.spec
    core = Core(
        plan_id="00000000-0000-4000-8000-000000000001",
        revision=1,
        class_=CoreClass(
            class_id=spec.class_id,
            starts_on=spec.starts_on,
            starts_at_local=spec.starts_at_local,
            slot_s=spec.slot_s,
            room_id=spec.room_id,
            format=form,
            groups=groups or (tuple(people),),
            rounds=spec.rounds,
            positions=spec.positions,
            after_last_round=spec.after_last_round,
        ),
        exercises=tuple(
            CoreExercise(position=e.position, exercise_id=e.exercise_id, count=e.count)
            for e in spec.exercises
        ),
        people=tuple(doses if doses is not None else (a_dose(p) for p in people)),
        cells=tuple(cells if cells is not None else (c for p in people for c in cells_of(p))),
        timeline=timeline or a_timeline(problem, dict.fromkeys(range(1, spec.rounds + 1), WINDOWS)),
    )
    return Made(core, problem)


def with_core(made: Made, **changes: Any) -> Made:
    """Change fields of the core."""
    return replace(made, core=made.core.model_copy(update=changes))


def with_class(made: Made, **changes: Any) -> Made:
    """Change fields of the core's class."""
    return with_core(made, class_=made.core.class_.model_copy(update=changes))


def with_cell(made: Made, person_id: str, position: int, **changes: Any) -> Made:
    """Change fields of one person's cells at one place."""
    cells = tuple(
        c.model_copy(update=changes) if (c.person_id, c.position) == (person_id, position) else c
        for c in made.core.cells
    )
    return with_core(made, cells=cells)


def with_dose(made: Made, person_id: str, **changes: Any) -> Made:
    """Change fields of one person's dose."""
    people = tuple(
        d.model_copy(update=changes) if d.person_id == person_id else d for d in made.core.people
    )
    return with_core(made, people=people)


def with_problem(made: Made, **changes: Any) -> Made:
    """Change fields of the problem."""
    return replace(made, problem=made.problem.model_copy(update=changes))


def with_spec(made: Made, **changes: Any) -> Made:
    """Change fields of the class as booked."""
    return with_problem(made, spec=made.problem.spec.model_copy(update=changes))


def with_person(made: Made, person_id: str, **changes: Any) -> Made:
    """Change what is known of one person."""
    person = made.problem.people[person_id].model_copy(update=changes)
    return with_problem(made, people=made.problem.people | {person_id: person})


def with_movement(made: Made, slug: str, **changes: Any) -> Made:
    """Change fields of one movement of the library."""
    library = made.problem.library
    movement = library.movements[slug].model_copy(update=changes)
    changed = library.model_copy(update={"movements": library.movements | {slug: movement}})
    return with_problem(made, library=changed)


def with_line(made: Made, slug: str, **changes: Any) -> Made:
    """Change fields of one line of the library."""
    library = made.problem.library
    line = library.lines[slug].model_copy(update=changes)
    changed = library.model_copy(update={"lines": library.lines | {slug: line}})
    return with_problem(made, library=changed)
