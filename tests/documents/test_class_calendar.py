"""The calendar file read back: times over a change of clock, its identity, nobody unasked."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from icalendar import Calendar

from roundwright.documents.calendar_zone import clock_changes
from roundwright.documents.class_calendar import class_calendar
from roundwright.foundation.errors import DocumentError, UnsafePlanError
from roundwright.plan.document import PlanDocument
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import a_hall, sealed

STAMP = datetime(2026, 3, 1, 9, 0, 30, 123, tzinfo=UTC)
LONDON = ZoneInfo("Europe/London")


def booked(
    on: date = date(2026, 3, 3),
    at: time = time(18, 0),
    *,
    slot_s: int = 2700,
    zone: str = "Europe/London",
    revision: int = 1,
) -> PlanDocument:
    plan = document()
    class_ = plan.core.class_.model_copy(
        update={"starts_on": on, "starts_at_local": at, "slot_s": slot_s}
    )
    core = plan.core.model_copy(update={"class_": class_, "revision": revision})
    spec = plan.problem.spec.model_copy(update={"time_zone": zone})
    problem = plan.problem.model_copy(update={"spec": spec})
    return plan.model_copy(update={"core": core, "problem": problem})


def written(plan: PlanDocument, **how) -> bytes:
    return class_calendar(sealed(plan), a_hall(names(10)), STAMP, **how)


def event(data: bytes):
    (found,) = Calendar.from_ical(data).walk("VEVENT")
    return found


@pytest.mark.parametrize(
    ("on", "at", "starts", "ends"),
    [
        (date(2026, 3, 28), time(18, 0), (28, 18, 0), (28, 18, 45)),
        (date(2026, 3, 29), time(18, 0), (29, 17, 0), (29, 17, 45)),
        (date(2026, 3, 29), time(0, 30), (29, 0, 30), (29, 1, 15)),
    ],
    ids=["the evening before", "the evening after", "over the change itself"],
)
def test_times_hold_over_a_change_of_clock(on, at, starts, ends):
    found = event(written(booked(on, at)))
    for name, (day, hour, minute) in {"DTSTART": starts, "DTEND": ends}.items():
        instant = found[name].dt.astimezone(UTC)
        assert instant == datetime(2026, 3, day, hour, minute, tzinfo=UTC)
        assert str(found[name].dt.tzinfo) == "Europe/London"
    assert found["DTSTART"].dt.replace(tzinfo=None) == datetime.combine(on, at)


def test_the_zone_in_the_file_gives_the_same_offsets_as_the_real_one():
    (zone,) = Calendar.from_ical(written(booked())).walk("VTIMEZONE")
    own = zone.to_tz(lookup_tzid=False)
    at = datetime(2026, 1, 2, tzinfo=UTC)
    while at.year < 2027:
        assert at.astimezone(own).utcoffset() == at.astimezone(LONDON).utcoffset(), at
        at += timedelta(hours=7)
    onsets = {str(c["DTSTART"].dt) for c in zone.subcomponents}
    assert "2026-03-29 01:00:00" in onsets
    assert "2026-10-25 02:00:00" in onsets


def test_clock_changes_are_found_to_the_second():
    first, last = datetime(2026, 1, 1, tzinfo=UTC), datetime(2027, 1, 1, tzinfo=UTC)
    assert list(clock_changes(LONDON, first, last)) == [
        datetime(2026, 3, 29, 1, tzinfo=UTC),
        datetime(2026, 10, 25, 1, tzinfo=UTC),
    ]
    assert list(clock_changes(ZoneInfo("Asia/Tokyo"), first, last)) == []


def test_a_changed_plan_takes_the_place_of_the_older_one():
    first, second = event(written(booked())), event(written(booked(revision=2)))
    assert first["UID"] == second["UID"] == booked().core.plan_id
    assert (first["SEQUENCE"], second["SEQUENCE"]) == (1, 2)


def test_nobody_stands_in_it_unless_asked():
    quiet, asked = written(booked()), written(booked(), with_names=True)
    assert event(quiet)["CLASS"] == "PUBLIC"
    assert event(asked)["CLASS"] == "PRIVATE"
    told = event(asked)["DESCRIPTION"]
    for name in list(names(10).values())[:10]:
        assert name not in event(quiet)["DESCRIPTION"]
        assert name in told
    assert "no jumps" not in told + str(quiet)


def test_it_says_what_where_and_when_it_was_made():
    found = event(written(booked()))
    assert found["SUMMARY"] == "Tuesday circuit"
    assert found["LOCATION"].startswith("Tern Quay Hall, ")
    assert found["DTSTAMP"].dt == STAMP.replace(microsecond=0)


def test_the_same_plan_and_stamp_give_the_same_bytes_in_lines_as_the_standard_asks():
    data = written(booked(), with_names=True)
    assert data == written(booked(), with_names=True)
    lines = data.split(b"\r\n")
    assert b"\n" not in b"".join(lines)
    assert max(map(len, lines)) <= 75


def test_a_time_that_does_not_exist_is_refused_in_words():
    with pytest.raises(DocumentError, match="missing in Europe/London"):
        written(booked(date(2026, 3, 29), time(1, 30)))


def test_it_is_made_only_from_a_plan_that_the_gate_passed():
    with pytest.raises(UnsafePlanError):
        class_calendar(document(), a_hall(names(10)), STAMP)  # type: ignore[arg-type]
