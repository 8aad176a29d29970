"""Certificates and their ends, and what must be known of a room: an end passed means 'ask'."""

from datetime import date, timedelta

from roundwright.kit.room_care import RoomCare, RoomDue, room_due
from roundwright.people.staff import (
    Certificate,
    CertificateKind,
    StaffDueKind,
    StaffMember,
    staff_due,
)

TODAY = date(2026, 3, 3)
FIRST_AID, COACHING = CertificateKind.FIRST_AID, CertificateKind.COACHING


def _member(*certificates: Certificate, role: str = "coach") -> StaffMember:
    return StaffMember.model_validate(
        {"id": "marlow", "name": "Marlow", "role": role, "certificate": certificates}
    )


def _kinds(*members: StaffMember, on: date = TODAY) -> list[StaffDueKind]:
    return [one.what for one in staff_due(members, on)]


def test_what_holds_is_not_told_and_the_last_day_still_holds() -> None:
    coaching = Certificate(kind=COACHING)
    holds = _member(coaching, Certificate(kind=FIRST_AID, expires_on=TODAY))
    assert _kinds(holds) == [StaffDueKind.EXPIRES]
    far = _member(coaching, Certificate(kind=FIRST_AID, expires_on=TODAY + timedelta(29)))
    assert _kinds(far) == []


def test_the_day_after_its_end_it_is_asked_for() -> None:
    ended = _member(
        Certificate(kind=COACHING), Certificate(kind=FIRST_AID, expires_on=TODAY - timedelta(1))
    )
    assert _kinds(ended) == [StaffDueKind.NOBODY_WITH_FIRST_AID, StaffDueKind.EXPIRED]


def test_a_newer_one_of_the_kind_takes_its_place() -> None:
    renewed = _member(
        Certificate(kind=COACHING),
        Certificate(kind=FIRST_AID, expires_on=TODAY - timedelta(1)),
        Certificate(kind=FIRST_AID, issued_on=TODAY, expires_on=TODAY + timedelta(700)),
    )
    assert _kinds(renewed) == []
    not_yet = _member(
        Certificate(kind=COACHING),
        Certificate(kind=FIRST_AID, issued_on=TODAY + timedelta(1)),
    )
    assert StaffDueKind.NOBODY_WITH_FIRST_AID in _kinds(not_yet)


def test_a_coach_without_a_coaching_certificate_is_asked_an_assistant_is_not() -> None:
    aid = Certificate(kind=FIRST_AID)
    assert _kinds(_member(aid)) == [StaffDueKind.NO_COACHING]
    assert _kinds(_member(aid, role="assistant")) == []
    assert _kinds() == []


def test_of_a_room_everything_that_is_not_written_down_is_asked() -> None:
    assert set(room_due(None, "main_floor", TODAY)) == set(RoomDue)
    known = RoomCare(
        room="main_floor",
        exits=("door",),
        first_aid="box",
        defibrillator="none",
        address="4 Quay Road",
        phone="desk",
        last_drill_on=TODAY - timedelta(182),
    )
    assert room_due(known, "main_floor", TODAY) == ()
    assert room_due(known, "main_floor", TODAY + timedelta(1)) == (RoomDue.DRILL,)
