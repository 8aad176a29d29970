"""What is asked of a person: a caution is asked about until it was talked through by name."""

from datetime import date, timedelta

import pytest

from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.due import DueKind, due_of
from roundwright.people.health_screen import AnsweredBy, HealthScreen
from roundwright.people.person import Clearance, Person
from roundwright.people.screen_questions import QUESTIONS, Answer, Question

SAID_ON = date(2026, 2, 2)
ON = date(2026, 3, 3)
SOMEONE = Person(person_id="p001", shown_name="Ann")


def _screen(**answers: Answer) -> HealthScreen:
    well = {q: Answer.YES if q is Question.ACTIVE else Answer.NO for q in QUESTIONS}
    return HealthScreen(
        person_id="p001",
        answered_on=SAID_ON,
        by=AnsweredBy.PERSON,
        answers=well | {Question(name): answer for name, answer in answers.items()},
    )


def _record(days: int, until: date | None = None) -> ClearanceRecord:
    return ClearanceRecord(
        person_id="p001",
        clearance=Clearance.CLEARED,
        given_by=GivenBy.COACH,
        given_by_name="A coach",
        on=SAID_ON + timedelta(days=days),
        until_on=until,
    )


def _is_asked(screen: HealthScreen, record: ClearanceRecord | None) -> bool:
    return DueKind.SCREEN_OPEN in {one.what for one in due_of(SOMEONE, ON, screen, record)}


@pytest.mark.parametrize(
    ("record", "asked"),
    [
        (None, True),
        (_record(-1), True),
        (_record(0), False),
        (_record(9), False),
        (_record(9, until=ON - timedelta(days=1)), True),
        (_record(40), True),
    ],
)
def test_a_caution_is_asked_about_until_somebody_by_name_has_answered_it(
    record: ClearanceRecord | None, asked: bool
) -> None:
    assert _is_asked(_screen(joints=Answer.YES), record) is asked
    assert not _is_asked(_screen(), record)


@pytest.mark.parametrize("answer", [Answer.BLANK, Answer.UNSURE])
def test_no_word_of_another_fills_in_what_was_left_open(answer: Answer) -> None:
    assert _is_asked(_screen(joints=answer), _record(9))
