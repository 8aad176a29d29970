"""A small class on the shipped library, written by hand, and an own reading of who may do what."""

from datetime import date, time
from typing import Any

from roundwright.body.anatomy import Side
from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.goals.class_wish import AfterLastRound, ClassFormat
from roundwright.kit.inventory import Inventory, KitItem
from roundwright.library.version import Step
from roundwright.library.vocabulary import KitKind
from roundwright.people.demand_caps import effective_limits
from roundwright.people.limitation import Amount, Concern, Limitation
from roundwright.people.person import Clearance
from roundwright.plan.core import Cell, Core, CoreClass, CoreExercise, PersonDose, Piece, PieceKind
from roundwright.plan.pieces import pieces_for
from roundwright.plan.problem import Problem, ProblemPerson
from tests.support.builders import CLASS_DAY, a_person, a_problem, a_room, a_side, a_spec, reps

LIBRARY = shipped_catalogue()
CHAIR = KitItem(id="chair", kind=KitKind.CHAIR, count=14, height=450, strength=150_000)
BOX = KitItem(id="low_box", kind=KitKind.BOX, count=8, height=200, strength=180_000, stable=True)
EXERCISES = (
    ("squats", reps(12)),
    ("rows", reps(10)),
    ("split_squats", a_side(8)),
    ("step_ups", reps(5)),
    ("presses", reps(8)),
)
MODERATE = {"impact": 0, "one_foot_landing": 0, "vigorous": 1, "fast_level_change": 1}


def limited(concern: Concern, amount: Amount = Amount.AVOID, **changes: Any) -> ProblemPerson:
    """Make a regular with one limit, as the hall would read it."""
    limit = Limitation(person_id="p001", concern=concern, amount=amount, from_on=CLASS_DAY)
    limits = effective_limits((limit,), CLASS_DAY)
    return a_person(caps=limits.caps, effort_cap=limits.effort_cap, **changes)


def jumper(**changes: Any) -> ProblemPerson:
    """Make a strong regular who may land sixty times a class."""
    return a_person(**({"level": 4, "classes_done": 60} | changes))


def a_class(people: dict[str, ProblemPerson], chairs: int = 14, **spec: Any) -> Problem:
    """Make the class of the five exercises for these people."""
    kit = Inventory(items=(CHAIR.model_copy(update={"count": chairs}), BOX))
    return a_problem(
        a_spec(*EXERCISES, **({"warm_up_s": 480} | spec)), LIBRARY, people, kit, room=a_room()
    )


def a_core(problem: Problem, jumping: frozenset[str] = frozenset()) -> Core:
    """Write the plan: everyone at an easy version, `jumping` people at the box jump."""

    def cell(person_id: str, position: int, movement: str, sides: bool = False) -> Cell:
        both = (Side.LEFT, Side.RIGHT) if sides else (Side.BOTH,)
        exercise = problem.spec.exercises[position - 1]
        return Cell(
            person_id=person_id,
            position=position,
            exercise_id=exercise.exercise_id,
            steps=tuple(Step(movement_id=movement, side=side) for side in both),
            count=exercise.count,
        )

    cells = []
    for person_id in problem.taking_part:
        cells += [cell(person_id, 1, "chair_sit_to_stand"), cell(person_id, 2, "bent_over_row")]
        cells += [cell(person_id, 3, "split_squat", sides=True)]
        jumps = person_id in jumping
        step = "box_jump" if jumps else "supported_march"
        cells += [cell(person_id, 4, step, sides=not jumps)]
        cells += [cell(person_id, 5, "standing_dumbbell_press")]
    return Core(
        plan_id="5f0c9a52-7d1e-4b11-9d5e-3f6f3f7f0a11",
        revision=1,
        class_=CoreClass(
            class_id="tuesday",
            starts_on=date(2026, 3, 3),
            starts_at_local=time(18, 0),
            slot_s=2700,
            room_id="main",
            format=ClassFormat.TOGETHER,
            groups=(problem.taking_part,),
            rounds=1,
            positions=5,
            after_last_round=AfterLastRound.BURST,
        ),
        exercises=tuple(
            CoreExercise(position=e.position, exercise_id=e.exercise_id, count=e.count)
            for e in problem.spec.exercises
        ),
        people=tuple(
            PersonDose(person_id=p, dose_bp=10_000, rounds=(1,), effort_ceiling=8, rir=3)
            for p in problem.taking_part
        ),
        cells=tuple(cells),
        timeline=(),
    )


def made(
    people: dict[str, ProblemPerson],
    jumping: frozenset[str] = frozenset(),
    chairs: int = 14,
    **spec: Any,
) -> tuple[Piece, ...]:
    """Give the pieces of the class for these people."""
    problem = a_class(people, chairs, **spec)
    return pieces_for(problem, a_core(problem, jumping))


def of(pieces: tuple[Piece, ...], kind: PieceKind) -> list[Piece]:
    """Give the pieces of one kind."""
    return [p for p in pieces if p.kind is kind]


def forbidden(pieces: tuple[Piece, ...], people: dict[str, ProblemPerson]) -> list[str]:
    """Name every person and movement that the page of definitions does not allow, read afresh."""
    found = []
    for piece in pieces:
        for person_id, slug in piece.versions.items():
            person, movement = people[person_id], LIBRARY.movements[slug]
            caps = {d.value: cap for d, cap in person.caps.items()}
            most_level = min(2, person.level + 1)
            if person.clearance in (Clearance.UNKNOWN, Clearance.MODERATE_ONLY):
                for demand, cap in MODERATE.items():
                    caps[demand] = min(cap, caps.get(demand, 3))
            asks = {d.value: degree for d, degree in movement.demands.items()}
            wrong = (
                any(degree > caps.get(demand, 3) for demand, degree in asks.items())
                or movement.level > most_level
                or slug not in LIBRARY.lines[piece.line_id].versions
                or movement.dumbbells_needed > 0
                or movement.low_hops_a_rep > 0
                or (movement.contacts_a_rep > 0 and piece.why != "landing")
            )
            if wrong:
                found.append(f"{person_id}: {slug}")
    return found
