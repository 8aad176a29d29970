"""Page two: what the coach says at each place, in short lines."""

from roundwright.documents.plan_view import PlanView
from roundwright.documents.running_order import spoken_movement
from roundwright.documents.sheet_parts import ScriptItem
from roundwright.documents.version_names import hardness, once
from roundwright.foundation.words import in_sentence, say
from roundwright.library.movement import FaultAndFix, Movement
from roundwright.plan.core import CellState, CoreExercise

MOST_LINES = 5


def script_items(view: PlanView) -> tuple[ScriptItem, ...]:
    """Give the script of every place at which somebody does the exercise, in order."""
    ordered = sorted(view.core.exercises, key=lambda e: e.position)
    return tuple(item for e in ordered if (item := _item(view, e)) is not None)


def _item(view: PlanView, exercise: CoreExercise) -> ScriptItem | None:
    spoken = spoken_movement(view, exercise.position)
    if spoken is None:
        return None
    parts = _parts(view, exercise, spoken)
    if len(parts) == 1:
        steps: tuple[str, ...] = spoken.teaching.steps
        version = spoken.name
        set_up = spoken.teaching.set_up
    else:
        steps = tuple(f"{part.name}: {part.teaching.cues[0]}" for part in parts)
        version = ""
        set_up = parts[0].teaching.set_up
    faults = spoken.teaching.faults
    fault = next((f for f in faults if f.urgency == "stop"), faults[0])
    return ScriptItem(
        position=exercise.position,
        name=view.library.exercise_name(exercise.exercise_id),
        version=version,
        set_up=set_up,
        steps=steps[:MOST_LINES] if len(parts) == 1 else steps,
        breathing=spoken.teaching.breathing,
        cues=spoken.teaching.cues[:2],
        stop_fault=then_words(fault),
    )


def then_words(fault: FaultAndFix) -> str:
    """Say a fault and what to say then."""
    return say("{fault} Then: {fix}", fault=fault.fault, fix=in_sentence(fault.fix))


def _parts(view: PlanView, exercise: CoreExercise, spoken: Movement) -> list[Movement]:
    signatures = {
        c.signature
        for c in view.core.cells
        if c.position == exercise.position
        and c.state is CellState.DO
        and spoken.slug in c.signature
    }
    easiest = min(signatures, key=lambda s: hardness(s, view.library))
    return [view.library.movements[m] for m in once(easiest)]
