"""What a class asks to leave in reserve stands on its sheet and on everybody's own."""

from datetime import date

from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.documents.personal_sheets import personal_of
from roundwright.documents.sheet_content import sheet_of
from roundwright.interface import fit, read_hall
from roundwright.plan.gate.checked_plan import check

PRINTED_AT = "Monday 2 March 2026, 09:00"


def test_a_class_that_leaves_six_says_so_on_its_papers() -> None:
    hall = read_hall(demo_hall_folder())
    wish = hall.classes["monday_seated"].model_copy(update={"reps_left": 6})
    hall = hall.model_copy(update={"classes": {"monday_seated": wish}})
    fitted = fit(hall, "monday_seated", on=date(2026, 3, 2))
    assert fitted.document is not None
    assert {dose.rir for dose in fitted.document.core.people} == {6}
    checked = check(fitted.document)
    assert sheet_of(checked, hall, PRINTED_AT).usual_effort.endswith("leave 6")
    for sheet in personal_of(checked, hall, PRINTED_AT).sheets:
        assert any("6 more reps" in words for words in sheet.effort)
