"""States of the page of the hand-written class, one for each standing."""

from dataclasses import replace
from functools import partial

from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.sheet_content import SheetContent
from roundwright.plan.outcome import Clash, Outcome, Status, StoppedBy
from roundwright.web.page_state import PageState, Standing, state_without_plan
from tests.documents.hand_plans import document, names, problem
from tests.documents.hand_sheet import a_hall, a_sheet

PORT = 8737


def a_ready_state(people: int = 14, port: int = PORT) -> PageState:
    """Make the page of a class that the gate has passed."""
    sheet: SheetContent = replace(
        a_sheet(people),
        findings=("Two loads are assumed: check them at the start.",),
        emergency=("3 Quay Road, door by the car park.", "Defibrillator left of the desk."),
    )
    return PageState(
        hall="Tern Quay Hall",
        title=sheet.title,
        day=sheet.day,
        starts=sheet.starts,
        paper="a4",
        port=port,
        standing=Standing.READY,
        advice=sheet.findings,
        found="Proven: no plan of this class fits better as a whole.",
        core=document(people).core,
        sheet=sheet,
        pdf=partial(_pdf, sheet),
    )


def _pdf(sheet: SheetContent, paper: str) -> bytes:
    return class_sheet_pdf(sheet, "letter" if paper == "letter" else "a4")


def a_draft_state(port: int = PORT) -> PageState:
    """Make the page of a draft: something stops it."""
    return replace(
        a_ready_state(port=port),
        standing=Standing.DRAFT,
        sheet=None,
        pdf=None,
        stops=(
            "Squat needs 12 dumbbells of 8 kg at once; 10 are there.",
            "The class takes 46:00; the slot has 45:00.",
        ),
        ways_out=("Change in 10 s.", "Do two rounds."),
    )


def an_impossible_state(port: int = PORT) -> PageState:
    """Make the page of a class whose kit cannot suffice."""
    outcome = Outcome(
        status=Status.IMPOSSIBLE,
        stopped_by=StoppedBy.PROOF,
        clash=(
            Clash(
                kind="kit",
                positions=(3,),
                persons=("p001", "p002"),
                item="low_box",
                figures={"needed": 2, "there": 1},
            ),
        ),
    )
    return state_without_plan(problem(3), outcome, a_hall(names(3)), port)
