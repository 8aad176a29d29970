"""Of all that was said the most careful holds; a record answers only what it may answer."""

from datetime import timedelta

import pytest

from roundwright.library.vocabulary import Demand
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.consents import Consent, Consents, Guardian
from roundwright.people.due import DueGrade, DueKind, due_of
from roundwright.people.effective_clearance import (
    MOST_CAREFUL_FIRST,
    effective_clearance,
    with_screen_limits,
)
from roundwright.people.limitation import Amount, Concern, Limitation
from roundwright.people.person import Clearance, Person
from roundwright.people.screen_questions import Question
from tests.people.test_health_screen import DAY, NO, UNSURE, YES, screen

C, Q = Clearance, Question
SICK = {Q.KIDNEYS: YES}
FAINT = {Q.DIZZY_OR_FAINT: YES}
IDLE = {Q.ACTIVE: NO}


def person(clearance=C.UNKNOWN, classes=None, **more):
    return Person(
        person_id="p001", shown_name="Maren T", clearance=clearance, classes_done=classes, **more
    )


def record(given_by=GivenBy.CLINICIAN, days=0, clearance=C.CLEARED, **more):
    return ClearanceRecord(
        person_id="p001",
        clearance=clearance,
        given_by=given_by,
        given_by_name="A name",
        on=DAY + timedelta(days=days),
        **more,
    )


def found(who, asked=None, given=None, days=0):
    return effective_clearance(who, asked, given, DAY + timedelta(days=days)).clearance


def test_without_a_screen_the_recorded_word_stands():
    for word in C:
        assert found(person(word)) is word


def test_a_screen_answers_where_nothing_was_recorded_and_never_lifts_a_word():
    assert found(person(), screen()) is C.CLEARED
    for word in (C.NOT_CLEARED, C.MODERATE_ONLY):
        assert found(person(word), screen()) is word
    assert found(person(C.CLEARED), screen(FAINT)) is C.NOT_CLEARED
    assert found(person(C.CLEARED), screen({Q.HERNIA: UNSURE})) is C.UNKNOWN


@pytest.mark.parametrize(
    ("answers", "given_by", "days", "word"),
    [
        (FAINT, GivenBy.CLINICIAN, 0, C.CLEARED),
        (FAINT, GivenBy.CLINICIAN, -1, C.NOT_CLEARED),
        (FAINT, GivenBy.COACH, 0, C.NOT_CLEARED),
        (SICK | IDLE, GivenBy.OWNER, 0, C.NOT_CLEARED),
        (SICK, GivenBy.CLINICIAN, -365, C.CLEARED),
        (SICK, GivenBy.CLINICIAN, -366, C.MODERATE_ONLY),
        (SICK, GivenBy.COACH, 0, C.MODERATE_ONLY),
        ({Q.JOINTS: YES}, GivenBy.COACH, 0, C.CLEARED),
        ({Q.JOINTS: YES}, GivenBy.COACH, -1, C.MODERATE_ONLY),
        ({Q.CALF_PAIN: UNSURE}, GivenBy.CLINICIAN, 0, C.UNKNOWN),
    ],
)
def test_who_may_answer_what_and_when(answers, given_by, days, word):
    assert found(person(), screen(answers), record(given_by, days)) is word


def test_the_end_of_a_clearance_means_ask_and_its_conditions_stay():
    given = record(
        until_on=DAY, caps={Demand.HEAD_LOW: 0}, effort_ceiling=5, words=("rise slowly",)
    )
    assert found(person(C.CLEARED), None, given) is C.CLEARED
    assert found(person(C.CLEARED), None, given, days=1) is C.UNKNOWN
    assert found(person(), screen(FAINT), given, days=1) is C.NOT_CLEARED
    after = effective_clearance(person(), None, given, DAY + timedelta(days=1))
    assert (after.caps, after.effort_cap) == ({Demand.HEAD_LOW: 0}, 5)
    assert after.actions == ("rise slowly",)


def test_a_record_alone_does_not_make_up_for_a_screen():
    assert found(person(), None, record()) is C.UNKNOWN


@pytest.mark.parametrize(("classes", "word"), [(None, C.MODERATE_ONLY), (4, C.CLEARED)])
def test_the_inactive_start_light(classes, word):
    assert found(person(classes=classes), screen(IDLE)) is word


def test_more_that_is_said_is_never_less_careful_than_what_was_recorded():
    for word in (C.NOT_CLEARED, C.MODERATE_ONLY, C.CLEARED):
        for answers in ({}, SICK, FAINT, IDLE, {Q.HERNIA: UNSURE}):
            for given in (None, record(), record(clearance=C.NOT_CLEARED)):
                now = found(person(word), screen(answers), given)
                assert MOST_CAREFUL_FIRST.index(now) <= MOST_CAREFUL_FIRST.index(word)


def test_a_proposed_limit_is_added_until_somebody_writes_a_row_of_their_own():
    asked = screen({Q.PREGNANT: YES})
    (added,) = with_screen_limits((), asked, DAY)
    assert (added.concern, added.amount) == (Concern.PREGNANCY, Amount.AVOID)
    own = added.model_copy(update={"amount": Amount.EASE, "weeks": 14})
    assert with_screen_limits((own,), asked, DAY) == (own,)


def kinds(**given):
    return {d.what: d for d in due_of(person(C.CLEARED, birth_year=1990), DAY, **given)}


ALL = {n: Consent(on=DAY, words_version="1") for n in ("data", "health_data", "training")}


def test_who_needs_what():
    assert kinds().keys() >= {DueKind.SCREEN_MISSING, DueKind.TRAINING_CONSENT_MISSING}
    old = screen(answered_on=DAY - timedelta(days=366))
    assert kinds(screen=old)[DueKind.SCREEN_EXPIRED].since_on == DAY
    assert DueKind.CLEARANCE_ASKED in kinds(screen=screen(FAINT))
    soon = kinds(record=record(until_on=DAY + timedelta(days=28)))
    assert soon[DueKind.CLEARANCE_EXPIRES].grade is DueGrade.SOON
    assert DueKind.CLEARANCE_EXPIRES not in kinds(record=record(until_on=DAY + timedelta(days=29)))
    row = Limitation(
        person_id="p001",
        concern=Concern.PREGNANCY,
        amount=Amount.EASE,
        from_on=DAY - timedelta(days=9),
        until_on=DAY - timedelta(days=1),
    )
    assert kinds(limitations=[row]).keys() >= {DueKind.LIMITATION_ENDED, DueKind.WEEKS_UNKNOWN}
    mine = Consents(person_id="p001", review_on=DAY, **ALL)
    left = kinds(screen=screen(), consents=mine).keys()
    assert left == {DueKind.REVIEW, DueKind.EMERGENCY_CONTACT_MISSING}


@pytest.mark.parametrize(("born", "needed"), [(2008, True), (2000, False)])
def test_under_18_a_guardian_must_have_agreed(born, needed):
    young = person(C.CLEARED, birth_year=born)
    due = {d.what for d in due_of(young, DAY, screen(), None, Consents(person_id="p001", **ALL))}
    assert (DueKind.GUARDIAN_MISSING in due) is needed
    adult = Guardian(name="A name", relation="parent", phone="000", consent_on=DAY)
    agreed = Consents(person_id="p001", guardian=adult, **ALL)
    assert DueKind.GUARDIAN_MISSING not in {
        d.what for d in due_of(young, DAY, screen(), None, agreed)
    }
