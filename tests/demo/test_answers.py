"""The people of the demonstration have answered, whatever the day; their classes are planned."""

from datetime import date

import pytest

from roundwright.bootstrap.keeping import keeping_in_memory
from roundwright.demo.answers import answered
from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.hall.hall import Hall
from roundwright.interface import fit, read_hall
from roundwright.people.due import DueKind, due_of
from roundwright.plan.build_problem import build_problem
from roundwright.plan.outcome import Status
from roundwright.plan.verdict import Grade
from roundwright.web.house.pages.week import to_ask_before
from tests.house.a_house import TOOL

DAYS = (date(2026, 3, 3), date(2026, 11, 26), date(2028, 2, 29), date(2031, 1, 1))


def _due(hall: Hall, on: date) -> dict[str, set[DueKind]]:
    found = {}
    for person in hall.people:
        consents = next((c for c in hall.consents if c.person_id == person.person_id), None)
        asked = due_of(
            person,
            on,
            hall.screen_of(person.person_id),
            hall.clearance_of(person.person_id),
            consents,
            hall.limitations_of(person.person_id),
        )
        found[person.person_id] = {one.what for one in asked}
    return {person_id: what for person_id, what in found.items() if what}


NEVER_ASKED = {
    DueKind.SCREEN_MISSING,
    DueKind.TRAINING_CONSENT_MISSING,
    DueKind.HEALTH_DATA_CONSENT_MISSING,
    DueKind.DATA_CONSENT_MISSING,
    DueKind.EMERGENCY_CONTACT_MISSING,
}
NEEDED = {
    "p005": NEVER_ASKED,
    "p039": NEVER_ASKED,
    "p011": {DueKind.SCREEN_EXPIRED},
    "p012": {DueKind.CLEARANCE_ASKED},
    "p013": {DueKind.LIMITATION_ENDED},
    "p022": {DueKind.EMERGENCY_CONTACT_MISSING},
    "p025": {DueKind.CLEARANCE_EXPIRES},
    "p030": {DueKind.SCREEN_EXPIRES},
    "p037": {DueKind.REVIEW},
}


@pytest.mark.parametrize("on", DAYS)
def test_a_few_need_something_and_the_others_nothing(on: date) -> None:
    hall = answered(read_hall(demo_hall_folder()), on)
    assert _due(hall, on) == NEEDED
    guarded = [c.person_id for c in hall.consents if c.guardian is not None]
    young = [p.person_id for p in hall.people if p.birth_year and on.year - p.birth_year < 18]
    assert guarded == young == ["p032"]


@pytest.mark.parametrize("on", DAYS)
def test_it_is_kept_as_any_hall_is(on: date) -> None:
    hall = answered(read_hall(demo_hall_folder()), on)
    shelves = keeping_in_memory()
    try:
        shelves.halls.begin("tern_quay", hall, TOOL)
        assert shelves.halls.opened("tern_quay").hall == hall
    finally:
        shelves.close()


def test_most_may_train_as_before_and_the_files_hold_no_answers() -> None:
    on = DAYS[0]
    plain = read_hall(demo_hall_folder())
    hall = answered(plain, on)
    assert (plain.screens, plain.clearances, plain.consents) == ((), (), ())
    for class_id in hall.classes:
        before, after = (build_problem(one, class_id, on).people for one in (plain, hall))
        changed = {p for p in before if before[p].clearance is not after[p].clearance}
        assert changed <= {"p011", "p040"}
    assert set(to_ask_before(hall, hall.people, on)) == {
        *("Sunny L", "Casper F", "Dilys R", "Noor A", "Miriam Q")
    }


@pytest.mark.parametrize("on", DAYS[:2])
def test_each_class_of_the_demonstration_is_still_planned(on: date) -> None:
    hall = answered(read_hall(demo_hall_folder()), on)
    for class_id in hall.classes:
        fitted = fit(hall, class_id, on=on)
        assert fitted.outcome.status in (Status.PROVEN, Status.FOUND), class_id
        assert fitted.document is not None
        assert fitted.document.verdict.of_grade(Grade.NEVER) == ()
