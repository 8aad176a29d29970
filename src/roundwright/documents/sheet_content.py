"""What a class sheet says, from a plan that the gate has passed. Names join here."""

from roundwright.documents.floor_plan import floor_plan
from roundwright.documents.group_lines import form_words, group_lines, interval_rows
from roundwright.documents.kit_list import handover_lines, kit_rows
from roundwright.documents.page_heading import heading_of, view_of
from roundwright.documents.people_lines import effort_words, people_lines, usual_effort
from roundwright.documents.piece_lines import piece_kit_rows, piece_lines
from roundwright.documents.plan_view import PlanView
from roundwright.documents.running_order import (
    STRETCH_NAMES,
    burst_block,
    exercise_blocks,
    stretch,
)
from roundwright.documents.script_lines import script_items
from roundwright.documents.sheet_parts import SheetContent
from roundwright.documents.standing_words import (
    CAUTIONS,
    NO_EMERGENCY_LINE,
    STOP_SIGNS,
    WALK_IN_QUESTIONS,
)
from roundwright.foundation.words import say
from roundwright.hall.hall import Hall
from roundwright.plan.core import PieceKind, WindowKind
from roundwright.plan.gate.checked_plan import CheckedPlan
from roundwright.plan.gate.words import words_of
from roundwright.plan.verdict import Finding, Grade
from roundwright.services.ports import Pictures

__all__ = ["SheetContent", "finding_words", "sheet_of"]


def sheet_of(
    checked: CheckedPlan, hall: Hall, printed_at: str, pictures: Pictures | None = None
) -> SheetContent:
    """Put a class sheet together.

    Parameters
    ----------
    checked : CheckedPlan
        A plan that the gate passed in this process; nothing else is printed.
    hall : Hall
        Its name, its units and the shown names of its people.
    printed_at : str
        When, in words: it stands on the paper, so that an old sheet is seen to be old.
    pictures : Pictures, optional
        Who draws the movements; without, the sheet has none.

    Returns
    -------
    SheetContent
        Frozen words; the same plan, hall and time give the same sheet.

    Raises
    ------
    UnsafePlanError
        When given anything that the gate did not seal in this process.
    ChangedMeanwhileError
        When the plan is no longer what it was when the gate passed it.
    """
    view = view_of(checked, hall)
    heading = heading_of(view, hall, printed_at)
    core, room = view.core, view.problem.room
    rows = {kind: stretch(view, kind) for kind in STRETCH_NAMES}
    before = (rows[WindowKind.WARM_UP], rows[WindowKind.DEMONSTRATION])
    return SheetContent(
        hall=heading.hall,
        title=heading.title,
        day=heading.day,
        starts=heading.starts,
        ends=heading.ends,
        slot_ends=heading.slot_ends,
        room=heading.room,
        form=form_words(view),
        unit=heading.unit,
        before=tuple(row for row in before if row is not None),
        rounds=core.class_.rounds,
        exercises=exercise_blocks(view, pictures),
        burst=burst_block(view),
        rest=rows[WindowKind.REST],
        after=tuple(row for row in (rows[WindowKind.COOL_DOWN],) if row is not None),
        usual_effort=effort_words(*usual_effort(view)),
        kit=(*kit_rows(view), *piece_kit_rows(view)),
        handovers=handover_lines(view),
        floor=floor_plan(view),
        script=script_items(view),
        people=people_lines(view),
        to_talk_to=tuple(view.name(n.person_id) for n in view.document.outcome.not_today),
        findings=tuple(
            finding_words(f, view) for f in view.document.verdict.of_grade(Grade.ADVISE)
        ),
        emergency=room.emergency or (say(NO_EMERGENCY_LINE),),
        stop_signs=tuple(say(one) for one in STOP_SIGNS),
        cautions=tuple(say(one) for one in CAUTIONS),
        questions=tuple(say(one) for one in WALK_IN_QUESTIONS),
        printed_at=heading.printed_at,
        plan_mark=heading.plan_mark,
        warm_up=piece_lines(view, PieceKind.WARM_UP),
        cool_down=piece_lines(view, PieceKind.COOL_DOWN),
        groups=group_lines(view),
        intervals=interval_rows(view),
    )


def finding_words(finding: Finding, view: PlanView) -> str:
    """Say a finding with the names of the people and exercises in it."""
    exercises = {e.position: view.library.exercise_name(e.exercise_id) for e in view.core.exercises}
    return words_of(finding, dict(view.names), exercises)
