"""The screen against the published table, and unknown, expired or changed never as healthy."""

from datetime import date, timedelta
from itertools import product

import pytest

from roundwright.people.health_screen import VALID_DAYS, AnsweredBy, HealthScreen, screen_outcome
from roundwright.people.limitation import Concern
from roundwright.people.person import Clearance
from roundwright.people.screen_questions import QUESTIONS, Answer, Feeds, Question, asked_of
from roundwright.people.screen_table import Referral, row_of

DAY = date(2026, 3, 3)
NO, YES, UNSURE, BLANK = Answer.NO, Answer.YES, Answer.UNSURE, Answer.BLANK
WELL = dict.fromkeys(QUESTIONS, NO) | {Question.ACTIVE: YES}
EITHER = (False, True)
# Riebe D et al. 2015, Med Sci Sports Exerc 47:2473-2479, figure; ACSM Guidelines 10th ed.
# chapter 2 (reference id screen-acsm-2015, rows as printed on secondary pages):
# active, disease, symptoms, clearance, start.
PUBLISHED = (
    (False, EITHER[:1], False, "not necessary", "light-moderate, may progress to vigorous"),
    (False, EITHER[1:], False, "recommended", "light-moderate after clearance"),
    (False, EITHER, True, "recommended", "light-moderate after clearance"),
    (True, EITHER[:1], False, "not necessary", "continue moderate or vigorous"),
    (True, EITHER[1:], False, "within 12 months before vigorous", "continue moderate"),
    (True, EITHER, True, "stop and seek clearance", "resume as cleared"),
)
MEANS = {
    "not necessary": (Referral.NONE, Clearance.CLEARED),
    "recommended": (Referral.BEFORE_ANY, Clearance.NOT_CLEARED),
    "within 12 months before vigorous": (Referral.BEFORE_VIGOROUS, Clearance.MODERATE_ONLY),
    "stop and seek clearance": (Referral.BEFORE_ANY, Clearance.NOT_CLEARED),
}


def screen(changes=None, **fields):
    answers = WELL | (changes or {})
    given = {"person_id": "p001", "answered_on": DAY, "by": AnsweredBy.PERSON, "answers": answers}
    return HealthScreen(**(given | fields))


@pytest.mark.parametrize("row", PUBLISHED)
def test_each_row_of_the_published_table(row):
    active, diseases, symptoms, clearance, start = row
    for disease in diseases:
        found = row_of(active, disease, symptoms)
        assert found.referral is MEANS[clearance][0]
        assert found.starts_light == start.startswith("light-moderate")
        answers = {
            Question.ACTIVE: YES if active else NO,
            Question.KIDNEYS: YES if disease else NO,
            Question.CALF_PAIN: YES if symptoms else NO,
        }
        assert screen_outcome(screen(answers), DAY).clearance is MEANS[clearance][1]


def test_the_rows_say_something_of_every_case():
    assert len([row_of(*case) for case in product((False, True), repeat=3)]) == 8


@pytest.mark.parametrize("question", [q for q in QUESTIONS if q is not Question.ACTIVE])
def test_every_single_symptom_disease_and_limit_counts(question):
    found = screen_outcome(screen({question: YES, Question.ACTIVE: NO}), DAY)
    holds_back = QUESTIONS[question].feeds in (Feeds.SYMPTOM, Feeds.DISEASE, Feeds.DOCTORS_LIMIT)
    assert (found.clearance is Clearance.NOT_CLEARED) == holds_back


@pytest.mark.parametrize("answer", [UNSURE, BLANK])
@pytest.mark.parametrize("question", QUESTIONS)
def test_blank_or_unsure_is_never_more_than_moderate_and_is_asked(question, answer):
    found = screen_outcome(screen({question: answer}), DAY)
    assert found.clearance in (Clearance.UNKNOWN, Clearance.NOT_CLEARED)
    assert QUESTIONS[question].words in found.asks


def test_unsure_of_chest_breath_faint_or_a_doctors_limit_is_not_today():
    stops = {q for q in QUESTIONS if QUESTIONS[q].stops_if_unsure}
    assert stops == {
        Question.CHEST_PAIN,
        Question.BREATHLESS,
        Question.DIZZY_OR_FAINT,
        Question.DOCTORS_LIMIT,
    }
    for question in stops:
        assert screen_outcome(screen({question: UNSURE}), DAY).clearance is Clearance.NOT_CLEARED


def test_unsure_whether_active_with_disease_counts_as_inactive():
    answers = {Question.ACTIVE: UNSURE, Question.KIDNEYS: YES}
    assert screen_outcome(screen(answers), DAY).clearance is Clearance.NOT_CLEARED


@pytest.mark.parametrize(("days", "holds"), [(-1, False), (0, True), (365, True), (366, False)])
def test_a_screen_holds_for_a_year_and_then_it_is_asked_again(days, holds):
    assert VALID_DAYS == 365
    found = screen_outcome(screen(), DAY + timedelta(days=days))
    assert found.clearance is (Clearance.CLEARED if holds else Clearance.UNKNOWN)


def test_expiry_lifts_nothing():
    later = DAY + timedelta(days=400)
    assert screen_outcome(screen({Question.CALF_PAIN: YES}), later).clearance is (
        Clearance.NOT_CLEARED
    )


def test_something_changed_is_as_if_expired_from_that_day():
    changed = screen(changed_on=DAY + timedelta(days=5))
    assert screen_outcome(changed, DAY + timedelta(days=4)).clearance is Clearance.CLEARED
    assert screen_outcome(changed, DAY + timedelta(days=5)).clearance is Clearance.UNKNOWN


@pytest.mark.parametrize(("answer", "effort"), [(NO, False), (YES, True), (UNSURE, True)])
def test_a_slowing_medicine_means_effort_and_never_heart_rate(answer, effort):
    assert screen_outcome(screen({Question.SLOWING_MEDICINE: answer}), DAY).effort_only is effort


def test_yes_and_unsure_propose_the_limitation():
    for answer in (YES, UNSURE):
        found = screen_outcome(screen({Question.PREGNANT: answer}), DAY)
        assert [concern for concern, _ in found.proposed] == [Concern.PREGNANCY]


def test_answers_never_show_in_a_repr():
    one = screen({Question.CALF_PAIN: YES})
    assert "calf" not in repr(one) + repr(screen_outcome(one, DAY))
    assert len(asked_of(Feeds.SYMPTOM)) == 9
