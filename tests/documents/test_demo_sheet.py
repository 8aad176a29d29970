"""From the demo hall to paper: fitted, judged by the gate, printed on two pages."""

from datetime import date
from io import BytesIO

import pytest
from pypdf import PdfReader

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.sheet_content import sheet_of
from roundwright.hall.hall import Hall
from roundwright.optimise.fit import fit
from roundwright.plan.build_problem import build_problem
from roundwright.plan.document import Facts, PlanDocument
from roundwright.plan.gate.checked_plan import check
from roundwright.plan.gate.judge import judge
from roundwright.plan.pieces import with_piece_lines, with_pieces
from roundwright.store.hall_folder import read_hall
from roundwright.web.page_state import Standing, state_of_plan
from tests.documents.hand_sheet import PRINTED_AT


@pytest.fixture(scope="module")
def hall() -> Hall:
    return read_hall(demo_hall_folder(), shipped_catalogue())


@pytest.fixture(scope="module")
def plan(hall: Hall) -> PlanDocument:
    problem = build_problem(hall, DEMO_CLASS, date(2026, 3, 2))
    found = fit(problem, seed=1, plan_id="5f0c9a52-7d1e-4b11-9d5e-3f6f3f7f0a11")
    assert found.core is not None
    return PlanDocument(
        core=found.core,
        problem=problem,
        outcome=found.outcome,
        verdict=judge(found.core, problem),
        facts=Facts(),
    )


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_demo_class_prints_on_two_pages(plan: PlanDocument, hall: Hall, paper: str) -> None:
    sheet = sheet_of(check(plan), hall, PRINTED_AT)
    pages = PdfReader(BytesIO(class_sheet_pdf(sheet, paper))).pages  # type: ignore[arg-type]
    assert len(pages) == 2
    one = " ".join(pages[0].extract_text().split())
    assert all(person.name in one for person in sheet.people)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_demo_class_with_warm_up_and_cool_down_keeps_two_pages(
    plan: PlanDocument, hall: Hall, paper: str
) -> None:
    problem = with_piece_lines(plan.problem, hall.catalogue)
    core = with_pieces(plan.core, problem)
    filled = plan.model_copy(
        update={"problem": problem, "core": core, "verdict": judge(core, problem)}
    )
    sheet = sheet_of(check(filled), hall, PRINTED_AT)
    assert (len(sheet.warm_up), len(sheet.cool_down)) == (10, 5)
    pages = PdfReader(BytesIO(class_sheet_pdf(sheet, paper))).pages  # type: ignore[arg-type]
    assert len(pages) == 2


def test_a_plan_that_the_gate_passes_makes_a_ready_page(plan: PlanDocument, hall: Hall) -> None:
    state = state_of_plan(plan, hall, PRINTED_AT, 8737)
    assert state.standing is Standing.READY
    assert state.sheet is not None
    assert state.advice == state.sheet.findings
    assert state.pdf is not None
    assert state.pdf("letter").startswith(b"%PDF-")


def test_a_plan_that_something_stops_is_a_draft_without_a_sheet(
    plan: PlanDocument, hall: Hall
) -> None:
    spec = plan.problem.spec.model_copy(update={"slot_s": 600})
    short = plan.problem.model_copy(update={"spec": spec})
    core = plan.core.model_copy(
        update={"class_": plan.core.class_.model_copy(update={"slot_s": 600})}
    )
    state = state_of_plan(
        plan.model_copy(update={"problem": short, "core": core}), hall, PRINTED_AT, 8737
    )
    assert state.standing is Standing.DRAFT
    assert state.stops
    assert state.sheet is None
    assert state.pdf is None


def test_no_limitation_of_anyone_is_spelled_out(plan: PlanDocument, hall: Hall) -> None:
    assert hall.limitations
    sheet = sheet_of(check(plan), hall, PRINTED_AT)
    said = " ".join(action for person in sheet.people for action in person.actions)
    written = (said + " ".join(sheet.findings)).lower()
    bare = {"pregnancy or birth within a year"}
    for phrase in bare:
        written = written.replace(phrase, "")
    conditions = {row.concern.value for row in hall.limitations} - {"knee", "balance"}
    for condition in conditions:
        assert condition.replace("_", " ") not in written
