"""The questions of the health screen in our own words, and what each answer feeds.

What counts as active and as disease follows Riebe and others 2015, Med Sci Sports
Exerc 47:2473-2479 (ids `screen-active-definition`, `screen-acsm-2015`); the list of
signs and symptoms is from memory (id `screen-symptoms`). The further cautions are
common practice, no source. Not medical advice: the person's clinician goes first.
"""

from dataclasses import dataclass
from enum import StrEnum

from roundwright.people.limitation import Amount, Concern


class Feeds(StrEnum):
    """What a question decides: a column of the published table, or a caution beside it."""

    ACTIVE = "active"
    DISEASE = "disease"
    SYMPTOM = "symptom"
    DOCTORS_LIMIT = "doctors_limit"
    CAUTION = "caution"


class Question(StrEnum):
    """The short name of each question of the health screen."""

    ACTIVE = "active"
    HEART_OR_VESSELS = "heart_or_vessels"
    DIABETES_OR_METABOLISM = "diabetes_or_metabolism"
    KIDNEYS = "kidneys"
    CHEST_PAIN = "chest_pain"
    BREATHLESS = "breathless"
    DIZZY_OR_FAINT = "dizzy_or_faint"
    BREATHLESS_LYING = "breathless_lying"
    SWOLLEN_ANKLES = "swollen_ankles"
    RACING_HEART = "racing_heart"
    CALF_PAIN = "calf_pain"
    HEART_MURMUR = "heart_murmur"
    UNUSUAL_TIREDNESS = "unusual_tiredness"
    DOCTORS_LIMIT = "doctors_limit"
    SLOWING_MEDICINE = "slowing_medicine"
    HIGH_BLOOD_PRESSURE = "high_blood_pressure"
    ASTHMA = "asthma"
    EPILEPSY = "epilepsy"
    PREGNANT = "pregnant"
    BIRTH_WITHIN_A_YEAR = "birth_within_a_year"
    FRAGILE_BONES = "fragile_bones"
    HERNIA = "hernia"
    PELVIC_FLOOR = "pelvic_floor"
    BALANCE_OR_FALLS = "balance_or_falls"
    JOINTS = "joints"
    OPERATION = "operation"
    ANYTHING_ELSE = "anything_else"


class Answer(StrEnum):
    """An answer; a question without one counts as blank, and blank is not 'no'."""

    YES = "yes"
    NO = "no"
    UNSURE = "unsure"
    BLANK = "blank"


@dataclass(frozen=True, slots=True)
class ScreenQuestion:
    """One question: its words, what it feeds, and the limitation that a yes proposes.

    `stops_if_unsure`: 'unsure' holds back as 'yes' does, as with the first of a
    walk-in's three questions (our choice).
    """

    words: str
    feeds: Feeds
    proposes: tuple[Concern, Amount] | None = None
    stops_if_unsure: bool = False


_D, _S, _C = Feeds.DISEASE, Feeds.SYMPTOM, Feeds.CAUTION

QUESTIONS: dict[Question, ScreenQuestion] = {
    Question.ACTIVE: ScreenQuestion(
        "For the last three months, have you been active at a moderate pace or more, "
        "30 minutes a day on three days a week?",
        Feeds.ACTIVE,
    ),
    Question.HEART_OR_VESSELS: ScreenQuestion(
        "Do you have a disease of the heart or blood vessels, or have you had a stroke?", _D
    ),
    Question.DIABETES_OR_METABOLISM: ScreenQuestion(
        "Do you have diabetes of any type, or another disease of metabolism?",
        _D,
        (Concern.DIABETES, Amount.EASE),
    ),
    Question.KIDNEYS: ScreenQuestion("Do you have a disease of the kidneys?", _D),
    Question.CHEST_PAIN: ScreenQuestion(
        "Do you get pain, pressure or discomfort in the chest, neck, jaw or arms, "
        "at rest or when active?",
        _S,
        stops_if_unsure=True,
    ),
    Question.BREATHLESS: ScreenQuestion(
        "Are you short of breath at rest or with mild effort?", _S, stops_if_unsure=True
    ),
    Question.DIZZY_OR_FAINT: ScreenQuestion(
        "Have you felt dizzy or fainted?", _S, stops_if_unsure=True
    ),
    Question.BREATHLESS_LYING: ScreenQuestion(
        "Are you short of breath when lying down, or does it wake you at night?", _S
    ),
    Question.SWOLLEN_ANKLES: ScreenQuestion("Do your ankles swell?", _S),
    Question.RACING_HEART: ScreenQuestion("Does your heart race or beat out of step?", _S),
    Question.CALF_PAIN: ScreenQuestion("Do your calves hurt when you walk?", _S),
    Question.HEART_MURMUR: ScreenQuestion("Has a doctor told you of a heart murmur?", _S),
    Question.UNUSUAL_TIREDNESS: ScreenQuestion(
        "Do everyday tasks leave you unusually tired or breathless?", _S
    ),
    Question.DOCTORS_LIMIT: ScreenQuestion(
        "Has a doctor told you to limit what you do, or to do it under watch only?",
        Feeds.DOCTORS_LIMIT,
        stops_if_unsure=True,
    ),
    Question.SLOWING_MEDICINE: ScreenQuestion(
        "Do you take a medicine that slows the heart, such as a beta-blocker?", _C
    ),
    Question.HIGH_BLOOD_PRESSURE: ScreenQuestion(
        "Do you have high blood pressure?", _C, (Concern.HIGH_BLOOD_PRESSURE, Amount.EASE)
    ),
    Question.ASTHMA: ScreenQuestion("Do you have asthma?", _C, (Concern.ASTHMA, Amount.EASE)),
    Question.EPILEPSY: ScreenQuestion(
        "Do you have epilepsy, or have you had a seizure?", _C, (Concern.EPILEPSY, Amount.EASE)
    ),
    Question.PREGNANT: ScreenQuestion("Are you pregnant?", _C, (Concern.PREGNANCY, Amount.AVOID)),
    Question.BIRTH_WITHIN_A_YEAR: ScreenQuestion(
        "Have you given birth within the last year?", _C, (Concern.POSTNATAL, Amount.AVOID)
    ),
    Question.FRAGILE_BONES: ScreenQuestion(
        "Have you been told that your bones are fragile?",
        _C,
        (Concern.OSTEOPOROSIS, Amount.AVOID),
    ),
    Question.HERNIA: ScreenQuestion("Do you have a hernia?", _C, (Concern.HERNIA, Amount.AVOID)),
    Question.PELVIC_FLOOR: ScreenQuestion(
        "Do you leak, or feel heaviness below, when you jump, lift or cough?",
        _C,
        (Concern.PELVIC_FLOOR, Amount.EASE),
    ),
    Question.BALANCE_OR_FALLS: ScreenQuestion(
        "Is your balance poor, or have you fallen within the last year?",
        _C,
        (Concern.BALANCE, Amount.AVOID),
    ),
    Question.JOINTS: ScreenQuestion(
        "Is there a joint, bone or muscle that hurts or could get worse?", _C
    ),
    Question.OPERATION: ScreenQuestion("Have you had an operation within the last year?", _C),
    Question.ANYTHING_ELSE: ScreenQuestion(
        "Is there anything else that your coach should go carefully with?", _C
    ),
}
"""Every question in the order in which it is asked."""


def asked_of(feeds: Feeds) -> tuple[Question, ...]:
    """Give the questions that feed one thing, in their order."""
    return tuple(question for question, one in QUESTIONS.items() if one.feeds is feeds)
