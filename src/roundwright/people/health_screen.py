"""What a person's answers to the health screen come to: unknown is not healthy."""

from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.people.limitation import Amount, Concern
from roundwright.people.person import Clearance
from roundwright.people.screen_questions import QUESTIONS, Answer, Feeds, Question, asked_of
from roundwright.people.screen_table import Referral, row_of

VALID_DAYS = 365
"""How many days a screen holds; our choice."""
NOT_TODAY = (
    "Thank you for telling us. We would like a doctor's word before you train with us, "
    "so not today. We are glad to say what to ask for."
)
MODERATE_FIRST = "You can take part at a pace at which you speak in full sentences."
ASK_FIRST = "You can take part gently; your coach has a question or two before the start."
WELCOME = "Nothing you told us stands in the way. Tell your coach when anything changes."


class AnsweredBy(StrEnum):
    """Who filled in the screen."""

    PERSON = "person"
    COACH = "coach_with_the_person"
    GUARDIAN = "guardian"


class HealthScreen(Authored):
    """The latest answers of one person; a question that is left out is blank.

    `changed_on` is the day on which somebody said that something has changed:
    from then on the screen is as if expired. Answers never show in a repr.
    """

    person_id: Slug = Field(alias="person")
    answered_on: date
    by: AnsweredBy
    changed_on: date | None = None
    answers: dict[Question, Answer] = Field(default_factory=dict, repr=False)

    def answer(self, question: Question) -> Answer:
        """Give an answer, blank where there is none."""
        return self.answers.get(question, Answer.BLANK)

    @property
    def last_day(self) -> date:
        """Give the last day on which the screen holds, if nothing changes."""
        return self.answered_on + timedelta(days=VALID_DAYS)

    def holds_on(self, on: date) -> bool:
        """Say whether the screen was answered, has not expired and nothing has changed."""
        changed = self.changed_on is not None and self.changed_on <= on
        return self.answered_on <= on <= self.last_day and not changed


@dataclass(frozen=True, slots=True)
class ScreenOutcome:
    """What a screen comes to on a date. Nothing but `for_person` may be shown to others.

    `open_questions` are blank, unsure or to be asked further; `proposed` are
    limitations that a coach should confirm; `cautions` are answers without a
    limitation of their own that need a coach's word. `effort_only`: judge effort,
    never heart rate (a medicine may slow the heart, id `beta-blocker-hrmax`).
    """

    clearance: Clearance = field(repr=False)
    referral: Referral = field(repr=False)
    starts_light: bool = field(repr=False)
    symptoms: bool = field(repr=False)
    effort_only: bool = field(repr=False)
    for_person: str = field(repr=False)
    for_coach: tuple[str, ...] = field(repr=False)
    open_questions: tuple[Question, ...] = field(repr=False)
    proposed: tuple[tuple[Concern, Amount], ...] = field(repr=False)
    cautions: tuple[Question, ...] = field(repr=False)

    @property
    def asks(self) -> tuple[str, ...]:
        """Give the questions to ask now, in words."""
        return tuple(QUESTIONS[q].words for q in (*self.open_questions, *self.cautions))


def screen_outcome(screen: HealthScreen, on: date) -> ScreenOutcome:
    """Give what a screen allows on a date, before any clearance that was recorded.

    Parameters
    ----------
    screen : HealthScreen
        The person's answers.
    on : date
        The class's date. An expired screen gives `unknown` at most; what it held
        back stays held back.

    Notes
    -----
    Only 'yes' counts as active and only 'no' as healthy. Rows of the table: see
    `screen_table`. A doctor's limit holds back as a symptom does (floor page C1).
    """
    answers = {question: screen.answer(question) for question in QUESTIONS}
    symptoms = any(
        answers[q] is Answer.YES or (QUESTIONS[q].stops_if_unsure and answers[q] is Answer.UNSURE)
        for q in (*asked_of(Feeds.SYMPTOM), *asked_of(Feeds.DOCTORS_LIMIT))
    )
    disease = any(answers[q] is Answer.YES for q in asked_of(Feeds.DISEASE))
    row = row_of(answers[Question.ACTIVE] is Answer.YES, disease, symptoms)
    unknown = tuple(q for q, a in answers.items() if a in (Answer.UNSURE, Answer.BLANK))
    may_be = [q for q, a in answers.items() if a in (Answer.YES, Answer.UNSURE)]
    cautions = tuple(
        q
        for q in may_be
        if q in (Question.JOINTS, Question.OPERATION, Question.ANYTHING_ELSE) and q not in unknown
    )
    known = not unknown and screen.holds_on(on)
    if row.referral is Referral.BEFORE_ANY:
        clearance, words = Clearance.NOT_CLEARED, NOT_TODAY
    elif not known:
        clearance, words = Clearance.UNKNOWN, ASK_FIRST
    elif row.referral is Referral.BEFORE_VIGOROUS or cautions:
        clearance, words = Clearance.MODERATE_ONLY, MODERATE_FIRST
    else:
        clearance, words = Clearance.CLEARED, WELCOME
    return ScreenOutcome(
        clearance=clearance,
        referral=row.referral,
        starts_light=row.starts_light,
        symptoms=symptoms,
        effort_only=answers[Question.SLOWING_MEDICINE] is not Answer.NO,
        for_person=words,
        for_coach=_for_coach(row.referral, row.starts_light, bool(unknown), screen.holds_on(on)),
        open_questions=unknown,
        proposed=tuple(p for q in may_be if (p := QUESTIONS[q].proposes) is not None),
        cautions=cautions,
    )


def _for_coach(referral: Referral, light: bool, unknown: bool, holds: bool) -> tuple[str, ...]:
    words = {
        Referral.NONE: "No clearance needed.",
        Referral.BEFORE_VIGOROUS: "Moderate work; a clinician's word before vigorous work.",
        Referral.BEFORE_ANY: "Clearance first, not today: ask for a clinician's word.",
    }
    said = [words[referral]]
    if light:
        said.append("Light to moderate at first; it may grow from there.")
    if unknown:
        said.append("Some answers are blank or unsure: ask, light to moderate until then.")
    if not holds:
        said.append("The screen no longer holds: ask it again.")
    return tuple(said)
