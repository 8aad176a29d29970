"""A class written by hand, with all that a sheet must say: versions, loads, tails, hand-overs."""

from datetime import date, time
from typing import Any

from roundwright.body.anatomy import Muscle, Side
from roundwright.goals.class_wish import AfterLastRound, BurstWish, ClassFormat, Count, CountUnit
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import FaultAndFix, KitNeed, Movement, Teaching
from roundwright.library.version import Step
from roundwright.library.vocabulary import KitKind, KitUse, Laterality, Pattern, StrengthFamily
from roundwright.people.person import Clearance
from roundwright.plan.core import (
    Cell,
    Core,
    CoreClass,
    CoreExercise,
    Handover,
    KitUnits,
    PersonDose,
    Window,
    WindowKind,
)
from roundwright.plan.document import Facts, PlanDocument
from roundwright.plan.outcome import NotToday, Outcome, Status, StoppedBy
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Verdict
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_room,
    a_side,
    a_spec,
    lifting,
    mover,
    reps,
)

ALTERNATING_16 = Count(value=16, unit=CountUnit.REPS_ALTERNATING)
FORTY_S = Count(value=40, unit=CountUnit.SECONDS)
SHORT_NAMES = (
    *("Ana R", "Ben O", "Cleo M", "Dov K", "Edda S", "Finn A", "Gwen T", "Hugo P"),
    *("Iris N", "Jon B", "Kaya L", "Leo D", "Mina V", "Ned W", "Ola F", "Pia C"),
)


def said(first: str, *steps: str) -> Teaching:
    """Write a teaching text of the length that a coach would write."""
    return Teaching(
        set_up=f"{first} Feet under the hips, weights at the sides.",
        steps=steps or ("Sit the hips back.", "Drive the floor away.", "Stand tall."),
        start="Tall.",
        end="Tall.",
        feel="Thighs and seat.",
        breathing="In on the way down, out on the way up.",
        cues=("Knees follow the toes.", "Chest proud.", "Slow down."),
        faults=(
            FaultAndFix(fault="The back rounds.", fix="Less depth, brace first.", urgency="stop"),
        ),
        watch="Balance.",
    )


def _moves() -> tuple[Movement, ...]:
    box = KitNeed(item=KitKind.BOX, use=KitUse.STEP_ON)
    return (
        a_movement("sit_to_stand", name="Sit to stand", level=1, teaching=said("Chair behind.")),
        a_movement(
            "goblet_squat",
            name="Goblet squat",
            kit=lifting(1),
            strength_family=StrengthFamily.SQUAT,
            lifted_share=0.88,
            teaching=said("Hold one weight at the chest."),
        ),
        a_movement(
            "two_weight_squat",
            name="Two-dumbbell squat",
            level=3,
            kit=lifting(2),
            strength_family=StrengthFamily.SQUAT,
            lifted_share=0.88,
            teaching=said("A weight at each shoulder."),
        ),
        a_movement(
            "hinge",
            name="Two-dumbbell hinge",
            kit=lifting(2),
            pattern=Pattern.HINGE,
            strength_family=StrengthFamily.HINGE,
            muscles=mover(Muscle.HAMSTRINGS),
            teaching=said("Weights before the thighs."),
        ),
        a_movement(
            "row",
            name="Bent-over row",
            kit=lifting(2),
            pattern=Pattern.HORIZONTAL_PULL,
            strength_family=StrengthFamily.HORIZONTAL_PULL,
            muscles=mover(Muscle.LATS),
            teaching=said("Hinge and hang the weights."),
        ),
        a_movement(
            "seated_press",
            name="Seated press",
            level=1,
            kit=lifting(2),
            pattern=Pattern.VERTICAL_PUSH,
            strength_family=StrengthFamily.VERTICAL_PUSH,
            muscles=mover(Muscle.FRONT_DELTS),
            teaching=said("Sit tall on a bench."),
        ),
        a_movement(
            "press",
            name="Standing press",
            kit=lifting(2),
            pattern=Pattern.VERTICAL_PUSH,
            strength_family=StrengthFamily.VERTICAL_PUSH,
            muscles=mover(Muscle.FRONT_DELTS),
            teaching=said("Weights at the shoulders."),
        ),
        a_movement(
            "step_up",
            name="Step-up",
            kit=(box,),
            pattern=Pattern.STEP,
            laterality=Laterality.UNILATERAL,
            teaching=said("Whole foot on the box."),
        ),
        a_movement(
            "box_jump",
            name="Jump to a low box",
            level=4,
            contacts_a_rep=1,
            pattern=Pattern.JUMP,
            kit=(KitNeed(item=KitKind.BOX, use=KitUse.JUMP_ON),),
            teaching=said("Half a step from the box."),
        ),
        a_movement(
            "wall_push", name="Push-up against the wall", level=1, teaching=said("Hands on it.")
        ),
        a_movement("floor_push", name="Push-up", level=3, teaching=said("Hands under shoulders.")),
        a_movement("march", name="March on the spot", level=1, pattern=Pattern.CARDIO),
        a_movement("skip", name="Rope skipping", level=3, pattern=Pattern.CARDIO, low_hops_a_rep=1),
    )


def library() -> Catalogue:
    """Make a small library with the shown names of a real one."""
    lines = (
        a_line("squat_line", "sit_to_stand", "goblet_squat", "two_weight_squat", name="Squat"),
        a_line("hinge_line", "hinge", name="Hinge"),
        a_line("row_line", "row", name="Row"),
        a_line("press_line", "seated_press", "press", name="Press"),
        a_line("step_line", "step_up", "box_jump", name="Step-up"),
        a_line("push_line", "wall_push", "floor_push", name="Push-up"),
        a_line("burst_line", "march", "skip", name="Burst"),
    )
    both = Side.BOTH
    combination = a_combination(
        "hinge_row_press",
        ("hinge_line", both),
        ("row_line", both),
        ("press_line", both),
        name="Hinge, row and press",
    )
    return a_catalogue(_moves(), lines, (combination,))


def problem(people: int = 10, places: int = 5, **changes: Any) -> Problem:
    """Make the hand-written class for some people."""
    wishes = (
        ("squat_line", reps(12)),
        ("hinge_row_press", reps(8)),
        ("step_line", a_side(10)),
        ("push_line", FORTY_S),
        ("squat_line", ALTERNATING_16),
    )
    spec = a_spec(
        *(wishes[k % len(wishes)] for k in range(places)),
        name="Tuesday circuit",
        rounds=3,
        rest_s=60,
        burst=BurstWish(line="burst_line", length_s=60, rate_a_min=120),
        after_last_round=AfterLastRound.BURST,
    )
    kit = Inventory(
        dumbbells=tuple(
            Dumbbells(unit_mass_g=mass, count=40, flat_sided=True) for mass in (4000, 6000, 8000)
        ),
        items=(
            KitItem(
                id="low_box",
                kind=KitKind.BOX,
                count=40,
                height=200,
                strength=200_000,
                stable=True,
                label="low box, 20 cm",
            ),
            KitItem(id="bench", kind=KitKind.BENCH, count=6, strength=250_000),
        ),
    )
    ids = [f"p{n:03d}" for n in range(1, people + 1)]
    persons = {p: a_person(p) for p in ids}
    persons[ids[-1]] = a_person(
        ids[-1], clearance=Clearance.UNKNOWN, classes_done=0, actions=("no jumps",)
    )
    persons["p900"] = a_person("p900", clearance=Clearance.NOT_CLEARED)
    return a_problem(
        spec, library(), persons, kit, room=a_room(length=18_000, width=12_000), **changes
    )


def _steps(*movements: str, sides: bool = False) -> tuple[Step, ...]:
    if sides:
        return tuple(Step(movement_id=movements[0], side=s) for s in (Side.LEFT, Side.RIGHT))
    return tuple(Step(movement_id=m, side=Side.BOTH) for m in movements)


def _cells(person: str, index: int, newcomer: bool, places: int) -> list[Cell]:
    share = 6 if newcomer else 10
    mass = (4000, 6000, 8000)[index % 3]
    squat = ("sit_to_stand", "goblet_squat", "two_weight_squat")[0 if newcomer else 1 + index % 2]
    held = {"sit_to_stand": 0, "goblet_squat": 1, "two_weight_squat": 2}[squat]
    press = "seated_press" if index % 4 == 3 else "press"
    jumps = index % 5 == 2 and not newcomer
    box = (KitUnits(item_id="low_box", units=1),)
    made: list[Cell] = []
    for position in range(1, places + 1):
        kind = (position - 1) % 5
        base: dict[str, Any] = {"person_id": person, "position": position}
        if kind in (0, 4):
            count = reps(12 * share // 10) if kind == 0 else ALTERNATING_16
            made.append(
                Cell(
                    **base,
                    exercise_id="squat_line",
                    steps=_steps(squat),
                    count=count,
                    unit_mass_g=mass if held else 0,
                    units=held,
                )
            )
        elif kind == 1:
            made.append(
                Cell(
                    **base,
                    exercise_id="hinge_row_press",
                    steps=_steps("hinge", "row", press),
                    count=reps(8 * share // 10),
                    unit_mass_g=mass,
                    units=2,
                    limited_by=press if index % 6 else "row",
                )
            )
        elif kind == 2 and jumps:
            jump = {"steps": _steps("box_jump"), "count": reps(20), "kit": box}
            low = {"steps": _steps("step_up", sides=True), "count": a_side(10), "kit": box}
            for number in (1, 2, 3):
                values = low if number == 3 else jump
                made.append(Cell(**base, exercise_id="step_line", round=number, **values))
        elif kind == 2:
            made.append(
                Cell(
                    **base,
                    exercise_id="step_line",
                    steps=_steps("step_up", sides=True),
                    count=a_side(share),
                    kit=box,
                )
            )
        else:
            push = "floor_push" if index % 2 else "wall_push"
            made.append(Cell(**base, exercise_id="push_line", steps=_steps(push), count=FORTY_S))
    return made


def _timeline(places: int, groups: int) -> tuple[Window, ...]:
    made = [
        Window(at_s=0, length_s=360, kind=WindowKind.WARM_UP),
        Window(at_s=360, length_s=240, kind=WindowKind.DEMONSTRATION),
    ]
    at = 600
    for number in (1, 2, 3):
        for position in range(1, places + 1):
            made.append(
                Window(
                    at_s=at,
                    length_s=45,
                    kind=WindowKind.WORK,
                    round=number,
                    positions=(position,) * groups,
                )
            )
            made.append(Window(at_s=at + 45, length_s=15, kind=WindowKind.CHANGE, round=number))
            at += 60
        made.append(Window(at_s=at, length_s=60, kind=WindowKind.BURST, round=number))
        at += 60
        if number < 3:
            made.append(Window(at_s=at, length_s=60, kind=WindowKind.REST, round=number))
            at += 60
    made.append(Window(at_s=at, length_s=300, kind=WindowKind.COOL_DOWN))
    return tuple(made)


def document(people: int = 10, places: int = 5, *, in_pairs: bool = False) -> PlanDocument:
    """Make the plan file of the hand-written class; the last person is new."""
    ids = [f"p{n:03d}" for n in range(1, people + 1)]
    groups = (
        tuple(tuple(ids[k : k + 2]) for k in range(0, people, 2)) if in_pairs else (tuple(ids),)
    )
    core = Core(
        plan_id="5f0c9a52-7d1e-4b11-9d5e-3f6f3f7f0a11",
        revision=1,
        class_=CoreClass(
            class_id="tuesday",
            starts_on=date(2026, 3, 3),
            starts_at_local=time(18, 0),
            slot_s=2700,
            room_id="main",
            format=ClassFormat.PAIRS if in_pairs else ClassFormat.TOGETHER,
            groups=groups,
            rounds=3,
            positions=places,
            after_last_round=AfterLastRound.BURST,
        ),
        exercises=tuple(
            CoreExercise(position=e.position, exercise_id=e.exercise_id, count=e.count)
            for e in problem(people, places).spec.exercises
        ),
        people=tuple(
            PersonDose(
                person_id=p,
                dose_bp=6000 if p == ids[-1] else 10_000,
                rounds=(1, 2) if p == ids[-1] else (1, 2, 3),
                burst="march" if p == ids[-1] or k % 4 == 0 else "skip",
                effort_ceiling=4 if p == ids[-1] else 8,
                rir=5 if p == ids[-1] else 3,
            )
            for k, p in enumerate(ids)
        ),
        cells=tuple(c for k, p in enumerate(ids) for c in _cells(p, k, p == ids[-1], places)),
        timeline=_timeline(places, len(groups)),
        handovers=tuple(
            Handover(
                round=number,
                from_position=2,
                to_position=3,
                unit_mass_g=6000,
                units=2,
                from_person=ids[0],
                to_person=ids[-1],
            )
            for number in (1, 2)
        ),
    )
    return PlanDocument(
        core=core,
        problem=problem(people, places),
        outcome=Outcome(
            status=Status.PROVEN,
            stopped_by=StoppedBy.PROOF,
            not_today=(NotToday(person_id="p900", words="clearance_first"),),
        ),
        verdict=Verdict(total_s=core.timeline[-1].at_s + 300),
        facts=Facts(),
    )


def names(people: int, *, long: bool = False) -> dict[str, str]:
    """Give shown names: short ones, or of the greatest length that people.csv allows."""
    ids = [f"p{n:03d}" for n in range(1, people + 1)]
    found = {p: SHORT_NAMES[k % 16] + ("" if k < 16 else str(k // 16)) for k, p in enumerate(ids)}
    if long:
        found = {
            p: f"{name} Featherstonehaugh-Cholmondeley the {k}th"[:40]
            for k, (p, name) in enumerate(found.items())
        }
    return found | {"p900": "Quin Z"}
