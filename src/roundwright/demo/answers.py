"""What the people of the demonstration have answered: screens, agreements, whom to call. Invented.

The hall's files are as of `WRITTEN_ON` and hold no answers. Whoever looks at the house looks on
another day: everything is moved to it, so that what was said lately was said lately.
"""

from datetime import date, timedelta
from functools import partial
from typing import Any

from roundwright.hall.hall import Hall
from roundwright.library.vocabulary import Demand
from roundwright.people.agreement_words import WORDS_VERSION
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.consents import Consent, Consents, EmergencyContact, Guardian
from roundwright.people.health_screen import AnsweredBy, HealthScreen
from roundwright.people.limitation import WITH_WEEKS, Concern, Limitation
from roundwright.people.person import Clearance, Person
from roundwright.people.screen_questions import QUESTIONS, Answer, Question

WRITTEN_ON = date(2026, 3, 3)
NEVER_ASKED = frozenset({"p005", "p039"})
"""Who is known by name alone."""
LATELY = {"p004": 3, "p033": 9, "p040": 2, "p030": 350, "p011": 380}
"""Days since somebody answered: new ones, one that runs out, one that has run out."""
INACTIVE = frozenset({"p040"})
WEEKS = {Concern.PREGNANCY: 12, Concern.POSTNATAL: 6}
"""Weeks on the day from which a limitation is written down."""
ASKED_AS = {
    Concern.HIGH_BLOOD_PRESSURE: Question.HIGH_BLOOD_PRESSURE,
    Concern.ASTHMA: Question.ASTHMA,
    Concern.EPILEPSY: Question.EPILEPSY,
    Concern.PREGNANCY: Question.PREGNANT,
    Concern.POSTNATAL: Question.BIRTH_WITHIN_A_YEAR,
    Concern.OSTEOPOROSIS: Question.FRAGILE_BONES,
    Concern.HERNIA: Question.HERNIA,
    Concern.PELVIC_FLOOR: Question.PELVIC_FLOOR,
    Concern.BALANCE: Question.BALANCE_OR_FALLS,
    Concern.DIABETES: Question.DIABETES_OR_METABOLISM,
    Concern.LOW_VISION: Question.ANYTHING_ELSE,
    Concern.HARD_OF_HEARING: Question.ANYTHING_ELSE,
    Concern.ONE_ARM: Question.ANYTHING_ELSE,
    Concern.ONE_LEG: Question.ANYTHING_ELSE,
    Concern.HIGH_BODY_MASS: Question.ANYTHING_ELSE,
}
"""Which question somebody with a limitation says yes to; all others say so of a joint."""
TALKED_THROUGH = frozenset({Question.JOINTS, Question.ANYTHING_ELSE})
"""What a coach has talked through with them, by name."""
COACH = "Marlow Finch"
UNDER_AGE, GUARDIAN = "p032", "Sian H"
NOBODY_TO_CALL, REVIEW_LATE = "p022", "p037"
CALLED = ("Ada", "Bryn", "Cerys", "Dewi", "Esme", "Fergus", "Gwen", "Hugo", "Iona")
RELATIONS = ("partner", "sister", "brother", "daughter", "son", "friend", "neighbour")


def answered(hall: Hall, today: date) -> Hall:
    """Give the invented hall as it is on a day, with what its people have answered.

    Parameters
    ----------
    hall : Hall
        As its files have it.
    today : date
        The day on which it is looked at.
    """
    moved = _moved(hall, today - WRITTEN_ON)
    who = [person for person in moved.people if person.person_id not in NEVER_ASKED]
    return moved.model_copy(
        update={
            "screens": tuple(map(partial(_screen, moved, today), who)),
            "clearances": tuple(
                record for person in who if (record := _clearance(moved, today, person)) is not None
            ),
            "consents": tuple(map(partial(_consents, today), who)),
        }
    )


def _moved(hall: Hall, by: timedelta) -> Hall:
    """Give the hall with every date as long ago or ahead as it was."""

    def later(one: Any, *names: str, **more: object) -> Any:
        dates = {name: getattr(one, name) for name in names}
        return one.model_copy(
            update={name: on + by for name, on in dates.items() if on is not None} | more
        )

    def written(row: Limitation) -> Any:
        more: dict[str, object] = {}
        if row.concern in WITH_WEEKS:
            more["weeks"] = WEEKS[row.concern]
        return later(row, "from_on", "until_on", "override_until_on", **more)

    def grown(person: Person) -> Any:
        years = (WRITTEN_ON + by).year - WRITTEN_ON.year
        born = None if person.birth_year is None else person.birth_year + years
        if person.person_id == UNDER_AGE:
            born = (WRITTEN_ON + by).year - 17
        return later(person, "last_class_on", birth_year=born)

    def certified(member: Any) -> Any:
        certificates = tuple(later(c, "issued_on", "expires_on") for c in member.certificate)
        return member.model_copy(update={"certificate": certificates})

    return hall.model_copy(
        update={
            "people": tuple(map(grown, hall.people)),
            "limitations": tuple(map(written, hall.limitations)),
            "inspections": tuple(later(row, "on", "next_on") for row in hall.inspections),
            "room_care": tuple(later(care, "last_drill_on") for care in hall.room_care),
            "staff": tuple(map(certified, hall.staff)),
        }
    )


def _answered_on(person: Person, today: date) -> date:
    number = int(person.person_id[1:])
    return today - timedelta(days=LATELY.get(person.person_id, 14 + 37 * number % 290))


def _said_yes_to(hall: Hall, person: Person) -> set[Question]:
    rows = hall.limitations_of(person.person_id)
    said = {ASKED_AS.get(row.concern, Question.JOINTS) for row in rows}
    said |= set() if person.person_id in INACTIVE else {Question.ACTIVE}
    if person.effort_only:
        said.add(Question.SLOWING_MEDICINE)
    if person.clearance is Clearance.NOT_CLEARED:
        said.add(Question.DIZZY_OR_FAINT)
    return said


def _screen(hall: Hall, today: date, person: Person) -> HealthScreen:
    yes = _said_yes_to(hall, person)
    return HealthScreen(
        person_id=person.person_id,
        answered_on=_answered_on(person, today),
        by=AnsweredBy.GUARDIAN if person.person_id == UNDER_AGE else AnsweredBy.PERSON,
        answers={q: Answer.YES if q in yes else Answer.NO for q in QUESTIONS},
    )


def _clearance(hall: Hall, today: date, person: Person) -> ClearanceRecord | None:
    """Give a clinician's word with conditions, or a coach's who has talked something through."""
    given: dict[str, object] = {"person_id": person.person_id, "on": _answered_on(person, today)}
    if person.person_id == "p007":
        return ClearanceRecord(
            **given,
            clearance=Clearance.CLEARED,
            given_by=GivenBy.CLINICIAN,
            given_by_name="Dr R. Pell",
            until_on=today + timedelta(days=120),
            caps={Demand.HEAD_LOW: 0},
            effort_ceiling=6,
            words=("rises slowly from the floor",),
        )
    if person.person_id == "p025":
        return ClearanceRecord(
            **given,
            clearance=Clearance.CLEARED,
            given_by=GivenBy.CLINICIAN,
            given_by_name="Dr I. Sallow",
            until_on=today + timedelta(days=20),
            caps={Demand.IMPACT: 0},
            words=("no jumps yet",),
        )
    if not _said_yes_to(hall, person) & TALKED_THROUGH:
        return None
    word = person.clearance
    return ClearanceRecord(
        **given,
        clearance=Clearance.CLEARED if word is Clearance.UNKNOWN else word,
        given_by=GivenBy.COACH,
        given_by_name=COACH,
    )


def _consents(today: date, person: Person) -> Consents:
    number, on = int(person.person_id[1:]), _answered_on(person, today)
    agreed = Consent(on=on, words_version=WORDS_VERSION)
    family = person.shown_name.rpartition(" ")[2]
    called = EmergencyContact(
        name=f"{CALLED[number % len(CALLED)]} {family}",
        phone=f"01632 960{number:03}",
        relation=RELATIONS[number % len(RELATIONS)],
    )
    guardian = Guardian(name=GUARDIAN, relation="mother", phone="01632 960132", consent_on=on)
    return Consents(
        person_id=person.person_id,
        data=agreed,
        health_data=agreed,
        training=agreed,
        guardian=guardian if person.person_id == UNDER_AGE else None,
        emergency_contact=None if person.person_id == NOBODY_TO_CALL else called,
        review_on=today + timedelta(days=-4 if person.person_id == REVIEW_LATE else 20 + number),
    )
